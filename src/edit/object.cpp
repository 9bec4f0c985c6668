// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/object.h"

#include "edit/plan_objects.h"

namespace belvedere::edit {

using design::Design;
using design::StoreyId;

const char* word(ObjectKind kind) {
  switch (kind) {
    case ObjectKind::building: return "building";
    case ObjectKind::storey: return "storey";
    case ObjectKind::wall: return "wall";
    case ObjectKind::opening: return "opening";
    case ObjectKind::solid: return "solid";
    case ObjectKind::zone: return "zone";
    case ObjectKind::mounting: return "mounting line";
    case ObjectKind::containment: return "containment";
    case ObjectKind::underlay: return "drawing";
    case ObjectKind::light: return "light";
    case ObjectKind::housing: return "housing";
    case ObjectKind::device: return "device";
  }
  return "";
}

std::vector<ObjectLine> objectsOf(const Design& design, const StoreyId& storey) {
  std::vector<ObjectLine> lines;
  for (PlanObject& object : planObjects(design, storey)) {
    ObjectLine line{object.ref, std::move(object.title), std::move(object.kind), object.storey,
                    {},         extentOf(object.trace)};
    if (line.storey.empty()) line.storey = storey;
    if (!line.extent.empty()) line.at_m = (line.extent.low + line.extent.high) / 2;
    if (object.ref.kind == ObjectKind::housing) line.at_m = line.extent.empty()
                                                                ? Vec2{}
                                                                : object.trace.points.front();
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace belvedere::edit
