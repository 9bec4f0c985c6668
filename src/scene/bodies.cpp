// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/bodies.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "base/check.h"

namespace belvedere::scene {
namespace {

// Corners nearer than this are one; well below kSeamOverlapM, which must survive.
constexpr double kSameM = 1e-9;
// Heights given to a prism lie in a plane to within this.
constexpr double kPlanarM = 1e-6;

// The plane of a ring of points, normal by Newell's method, moved out until no point lies beyond.
// Which way round the ring goes decides which way it looks; no plane for a ring of no area.
std::optional<Plane> planeOf(const std::vector<Vec3>& ring, const std::vector<Vec3>& all) {
  Vec3 normal;
  for (std::size_t i = 1; i + 1 < ring.size(); ++i)
    normal = normal + cross(ring[i] - ring[0], ring[i + 1] - ring[0]);
  const double size = norm(normal);
  if (size <= 0) return std::nullopt;
  Plane plane{normal / size, -1e300};
  for (const Vec3& p : all) plane.offset = std::max(plane.offset, dot(plane.normal, p));
  return plane;
}

}  // namespace

void addHull(Scene& scene, const Hull& hull, std::uint32_t source) {
  Body body;
  body.first_plane = static_cast<std::uint32_t>(scene.planes.size());
  body.plane_count = static_cast<std::uint32_t>(hull.planes.size());
  body.first_vertex = static_cast<std::uint32_t>(scene.vertices.size());
  body.vertex_count = static_cast<std::uint32_t>(hull.vertices.size());
  body.first_edge = static_cast<std::uint32_t>(scene.edges.size());
  body.edge_count = static_cast<std::uint32_t>(hull.edges.size());
  body.source = source;
  for (const Vec3& v : hull.vertices) body.box.add(v);
  scene.planes.insert(scene.planes.end(), hull.planes.begin(), hull.planes.end());
  scene.vertices.insert(scene.vertices.end(), hull.vertices.begin(), hull.vertices.end());
  for (const auto& [a, b] : hull.edges)
    scene.edges.push_back({body.first_vertex + a, body.first_vertex + b});
  scene.bodies.push_back(body);
}

void addPrism(Scene& scene, const Ring& outline, const std::vector<double>& bottom_m,
              const std::vector<double>& top_m, std::uint32_t source) {
  BELVEDERE_CHECK(outline.size() == bottom_m.size() && outline.size() == top_m.size(),
                  "a prism has a bottom and a top at each corner");
  std::vector<Vec3> bottom, top;
  bool any_height = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    if (!bottom.empty() && norm(outline[i] - bottom.back().xy()) <= kSameM) continue;
    bottom.push_back(withZ(outline[i], bottom_m[i]));
    top.push_back(withZ(outline[i], top_m[i]));
    any_height = any_height || top_m[i] - bottom_m[i] > kSameM;
  }
  while (bottom.size() > 1 && norm(bottom.front().xy() - bottom.back().xy()) <= kSameM) {
    bottom.pop_back();
    top.pop_back();
  }
  const std::size_t n = bottom.size();
  if (n < 3 || !any_height) return;
  Hull hull;
  hull.vertices = bottom;
  std::vector<std::uint32_t> low(n), high(n);
  for (std::size_t i = 0; i < n; ++i) {
    low[i] = high[i] = static_cast<std::uint32_t>(i);
    if (top[i].z - bottom[i].z <= kSameM) continue;  // the top meets the bottom: a wedge's edge
    high[i] = static_cast<std::uint32_t>(hull.vertices.size());
    hull.vertices.push_back(top[i]);
  }
  const auto below = planeOf({bottom.rbegin(), bottom.rend()}, hull.vertices);
  const auto above = planeOf(top, hull.vertices);
  if (!below || !above) return;
  for (std::size_t i = 0; i < n; ++i)
    BELVEDERE_CHECK(below->offset - dot(below->normal, bottom[i]) <= kPlanarM &&
                        above->offset - dot(above->normal, top[i]) <= kPlanarM,
                    "a prism's heights lie in a plane");
  hull.planes = {*below, *above};
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t j = (i + 1) % n;
    const Vec2 along = bottom[j].xy() - bottom[i].xy();
    const Vec2 outward = -perpLeft(along) / norm(along);
    Plane side{withZ(outward, 0), -1e300};
    for (const Vec3& v : hull.vertices) side.offset = std::max(side.offset, dot(side.normal, v));
    hull.planes.push_back(side);
    hull.edges.push_back({low[i], low[j]});
    if (high[i] != low[i] || high[j] != low[j]) hull.edges.push_back({high[i], high[j]});
    if (high[i] != low[i]) hull.edges.push_back({low[i], high[i]});
  }
  addHull(scene, hull, source);
}

void addTriangle(Scene& scene, const Vec3& a, const Vec3& b, const Vec3& c, std::uint32_t source) {
  Body body;
  body.first_vertex = static_cast<std::uint32_t>(scene.vertices.size());
  body.vertex_count = 3;
  body.first_edge = static_cast<std::uint32_t>(scene.edges.size());
  body.edge_count = 3;
  body.first_plane = static_cast<std::uint32_t>(scene.planes.size());
  body.source = source;
  for (const Vec3& v : {a, b, c}) {
    body.box.add(v);
    scene.vertices.push_back(v);
  }
  for (std::uint32_t i = 0; i < 3; ++i)
    scene.edges.push_back({body.first_vertex + i, body.first_vertex + (i + 1) % 3});
  scene.bodies.push_back(body);
}

std::vector<std::uint32_t> faceOf(const Scene& scene, const Body& body, const Plane& plane,
                                  double tolerance_m) {
  std::vector<std::uint32_t> ring;
  Vec3 centre;
  for (std::uint32_t v = body.first_vertex; v < body.first_vertex + body.vertex_count; ++v)
    if (dot(plane.normal, scene.vertices[v]) >= plane.offset - tolerance_m) {
      ring.push_back(v);
      centre = centre + scene.vertices[v];
    }
  if (ring.size() < 3) return {};
  centre = centre / static_cast<double>(ring.size());
  const Vec3 n = plane.normal;
  const Vec3 aside = std::abs(n.x) < 0.6 ? Vec3{1, 0, 0} : Vec3{0, 1, 0};
  const Vec3 u = normalized(cross(aside, n)), w = cross(n, u);
  std::vector<double> angle(ring.size());
  std::vector<std::size_t> order(ring.size());
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec3 d = scene.vertices[ring[i]] - centre;
    angle[i] = std::atan2(dot(d, w), dot(d, u));
  }
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t i, std::size_t j) { return angle[i] < angle[j]; });
  std::vector<std::uint32_t> sorted;
  for (const std::size_t i : order) sorted.push_back(ring[i]);
  return sorted;
}

}  // namespace belvedere::scene
