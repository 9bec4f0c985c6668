// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/mesh_plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

namespace belvedere::scene {
namespace {

using Index = std::uint32_t;
using Triangle = std::array<Index, 3>;

constexpr double kJoinM = 1e-4;     // loose ends of a section this near are one place
constexpr double kSheetM2 = 1e-4;   // an open section that closes to less than this is a sheet
constexpr double kNoAreaM2 = 1e-12;

bool apart(const Box2& a, const Box2& b) {
  return a.low.x > b.high.x || b.low.x > a.high.x || a.low.y > b.high.y || b.low.y > a.high.y;
}

// Points at one place made one, triangles without a repeated corner, none twice; by part.
std::vector<std::vector<Triangle>> partsOf(const Mesh& mesh) {
  std::map<std::tuple<double, double, double>, Index> first_at;
  std::vector<Index> same(mesh.points.size()), parent(mesh.points.size());
  for (Index p = 0; p < mesh.points.size(); ++p) {
    const Vec3& at = mesh.points[p];
    same[p] = first_at.try_emplace({at.x + 0.0, at.y + 0.0, at.z + 0.0}, p).first->second;
  }
  std::iota(parent.begin(), parent.end(), Index{0});
  const auto find = [&](Index i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
  };
  std::map<Triangle, Triangle> once;  // sorted corners
  for (const Triangle& t : mesh.triangles) {
    const Triangle welded{same[t[0]], same[t[1]], same[t[2]]};
    if (welded[0] == welded[1] || welded[1] == welded[2] || welded[2] == welded[0]) continue;
    Triangle sorted = welded;
    std::sort(sorted.begin(), sorted.end());
    once.try_emplace(sorted, welded);
    for (const Index corner : {welded[1], welded[2]}) {
      const Index a = find(welded[0]), b = find(corner);
      parent[std::max(a, b)] = std::min(a, b);
    }
  }
  std::map<Index, std::vector<Triangle>> parts;
  for (const auto& [sorted, welded] : once) parts[find(welded[0])].push_back(welded);
  std::vector<std::vector<Triangle>> result;
  for (auto& [first, part] : parts) result.push_back(std::move(part));
  return result;
}

// The plan of a triangle between two heights.
Ring planBetween(const std::array<Vec3, 3>& corners, double low_m, double high_m) {
  std::vector<Vec3> polygon(corners.begin(), corners.end());
  for (const auto& [limit, side] : {std::pair{low_m, 1.0}, std::pair{high_m, -1.0}}) {
    std::vector<Vec3> kept;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Vec3 a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      const double da = side * (a.z - limit), db = side * (b.z - limit);
      if (da >= 0) kept.push_back(a);
      if ((da > 0 && db < 0) || (da < 0 && db > 0)) kept.push_back(a + (b - a) * (da / (da - db)));
    }
    polygon = std::move(kept);
  }
  Ring ring;
  for (const Vec3& p : polygon) ring.push_back(p.xy());
  return ring;
}

// The section of a part at a height: each triangle that crosses it gives a segment between two of
// its edges; segments that share an edge join.
struct Section {
  std::vector<Ring> closed, open;
};
Section sectionAt(const Mesh& mesh, const std::vector<Triangle>& part, double z) {
  using Edge = std::pair<Index, Index>;
  struct Segment {
    std::array<Edge, 2> end;
    bool used = false;
  };
  std::vector<Segment> segments;
  std::map<Edge, std::vector<std::size_t>> at_edge;
  const auto above = [&](Index p) { return mesh.points[p].z >= z; };
  for (const Triangle& t : part) {
    Segment segment;
    std::size_t ends = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      const Index a = t[i], b = t[(i + 1) % 3];
      if (above(a) != above(b)) segment.end[ends++] = std::minmax(a, b);
    }
    if (ends != 2) continue;
    for (const Edge& edge : segment.end) at_edge[edge].push_back(segments.size());
    segments.push_back(segment);
  }
  const auto place = [&](const Edge& edge) {
    const Vec3 a = mesh.points[edge.first], b = mesh.points[edge.second];
    return (a + (b - a) * ((z - a.z) / (b.z - a.z))).xy();
  };
  // From an edge on along unused segments, as far as it goes.
  const auto follow = [&](Edge from, std::vector<Edge>& way) {
    for (bool moved = true; moved;) {
      moved = false;
      for (const std::size_t i : at_edge[from]) {
        if (segments[i].used) continue;
        segments[i].used = true;
        from = segments[i].end[0] == from ? segments[i].end[1] : segments[i].end[0];
        way.push_back(from);
        moved = true;
        break;
      }
    }
  };
  Section section;
  std::vector<Ring> loose;
  const auto take = [&](const Edge& start) {
    std::vector<Edge> way{start};
    follow(start, way);
    if (way.size() < 2) return;
    Ring ring;
    const bool closed = way.front() == way.back();
    if (closed) way.pop_back();
    for (const Edge& edge : way) ring.push_back(place(edge));
    (closed ? section.closed : loose).push_back(std::move(ring));
  };
  for (const auto& [edge, of_edge] : at_edge)  // loose ends first, so that the rest are loops
    if (of_edge.size() % 2 == 1) take(edge);
  for (const auto& [edge, of_edge] : at_edge) take(edge);
  // Faces that are cut up differently share no edge, and meet all the same.
  while (!loose.empty()) {
    Ring chain = std::move(loose.back());
    loose.pop_back();
    for (bool joined = true; joined && norm(chain.front() - chain.back()) > kJoinM;) {
      joined = false;
      for (std::size_t i = 0; i < loose.size() && !joined; ++i) {
        if (norm(loose[i].back() - chain.back()) <= kJoinM) loose[i] = reversed(loose[i]);
        if (norm(loose[i].front() - chain.back()) > kJoinM) continue;
        chain.insert(chain.end(), loose[i].begin() + 1, loose[i].end());
        loose.erase(loose.begin() + static_cast<std::ptrdiff_t>(i));
        joined = true;
      }
    }
    if (norm(chain.front() - chain.back()) <= kJoinM) section.closed.push_back(std::move(chain));
    else section.open.push_back(std::move(chain));
  }
  return section;
}

