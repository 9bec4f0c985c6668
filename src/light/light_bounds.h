// SPDX-License-Identifier: GPL-3.0-or-later
//
// Light over a box: least and greatest of what lamps.h and illuminance.h say at its points, so that a
// proof can settle a whole cell. Rigorous but for rounding, for which kLightGuard is left on either
// side; bounds shrink to the value as the box shrinks.
//
// A box is the hull of some corners (a scene::Prism's), its normals a cone of directions.
#pragma once

#include <span>
#include <vector>

#include "geometry/interval.h"
#include "light/illuminance.h"
#include "light/lamps.h"
#include "scene/shaft.h"

namespace belvedere::light {

inline constexpr double kLightGuard = 1e-11;  // relative

// How a box lies from a point: it is within half_rad of `axis` (unit) and between the two distances.
// Around or beside the point nothing is known: half_rad is pi, near_m 0.
struct SeenBox {
  Vec3 axis{0, 0, 1};
  double half_rad = 0, near_m = 0, far_m = 0;
};
SeenBox seenFrom(const Vec3& point, std::span<const Vec3> corners);

// Unit normals within half_rad of one.
struct Normals {
  Vec3 middle{0, 0, 1};
  double half_rad = 0;
};
// facingInPlan and normalized(lens - at), over all points of a box.
Normals normalsInPlan(const Vec3& lens_m, std::span<const Vec3> corners);
Normals normalsToward(const Vec3& lens_m, std::span<const Vec3> corners);

// Nothing between is considered by these two.
Interval illuminanceOver(const Luminaire& luminaire, std::span<const Vec3> corners,
                         const Normals& normals);
Interval shareOver(const Lamp& lamp, std::span<const Vec3> corners);

// The share of a band that passes from a lamp to a box: least and greatest over its points.
//   among  bodies that a larger box's shaft met, or null for the whole scene
//   met    if given, is set to those that this one's meets; may be the same list as `among`
Interval passesOver(const Solids& solids, const Vec3& from, const scene::Prism& prism,
                    scene::Band band, const std::vector<std::uint32_t>* among = nullptr,
                    std::vector<std::uint32_t>* met = nullptr);

}  // namespace belvedere::light
