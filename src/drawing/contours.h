// SPDX-License-Identifier: GPL-3.0-or-later
//
// Borders and contour lines over a lattice of values (marching squares: Lorensen and Cline's
// marching cubes, 1987, in the plane). Knows neither Qt nor sites: coordinates are lattice units,
// x along a row, y across rows; point (column, row) has index row * columns + column.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "geometry/polygon.h"

namespace belvedere::drawing {

struct LatticeSize {
  int columns = 0, rows = 0;
  std::size_t count() const {
    return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
  }
  std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
  }
};

// Where a border crosses the edge between two neighbouring points.
struct BorderAt {
  double share = 0.5;  // of the way from the first to the second, in [0, 1]
  double slack = 0.5;  // how far off the line may be drawn, lattice units: half a cell where only
                       // the two points' classes are known, next to nothing on a smooth field
};
// Asked with the point inside first.
using CrossingOf = std::function<BorderAt(std::size_t inside, std::size_t outside)>;

// The part of the lattice that is `inside`, as polygons with holes. Points on the lattice's rim
// must be outside. Points that touch only across a corner are kept apart. Staircases are drawn
// through to straight lines as far as the slack allows, and through their middle.
Region traceRegion(LatticeSize size, const std::vector<std::uint8_t>& inside,
                   const CrossingOf& crossing);

struct Line {
  std::vector<Vec2> points;
  bool closed = false;  // then the last point joins the first, which is not repeated
};
// Lines along which `values` (positive) pass `level`, interpolated on their logarithm, with the
// greater values to the left. Cells (by the index of their lower left point) that are not usable
// hold no line: lines end at them. `slack`: how far the line may be simplified, lattice units.
std::vector<Line> traceLines(LatticeSize size, const std::vector<double>& values,
                             const std::vector<std::uint8_t>& usable_cells, double level,
                             double slack);

// Fewer points: every dropped point lies within its slack of the line that is left (Douglas and
// Peucker, 1973). Ends stay; of a closed line, two far points stay.
std::vector<Vec2> simplified(const std::vector<Vec2>& points, const std::vector<double>& slack,
                             bool closed);

// Rings of either turn, none crossing another, to polygons with holes: anticlockwise rings are
// outer ones, clockwise rings are holes of the smallest outer one around them.
Region polygonsOf(std::vector<Ring> rings);

double lengthOf(const std::vector<Vec2>& points);
// The part of an open line between two lengths from its start.
std::vector<Vec2> stretchOf(const std::vector<Vec2>& points, double from, double to);

}  // namespace belvedere::drawing
