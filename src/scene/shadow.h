// SPDX-License-Identifier: GPL-3.0-or-later
//
// Shadow: where on a level floor a body stands between a lens and some height of a band over the
// floor. What a convex body hides from a point is convex, so is the part of that between the ends
// of the band, and so its plan: a convex outline, which may reach to infinity. Where a target needs
// its whole band, a place is hidden by the body exactly when it lies within this outline, so that
// cells of the floor are judged against it in plan.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "scene/scene.h"

namespace belvedere::scene {

// One side of an outline, anticlockwise: dot(normal, p) <= offset within, normal of length one.
struct ShadowSide {
  Vec2 normal;
  double offset = 0;
};
// A corner; or, where `far`, the direction in which the outline reaches to infinity.
struct ShadowCorner {
  Vec2 at;
  bool far = false;
};
struct Shadow {
  std::uint32_t first_side = 0, side_count = 0;
  std::uint32_t first_corner = 0, corner_count = 0;
  Box2 box;
};
struct Shadows {
  std::vector<ShadowSide> sides;
  std::vector<ShadowCorner> corners;
  std::vector<Shadow> all;
};

// Shadows are told for lenses at least this far above the band.
inline constexpr double kLensAboveM = 1e-3;

// Adds the shadow of a body, if it has one, over a band between two heights of the site.
// lens_m.z >= high_z + kLensAboveM.
void addShadow(const Scene& scene, const Body& body, const Vec3& lens_m, double low_z,
               double high_z, Shadows& out);

// How a shadow lies over a convex ring (anticlockwise): touching it at most, across it, or over all
// of it. Errs towards `across`, by kShadowGuardM for `covers`.
enum class Lies { apart, across, covers };
inline constexpr double kShadowGuardM = 2e-8;
Lies liesOver(const Shadows& shadows, const Shadow& shadow, std::span<const Vec2> ring,
              const Box2& ring_box);

}  // namespace belvedere::scene
