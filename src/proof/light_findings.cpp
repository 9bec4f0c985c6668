// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/light_findings.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/trade_figures.h"
#include "base/units.h"
#include "design/task_table.h"
#include "light/lighting.h"
#include "light/side_effects.h"
#include "proof/cover_findings.h"
#include "proof/judge.h"
#include "proof/sayer.h"
#include "proof/side_effect_findings.h"
#include "proof/uneven_findings.h"

namespace belvedere::proof {
namespace {

// In more light than this no camera of the trade is in want of it: common practice, no source.
constexpr double kAmpleLux = 50;
constexpr double kRippleSeen = 0.1;  // left of the lamps' ripple

const char* leftOut(light::Unknown unknown) {
  switch (unknown) {
    case light::Unknown::statement: return "no least illumination";
    case light::Unknown::f_number: return "a least illumination without its F-number";
    case light::Unknown::exposure_s: return "a least illumination without its exposure time";
    case light::Unknown::nothing: break;
  }
  return "";
}

// "P1, P2, P3 and 19 more"
std::string some(const std::vector<std::string>& names) {
  constexpr std::size_t kNamed = 3;
  const std::size_t shown = names.size() > kNamed + 1 ? kNamed : names.size();
  std::string text = fmt::format("{}", fmt::join(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(shown), ", "));
  return shown < names.size() ? fmt::format("{} and {} more", text, names.size() - shown) : text;
}
std::vector<std::string> with(std::string first, const std::vector<std::string>& rest) {
  std::vector<std::string> all{std::move(first)};
  all.insert(all.end(), rest.begin(), rest.end());
  return all;
}
std::string modelOf(const design::Design& design, const design::HousingId& id) {
  const design::Housing* housing = design::findHousing(design, id);
  return housing ? housing->model.text : std::string();
}

struct Night {
  const design::Design& design;
  const design::Situation& situation;
  const light::Lighting& lighting;
  const light::Solids& solids;
  std::vector<design::PosedImager> views;  // captured, the first aim of each imager
  std::vector<design::PosedImager> aims;   // captured, every aim
  Sayer& sayer;
  LeastTurns& turns;
  const Progress& progress;

  light::Mode modeOf(const design::PosedImager& view) const {
    const light::ImagerState* state = light::findState(lighting, view.imager);
    return state ? state->mode : light::Mode::colour;
  }
  double luxOf(const design::PosedImager& view) const {
    const light::ImagerState* state = light::findState(lighting, view.imager);
    return state ? state->lux : lighting.light.ambient_lux;
  }

  // Of a model's imager once, for all that stand in too little light to pass over it.
  void unstated() const {
    struct Case {
      light::Unknown unknown = light::Unknown::nothing;
      bool by_lamps = false;
      double lux = 0;
      std::vector<std::string> imagers;
    };
    std::map<std::pair<std::string, int>, Case> cases;
    for (const design::PosedImager& view : views) {
      const auto by = light::imagerLight(view, lighting, design::TargetKind::person);
      const bool mono = by.mode == light::Mode::mono;
      if (by.needed.lux || (!mono && luxOf(view) >= kAmpleLux)) continue;
      Case& one = cases[{modelOf(design, view.housing), view.slot}];
      one.unknown = by.needed.unknown;
      one.by_lamps = judgedByLampsAlone(view, lighting);
      one.lux = luxOf(view);
      one.imagers.push_back(view.imager);
    }
    for (const auto& [of, one] : cases)
      sayer.say({"light_unstated", Severity::caution, with(of.first, one.imagers), {},
                 Quantity{one.lux, "lx"},
                 fmt::format("{} ({}): the data sheet of {} has {}, so that {}.", some(one.imagers),
                             situation.id.text, of.first, leftOut(one.unknown),
                             one.by_lamps
                                 ? "light is judged by the ranges of lamps alone"
                                 : fmt::format("nobody can tell whether {:.3g} lx are enough: it is "
                                               "taken to see", one.lux)),
                 "9"}, one.by_lamps ? "by lamps" : "");
  }

  // Lamps in pairs, and an imager in the dark that none of them follows.
  void withoutLamp() const {
    for (const light::ImagerState& state : lighting.states) {
      if (state.mode != light::Mode::mono) continue;
      bool any = false, own = false;
      for (const light::Lamp& lamp : lighting.lamps) {
        if (lamp.housing != state.housing) continue;
        any = true;
        own = own || !lamp.follows || *lamp.follows == state.slot;
      }
      if (any && !own)
        sayer.say({"imager_without_lamp", Severity::caution, {state.imager}, {}, {},
                   fmt::format("{} ({}): is in mono, and no lamp of its housing follows it.",
                               state.imager, situation.id.text),
                   "9"});
    }
  }

