// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/lattice.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace belvedere::proof {

Lattice latticeOf(const Region& region, double cell_m, std::size_t cells_most) {
  Lattice lattice;
  double longest = 0;
  for (const Polygon& polygon : region)
    for (std::size_t i = 0; i < polygon.outer.size(); ++i) {
      const Vec2 edge = polygon.outer[(i + 1) % polygon.outer.size()] - polygon.outer[i];
      if (norm(edge) > longest * (1 + 1e-9)) {
        longest = norm(edge);
        // Any of the four directions along the edge will do: the one nearest to east.
        const double east_deg = radToDeg(std::atan2(edge.y, edge.x));
        lattice.turn_deg = -(east_deg - 90 * std::round(east_deg / 90));
      }
    }
  const double turn = degToRad(lattice.turn_deg);
  lattice.x = {std::cos(turn), -std::sin(turn)};
  lattice.y = {std::sin(turn), std::cos(turn)};
  Box2 box;
  for (const Polygon& polygon : region)
    for (const Vec2 p : polygon.outer) box.add({dot(p, lattice.x), dot(p, lattice.y)});
  const Vec2 size = box.high - box.low;
  lattice.cell_m = std::max(cell_m, std::sqrt(size.x * size.y / static_cast<double>(cells_most)));
  lattice.columns = std::max(1, static_cast<int>(std::ceil(size.x / lattice.cell_m - 1e-9)));
  lattice.rows = std::max(1, static_cast<int>(std::ceil(size.y / lattice.cell_m - 1e-9)));
  const Vec2 rest{0.5 * (size.x - lattice.columns * lattice.cell_m),
                  0.5 * (size.y - lattice.rows * lattice.cell_m)};
  const Vec2 corner = box.low + rest;
  lattice.origin = lattice.x * corner.x + lattice.y * corner.y;
  return lattice;
}

std::vector<std::vector<Run>> runsInside(const Lattice& lattice, const Region& region) {
  // In units of cells, centres at whole numbers: a row's line crosses outlines, even and odd.
  std::vector<std::vector<double>> crossings(static_cast<std::size_t>(lattice.rows));
  const auto local = [&](Vec2 p) {
    const Vec2 d = p - lattice.origin;
    return Vec2{dot(d, lattice.x) / lattice.cell_m - 0.5, dot(d, lattice.y) / lattice.cell_m - 0.5};
  };
  const auto addRing = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      Vec2 a = local(ring[i]), b = local(ring[(i + 1) % ring.size()]);
      if (a.y > b.y) std::swap(a, b);
      const int first = std::max(0, static_cast<int>(std::ceil(a.y)));
      const int last = std::min(lattice.rows - 1, static_cast<int>(std::ceil(b.y)) - 1);
      for (int row = first; row <= last; ++row)
        crossings[static_cast<std::size_t>(row)].push_back(a.x +
                                                           (row - a.y) / (b.y - a.y) * (b.x - a.x));
    }
  };
  for (const Polygon& polygon : region) {
    addRing(polygon.outer);
    for (const Ring& hole : polygon.holes) addRing(hole);
  }
  std::vector<std::vector<Run>> runs(crossings.size());
  for (std::size_t row = 0; row < crossings.size(); ++row) {
    std::vector<double>& x = crossings[row];
    std::sort(x.begin(), x.end());
    for (std::size_t i = 0; i + 1 < x.size(); i += 2) {
      const int after = runs[row].empty() ? 0 : runs[row].back().to;  // polygons may adjoin
      const Run run{std::max(after, static_cast<int>(std::ceil(x[i]))),
                    std::min(lattice.columns, static_cast<int>(std::floor(x[i + 1])) + 1)};
      if (run.from < run.to) runs[row].push_back(run);
    }
  }
  return runs;
}

}  // namespace belvedere::proof
