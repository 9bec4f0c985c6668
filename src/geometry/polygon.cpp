// SPDX-License-Identifier: GPL-3.0-or-later
#include "geometry/polygon.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace belvedere {
namespace {

double distanceToSegment(Vec2 a, Vec2 b, Vec2 p) {
  const Vec2 d = b - a;
  const double length2 = dot(d, d);
  const double t = length2 > 0 ? std::clamp(dot(p - a, d) / length2, 0.0, 1.0) : 0.0;
  return norm(p - (a + d * t));
}

// Where segments ab and cd cross or touch.
std::optional<Vec2> meeting(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  for (const Vec2 p : {c, d})
    if (distanceToSegment(a, b, p) <= kOutlineTouchM) return p;
  for (const Vec2 p : {a, b})
    if (distanceToSegment(c, d, p) <= kOutlineTouchM) return p;
  const double sc = cross(b - a, c - a), sd = cross(b - a, d - a);
  const double sa = cross(d - c, a - c), sb = cross(d - c, b - c);
  if ((sc > 0) == (sd > 0) || (sa > 0) == (sb > 0)) return std::nullopt;
  return a + (b - a) * (sa / (sa - sb));
}

}  // namespace

void Box2::add(Vec2 p) {
  low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  high = {std::max(high.x, p.x), std::max(high.y, p.y)};
}

double signedArea(const Ring& ring) {
  double twice = 0;
  // About the first point, so that far from the origin no digits are lost.
  for (std::size_t i = 1; i + 1 < ring.size(); ++i)
    twice += cross(ring[i] - ring[0], ring[i + 1] - ring[0]);
  return 0.5 * twice;
}

double area(const Polygon& polygon) {
  double sum = std::abs(signedArea(polygon.outer));
  for (const Ring& hole : polygon.holes) sum -= std::abs(signedArea(hole));
  return sum;
}

double area(const Region& region) {
  double sum = 0;
  for (const Polygon& polygon : region) sum += area(polygon);
  return sum;
}

Box2 bounds(const Ring& ring) {
  Box2 box;
  for (const Vec2 p : ring) box.add(p);
  return box;
}

Box2 bounds(const Region& region) {
  Box2 box;
  for (const Polygon& polygon : region)
    for (const Vec2 p : polygon.outer) box.add(p);
  return box;
}

Ring reversed(Ring ring) {
  std::reverse(ring.begin(), ring.end());
  return ring;
}

Ring anticlockwise(Ring ring) {
  return signedArea(ring) < 0 ? reversed(std::move(ring)) : ring;
}

std::optional<Crossing> selfCrossing(const Ring& ring) {
  // Edges that are more than a point, in the order of the ring.
  struct E {
    std::size_t index;
    Vec2 a, b;
    double low_x, high_x;
  };
  std::vector<E> edges;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
    if (norm(b - a) <= kOutlineTouchM) continue;
    edges.push_back({i, a, b, std::min(a.x, b.x) - kOutlineTouchM, std::max(a.x, b.x) + kOutlineTouchM});
  }
  const std::size_t n = edges.size();
  if (n < 3) {
    if (n == 2) return Crossing{edges[0].index, edges[1].index, edges[0].b};
    return std::nullopt;
  }
  std::optional<Crossing> first;
  const auto keep = [&](std::size_t i, std::size_t j, Vec2 at) {
    if (i > j) std::swap(i, j);
    const Crossing found{edges[i].index, edges[j].index, at};
    if (!first || found.edge_a < first->edge_a ||
        (found.edge_a == first->edge_a && found.edge_b < first->edge_b))
      first = found;
  };
  for (std::size_t i = 0; i < n; ++i) {
    const E& e = edges[i];
    const std::size_t j = (i + 1) % n;
    const E& f = edges[j];
    if (distanceToSegment(e.a, e.b, f.b) <= kOutlineTouchM) keep(i, j, f.b);
    else if (distanceToSegment(f.a, f.b, e.a) <= kOutlineTouchM) keep(i, j, e.a);
  }
  // Sweep by x: only edges whose spans overlap are compared.
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) {
    return edges[i].low_x != edges[j].low_x ? edges[i].low_x < edges[j].low_x : i < j;
  });
  std::vector<std::size_t> active;
  for (const std::size_t i : order) {
    const E& e = edges[i];
    std::erase_if(active, [&](std::size_t j) { return edges[j].high_x < e.low_x; });
    for (const std::size_t j : active) {
      const E& f = edges[j];
      if ((i + 1) % n == j || (j + 1) % n == i) continue;
      if (std::max(e.a.y, e.b.y) + kOutlineTouchM < std::min(f.a.y, f.b.y) ||
          std::max(f.a.y, f.b.y) + kOutlineTouchM < std::min(e.a.y, e.b.y))
        continue;
      if (const auto at = meeting(e.a, e.b, f.a, f.b)) keep(i, j, *at);
    }
    active.push_back(i);
  }
  return first;
}

