// SPDX-License-Identifier: GPL-3.0-or-later
//
// An eye that goes round a point, for the view of the whole building.
#pragma once

#include "geometry/vec.h"
#include "picture/view.h"

namespace belvedere::picture {

struct OrbitEye {
  Vec3 target_m;               // site; in the middle of the picture
  double bearing_deg = 0;      // in which the eye looks, clockwise from +y
  double elevation_deg = 35;   // of the eye over the target; 90 looks straight down, bearing up
  double distance_m = 30;
  double vfov_deg = 35;
  bool operator==(const OrbitEye&) const = default;
};

View viewOf(const OrbitEye& eye, Size pixels);
// All of the box in the picture, with a little room round it.
OrbitEye framing(const Box3& box, double bearing_deg, double elevation_deg, double vfov_deg,
                 Size pixels);

// Hand movements. Elevation stays between -89 and 90 degrees, distance between 0.1 and 100,000 m.
OrbitEye orbited(OrbitEye eye, double bearing_deg, double elevation_deg);
// The target moves with the hand: by these pixels (right, down) of a picture of that height.
OrbitEye panned(OrbitEye eye, Vec2 by_px, int height_px);
// Distance times the factor (below 1: nearer), while the point `about_m` keeps its place.
OrbitEye dollied(OrbitEye eye, double factor, const Vec3& about_m);

}  // namespace belvedere::picture
