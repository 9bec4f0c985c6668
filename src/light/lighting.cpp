// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lighting.h"

#include <algorithm>

#include "base/check.h"
#include "optics/lens.h"

namespace belvedere::light {

double meteredLux(const design::PosedImager& imager, const SituationLight& light,
                  const Solids& solids) {
  if (light.luminaires.empty() || !solids.scene) return light.ambient_lux;
  const Mat3 site_from_imager = transposed(imager.imager_from_site);
  double sum = 0;
  int met = 0;
  Blockers blockers;
  for (int row = 0; row < kMeterRows; ++row)
    for (int column = 0; column < kMeterColumns; ++column) {
      const auto ray = optics::unproject(
          imager.lens, {imager.pixels[0] * (column + 0.5) / kMeterColumns,
                        imager.pixels[1] * (row + 0.5) / kMeterRows});
      if (!ray) continue;
      const Vec3 way = site_from_imager * *ray * kMeterM;
      const auto hit = scene::firstHit(*solids.scene, *solids.tree, imager.lens_m,
                                       imager.lens_m + way, scene::Band::light);
      if (!hit) continue;
      ++met;
      sum += illuminanceAt(light, solids, imager.lens_m + way * hit->share, hit->normal, &blockers);
    }
  return met > 0 ? sum / met : light.ambient_lux;
}

std::vector<Lamp> withLampsOf(std::vector<Lamp> lamps, const design::HousingId& housing,
                              const std::vector<Lamp>& own) {
  const auto is_own = [&](const Lamp& lamp) { return lamp.housing == housing; };
  const auto at = std::find_if(lamps.begin(), lamps.end(), is_own) - lamps.begin();
  std::erase_if(lamps, is_own);
  lamps.insert(lamps.begin() + at, own.begin(), own.end());
  return lamps;
}

std::vector<LampsInAim> lampsInAims(const design::Design& design,
                                    const std::vector<design::Housing>& housings,
                                    const std::vector<Lamp>& lamps) {
  std::vector<LampsInAim> out;
  for (const design::Housing& housing : housings) {
    const design::Model* model = design::findModel(design, housing.model);
    if (!model) continue;
    for (std::size_t i = 0; i < housing.imagers.size(); ++i) {
      const design::HousingImager& imager = housing.imagers[i];
      const bool carries = std::ranges::any_of(model->lamps, [&](const design::ModelLamp& lamp) {
        return lamp.carried_by == imager.slot;
      });
      for (std::size_t aim = 1; carries && aim < imager.aims.size(); ++aim) {
        design::Housing turned = housing;
        turned.imagers[i].aims = {imager.aims[aim]};
        const std::vector<Lamp> own = lampsOf(design, turned);
        if (!own.empty())
          out.push_back({housing.id, imager.slot, aim, withLampsOf(lamps, housing.id, own)});
      }
    }
  }
  return out;
}

void numberMoved(Lighting& lighting) {
  lighting.moved_lamps = 0;
  for (LampsInAim& in : lighting.in_aims)
    for (std::size_t i = 0; i < in.lamps.size(); ++i) {
      Lamp& lamp = in.lamps[i];
      const bool stays = lamp.housing != in.housing || norm(lamp.at_m - lighting.lamps[i].at_m) == 0;
      lamp.moved = stays ? 0 : ++lighting.moved_lamps;
    }
}

Lighting lightingOf(const design::Design& design, const design::Situation& situation,
                    const std::filesystem::path& folder, const Solids& solids,
                    const DayNightSwitch& levels, Mode before) {
  Lighting out;
  out.light = lightOf(design, situation, folder);
  out.lamps = lampsOf(design);
  out.in_aims = lampsInAims(design, design.housings, out.lamps);
  numberMoved(out);
  const std::vector<design::PosedImager> views =
      design::posedImagers(design, design::JudgedOn::captured);
  // Of an imager with several aims the darkest counts.
  std::vector<double> lux;
  for (std::size_t i = 0; i < views.size(); ++i) {
    const double met = meteredLux(views[i], out.light, solids);
    if (i > 0 && views[i].imager == views[i - 1].imager) lux.back() = std::min(lux.back(), met);
    else lux.push_back(met);
  }
  if (lux.empty()) lux.push_back(out.light.ambient_lux);
  out.states = imagerStates(design, lux, levels, before);
  out.burns = burning(out.lamps, out.states, out.light.ambient_lux, levels);
  if (solids.scene)
    out.coated_glass = std::any_of(
        solids.scene->sources.begin(), solids.scene->sources.end(),
        [](const scene::Source& source) { return source.light >= 1 && source.infrared < 1; });
  return out;
}

const ImagerState* findState(const Lighting& lighting, const std::string& imager) {
  const auto at = std::find_if(lighting.states.begin(), lighting.states.end(),
                               [&](const ImagerState& state) { return state.imager == imager; });
  return at == lighting.states.end() ? nullptr : &*at;
}

const std::vector<Lamp>& lampsDuring(const design::PosedImager& view, const Lighting& lighting) {
  const auto at = std::ranges::find_if(lighting.in_aims, [&](const LampsInAim& in) {
    return in.aim == view.aim && in.slot == view.slot && in.housing == view.housing;
  });
  return at == lighting.in_aims.end() ? lighting.lamps : at->lamps;
}

ImagerLight imagerLight(const design::PosedImager& view, const Lighting& lighting,
                        design::TargetKind target, const Exposure& wanted) {
  Exposure exposure = wanted;
  if (!exposure.exposure_s) exposure.exposure_s = view.exposure_s;
  if (!exposure.f_number) exposure.f_number = view.f_number;
  ImagerLight out;
  out.lens_m = view.lens_m;
  if (const ImagerState* state = findState(lighting, view.imager)) out.mode = state->mode;
  out.needed = neededLight(view.least_light, exposure);
  out.light = &lighting.light;
  out.lamps = &lampsDuring(view, lighting);
  out.moved_lamps = lighting.moved_lamps;
  out.burns = lighting.burns;
  out.level = target == design::TargetKind::floor;
  out.coated_glass = lighting.coated_glass;
  return out;
}

}  // namespace belvedere::light
