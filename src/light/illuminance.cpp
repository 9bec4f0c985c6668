// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/illuminance.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>

#include "base/check.h"
#include "base/problem.h"
#include "base/units.h"
#include "design/attachment.h"
#include "design/degrees.h"
#include "design/resolve.h"

namespace belvedere::light {

Mat3 luminaireFromSite(double pan_deg, double tilt_deg, Planes planes) {
  const Mat3 imager = design::imagerFromSite(pan_deg, tilt_deg, 0);
  if (planes != Planes::c) return {{imager.row[0], -imager.row[1], imager.row[2]}};
  return {{-imager.row[1], -imager.row[0], imager.row[2]}};
}

SituationLight lightOf(const design::Design& design, const design::Situation& situation,
                       const std::filesystem::path& folder) {
  SituationLight out;
  out.stated = !situation.lights.empty();
  std::map<std::string, std::shared_ptr<const Photometry>> files;
  std::vector<Problem> problems;
  for (std::size_t i = 0; i < design.site.lights.size(); ++i) {
    const design::Light& light = design.site.lights[i];
    if (std::find(situation.lights.begin(), situation.lights.end(), light.id) ==
        situation.lights.end())
      continue;
    if (light.kind == "ambient") out.ambient_lux += light.lux.value_or(0) * light.factor;
    if (light.kind != "luminaire" || !light.at_m || !light.photometry) continue;
    const auto [at, is_new] = files.try_emplace(light.photometry->path);
    if (is_new) {
      try {
        at->second = std::make_shared<const Photometry>(readPhotometry(
            design::readWholeFile(folder / light.photometry->path, kMostPhotometryBytes)));
      } catch (const InputError& error) {
        for (Problem problem : error.problems()) {
          if (!problem.where.empty())
            problem.what = fmt::format("{}, {}: {}", light.photometry->path, problem.where, problem.what);
          problem.where = fmt::format("/site/lights/{}/photometry/path", i);
          problems.push_back(std::move(problem));
        }
      }
    }
    if (!at->second) continue;
    // The axis that hangs straight down is tilted by nothing.
    const double factor = light.factor * tiltFactorAt(*at->second, 90 - light.tilt_deg);
    out.luminaires.push_back({light.id.text, *light.at_m,
                              luminaireFromSite(light.pan_deg, light.tilt_deg, at->second->planes),
                              at->second, factor});
  }
  if (!problems.empty()) throw InputError(std::move(problems));
  return out;
}

Vec3 facingBearing(double bearing_deg) {
  const auto [s, c] = design::sineCosine(bearing_deg);
  return {s, c, 0};
}

Vec3 facingInPlan(const Vec3& at_m, const Vec3& lens_m) {
  const Vec3 level{lens_m.x - at_m.x, lens_m.y - at_m.y, 0};
  const double length = norm(level);
  return length > 0 ? level / length : Vec3{0, 1, 0};
}

double illuminanceFrom(const Luminaire& luminaire, const Vec3& at_m, const Vec3& normal) {
  const Vec3 ray = at_m - luminaire.at_m;
  const double squared = dot(ray, ray), cosine = -dot(ray, normal);
  if (!(squared > 0) || cosine <= 0) return 0;
  const double candela = candelaToward(*luminaire.photometry, luminaire.luminaire_from_site * ray);
  return luminaire.factor * candela * cosine / (squared * std::sqrt(squared));
}

namespace {

double passesFrom(const SituationLight& light, const Luminaire& luminaire, const Solids& solids, const Vec3& at_m,
                  Blockers* blockers) {
  if (!blockers) return solids.passes(luminaire.at_m, at_m, scene::Band::light);
  blockers->resize(light.luminaires.size());
  return solids.passes(luminaire.at_m, at_m, scene::Band::light,
                       &(*blockers)[static_cast<std::size_t>(&luminaire - light.luminaires.data())]);
}

}  // namespace

double illuminanceAt(const SituationLight& light, const Solids& solids, const Vec3& at_m,
                     const Vec3& normal, Blockers* blockers) {
  double lux = light.ambient_lux;
  for (const Luminaire& luminaire : light.luminaires) {
    const double open = illuminanceFrom(luminaire, at_m, normal);
    if (open > 0) lux += open * passesFrom(light, luminaire, solids, at_m, blockers);
  }
  return lux;
}

bool illuminanceReaches(const SituationLight& light, const Solids& solids, const Vec3& at_m,
                        const Vec3& normal, double lux, Blockers* blockers) {
  struct Open {
    double lux;
    const Luminaire* from;
  };
  static thread_local std::vector<Open> open;
  open.clear();
  for (const Luminaire& luminaire : light.luminaires)
    if (const double one = illuminanceFrom(luminaire, at_m, normal); one > 0)
      open.push_back({one, &luminaire});
  std::ranges::sort(open, std::ranges::greater{}, &Open::lux);
  double known = light.ambient_lux, left = known;
  for (const Open& one : open) left += one.lux;
  for (const Open& one : open) {
    if (known >= lux) return true;
    if (left < lux) return false;
    const double passes = passesFrom(light, *one.from, solids, at_m, blockers) * one.lux;
    known += passes;
    left -= one.lux - passes;
  }
  return known >= lux;
}

Evenness evennessOf(std::span<const double> lux) {
  BELVEDERE_CHECK(!lux.empty(), "evenness of at least one value");
  Evenness out{lux.front(), lux.front(), 0, 1, {}};
  for (const double one : lux) {
    out.least_lux = std::min(out.least_lux, one);
    out.most_lux = std::max(out.most_lux, one);
    out.mean_lux += one;
  }
  out.mean_lux /= static_cast<double>(lux.size());
  if (out.mean_lux > 0) out.uniformity = out.least_lux / out.mean_lux;
  if (out.least_lux > 0) out.ratio = out.most_lux / out.least_lux;
  return out;
}

RatioClass ratioClass(const Evenness& evenness) {
  if (!evenness.ratio || *evenness.ratio > kRatioMarginal) return RatioClass::worse;
  if (*evenness.ratio > kRatioGood) return RatioClass::marginal;
  return *evenness.ratio > kRatioWanted ? RatioClass::good : RatioClass::wanted;
}

std::span<const SceneLevel> sceneLevels() {
  static constexpr const char* kTables = "public tables of illuminance by scene";
  static constexpr const char* kMoon = "Kyba, Mohar, Posch: How bright is moonlight?, 2017";
  static constexpr const char* kWork = "EN 12464-1:2021, maintained mean, from memory";
  static constexpr std::array<SceneLevel, 19> kLevels{{
      {"direct sun, clear", 32000, 130000, kTables},
      {"open shade, clear sky", 10000, 25000, kTables},
      {"overcast day, midday", 1000, 10000, kTables},
      {"very dark overcast day", 100, 200, kTables},
      {"sunrise or sunset, clear", 400, 400, kTables},
      {"sunrise or sunset, overcast", 40, 40, kTables},
      {"dark end of civil twilight, clear", 3.4, 3.4, kTables},
      {"full moon, greatest", 0.32, 0.32, kMoon},
      {"full moon, typical", 0.05, 0.1, kMoon},
      {"quarter moon", 0.01, 0.01, kTables},
      {"no moon, clear", 0.002, 0.002, kTables},
      {"no moon, overcast, no town light", 0.0001, 0.0001, kTables},
      {"living room", 50, 150, kTables},
      {"corridor or lavatory", 80, 100, kTables},
      {"office", 320, 500, kTables},
      {"shop floor", 300, 300, kWork},
      {"corridor, entrance hall", 100, 100, kWork},
      {"open car park, basic, least", 2, 2, "IES RP-20, from memory"},
      {"open car park, raised security, least", 5, 5, "IES RP-20, from memory"},
  }};
  return kLevels;
}

}  // namespace belvedere::light
