// SPDX-License-Identifier: GPL-3.0-or-later
//
// From what is written about a camera to imagers that stand in the site: lens point, rotation,
// lens at its zoom, and the picture (whole, cropped, scaled, unrolled) on which it is judged.
// Housing frame to site frame: docs/format.md, "Frames".
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "design/view_span.h"
#include "geometry/polygon.h"
#include "optics/lens.h"
#include "optics/lens_fit.h"
#include "optics/sharpness.h"

namespace belvedere::design {

// A part of what an imager captures on which it may be judged (see posedImagers), as a PosedImager
// has it.
struct JudgedPicture {
  JudgedOn judged_on = JudgedOn::captured;
  Vec2 frame_low_px, frame_high_px;
  double scale_x = 1, scale_y = 1;
  std::optional<double> px_per_rad;
};

// One way in which one imager looks: an imager with several aims, or judged on several streams,
// gives several; `imager` tells which belong together.
struct PosedImager {
  HousingId housing;
  int slot = 1;
  std::string imager;              // "C1.2"
  std::string name;                // "C1.2", or "C1.2 aim 3" where there are several
  std::size_t aim = 0;             // index into the imager's aims
  double time_share = 1;
  bool remote = false;             // aim and zoom can be set from afar (the model says so)
  Vec3 lens_m;                     // site
  Mat3 imager_from_site;
  optics::Lens lens;
  std::array<int, 2> pixels{};     // captured
  double hfov_deg = 0, vfov_deg = 0;
  std::optional<double> focal_mm;
  double housing_pan_deg = 0, housing_tilt_deg = 0;  // the aim in the housing's frame
  Delivered delivered;
  std::vector<Ring> masks_px;      // captured pixels
  // the judged picture: what of the captured picture it shows (margins taken off), and its pixels
  // over captured pixels along x and y
  Vec2 frame_low_px, frame_high_px;
  // False where the margins leave nothing of it: every spot is out of frame then.
  bool showsAnything() const {
    return frame_low_px.x < frame_high_px.x && frame_low_px.y < frame_high_px.y;
  }
  double scale_x = 1, scale_y = 1;
  std::optional<double> px_per_rad;  // an unrolled or stitched view: density is at most this
                                     // over the horizontal distance
  std::optional<ViewSpan> span;    // of such a view, where it is stated: what it shows at most
  std::string stream;              // id of the stream judged on, "" for captured
  std::vector<JudgedPicture> pictures;  // all on which this aim may be judged, whichever this one is
  // how it is set, and what its data sheet says of light
  ImagerMode mode = ImagerMode::by_light;
  std::optional<optics::Focus> focus;      // aperture, focal length, pixel pitch, where stated
  std::optional<double> f_number, focused_at_m, exposure_s, infrared_shift_m;
  std::optional<double> widest_f_number;   // widestFNumber at its zoom; f_number is never below it
  // How many times the light it asks for that it would need with its lens wide open.
  double stoppedDown() const {
    if (!f_number) return 1;
    constexpr double kWidestSold = 1;  // where nothing is stated: hardly a lens opens wider (common practice, no source)
    const double stops = *f_number / widest_f_number.value_or(std::min(kWidestSold, *f_number));
    return stops * stops;
  }
  std::optional<LeastLight> least_light;
};

// All imagers of housings that are existing or new, in the order of the file; those without an aim
// are left out.
//   judged_on  captured: the sensor's pixels. recorded: each of the housing's streams whose use
//              names "recorded" and that comes from the imager; captured where there is none.
//              viewed: each screen's tile over its stream, the stream shown whole and in its own
//              shape, never denser than the stream; as recorded where no screen shows the imager
//   throws     InputError for a model or lens that cannot be resolved (a checked design never does)
std::vector<PosedImager> posedImagers(const Design& design, JudgedOn judged_on);
// The same for one housing, which may be a changed copy of one of the design's.
std::vector<PosedImager> posedImagersOf(const Design& design, const Housing& housing,
                                        JudgedOn judged_on);

// Rotation whose rows are the imager's right, down and forward axes in the site frame.
Mat3 imagerFromSite(double pan_deg, double tilt_deg, double roll_deg);

// The aim in the housing's frame (pan from its zero clockwise seen from above its base, tilt below
// its base plane) of an aim in the site's frame, and back; degrees, pan in (-180, 180]. Where the
// axis is square to the base plane, pan is 0.
struct PanTilt {
  double pan_deg = 0, tilt_deg = 0;
};
PanTilt housingFromSite(const Mount& mount, PanTilt aim_in_site);
PanTilt siteFromHousing(const Mount& mount, PanTilt aim_in_housing);

// Where the lens stands (site): fixing point, the mount's reach along the base bearing and drop,
// and the imager's offset, which turns with its pan. mount_model: null for none.
Vec3 lensPoint(const Mount& mount, const Model* mount_model, const ModelImager& imager,
               PanTilt aim_in_housing);

// The lens of a data sheet at a zoom, see optics/lens_fit.h; a varifocal lens whose aim states
// neither field nor focal length is at its wide end. Family: the stated one; where none is,
// rectilinear when one field of view is stated, fitted when more are. Without any field of view,
// focal length over pixel pitch is F. Throws InputError if it cannot be.
optics::Lens lensAt(const ModelImager& imager, const Aim& aim);

// What the data sheet gives: one fit for a fixed lens, two for a varifocal one (wide, tele), with
// the residual of each stated field; none for a calibrated lens. Throws like lensAt.
std::vector<optics::LensFit> lensFits(const ModelImager& imager);
// The zoom of a varifocal lens; nothing for any other. Throws like lensAt.
std::optional<optics::Zoom> zoomOf(const ModelImager& imager);

}  // namespace belvedere::design
