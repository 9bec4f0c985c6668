// SPDX-License-Identifier: GPL-3.0-or-later
//
// A movement of the plan, and what it does to each object. Results are rounded to a nanometre and a
// billionth of a degree, so that 1.1 + 0.2 stands as 1.3 in the file.
#pragma once

#include <set>
#include <string>
#include <unordered_map>

#include "design/design.h"

namespace belvedere::edit {

struct Motion {
  Vec2 about, by;             // p becomes about + linear (p - about) + by
  Vec2 column_x{1, 0}, column_y{0, 1};  // of the linear part
  double turn_deg = 0;        // clockwise
  bool mirror = false;
  double axis_deg = 0;        // bearing of the mirror's line

  static Motion shift(Vec2 by);
  static Motion turn(Vec2 about, double clockwise_deg, Vec2 by);
  static Motion reflection(Vec2 a, Vec2 b);

  bool turns() const { return mirror || turn_deg != 0; }
  Vec2 point(Vec2 p) const;
  double bearing(double deg) const;  // in [0, 360) where it turns, else as it was
};
using Motions = std::unordered_map<std::string, const Motion*>;  // by id

// Applies each object's motion, once: of a wall or opening that is part of something named here,
// the whole's. Requirements turn and move with their zone (facings, a rule's line). Drawings are
// not mirrored: they stay. Returns the ids of what changed.
std::set<std::string> applyMotions(design::Design& design, const Motions& motions);

}  // namespace belvedere::edit
