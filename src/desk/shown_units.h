// SPDX-License-Identifier: GPL-3.0-or-later
//
// Metric or imperial, as the person has set it ("units" of the settings: "metric" or "imperial").
// Asked with every frame, so it is read from the settings once.
#pragma once

#include "drawing/sheet.h"
#include "edit/lengths.h"

namespace belvedere::desk {

edit::Units shownUnits();
// Of figures that the drawing room writes.
drawing::LengthUnit shownUnit();
// Kept in the settings as well.
void setShownUnits(edit::Units units);

}  // namespace belvedere::desk
