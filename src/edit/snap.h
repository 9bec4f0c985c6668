// SPDX-License-Identifier: GPL-3.0-or-later
//
// Snapping: a place given by hand, taken to a place that is meant. Site metres.
//
// A SnapSet holds the edges of a storey's plan in a grid of cells: build it when the design or the
// storey changes, ask it at every move of the pointer. Asking 20,000 edges takes well under a
// millisecond.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

// In order of priority: of several within reach, the first kind is taken, and of it the nearest.
enum class SnapKind {
  end,            // an end of an edge, a fixing point, a pole
  intersection,   // two edges cross, or an edge and a right angle from the start point
  middle,         // of an edge
  perpendicular,  // foot of the perpendicular from the start point
  on_line,        // on an edge: a wall's centre line, an outline
  on_face,        // on a face of a wall
  right_angle,    // along the axes of site or building from the start point
  extension,      // in line with an edge beyond its end
  grid,
  free            // none: the place as given
};
// What to show before the object, or alone: "end of", "square to", "right angle", "grid".
const char* word(SnapKind kind);

struct SnapEdge {
  Vec2 a, b;              // the same for a point
  std::uint32_t object = 0;  // index into SnapSet::objects
  bool face = false;
};
struct SnapSet {
  std::vector<SnapEdge> edges;
  std::vector<ObjectRef> objects;
  std::vector<double> axes_deg;             // bearings of the site's and the building's axes
  Vec2 low;                                 // corner of the first cell
  double cell_m = 1;
  std::size_t columns = 0, rows = 0;
  std::vector<std::uint32_t> first;         // per cell, and one more: its part of `in_cells`
  std::vector<std::uint32_t> in_cells;      // edges
};
// The edges of all that is shown on a storey (see shownOn in trace.h) and stands in a situation
// (empty: in any): slab, both faces and the centre line of walls, openings, solids, zones, mounting
// lines, containment, fixing points.
SnapSet snapSetOf(const design::Design& design, const design::StoreyId& storey,
                  const design::SituationId& situation);

struct SnapAsk {
  bool on = true;             // false: the place comes back as it is
  double within_m = 0.2;      // reach of the hand: some pixels at the sheet's scale
  double grid_m = 0;          // step of the grid through the site's zero; 0: none
  std::optional<Vec2> start = {};  // where the line being drawn begins
  Selection except = {};      // what is being moved does not hold itself
};
struct Snap {
  Vec2 at_m;
  SnapKind kind = SnapKind::free;
  std::string says;  // what to show: "end of W1", "grid 0.5 m"; empty when free
};
// An extension reaches this many times within_m beyond an edge's end.
inline constexpr double kExtensionReach = 40;
Snap snapped(const SnapSet& set, Vec2 at, const SnapAsk& ask);

}  // namespace belvedere::edit
