// SPDX-License-Identifier: GPL-3.0-or-later
//
// Putting bodies together: for those who build scenes.
#pragma once

#include <array>
#include <vector>

#include "scene/scene.h"

namespace belvedere::scene {

// A convex polyhedron with indices of its own.
struct Hull {
  std::vector<Plane> planes;
  std::vector<Vec3> vertices;
  std::vector<std::array<std::uint32_t, 2>> edges;
};
void addHull(Scene& scene, const Hull& hull, std::uint32_t source);

// The ring of a body's face: its vertices within tolerance_m of one of its planes, anticlockwise
// seen from outside. Absolute indices into scene.vertices; none where the plane only touches.
std::vector<std::uint32_t> faceOf(const Scene& scene, const Body& body, const Plane& plane,
                                  double tolerance_m);

}  // namespace belvedere::scene
