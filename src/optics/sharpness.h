// SPDX-License-Identifier: GPL-3.0-or-later
//
// Depth of field of a thin lens (handbook 8), judged along the optical axis (handbook 19); where to
// focus, what diffraction leaves, and where infrared is sharp.
#pragma once

#include <optional>
#include <span>

#include "geometry/interval.h"
#include "geometry/vec.h"

namespace belvedere::optics {

struct Focus {
  double focal_m = 0;    // > 0
  double f_number = 0;   // > 0
  double circle_m = 0;   // largest blur that counts as sharp; where nobody says, the pixel pitch
};

// f^2/(N c) + f: focused there, everything from half of it on is sharp.
double hyperfocalM(const Focus& focus);

// The sharp stretch of a lens focused at a distance, m from the lens, both > the focal length: near
// H' s/(H + s - 2f), far H' s/(H - s) with H' = H - f. Far is nothing (no end) for s >= H.
// `shift_m`: light whose image lies so much further behind the lens than that by which it was focused
// (infrared). Then the ends are where the image, so moved, is as large as the circle; where it is
// larger everywhere, near is infinite.
struct SharpStretch {
  double near_m = 0;
  std::optional<double> far_m;
};
SharpStretch sharpStretch(const Focus& focus, double focused_at_m, double shift_m = 0);

// Diameter on the sensor of a point's image at a distance along the axis, of a lens focused at
// another; both above the focal length: f^2/N |d - s| / (d (s - f)) without a shift.
double blurM(const Focus& focus, double focused_at_m, double distance_m, double shift_m = 0);

// The focus at which both ends of a stretch are equally sharp, and so the worst of it is sharpest:
// twice the product over the sum; twice the near end where there is no far one.
double bestFocusM(double near_m, std::optional<double> far_m);

// Is what lies between two distances along the axis sharp: all of it, none of it, or some?
enum class Sharp { none, some, all };
Sharp sharpOver(const SharpStretch& sharp, const Interval& depth_m);
// Least and greatest distance along an axis (unit) from the lens, over the hull of some corners.
Interval depthOver(const Vec3& forward, const Vec3& lens_m, std::span<const Vec3> corners_m);

// Diameter of the diffraction disc (Airy, first dark ring): 2.44 lambda N. Beyond two pixels it, not
// the pixels, bounds what is resolved (common practice).
double diffractionSpotM(double f_number, double wave_nm);
inline constexpr double kGreenNm = 550;

// A lens focused by day at s brings infrared to a focus shift_m further behind it (stated by the
// lens; 0 for one that is corrected). The distance at which infrared is sharpest then: negative where
// that lies beyond infinity (of rays that run together, to a point so far behind the lens).
double infraredFocusM(const Focus& focus, double focused_at_m, double shift_m);

}  // namespace belvedere::optics
