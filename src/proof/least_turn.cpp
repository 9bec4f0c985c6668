// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/least_turn.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/units.h"
#include "proof/limits.h"

namespace belvedere::proof {
namespace {

const design::HousingImager* writtenOf(const design::Housing& housing, int slot) {
  const auto at = std::ranges::find(housing.imagers, slot, &design::HousingImager::slot);
  return at == housing.imagers.end() ? nullptr : &*at;
}

// The housing by itself, with the models that it needs.
design::Design aloneOf(const design::Design& design, const design::Housing& housing) {
  design::Design alone;
  for (const design::ModelId& id : {housing.model, housing.mount.model})
    if (const design::Model* model = design::findModel(design, id))
      alone.catalogue.models.push_back(*model);
  return alone;
}

}  // namespace

std::optional<LeastTurn> leastTurn(const design::Design& design, const design::PosedImager& view,
                                   const std::vector<light::Lamp>& lamps, const Sees& sees,
                                   const Progress& progress) {
  const design::Housing* housing = design::findHousing(design, view.housing);
  const design::HousingImager* written = housing ? writtenOf(*housing, view.slot) : nullptr;
  if (!written || written->locked || view.aim >= written->aims.size()) return {};
  design::Design alone = aloneOf(design, *housing);
  const auto seesTurned = [&] {
    // Lamps that it carries as they stand in that aim.
    design::Design now = alone;
    for (design::HousingImager& imager : now.housings.front().imagers)
      if (imager.slot == view.slot) imager.aims = {design::Aim(imager.aims[view.aim])};
    std::vector<light::Lamp> own = light::lampsOf(now);
    std::erase_if(own, [&](const light::Lamp& lamp) {
      return std::ranges::find(lamps, lamp.name, &light::Lamp::name) == lamps.end();
    });
    for (const design::PosedImager& posed : design::posedImagers(alone, design::JudgedOn::captured))
      if (posed.slot == view.slot && posed.aim == view.aim) return sees(alone, posed, own);
    return true;  // resolves to nothing
  };
  constexpr std::array<std::array<int, 2>, 4> kWays{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}};
  for (int by = 1; by <= kMostTurnDeg; ++by)
    for (const auto& [pan, tilt] : kWays) {
      progress.throwIfCancelled();
      alone.housings = {*housing};
      for (design::HousingImager& imager : alone.housings.front().imagers) {
        if (imager.slot != view.slot) continue;
        design::Aim& aim = imager.aims[view.aim];
        aim.pan_deg = wrap360(aim.pan_deg + by * pan);
        aim.tilt_deg += by * tilt;
        if (std::fabs(aim.tilt_deg) > 90) continue;
        if (withinLimits(alone, alone.housings.front()) && !seesTurned())
          return LeastTurn{static_cast<double>(by * pan), static_cast<double>(by * tilt)};
      }
    }
  return {};
}

const std::optional<LeastTurn>& LeastTurns::of(std::string what, const design::Design& design,
                                               const design::PosedImager& view,
                                               const std::vector<light::Lamp>& lamps, const Sees& sees,
                                               const Progress& progress) {
  std::vector<std::string> key{std::move(what), view.imager, std::to_string(view.aim)};
  // What turns with an imager stands elsewhere in each of its aims.
  for (const light::Lamp& lamp : lamps)
    key.push_back(fmt::format("{} {} {} {} {} {} {}", lamp.name, lamp.at_m.x, lamp.at_m.y, lamp.at_m.z, lamp.axis.x,
                              lamp.axis.y, lamp.axis.z));
  auto at = found_.find(key);
  if (at == found_.end())
    at = found_.emplace(std::move(key), leastTurn(design, view, lamps, sees, progress)).first;
  return at->second;
}

std::string turnSentence(const std::optional<LeastTurn>& turn, const design::PosedImager& view,
                         const std::string& else_do) {
  if (!turn) return "no turn that it may make keeps it out, so " + else_do;
  const bool pan = turn->pan_deg != 0;
  const double by = pan ? turn->pan_deg : turn->tilt_deg;
  // "C1.2 aim 3": the aim where there are several.
  const std::string aim =
      view.name.size() > view.imager.size() ? "with" + view.name.substr(view.imager.size()) + " " : "";
  return fmt::format("{}{} {:g} deg {} it does not", aim, pan ? "turned" : "tilted", std::fabs(by),
                     pan ? (by > 0 ? "to the right" : "to the left") : (by > 0 ? "farther down" : "up"));
}

}  // namespace belvedere::proof
