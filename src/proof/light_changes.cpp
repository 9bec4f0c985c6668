// SPDX-License-Identifier: GPL-3.0-or-later
//
// Single changes of light and sharpness that would serve a spot: lamps and settings are varied, and the
// judge is asked each time.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/trade_figures.h"
#include "base/units.h"
#include "proof/trial.h"

namespace belvedere::proof {
namespace {

constexpr std::array<double, 11> kExposuresS{1.0 / 1000, 1.0 / 500, 1.0 / 250, 1.0 / 200, 1.0 / 120,
                                             1.0 / 100,  1.0 / 60,  1.0 / 50,  1.0 / 30,  1.0 / 25,
                                             1.0 / 12.5};
constexpr std::array<double, 3> kBeamsDeg{60, 30, 90};
constexpr std::array<double, 9> kStops{1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22};
constexpr double kInfraredNm = 850, kWhiteNm = 550;

const char* word(design::ImagerMode mode) {
  return mode == design::ImagerMode::mono     ? "set it to mono for good"
         : mode == design::ImagerMode::colour ? "keep it in colour for good"
                                              : "let it switch to mono by the light";
}

// The spot's place at the middle of the target's band.
Vec3 placeOf(const Trial& trial) {
  const Question& q = trial.question;
  return withZ(trial.at, q.floor.at(trial.at) + 0.5 * (q.low_m + q.high_m));
}
// Bearing and tilt (below the horizontal) from one place to another.
design::PanTilt toward(const Vec3& from, const Vec3& to) {
  const Vec3 way = to - from;
  return {wrap360(radToDeg(std::atan2(way.x, way.y))),
          radToDeg(std::atan2(-way.z, std::hypot(way.x, way.y)))};
}

void tryFollow(Trial& trial, const design::Housing& housing, const design::Model& model,
               Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  change.kind = ChangeKind::follow;
  for (const design::ModelLamp& lamp : model.lamps)
    for (const bool group : {false, true}) {
      design::Housing varied = housing;
      if (varied.lamps.empty())  // all of the model's, as a group
        for (const design::ModelLamp& own : model.lamps) varied.lamps.push_back({own.slot, {}});
      auto used = std::find_if(varied.lamps.begin(), varied.lamps.end(),
                               [&](const design::HousingLamp& l) { return l.slot == lamp.slot; });
      if (used == varied.lamps.end()) used = varied.lamps.insert(used, design::HousingLamp{lamp.slot, {}});
      used->follows = group ? std::optional<int>() : change.slot;
      if (varied == housing || !trial.serves(varied)) continue;
      change.as = varied;
      change.effort = effort.per_setting;
      change.sentence =
          group ? fmt::format("{}: let lamp {} burn with the group", housing.id.text, lamp.slot)
                : fmt::format("{}: let lamp {} follow {}", housing.id.text, lamp.slot, change.imager);
      keepLeast(best, change);
    }
}

void tryMode(Trial& trial, const design::Housing& housing, Change change, const Effort& effort,
             std::map<ChangeKind, Change>& best) {
  change.kind = ChangeKind::mode;
  for (const auto mode :
       {design::ImagerMode::by_light, design::ImagerMode::mono, design::ImagerMode::colour}) {
    design::Housing varied = housing;
    design::HousingImager& imager = *imagerOf(varied, change.slot);
    if (imager.mode == mode) continue;
    imager.mode = mode;
    if (!trial.serves(varied)) continue;
    change.as = varied;
    change.effort = effort.per_setting;
    change.sentence = fmt::format("{}: {}", change.imager, word(mode));
    keepLeast(best, change);
  }
}

void tryExposure(Trial& trial, const design::Housing& housing, const design::PosedImager& view,
                 Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  if (!view.least_light || !view.least_light->exposure_s) return;
  const double now_s = view.exposure_s.value_or(*view.least_light->exposure_s);
  change.kind = ChangeKind::exposure;
  for (const double exposure_s : kExposuresS) {
    if (exposure_s <= now_s * (1 + 1e-9)) continue;
    design::Housing varied = housing;
    imagerOf(varied, change.slot)->exposure_s = exposure_s;
    if (!trial.serves(varied)) continue;
    change.as = varied;
    change.by = exposure_s;
    change.effort = effort.per_setting;
    change.sentence = fmt::format("{}: expose for {} at most instead of {}", change.imager,
                                  exposureText(exposure_s), exposureText(now_s));
    if (const auto speed_mps = trial.question.requirement->target.speed_mps)
      change.sentence += fmt::format(
          ", which smears a target at {:g} m/s over {:.1f} px", *speed_mps,
          light::motionBlurPx(trial.question.needed_px_per_m, *speed_mps, exposure_s));
    keepLeast(best, change);
    return;
  }
}

// Opened as little as serves, stop by stop, at most as wide as the lens goes: what lies before and behind the spot
// stays as sharp as can be then.
void tryOpenUp(Trial& trial, const design::Housing& housing, const design::PosedImager& view,
               Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  if (!view.f_number || !view.widest_f_number) return;
  constexpr double kSame = 1e-9;
  const double now = *view.f_number, widest = *view.widest_f_number;
  if (now <= widest * (1 + kSame)) return;
  std::vector<double> stops;  // what is farthest stopped down first
  for (auto stop = kStops.rbegin(); stop != kStops.rend(); ++stop)
    if (*stop < now * (1 - kSame) && *stop > widest * (1 + kSame)) stops.push_back(*stop);
  stops.push_back(widest);
  change.kind = ChangeKind::open_up;
  for (const double f_number : stops) {
    design::Housing varied = housing;
    std::optional<double>& set = imagerOf(varied, change.slot)->f_number;
    if (f_number > widest) set = f_number;
    else set.reset();  // not stopped down any more
    if (!trial.serves(varied)) continue;
    change.as = varied;
    change.by = f_number;
    change.effort = effort.per_setting;
    change.sentence = fmt::format("{}: open it up from f/{:.3g} to f/{:.3g}{}; it then gets {:.3g} times the light, "
                                  "and is sharp over less depth",
                                  change.imager, now, f_number, set ? "" : ", as wide as its lens opens",
                                  now * now / (f_number * f_number));
    keepLeast(best, change);
    return;
  }
}

// Lamps that stand alone, each turned so that its axis goes through the spot.
void tryTurnLamps(const design::Design& design, Trial& trial, const design::Housing& housing,
                  Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  change.kind = ChangeKind::turn_lamp;
  for (const light::Lamp& lamp : trial.lighting->light.lamps) {
    if (!lamp.alone) continue;
    const design::Housing* of = design::findHousing(design, lamp.housing);
    const design::PanTilt now = toward({0, 0, 0}, lamp.axis);
    const design::PanTilt wanted = toward(lamp.at_m, placeOf(trial));
    if (!of) continue;
    design::Housing turned = *of;
    turned.mount.base_bearing_deg =
        wrap360(turned.mount.base_bearing_deg + wrap180(wanted.pan_deg - now.pan_deg));
    turned.mount.base_tilt_deg += wanted.tilt_deg - now.tilt_deg;
    if (!trial.serves(housing, &turned)) continue;
    change.as = turned;
    change.effort = effort.per_aim_deg * std::hypot(wrap180(wanted.pan_deg - now.pan_deg),
                                                    wanted.tilt_deg - now.tilt_deg);
    change.sentence = fmt::format("{}: turn it to a bearing of {:.1f} deg, {:.1f} deg down", lamp.name,
                                  wanted.pan_deg, wanted.tilt_deg);
    keepLeast(best, change);
  }
}

// "L1", or the next that is free.
std::string freeId(const design::Design& design) {
  std::set<std::string> used;
  for (const design::Housing& h : design.housings) used.insert(h.id.text);
  for (const design::Device& d : design.services.devices) used.insert(d.id.text);
  for (int i = 1;; ++i)
    if (const std::string id = fmt::format("L{}", i); !used.contains(id)) return id;
}

// A lamp where the housing hangs, its axis through the spot.
void tryAddLamp(const design::Design& design, Trial& trial, const design::Housing& housing,
                const design::PosedImager& view, Change change, const Effort& effort,
                std::map<ChangeKind, Change>& best) {
  const light::ImagerState* state = light::findState(trial.lighting->light, view.imager);
  if (!state) return;
  const bool mono = state->mode == light::Mode::mono;
  change.kind = ChangeKind::add_lamp;
  design::Housing added;
  added.id = {freeId(design)};
  added.storey = housing.storey;
  added.mount.on = housing.mount.on;
  added.mount.fixing_m = housing.mount.fixing_m;
  const design::PanTilt wanted = toward(added.mount.fixing_m, placeOf(trial));
  const auto serves = [&](const design::Model& model) {
    added.model = model.id;
    added.mount.base_bearing_deg = wrap360(wanted.pan_deg - model.lamps.front().bearing_deg);
    added.mount.base_tilt_deg = wanted.tilt_deg - model.lamps.front().tilt_deg;
    return trial.serves(housing, &added);
  };
  const auto keep = [&](const std::string& what) {
    change.as = added;
    change.effort = effort.another_lamp;
    change.sentence = fmt::format("{}: add {} where it hangs, at a bearing of {:.1f} deg, {:.1f} deg down",
                                  change.housing.text, what, wanted.pan_deg, wanted.tilt_deg);
    keepLeast(best, change);
  };
  const design::Model* found = nullptr;
  double least_m = 1e300;
  for (const auto* models : {&design.catalogue.models, &design.library})
    for (const design::Model& model : *models)
      if (model.kind == design::ModelKind::lamp && !model.lamps.empty() &&
          model.lamps.front().range_m < least_m && serves(model)) {
        found = &model;
        least_m = model.lamps.front().range_m;
      }
  if (found) {
    serves(*found);
    return keep("a " + found->id.text);
  }
  design::Model model;
  model.kind = design::ModelKind::lamp;
  model.lamps.resize(1);
  model.lamps.front().wave_nm = mono ? kInfraredNm : kWhiteNm;
  for (const double range_m : kLampRangesM)
    for (const double beam_deg : kBeamsDeg) {
      model.id = {fmt::format("lamp_{:g}_m_{:g}_deg", range_m, beam_deg)};
      model.title = fmt::format("A lamp to be found: {:g} m, {:g} deg, {:g} nm", range_m, beam_deg,
                                model.lamps.front().wave_nm);
      if (design::findModel(design, model.id)) continue;
      model.lamps.front().range_m = range_m;
      model.lamps.front().beam_deg = beam_deg;
      trial.alone.catalogue.models.push_back(model);
      const bool enough = serves(model);
      trial.alone.catalogue.models.pop_back();
      if (!enough) continue;
      change.lamp = model;
      return keep(fmt::format("{} lamp of {:g} m range, {:g} deg wide{}", mono ? "an infrared" : "a white",
                              range_m, beam_deg, mono ? fmt::format(", {:g} nm", kInfraredNm) : ""));
    }
}

}  // namespace

void tryLight(const design::Design& design, Trial& trial, const design::Housing& housing,
              const design::PosedImager& view, Change change, const Effort& effort,
              std::map<ChangeKind, Change>& best) {
  const design::Model* model = design::findModel(design, housing.model);
  if (!model || !trial.lighting) return;
  const bool lamps_moved = trial.lamps_move;
  trial.lamps_move = true;  // settings count from here on, with lamps of its own or without
  tryFollow(trial, housing, *model, change, effort, best);
  tryMode(trial, housing, change, effort, best);
  tryExposure(trial, housing, view, change, effort, best);
  tryOpenUp(trial, housing, view, change, effort, best);
  tryTurnLamps(design, trial, housing, change, effort, best);
  tryAddLamp(design, trial, housing, view, change, effort, best);
  trial.lamps_move = lamps_moved;
}

void tryFocus(Trial& trial, const design::Housing& housing, const design::PosedImager& view,
              Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  const double ahead_m = dot(view.imager_from_site.row[2], placeOf(trial) - view.lens_m);
  if (!(ahead_m > 0)) return;
  change.kind = ChangeKind::focus;
  change.effort = effort.per_setting;
  // To `step_m`, as a ring can be set.
  const auto tried = [&](double at_m, double step_m, const std::string& why) {
    const double focus_m = std::max(step_m, std::round(at_m / step_m) * step_m);
    design::Housing varied = housing;
    imagerOf(varied, change.slot)->aims[change.aim].focus_m = focus_m;
    if (!trial.serves(varied)) return false;
    change.as = varied;
    change.by = focus_m;
    change.sentence = fmt::format("{}: focus it at {:g} m{}", trial.name, focus_m, why);
    keepLeast(best, change);
    return true;
  };
  if (tried(ahead_m, ahead_m < 10 ? 0.05 : 0.5, "")) return;
  // By infrared a lens that is not corrected for it is sharpest elsewhere than where it is set.
  const double shift_m = view.infrared_shift_m.value_or(0);
  if (!view.focus || shift_m == 0 || !trial.lighting || !seesByInfrared(view, *trial.lighting)) return;
  const double by_light_m = optics::infraredFocusM(*view.focus, ahead_m, -shift_m);
  if (by_light_m > view.focus->focal_m)
    tried(by_light_m, by_light_m < 10 ? 0.01 : 0.5,
          fmt::format(" by light, so that infrared is sharpest at {:.3g} m", ahead_m));
}

// The least stop that serves: the spot stays lit then, and diffraction does not undo what is gained.
void tryStopDown(Trial& trial, const design::Housing& housing, const design::PosedImager& view,
                 Change change, const Effort& effort, std::map<ChangeKind, Change>& best) {
  if (!view.focus) return;
  change.kind = ChangeKind::stop_down;
  for (const double f_number : kStops) {
    if (f_number <= view.focus->f_number * (1 + 1e-9)) continue;
    if (optics::diffractionSpotM(f_number, optics::kGreenNm) > 2 * view.focus->circle_m) return;
    design::Housing varied = housing;
    imagerOf(varied, change.slot)->f_number = f_number;
    if (!trial.serves(varied)) continue;
    const double stops = f_number / view.focus->f_number;
    change.as = varied;
    change.by = f_number;
    change.effort = effort.per_setting;
    change.sentence =
        fmt::format("{}: stop it down from f/{:.3g} to f/{:g}; it then asks for {:.3g} times the light",
                    change.imager, view.focus->f_number, f_number, stops * stops);
    keepLeast(best, change);
    return;
  }
}

}  // namespace belvedere::proof
