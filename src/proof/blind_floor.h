// SPDX-License-Identifier: GPL-3.0-or-later
//
// The floor around a camera's foot: what blind zones are cut out of.
#pragma once

#include <optional>
#include <vector>

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

// Every storey with its slab on the site: made once, asked for many lenses.
struct Slab {
  const design::Storey* storey = nullptr;
  Region outline;
  Box2 box;
};
std::vector<Slab> slabsOf(const design::Design& design);
// The storey under a lens: the highest whose slab holds the foot and whose floor is not above the
// lens, unless the lens is above its roof. Null: open ground.
const design::Storey* storeyUnder(const std::vector<Slab>& slabs, const Vec3& lens_m);

FloorUnder floorOf(const design::Design& design, const design::Situation& situation,
                   const design::Storey& storey);
// Open ground at z = 0 out to kOpenFloorM around a foot, less the buildings and solids on it.
FloorUnder openGround(const design::Design& design, const design::Situation& situation,
                      const std::vector<Slab>& slabs, Vec2 foot);

// A disc, as a ring of so many corners that it lacks less than 1e-5 of its area.
Ring disc(Vec2 centre, double radius_m);

// Where on the floor the foot is: the foot itself; where that is in a wall or on a rack, the first
// place along `heading` (plan, any length) that is floor, else the nearest. Nothing where there is
// no floor.
std::optional<Vec2> footOn(const Region& floor, Vec2 foot, Vec2 heading);

}  // namespace belvedere::proof
