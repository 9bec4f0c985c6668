// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/shaft.h"

#include <algorithm>
#include <cmath>

namespace belvedere::scene {
namespace {

// Adds the plane through p with this normal, turned so that all of the hull is on its inner side;
// nothing when the hull lies on both sides (then it bounds nothing) or the normal vanishes.
void addBounding(Shaft& shaft, const Vec3& p, Vec3 normal, double scale) {
  const double size = norm(normal);
  if (!(size > 1e-14 * scale)) return;
  normal = normal / size;
  const double offset = dot(normal, p);
  double least = dot(normal, shaft.apex) - offset, most = least;
  for (const Vec3& c : shaft.prism->corners()) {
    const double d = dot(normal, c) - offset;
    least = std::min(least, d);
    most = std::max(most, d);
  }
  constexpr double kFlatM = 1e-10;
  if (shaft.planes + 2 > shaft.plane.size()) return;
  if (most <= kFlatM) shaft.plane[shaft.planes++] = {normal, offset + std::max(0.0, most)};
  if (least >= -kFlatM) shaft.plane[shaft.planes++] = {-normal, -offset - std::min(0.0, least)};
}

// Is all of a body beyond this plane (to within a touch)?
bool beyond(const Plane& plane, const Box3& box) {
  const Vec3& n = plane.normal;
  const double nearest = n.x * (n.x > 0 ? box.low.x : box.high.x) +
                         n.y * (n.y > 0 ? box.low.y : box.high.y) +
                         n.z * (n.z > 0 ? box.low.z : box.high.z);
  return nearest >= plane.offset - kTouchM;
}

bool overlap(const Box3& a, const Box3& b) {
  return a.low.x < b.high.x - kTouchM && b.low.x < a.high.x - kTouchM &&
         a.low.y < b.high.y - kTouchM && b.low.y < a.high.y - kTouchM &&
         a.low.z < b.high.z - kTouchM && b.low.z < a.high.z - kTouchM;
}
// A flat triangle has no extent along some axis: it overlaps where it does not lie outside.
bool overlapFlat(const Box3& a, const Box3& b) {
  return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y &&
         a.low.z <= b.high.z && b.low.z <= a.high.z;
}

// Separated by a plane through the apex and one of the body's edges?
bool partedByEdge(const Scene& scene, const Body& body, const Shaft& shaft) {
  const Vec3* first = &scene.vertices[body.first_vertex];
  for (std::uint32_t e = body.first_edge; e < body.first_edge + body.edge_count; ++e) {
    const Vec3 a = scene.vertices[scene.edges[e].a] - shaft.apex;
    const Vec3 b = scene.vertices[scene.edges[e].b] - shaft.apex;
    Vec3 normal = cross(a, b);
    const double size = norm(normal);
    if (!(size > 1e-12)) continue;
    normal = normal / size;
    double box_low = 0, box_high = 0;  // the apex is in the hull, at 0
    for (const Vec3& c : shaft.prism->corners()) {
      const double d = dot(normal, c - shaft.apex);
      box_low = std::min(box_low, d);
      box_high = std::max(box_high, d);
    }
    if (box_low < -kTouchM && box_high > kTouchM) continue;
    double body_low = 1e300, body_high = -1e300;
    for (std::uint32_t v = 0; v < body.vertex_count; ++v) {
      const double d = dot(normal, first[v] - shaft.apex);
      body_low = std::min(body_low, d);
      body_high = std::max(body_high, d);
    }
    if (body_low >= box_high - kTouchM || body_high <= box_low + kTouchM) return true;
  }
  return false;
}

}  // namespace

Shaft makeShaft(const Vec3& apex, const Prism& prism) {
  Shaft shaft;
  shaft.apex = apex;
  shaft.prism = &prism;
  shaft.box.add(apex);
  Vec3 centre;
  for (const Vec3& c : prism.corners()) {
    shaft.box.add(c);
    centre = centre + c;
  }
  const std::size_t n = prism.sides;
  centre = centre / static_cast<double>(2 * n);
  const Vec3 extent = shaft.box.high - shaft.box.low;
  const double scale = dot(extent, extent);
  const auto lower = [&](std::size_t i) { return prism.corner[i % n]; };
  const auto upper = [&](std::size_t i) { return prism.corner[n + i % n]; };

  // Which faces does the apex see? Those that it does not see bound the hull. Faces 0 to n - 1 are
  // the sides, n the lower and n + 1 the upper one.
  std::array<bool, kOutlineMost + 2> seen{};
  bool flat = false;  // no inside and outside of faces: every edge is tried
  const auto look = [&](std::size_t face, const Vec3& p, const Vec3& normal) {
    const double inside = dot(normal, centre - p);
    flat = flat || std::fabs(inside) <= 1e-12 * norm(normal);
    seen[face] = dot(normal, apex - p) * inside < 0;
    if (!seen[face]) addBounding(shaft, p, normal, scale);
  };
  for (std::size_t i = 0; i < n; ++i)
    look(i, lower(i), cross(lower(i + 1) - lower(i), upper(i) - lower(i)));
  // Corners of a face lie in one plane; a far pair gives the best normal.
  const Vec3 face_normal = cross(lower(n / 3) - lower(0), lower(2 * n / 3) - lower(0));
  look(n, lower(0), face_normal);
  look(n + 1, upper(0), face_normal);

  const auto edge = [&](const Vec3& a, const Vec3& b, std::size_t face_a, std::size_t face_b) {
    if (flat || seen[face_a] != seen[face_b])
      addBounding(shaft, apex, cross(a - apex, b - apex), scale);
  };
  for (std::size_t i = 0; i < n; ++i) {
    edge(lower(i), lower(i + 1), i, n);
    edge(upper(i), upper(i + 1), i, n + 1);
    edge(lower(i), upper(i), i, (i + n - 1) % n);
  }
  return shaft;
}

bool meets(const Scene& scene, const Body& body, const Shaft& shaft) {
  if (!(body.triangle() ? overlapFlat(body.box, shaft.box) : overlap(body.box, shaft.box)))
    return false;
  for (std::size_t i = 0; i < shaft.planes; ++i)
    if (beyond(shaft.plane[i], body.box)) return false;
  const Vec3* vertex = &scene.vertices[body.first_vertex];
  for (std::size_t i = 0; i < shaft.planes; ++i) {
    const Plane& plane = shaft.plane[i];
    bool all_beyond = true;
    for (std::uint32_t v = 0; v < body.vertex_count && all_beyond; ++v)
      all_beyond = dot(plane.normal, vertex[v]) >= plane.offset - kTouchM;
    if (all_beyond) return false;
  }
  const auto hullBeyond = [&](const Vec3& normal, double offset) {
    if (dot(normal, shaft.apex) < offset) return false;
    const auto corners = shaft.prism->corners();
    return std::all_of(corners.begin(), corners.end(),
                       [&](const Vec3& c) { return dot(normal, c) >= offset; });
  };
  if (body.triangle()) {
    const Vec3 normal = cross(vertex[1] - vertex[0], vertex[2] - vertex[0]);
    const double size = norm(normal);
    if (size == 0) return false;
    const Vec3 n = normal / size;
    const double offset = dot(n, vertex[0]);
    if (hullBeyond(n, offset - kTouchM) || hullBeyond(-n, -offset - kTouchM)) return false;
  } else {
    const Plane* plane = &scene.planes[body.first_plane];
    for (std::uint32_t i = 0; i < body.plane_count; ++i)
      if (hullBeyond(plane[i].normal, plane[i].offset - kTouchM)) return false;
  }
  return !partedByEdge(scene, body, shaft);
}

namespace {
// Calls take(index) for bodies that count whose box is not beyond any plane of the shaft.
template <class Counts, class Take>
void visit(const Scene& scene, const BodyTree& tree, const Shaft& shaft, const Counts& counts,
           const Take& take) {
  if (tree.nodes.empty()) return;
  const auto outside = [&](const Box3& box) {
    if (!overlapFlat(box, shaft.box)) return true;
    for (std::size_t i = 0; i < shaft.planes; ++i)
      if (beyond(shaft.plane[i], box)) return true;
    return false;
  };
  std::array<std::uint32_t, 128> stack;
  std::size_t depth = 0;
  stack[depth++] = 0;
  while (depth > 0) {
    const TreeNode& node = tree.nodes[stack[--depth]];
    if (outside(node.box)) continue;
    if (node.count == 0) {
      stack[depth++] = node.first + 1;
      stack[depth++] = node.first;
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      const std::uint32_t index = tree.order[i];
      const Body& body = scene.bodies[index];
      if (!outside(body.box) && counts(scene.sources[body.source])) take(index);
    }
  }
}

auto blockingIn(Blocking blocking) {
  return [blocking](const Source& source) { return blocks(source, blocking); };
}
}  // namespace

void bodiesIn(const Scene& scene, const BodyTree& tree, const Shaft& shaft, Blocking blocking,
              std::vector<std::uint32_t>& out) {
  out.clear();
  visit(scene, tree, shaft, blockingIn(blocking), [&](std::uint32_t index) {
    if (meets(scene, scene.bodies[index], shaft)) out.push_back(index);
  });
}

void bodiesNear(const Scene& scene, const BodyTree& tree, const Shaft& shaft, Blocking blocking,
                std::vector<std::uint32_t>& out) {
  out.clear();
  visit(scene, tree, shaft, blockingIn(blocking), [&](std::uint32_t index) { out.push_back(index); });
}

void bodiesIn(const Scene& scene, const BodyTree& tree, const Shaft& shaft, Band band,
              std::vector<std::uint32_t>& out) {
  out.clear();
  visit(scene, tree, shaft, [&](const Source& source) { return shareOf(source, band) < 1; },
        [&](std::uint32_t index) {
          if (meets(scene, scene.bodies[index], shaft)) out.push_back(index);
        });
}

void bodiesIn(const Scene& scene, std::span<const std::uint32_t> among, const Shaft& shaft,
              std::vector<std::uint32_t>& out) {
  out.clear();
  for (const std::uint32_t index : among)
    if (meets(scene, scene.bodies[index], shaft)) out.push_back(index);
}

bool hidesAll(const Scene& scene, const Body& body, const Vec3& apex, std::span<const Vec3> points) {
  return std::all_of(points.begin(), points.end(),
                     [&](const Vec3& p) { return hides(scene, body, apex, p); });
}

}  // namespace belvedere::scene
