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

// The lamps of the whole design, as they stand while an imager that carries some of them is in one of
// its later aims.
struct LampsInAim {
  design::HousingId housing;
  int slot = 1;
  std::size_t aim = 1;
  std::vector<Lamp> lamps;           // same order as in the first aims
};

struct Lighting {
  SituationLight light;
  std::vector<Lamp> lamps;           // those that imagers carry as in their first aims
  std::vector<LampsInAim> in_aims;   // of imagers with several aims that carry lamps
  std::size_t moved_lamps = 0;       // the greatest Lamp::moved of them
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

// The lamps as they stand while a view is looked through: what its imager carries turns with its aim.
const std::vector<Lamp>& lampsDuring(const design::PosedImager& view, const Lighting& lighting);

// The entries of Lighting::in_aims for these housings of a design.
//   lamps  of the whole design, in the first aims
std::vector<LampsInAim> lampsInAims(const design::Design& design,
                                    const std::vector<design::Housing>& housings,
                                    const std::vector<Lamp>& lamps);
// Tells lamps that moved from where they stand in the first aims by numbers.
void numberMoved(Lighting& lighting);
// The same lamps with those of one housing in place of what they were: in the order of the file.
std::vector<Lamp> withLampsOf(std::vector<Lamp> lamps, const design::HousingId& housing,
                              const std::vector<Lamp>& own);

// What a view has to see by: its imager's mode, the light that it needs at its aperture (at its zoom)
// and longest exposure, and what burns, as it stands in the view's aim. `lighting` outlives it.
//   target  what must be seen: of kind floor, light counts on the level
//   wanted  reflectance and contrast, where they are not the statement's
ImagerLight imagerLight(const design::PosedImager& view, const Lighting& lighting,
                        design::TargetKind target, const Exposure& wanted = {});

}  // namespace belvedere::light
