// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/light_findings.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "base/trade_figures.h"
#include "base/units.h"
#include "design/task_table.h"
#include "light/lighting.h"
#include "light/side_effects.h"
#include "proof/cover_findings.h"
#include "proof/judge.h"
#include "proof/uneven_findings.h"

namespace belvedere::proof {
namespace {

// In more light than this no camera of the trade is in want of it: common practice, no source.
constexpr double kAmpleLux = 50;
constexpr double kMainsHz = 50;
constexpr double kRippleSeen = 0.1;  // left of the lamps' ripple

class Sayer {
 public:
  // Says it once of these ids.
  void say(Finding finding) {
    std::string key = finding.code;
    for (const std::string& id : finding.about) key += "\n" + id;
    if (said_.insert(key).second) out.push_back(std::move(finding));
  }
  std::vector<Finding> out;

 private:
  std::set<std::string> said_;
};

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
  Sayer& sayer;
  CoverTurns& turns;
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
                 "9"});
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

  std::vector<light::Lamp> burningLamps(bool infrared) const {
    std::vector<light::Lamp> lamps;
    for (std::size_t i = 0; i < lighting.lamps.size(); ++i)
      if (lighting.burns[i] && lighting.lamps[i].infrared() == infrared)
        lamps.push_back(lighting.lamps[i]);
    return lamps;
  }

  // White light shows to all imagers, infrared to those in mono alone.
  void sideEffects() const {
    std::vector<design::PosedImager> mono;
    for (const design::PosedImager& view : views)
      if (modeOf(view) == light::Mode::mono) mono.push_back(view);
    sideEffectsOf(burningLamps(true), mono);
    sideEffectsOf(burningLamps(false), views);
  }

  void sideEffectsOf(const std::vector<light::Lamp>& lamps,
                     const std::vector<design::PosedImager>& seen_by) const {
    if (lamps.empty()) return;
    for (const light::LampInFrame& found : light::lampsInFrame(lamps, seen_by, solids))
      sayer.say({"lamp_in_frame", Severity::caution, {found.imager, found.lamp}, {},
                 Quantity{found.distance_m, "m"},
                 fmt::format("{} ({}): {} shines into its picture from {:.1f} m, at {:.0f}, {:.0f} px, "
                             "with {:.1f} times what lights a target at the lamp's range.",
                             found.imager, situation.id.text, found.lamp, found.distance_m,
                             found.at_px.x, found.at_px.y, found.share),
                 "9"});
    for (const light::NearSurface& found : light::nearSurfaces(lamps, seen_by, solids)) {
      if (found.in_frame_of.empty()) continue;
      sayer.say({"lamp_near_surface", Severity::caution, {found.lamp, found.of}, Quantity{1, "m"},
                 Quantity{found.nearest_m, "m"},
                 fmt::format("{} ({}): {} stands {:.2f} m off in its beam and in the picture of {}, and "
                             "throws its light back; move or turn the lamp or the housing.",
                             found.lamp, situation.id.text, found.of, found.nearest_m,
                             fmt::join(found.in_frame_of, ", ")),
                 "9"});
    }
    for (const light::Mirrored& found : light::mirroredLamps(design, lamps, seen_by, solids))
      if (found.share >= light::kDazzleShare)
        sayer.say({"lamp_mirrored", Severity::caution, {found.imager, found.lamp, found.of}, {},
                   Quantity{found.path_m, "m"},
                   fmt::format("{} ({}): sees {} mirrored in {}, at {:.0f}, {:.0f} px.", found.imager,
                               situation.id.text, found.lamp, found.of, found.at_px.x, found.at_px.y),
                   "6"});
    for (Finding& found : mirroredInCovers(design, situation, lamps, seen_by, turns, progress))
      sayer.say(std::move(found));
    for (const light::ThroughGlass& found : light::lampsThroughGlass(design, lamps, seen_by, solids))
      sayer.say({"lamp_behind_glass", Severity::caution, {found.imager, found.of}, {},
                 Quantity{100 * found.infrared_twice, "%"},
                 fmt::format("{} ({}): looks through {} {:.2f} m ahead with a lamp of its own on: the "
                             "pane lights up, and {:.0f} % of the infrared is left there and back.",
                             found.imager, situation.id.text, found.of, found.distance_m,
                             100 * found.infrared_twice),
                 "6"});
  }

  // Under lamps on the mains an exposure that is no whole number of pulses shows bands.
  void flicker() const {
    const bool lamps = std::any_of(
        situation.lights.begin(), situation.lights.end(), [&](const design::LightId& id) {
          return std::any_of(design.site.lights.begin(), design.site.lights.end(),
                             [&](const design::Light& l) { return l.id == id && l.kind == "luminaire"; });
        });
    if (!lamps) return;
    for (const design::PosedImager& view : views) {
      if (!view.exposure_s || light::flickerLeft(kMainsHz, *view.exposure_s) < kRippleSeen) continue;
      const auto steady = light::steadyExposureS(kMainsHz, *view.exposure_s);
      sayer.say({"mains_flicker", Severity::note, {view.imager},
                 steady ? std::optional(Quantity{*steady, "s"}) : std::nullopt,
                 Quantity{*view.exposure_s, "s"},
                 fmt::format("{} ({}): an exposure of {} leaves {:.0f} % of the ripple of lamps on "
                             "the mains at {:g} Hz{}.", view.imager, situation.id.text,
                             exposureText(*view.exposure_s), 100 * light::flickerLeft(kMainsHz, *view.exposure_s), kMainsHz,
                             steady ? fmt::format("; {} leaves none", exposureText(*steady)) : ""),
                 "8"});
    }
  }
};

