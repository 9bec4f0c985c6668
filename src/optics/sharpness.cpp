// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/sharpness.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace belvedere::optics {

double hyperfocalM(const Focus& focus) {
  return focus.focal_m * focus.focal_m / (focus.f_number * focus.circle_m) + focus.focal_m;
}

namespace {

// How far behind the focal point the image of what lies at a distance is, and back (Newton).
double extensionM(const Focus& focus, double distance_m) {
  return focus.focal_m * focus.focal_m / (distance_m - focus.focal_m);
}
double distanceM(const Focus& focus, double extension_m) {
  return focus.focal_m + focus.focal_m * focus.focal_m / extension_m;
}

}  // namespace

SharpStretch sharpStretch(const Focus& focus, double focused_at_m, double shift_m) {
  // An image at v is |1 - u/v| f/N wide on a sensor at u: v from u/(1 + e) to u/(1 - e), e = N c/f.
  const double at_m = extensionM(focus, focused_at_m) - shift_m;
  const double off_m = focus.f_number * focus.circle_m, e = off_m / focus.focal_m;
  const double most_m = e < 1 ? (at_m + off_m) / (1 - e) : std::numeric_limits<double>::infinity();
  const double least_m = (at_m - off_m) / (1 + e);
  const double rounding_m = 1e-12 * (std::fabs(at_m) + off_m);
  SharpStretch sharp{std::numeric_limits<double>::infinity(), {}};
  if (most_m > rounding_m) sharp.near_m = distanceM(focus, most_m);
  if (least_m > rounding_m) sharp.far_m = distanceM(focus, least_m);
  return sharp;
}

double blurM(const Focus& focus, double focused_at_m, double distance_m, double shift_m) {
  const double image_m = extensionM(focus, distance_m);
  const double sharp_m = extensionM(focus, focused_at_m) - shift_m;
  return focus.focal_m / focus.f_number * std::fabs(image_m - sharp_m) / (focus.focal_m + image_m);
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

double infraredFocusM(const Focus& focus, double focused_at_m, double shift_m) {
  return distanceM(focus, extensionM(focus, focused_at_m) - shift_m);
}

}  // namespace belvedere::optics
