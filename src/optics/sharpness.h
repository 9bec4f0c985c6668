// SPDX-License-Identifier: GPL-3.0-or-later
//
// Depth of field of a thin lens (handbook 8), judged along the optical axis (handbook 19).
#pragma once

#include <optional>

namespace belvedere::optics {

struct Focus {
  double focal_m = 0;    // > 0
  double f_number = 0;   // > 0
  double circle_m = 0;   // largest blur that counts as sharp; where nobody says, the pixel pitch
};

// f^2/(N c) + f: focused there, everything from half of it on is sharp.
double hyperfocalM(const Focus& focus);

// The sharp stretch for a lens focused at a distance, m from the lens, both > the focal length:
// near H' s/(H + s - 2f), far H' s/(H - s) with H' = H - f. Far is nothing (no end) for s >= H.
struct SharpStretch {
  double near_m = 0;
  std::optional<double> far_m;
};
SharpStretch sharpStretch(const Focus& focus, double focused_at_m);

}  // namespace belvedere::optics
