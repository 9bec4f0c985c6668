// SPDX-License-Identifier: GPL-3.0-or-later
#include "geometry/convex_pieces.h"

#include <algorithm>
#include <limits>
#include <unordered_map>

namespace belvedere {
namespace {

using Index = std::uint32_t;

// Three points bend by less than this, m: they are on a line. Well above what rounding leaves of
// a written line, well below what a drawn curve bends from point to point.
constexpr double kStraightM = 1e-11;
// Pieces thinner than this are left out: nobody sees them, and their normals mean nothing.
constexpr double kThinM = 1e-9;

double turn(Vec2 a, Vec2 b, Vec2 c) { return cross(b - a, c - b); }

// Height of b over the line from a to c, positive where the way a, b, c turns left.
double bend(Vec2 a, Vec2 b, Vec2 c) {
  const double length = norm(c - a);
  return length > 0 ? turn(a, b, c) / length : 0;
}

Ring tidied(const Ring& ring) {
  Ring out;
  for (const Vec2 p : ring)
    if (out.empty() || norm(p - out.back()) > kOutlineTouchM) out.push_back(p);
  while (out.size() > 1 && norm(out.front() - out.back()) <= kOutlineTouchM) out.pop_back();
  for (bool again = true; again && out.size() >= 3;) {
    again = false;
    Ring kept;
    const std::size_t n = out.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Vec2 a = kept.empty() ? out[n - 1] : kept.back(), c = out[(i + 1) % n];
      if (std::abs(bend(a, out[i], c)) <= kStraightM) again = true;
      else kept.push_back(out[i]);
    }
    out = std::move(kept);
  }
  if (out.size() < 3) out.clear();
  return out;
}

// The polygon as one ring of nodes, each hole joined to it by a bridge walked both ways (the
// method of D. Eberly, "Triangulation by ear clipping"), then clipped ear by ear.
class EarClipper {
 public:
  explicit EarClipper(Pieces& pieces) : pieces_(pieces) {}

  // Nodes of one ring; returns one of them.
  Index addRing(const Ring& ring) {
    const auto first = static_cast<Index>(nodes_.size());
    const auto point = static_cast<Index>(pieces_.points.size());  // bridges have made more nodes
    const auto n = static_cast<Index>(ring.size());
    for (Index i = 0; i < n; ++i) {
      pieces_.points.push_back(ring[i]);
      pieces_.before.push_back(point + (i + n - 1) % n);
      pieces_.after.push_back(point + (i + 1) % n);
      nodes_.push_back({point + i, first + (i + n - 1) % n, first + (i + 1) % n});
    }
    return first;
  }

  void joinHole(Index outer, Index first_of_hole) {
    Index left = first_of_hole;
    for (Index n = next(first_of_hole); n != first_of_hole; n = next(n))
      if (at(n).x < at(left).x || (at(n).x == at(left).x && at(n).y < at(left).y)) left = n;
    if (const auto bridge = bridgeEnd(outer, left)) split(*bridge, left);
  }

  void clip(Index start) {
    Index here = start, stop = start;
    std::size_t left = 1;
    for (Index n = next(start); n != start; n = next(n)) ++left;
    while (left > 3) {
      if (ear(here)) {
        here = cut(here, left);
        here = next(here);  // skip one: fans make slivers
        stop = here;
        continue;
      }
      here = next(here);
      if (here != stop) continue;
      // No ear by the letter: rounding, or an outline that touches itself. Take the thinnest.
      Index best = here;
      double least = std::numeric_limits<double>::infinity();
      Index n = here;
      for (std::size_t i = 0; i < left; ++i, n = next(n)) {
        const double t = turn(at(prev(n)), at(n), at(next(n)));
        if (t >= 0 && t < least) {
          least = t;
          best = n;
        }
      }
      here = cut(best, left);
      stop = here;
    }
    emit(here);
  }

 private:
  struct Node {
    Index point, prev, next;
  };

