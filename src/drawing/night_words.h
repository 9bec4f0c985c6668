// SPDX-License-Identifier: GPL-3.0-or-later
//
// A storey's light in words, lengths in the sheet's unit; the plan's own words are in metres.
#pragma once

#include <string>

#include "drawing/sheet.h"

namespace belvedere::drawing {

// "0.11 to 6.2 lx upright to the camera, 1 m up": on a plane that is turned to it
std::string lightWords(const NightPlan& night, const LengthUnit& unit);
// The same without figures: "lx upright to the camera, 3.3 ft up"
std::string planeWords(const NightPlan& night, const LengthUnit& unit);

}  // namespace belvedere::drawing
