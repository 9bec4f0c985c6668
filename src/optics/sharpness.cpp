// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/sharpness.h"

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

}  // namespace belvedere::optics
