// SPDX-License-Identifier: GPL-3.0-or-later
//
// Umbra: where in space a body hides a point from a light or a lens. Of a convex body it is convex, the
// half-spaces behind the faces that are turned to the point and behind the planes through the point and
// the silhouette. Over a plan cell the heights at which all of it, or perhaps some of it, lies hidden are
// then two intervals: what a sum of many lights needs to know of each.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/interval.h"
#include "scene/scene.h"
#include "scene/shaft.h"

namespace belvedere::scene {

struct Umbra {
  std::uint32_t body = 0;
  // Of half-spaces; none where the point lies in the body, which then hides everything.
  std::uint32_t first_side = 0, side_count = 0;
  double skin_m = 0;  // beyond a side by more than this nothing is hidden
};
struct Umbras {
  std::vector<Plane> sides;  // unit normals; what is hidden is on the inner side of each
  std::vector<Umbra> all;
};

// Adds the umbra of a body seen from a point, where it hides anything.
void addUmbra(const Scene& scene, std::uint32_t body, const Vec3& from, Umbras& out);

// Heights over the lower face of a prism whose upper face lies straight over it.
struct HiddenHeights {
  Interval perhaps;  // beyond it no point is hidden
  Interval surely;   // within it every point is; empty (low > high) where there are none
  bool any() const { return perhaps.low <= perhaps.high; }
  bool always(double tall_m) const { return surely.low <= 0 && surely.high >= tall_m; }
};
HiddenHeights hiddenHeights(const Scene& scene, const Umbras& umbras, const Umbra& umbra,
                            const Vec3& from, const Prism& prism);

}  // namespace belvedere::scene
