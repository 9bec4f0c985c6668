// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/design.h"

#include <algorithm>

#include "base/check.h"
#include "design/resolve.h"

namespace belvedere::design {
namespace {
template <class T, class I>
const T* findIn(const std::vector<T>& list, const I& id) {
  for (const T& item : list)
    if (item.id == id) return &item;
  return nullptr;
}
}  // namespace

const Model* findModel(const Design& design, const ModelId& id) {
  if (const Model* own = findIn(design.catalogue.models, id)) return own;
  return findIn(design.library, id);
}

const Storey* findStorey(const Design& design, const StoreyId& id) {
  for (const Building& building : design.site.buildings)
    if (const Storey* storey = findIn(building.storeys, id)) return storey;
  return nullptr;
}

const Building* findBuildingOf(const Design& design, const StoreyId& id) {
  for (const Building& building : design.site.buildings)
    if (findIn(building.storeys, id)) return &building;
  return nullptr;
}

const Zone* findZone(const Design& design, const ZoneId& id) {
  return findIn(design.site.zones, id);
}
const Housing* findHousing(const Design& design, const HousingId& id) {
  return findIn(design.housings, id);
}
std::optional<Vec3> placeOf(const Design& design, const AnyId& end) {
  if (const Housing* housing = findHousing(design, {end.text})) return housing->mount.fixing_m;
  const Device* device = findIn(design.services.devices, DeviceId{end.text});
  return device ? device->at_m : std::nullopt;
}

const Requirement* findRequirement(const Design& design, const RequirementId& id) {
  return findIn(design.brief, id);
}
const Solid* findSolid(const Design& design, const SolidId& id) {
  return findIn(design.site.solids, id);
}

const ModelImager* findImager(const Model& model, int slot) {
  for (const ModelImager& imager : model.imagers)
    if (imager.slot == slot) return &imager;
  return nullptr;
}

std::vector<Situation> situationsOf(const Design& design) {
  if (!design.situations.empty()) return design.situations;
  Situation day, night;
  day.id.text = day.title = "day";
  night.id.text = night.title = "night";
  return {day, night};
}

std::vector<Situation> situationsOf(const Design& design, const Requirement& requirement) {
  std::vector<Situation> all = situationsOf(design);
  if (requirement.situations.empty()) return all;
  std::erase_if(all, [&](const Situation& situation) {
    return std::ranges::find(requirement.situations, situation.id) == requirement.situations.end();
  });
  return all;
}

Range bandOf(const Target& target) {
  if (target.band_m) return *target.band_m;
  switch (target.kind) {
    case TargetKind::face: return {1.45, 1.85};
    case TargetKind::face_child: return {0.95, 1.45};
    case TargetKind::face_seated: return {1.05, 1.35};
    case TargetKind::person: return {0.2, 1.8};
    case TargetKind::plate: return {0.3, 1.2};
    case TargetKind::floor: return {0, 0.1};
    case TargetKind::custom: break;
  }
  BELVEDERE_CHECK(false, "a custom target states its band");
}

Vec2 siteFromBuilding(const Building& building, Vec2 p_in_building) {
  // A building's +y is a bearing like any other: exact at quarter turns, the same on any machine.
  const Mat3 axes = imagerFromSite(building.turn_deg, 0, 0);
  return building.origin_m + axes.row[0].xy() * p_in_building.x +
         axes.row[2].xy() * p_in_building.y;
}

}  // namespace belvedere::design
