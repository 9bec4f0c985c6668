// SPDX-License-Identifier: GPL-3.0-or-later
//
// Quick answers for one imager over an open level floor, without a building: where on the floor
// a target is seen whole and densely enough, and where not at all (handbook 7). All along the
// picture's middle column: elsewhere the frame's edges run otherwise, and the proof tells.
#pragma once

#include <array>
#include <optional>

#include "optics/lens.h"

namespace belvedere::optics {

// An imager at a height over the floor, its axis tilted below the horizontal, no roll.
struct Lookout {
  Lens lens;
  std::array<int, 2> pixels{};
  double height_m = 0;
  double tilt_deg = 0;
};

// Plan distances from the lens, m, along the picture's middle column, ahead of the lens.
struct SeenStretch {
  double from_m = 0;
  std::optional<double> to_m;  // nothing: without end
};
// Where a point at a height over the floor is in the frame. Nothing where it never is. For a
// point below the lens: (h-p)/tan(t+v/2) to (h-p)/tan(t-v/2), from 0 where t+v/2 >= 90 deg,
// without end where t <= v/2.
std::optional<SeenStretch> inFrame(const Lookout& lookout, double target_height_m);
// Where the whole band of heights is in the frame.
std::optional<SeenStretch> inFrame(const Lookout& lookout, std::array<double, 2> band_m);

// Where the whole band is in the frame and its density across at least px_per_m: the farthest such
// stretch, to_m always given. Nothing where there is none. Ends within kStretchErrorM; the band is
// judged at both ends and evenly between, kBandSteps in all.
std::optional<SeenStretch> denseInFrame(const Lookout& lookout, std::array<double, 2> band_m,
                                        double px_per_m);
inline constexpr double kStretchErrorM = 1e-9;
inline constexpr int kBandSteps = 9;

// Length of the axis from the lens to the floor, m; nothing for a level or rising axis.
std::optional<double> axisToFloorM(const Lookout& lookout);

}  // namespace belvedere::optics
