// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lit.h"

namespace belvedere::light {

namespace {

// Of the lamps that burn, the infrared or the white ones.
std::vector<bool> only(const std::vector<Lamp>& lamps, std::vector<bool> burns, bool infrared) {
  for (std::size_t i = 0; i < lamps.size(); ++i)
    burns[i] = burns[i] && lamps[i].infrared() == infrared;
  return burns;
}

}  // namespace

LitParts litAt(const ImagerLight& imager, const Solids& solids, const Vec3& at_m) {
  const Vec3 normal = imager.level ? kUp : facingInPlan(at_m, imager.lens_m);
  LitParts parts;
  parts.lux = illuminanceAt(*imager.light, solids, at_m, normal);
  if (imager.lamps) {
    const auto lampLight = [&](bool infrared) {
      return lampLightAt(*imager.lamps, only(*imager.lamps, imager.burns, infrared), imager.mode,
                         solids, at_m);
    };
    const double infrared = imager.mode == Mode::mono ? lampLight(true) : 0;
    const double back =
        infrared > 0 && imager.coated_glass
            ? solids.passes(imager.lens_m, at_m, scene::Band::infrared_behind_clear) : 1;
    parts.lamp_light = lampLight(false) + (back > 0 ? back * infrared : 0);
  }
  parts.lit = litShare(imager.needed, parts.lux, parts.lamp_light);
  return parts;
}

}  // namespace belvedere::light
