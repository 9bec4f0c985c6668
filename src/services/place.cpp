// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/place.h"

#include "geometry/polygon.h"

namespace belvedere::services {

const design::Storey* storeyAt(const design::Design& design, const design::StoreyId& named,
                               Vec3 at) {
  if (!named.empty())
    if (const design::Storey* storey = design::findStorey(design, named)) return storey;
  const design::Storey* best = nullptr;
  for (const design::Building& building : design.site.buildings) {
    for (const design::Storey& storey : building.storeys) {
      if (at.z < storey.floor_m - 0.5 || (best && storey.floor_m <= best->floor_m)) continue;
      Ring outline;
      for (const Vec2 p : storey.outline) outline.push_back(siteFromBuilding(building, p));
      if (contains(outline, at.xy())) best = &storey;
    }
  }
  return best;
}

std::optional<design::Surroundings> surroundingsOf(const design::Design& design,
                                                   const design::Housing& housing) {
  if (housing.surroundings) return housing.surroundings;
  const design::Storey* storey = storeyAt(design, housing.storey, housing.mount.fixing_m);
  return storey ? storey->surroundings : std::nullopt;
}

double warmestAt(const design::Design& design, const design::AnyId& id, Vec3 at) {
  std::optional<design::Surroundings> around;
  if (const design::Housing* housing = design::findHousing(design, {id.text}))
    around = surroundingsOf(design, *housing);
  else if (const design::Storey* storey = storeyAt(design, {}, at))
    around = storey->surroundings;
  return around && around->temperature_c ? (*around->temperature_c)[1] : 20;
}

}  // namespace belvedere::services
