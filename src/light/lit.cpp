// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lit.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace belvedere::light {

namespace {

// Of the lamps that burn, the infrared or the white ones.
std::vector<bool> only(const std::vector<Lamp>& lamps, std::vector<bool> burns, bool infrared) {
  for (std::size_t i = 0; i < lamps.size(); ++i)
    burns[i] = burns[i] && lamps[i].infrared() == infrared;
  return burns;
}

Vec3 planeAt(const ImagerLight& imager, const Vec3& at_m) {
  return imager.level ? kUp : facingInPlan(at_m, imager.lens_m);
}

}  // namespace

double lampLightFor(const ImagerLight& imager, const Solids& solids, const Vec3& at_m) {
  if (!imager.lamps) return 0;
  const auto lampLight = [&](bool infrared) {
    return lampLightAt(*imager.lamps, only(*imager.lamps, imager.burns, infrared), imager.mode, solids, at_m);
  };
  const double infrared = imager.mode == Mode::mono ? lampLight(true) : 0;
  const double back = infrared > 0 && imager.coated_glass
                          ? solids.passes(imager.lens_m, at_m, scene::Band::infrared_behind_clear) : 1;
  return lampLight(false) + (back > 0 ? back * infrared : 0);
}

LitParts litAt(const ImagerLight& imager, const Solids& solids, const Vec3& at_m) {
  LitParts parts;
  parts.lux = illuminanceAt(*imager.light, solids, at_m, planeAt(imager, at_m));
  parts.lamp_light = lampLightFor(imager, solids, at_m);
  parts.lit = litShare(imager.needed, parts.lux, parts.lamp_light);
  return parts;
}

// The brightest are asked for first: what is still open settles it one way or the other before long.
bool enoughAt(const ImagerLight& imager, const Solids& solids, const Vec3& at_m) {
  struct Open {
    double share;
    Vec3 from;
    scene::Band band;
  };
  static thread_local std::vector<Open> open;
  open.clear();
  double known = litShare(imager.needed, imager.light->ambient_lux, 0), left = 0;
  const Vec3 normal = planeAt(imager, at_m);
  const auto add = [&](double share, const Vec3& from, scene::Band band) {
    if (share > 0) open.push_back({share, from, band});
    left += share;
  };
  for (const Luminaire& one : imager.light->luminaires)
    add(illuminanceFrom(one, at_m, normal) / *imager.needed.lux, one.at_m, scene::Band::light);
  for (std::size_t i = 0; imager.lamps && i < imager.lamps->size(); ++i) {
    const Lamp& lamp = (*imager.lamps)[i];
    if (imager.burns[i] && !(imager.mode == Mode::colour && lamp.infrared()))
      add(shareFrom(lamp, at_m) * lampWeight(imager.needed), lamp.at_m, lamp.band());
  }
  std::ranges::sort(open, std::ranges::greater{}, &Open::share);
  constexpr double kRounding = 1e-9;
  std::optional<double> back;
  for (const Open& one : open) {
    if (known >= 1 + kRounding) return true;
    if (known + left < 1 - kRounding) return false;
    left -= one.share;
    double passes = solids.passes(one.from, at_m, one.band);
    if (passes > 0 && one.band == scene::Band::infrared && imager.coated_glass) {
      if (!back) back = solids.passes(imager.lens_m, at_m, scene::Band::infrared_behind_clear);
      passes *= *back;
    }
    if (passes > 0) known += passes * one.share;
  }
  if (std::fabs(known - 1) > kRounding) return known > 1;
  return litAt(imager, solids, at_m).lit >= 1;
}

}  // namespace belvedere::light
