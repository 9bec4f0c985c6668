// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/polygon.h"
#include "scene/mesh.h"
#include "scene/text_scan.h"

namespace belvedere::scene {
namespace {

constexpr std::size_t kMostCorners = 10'000;  // of one face

// A face of any number of corners: a fan when it is convex, else cut in its own plane.
void addFace(Mesh& mesh, const std::vector<std::uint32_t>& corners) {
  const auto fan = [&] {
    for (std::size_t i = 1; i + 1 < corners.size(); ++i)
      mesh.triangles.push_back({corners[0], corners[i], corners[i + 1]});
  };
  if (corners.size() == 3) return fan();
  Vec3 normal;
  const Vec3 first = mesh.points[corners[0]];
  for (std::size_t i = 1; i + 1 < corners.size(); ++i)
    normal = normal + cross(mesh.points[corners[i]] - first, mesh.points[corners[i + 1]] - first);
  // Seen along the axis nearest to the normal, from the side that leaves it anticlockwise.
  const double x = std::abs(normal.x), y = std::abs(normal.y), z = std::abs(normal.z);
  Ring flat;
  for (const std::uint32_t c : corners) {
    const Vec3 p = mesh.points[c];
    Vec2 q = z >= x && z >= y ? Vec2{p.x, p.y} : x >= y ? Vec2{p.y, p.z} : Vec2{p.z, p.x};
    const double away = z >= x && z >= y ? normal.z : x >= y ? normal.x : normal.y;
    if (away < 0) q = {-q.x, q.y};
    flat.push_back(q);
  }
  bool convex = true;
  for (std::size_t i = 0; i < flat.size() && convex; ++i) {
    const Vec2 a = flat[i], b = flat[(i + 1) % flat.size()], c = flat[(i + 2) % flat.size()];
    convex = cross(b - a, c - b) >= 0;
  }
  if (convex) return fan();
  for (const auto& triangle : triangles({flat, {}})) {
    std::array<std::uint32_t, 3> made{};
    for (std::size_t k = 0; k < 3; ++k) {
      const auto at = std::find(flat.begin(), flat.end(), triangle[k]);
      made[k] = corners[static_cast<std::size_t>(at - flat.begin())];
    }
    mesh.triangles.push_back(made);
  }
}

}  // namespace

Mesh readObj(std::string_view text) {
  Mesh mesh;
  std::size_t number = 0;
  std::vector<std::uint32_t> corners;
  while (auto line = takeLine(text)) {
    ++number;
    const std::string_view kind = takeWord(*line);
    if (kind == "v") {
      double xyz[3];
      for (double& value : xyz) {
        const auto got = numberOf<double>(takeWord(*line));
        if (!got) throw MeshError(fmt::format("line {} is not a point of three numbers", number));
        value = *got;
      }
      if (mesh.points.size() >= kMostPoints) throw MeshError("it has too many points");
      mesh.points.push_back({xyz[0], xyz[1], xyz[2]});
    } else if (kind == "f") {
      corners.clear();
      for (std::string_view word = takeWord(*line); !word.empty(); word = takeWord(*line)) {
        const auto got = numberOf<long long>(word.substr(0, word.find('/')));
        const auto count = static_cast<long long>(mesh.points.size());
        const long long index = got ? (*got < 0 ? count + *got : *got - 1) : -1;
        if (index < 0 || index >= count)
          throw MeshError(fmt::format("line {} is a face of a point that is not there", number));
        corners.push_back(static_cast<std::uint32_t>(index));
        if (corners.size() > kMostCorners)
          throw MeshError(fmt::format("line {} is a face of too many corners", number));
      }
      if (corners.size() < 3)
        throw MeshError(fmt::format("line {} is a face of fewer than three corners", number));
      addFace(mesh, corners);
      if (mesh.triangles.size() > kMostTriangles) throw MeshError("it has too many triangles");
    }
  }
  if (mesh.triangles.empty()) throw MeshError("it has no faces");
  return mesh;
}

}  // namespace belvedere::scene