  std::vector<light::Lamp> burningOf(const std::vector<light::Lamp>& lamps, bool infrared) const {
    std::vector<light::Lamp> burning;
    for (std::size_t i = 0; i < lamps.size(); ++i)
      if (lighting.burns[i] && lamps[i].infrared() == infrared) burning.push_back(lamps[i]);
    return burning;
  }

  // White light shows to all imagers, infrared to those in mono alone.
  std::vector<design::PosedImager> seeing(const std::vector<design::PosedImager>& of, bool infrared) const {
    std::vector<design::PosedImager> seen_by;
    for (const design::PosedImager& view : of)
      if (!infrared || modeOf(view) == light::Mode::mono) seen_by.push_back(view);
    return seen_by;
  }

  // An imager that carries lamps has them elsewhere in each of its aims.
  void sideEffects() const {
    std::map<const std::vector<light::Lamp>*, std::vector<design::PosedImager>> during;
    std::vector<const std::vector<light::Lamp>*> order;
    for (const design::PosedImager& view : aims) {
      const std::vector<light::Lamp>* lamps = &light::lampsDuring(view, lighting);
      if (!during.contains(lamps)) order.push_back(lamps);
      during[lamps].push_back(view);
    }
    for (const bool infrared : {true, false}) {
      for (const auto* lamps : order)
        SideEffects{design, situation, solids, burningOf(*lamps, infrared), seeing(during[lamps], infrared),
                    sayer, turns, progress}.sayAll();
      for (const light::LampsInAim& in : lighting.in_aims) {
        std::vector<light::Lamp> swung = burningOf(in.lamps, infrared);
        std::erase_if(swung, [&](const light::Lamp& lamp) { return lamp.housing != in.housing; });
        SideEffects{design, situation, solids, std::move(swung), seeing(aims, infrared), sayer, turns, progress,
                    fmt::format(" in its aim {}", in.aim + 1)}.inFrame();
      }
    }
  }

