// SPDX-License-Identifier: GPL-3.0-or-later
//
// For our own mistakes only: on in every build, since a crash beats a wrong proof.
#pragma once

namespace belvedere {
[[noreturn]] void checkFailed(const char* condition, const char* what, const char* file, int line);
}

#define BELVEDERE_CHECK(condition, what_should_hold)                                    \
  do {                                                                                  \
    if (!(condition)) [[unlikely]]                                                      \
      ::belvedere::checkFailed(#condition, what_should_hold, __FILE__, __LINE__);       \
  } while (false)
