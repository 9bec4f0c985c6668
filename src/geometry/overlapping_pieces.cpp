// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "geometry/convex_pieces.h"

namespace belvedere {
namespace {

using Index = std::uint32_t;

// A corner farther than this from where it was, in units of the distance, is cut off.
constexpr double kMitreLimit = 4;

Vec2 outward(Vec2 a, Vec2 b) { return -perpLeft((b - a) / norm(b - a)); }

// The new corner or corners at u, whose edges in and out (directions d1, d2) move outward by s1
// and s2: where the moved lines meet, cut off square to each edge at kMitreLimit.
void addCorner(Ring& ring, Vec2 u, Vec2 d1, Vec2 d2, double s1, double s2) {
  if (s1 == 0 && s2 == 0) {
    ring.push_back(u);
    return;
  }
  const Vec2 n1 = -perpLeft(d1), n2 = -perpLeft(d2);
  const double reach = kMitreLimit * std::max(s1, s2);
  const double sine = cross(d1, d2);
  // Along the first edge from u: n2 . (n1 s1 + d1 t) = s2, and n2 . d1 = sine.
  const double t = sine > 0 ? (s2 - s1 * dot(n1, n2)) / sine : 2 * reach;
  const Vec2 mitre = n1 * s1 + d1 * t;
  if (sine > 0 && norm(mitre) <= reach) {
    ring.push_back(u + mitre);
    return;
  }
  if (dot(d1, d2) > 0) {  // nearly in one line, and only one moves: it moves less and less toward u
    ring.push_back(u);
    return;
  }
  ring.push_back(u + n1 * s1 + d1 * (reach - std::max(s1, s2)));
  ring.push_back(u + n2 * s2 - d2 * (reach - std::max(s1, s2)));
}

// One side of a piece: an edge, or several in a line. Only a side that is one seam may move: at a
// corner between two edges in a line the outline comes in from beyond.
struct Run {
  Index start;  // point
  bool movable = false;
};

std::vector<Run> runsOf(const Pieces& pieces, Index first) {
  std::vector<Run> runs;
  Index e = first;
  do {
    runs.push_back({pieces.from[e], pieces.twin[e] != kNoTwin});
    e = pieces.next[e];
  } while (e != first);
  for (std::size_t i = 0; i < runs.size() && runs.size() > 3;) {
    const std::size_t n = runs.size();
    const Vec2 a = pieces.points[runs[(i + n - 1) % n].start], b = pieces.points[runs[i].start],
               c = pieces.points[runs[(i + 1) % n].start];
    if (std::abs(cross(b - a, c - b)) > 1e-10 * norm(c - a)) {
      ++i;
      continue;
    }
    runs[(i + n - 1) % n].movable = false;
    runs.erase(runs.begin() + static_cast<std::ptrdiff_t>(i));
  }
  return runs;
}

Ring clipToLine(const Ring& ring, Vec2 a, Vec2 b) {
  const Vec2 n = outward(a, b);
  return clipHalfPlane(ring, n, dot(n, a));
}

// Two wedges at one corner, each less than half a turn, from a1 to a2 and from b1 to b2
// (anticlockwise): a direction between a2 and b1 whose line keeps them apart, the first to its
// right. Midway in what room there is.
Vec2 between(Vec2 a1, Vec2 a2, Vec2 b1, Vec2 b2) {
  const Vec2 low = cross(a2, -b2) > 0 ? -b2 : a2;
  const Vec2 high = cross(b1, -a1) < 0 ? -a1 : b1;
  const Vec2 middle = low / norm(low) + high / norm(high);
  return middle / norm(middle);
}

// A piece reaching over its seams. It may leave the polygon nowhere, so at a convex corner of the
// outline it is cut along the outline, at a reflex one by a line between itself and what lies
// outside.
Ring reachingOver(const Pieces& pieces, const std::vector<Run>& runs, double overlap_m) {
  const std::size_t n = runs.size();
  const auto point = [&](std::size_t i) { return pieces.points[runs[i % n].start]; };
  const auto direction = [&](std::size_t i) {
    const Vec2 d = point(i + 1) - point(i);
    return d / norm(d);
  };
  const auto shift = [&](std::size_t i) {
    return runs[i % n].movable ? overlap_m : 0.0;
  };
  Ring ring;
  for (std::size_t i = 0; i < n; ++i)
    addCorner(ring, point(i), direction(i + n - 1), direction(i), shift(i + n - 1), shift(i));
  for (std::size_t i = 0; i < n; ++i) {
    if (shift(i + n - 1) == 0 && shift(i) == 0) continue;
    const Index u = runs[i].start;
    const Vec2 before = pieces.points[pieces.before[u]], after = pieces.points[pieces.after[u]];
    if (cross(pieces.points[u] - before, after - pieces.points[u]) > 0) {
      ring = clipToLine(clipToLine(ring, before, point(i)), point(i), after);
    } else {
      const Vec2 cut = between(direction(i), -direction(i + n - 1), before - point(i),
                               after - point(i));
      ring = clipHalfPlane(ring, perpLeft(cut), dot(perpLeft(cut), point(i)));
    }
  }
  return convexHull(std::move(ring));
}

// A strip along a seam, kept within the two pieces beside it.
Ring strip(const Pieces& pieces, Index edge, const std::vector<Run>& left,
           const std::vector<Run>& right, double overlap_m) {
  const Vec2 a = pieces.points[pieces.from[edge]],
             b = pieces.points[pieces.from[pieces.next[edge]]];
  const Vec2 n = outward(a, b) * overlap_m;
  Ring ring{a + n, b + n, b - n, a - n};
  for (const auto* runs : {&left, &right})
    for (std::size_t i = 0; i < runs->size(); ++i) {
      const Vec2 p = pieces.points[(*runs)[i].start],
                 q = pieces.points[(*runs)[(i + 1) % runs->size()].start];
      const Vec2 along = (q - p) / norm(q - p);
      const bool on_seam = std::abs(cross(along, a - p)) <= kOutlineTouchM &&
                           std::abs(cross(along, b - p)) <= kOutlineTouchM;
      if (!on_seam) ring = clipToLine(ring, p, q);
    }
  return ring;
}

}  // namespace

std::vector<Ring> overlappingPieces(const Polygon& polygon, double overlap_m) {
  const Pieces pieces = piecesOf(polygon);
  std::vector<Ring> rings;
  std::vector<std::vector<Run>> runs;
  std::vector<Index> piece_of(pieces.from.size(), 0);
  for (const Index first : pieces.first) {
    const auto piece = static_cast<Index>(runs.size());
    runs.push_back(runsOf(pieces, first));
    Index e = first;
    do {
      piece_of[e] = piece;
      e = pieces.next[e];
    } while (e != first);
    if (Ring ring = reachingOver(pieces, runs.back(), overlap_m); !tooThin(ring))
      rings.push_back(std::move(ring));
  }
  // Where neither neighbour reaches over.
  const auto staysAlong = [&](Index e) {
    const auto& own = runs[piece_of[e]];
    const Vec2 a = pieces.points[pieces.from[e]], b = pieces.points[pieces.from[pieces.next[e]]];
    for (std::size_t i = 0; i < own.size(); ++i) {
      if (own[i].movable) continue;
      const Vec2 p = pieces.points[own[i].start],
                 q = pieces.points[own[(i + 1) % own.size()].start];
      const Vec2 along = (q - p) / norm(q - p);
      if (std::abs(cross(along, a - p)) <= kOutlineTouchM && std::abs(cross(along, b - p)) <= kOutlineTouchM)
        return true;
    }
    return false;
  };
  for (const Index first : pieces.first) {
    Index e = first;
    do {
      const Index t = pieces.twin[e];
      if (t != kNoTwin && e < t && staysAlong(e) && staysAlong(t))
        if (Ring ring = strip(pieces, e, runs[piece_of[e]], runs[piece_of[t]], overlap_m);
            ring.size() >= 3)
          rings.push_back(std::move(ring));
      e = pieces.next[e];
    } while (e != first);
  }
  return rings;
}

Ring grownConvex(const Ring& convex, double distance_m) {
  const std::size_t n = convex.size();
  const auto direction = [&](std::size_t i) {
    const Vec2 d = convex[(i + 1) % n] - convex[i % n];
    return d / norm(d);
  };
  Ring ring;
  for (std::size_t i = 0; i < n; ++i)
    addCorner(ring, convex[i], direction(i + n - 1), direction(i), distance_m, distance_m);
  return ring;
}

}  // namespace belvedere
