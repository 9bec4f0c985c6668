// SPDX-License-Identifier: GPL-3.0-or-later
//
// View volumes as lines in the site, and lines of the site over a picture, told apart into what is
// seen and what lies behind something.
#pragma once

#include <span>
#include <vector>

#include "picture/picture.h"
#include "picture/renderer.h"

namespace belvedere::picture {

using Line3 = std::vector<Vec3>;  // site

// Edges of what an imager can see: from its lens to the ends of the corners of its frame, and round
// the frame's border at its end. A ray ends where it hits something that blocks light, else at
// range_m. A frame larger than the image circle goes round the circle and has four spokes.
std::vector<Line3> viewVolume(const View& imager, const Subject& subject, double range_m);

// A stretch of a line in the picture's places.
struct LineStretch {
  std::vector<Vec2> places;
  bool hidden = false;    // behind something nearer: dashed
  std::size_t line = 0;   // index of the line it belongs to
};
// Curved where the lens bends it. Parts outside the picture are left out, to within a few pixels.
// The picture's pass tells how finely seen and hidden are told apart.
std::vector<LineStretch> drawnOver(const View& view, const Picture& picture,
                                   std::span<const Line3> lines);

}  // namespace belvedere::picture
