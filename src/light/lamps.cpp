// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lamps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "base/units.h"
#include "design/resolve.h"

namespace belvedere::light {
namespace {

bool stands(const design::Housing& housing) { return housing.life != design::Life::removed; }
bool inUse(const design::HousingImager& imager) { return !imager.aims.empty(); }

// A housing that says nothing of its lamps has all of its model's, as a group.
std::vector<design::HousingLamp> lampsInUse(const design::Housing& housing,
                                            const design::Model& model) {
  if (!housing.lamps.empty()) return housing.lamps;
  std::vector<design::HousingLamp> all;
  for (const design::ModelLamp& lamp : model.lamps) all.push_back({lamp.slot, {}});
  return all;
}

// Beside the lens of the imager that carries it (at its first aim), turned from that imager's axis.
void place(Lamp& lamp, const design::Housing& housing, const design::Model* mount,
           const design::Model& model, const design::HousingImager& carrier,
           const design::ModelLamp& of) {
  const design::Aim& aim = carrier.aims.front();
  const design::PanTilt in_housing =
      design::housingFromSite(housing.mount, {aim.pan_deg, aim.tilt_deg});
  const design::ModelImager* imager = design::findImager(model, carrier.slot);
  BELVEDERE_CHECK(imager != nullptr, "an imager of the model");
  const Mat3 axes = design::imagerFromSite(aim.pan_deg, aim.tilt_deg, aim.roll_deg);
  lamp.at_m = design::lensPoint(housing.mount, mount, *imager, in_housing) +
              axes.row[2] * of.offset_m.x + axes.row[0] * of.offset_m.y - axes.row[1] * of.offset_m.z;
  const Vec3 off = design::imagerFromSite(of.bearing_deg, of.tilt_deg, 0).row[2];
  lamp.axis = axes.row[0] * off.x + axes.row[2] * off.y - axes.row[1] * off.z;
}

}  // namespace

std::vector<Lamp> lampsOf(const design::Design& design, const design::Housing& housing) {
  std::vector<Lamp> out;
  const design::Model* model = design::findModel(design, housing.model);
  if (!stands(housing) || !model) return out;
  const design::Model* mount =
      housing.mount.model.empty() ? nullptr : design::findModel(design, housing.mount.model);
  const bool alone = std::none_of(housing.imagers.begin(), housing.imagers.end(), inUse);
  for (const design::HousingLamp& used : lampsInUse(housing, *model)) {
    const auto of = std::find_if(model->lamps.begin(), model->lamps.end(),
                                 [&](const design::ModelLamp& l) { return l.slot == used.slot; });
    if (of == model->lamps.end()) continue;
    Lamp lamp;
    lamp.housing = housing.id;
    lamp.slot = used.slot;
    lamp.name = fmt::format("{} lamp {}", housing.id.text, used.slot);
    const auto carrier = std::find_if(
        housing.imagers.begin(), housing.imagers.end(),
        [&](const auto& imager) { return of->carried_by == imager.slot && inUse(imager); });
    if (carrier != housing.imagers.end()) {
      place(lamp, housing, mount, *model, *carrier, *of);
    } else {
      const design::PanTilt aim =
          design::siteFromHousing(housing.mount, {of->bearing_deg, of->tilt_deg});
      design::ModelImager at;  // where a lens of that offset would be, at the housing's zero
      at.offset_m = of->offset_m;
      lamp.at_m = design::lensPoint(housing.mount, mount, at, {});
      lamp.axis = design::imagerFromSite(aim.pan_deg, aim.tilt_deg, 0).row[2];
    }
    lamp.half_beam_rad = degToRad(0.5 * of->beam_deg);
    lamp.range_m = of->range_m;
    lamp.wave_nm = of->wave_nm;
    lamp.intensity_w_per_sr = of->intensity_w_per_sr;
    lamp.follows = used.follows;
    lamp.alone = alone;
    out.push_back(std::move(lamp));
  }
  return out;
}

std::vector<Lamp> lampsOf(const design::Design& design) {
  std::vector<Lamp> out;
  for (const design::Housing& housing : design.housings)
    for (Lamp& lamp : lampsOf(design, housing)) out.push_back(std::move(lamp));
  return out;
}

double beamShare(double theta_rad, double half_beam_rad) {
  const double t = theta_rad / half_beam_rad;
  return std::exp2(-t * t);
}

double shareFrom(const Lamp& lamp, const Vec3& at_m) {
  const Vec3 ray = at_m - lamp.at_m;
  const double squared = dot(ray, ray);
  if (!(squared > 0)) return std::numeric_limits<double>::infinity();
  const double theta = std::atan2(norm(cross(lamp.axis, ray)), dot(lamp.axis, ray));
  return lamp.range_m * lamp.range_m / squared * beamShare(theta, lamp.half_beam_rad);
}

Mode modeUnder(design::ImagerMode setting, double lux, const DayNightSwitch& levels, Mode before) {
  if (setting == design::ImagerMode::colour) return Mode::colour;
  if (setting == design::ImagerMode::mono || lux < levels.to_mono_below_lux) return Mode::mono;
  return lux > levels.to_colour_above_lux ? Mode::colour : before;
}

std::vector<ImagerState> imagerStates(const design::Design& design, const std::vector<double>& lux_of,
                                      const DayNightSwitch& levels, Mode before) {
  std::vector<ImagerState> out;
  for (const design::Housing& housing : design.housings) {
    if (!stands(housing)) continue;
    for (const design::HousingImager& imager : housing.imagers) {
      if (!inUse(imager)) continue;
      const std::size_t i = out.size();
      BELVEDERE_CHECK(lux_of.size() == 1 || i < lux_of.size(), "a level for each imager");
      ImagerState state;
      state.imager = fmt::format("{}.{}", housing.id.text, imager.slot);
      state.housing = housing.id;
      state.slot = imager.slot;
      state.lux = lux_of[lux_of.size() == 1 ? 0 : i];
      state.mode = modeUnder(imager.mode, state.lux, levels, before);
      // One that stays in colour calls for (white) light where the others would go to mono.
      state.calls = state.mode == Mode::mono ||
                    modeUnder(design::ImagerMode::by_light, state.lux, levels, before) == Mode::mono;
      out.push_back(std::move(state));
    }
  }
  return out;
}

std::vector<bool> burning(const std::vector<Lamp>& lamps, const std::vector<ImagerState>& states,
                          double alone_lux, const DayNightSwitch& levels) {
  std::vector<bool> out;
  for (const Lamp& lamp : lamps) {
    const bool dark = std::any_of(states.begin(), states.end(), [&](const ImagerState& state) {
      if (state.housing != lamp.housing || (lamp.follows && state.slot != *lamp.follows)) return false;
      return lamp.infrared() ? state.mode == Mode::mono : state.calls;
    });
    const bool alone =
        lamp.alone && lamp.follows.value_or(-1) != 0 &&
        modeUnder(design::ImagerMode::by_light, alone_lux, levels) == Mode::mono;
    out.push_back(dark || alone);
  }
  return out;
}

double lampLightAt(const std::vector<Lamp>& lamps, const std::vector<bool>& burns, Mode mode,
                   const Solids& solids, const Vec3& at_m) {
  double sum = 0;
  for (std::size_t i = 0; i < lamps.size(); ++i) {
    if (!burns[i] || (mode == Mode::colour && lamps[i].infrared())) continue;
    const double open = shareFrom(lamps[i], at_m);
    if (open > 0) {
      const double passes = solids.passes(lamps[i].at_m, at_m, lamps[i].band());
      if (passes > 0) sum += open * passes;
    }
  }
  return sum;
}

}  // namespace belvedere::light
