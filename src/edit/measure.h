// SPDX-License-Identifier: GPL-3.0-or-later
//
// Measuring on the plan, site metres.
#pragma once

#include <optional>
#include <vector>

#include "geometry/vec.h"

namespace belvedere::edit {

// Bearing in which one sees `to` from `from`: degrees clockwise from +y in [0, 360); 0 where they
// are the same.
double bearingDeg(Vec2 from, Vec2 to);
// The place so far away in a bearing; exact at quarter turns.
Vec2 placeAt(Vec2 from, double bearing_deg, double distance_m);
// The place nearest to `to` that lies along or square to one of the bearings as seen from `from`.
Vec2 squareFrom(Vec2 from, Vec2 to, const std::vector<double>& axes_deg);
double lengthOf(const std::vector<Vec2>& line);

// A length that a pointer gave, to the millimetre.
double tidyLength(double m);

struct Measured {
  double distance_m = 0;                  // from the first point to the last, straight
  std::optional<double> bearing_deg;      // likewise; none where they are the same
  double along_m = 0;                     // along all points
  double perimeter_m = 0;                 // and back to the first
  std::optional<double> area_m2;          // enclosed; none for fewer than three points, and where
                                          // the outline crosses itself
};
Measured measured(const std::vector<Vec2>& points);

}  // namespace belvedere::edit
