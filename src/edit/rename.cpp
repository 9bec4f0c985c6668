// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/rename.h"

#include <fmt/format.h>

#include "base/problem.h"
#include "edit/find.h"

namespace belvedere::edit {
namespace {

template <class List>
std::string* titleIn(List& list, const std::string& id) {
  auto* found = withId(list, id);
  return found ? &found->title : nullptr;
}

std::string* titleOf(design::Design& design, const ObjectRef& ref) {
  design::Site& site = design.site;
  switch (ref.kind) {
    case ObjectKind::building: return titleIn(site.buildings, ref.id);
    case ObjectKind::storey:
      for (design::Building& building : site.buildings)
        if (std::string* title = titleIn(building.storeys, ref.id)) return title;
      return nullptr;
    case ObjectKind::wall:
      if (const auto at = placeOfWall(design, ref.id)) return &wallAt(design, *at).title;
      return nullptr;
    case ObjectKind::opening:
      if (const auto at = placeOfOpening(design, ref.id))
        return &wallAt(design, *at).openings[at->opening].title;
      return nullptr;
    case ObjectKind::solid: return titleIn(site.solids, ref.id);
    case ObjectKind::zone: return titleIn(site.zones, ref.id);
    case ObjectKind::mounting: return titleIn(site.mounting, ref.id);
    case ObjectKind::containment: return titleIn(site.containment, ref.id);
    case ObjectKind::light: return titleIn(site.lights, ref.id);
    case ObjectKind::housing: return titleIn(design.housings, ref.id);
    case ObjectKind::device: return titleIn(design.services.devices, ref.id);
    case ObjectKind::underlay:
    case ObjectKind::link: return nullptr;
  }
  return nullptr;
}

}  // namespace

bool hasTitle(const ObjectRef& ref) {
  return ref.slot == 0 && ref.kind != ObjectKind::underlay && ref.kind != ObjectKind::link;
}

design::Design renamed(const design::Design& design, const ObjectRef& ref,
                       const std::string& title) {
  design::Design next = design;
  std::string* at = hasTitle(ref) ? titleOf(next, ref) : nullptr;
  if (!at)
    throw InputError({{"unknown_id", "",
                       fmt::format("there is no {} {} that has a title", word(ref.kind), ref.id),
                       "an imager goes by its number: give its housing a title"}});
  *at = title;
  return next;
}

}  // namespace belvedere::edit
