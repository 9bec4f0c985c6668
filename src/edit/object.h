// SPDX-License-Identifier: GPL-3.0-or-later
//
// edit: what a hand does to a design. Plain functions from a design to a changed copy: pick, draw,
// move, copy, aim, swap; with the snapping, the typed lengths and the sections that go with it.
// history.h keeps the copies for undo. Nothing here knows a window, nothing here judges.
//
// This header names what can be picked.
#pragma once

#include <compare>
#include <string>
#include <vector>

#include "design/design.h"
#include "geometry/polygon.h"

namespace belvedere::edit {

enum class ObjectKind {
  building, storey, wall, opening, solid, zone, mounting, containment, underlay, light, housing,
  device, link
};
const char* word(ObjectKind kind);

// A thing on the plan. `slot`: an imager of a housing; 0 is the whole.
struct ObjectRef {
  ObjectKind kind = ObjectKind::wall;
  std::string id;
  int slot = 0;
  auto operator<=>(const ObjectRef&) const = default;
};
using Selection = std::vector<ObjectRef>;  // in the order picked, none twice

// One line of the list of objects.
struct ObjectLine {
  ObjectRef ref;
  std::string title;   // the id where it has none
  std::string kind;    // a wall, a column, a housing ..., in words
  design::StoreyId storey;
  Vec2 at_m;           // site: middle of its outline or path, or its fixing point
  Box2 extent;         // site
};
// Everything that stands on a storey (empty: on any), in the order of the file; housings followed
// by their imagers.
std::vector<ObjectLine> objectsOf(const design::Design& design, const design::StoreyId& storey);
// Whether the design holds it: an object of that kind with that id, and an imager in that slot.
bool isThere(const design::Design& design, const ObjectRef& ref);

}  // namespace belvedere::edit