  Vec2 at(Index node) const { return pieces_.points[nodes_[node].point]; }
  Index next(Index node) const { return nodes_[node].next; }
  Index prev(Index node) const { return nodes_[node].prev; }

  void emit(Index node) {
    pieces_.triangles.push_back(
        {nodes_[prev(node)].point, nodes_[node].point, nodes_[next(node)].point});
  }

  Index cut(Index node, std::size_t& left) {
    emit(node);
    nodes_[prev(node)].next = next(node);
    nodes_[next(node)].prev = prev(node);
    --left;
    return next(node);
  }

  bool ear(Index node) const {
    const Vec2 a = at(prev(node)), b = at(node), c = at(next(node));
    if (turn(a, b, c) <= 0) return false;
    const double low_x = std::min({a.x, b.x, c.x}), high_x = std::max({a.x, b.x, c.x});
    const double low_y = std::min({a.y, b.y, c.y}), high_y = std::max({a.y, b.y, c.y});
    for (Index n = next(next(node)); n != prev(node); n = next(n)) {
      const Vec2 p = at(n);
      if (p.x < low_x || p.x > high_x || p.y < low_y || p.y > high_y) continue;
      if (p == a || p == c) continue;  // the other side of a bridge
      if (turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0 &&
          turn(at(prev(n)), p, at(next(n))) <= 0)
        return false;
    }
    return true;
  }

  // Does the way from a towards b start inside the polygon?
  bool locallyInside(Index a, Index b) const {
    const Vec2 p = at(prev(a)), q = at(a), r = at(next(a)), s = at(b);
    return turn(p, q, r) > 0 ? turn(q, s, r) <= 0 && turn(q, p, s) <= 0
                             : turn(q, s, p) > 0 || turn(q, r, s) > 0;
  }

  // A node of the outer ring that the hole's leftmost point sees.
  std::optional<Index> bridgeEnd(Index outer, Index hole) const {
    const Vec2 h = at(hole);
    double hit_x = -std::numeric_limits<double>::infinity();
    std::optional<Index> end;
    Index n = outer;
    do {
      const Vec2 p = at(n), q = at(next(n));
      if (h.y <= p.y && h.y >= q.y && p.y != q.y) {
        const double x = p.x + (h.y - p.y) * (q.x - p.x) / (q.y - p.y);
        if (x <= h.x && x > hit_x) {
          hit_x = x;
          end = p.x < q.x ? n : next(n);
          if (x == h.x) return end;
        }
      }
      n = next(n);
    } while (n != outer);
    if (!end) return end;
    // A point inside the triangle of hole, hit and end hides the end: take the one by angle.
    const Vec2 m = at(*end);
    const Vec2 hit{hit_x, h.y};
    const Vec2 t0 = h.y < m.y ? h : hit, t2 = h.y < m.y ? hit : h;
    double least = std::numeric_limits<double>::infinity();
    const Index stop = *end;
    n = stop;
    do {
      const Vec2 p = at(n);
      if (h.x > p.x && p.x >= m.x && turn(t0, t2, p) * turn(t0, t2, m) >= 0 &&
          turn(t2, m, p) * turn(t2, m, t0) >= 0 && turn(m, t0, p) * turn(m, t0, t2) >= 0) {
        const double slope = std::abs(h.y - p.y) / (h.x - p.x);
        const bool nearer = slope < least || (slope == least && (p.x > at(*end).x ||
                            (p.x == at(*end).x && wedgeHolds(*end, n))));
        if (nearer && locallyInside(n, hole)) {
          end = n;
          least = slope;
        }
      }
      n = next(n);
    } while (n != stop);
    return end;
  }

  bool wedgeHolds(Index m, Index p) const {
    return turn(at(prev(m)), at(m), at(prev(p))) > 0 && turn(at(next(p)), at(m), at(next(m))) > 0;
  }