  // Under lamps on the mains an exposure that is no whole number of pulses shows bands.
  void flicker() const {
    const bool lamps = std::any_of(
        situation.lights.begin(), situation.lights.end(), [&](const design::LightId& id) {
          return std::any_of(design.site.lights.begin(), design.site.lights.end(),
                             [&](const design::Light& l) { return l.id == id && l.kind == "luminaire"; });
        });
    if (!lamps) return;
    const double mains_hz = design.site.mains_hz;
    for (const design::PosedImager& view : views) {
      if (!view.exposure_s || light::flickerLeft(mains_hz, *view.exposure_s) < kRippleSeen) continue;
      const auto steady = light::steadyExposureS(mains_hz, *view.exposure_s);
      const double pulse_s = 0.5 / mains_hz;
      sayer.say({"mains_flicker", Severity::note, {view.imager}, Quantity{steady.value_or(pulse_s), "s"},
                 Quantity{*view.exposure_s, "s"},
                 fmt::format("{} ({}): an exposure of {} leaves {:.0f} % of the ripple of lamps on "
                             "the mains at {:g} Hz; {}.", view.imager, situation.id.text,
                             exposureText(*view.exposure_s), 100 * light::flickerLeft(mains_hz, *view.exposure_s),
                             mains_hz,
                             steady ? exposureText(*steady) + " leaves none"
                                    : fmt::format("only {} and whole multiples of it leave none, which smears what moves; else take "
                                                  "luminaires whose drivers do not pulse", exposureText(pulse_s))),
                 "8"});
    }
  }
};

std::vector<design::PosedImager> firstOf(std::vector<design::PosedImager> views) {
  std::erase_if(views, [](const design::PosedImager& view) { return view.aim > 0; });
  return views;
}

// A lens that brings infrared to a focus elsewhere, set for daylight: by night it is not sharp where it is by day.
void infraredFocus(const std::vector<design::PosedImager>& aims, const Lighting& lighting,
                   const design::Situation& situation, Sayer& sayer) {
  for (const design::PosedImager& view : aims) {
    const double shift_m = view.infrared_shift_m.value_or(0);
    if (!view.focus || shift_m == 0 || !seesByInfrared(view, lighting)) continue;
    const auto set = focusChoice(view, lighting.targets);
    const auto dark = focusChoice(view, lighting.targets, true);
    if (!set || !dark) continue;
    const auto holds = [&](const optics::SharpStretch& sharp) {
      return sharp.near_m <= set->at_m && set->at_m <= sharp.far_m.value_or(set->at_m);
    };
    if (holds(dark->sharp)) continue;
    const auto stretch = [](const optics::SharpStretch& sharp) -> std::string {
      if (!std::isfinite(sharp.near_m)) return "nowhere";
      return sharp.far_m ? fmt::format("from {:.1f} to {:.1f} m", sharp.near_m, *sharp.far_m)
                         : fmt::format("from {:.1f} m on", sharp.near_m);
    };
    // One that somebody has set so that infrared is sharp somewhere may be meant so.
    std::string mend;
    if (!set->stated || !std::isfinite(dark->sharp.near_m)) {
      const double for_dark_m = optics::infraredFocusM(*view.focus, set->at_m, -shift_m);
      mend = for_dark_m > view.focus->focal_m
                 ? fmt::format("; focused at {:.3g} m it is sharpest there by infrared, and not by light", for_dark_m)
                 : "; no focus makes it sharp there by infrared";
    }
    // Focused half-way between, each image is half the shift off: a disc of shift / (2 N) on the sensor.
    const double stop = std::fabs(shift_m) / (2 * view.focus->circle_m);
    sayer.say({"infrared_focus", Severity::caution, {view.imager}, {}, Quantity{1e6 * shift_m, "um"},
               fmt::format("{} ({}): its lens brings infrared to a focus {:g} um {} light. Focused at {:.1f} m it is "
                           "sharp {} by light and {} by infrared{}. One focus serves both with a lens that is "
                           "corrected for infrared, or from about f/{:.2g} on.",
                           view.name, situation.id.text, std::fabs(1e6 * shift_m),
                           shift_m > 0 ? "behind that of" : "before that of", set->at_m, stretch(set->sharp),
                           stretch(dark->sharp), mend, stop),
               "8"}, view.name);
  }
}

// A stop that is written wider than the lens opens, in any of its aims, whose zooms may differ; or for a lens of which
// nobody says how wide it opens.
void apertures(const design::Design& design, Sayer& sayer) {
  for (const design::PosedImager& view :
       design::posedImagers(design, design::JudgedOn::captured)) {
    const design::Housing* housing = design::findHousing(design, view.housing);
    if (!housing) continue;
    for (const design::HousingImager& written : housing->imagers) {
      if (written.slot != view.slot || !written.f_number) continue;
      if (!view.widest_f_number)
        sayer.say({"aperture_unstated", Severity::caution, {view.imager}, {}, Quantity{*written.f_number, ""},
                   fmt::format("{}: is set to f/{:g}, and its data sheet does not say how wide its lens opens: where "
                               "lamps are judged by their ranges, these are taken to hold at f/{:.2g}, and {:.3g} times "
                               "as much is asked of them.", view.imager, *written.f_number,
                               *written.f_number / std::sqrt(view.stoppedDown()), view.stoppedDown()),
                   "8"});
      else if (*written.f_number < *view.widest_f_number * (1 - 1e-9))
        sayer.say({"aperture_too_wide", Severity::caution, {view.imager},
                   Quantity{*view.widest_f_number, ""}, Quantity{*written.f_number, ""},
                   fmt::format("{}: is set to f/{:g}, but at its zoom its lens opens to f/{:.3g} at most: "
                               "that is what counts.", view.name, *written.f_number,
                               *view.widest_f_number),
                   "8"});
    }
  }
}

// Of the lens alone, whatever the situation; of each imager for the first of its aims in which it is so.
void lenses(const std::vector<design::PosedImager>& aims, Sayer& sayer) {
  for (const design::PosedImager& view : aims) {
    if (!view.focus) continue;
    const double spot_m = optics::diffractionSpotM(view.focus->f_number, optics::kGreenNm);
    if (spot_m > 2 * view.focus->circle_m)
      sayer.say({"diffraction_limit", Severity::note, {view.imager},
                 Quantity{2e6 * view.focus->circle_m, "um"}, Quantity{1e6 * spot_m, "um"},
                 fmt::format("{}: at {} a point's image is {:.1f} um wide, more than two of its "
                             "pixels: it resolves less than its pixels say; no more than two are reached "
                             "with f/{:.2g}{}.", view.name, fNumberText(view.focus->f_number), 1e6 * spot_m,
                             view.focus->f_number * 2 * view.focus->circle_m / spot_m,
                             view.widest_f_number &&
                                     view.focus->f_number * 2 * view.focus->circle_m / spot_m < *view.widest_f_number
                                 ? ", wider than it opens" : ""),
                 "8"});
  }
}

// A target that moves smears over the longest exposure, seen at the density that is asked for.
void motion(const design::Design& design, const std::vector<design::PosedImager>& views,
            Sayer& sayer) {
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see || !r.target.speed_mps) continue;
    const double needed = design::neededDensity(design, r);
    const bool plate = r.target.kind == design::TargetKind::plate;
    const double most_px = plate ? light::kBlurPlatePx : light::kBlurFacePx;
    for (const design::PosedImager& view : views) {
      if (!view.exposure_s) continue;
      const double blur_px = light::motionBlurPx(needed, *r.target.speed_mps, *view.exposure_s);
      if (blur_px <= most_px) continue;
      sayer.say({"motion_blur", Severity::caution, {view.imager, r.id.text}, Quantity{most_px, "px"},
                 Quantity{blur_px, "px"},
                 fmt::format("{}: at {:g} m/s and {:g} px/m a target smears over {:.1f} px while {} "
                             "exposes for {}; {} keeps it to {:g} px.", r.id.text,
                             *r.target.speed_mps, needed, blur_px, view.imager,
                             exposureText(*view.exposure_s),
                             exposureText(light::longestExposureS(needed, *r.target.speed_mps, most_px),
                                          Rounded::down), most_px),
                 "8"});
    }
  }
}

