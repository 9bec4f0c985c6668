// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/object.h"

#include <algorithm>

#include "edit/find.h"
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
    case ObjectKind::link: return "cable";
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

bool isThere(const Design& design, const ObjectRef& ref) {
  const design::Site& site = design.site;
  switch (ref.kind) {
    case ObjectKind::building: return withId(site.buildings, ref.id) != nullptr;
    case ObjectKind::storey: return placeOfStorey(design, ref.id).has_value();
    case ObjectKind::wall: return placeOfWall(design, ref.id).has_value();
    case ObjectKind::opening: return placeOfOpening(design, ref.id).has_value();
    case ObjectKind::solid: return withId(site.solids, ref.id) != nullptr;
    case ObjectKind::zone: return withId(site.zones, ref.id) != nullptr;
    case ObjectKind::mounting: return withId(site.mounting, ref.id) != nullptr;
    case ObjectKind::containment: return withId(site.containment, ref.id) != nullptr;
    case ObjectKind::underlay: return withId(site.underlays, ref.id) != nullptr;
    case ObjectKind::light: return withId(site.lights, ref.id) != nullptr;
    case ObjectKind::device: return withId(design.services.devices, ref.id) != nullptr;
    case ObjectKind::link: return withId(design.services.links, ref.id) != nullptr;
    case ObjectKind::housing: {
      const design::Housing* housing = withId(design.housings, ref.id);
      return housing && (ref.slot == 0 ||
                         std::any_of(housing->imagers.begin(), housing->imagers.end(),
                                     [&](const auto& imager) { return imager.slot == ref.slot; }));
    }
  }
  return false;
}

}  // namespace belvedere::edit
