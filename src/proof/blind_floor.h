// SPDX-License-Identifier: GPL-3.0-or-later
//
// The floor around a camera's foot: what blind zones are cut out of.
#pragma once

#include "design/design.h"
#include "geometry/polygon.h"
#include "geometry/vec.h"

namespace belvedere::proof {

// How far an open floor is looked at around a foot, m.
inline constexpr double kOpenFloorM = 100;

struct FloorUnder {
  double z_m = 0;
  Region region;  // site, less what stands on it
};
// The floor under a lens: of the highest storey whose slab holds the foot and whose floor is not
// above the lens, unless the lens is above its roof. Where there is none, open ground at z = 0 out
// to kOpenFloorM, less the buildings and solids that stand on it.
FloorUnder floorUnder(const design::Design& design, const design::Situation& situation,
                      const Vec3& lens_m);

// A disc, as a ring of so many corners that it lacks less than 1e-5 of its area.
Ring disc(Vec2 centre, double radius_m);

// Where on the floor the foot is: the foot itself; where that is in a wall or on a rack, the first
// place along `heading` (plan, any length) that is floor, else the nearest. Nothing without a floor.
std::optional<Vec2> footOn(const Region& floor, Vec2 foot, Vec2 heading);

}  // namespace belvedere::proof
