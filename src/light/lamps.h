// SPDX-License-Identifier: GPL-3.0-or-later
//
// Lamps of cameras and lamps that stand alone (a housing of a model without imagers): infrared or
// white, known by a stated range and a beam (handbook 9). What one gives is told as a share of what
// is enough: 1 at its range on its axis, (R/d)^2 beam(theta) elsewhere, on a face turned to it.
//
// Who burns: the lamps of a housing run as a group (any of its imagers in the dark lights all of
// them) unless a lamp follows one imager. An imager in colour has its infrared filter in and gains
// nothing from an infrared lamp, its own or another's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "light/illuminance.h"

namespace belvedere::light {

// A wavelength from here on is infrared: a colour imager's filter stops it. Common practice; the
// standards begin infrared at 780 nm, and lamps of 730 nm still glow.
inline constexpr double kInfraredFromNm = 700;

struct Lamp {
  design::HousingId housing;
  int slot = 1;
  std::string name;              // "C1 lamp 2"
  Vec3 at_m;                     // site: at its offset from the housing's origin, or from the lens of
                                 // the imager it turns with
  Vec3 axis;                     // unit, site
  double half_beam_rad = 0;      // axis to the half-power direction, above 0
  double range_m = 0;
  double wave_nm = 850;
  std::optional<double> intensity_w_per_sr;
  std::optional<int> follows;    // imager slot when paired
  bool alone = false;            // of a housing without imagers in use
  std::size_t moved = 0;         // in a later aim of the imager that carries it: a number of its own, from 1
  bool infrared() const { return wave_nm >= kInfraredFromNm; }
  scene::Band band() const { return infrared() ? scene::Band::infrared : scene::Band::light; }
};
// The lamps in use of all housings that are existing or new, in the order of the file; one that follows
// imager 0 stays off.
std::vector<Lamp> lampsOf(const design::Design& design);
std::vector<Lamp> lampsOf(const design::Design& design, const design::Housing& housing);

// 0.5^((theta / half)^2): one on the axis, one half at half the stated full angle (handbook 19).
double beamShare(double theta_rad, double half_beam_rad);
// (R/d)^2 beam(theta), nothing between considered. At the lamp itself: no end, infinity.
double shareFrom(const Lamp& lamp, const Vec3& at_m);

// ---- day and night ------------------------------------------------------------------------------
enum class Mode { colour, mono };

// An imager left to itself goes to mono below the one level and back to colour above the other; in
// between it stays as it was. Common practice, no source: makers set it anywhere from 0.5 to 10 lx.
struct DayNightSwitch {
  double to_mono_below_lux = 2;
  double to_colour_above_lux = 6;
  bool operator==(const DayNightSwitch&) const = default;
};
Mode modeUnder(design::ImagerMode setting, double lux, const DayNightSwitch& levels,
               Mode before = Mode::colour);

struct ImagerState {
  std::string imager;            // "C1.2"
  design::HousingId housing;
  int slot = 1;
  double lux = 0;                // that it meets
  Mode mode = Mode::colour;
  bool calls = false;            // for light: dark to it, or set to mono for good
};
// The state of every imager in use. `lux_of`: of each, in the order in which this lists them (as
// posedImagers does, once an imager); one value where all meet the same.
std::vector<ImagerState> imagerStates(const design::Design& design, const std::vector<double>& lux_of,
                                      const DayNightSwitch& levels = {}, Mode before = Mode::colour);

// Per lamp: does it burn? One that stands alone burns where its own cell sees less than
// `alone_lux` against the same levels.
std::vector<bool> burning(const std::vector<Lamp>& lamps, const std::vector<ImagerState>& states,
                          double alone_lux, const DayNightSwitch& levels = {});

// ---- what it comes to ---------------------------------------------------------------------------
// Sum of the shares of the burning lamps at a point, less what stands between; infrared lamps count
// for an imager in mono only.
double lampLightAt(const std::vector<Lamp>& lamps, const std::vector<bool>& burns, Mode mode,
                   const Solids& solids, const Vec3& at_m);

}  // namespace belvedere::light
