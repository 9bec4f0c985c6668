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

// One light of the sum.
struct Part {
  Vec3 from;
  scene::Band band = scene::Band::light;
  std::size_t index = 0;  // luminaires, then lamps
  double at_middle = 0;   // its part there, with nothing between: which to ask first
  Interval open;          // its part over a prism, with nothing between
};

// The lights that may count for the imager, with what each gives at a place.
std::vector<Part> partsOf(const ImagerLight& imager, const Vec3& at_m) {
  std::vector<Part> parts;
  const Vec3 normal = imager.level ? kUp : facingInPlan(at_m, imager.lens_m);
  const std::vector<Luminaire>& luminaires = imager.light->luminaires;
  for (std::size_t i = 0; i < luminaires.size(); ++i)
    parts.push_back({luminaires[i].at_m, scene::Band::light, i,
                     illuminanceFrom(luminaires[i], at_m, normal) / *imager.needed.lux, {}});
  if (!imager.lamps) return parts;
  for (std::size_t i = 0; i < imager.lamps->size(); ++i) {
    const Lamp& lamp = (*imager.lamps)[i];
    if (!imager.burns[i] || (imager.mode == Mode::colour && lamp.infrared())) continue;
    parts.push_back({lamp.at_m, lamp.band(), luminaires.size() + i,
                     shareFrom(lamp, at_m) * lampWeight(imager.needed), {}});
  }
  return parts;
}

Interval openOver(const ImagerLight& imager, const Part& part, std::span<const Vec3> corners,
                  const Normals& normals) {
  const std::vector<Luminaire>& luminaires = imager.light->luminaires;
  const bool luminaire = part.index < luminaires.size();
  const double per_unit = luminaire ? 1 / *imager.needed.lux : lampWeight(imager.needed);
  const Interval open = luminaire
                            ? illuminanceOver(luminaires[part.index], corners, normals)
                            : shareOver((*imager.lamps)[part.index - luminaires.size()], corners);
  return {open.low * per_unit, open.high * per_unit};
}

Normals normalsOver(const ImagerLight& imager, std::span<const Vec3> corners) {
  return imager.level ? Normals{} : normalsInPlan(imager.lens_m, corners);
}

Vec3 middleOf(std::span<const Vec3> corners) {
  Vec3 sum;
  for (const Vec3& c : corners) sum = sum + c;
  return sum / static_cast<double>(corners.size());
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
  const auto corners = prism.corners();
  const Normals normals = normalsOver(imager, corners);
  std::vector<Part> parts = partsOf(imager, middleOf(corners));
  std::sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) {
    return a.at_middle != b.at_middle ? a.at_middle > b.at_middle : a.index < b.index;
  });
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
  const auto ask = [&](const Part& part) {
    Interval passes = passesFrom(part.from, part.band, part.index);
    if (part.band == scene::Band::infrared && imager.coated_glass) {
      if (!back) back = passesFrom(imager.lens_m, scene::Band::infrared_behind_clear, way_back);
      passes = passes * *back;
    }
    known = known + times(part.open, passes);
  };
  // A few of many lights are mostly enough: the others are then not even looked at.
  constexpr std::size_t kFew = 3;
  std::size_t asked = 0;
  if (parts.size() > kFew) {
    double least = ambient;
    for (std::size_t i = 0; i < kFew; ++i) {
      parts[i].open = openOver(imager, parts[i], corners, normals);
      least += parts[i].open.low;
    }
    for (; least >= 1 && asked < kFew; ++asked) {
      ask(parts[asked]);
      if (verdictOf(known) == Lit::all) return Lit::all;
    }
  }
  // All that is still to be asked for may be there or not: from nothing to the whole sum.
  const std::size_t told = parts.size() > kFew ? kFew : 0;
  std::vector<Interval> still(parts.size() + 1);
  for (std::size_t i = parts.size(); i-- > asked;) {
    if (i >= told) parts[i].open = openOver(imager, parts[i], corners, normals);
    still[i] = still[i + 1] + parts[i].open;
  }
  for (;; ++asked) {
    if (guarded(known + still[asked]).high < 1) return Lit::none;
    if (guarded(known).low >= 1) return Lit::all;
    // What is known may be enough somewhere, and all of it together too little: no shadow mends that.
    const bool never_none = known.high >= 1, never_all = known.low + still[asked].low < 1;
    if (asked == parts.size() || (never_none && never_all)) return Lit::some;
    if (parts[asked].open.high > 0) ask(parts[asked]);
  }
}

Interval litBounds(const ImagerLight& imager, const Solids& solids, const scene::Prism& prism) {
  BELVEDERE_CHECK(imager.needed.lux, "asked only where the needed light is known");
  Interval sum(imager.light->ambient_lux / *imager.needed.lux);
  Interval back(1);
  if (imager.coated_glass)
    back = passesOver(solids, imager.lens_m, prism, scene::Band::infrared_behind_clear);
  const auto corners = prism.corners();
  const Normals normals = normalsOver(imager, corners);
  for (const Part& part : partsOf(imager, middleOf(corners))) {
    const Interval open = openOver(imager, part, corners, normals);
    if (open.high <= 0) continue;
    const Interval passes = passesOver(solids, part.from, prism, part.band);
    sum = sum + times(open, part.band == scene::Band::infrared ? passes * back : passes);
  }
  return guarded(sum);
}

}  // namespace belvedere::light
