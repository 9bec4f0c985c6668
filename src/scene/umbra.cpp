// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/umbra.h"

#include <algorithm>
#include <cmath>

namespace belvedere::scene {
namespace {

// A polyhedron counts from kTouchM below its surface (sightline.h): what of it is left lies inside each of
// its supporting planes by as much, which leaves room for rounding. A triangle has no such room.
constexpr double kTriangleSkinM = 1e-7;
constexpr double kSurelyGuardM = 2e-8;

// The planes through the point along those edges that have all of the body on one side.
void addSilhouette(const Scene& scene, const Body& body, const Vec3& from, Umbras& out) {
  const auto vertices =
      std::span(scene.vertices).subspan(body.first_vertex, body.vertex_count);
  for (const Edge& edge : std::span(scene.edges).subspan(body.first_edge, body.edge_count)) {
    Vec3 normal = cross(scene.vertices[edge.a] - from, scene.vertices[edge.b] - from);
    const double size = norm(normal);
    if (!(size > 1e-12)) continue;
    normal = normal / size;
    double low = 0, high = 0;
    for (const Vec3& v : vertices) {
      const double d = dot(normal, v - from);
      low = std::min(low, d);
      high = std::max(high, d);
    }
    if (high <= 0.5 * kTouchM) out.sides.push_back({normal, dot(normal, from)});
    else if (low >= -0.5 * kTouchM) out.sides.push_back({-normal, -dot(normal, from)});
  }
}

void cutAbove(Interval& heights, double at_foot, double rise) {
  // Keeps those t with at_foot + rise t <= 0.
  if (rise > 0) heights.high = std::min(heights.high, -at_foot / rise);
  else if (rise < 0) heights.low = std::max(heights.low, -at_foot / rise);
  else if (at_foot > 0) heights = {1, -1};
}

bool sliceHidden(const Scene& scene, const Body& body, const Vec3& from, const Prism& prism,
                 double height_m) {
  return std::all_of(prism.lower().begin(), prism.lower().end(), [&](const Vec3& c) {
    return hides(scene, body, from, {c.x, c.y, c.z + height_m});
  });
}

}  // namespace

void addUmbra(const Scene& scene, std::uint32_t index, const Vec3& from, Umbras& out) {
  const Body& body = scene.bodies[index];
  Umbra umbra{index, static_cast<std::uint32_t>(out.sides.size()), 0, 0};
  if (body.triangle()) {
    const Vec3* v = &scene.vertices[body.first_vertex];
    Vec3 normal = cross(v[1] - v[0], v[2] - v[0]);
    const double size = norm(normal);
    if (!(size > 0)) return;
    normal = normal / size;
    const double side = dot(normal, from - v[0]);
    if (std::fabs(side) <= kTouchM) return;
    if (side < 0) normal = -normal;
    out.sides.push_back({normal, dot(normal, v[0])});
    umbra.skin_m = kTriangleSkinM;
    addSilhouette(scene, body, from, out);
  } else {
    bool inside = true;
    for (std::uint32_t i = 0; i < body.plane_count; ++i) {
      const Plane& plane = scene.planes[body.first_plane + i];
      if (dot(plane.normal, from) - plane.offset + kTouchM < 0) continue;
      inside = false;
      out.sides.push_back(plane);
    }
    if (!inside) addSilhouette(scene, body, from, out);
  }
  umbra.side_count = static_cast<std::uint32_t>(out.sides.size()) - umbra.first_side;
  out.all.push_back(umbra);
}

HiddenHeights hiddenHeights(const Scene& scene, const Umbras& umbras, const Umbra& umbra,
                            const Vec3& from, const Prism& prism) {
  const double tall_m = prism.corner[prism.sides].z - prism.corner[0].z;
  const Interval nowhere{1, -1};
  HiddenHeights hidden{{0, tall_m}, {0, tall_m}};
  for (std::uint32_t i = umbra.first_side; i < umbra.first_side + umbra.side_count; ++i) {
    const Plane& side = umbras.sides[i];
    double low = 1e300, high = -1e300;
    for (const Vec3& c : prism.lower()) {
      const double d = dot(side.normal, c) - side.offset;
      low = std::min(low, d);
      high = std::max(high, d);
    }
    cutAbove(hidden.perhaps, low - umbra.skin_m, side.normal.z);
    // At a single height touching is as good as apart; else it leaves a single height.
    if (hidden.perhaps.low > hidden.perhaps.high ||
        (tall_m > 0 && hidden.perhaps.low == hidden.perhaps.high))
      return {nowhere, nowhere};
    cutAbove(hidden.surely, high + kSurelyGuardM, side.normal.z);
  }
  if (hidden.surely.low > hidden.surely.high) hidden.surely = nowhere;
  if (hidden.surely.low > hidden.surely.high || umbra.side_count == 0) return hidden;
  // What is hidden is convex: with the corners of two slices, all between.
  const Body& body = scene.bodies[umbra.body];
  if (!sliceHidden(scene, body, from, prism, hidden.surely.low) ||
      (hidden.surely.high > hidden.surely.low &&
       !sliceHidden(scene, body, from, prism, hidden.surely.high)))
    hidden.surely = nowhere;
  return hidden;
}

}  // namespace belvedere::scene