  void split(Index a, Index b) {
    const auto a2 = static_cast<Index>(nodes_.size());
    const Index b2 = a2 + 1;
    const Index after_a = next(a), before_b = prev(b);
    nodes_.push_back({nodes_[a].point, b2, after_a});
    nodes_.push_back({nodes_[b].point, before_b, a2});
    nodes_[a].next = b;
    nodes_[b].prev = a;
    nodes_[after_a].prev = a2;
    nodes_[before_b].next = b2;
  }

  Pieces& pieces_;
  std::vector<Node> nodes_;
};

std::uint64_t key(Index a, Index b) { return (std::uint64_t{a} << 32) | b; }

// A triangle with no width, made of three points in a line, would stand between two pieces that
// in truth touch: its longest edge is flipped to the corner beyond.
void flipThinTriangles(Pieces& pieces) {
  auto& triangles = pieces.triangles;
  const auto point = [&](Index t, Index i) { return pieces.points[triangles[t][i % 3]]; };
  const auto longest = [&](Index t) {
    Index best = 0;
    for (Index i = 1; i < 3; ++i)
      if (norm(point(t, i + 1) - point(t, i)) > norm(point(t, best + 1) - point(t, best))) best = i;
    return best;
  };
  const auto thin = [&](Index t) {
    const Index i = longest(t);
    return turn(point(t, 0), point(t, 1), point(t, 2)) <=
           kThinM * norm(point(t, i + 1) - point(t, i));
  };
  std::vector<Index> work;
  for (Index t = 0; t < triangles.size(); ++t)
    if (thin(t)) work.push_back(t);
  if (work.empty()) return;
  std::unordered_map<std::uint64_t, Index> triangle_of;
  const auto record = [&](Index t) {
    for (Index i = 0; i < 3; ++i)
      triangle_of[key(triangles[t][i], triangles[t][(i + 1) % 3])] = t;
  };
  for (Index t = 0; t < triangles.size(); ++t) record(t);
  std::size_t flips_left = 8 * work.size();  // of hostile outlines; others need one or two each
  while (!work.empty() && flips_left-- > 0) {
    const Index t = work.back();
    work.pop_back();
    if (!thin(t)) continue;
    const Index i = longest(t);
    const Index a = triangles[t][i], c = triangles[t][(i + 1) % 3], b = triangles[t][(i + 2) % 3];
    const auto found = triangle_of.find(key(c, a));
    if (found == triangle_of.end() || found->second == t) continue;
    const Index other = found->second;
    Index d = c;
    for (const Index p : triangles[other])
      if (p != a && p != c) d = p;
    if (d == b || d == c) continue;
    triangle_of.erase(key(a, c));
    triangle_of.erase(key(c, a));
    triangles[t] = {a, d, b};
    triangles[other] = {d, c, b};
    record(t);
    record(other);
    for (const Index changed : {t, other})
      if (thin(changed)) work.push_back(changed);
  }
}

// Hertel and Mehlhorn (1983): drop every inner edge whose two ends stay convex, long ones first.
void mergeTriangles(Pieces& pieces) {
  std::unordered_map<std::uint64_t, Index> edge_of;
  std::vector<Index> prev;
  for (const auto& triangle : pieces.triangles)
    for (Index i = 0; i < 3; ++i) {
      const auto e = static_cast<Index>(pieces.from.size());
      pieces.from.push_back(triangle[i]);
      pieces.next.push_back(i < 2 ? e + 1 : e - 2);
      prev.push_back(i > 0 ? e - 1 : e + 2);
      edge_of.emplace(key(triangle[i], triangle[(i + 1) % 3]), e);
    }
  const auto edges = static_cast<Index>(pieces.from.size());
  pieces.twin.assign(edges, kNoTwin);
  std::vector<Index> inner;
  const auto point = [&](Index e) { return pieces.points[pieces.from[e]]; };
  for (Index e = 0; e < edges; ++e) {
    const auto found = edge_of.find(key(pieces.from[pieces.next[e]], pieces.from[e]));
    if (found == edge_of.end()) continue;
    pieces.twin[e] = found->second;
    if (e < found->second) inner.push_back(e);
  }
  const auto length2 = [&](Index e) {
    const Vec2 d = point(pieces.next[e]) - point(e);
    return dot(d, d);
  };
  std::stable_sort(inner.begin(), inner.end(),
                   [&](Index a, Index b) { return length2(a) > length2(b); });
  std::vector<bool> gone(edges, false);
  const auto convexAfter = [&](Index e, Index t) {  // at the end of t, which is the start of e
    const Vec2 a = point(prev[e]), b = point(e), c = point(pieces.next[pieces.next[t]]);
    return dot(b - a, c - b) > -norm(b - a) * norm(c - b) && bend(a, b, c) >= -kStraightM;
  };
  const auto thin = [&](Index e) {  // a triangle of no width, whose corners say nothing
    const Index triangle = e - e % 3;
    const Vec2 a = point(triangle), b = point(triangle + 1), c = point(triangle + 2);
    const double longest = std::max({norm(b - a), norm(c - b), norm(a - c)});
    return turn(a, b, c) <= kThinM * longest;
  };
  for (const Index e : inner) {
    const Index t = pieces.twin[e];
    if (thin(e) || thin(t) || !convexAfter(e, t) || !convexAfter(t, e)) continue;
    pieces.next[prev[e]] = pieces.next[t];
    prev[pieces.next[t]] = prev[e];
    pieces.next[prev[t]] = pieces.next[e];
    prev[pieces.next[e]] = prev[t];
    gone[e] = gone[t] = true;
  }
  for (Index e = 0; e < edges; ++e) {
    if (gone[e]) continue;
    pieces.first.push_back(e);
    for (Index n = e; !gone[n]; n = pieces.next[n]) gone[n] = true;
  }
}

Ring ringOf(const Pieces& pieces, Index first) {
  Ring ring;
  Index e = first;
  do {
    ring.push_back(pieces.points[pieces.from[e]]);
    e = pieces.next[e];
  } while (e != first);
  return tidied(ring);
}

}  // namespace

