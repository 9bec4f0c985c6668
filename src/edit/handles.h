// SPDX-License-Identifier: GPL-3.0-or-later
//
// Handles: the points of an object that a hand can pull. For a drag, call withHandleAt with the
// design as it was when the drag began. Points are site metres. Throws InputError where what comes
// out could not be read back (see shapes.h); the caller keeps the last design that could be.
#pragma once

#include <cstddef>
#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

enum class HandleKind {
  vertex,  // a point of an outline or a line
  edge,    // the middle of an edge: pulling it puts a new point there
  start,   // the ends of an opening along its wall
  end,
  place    // fixing point, lamp, device, place of a mesh, origin of a building, pin of an underlay
};
struct Handle {
  HandleKind kind = HandleKind::vertex;
  std::size_t ring = 0;   // 0: the outline or line; 1 and on: holes and voids
  std::size_t index = 0;  // of the point, of the edge that begins at it, of the pin
  Vec2 at_m;
  bool operator==(const Handle&) const = default;
};

// Points first, then edges, ring by ring. A wall that ends where it begins has one handle there.
// Of an imager (a slot) none: it is aimed, not moved.
std::vector<Handle> handlesOf(const design::Design& design, const ObjectRef& ref);
// Those that a plan of the storey shows: of a cable's own way the points on it, and the stretches between
// two that are on it (a stretch to an end counts as its own point does); of anything else all of them.
std::vector<Handle> handlesOn(const design::Design& design, const ObjectRef& ref,
                              const design::StoreyId& storey);

// The design with a handle pulled to a place. Openings of a wall stay where they are as far as the
// wall does; an opening's end slides along its wall. A tray's new point lies at the height of the
// edge there.
design::Design withHandleAt(const design::Design& design, const ObjectRef& ref,
                            const Handle& handle, Vec2 at);
// Without a point. A hole goes with its third point; an outline with three and a line with two
// points keep them: throws too_few_points. Of a pin likewise, unless both go. A cable's own way goes
// with its last point: then it takes the shortest again.
design::Design withoutVertex(const design::Design& design, const ObjectRef& ref,
                             const Handle& vertex);
// An edge given a length along its direction. Of a line, all that follows moves along. Of an
// outline, the next edge moves along where the one after it runs parallel (so a rectangle stays
// one), else the edge's end alone.
design::Design withEdgeLength(const design::Design& design, const ObjectRef& ref,
                              const Handle& edge, double length_m);

}  // namespace belvedere::edit
