// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/ids.h"

#include <algorithm>

#include "edit/shapes.h"

namespace belvedere::edit {

FreeIds::FreeIds(const design::Design& design) {
  taken_ = {"all", "any_housing"};  // words with a meaning of their own
  const auto take = [&](const auto& list) {
    for (const auto& item : list) taken_.insert(item.id.text);
  };
  for (const design::Building& building : design.site.buildings) {
    take(building.storeys);
    for (const design::Storey& storey : building.storeys) {
      take(storey.walls);
      for (const design::Wall& wall : storey.walls) take(wall.openings);
    }
  }
  for (const design::Housing& housing : design.housings) take(housing.streams);
  const design::Site& site = design.site;
  if (site.terrain) taken_.insert(site.terrain->id.text);
  take(site.buildings), take(site.solids), take(site.materials), take(site.lights);
  take(site.zones), take(site.mounting), take(site.containment), take(site.underlays);
  take(design.people), take(design.revisions), take(design.situations), take(design.brief);
  take(design.catalogue.models), take(design.library), take(design.housings);
  take(design.services.devices), take(design.services.links), take(design.services.recording);
  take(design.services.screens), take(design.tolerances), take(design.tests);
  take(design.evidence), take(design.accepted), take(design.alternatives);
}

std::string FreeIds::next(std::string_view prefix) {
  int& number = last_[std::string(prefix)];
  while (true) {
    std::string id = std::string(prefix) + std::to_string(++number);
    if (taken_.insert(id).second) return id;
  }
}

std::string FreeIds::nextLike(const std::string& id) {
  const std::size_t letters = id.find_last_not_of("0123456789");
  return next(letters == std::string::npos ? "" : std::string_view(id).substr(0, letters + 1));
}

std::string newId(const design::Design& design, std::string_view prefix) {
  return FreeIds(design).next(prefix);
}

}  // namespace belvedere::edit
