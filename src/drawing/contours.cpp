// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/contours.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "base/check.h"

namespace belvedere::drawing {
namespace {

using EdgeId = std::uint32_t;
constexpr EdgeId kNone = std::numeric_limits<EdgeId>::max();

// Lattice edges: to the right of a point (even) and up from it (odd).
EdgeId edgeRight(LatticeSize size, int column, int row) {
  return static_cast<EdgeId>(2 * size.index(column, row));
}
EdgeId edgeUp(LatticeSize size, int column, int row) {
  return static_cast<EdgeId>(2 * size.index(column, row) + 1);
}

struct EdgeEnds {
  std::size_t a = 0, b = 0;
  Vec2 at_a, at_b;
};
EdgeEnds endsOf(LatticeSize size, EdgeId edge) {
  const std::size_t a = edge / 2, columns = static_cast<std::size_t>(size.columns);
  const bool up = edge % 2 == 1;
  const Vec2 at{static_cast<double>(a % columns), static_cast<double>(a / columns)};
  return {a, up ? a + columns : a + 1, at, at + (up ? Vec2{0, 1} : Vec2{1, 0})};
}

// next[e]: the edge at which the border that enters a cell over edge e leaves it; inside lies left.
std::vector<EdgeId> linkEdges(LatticeSize size, const std::vector<std::uint8_t>& inside,
                              const std::vector<std::uint8_t>* usable_cells) {
  std::vector<EdgeId> next(2 * size.count(), kNone);
  for (int row = 0; row + 1 < size.rows; ++row)
    for (int column = 0; column + 1 < size.columns; ++column) {
      if (usable_cells && !(*usable_cells)[size.index(column, row)]) continue;
      const std::array<bool, 4> in{
          inside[size.index(column, row)] != 0, inside[size.index(column + 1, row)] != 0,
          inside[size.index(column + 1, row + 1)] != 0, inside[size.index(column, row + 1)] != 0};
      const std::array<EdgeId, 4> edges{
          edgeRight(size, column, row), edgeUp(size, column + 1, row),
          edgeRight(size, column, row + 1), edgeUp(size, column, row)};
      // Round the cell anticlockwise: a run of inside corners starts where an edge goes in and
      // ends where one goes out; the border leads from its end to its start.
      for (std::size_t out = 0; out < 4; ++out) {
        if (!in[out] || in[(out + 1) % 4]) continue;
        std::size_t start = out;
        while (in[(start + 3) % 4]) start = (start + 3) % 4;
        next[edges[out]] = edges[(start + 3) % 4];
      }
    }
  return next;
}

// Chains of edges; `visit(chain, closed)`.
template <class Visit>
void followChains(const std::vector<EdgeId>& next, Visit visit) {
  std::vector<std::uint8_t> reached(next.size(), 0), done(next.size(), 0);
  for (const EdgeId to : next)
    if (to != kNone) reached[to] = 1;
  std::vector<EdgeId> chain;
  for (const bool closed : {false, true})
    for (EdgeId first = 0; first < next.size(); ++first) {
      if (next[first] == kNone || done[first] || (!closed && reached[first])) continue;
      chain.clear();
      EdgeId edge = first;
      while (edge != kNone && !done[edge]) {
        chain.push_back(edge);
        done[edge] = 1;
        edge = next[edge];
      }
      visit(chain, closed);
    }
}

double distanceToSegment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 d = b - a;
  const double length2 = dot(d, d);
  const double t = length2 > 0 ? std::clamp(dot(p - a, d) / length2, 0.0, 1.0) : 0.0;
  return norm(p - (a + d * t));
}

void keepBetween(const std::vector<Vec2>& points, const std::vector<double>& slack,
                 std::size_t from, std::size_t to, std::vector<std::uint8_t>& keep) {
  std::vector<std::pair<std::size_t, std::size_t>> open{{from, to}};
  while (!open.empty()) {
    const auto [low, high] = open.back();
    open.pop_back();
    double worst = 1;
    std::size_t at = 0;
    for (std::size_t i = low + 1; i < high; ++i) {
      const double over = distanceToSegment(points[i], points[low], points[high]) / slack[i];
      if (over > worst) {
        worst = over;
        at = i;
      }
    }
    if (at == 0) continue;
    keep[at] = 1;
    open.emplace_back(low, at);
    open.emplace_back(at, high);
  }
}

// A closed line from its hull's corner on, and which of its points Douglas and Peucker keep.
struct Kept {
  std::vector<Vec2> line;
  std::vector<std::size_t> at;
};
Kept keptOfRing(const std::vector<Vec2>& points, const std::vector<double>& slack) {
  Kept kept{points, {}};
  std::vector<double> by = slack;
  // Start at a corner of the hull, so that no needless point is kept on a straight side.
  const auto start = std::min_element(points.begin(), points.end(), [](Vec2 a, Vec2 b) {
    return a.x + 0.37 * a.y < b.x + 0.37 * b.y;
  });
  const auto shift = start - points.begin();
  std::rotate(kept.line.begin(), kept.line.begin() + shift, kept.line.end());
  std::rotate(by.begin(), by.begin() + shift, by.end());
  std::size_t far = 0;
  for (std::size_t i = 1; i < kept.line.size(); ++i)
    if (norm(kept.line[i] - kept.line[0]) > norm(kept.line[far] - kept.line[0])) far = i;
  kept.line.push_back(kept.line.front());
  by.push_back(by.front());
  std::vector<std::uint8_t> keep(kept.line.size(), 0);
  keep[0] = keep[far] = 1;
  keepBetween(kept.line, by, 0, far, keep);
  keepBetween(kept.line, by, far, kept.line.size() - 1, keep);
  kept.line.pop_back();
  for (std::size_t i = 0; i < kept.line.size(); ++i)
    if (keep[i]) kept.at.push_back(i);
  return kept;
}

struct StraightLine {
  Vec2 through, along;
};
// The line nearest to the points between two kept ones (least squares across it); that of the two
// themselves where few lie between.
StraightLine fitBetween(const Kept& kept, std::size_t side) {
  const std::size_t n = kept.line.size(), from = kept.at[side],
                    to = side + 1 < kept.at.size() ? kept.at[side + 1] : kept.at[0] + n;
  const Vec2 a = kept.line[from], b = kept.line[to % n];
  const Vec2 chord = norm(b - a) > 0 ? (b - a) / norm(b - a) : Vec2{1, 0};
  if (to - from < 5) return {a, chord};
  Vec2 middle;
  const double count = static_cast<double>(to - from - 1);
  for (std::size_t i = from + 1; i < to; ++i) middle = middle + kept.line[i % n] / count;
  double xx = 0, xy = 0, yy = 0;
  for (std::size_t i = from + 1; i < to; ++i) {
    const Vec2 d = kept.line[i % n] - middle;
    xx += d.x * d.x;
    xy += d.x * d.y;
    yy += d.y * d.y;
  }
  const double angle = 0.5 * std::atan2(2 * xy, xx - yy);
  return {middle, {std::cos(angle), std::sin(angle)}};
}

// The kept points moved to where the sides fitted to all points meet: a staircase's border comes
// out through its middle, its corners sharp.
Ring refitted(const Kept& kept) {
  constexpr double kFarthest = 1.5;  // lattice units that a corner may move
  const std::size_t n = kept.at.size();
  std::vector<StraightLine> sides;
  for (std::size_t i = 0; i < n; ++i) sides.push_back(fitBetween(kept, i));
  Ring ring;
  for (std::size_t i = 0; i < n; ++i) {
    const StraightLine &a = sides[(i + n - 1) % n], &b = sides[i];
    const Vec2 old = kept.line[kept.at[i]];
    const double turn = cross(a.along, b.along);
    const auto foot = [&](const StraightLine& line) {
      return line.through + line.along * dot(old - line.through, line.along);
    };
    Vec2 corner = (foot(a) + foot(b)) * 0.5;
    if (std::abs(turn) > 0.05) {
      const Vec2 meet = a.through + a.along * (cross(b.through - a.through, b.along) / turn);
      if (norm(meet - old) <= kFarthest) corner = meet;
    }
    ring.push_back(norm(corner - old) <= kFarthest ? corner : old);
  }
  return ring;
}

}  // namespace

