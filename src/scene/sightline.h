// SPDX-License-Identifier: GPL-3.0-or-later
//
// One sightline at a time, in double precision: what decides at a point. Touching a body, sliding
// along its face, starting or ending on it does not hide (handbook 19): a body counts from
// kTouchM below its surface. A triangle hides from both sides, its edges included, and two
// triangles that share an edge leave no gap there (the edge tests are exact negatives of each
// other).
#pragma once

#include <cstdint>
#include <optional>

#include "scene/body_tree.h"

namespace belvedere::scene {

inline constexpr double kTouchM = 1e-9;  // seams overlap by a thousand times as much

// Whether this one body hides b from a.
bool hides(const Scene& scene, const Body& body, const Vec3& a, const Vec3& b);

// A body that hides b from a, or nothing. Not necessarily the nearest. `first_guess`: tried first,
// since neighbouring sightlines are mostly hidden by the same body.
std::optional<std::uint32_t> blockerOf(const Scene& scene, const BodyTree& tree, const Vec3& a,
                                       const Vec3& b, Blocking blocking,
                                       std::optional<std::uint32_t> first_guess = {});

// The share of a band of light that passes from a to b: the shares of all that stands between,
// multiplied. A thing (a source of the scene: a wall, a pane, a solid) counts once, of however many
// bodies it is made. 0 as soon as one lets nothing through.
//   blocked_by  if given: tried first where it holds a body, and set to the body that blocks, or to
//               nothing
double passingShare(const Scene& scene, const BodyTree& tree, const Vec3& a, const Vec3& b,
                    Band band, std::optional<std::uint32_t>* blocked_by = nullptr);

// What a sightline from a towards b meets first, of the bodies that take something of a band of
// light: from outside, so that what a lies in, or on the face of, does not count.
struct FirstHit {
  double share = 0;  // of the way from a to b
  std::uint32_t body = 0;
  Vec3 normal;       // of the face that is met, unit, towards a
};
std::optional<FirstHit> firstHit(const Scene& scene, const BodyTree& tree, const Vec3& a,
                                 const Vec3& b, Band band);

}  // namespace belvedere::scene
