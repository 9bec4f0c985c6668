// SPDX-License-Identifier: GPL-3.0-or-later
//
// Blind zones (handbook 7): the connected part of the floor around a camera's foot where a target
// is out of every imager's frame, cut off at walls and slab edge; its curve over mounting height;
// gaps and overlaps of a ring.
#pragma once

#include "design/resolve.h"
#include "proof/proof.h"

namespace belvedere::proof {

// Of one imager's view over a level floor: the outline on the plane z = plane_z_m of what its
// frame shows, cut at `within` (site). Curved edges are followed to within outline_error_m.
Region frameOnPlane(const design::PosedImager& view, double plane_z_m, const Region& within,
                    double outline_error_m);

// Of a housing (all its views) and of each of its imagers; target heights above the storey's floor.
std::vector<BlindZone> blindZones(const design::Design& design, const design::Housing& housing,
                                  const design::Situation& situation,
                                  const std::vector<double>& target_heights_m);

// Area of the housing's blind zone over mounting heights (the lens moved up and down), on open
// floor out to `radius_m`.
struct BlindAt {
  double lens_height_m = 0, area_m2 = 0;
};
std::vector<BlindAt> blindCurve(const design::Design& design, const design::Housing& housing,
                                double target_height_m, const std::vector<double>& lens_heights_m,
                                double radius_m);

// The ring of a housing at depression angles below the horizon.
std::vector<RingAt> ringOf(const design::Design& design, const design::Housing& housing,
                           const std::vector<double>& depressions_deg);

// The closed form of handbook 7 on the centre column: nearest and farthest plan distance at which
// a target at target_height_m is in frame; farthest nothing when unbounded.
double nearestM(double lens_height_m, double target_height_m, double tilt_deg, double vfov_deg);
std::optional<double> farthestM(double lens_height_m, double target_height_m, double tilt_deg,
                                double vfov_deg);

}  // namespace belvedere::proof