// Outlines one in another: filled, hollow, filled.
Region filled(std::vector<Ring> rings) {
  std::erase_if(rings, [](const Ring& r) { return std::fabs(signedArea(r)) < kNoAreaM2; });
  std::stable_sort(rings.begin(), rings.end(), [](const Ring& a, const Ring& b) {
    return std::fabs(signedArea(a)) > std::fabs(signedArea(b));
  });
  if (rings.size() == 1) return {Polygon{anticlockwise(std::move(rings.front())), {}}};
  Region region;
  for (std::size_t i = 0; i < rings.size(); ++i) {
    std::size_t around = 0;
    for (std::size_t j = 0; j < i; ++j) around += contains(rings[j], rings[i].front()) ? 1 : 0;
    const Region one = unionOf(std::vector<Ring>{anticlockwise(rings[i])});
    region = around % 2 == 0 ? unionOf(region, one) : differenceOf(region, one);
  }
  return region;
}

}  // namespace

Region filledPlan(const Mesh& mesh, double low_m, double high_m, const Box2& within) {
  Region pieces;  // may overlap
  for (const std::vector<Triangle>& part : partsOf(mesh)) {
    Box2 box;
    double lowest = 1e300, highest = -1e300;
    for (const Triangle& t : part)
      for (const Index p : t) {
        box.add(mesh.points[p].xy());
        lowest = std::min(lowest, mesh.points[p].z);
        highest = std::max(highest, mesh.points[p].z);
      }
    if (apart(box, within) || lowest >= high_m || highest <= low_m) continue;
    for (const Triangle& t : part) {
      const std::array<Vec3, 3> corners{mesh.points[t[0]], mesh.points[t[1]], mesh.points[t[2]]};
      if (std::max({corners[0].z, corners[1].z, corners[2].z}) <= low_m) continue;
      Ring ring = planBetween(corners, low_m, high_m);
      if (ring.size() >= 3 && std::fabs(signedArea(ring)) > kNoAreaM2)
        pieces.push_back({anticlockwise(std::move(ring)), {}});
    }
    // Halfway up what there is of the part between the heights.
    const double middle_m = 0.5 * (std::max(low_m, lowest) + std::min(high_m, highest));
    Section section = sectionAt(mesh, part, middle_m);
    for (const Ring& open : section.open)
      if (!apart(bounds(open), within) && std::fabs(signedArea(open)) > kSheetM2)
        throw MeshError("its surface is open where it stands on a floor, so that nobody can tell what "
                        "is inside it");
    for (Polygon& polygon : filled(std::move(section.closed)))
      pieces.push_back(std::move(polygon));
  }
  return merged(pieces);
}