bool contains(const Ring& ring, Vec2 p) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const Vec2 a = ring[j], b = ring[i];
    const double low_y = std::min(a.y, b.y), high_y = std::max(a.y, b.y);
    if (p.y < low_y - kOutlineTouchM || p.y > high_y + kOutlineTouchM) continue;
    if (p.x > std::max(a.x, b.x) + kOutlineTouchM) continue;
    if (distanceToSegment(a, b, p) <= kOutlineTouchM) return true;
    if ((a.y > p.y) == (b.y > p.y)) continue;
    // The edge crosses p's level: to its right?
    const double side = cross(b - a, p - a);
    if (b.y > a.y ? side > 0 : side < 0) inside = !inside;
  }
  return inside;
}

bool contains(const Polygon& polygon, Vec2 p) {
  if (!contains(polygon.outer, p)) return false;
  for (const Ring& hole : polygon.holes)
    if (contains(hole, p) && distanceToOutline(hole, p) > kOutlineTouchM) return false;
  return true;
}

bool contains(const Region& region, Vec2 p) {
  return std::any_of(region.begin(), region.end(),
                     [&](const Polygon& polygon) { return contains(polygon, p); });
}

double distanceToOutline(const Ring& ring, Vec2 p) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < ring.size(); ++i)
    least = std::min(least, distanceToSegment(ring[i], ring[(i + 1) % ring.size()], p));
  return least;
}

Ring clipHalfPlane(const Ring& ring, Vec2 normal, double limit) {
  Ring kept;
  kept.reserve(ring.size() + 1);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
    const double over_a = dot(normal, a) - limit, over_b = dot(normal, b) - limit;
    if (over_a <= 0) kept.push_back(a);
    if ((over_a < 0 && over_b > 0) || (over_a > 0 && over_b < 0))
      kept.push_back(a + (b - a) * (over_a / (over_a - over_b)));
  }
  if (kept.size() < 3) kept.clear();
  return kept;
}

Ring convexHull(std::vector<Vec2> points) {
  const auto before = [](Vec2 a, Vec2 b) { return a.x != b.x ? a.x < b.x : a.y < b.y; };
  std::sort(points.begin(), points.end(), before);
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) return points;
  // Andrew's monotone chain: the lower half from the left, the upper half from the right.
  Ring hull;
  const auto half = [&](auto begin, auto end) {
    const std::size_t start = hull.size();
    for (auto p = begin; p != end; ++p) {
      while (hull.size() >= start + 2 &&
             cross(hull.back() - hull[hull.size() - 2], *p - hull.back()) <= 0)
        hull.pop_back();
      hull.push_back(*p);
    }
    hull.pop_back();
  };
  half(points.begin(), points.end());
  half(points.rbegin(), points.rend());
  return hull;
}

}  // namespace belvedere
