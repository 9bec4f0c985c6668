// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lattice on which spots and previews look at a zone: centres of square cells along the zone's
// longest edge.
#pragma once

#include <cstddef>
#include <vector>

#include "geometry/polygon.h"

namespace belvedere::proof {

struct Lattice {
  Vec2 origin, x, y;                 // site: corner of cell (0,0), unit directions of rows, columns
  double turn_deg = 0, cell_m = 0;   // clockwise; side of a cell
  int columns = 0, rows = 0;
  bool operator==(const Lattice&) const = default;
  Vec2 centre(int column, int row) const {
    return origin + x * ((column + 0.5) * cell_m) + y * ((row + 0.5) * cell_m);
  }
};

// `cell_m`: side of a cell; made wider where the region's box would hold more than `cells_most`.
// The lattice is centred on the box, so that both edges fare alike.
Lattice latticeOf(const Region& region, double cell_m, std::size_t cells_most);

// The cells of each row whose centres lie inside the region, as runs [from, to) in order: for many
// cells at once, far quicker than contains(). Within kOutlineTouchM of an outline either answer
// may come.
struct Run {
  int from = 0, to = 0;
};
std::vector<std::vector<Run>> runsInside(const Lattice& lattice, const Region& region);

}  // namespace belvedere::proof
