// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/lit_situation.h"

#include "proof/judge.h"
#include "proof/judged_region.h"
#include "proof/uneven_findings.h"

namespace belvedere::proof {
namespace {

std::vector<ZoneLight> zonesOf(const design::Design& design, const design::Situation& situation,
                               const light::Lighting& lighting, const Place& place, const Progress& progress) {
  std::vector<ZoneLight> zones;
  if (lighting.light.luminaires.empty()) return zones;
  for (const design::Zone& zone : design.site.zones) {
    progress.throwIfCancelled();
    const Region region = judgedRegion(design, zone, situation, place.scene);
    if (region.empty()) continue;
    const scene::Floor floor = scene::floorOf(design, zone, &place.scene);
    if (const auto even = evennessOver(region, floor, lighting.light, {&place.scene, &place.tree}))
      zones.push_back({zone.id.text, *even});
  }
  return zones;
}

}  // namespace

LitSituation litSituation(const design::Design& design, const design::Situation& situation,
                          const std::filesystem::path& folder, const Progress& progress) {
  LitSituation out;
  out.id = situation.id.text;
  const auto place = makePlace(design, situation, folder);
  progress.throwIfCancelled();
  const auto lighting = makeLighting(design, situation, *place, folder);
  out.stated = lighting->light.light.stated;
  out.ambient_lux = lighting->light.light.ambient_lux;
  out.luminaires = lighting->light.light.luminaires.size();
  out.lamps = lighting->light.lamps;
  out.burns = lighting->light.burns;
  for (const design::PosedImager& view :
       design::posedImagers(design, design::JudgedOn::captured)) {
    progress.throwIfCancelled();
    ImagerSees sees;
    sees.view = view;
    if (const light::ImagerState* state = light::findState(lighting->light, view.imager))
      sees.state = *state;
    if (out.stated)
      sees.needed = light::imagerLight(view, lighting->light, design::TargetKind::person).needed;
    sees.focus = focusChoice(view, lighting->targets, seesByInfrared(view, *lighting));
    out.imagers.push_back(std::move(sees));
  }
  out.zones = zonesOf(design, situation, lighting->light, *place, progress);
  return out;
}

}  // namespace belvedere::proof
