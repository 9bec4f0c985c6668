// SPDX-License-Identifier: GPL-3.0-or-later
//
// What light and sharpness a question's views find in its situation: what the judge's tests `unsharp`
// and `too_dark` ask (handbook 8, 9).
//
// Light is judged where the situation names lights and the data sheet says how much the imager needs
// (with F-number and exposure time), or where lamps light the scene for an imager in mono. Sharpness
// is judged where focal length, F-number and pixel pitch are known.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "design/design.h"
#include "design/resolve.h"
#include "light/lighting.h"
#include "optics/sharpness.h"
#include "scene/scene.h"

namespace belvedere::proof {

struct Place;

// What imagers may be focused for: a zone of the brief with its target's band above what it lies on,
// and the density that is asked for on which pictures.
struct FocusTarget {
  Region zone;
  scene::Floor floor;
  double low_m = 0, high_m = 0;  // above it
  double needed_px_per_m = 0;
  design::JudgedOn judged_on = design::JudgedOn::captured;
};
std::vector<FocusTarget> focusTargets(const design::Design& design, const scene::Scene& scene);

// Where an imager is focused in one of its aims: as the aim says; else where the stretch of targets
// that it can serve (in the frame of a picture on which they are judged, dense enough, by points of
// their zones) is sharpest as a whole; else, with none, and for short lenses whose hyperfocal
// distance is below kShortHyperfocalM, at that distance. A lens has one focus: it is the same
// whichever of its pictures the view is. Nothing where its lens is not known well enough.
struct FocusChoice {
  double at_m = 0;                              // by day: what the installer sets
  bool stated = false;
  optics::SharpStretch sharp;                   // begins at infinity where nothing is sharp
  std::optional<double> for_near_m, for_far_m;  // the stretch it was chosen for
};
inline constexpr double kShortHyperfocalM = 3;
//   infrared  the picture is made by infrared: the shift counts that the lens states
std::optional<FocusChoice> focusChoice(const design::PosedImager& view,
                                       const std::vector<FocusTarget>& targets,
                                       bool infrared = false);

// What all views of a situation's questions share.
struct Lighting {
  light::Lighting light;
  std::vector<FocusTarget> targets;
};
// Throws InputError for photometry that cannot be read.
std::shared_ptr<const Lighting> makeLighting(const design::Design& design,
                                             const design::Situation& situation, const Place& place,
                                             const std::filesystem::path& folder);

// Of an imager whose data sheet does not say what light it needs: in mono, with lamps of its own, lit or
// not, or others that burn. A lamp's range says by itself how far it is enough; what else there is of
// light counts nothing then.
bool judgedByLampsAlone(const design::PosedImager& view, const light::Lighting& lighting);
// In mono, with infrared lamps about.
bool seesByInfrared(const design::PosedImager& view, const Lighting& lighting);

// Per view of a question.
struct Conditions {
  std::optional<optics::SharpStretch> sharp;    // nothing: not judged
  std::optional<light::ImagerLight> light;      // nothing: not judged
  bool by_lamps_alone = false;                  // see judgedByLampsAlone
};
// The lighting outlives what comes back.
Conditions conditionsOf(const design::PosedImager& view, const Lighting& lighting,
                        design::TargetKind target);
// Numbers that are equal only where all that hangs on them is equal (solids apart).
std::vector<double> keyOf(const Conditions& conditions);

}  // namespace belvedere::proof