Pieces piecesOf(const Polygon& polygon) {
  Pieces pieces;
  const Ring outer = tidied(anticlockwise(polygon.outer));
  if (outer.empty()) return pieces;
  EarClipper clipper(pieces);
  const Index start = clipper.addRing(outer);
  std::vector<Ring> holes;
  for (const Ring& hole : polygon.holes)
    if (Ring h = tidied(reversed(anticlockwise(hole))); !h.empty()) holes.push_back(std::move(h));
  std::stable_sort(holes.begin(), holes.end(), [](const Ring& a, const Ring& b) {
    return bounds(a).low.x < bounds(b).low.x;
  });
  for (const Ring& hole : holes) clipper.joinHole(start, clipper.addRing(hole));
  clipper.clip(start);
  flipThinTriangles(pieces);
  mergeTriangles(pieces);
  return pieces;
}

bool tooThin(const Ring& ring) {
  double round = 0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    round += norm(ring[(i + 1) % ring.size()] - ring[i]);
  return ring.size() < 3 || signedArea(ring) <= 0.5 * kThinM * round;
}

std::vector<Ring> convexPieces(const Polygon& polygon) {
  const Pieces pieces = piecesOf(polygon);
  std::vector<Ring> rings;
  for (const Index first : pieces.first)
    if (Ring ring = ringOf(pieces, first); !tooThin(ring)) rings.push_back(std::move(ring));
  return rings;
}

std::vector<std::array<Vec2, 3>> triangles(const Polygon& polygon) {
  const Pieces pieces = piecesOf(polygon);
  std::vector<std::array<Vec2, 3>> out;
  for (const auto& [a, b, c] : pieces.triangles)
    out.push_back({pieces.points[a], pieces.points[b], pieces.points[c]});
  return out;
}

}  // namespace belvedere
