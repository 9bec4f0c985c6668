// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/cover_findings.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "base/units.h"
#include "light/side_effects.h"
#include "proof/limits.h"

namespace belvedere::proof {
namespace {

// Where on a cover, as one who stands at its centre would point there: "bearing 212 deg, 34 deg down".
std::string placeOn(const light::Cover& cover, const Vec3& at_m) {
  const Vec3 way = at_m - cover.centre_m;
  const double down_deg = std::round(radToDeg(std::atan2(-way.z, norm(way.xy()))));
  const std::string height = fmt::format("{:g} deg {}", std::fabs(down_deg), down_deg >= 0 ? "down" : "up");
  if (norm(way.xy()) < 1e-3 * cover.radius_m) return height;
  const double bearing_deg = std::fmod(std::round(wrap360(radToDeg(std::atan2(way.x, way.y)))), 360);
  return fmt::format("at a bearing of {:g} deg, {}", bearing_deg, height);
}

std::string mend(const std::optional<CoverTurn>& turn) {
  if (!turn)
    return "no turn within its limits keeps it out, so switch the lamp off and light from one that stands apart";
  const bool pan = turn->pan_deg != 0;
  const double by = pan ? turn->pan_deg : turn->tilt_deg;
  return fmt::format("{} {:g} deg {} it does not", pan ? "turned" : "tilted", std::fabs(by),
                     pan ? (by > 0 ? "to the right" : "to the left") : (by > 0 ? "farther down" : "up"));
}

}  // namespace

std::optional<CoverTurn> leastTurnFromCover(const design::Design& design,
                                            const design::PosedImager& view,
                                            const std::vector<light::Lamp>& lamps,
                                            const Progress& progress) {
  const design::Housing* housing = design::findHousing(design, view.housing);
  if (!housing) return {};
  design::Design alone;
  for (const design::ModelId& id : {housing->model, housing->mount.model})
    if (const design::Model* model = design::findModel(design, id))
      alone.catalogue.models.push_back(*model);
  const auto sees = [&] {
    std::vector<light::Lamp> burning = light::lampsOf(alone);
    std::erase_if(burning, [&](const light::Lamp& lamp) {
      return std::none_of(lamps.begin(), lamps.end(),
                          [&](const light::Lamp& burns) { return burns.name == lamp.name; });
    });
    std::vector<design::PosedImager> views = design::posedImagers(alone, design::JudgedOn::captured);
    std::erase_if(views, [&](const design::PosedImager& other) {
      return other.slot != view.slot || other.aim != view.aim;
    });
    return !light::lampsInCover(alone, burning, views).empty();
  };
  constexpr std::array<std::array<int, 2>, 4> kWays{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}};
  for (int by = 1; by <= kMostCoverTurnDeg; ++by)
    for (const auto& [pan, tilt] : kWays) {
      progress.throwIfCancelled();
      alone.housings = {*housing};
      for (design::HousingImager& imager : alone.housings.front().imagers) {
        if (imager.slot != view.slot || view.aim >= imager.aims.size()) continue;
        design::Aim& aim = imager.aims[view.aim];
        aim.pan_deg = wrap360(aim.pan_deg + by * pan);
        aim.tilt_deg += by * tilt;
        if (std::fabs(aim.tilt_deg) > 90) continue;
        if (withinLimits(alone, alone.housings.front()) && !sees())
          return CoverTurn{static_cast<double>(by * pan), static_cast<double>(by * tilt)};
      }
    }
  return {};
}

const std::optional<CoverTurn>& CoverTurns::of(const design::Design& design, const design::PosedImager& view,
                                               const std::vector<light::Lamp>& lamps,
                                               const Progress& progress) {
  std::vector<std::string> key{view.housing.text, std::to_string(view.slot), std::to_string(view.aim)};
  for (const light::Lamp& lamp : lamps)
    if (lamp.housing == view.housing) key.push_back(lamp.name);
  auto at = found_.find(key);
  if (at == found_.end())
    at = found_.emplace(std::move(key), leastTurnFromCover(design, view, lamps, progress)).first;
  return at->second;
}

std::vector<Finding> mirroredInCovers(const design::Design& design,
                                      const design::Situation& situation,
                                      const std::vector<light::Lamp>& lamps,
                                      const std::vector<design::PosedImager>& seen_by,
                                      CoverTurns& turns, const Progress& progress) {
  std::vector<Finding> out;
  for (const design::PosedImager& view : seen_by)
    for (const light::InCover& found : light::lampsInCover(design, lamps, {view})) {
      const auto cover = light::coverOf(design, *design::findHousing(design, view.housing));
      out.push_back(
          {"lamp_in_cover", Severity::caution, {found.imager, found.lamp}, {},
           Quantity{1000 * found.radius_m, "mm"},
           fmt::format("{} ({}): sees {} mirrored in its own cover, at {:.0f}, {:.0f} px: the cover has a "
                       "radius of {:.0f} mm, the lens is {:.0f} mm and the lamp {:.0f} mm off its centre, and "
                       "the ray is thrown back {}; {}.", found.imager, situation.id.text, found.lamp,
                       found.at_px.x, found.at_px.y, 1000 * found.radius_m, 1000 * found.lens_off_m,
                       1000 * found.lamp_off_m, placeOn(*cover, found.at_m),
                       mend(turns.of(design, view, lamps, progress))),
           "9"});
    }
  return out;
}

std::vector<Finding> coverVeils(const design::Design& design) {
  std::map<std::string, std::vector<std::string>> models;
  for (const design::Housing& housing : design.housings) {
    const auto cover = light::coverOf(design, housing);
    if (!cover) continue;
    const std::vector<light::Lamp> lamps = light::lampsOf(design, housing);
    if (std::any_of(lamps.begin(), lamps.end(), [&](const light::Lamp& lamp) {
          return lamp.follows.value_or(-1) != 0 && !lamp.alone && cover->holds(lamp.at_m);
        }))
      models[housing.model.text].push_back(housing.id.text);
  }
  std::vector<Finding> out;
  for (const auto& [model, housings] : models) {
    std::vector<std::string> about{model};
    about.insert(about.end(), housings.begin(), housings.end());
    out.push_back({"cover_veil", Severity::caution, std::move(about), {}, {},
                   fmt::format("{}: a lamp burns under the same cover as the lens: drops, dust and scratches on "
                               "it light up before the picture as a veil (common practice, no source). Keep it "
                               "clean and dry, or light from a lamp that stands apart.",
                               fmt::join(housings, ", ")),
                   "9"});
  }
  return out;
}

}  // namespace belvedere::proof
