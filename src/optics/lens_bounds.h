// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where all points of a box land in the picture, and how dense the picture is there: project()
// and its Jacobian lifted from a point to a box. The picture coordinates come as a linear form
// over the box with an error that shrinks with the square of its size (mean value form: the value
// at the centre plus an enclosure of the gradient over the box).
//
// For the radial family and Kannala-Brandt the gradient follows from three scales of the lens over
// the box's range of angles: along the radius r'(theta), across it r/sin(theta), and r' sin(theta);
// for Brown-Conrady from interval arithmetic on x/z and y/z.
#pragma once

#include <array>

#include "geometry/interval.h"
#include "geometry/vec.h"
#include "optics/lens.h"

namespace belvedere::optics {

// Points centre + s0 half[0] + s1 half[1] + s2 half[2] with every |s| <= 1; imager frame, metres.
struct BoxInImager {
  Vec3 centre;
  std::array<Vec3, 3> half;
};

// value + slope . s, give or take error, for s in the box's cube.
struct LinearBound {
  double value = 0;
  std::array<double, 3> slope{};
  double error = 0;
  double low() const;
  double high() const;
  // over the face of the box where s2 = side (-1 or 1)
  double lowAt(double side) const;
  double highAt(double side) const;
};

enum class Maps { nowhere, unknown, everywhere };  // does the lens map the points of the box?

struct PictureBounds {
  Maps maps = Maps::unknown;         // the rest holds only where `everywhere`
  LinearBound x_px, y_px;
  // Enclosure of the Jacobian (pixels per metre) in a frame turned about the axis by `turn`
  // (unit vector): rows along and across `turn` in the picture, columns along turn, across, forward.
  Vec2 turn{1, 0};
  std::array<std::array<Interval, 3>, 2> px_per_m;
};
PictureBounds pictureBounds(const Lens& lens, const BoxInImager& box);

// Enclosure of density in pixels per metre along the unit directions t0 cos(g) + t1 sin(g),
// |g| <= the angle whose cosine and sine are given (imager frame); scale_x, scale_y: pixels of the
// judged picture over captured ones.
Interval densityBounds(const PictureBounds& bounds, const Vec3& t0, const Vec3& t1, double cos_most,
                       double sin_most, double scale_x, double scale_y);

}  // namespace belvedere::optics
