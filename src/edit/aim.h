// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where imagers look, set by hand: the limits of a model as it hangs, and aims that keep them. All
// functions give a changed copy. Who names a housing, slot or aim that is not there gets the
// design back as it was, at a stop that says so. `locked` binds proposals (aim_group.h), no hand.
#pragma once

#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "design/design.h"
#include "design/resolve.h"

namespace belvedere::edit {

// One aim of one imager.
struct ImagerRef {
  design::HousingId housing;
  int slot = 1;
  std::size_t aim = 0;
  auto operator<=>(const ImagerRef&) const = default;
};

struct Aimed {
  design::Design design;
  bool at_stop = false;  // something did not go as far as was asked
  std::string stop;      // what, in a sentence: "C1.2 is at its pan stop, 95 deg"
};

// What an aim may be, in the site's frame. Arcs run clockwise from [0] to [1], 0 <= [0] < 360,
// [1] <= [0] + 360; all round is one arc of 360. On a level base they are the model's own, turned
// by the base bearing: exact. On a leaning base pan and tilt hang together: arcs are found to
// kLimitDeg, those narrower than a quarter of a degree may be missed, and roll is free.
inline constexpr double kLimitDeg = 1e-6;
struct AimLimits {
  std::vector<design::Range> pan_deg;      // bearings between the stops, at the present tilt
  std::optional<design::Range> ring_deg;   // the arc around the present pan that the neighbours on
                                           // its ring leave free; absent: no ring, or no neighbour
  std::vector<design::Range> tilt_deg;     // tilts between the stops, at the present pan, rising
  design::Range roll_deg{0, 0};
  std::optional<design::Range> hfov_deg;   // least, most; absent: a fixed lens
  std::optional<design::Range> focal_mm;   // least, most; absent: fixed, or none stated
};
// Nothing when the imager or its model is not there.
std::optional<AimLimits> limitsOf(const design::Design& design, const ImagerRef& imager);

// The aim, brought within the model's limits: pan and tilt each in the housing's frame, roll on a
// level base, zoom to the nearer end of its range, a fixed lens's zoom left out. On a ring (a
// shared rule apart_deg) an imager with a single aim stops where its neighbour begins: it cannot
// pass. Pan is stored in [0, 360).
Aimed withAim(const design::Design& design, const ImagerRef& imager, const design::Aim& aim);
// Several at once, which may pass each other: ring neighbours that would come too close are both
// moved out.
Aimed withAims(const design::Design& design,
               const std::vector<std::pair<ImagerRef, design::Aim>>& aims);

// Typed numbers; the rest of the aim stays. A zoom that is given replaces the other way of stating.
Aimed withPan(const design::Design& design, const ImagerRef& imager, double pan_deg);
Aimed withTilt(const design::Design& design, const ImagerRef& imager, double tilt_deg);
Aimed withRoll(const design::Design& design, const ImagerRef& imager, double roll_deg);
Aimed withHfov(const design::Design& design, const ImagerRef& imager, double hfov_deg);
Aimed withFocal(const design::Design& design, const ImagerRef& imager, double focal_mm);
// How its picture is taken; nothing: as the program (focus) or the camera (exposure) chooses, the lens
// wide open. Brought within what a design file may say: focus 0.05 to 100 000 m, exposure 1 us to 60 s;
// an aperture from as wide as the lens opens at its zoom to f/64.
Aimed withFocus(const design::Design& design, const ImagerRef& imager,
                std::optional<double> focus_m);
Aimed withExposure(const design::Design& design, const ImagerRef& imager,
                   std::optional<double> exposure_s);
Aimed withAperture(const design::Design& design, const ImagerRef& imager,
                   std::optional<double> f_number);

// Several stored aims of one imager, of which each holds a share of the time. Another is put after
// this one, like it, and takes half of its share; taken away, its share goes to the one before it.
// The only one stays.
Aimed withAnotherAim(const design::Design& design, const ImagerRef& imager);
Aimed withoutAim(const design::Design& design, const ImagerRef& imager);

// Turning the base of a housing. `turn_along`: its imagers turn with it, as a hand turns a head
// (exactly by the same angle on a level base); `stay`: they keep looking where they looked, as far
// as the limits go.
enum class Aims { turn_along, stay };
Aimed withBaseBearing(const design::Design& design, const design::HousingId& housing,
                      double bearing_deg, Aims aims);
Aimed withBaseTilt(const design::Design& design, const design::HousingId& housing, double tilt_deg,
                   Aims aims);

// ---- for the other files of this room -----------------------------------------------------------

// An imager with everything that is known of it; pointers are into the design.
struct ImagerParts {
  const design::Housing* housing = nullptr;
  const design::HousingImager* written = nullptr;
  const design::Aim* aim = nullptr;
  const design::Model* model = nullptr;
  const design::Model* mount_model = nullptr;  // null: none
  const design::ModelImager* imager = nullptr;
};
std::optional<ImagerParts> partsOf(const design::Design& design, const ImagerRef& imager);
// Its name: "C1.2".
std::string nameOf(const ImagerRef& imager);
// The imager as posed: the first of its pictures under judged_on. Nothing where it has none.
std::optional<design::PosedImager> posedOf(const design::Design& design, const ImagerRef& imager,
                                           design::JudgedOn judged_on);
// The aim within the stops, the ring left aside; `stop` gets what was held, if not null.
design::Aim withinStops(const ImagerParts& parts, const std::string& name, design::Aim aim,
                        std::string* stop);
// Angles that a drag gives are rounded to this, and so is a focal length in mm: less than a tenth
// of a pixel of any lens in use, and a file that can be read.
inline constexpr double kDragStep = 1e-4;
design::Aim roundedAim(design::Aim aim);
// The aim at a share of the zoom range (0 wide, 1 tele), stated the way it was stated before.
design::Aim atZoomShare(const design::ModelImager& imager, const optics::Zoom& zoom,
                        design::Aim aim, double share);

}  // namespace belvedere::edit
