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

Lighting lightingOf(const design::Design& design, const design::Situation& situation,
                    const std::filesystem::path& folder, const Solids& solids,
                    const DayNightSwitch& levels, Mode before) {
  Lighting out;
  out.light = lightOf(design, situation, folder);
  out.lamps = lampsOf(design);
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
  out.lamps = &lighting.lamps;
  out.burns = lighting.burns;
  out.level = target == design::TargetKind::floor;
  out.coated_glass = lighting.coated_glass;
  return out;
}

}  // namespace belvedere::light
