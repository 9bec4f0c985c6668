// SPDX-License-Identifier: GPL-3.0-or-later
//
// Light over a box: least and greatest of what lamps.h and illuminance.h say at its points, so that a
// proof can settle a whole cell. Rigorous but for rounding, for which kLightGuard is left on either
// side; bounds shrink to the value as the box shrinks.
//
// A box is the hull of some corners (a scene::Prism's), its normals a cone of directions.
#pragma once

#include <array>
#include <limits>
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
  // How far what they are turned to is; without end: they are all the same.
  double near_m = std::numeric_limits<double>::infinity(), far_m = near_m;
};
// facingInPlan and normalized(lens - at), over all points of a box.
Normals normalsInPlan(const Vec3& lens_m, std::span<const Vec3> corners);
Normals normalsToward(const Vec3& lens_m, std::span<const Vec3> corners);

// A luminaire from a box: how that lies from it, and its intensity over the box.
struct Cast {
  SeenBox seen;
  Interval candela;
};
Cast castOver(const Luminaire& luminaire, std::span<const Vec3> corners);

// Nothing between is considered by these.
Interval illuminanceOver(const Luminaire& luminaire, const Cast& cast, std::span<const Vec3> corners,
                         const Normals& normals);
Interval shareOver(const Lamp& lamp, std::span<const Vec3> corners);

// The same to first order: the value at a place, and the slopes along the site's axes at all points of the box, so
// that at any of them the value is that at `at_m` plus slopes times the way there. Nothing where it jumps in the
// box, or the light is too near.
struct Slopes {
  double value = 0;
  std::array<Interval, 3> slope{};  // per metre
  // Where light grazes the plane, or some of the box is turned away from it, that goes for the light's height over
  // the plane: its light is some of these times the height, and nothing where that is below zero.
  std::optional<Interval> per_height;
};
//   normals  of normalsInPlan, or all the same; `normal` is that at `at_m`
std::optional<Slopes> illuminanceSlopes(const Luminaire& luminaire, const Cast& cast,
                                        std::span<const Vec3> corners, const Normals& normals,
                                        const Vec3& at_m, const Vec3& normal);
std::optional<Slopes> shareSlopes(const Lamp& lamp, std::span<const Vec3> corners, const Vec3& at_m);

}  // namespace belvedere::light
