// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/check.h"

#include <cstdio>
#include <stdexcept>
#include <string>

namespace belvedere {
// Thrown, so that a front door can end with exit code 4 and say what to report.
void checkFailed(const char* condition, const char* what, const char* file, int line) {
  throw std::logic_error(std::string("our mistake: ") + what + " [" + condition + ", " + file + ":" +
                         std::to_string(line) + "]");
}
}  // namespace belvedere