std::vector<design::PosedImager> firstAims(const design::Design& design) {
  std::vector<design::PosedImager> views =
      design::posedImagers(design, design::JudgedOn::captured);
  std::erase_if(views, [](const design::PosedImager& view) { return view.aim > 0; });
  return views;
}

// A stop that is written wider than the lens opens: in any of its aims, whose zooms may differ.
void apertures(const design::Design& design, Sayer& sayer) {
  for (const design::PosedImager& view :
       design::posedImagers(design, design::JudgedOn::captured)) {
    const design::Housing* housing = design::findHousing(design, view.housing);
    if (!housing || !view.widest_f_number) continue;
    for (const design::HousingImager& written : housing->imagers)
      if (written.slot == view.slot && written.f_number &&
          *written.f_number < *view.widest_f_number * (1 - 1e-9))
        sayer.say({"aperture_too_wide", Severity::caution, {view.imager},
                   Quantity{*view.widest_f_number, ""}, Quantity{*written.f_number, ""},
                   fmt::format("{}: is set to f/{:g}, but at its zoom its lens opens to f/{:.3g} at most: "
                               "that is what counts.", view.name, *written.f_number,
                               *view.widest_f_number),
                   "8"});
  }
}

// Of the lens alone, whatever the situation.
void lenses(const std::vector<design::PosedImager>& views, Sayer& sayer) {
  for (const design::PosedImager& view : views) {
    if (!view.focus) continue;
    const double spot_m = optics::diffractionSpotM(view.focus->f_number, optics::kGreenNm);
    if (spot_m > 2 * view.focus->circle_m)
      sayer.say({"diffraction_limit", Severity::note, {view.imager},
                 Quantity{2e6 * view.focus->circle_m, "um"}, Quantity{1e6 * spot_m, "um"},
                 fmt::format("{}: at {} a point's image is {:.1f} um wide, more than two of its "
                             "pixels: it resolves less than its pixels say.", view.imager,
                             fNumberText(view.focus->f_number), 1e6 * spot_m),
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
                                   const Progress& progress) {
  Sayer sayer;
  const std::vector<design::PosedImager> views = firstAims(design);
  CoverTurns turns;
  for (const design::Situation& situation : design::situationsOf(design)) {
    progress.throwIfCancelled();
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
    const Night night{design, situation, lighting->light, solids, views, sayer, turns, progress};
    night.unstated();
    night.withoutLamp();
    night.sideEffects();
    night.flicker();
    for (Finding& found : unevenFindings(design, situation, place, lighting, progress)) sayer.say(std::move(found));
  }
  apertures(design, sayer);
  lenses(views, sayer);
  motion(design, views, sayer);
  for (Finding& found : coverVeils(design)) sayer.say(std::move(found));
  eyes(design, sayer);
  return std::move(sayer.out);
}

}  // namespace belvedere::proof
