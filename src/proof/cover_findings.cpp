// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/cover_findings.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "base/units.h"
#include "light/side_effects.h"

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

}  // namespace

std::vector<Finding> mirroredInCovers(const design::Design& design,
                                      const design::Situation& situation,
                                      const std::vector<light::Lamp>& lamps,
                                      const std::vector<design::PosedImager>& seen_by,
                                      LeastTurns& turns, const Progress& progress) {
  std::vector<Finding> out;
  const Sees sees = [](const design::Design& alone, const design::PosedImager& view,
                       const std::vector<light::Lamp>& own) {
    return !light::lampsInCover(alone, own, {view}).empty();
  };
  for (const design::PosedImager& view : seen_by) {
    std::vector<light::Lamp> own = lamps;
    std::erase_if(own, [&](const light::Lamp& lamp) { return lamp.housing != view.housing; });
    for (const light::InCover& found : light::lampsInCover(design, own, {view})) {
      const auto cover = light::coverOf(design, *design::findHousing(design, view.housing));
      out.push_back(
          {"lamp_in_cover", Severity::caution, {found.imager, found.lamp}, {},
           Quantity{1000 * found.radius_m, "mm"},
           fmt::format("{} ({}): sees {} mirrored in its own cover, at {:.0f}, {:.0f} px: the cover has a "
                       "radius of {:.0f} mm, the lens is {:.0f} mm and the lamp {:.0f} mm off its centre, and "
                       "the ray is thrown back {}; {}.", view.name, situation.id.text, found.lamp,
                       found.at_px.x, found.at_px.y, 1000 * found.radius_m, 1000 * found.lens_off_m,
                       1000 * found.lamp_off_m, placeOn(*cover, found.at_m),
                       turnSentence(turns.of("cover", design, view, own, sees, progress), view,
                                    "switch the lamp off and light from one that stands apart")),
           "9"});
    }
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
