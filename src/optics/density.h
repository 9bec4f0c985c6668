// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pixel density (handbook 4): pixels per metre at a target, across (along its horizontal tangent)
// and upright, from the projection's Jacobian; and what a density means in the trade: task
// distances, width of the picture, share of its height.
//
// Density belongs to a stream: give the stream's pixels over captured pixels as `scale`, {1, 1}
// for captured. Pixels are not resolved detail: multiply by deliveredFactor where it is stated.
#pragma once

#include <array>
#include <optional>

#include "geometry/vec.h"
#include "optics/lens.h"

namespace belvedere::optics {

struct Density {
  Vec2 at_px;                   // where the target lies in the captured picture
  double across_px_per_m = 0;   // |J t|, t the unit horizontal perpendicular to the sightline
  double upright_px_per_m = 0;  // |J z|, z up: foreshortened by the elevation
};
// At a target point, seen from a lens point (both in the site's frame). Straight below or above the
// lens, where the horizontal tangent is undefined, t is the picture's right or down, whichever is
// nearer to level, laid level (handbook 19).
// Nothing where the lens does not map the target.
std::optional<Density> densityAt(const Lens& lens, const Mat3& imager_from_site, const Vec3& lens_m,
                                 const Vec3& target_m, Vec2 scale = {1, 1});

// The unit horizontal tangent of a target, `sight` from lens to target in the site's frame.
Vec3 horizontalTangent(const Mat3& imager_from_site, const Vec3& sight);

// Resolved over pixel density at a place in the captured picture: linear in the distance from the
// picture's middle, from `centre` there to `corner` in the corners (IEC 62676-5 states resolution
// at both; that it is linear between is our assumption).
double deliveredFactor(double centre, double corner, std::array<int, 2> pixels, Vec2 at_px);

// Of an unrolled or stitched view: pixels a radian of bearing over the horizontal distance.
double unrolledDensity(double px_per_rad, double horizontal_distance_m);

// Slant distance on the axis at which a picture `width_px` wide has a density, m, as data sheets of
// wide lenses reckon (arc, not chord: width / (HFOV in radians * density)) and by the rectilinear
// form (width / (2 tan(HFOV/2) * density); 0 from 180 deg).
double equidistantReachM(double width_px, double hfov_deg, double px_per_m);
double rectilinearReachM(double width_px, double hfov_deg, double px_per_m);

// What the picture shows across, at a slant distance on the axis, m: along the arc, and on a flat
// wall square to the axis (nothing from 180 deg).
double pictureWidthArcM(double hfov_deg, double distance_m);
std::optional<double> pictureWidthFlatM(double hfov_deg, double distance_m);

}  // namespace belvedere::optics
