// SPDX-License-Identifier: GPL-3.0-or-later
//
// All that burns in one situation, put together from the design: lights, lamps, which imagers are in
// mono and which lamps burn for them; and from it what each imager has to see by (lit.h).
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "design/design.h"
#include "design/resolve.h"
#include "light/lamps.h"
#include "light/lit.h"

namespace belvedere::light {

struct Lighting {
  SituationLight light;
  std::vector<Lamp> lamps;
  std::vector<ImagerState> states;   // of imagers in use, in the order of the file
  std::vector<bool> burns;           // per lamp
  bool coated_glass = false;         // something passes all light but not all infrared
};

// The lighting of a situation. Where the situation names no lights (light.stated is false) it is taken
// to be dark; whether that is meant is for the caller to know.
//   solids  of the situation; may be empty
//   before  what imagers were in, where the level is between those of the switch
//   throws  as lightOf
Lighting lightingOf(const design::Design& design, const design::Situation& situation,
                    const std::filesystem::path& folder, const Solids& solids,
                    const DayNightSwitch& levels = {}, Mode before = Mode::colour);

// The level that an imager meets: the mean illuminance on the faces that its picture shows (up to
// kMeterM away, on a grid of kMeterColumns by kMeterRows sightlines); the ambient level where it
// shows none. Lamps of cameras do not count: they must not switch themselves off.
double meteredLux(const design::PosedImager& imager, const SituationLight& light,
                  const Solids& solids);
inline constexpr int kMeterColumns = 12, kMeterRows = 8;
inline constexpr double kMeterM = 200;

const ImagerState* findState(const Lighting& lighting, const std::string& imager);

// What a view has to see by: its imager's mode, the light that it needs at its aperture (at its zoom)
// and longest exposure, and what burns. `lighting` outlives it.
//   target  what must be seen: of kind floor, light counts on the level
//   wanted  reflectance and contrast, where they are not the statement's
ImagerLight imagerLight(const design::PosedImager& view, const Lighting& lighting,
                        design::TargetKind target, const Exposure& wanted = {});

}  // namespace belvedere::light
