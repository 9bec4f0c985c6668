// SPDX-License-Identifier: GPL-3.0-or-later
//
// Picking: what lies under the pointer, what lies in a box. Points and boxes are site metres.
#pragma once

#include <optional>
#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

// What lies within within_m of a place on a storey's plan, best first: housings (an imager where
// its lens is nearer than the middle of its housing), devices and lamps, openings, walls, mounting
// lines, containment, edges of zones, solids (the smallest first), insides of zones (likewise), the
// slab's edge, pins of underlays. Of one rank the nearest comes first. For repeated clicks.
//   situation  what does not stand in it is passed over; empty: everything is there
//   within_m   a hand's tolerance: some pixels at the sheet's scale
std::vector<ObjectRef> objectsAt(const design::Design& design, const design::StoreyId& storey,
                                 const design::SituationId& situation, Vec2 at, double within_m);
// The first of them.
std::optional<ObjectRef> objectAt(const design::Design& design, const design::StoreyId& storey,
                                  const design::SituationId& situation, Vec2 at, double within_m);

// What lies wholly within a box, edges allowed: in the order of the file. No buildings, storeys or
// underlays, whole housings only, and no opening whose wall is among them (it goes where the wall
// goes).
std::vector<ObjectRef> objectsIn(const design::Design& design, const design::StoreyId& storey,
                                 const Box2& box);

}  // namespace belvedere::edit