std::vector<Vec2> simplified(const std::vector<Vec2>& points, const std::vector<double>& slack,
                             bool closed) {
  if (points.size() < 3) return points;
  std::vector<Vec2> left;
  if (closed) {
    const Kept kept = keptOfRing(points, slack);
    for (const std::size_t i : kept.at) left.push_back(kept.line[i]);
    return left;
  }
  std::vector<std::uint8_t> keep(points.size(), 0);
  keep.front() = keep.back() = 1;
  keepBetween(points, slack, 0, points.size() - 1, keep);
  for (std::size_t i = 0; i < points.size(); ++i)
    if (keep[i]) left.push_back(points[i]);
  return left;
}

Region polygonsOf(std::vector<Ring> rings) {
  Region region;
  std::vector<double> areas;
  std::vector<Ring> holes;
  for (Ring& ring : rings) {
    const double size = signedArea(ring);
    if (size > 0) {
      areas.push_back(size);
      region.push_back({std::move(ring), {}});
    } else if (size < 0) {
      holes.push_back(std::move(ring));
    }
  }
  std::vector<Box2> boxes;
  for (const Polygon& polygon : region) boxes.push_back(bounds(polygon.outer));
  for (Ring& hole : holes) {
    const Box2 box = bounds(hole);
    const double size = -signedArea(hole);
    std::size_t best = region.size();
    for (std::size_t i = 0; i < region.size(); ++i) {
      if (areas[i] < size || (best < region.size() && areas[i] >= areas[best])) continue;
      if (box.low.x < boxes[i].low.x || box.high.x > boxes[i].high.x ||
          box.low.y < boxes[i].low.y || box.high.y > boxes[i].high.y)
        continue;
      // Simplified rings may touch: most of the hole's points decide.
      std::size_t within = 0;
      for (const Vec2 p : hole) within += contains(region[i].outer, p) ? 1 : 0;
      if (2 * within > hole.size()) best = i;
    }
    if (best < region.size()) region[best].holes.push_back(std::move(hole));
  }
  return region;
}

