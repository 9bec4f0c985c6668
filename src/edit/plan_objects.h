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
// Those shown on a storey (empty: all of the design), in the order of the file: buildings with what
// they hold, solids, lights, zones, mounting lines, containment, underlays, housings each followed
// by its imagers, devices.
std::vector<PlanObject> planObjects(const design::Design& design, const design::StoreyId& storey);

}  // namespace belvedere::edit
