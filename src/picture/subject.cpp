// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <unordered_map>

#include "picture/renderer.h"

namespace belvedere::picture {
namespace {

// Faces within this of each other, and normals within this of each other, are one surface.
constexpr double kSameM = 1e-4, kSameNormal = 1e-4;

struct Key {
  std::array<std::int64_t, 4> plane;
  std::uint32_t source;
  bool operator==(const Key&) const = default;
};
struct KeyHash {
  std::size_t operator()(const Key& key) const {
    std::uint64_t h = key.source;
    for (const std::int64_t p : key.plane)
      h = (h ^ static_cast<std::uint64_t>(p)) * 0x9E3779B97F4A7C15ull, h ^= h >> 29;
    return static_cast<std::size_t>(h);
  }
};

scene::Plane planeOf(const scene::Scene& scene, const scene::TriangleOrigin& origin) {
  if (origin.plane != scene::kNoPlane) return scene.planes[origin.plane];
  const Vec3* p = &scene.vertices[scene.bodies[origin.body].first_vertex];
  const Vec3 n = cross(p[1] - p[0], p[2] - p[0]);
  const double size = norm(n);
  const Vec3 normal = size > 0 ? n / size : Vec3{0, 0, 1};
  return {normal, dot(normal, p[0])};
}

}  // namespace

Subject::Subject(const scene::RayCaster& caster) : caster_(&caster) {
  const scene::Scene& scene = caster.scene();
  const std::uint32_t count = caster.triangleCount();
  triangles_.reserve(count);
  std::unordered_map<Key, std::uint32_t, KeyHash> known;
  std::uint32_t last_plane = scene::kNoPlane, last_surface = 0;
  for (std::uint32_t t = 0; t < count; ++t) {
    const scene::TriangleOrigin origin = caster.triangle(t);
    const auto body = static_cast<std::int32_t>(origin.body);
    if (origin.plane != scene::kNoPlane && origin.plane == last_plane) {
      triangles_.push_back({last_surface, body});
      continue;
    }
    const std::uint32_t source = scene.bodies[origin.body].source;
    const scene::Plane plane = planeOf(scene, origin);
    const Key key{{std::llround(plane.normal.x / kSameNormal),
                   std::llround(plane.normal.y / kSameNormal),
                   std::llround(plane.normal.z / kSameNormal), std::llround(plane.offset / kSameM)},
                  source};
    const auto [at, is_new] = known.try_emplace(key, static_cast<std::uint32_t>(surfaces_.size()));
    if (is_new) surfaces_.push_back({plane.normal, plane.offset, source});
    last_plane = origin.plane;
    last_surface = at->second;
    triangles_.push_back({last_surface, body});
  }
}

}  // namespace belvedere::picture