Region traceRegion(LatticeSize size, const std::vector<std::uint8_t>& inside,
                   const CrossingOf& crossing) {
  BELVEDERE_CHECK(inside.size() == size.count(), "a value at every point of the lattice");
  std::vector<Ring> rings;
  std::vector<Vec2> points;
  std::vector<double> slack;
  followChains(linkEdges(size, inside, nullptr), [&](const std::vector<EdgeId>& chain, bool closed) {
    BELVEDERE_CHECK(closed, "the rim of the lattice lies outside");
    points.clear();
    slack.clear();
    for (const EdgeId edge : chain) {
      EdgeEnds ends = endsOf(size, edge);
      if (!inside[ends.a]) {
        std::swap(ends.a, ends.b);
        std::swap(ends.at_a, ends.at_b);
      }
      const BorderAt at = crossing(ends.a, ends.b);
      points.push_back(ends.at_a + (ends.at_b - ends.at_a) * at.share);
      slack.push_back(std::max(at.slack, 1e-9));
    }
    const Kept kept = keptOfRing(points, slack);
    if (kept.at.size() >= 3) rings.push_back(refitted(kept));
  });
  return polygonsOf(std::move(rings));
}

std::vector<Line> traceLines(LatticeSize size, const std::vector<double>& values,
                             const std::vector<std::uint8_t>& usable_cells, double level,
                             double slack) {
  BELVEDERE_CHECK(values.size() == size.count() && usable_cells.size() == size.count(),
                  "a value and a flag at every point of the lattice");
  std::vector<std::uint8_t> inside(values.size());
  for (std::size_t i = 0; i < values.size(); ++i) inside[i] = values[i] >= level;
  std::vector<Line> lines;
  followChains(linkEdges(size, inside, &usable_cells),
               [&](const std::vector<EdgeId>& chain, bool closed) {
                 // An open chain's last edge has no follower but does bound its last cell.
                 std::vector<Vec2> points;
                 for (const EdgeId edge : chain) {
                   const EdgeEnds ends = endsOf(size, edge);
                   const double a = std::log(values[ends.a]), b = std::log(values[ends.b]);
                   const double share =
                       a == b ? 0.5 : std::clamp((std::log(level) - a) / (b - a), 0.0, 1.0);
                   points.push_back(ends.at_a + (ends.at_b - ends.at_a) * share);
                 }
                 const std::vector<double> by(points.size(), slack);
                 lines.push_back({simplified(points, by, closed), closed});
               });
  return lines;
}

double lengthOf(const std::vector<Vec2>& points) {
  double length = 0;
  for (std::size_t i = 1; i < points.size(); ++i) length += norm(points[i] - points[i - 1]);
  return length;
}

std::vector<Vec2> stretchOf(const std::vector<Vec2>& points, double from, double to) {
  std::vector<Vec2> part;
  double passed = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const Vec2 a = points[i - 1], d = points[i] - points[i - 1];
    const double length = norm(d);
    const double low = std::max(from - passed, 0.0), high = std::min(to - passed, length);
    if (length > 0 && low < high) {
      if (part.empty()) part.push_back(a + d * (low / length));
      part.push_back(a + d * (high / length));
    }
    passed += length;
  }
  return part;
}

}  // namespace belvedere::drawing
