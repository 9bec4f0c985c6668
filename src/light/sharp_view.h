// SPDX-License-Identifier: GPL-3.0-or-later
//
// How sharp one view is: its focus, stated or chosen for what it must show, and the stretch of its
// axis within which nothing is blurred by more than a pixel. What the judge asks for `unsharp`, with
// sharpOver of optics/sharpness.h.
#pragma once

#include <optional>
#include <span>

#include "design/design.h"
#include "design/resolve.h"
#include "light/lamps.h"
#include "optics/sharpness.h"

namespace belvedere::light {

struct SharpView {
  optics::Focus focus;              // focal length, F-number, largest blur (the pixel pitch)
  double focused_at_m = 0;          // by day: what the installer sets
  bool chosen = false;              // no distance is stated: this one serves the targets best
  double sharp_at_m = 0;            // where the focus lies in this mode; infinity where nowhere
  optics::SharpStretch stretch;     // in this mode; begins at infinity where nothing is sharp
  double diffraction_m = 0;         // disc of a point; see diffractionSpotM
  bool sharp(double depth_m) const {  // at a distance along the axis
    return depth_m >= stretch.near_m && (!stretch.far_m || depth_m <= *stretch.far_m);
  }
};

// The sharpness of a view. Nothing where the model does not say enough: F-number, pixel pitch and a
// focal length (or a lens that gives one). A design that states no focus distance is taken to be
// focused where the worse end of its targets is sharpest, no farther than the hyperfocal distance and
// no nearer than kNearestFocusM; at the hyperfocal distance where it has no targets.
//   targets    corners (site) of a hull of what it must show, as far as that is in its frame; may be
//              empty
//   infrared   the picture is made by infrared: the lens's stated shift counts, if it states one
std::optional<SharpView> sharpView(const design::Design& design, const design::PosedImager& view,
                                   std::span<const Vec3> targets, bool infrared);
inline constexpr double kNearestFocusM = 0.3;  // common practice, no source

}  // namespace belvedere::light
