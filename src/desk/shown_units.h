// SPDX-License-Identifier: GPL-3.0-or-later
//
// Metric or imperial, as the person has set it ("units": "metric" or "imperial").
#pragma once

#include <QSettings>

#include "edit/lengths.h"

namespace belvedere::desk {

inline edit::Units shownUnits() {
  return QSettings().value("units").toString() == "imperial" ? edit::Units::imperial
                                                             : edit::Units::metric;
}

}  // namespace belvedere::desk
