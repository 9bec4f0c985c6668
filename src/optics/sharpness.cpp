// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/sharpness.h"

#include <algorithm>
#include <cmath>

namespace belvedere::optics {

double hyperfocalM(const Focus& focus) {
  return focus.focal_m * focus.focal_m / (focus.f_number * focus.circle_m) + focus.focal_m;
}

SharpStretch sharpStretch(const Focus& focus, double focused_at_m) {
  const double h = hyperfocalM(focus), f = focus.focal_m, s = focused_at_m;
  SharpStretch sharp{s * (h - f) / (h + s - 2 * f), {}};
  if (s < h) sharp.far_m = s * (h - f) / (h - s);
  return sharp;
}

double blurM(const Focus& focus, double focused_at_m, double distance_m) {
  const double f = focus.focal_m, s = focused_at_m;
  return f * f / focus.f_number * std::fabs(distance_m - s) / (distance_m * (s - f));
}

double bestFocusM(double near_m, std::optional<double> far_m) {
  return far_m ? 2 * near_m * *far_m / (near_m + *far_m) : 2 * near_m;
}

Sharp sharpOver(const SharpStretch& sharp, const Interval& depth_m) {
  // What lies in or behind the lens is not sharp; rounding must not make it so.
  const double slack = kIntervalGuard * depth_m.magnitude();
  const bool beyond = sharp.far_m && depth_m.low - slack > *sharp.far_m;
  if (beyond || depth_m.high + slack < sharp.near_m) return Sharp::none;
  const bool within = !sharp.far_m || depth_m.high + slack <= *sharp.far_m;
  return within && depth_m.low - slack >= sharp.near_m ? Sharp::all : Sharp::some;
}

Interval depthOver(const Vec3& forward, const Vec3& lens_m, std::span<const Vec3> corners_m) {
  Interval depth{1e300, -1e300};
  for (const Vec3& corner : corners_m) {
    const double d = dot(forward, corner - lens_m);
    depth = {std::min(depth.low, d), std::max(depth.high, d)};
  }
  return depth;
}

double diffractionSpotM(double f_number, double wave_nm) { return 2.44 * wave_nm * 1e-9 * f_number; }

std::optional<double> infraredFocusM(const Focus& focus, double focused_at_m, double shift_m) {
  const double f = focus.focal_m;
  const double image_m = f * focused_at_m / (focused_at_m - f) - shift_m;
  if (image_m <= f) return {};
  return f * image_m / (image_m - f);
}

}  // namespace belvedere::optics
