// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window's page of services, for its tests.
#pragma once

#include "desk/services_page.h"
#include "desk_test_tools.h"

namespace belvedere::desk {

inline ServicesPage* pageOf(MainWindow& window) { return window.findChild<ServicesPage*>("services"); }

// Until the sizes shown are those of the design as it is now.
inline bool waitForSizes(MainWindow& window) {
  return QTest::qWaitFor(
      [&] {
        const auto now = pageOf(window)->maker().now();
        return now && now->version == window.workspace().version();
      },
      60'000);
}

}  // namespace belvedere::desk
