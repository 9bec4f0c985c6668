// SPDX-License-Identifier: GPL-3.0-or-later
//
// What lies beyond a straight edge of a picture, exactly, for round lenses that are not rectilinear.
//
// On the plane at unit distance before the lens, a direction at rho = tan(theta) lands at
// x = x' / u(rho) in the picture, with u = rho / r(theta). For the radial family with k from -1 up
// to 1, u grows with rho and is convex, so that x' - X u(rho) is concave: the directions beyond an
// edge x = X on its side of the axis are a convex cone, and a plane that touches it leaves the
// others' side inside. (u is (1 + sqrt(1 + rho^2)) / 2F for k = 1/2 and sqrt(1 + rho^2) / F for -1;
// between, its second derivative was looked at numerically.)
#pragma once

#include <optional>

#include "geometry/vec.h"
#include "optics/lens.h"

namespace belvedere::optics {

struct EdgeCone {
  double f_px = 0, k = 0;
  int axis = 0;      // 0: an upright edge, 1: a level one
  double side = 1;   // 1: the picture lies on the lower side of its edge, -1: on the upper
  double limit_px = 0;  // of the edge from the lens's centre, outwards: above 0

  // u at tan(theta): picture plane's tangent units per pixel.
  double tangentPerPx(double rho) const;
  // Above 0 inside of the edge, below 0 beyond it, for a point before the lens (z > 0); pixels
  // times metres, as the planes of a rectilinear frame have it. Exact but for rounding.
  double inside(const Vec3& p) const;
  // The inward normal of a plane through the lens with dot(normal, p) <= inside(p) for every p
  // before the lens, and nearly equal where the edge passes next to `near` (z > 0).
  Vec3 touching(const Vec3& near) const;
};

// Where the radius ends for a direction square to the axis, for k from -1 up to 1.
double radiusAt90Px(const RadialLens& lens);
// Nothing where the cone is not known to be convex: other lenses, or an edge on the far side of
// the axis (of a crop).
std::optional<EdgeCone> edgeCone(const RadialLens& lens, int axis, double side, double edge_px);

}  // namespace belvedere::optics
