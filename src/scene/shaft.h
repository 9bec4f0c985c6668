// SPDX-License-Identifier: GPL-3.0-or-later
//
// Shaft: the convex hull of a lens point and a prism: a convex outline between a lower and an upper
// face (flat, thin and sheared ones too). Nothing in it means that every sightline from the lens
// to the prism passes. Answers err on the safe side: `meets` says no only when a separating plane
// is found (Haines and Wallace, 1991, with the planes through the apex and the body's own edges
// added), to within kTouchM.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "scene/body_tree.h"
#include "scene/sightline.h"

namespace belvedere::scene {

inline constexpr std::size_t kOutlineMost = 16;  // corners of an outline

// Corners of a prism: `sides` of the lower face, anticlockwise from above, then as many of the
// upper face over them.
struct Prism {
  std::array<Vec3, 2 * kOutlineMost> corner;
  std::size_t sides = 0;
  std::span<const Vec3> corners() const { return {corner.data(), 2 * sides}; }
  std::span<const Vec3> lower() const { return {corner.data(), sides}; }
  std::span<const Vec3> upper() const { return {corner.data() + sides, sides}; }
};

struct Shaft {
  Vec3 apex;
  const Prism* prism = nullptr;          // must outlive the shaft
  std::array<Plane, 5 * kOutlineMost> plane;  // outward; the hull lies on their inner side
  std::size_t planes = 0;
  Box3 box;
};
Shaft makeShaft(const Vec3& apex, const Prism& prism);

// False only when body and shaft are disjoint (but for touching).
bool meets(const Scene& scene, const Body& body, const Shaft& shaft);

// Indices of the blocking bodies that may meet the shaft, in the tree's order: of the whole scene,
// or of those in `among` (what a larger shaft met).
void bodiesIn(const Scene& scene, const BodyTree& tree, const Shaft& shaft, Blocking blocking,
              std::vector<std::uint32_t>& out);
// Those that take something of a band of light.
void bodiesIn(const Scene& scene, const BodyTree& tree, const Shaft& shaft, Band band,
              std::vector<std::uint32_t>& out);
// The same by the bodies' boxes alone: sooner, and more of them.
void bodiesNear(const Scene& scene, const BodyTree& tree, const Shaft& shaft, Blocking blocking,
                std::vector<std::uint32_t>& out);
void bodiesIn(const Scene& scene, std::span<const std::uint32_t> among, const Shaft& shaft,
              std::vector<std::uint32_t>& out);

// True when this body alone hides every one of the points from the apex; the shadow of a convex
// body is convex, so it then hides all that lies between them.
bool hidesAll(const Scene& scene, const Body& body, const Vec3& apex, std::span<const Vec3> points);

}  // namespace belvedere::scene
