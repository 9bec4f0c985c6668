// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/sightline.h"

#include <algorithm>
#include <array>
#include <vector>

namespace belvedere::scene {
namespace {

bool triangleHides(const Vec3& p, const Vec3& q, const Vec3& r, const Vec3& a, const Vec3& b) {
  const Vec3 normal = cross(q - p, r - p);
  const double size = norm(normal);
  if (size == 0) return false;
  const double side_a = dot(normal, a - p), side_b = dot(normal, b - p);
  const double touch = kTouchM * size;
  if (!((side_a > touch && side_b < -touch) || (side_a < -touch && side_b > touch))) return false;
  // Signed volumes of the line with each edge; cross(x, y) is the exact negative of cross(y, x).
  const Vec3 d = b - a, pa = p - a, qa = q - a, ra = r - a;
  const double u = dot(d, cross(pa, qa)), v = dot(d, cross(qa, ra)), w = dot(d, cross(ra, pa));
  return (u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0);
}

bool segmentMeets(const Box3& box, const Vec3& a, const Vec3& inverse) {
  double t0 = 0, t1 = 1;
  const auto slab = [&](double low, double high, double from, double inv) {
    double near = (low - from) * inv, far = (high - from) * inv;
    if (near > far) std::swap(near, far);
    // NaN (0 * infinity: the segment lies in the slab's face) must not cut anything away.
    if (near > t0) t0 = near;
    if (far < t1) t1 = far;
  };
  slab(box.low.x, box.high.x, a.x, inverse.x);
  slab(box.low.y, box.high.y, a.y, inverse.y);
  slab(box.low.z, box.high.z, a.z, inverse.z);
  return t0 <= t1 * (1 + 1e-12) + 1e-15;
}

}  // namespace

bool hides(const Scene& scene, const Body& body, const Vec3& a, const Vec3& b) {
  if (body.triangle()) {
    const Vec3* v = &scene.vertices[body.first_vertex];
    return triangleHides(v[0], v[1], v[2], a, b);
  }
  double t0 = 0, t1 = 1;
  const Plane* plane = &scene.planes[body.first_plane];
  for (std::uint32_t i = 0; i < body.plane_count; ++i) {
    const double da = dot(plane[i].normal, a) - plane[i].offset + kTouchM;
    const double db = dot(plane[i].normal, b) - plane[i].offset + kTouchM;
    if (da >= 0 && db >= 0) return false;
    if (da > 0) t0 = std::max(t0, da / (da - db));
    if (db > 0) t1 = std::min(t1, da / (da - db));
    if (t0 >= t1) return false;
  }
  return true;
}

namespace {

// Calls visit with each body of the leaves that the segment passes, until it says true.
template <class Visit>
bool alongSegment(const Scene& scene, const BodyTree& tree, const Vec3& a, const Vec3& b,
                  Visit visit) {
  if (tree.nodes.empty()) return false;
  const Vec3 d = b - a;
  const Vec3 inverse{1 / d.x, 1 / d.y, 1 / d.z};
  std::array<std::uint32_t, 128> stack;
  std::size_t depth = 0;
  stack[depth++] = 0;
  while (depth > 0) {
    const TreeNode& node = tree.nodes[stack[--depth]];
    if (!segmentMeets(node.box, a, inverse)) continue;
    if (node.count == 0) {
      stack[depth++] = node.first + 1;
      stack[depth++] = node.first;
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i)
      if (visit(tree.order[i], scene.bodies[tree.order[i]])) return true;
  }
  return false;
}

}  // namespace

std::optional<std::uint32_t> blockerOf(const Scene& scene, const BodyTree& tree, const Vec3& a,
                                       const Vec3& b, Blocking blocking,
                                       std::optional<std::uint32_t> first_guess) {
  if (tree.nodes.empty()) return {};
  if (first_guess && hides(scene, scene.bodies[*first_guess], a, b)) return first_guess;
  std::optional<std::uint32_t> found;
  alongSegment(scene, tree, a, b, [&](std::uint32_t index, const Body& body) {
    if (!blocks(scene.sources[body.source], blocking) || !hides(scene, body, a, b)) return false;
    found = index;
    return true;
  });
  return found;
}

double passingShare(const Scene& scene, const BodyTree& tree, const Vec3& a, const Vec3& b,
                    Band band, std::optional<std::uint32_t>* blocked_by) {
  const auto shareOfBody = [&](const Body& body) {
    return shareOf(scene.sources[body.source], band);
  };
  if (blocked_by && *blocked_by) {
    const Body& guess = scene.bodies[**blocked_by];
    if (shareOfBody(guess) <= 0 && hides(scene, guess, a, b)) return 0;
    blocked_by->reset();
  }
  double share = 1;
  std::vector<std::uint32_t> passed;  // sources
  const bool blocked = alongSegment(scene, tree, a, b, [&](std::uint32_t index, const Body& body) {
    const double one = shareOfBody(body);
    if (one >= 1 || std::find(passed.begin(), passed.end(), body.source) != passed.end() ||
        !hides(scene, body, a, b))
      return false;
    if (one <= 0) {
      if (blocked_by) *blocked_by = index;
      return true;
    }
    passed.push_back(body.source);
    share *= one;
    return false;
  });
  return blocked ? 0 : share;
}

namespace {

std::optional<FirstHit> enters(const Scene& scene, std::uint32_t index, const Vec3& a, const Vec3& b) {
  const Body& body = scene.bodies[index];
  if (!hides(scene, body, a, b)) return {};
  if (body.triangle()) {
    const Vec3* v = &scene.vertices[body.first_vertex];
    const Vec3 normal = normalized(cross(v[1] - v[0], v[2] - v[0]));
    const double side_a = dot(normal, a - v[0]), side_b = dot(normal, b - v[0]);
    return FirstHit{side_a / (side_a - side_b), index, side_a > 0 ? normal : -normal};
  }
  std::optional<FirstHit> hit;
  for (std::uint32_t i = 0; i < body.plane_count; ++i) {
    const Plane& plane = scene.planes[body.first_plane + i];
    const double da = dot(plane.normal, a) - plane.offset, db = dot(plane.normal, b) - plane.offset;
    if (da <= kTouchM) continue;
    const double share = da / (da - db);
    if (!hit || share > hit->share) hit = FirstHit{share, index, plane.normal};
  }
  return hit;
}

}  // namespace

std::optional<FirstHit> firstHit(const Scene& scene, const BodyTree& tree, const Vec3& a,
                                 const Vec3& b, Band band) {
  std::optional<FirstHit> first;
  alongSegment(scene, tree, a, b, [&](std::uint32_t index, const Body& body) {
    if (shareOf(scene.sources[body.source], band) >= 1) return false;
    const auto hit = enters(scene, index, a, b);
    if (hit && (!first || hit->share < first->share)) first = hit;
    return false;
  });
  return first;
}

}  // namespace belvedere::scene
