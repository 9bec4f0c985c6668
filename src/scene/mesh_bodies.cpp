// SPDX-License-Identifier: GPL-3.0-or-later
//
// From triangles to bodies. A box of twelve triangles proves as one body what twelve bodies would
// leave open, so closed convex parts are looked for; all of it in time linear in the mesh.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <numeric>
#include <optional>
#include <tuple>
#include <unordered_map>

#include "scene/bodies.h"
#include "scene/mesh.h"

namespace belvedere::scene {
namespace {

using Index = std::uint32_t;
using Triangle = std::array<Index, 3>;

// A convex part of more faces than this stays triangles: a test against every plane of it would
// cost more than it settles.
constexpr std::size_t kMostPlanes = 256;
// Faces of one part that touch at an edge are one face when their corners lie in a plane.
constexpr double kFlatM = 1e-7;

struct PointHash {
  std::size_t operator()(const Vec3& p) const {
    std::uint64_t h = 0x9e3779b97f4a7c15;
    for (const double value : {p.x, p.y, p.z}) {
      std::uint64_t bits = 0;
      const double positive_zero = value + 0.0;
      std::memcpy(&bits, &positive_zero, sizeof bits);
      h = (h ^ bits) * 0xff51afd7ed558ccd;
      h ^= h >> 32;
    }
    return h;
  }
};

// Finds the representative of each joined set.
class Sets {
 public:
  explicit Sets(std::size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), Index{0}); }
  Index find(Index i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(Index a, Index b) {
    a = find(a);
    b = find(b);
    if (a != b) parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<Index> parent_;
};

struct SharedEdge {
  Index a, b;      // points, a < b
  Index triangle;  // of the part
};

// The hull that one part's triangles are the surface of; nothing when they are not.
std::optional<Hull> hullOf(const std::vector<Vec3>& points, const std::vector<Triangle>& part) {
  const std::size_t n = part.size();
  if (n < 4) return std::nullopt;
  std::vector<SharedEdge> edges;
  for (Index t = 0; t < n; ++t)
    for (std::size_t i = 0; i < 3; ++i) {
      const auto [a, b] = std::minmax(part[t][i], part[t][(i + 1) % 3]);
      edges.push_back({a, b, t});
    }
  std::sort(edges.begin(), edges.end(), [](const SharedEdge& p, const SharedEdge& q) {
    return std::tie(p.a, p.b, p.triangle) < std::tie(q.a, q.b, q.triangle);
  });
  for (std::size_t i = 0; i < edges.size(); i += 2) {  // closed: each edge has exactly two sides
    if (i + 1 >= edges.size() || edges[i].a != edges[i + 1].a || edges[i].b != edges[i + 1].b)
      return std::nullopt;
    if (i + 2 < edges.size() && edges[i].a == edges[i + 2].a && edges[i].b == edges[i + 2].b)
      return std::nullopt;
  }
  std::vector<Index> used;
  for (const Triangle& t : part) used.insert(used.end(), t.begin(), t.end());
  std::sort(used.begin(), used.end());
  used.erase(std::unique(used.begin(), used.end()), used.end());
  Vec3 centre;
  for (const Index p : used) centre = centre + points[p];
  centre = centre / static_cast<double>(used.size());
  std::vector<Vec3> normal(n);
  std::vector<double> size(n);
  for (std::size_t t = 0; t < n; ++t) {
    const Vec3 a = points[part[t][0]];
    normal[t] = cross(points[part[t][1]] - a, points[part[t][2]] - a);
    size[t] = norm(normal[t]);
    if (size[t] <= 1e-14) return std::nullopt;  // no plane: slivers are not worth a hull
    normal[t] = normal[t] / size[t];
    if (dot(normal[t], a - centre) < 0) normal[t] = -normal[t];
  }
  // Triangles of one flat face: the largest gives the plane.
  Sets faces(n);
  for (std::size_t i = 0; i < edges.size(); i += 2) {
    const Index s = edges[i].triangle, t = edges[i + 1].triangle;
    double off = 0;
    for (const Index p : part[t])
      off = std::max(off, std::abs(dot(normal[s], points[p] - points[part[s][0]])));
    for (const Index p : part[s])
      off = std::max(off, std::abs(dot(normal[t], points[p] - points[part[t][0]])));
    if (off <= kFlatM && dot(normal[s], normal[t]) > 0) faces.join(s, t);
  }
  std::vector<Index> largest(n, 0);
  std::iota(largest.begin(), largest.end(), Index{0});
  for (Index t = 0; t < n; ++t)
    if (size[t] > size[largest[faces.find(t)]]) largest[faces.find(t)] = t;
  Hull hull;
  for (Index t = 0; t < n; ++t) {
    if (faces.find(t) != t) continue;
    if (hull.planes.size() == kMostPlanes) return std::nullopt;
    const Vec3 out = normal[largest[t]];
    Plane plane{out, -1e300};
    const double own = dot(out, points[part[largest[t]][0]]);
    for (const Index p : used) plane.offset = std::max(plane.offset, dot(out, points[p]));
    if (plane.offset > own + kConvexToleranceM) return std::nullopt;
    if (own - dot(out, centre) < kConvexToleranceM) return std::nullopt;  // flat
    hull.planes.push_back(plane);
  }
  for (Index t = 0; t < n; ++t)  // every triangle lies in its face's plane
    for (const Index p : part[t])
      if (std::abs(dot(normal[largest[faces.find(t)]],
                       points[p] - points[part[largest[faces.find(t)]][0]])) > kConvexToleranceM)
        return std::nullopt;
  std::unordered_map<Index, Index> number;
  const auto vertex = [&](Index p) {
    const auto [at, first] = number.try_emplace(p, static_cast<Index>(hull.vertices.size()));
    if (first) hull.vertices.push_back(points[p]);
    return at->second;
  };
  for (std::size_t i = 0; i < edges.size(); i += 2)
    if (faces.find(edges[i].triangle) != faces.find(edges[i + 1].triangle)) {
      const Index a = vertex(edges[i].a), b = vertex(edges[i].b);
      hull.edges.push_back({a, b});
    }
  return hull;
}

}  // namespace

void checkMesh(const Mesh& mesh) {
  if (mesh.triangles.size() > kMostTriangles || mesh.points.size() > kMostPoints)
    throw MeshError("it has too many triangles");
  for (const Vec3& p : mesh.points)
    if (!(std::abs(p.x) <= kFarthestM && std::abs(p.y) <= kFarthestM &&
          std::abs(p.z) <= kFarthestM))
      throw MeshError("a point lies thousands of kilometres away: is it in metres?");
  for (const Triangle& t : mesh.triangles)
    for (const Index p : t)
      if (p >= mesh.points.size()) throw MeshError("a triangle names a point that is not there");
}

void addMesh(Scene& scene, const Mesh& mesh, std::uint32_t source) {
  // Points at one place are one point: files repeat them for each face.
  std::vector<Index> same(mesh.points.size());
  std::unordered_map<Vec3, Index, PointHash> first_at;
  first_at.reserve(mesh.points.size());
  for (Index p = 0; p < mesh.points.size(); ++p)
    same[p] = first_at.try_emplace(mesh.points[p], p).first->second;
  Sets parts(mesh.points.size());
  std::vector<Triangle> triangles;
  triangles.reserve(mesh.triangles.size());
  for (const Triangle& t : mesh.triangles) {
    const Triangle welded{same[t[0]], same[t[1]], same[t[2]]};
    if (welded[0] == welded[1] || welded[1] == welded[2] || welded[2] == welded[0]) continue;
    triangles.push_back(welded);
    parts.join(welded[0], welded[1]);
    parts.join(welded[0], welded[2]);
  }
  // Part by part, in the order of their first triangle.
  std::vector<Index> part_of(triangles.size());
  std::unordered_map<Index, Index> part_number;
  for (std::size_t t = 0; t < triangles.size(); ++t)
    part_of[t] = part_number
                     .try_emplace(parts.find(triangles[t][0]),
                                  static_cast<Index>(part_number.size()))
                     .first->second;
  std::vector<std::size_t> start(part_number.size() + 1, 0);
  for (const Index p : part_of) ++start[p + 1];
  std::partial_sum(start.begin(), start.end(), start.begin());
  std::vector<Triangle> sorted(triangles.size());
  std::vector<std::size_t> fill(start.begin(), start.end() - 1);
  for (std::size_t t = 0; t < triangles.size(); ++t) sorted[fill[part_of[t]]++] = triangles[t];

  const auto corners = [](Triangle t) {
    std::sort(t.begin(), t.end());
    return t;
  };
  std::vector<Triangle> part;
  for (std::size_t p = 0; p + 1 < start.size(); ++p) {
    part.assign(sorted.begin() + static_cast<std::ptrdiff_t>(start[p]),
                sorted.begin() + static_cast<std::ptrdiff_t>(start[p + 1]));
    // The same triangle twice (drawn from both sides) is one.
    std::stable_sort(part.begin(), part.end(), [&](const Triangle& a, const Triangle& b) {
      return corners(a) < corners(b);
    });
    part.erase(std::unique(part.begin(), part.end(),
                           [&](const Triangle& a, const Triangle& b) {
                             return corners(a) == corners(b);
                           }),
               part.end());
    if (const auto hull = hullOf(mesh.points, part)) {
      addHull(scene, *hull, source);
      continue;
    }
    for (const Triangle& t : part)
      addTriangle(scene, mesh.points[t[0]], mesh.points[t[1]], mesh.points[t[2]], source);
  }
}

}  // namespace belvedere::scene
