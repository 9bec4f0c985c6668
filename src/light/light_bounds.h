// SPDX-License-Identifier: GPL-3.0-or-later
//
// Light over a box: least and greatest of what lamps.h and illuminance.h say at its points, so that a
// proof can settle a whole cell. Rigorous but for rounding, for which kLightGuard is left on either
// side; bounds shrink to the value as the box shrinks.
//
// A box is the hull of some corners (a scene::Prism's), its normals a cone of directions.
#pragma once

#include <array>
#include <optional>
#include <span>

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

// The same to first order: the value at a place, and the slopes along the site's axes at all points of the box, so
// that at any of them the value is that at `at_m` plus slopes times the way there. Nothing where it jumps in the
// box, or the light is too near.
struct Slopes {
  double value = 0;
  std::array<Interval, 3> slope;  // per metre
};
//   lens_m  what upright planes are turned to (facingInPlan); nothing: the plane is level
std::optional<Slopes> illuminanceSlopes(const Luminaire& luminaire, std::span<const Vec3> corners,
                                        const std::optional<Vec3>& lens_m, const Vec3& at_m);
std::optional<Slopes> shareSlopes(const Lamp& lamp, std::span<const Vec3> corners, const Vec3& at_m);

}  // namespace belvedere::light
