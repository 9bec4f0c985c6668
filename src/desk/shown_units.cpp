// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/shown_units.h"

#include <QSettings>

#include <optional>

#include "base/units.h"

namespace belvedere::desk {
namespace {

std::optional<edit::Units> known;  // of the window's thread

}  // namespace

edit::Units shownUnits() {
  if (!known)
    known = QSettings().value("units").toString() == "imperial" ? edit::Units::imperial
                                                                 : edit::Units::metric;
  return *known;
}

drawing::LengthUnit shownUnit() {
  return shownUnits() == edit::Units::imperial ? drawing::LengthUnit{feetToM(1), "ft"}
                                               : drawing::LengthUnit{};
}

void setShownUnits(edit::Units units) {
  known = units;
  QSettings().setValue("units", units == edit::Units::imperial ? "imperial" : "metric");
}

}  // namespace belvedere::desk