// Of each model once.
void eyes(const design::Design& design, Sayer& sayer) {
  std::map<std::string, std::pair<light::EyeExposure, std::vector<std::string>>> models;
  for (const light::EyeExposure& found : light::eyeExposures(light::lampsOf(design))) {
    auto& [first, housings] = models[modelOf(design, {found.housing})];
    if (housings.empty()) first = found;
    housings.push_back(found.housing);
  }
  for (const auto& [model, of] : models) {
    const auto& [found, housings] = of;
    const std::string from =
        found.lasting_from_m
            ? fmt::format("; they may be looked at lastingly from {:.2f} m on", *found.lasting_from_m)
            : "; their intensity is not stated, so that no distance can be given";
    sayer.say({"eye_exposure", Severity::note, with(model, housings), {}, {},
               fmt::format("{}: nobody sees infrared lamps burn: keep eyes away from them at close range "
                           "(IEC 62471){}. The maker's safety sheet comes first.", some(housings), from),
               "9"});
  }
}

}  // namespace

std::vector<Finding> lightFindings(const design::Design& design, const std::filesystem::path& folder,
                                   const Progress& progress, const design::SituationId& only) {
  Sayer sayer;
  const std::vector<design::PosedImager> aims = design::posedImagers(design, design::JudgedOn::captured);
  const std::vector<design::PosedImager> views = firstOf(aims);
  LeastTurns turns;
  for (const design::Situation& situation : design::situationsOf(design)) {
    progress.throwIfCancelled();
    if (!only.empty() && situation.id != only) continue;
    if (situation.lights.empty()) {
      sayer.say({"light_not_judged", Severity::note, {situation.id.text}, {}, {},
                 fmt::format("{}: names no lights, so that every zone is taken to be lit well enough.",
                             situation.id.text),
                 "9"});
      continue;
    }
    const auto place = makePlace(design, situation, folder);
    const light::Solids solids{&place->scene, &place->tree};
    const auto lighting = makeLighting(design, situation, *place, folder);
    const Night night{design, situation, lighting->light, solids, views, aims, sayer, turns, progress};
    night.unstated();
    night.withoutLamp();
    night.sideEffects();
    night.flicker();
    infraredFocus(aims, *lighting, situation, sayer);
    for (Finding& found : unevenFindings(design, situation, place, lighting, progress)) sayer.say(std::move(found));
  }
  apertures(design, sayer);
  lenses(aims, sayer);
  motion(design, views, sayer);
  for (Finding& found : coverVeils(design)) sayer.say(std::move(found));
  eyes(design, sayer);
  return std::move(sayer.out);
}

}  // namespace belvedere::proof
