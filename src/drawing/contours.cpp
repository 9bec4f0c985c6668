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

}  // namespace

std::vector<Vec2> simplified(const std::vector<Vec2>& points, const std::vector<double>& slack,
                             bool closed) {
  if (points.size() < 3) return points;
  std::vector<Vec2> line = points;
  std::vector<double> by = slack;
  std::vector<std::uint8_t> keep(points.size() + 1, 0);
  if (!closed) {
    keep[0] = keep[points.size() - 1] = 1;
    keepBetween(line, by, 0, points.size() - 1, keep);
  } else {
    // Start at a corner of the hull, so that no needless point is kept on a straight side.
    const auto start = std::min_element(points.begin(), points.end(), [](Vec2 a, Vec2 b) {
      return a.x + 0.37 * a.y < b.x + 0.37 * b.y;
    });
    const auto shift = start - points.begin();
    std::rotate(line.begin(), line.begin() + shift, line.end());
    std::rotate(by.begin(), by.begin() + shift, by.end());
    std::size_t far = 0;
    for (std::size_t i = 1; i < line.size(); ++i)
      if (norm(line[i] - line[0]) > norm(line[far] - line[0])) far = i;
    line.push_back(line.front());
    by.push_back(by.front());
    keep[0] = keep[far] = 1;
    keepBetween(line, by, 0, far, keep);
    keepBetween(line, by, far, line.size() - 1, keep);
    line.pop_back();
  }
  std::vector<Vec2> kept;
  for (std::size_t i = 0; i < line.size(); ++i)
    if (keep[i]) kept.push_back(line[i]);
  return kept;
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
    Ring ring = simplified(points, slack, true);
    if (ring.size() >= 3) rings.push_back(std::move(ring));
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
