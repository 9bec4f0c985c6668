// SPDX-License-Identifier: GPL-3.0-or-later
//
// All objects of a plan with their lines, in one go through the design: what the list of objects,
// picking and snapping are made of.
#pragma once

#include <string>
#include <vector>

#include "edit/trace.h"

namespace belvedere::edit {

struct PlanObject {
  ObjectRef ref;
  std::string title;
  std::string kind;        // in words
  design::StoreyId storey; // that it names or is part of; empty: none
  Trace trace;
};
// A cable's own way with those of its ends that have a place; empty where its way is found.
std::vector<Vec3> wayOf(const design::Design& design, const design::Link& link);
// Whether a cable at a height (site z) is shown on a storey: it may run a little over its ceiling or
// under its floor, and so be shown on two.
bool showsCableAt(const design::Storey& storey, double z_m);
// Those shown on a storey (empty: all of the design), in the order of the file: buildings with what
// they hold, solids, lights, zones, mounting lines, containment, underlays, housings each followed
// by its imagers, devices, cables with a way of their own, as far as it lies on the storey (of all of the
// design: every cable, without lines where it has no such way).
std::vector<PlanObject> planObjects(const design::Design& design, const design::StoreyId& storey);

}  // namespace belvedere::edit
