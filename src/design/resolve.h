// SPDX-License-Identifier: GPL-3.0-or-later
//
// From what is written about a camera to imagers that stand in the site: lens point, rotation,
// lens at its zoom, and the picture (whole, cropped, scaled, unrolled) on which it is judged.
// Housing frame to site frame: docs/format.md, "Frames".
#pragma once

#include <string>
#include <vector>

#include "design/design.h"
#include "geometry/polygon.h"
#include "optics/lens.h"

namespace belvedere::design {

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
  double scale_x = 1, scale_y = 1;
  std::optional<double> px_per_rad;  // an unrolled or stitched view: density is at most this
                                     // over the horizontal distance
  std::string stream;              // id of the stream judged on, "" for captured
};

// All imagers of housings that are existing or new, in the order of the file.
// Throws InputError for a model or lens that cannot be resolved (a checked design never does).
std::vector<PosedImager> posedImagers(const Design& design, JudgedOn judged_on);

// Rotation whose rows are the imager's right, down and forward axes in the site frame.
Mat3 imagerFromSite(double pan_deg, double tilt_deg, double roll_deg);

// The aim in the housing's frame (pan from its zero clockwise seen from above its base, tilt below
// its base plane) of an aim in the site's frame, and back; degrees, pan in (-180, 180].
struct PanTilt {
  double pan_deg = 0, tilt_deg = 0;
};
PanTilt housingFromSite(const Mount& mount, PanTilt aim_in_site);
PanTilt siteFromHousing(const Mount& mount, PanTilt aim_in_housing);

// Where the lens stands (site): fixing point, the mount's reach and drop, the imager's offset.
Vec3 lensPoint(const Mount& mount, const Model* mount_model, const ModelImager& imager,
               PanTilt aim_in_housing);

// The lens of a data sheet at a zoom, see optics/lens_fit.h. Throws InputError if it cannot be.
optics::Lens lensAt(const ModelImager& imager, const Aim& aim);

}  // namespace belvedere::design
