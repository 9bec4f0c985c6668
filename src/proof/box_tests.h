// SPDX-License-Identifier: GPL-3.0-or-later
//
// The judge's tests over a slab: a cell of the floor between two heights. Each answers `all` when
// every point of the slab passes, `none` when every point fails, else `mixed`.
#pragma once

#include <array>

#include "optics/lens_bounds.h"
#include "proof/judge.h"
#include "scene/shaft.h"

namespace belvedere::proof {

struct Slab {
  std::array<Vec3, 8> corner;  // as scene::Shaft numbers them; bit 2: upper side
  Vec3 centre;
  std::array<Vec3, 3> half;
};
// Heights above the floor. The floor may slope: the slab is then sheared.
Slab slabOf(const scene::Floor& floor, const Cell& cell, double low_m, double high_m);

optics::PictureBounds pictureOf(const design::PosedImager& view, const Slab& slab);

Over frameOver(const design::PosedImager& view, const optics::PictureBounds& picture);
// Density of the judged picture over the slab; nothing where it cannot be bounded.
std::optional<Interval> densityOver(const design::PosedImager& view, const Cell& cell,
                                    const optics::PictureBounds& picture);
Over elevationOver(const design::PosedImager& view, const Cell& cell, const Slab& slab,
                   double elevation_max_deg);
Over yawOver(const design::PosedImager& view, const Cell& cell, const design::Facing& facing);
Over maskOver(const design::PosedImager& view, const optics::PictureBounds& picture);

// Least and greatest plan distance from a point to a cell.
std::array<double, 2> planDistances(const Cell& cell, Vec2 from);
// Does the plan rectangle [low, high] lie inside the ring (all), outside it (none), or across?
Over rectangleIn(const Ring& ring, Vec2 low, Vec2 high);

}  // namespace belvedere::proof
