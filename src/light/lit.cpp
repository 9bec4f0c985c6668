// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lit.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/check.h"

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

namespace {

// One light's part of the sum over a prism, with nothing between; and where it comes from.
struct Part {
  Interval open;
  Vec3 from;
  scene::Band band = scene::Band::light;
  std::size_t index = 0;  // luminaires, then lamps
};

std::vector<Part> partsOver(const ImagerLight& imager, std::span<const Vec3> corners) {
  std::vector<Part> parts;
  const double per_lux = 1 / *imager.needed.lux, per_lamp = lampWeight(imager.needed);
  const Normals normals = imager.level ? Normals{} : normalsInPlan(imager.lens_m, corners);
  const std::vector<Luminaire>& luminaires = imager.light->luminaires;
  for (std::size_t i = 0; i < luminaires.size(); ++i) {
    const Interval lux = illuminanceOver(luminaires[i], corners, normals);
    if (lux.high > 0)
      parts.push_back({{lux.low * per_lux, lux.high * per_lux}, luminaires[i].at_m,
                       scene::Band::light, i});
  }
  if (!imager.lamps) return parts;
  for (std::size_t i = 0; i < imager.lamps->size(); ++i) {
    const Lamp& lamp = (*imager.lamps)[i];
    if (!imager.burns[i] || (imager.mode == Mode::colour && lamp.infrared())) continue;
    const Interval share = shareOver(lamp, corners);
    if (share.high > 0)
      parts.push_back({{share.low * per_lamp, share.high * per_lamp}, lamp.at_m, lamp.band(),
                       luminaires.size() + i});
  }
  return parts;
}

Interval times(const Interval& open, const Interval& passes) {
  return {passes.low > 0 ? open.low * passes.low : 0, passes.high > 0 ? open.high * passes.high : 0};
}

// Sums in double lose a little more with each light.
Interval guarded(const Interval& sum) {
  return {sum.low * (1 - kLightGuard), sum.high * (1 + kLightGuard)};
}

Lit verdictOf(const Interval& sum) {
  const Interval lit = guarded(sum);
  return lit.high < 1 ? Lit::none : lit.low >= 1 ? Lit::all : Lit::some;
}

}  // namespace

Lit litOver(const ImagerLight& imager, const Solids& solids, const scene::Prism& prism,
            LitBodies* bodies) {
  BELVEDERE_CHECK(imager.needed.lux, "asked only where the needed light is known");
  const double ambient = imager.light->ambient_lux / *imager.needed.lux;
  Interval known(ambient);  // those whose shadows are known
  if (verdictOf(known) == Lit::all) return Lit::all;
  std::vector<Part> parts = partsOver(imager, prism.corners());
  std::sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) {
    return a.open.high != b.open.high ? a.open.high > b.open.high : a.index < b.index;
  });
  // All that is still to be asked for may be there or not.
  std::vector<double> still(parts.size() + 1, 0);
  for (std::size_t i = parts.size(); i-- > 0;) still[i] = still[i + 1] + parts[i].open.high;
  const std::size_t way_back =
      imager.light->luminaires.size() + (imager.lamps ? imager.lamps->size() : 0);
  if (bodies) bodies->of_light.resize(way_back + 1);
  const auto passesFrom = [&](const Vec3& from, scene::Band band, std::size_t index) {
    if (!bodies) return passesOver(solids, from, prism, band);
    auto& kept = bodies->of_light[index];
    auto met = std::make_shared<std::vector<std::uint32_t>>();
    const Interval passes = passesOver(solids, from, prism, band, kept.get(), met.get());
    kept = std::move(met);
    return passes;
  };
  std::optional<Interval> back;
  for (std::size_t i = 0;; ++i) {
    if (guarded(Interval{0, known.high + still[i]}).high < 1) return Lit::none;
    if (guarded(known).low >= 1) return Lit::all;
    if (i == parts.size()) return Lit::some;
    const Part& part = parts[i];
    Interval passes = passesFrom(part.from, part.band, part.index);
    if (part.band == scene::Band::infrared && imager.coated_glass) {
      if (!back)
        back = passesFrom(imager.lens_m, scene::Band::infrared_behind_clear, way_back);
      passes = passes * *back;
    }
    known = known + times(part.open, passes);
  }
}

Interval litBounds(const ImagerLight& imager, const Solids& solids, const scene::Prism& prism) {
  BELVEDERE_CHECK(imager.needed.lux, "asked only where the needed light is known");
  Interval sum(imager.light->ambient_lux / *imager.needed.lux);
  Interval back(1);
  if (imager.coated_glass)
    back = passesOver(solids, imager.lens_m, prism, scene::Band::infrared_behind_clear);
  for (const Part& part : partsOver(imager, prism.corners())) {
    const Interval passes = passesOver(solids, part.from, prism, part.band);
    sum = sum + times(part.open, part.band == scene::Band::infrared ? passes * back : passes);
  }
  return guarded(sum);
}

}  // namespace belvedere::light