Floor topOver(const Mesh& mesh, const Region& region) {
  const Box2 box = bounds(region);
  std::vector<Ring> pieces;
  for (const Polygon& polygon : region)
    for (Ring& piece : convexPieces(polygon)) pieces.push_back(std::move(piece));
  if (pieces.empty()) return {};
  Vec2 inside;
  const Ring& largest = *std::max_element(pieces.begin(), pieces.end(), [](const Ring& a, const Ring& b) {
    return std::fabs(signedArea(a)) < std::fabs(signedArea(b));
  });
  for (const Vec2 p : largest) inside = inside + p / static_cast<double>(largest.size());

  // Triangles over the region's box that have a plan, as floors.
  struct Facet {
    Ring plan;  // anticlockwise
    Floor plane;
  };
  std::vector<Facet> facets;
  std::optional<Floor> top;
  for (const Triangle& t : mesh.triangles) {
    const Vec3 a = mesh.points[t[0]], b = mesh.points[t[1]], c = mesh.points[t[2]];
    Ring plan = anticlockwise({a.xy(), b.xy(), c.xy()});
    if (apart(bounds(plan), box) || signedArea(plan) < kNoAreaM2) continue;
    const Vec3 normal = cross(b - a, c - a);
    const Floor plane{a.z, a.xy(), Vec2{-normal.x / normal.z, -normal.y / normal.z}};
    if (contains(plan, inside) && (!top || plane.at(inside) > top->at(inside))) top = plane;
    facets.push_back({std::move(plan), plane});
  }
  if (!top) throw MeshError("part of the zone lies beside it");
  std::vector<Ring> on_top;
  for (const Facet& facet : facets)
    for (const Ring& piece : pieces) {
      Ring shared = facet.plan;
      for (std::size_t i = 0; i < piece.size() && shared.size() >= 3; ++i) {
        const Vec2 from = piece[i], along = piece[(i + 1) % piece.size()] - from;
        const Vec2 outward{along.y, -along.x};
        shared = clipHalfPlane(shared, outward, dot(outward, from));
      }
      if (shared.size() < 3 || std::fabs(signedArea(shared)) < kNoAreaM2) continue;
      double low = 1e300, high = -1e300;  // over the plane
      for (const Vec2 p : shared) {
        const double over = facet.plane.at(p) - top->at(p);
        low = std::min(low, over);
        high = std::max(high, over);
      }
      if (high > kTopToleranceM)
        throw MeshError("its top over the zone is of several planes, or something hangs over it");
      if (low >= -kTopToleranceM) on_top.push_back(std::move(shared));
    }
  if (!covers(unionOf(on_top), region, kTopToleranceM))
    throw MeshError("its top over the zone is of several planes, or part of the zone lies beside it");
  return *top;
}

}  // namespace belvedere::scene
