// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an unrolled or stitched view shows of the directions from its lens: so many degrees of
// bearing, and of depression below the horizontal. docs/format.md, "Frames", says around what.
#pragma once

#include <array>
#include <vector>

#include "geometry/vec.h"

namespace belvedere::design {

struct ViewSpan {
  double bearing_deg = 0;                             // of the middle, clockwise from +y
  double half_width_deg = 180;                        // to either side; 180: all round
  std::array<double, 2> depression_deg{-90, 90};      // least, most
  // What follows from these. Upright planes through the lens are its sides: plan normals that point
  // inwards. A direction is between the sides on the inner side of both of them; where the view is
  // wider than half a turn, of either.
  std::array<Vec2, 2> inward;
  std::array<Vec2, 2> depression_cos_sin;             // of least, of most
  bool operator==(const ViewSpan&) const = default;

  bool allRound() const { return half_width_deg >= 180; }
  bool wide() const { return half_width_deg > 90; }
  bool limits(std::size_t end) const {                // 0: the least depression, 1: the most
    return end == 0 ? depression_deg[0] > -90 : depression_deg[1] < 90;
  }
  // At least 0 on the right side of the least (0) or the most (1) depression, for a direction so far
  // below the lens and so far from it in plan.
  double withinDepression(std::size_t end, double below_m, double plan_m) const {
    const double past = below_m * depression_cos_sin[end].x - plan_m * depression_cos_sin[end].y;
    return end == 0 ? past : -past;
  }
  // Does the view show this direction (site), by bearing and by depression? Straight below and above
  // the lens every bearing will do.
  bool holdsBearing(Vec2 sight) const;
  bool holdsDepression(const Vec3& sight) const;
};

// span_deg: width and height. The rows are shifted where they would pass straight below or above.
ViewSpan viewSpan(double bearing_deg, double middle_depression_deg, std::array<double, 2> span_deg);

// The middle of the narrowest sector that holds all bearings (the first from north on, of several).
double middleBearingDeg(std::vector<double> bearings_deg);

}  // namespace belvedere::design
