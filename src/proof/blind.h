// SPDX-License-Identifier: GPL-3.0-or-later
//
// Blind zones (handbook 7): the connected part of the floor around a camera's foot where a target
// is out of every imager's frame, cut off at walls and slab edge; its curve over mounting height;
// gaps and overlaps of a ring.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/progress.h"
#include "design/resolve.h"
#include "proof/proof.h"

namespace belvedere::proof {

// Of one imager's view over a level floor: the outline on the plane z = plane_z_m of what its
// frame shows, cut at `within` (site). Curved edges are followed to within outline_error_m. Any
// lens, wider than 180 degrees too; a frame may cross the horizon; the plane may lie above the lens
// (within 0.1 mm of its height it is taken as 0.1 mm away).
Region frameOnPlane(const design::PosedImager& view, double plane_z_m, const Region& within,
                    double outline_error_m);

// Of a housing (all its views, slot 0) and, where it has several, of each of its imagers; on
// captured pixels less their margins; target heights above the floor. The foot is below the lens,
// below the middle of the lenses for a housing; where that is in a wall or on a rack, ahead of it
// where the floor begins. The floor is that of the highest storey under the lens whose slab holds
// the foot, less what stands on it; outside of all storeys and on roofs, open ground at z = 0 out
// to 100 m, less the buildings on it. What touches in a corner alone is not connected. Empty for a
// housing without an aim, or without floor.
std::vector<BlindZone> blindZones(const design::Design& design, const design::Housing& housing,
                                  const design::Situation& situation,
                                  const std::vector<double>& target_heights_m);
// The same for many housings, in their order: much quicker than one by one, since floors are made
// once; housings are shared out over threads. An imager's own zone is most of its storey and costs
// as much as a housing's: leave it out where nobody asks.
enum class BlindOf : std::uint8_t { housings, each_imager_too };
std::vector<BlindZone> blindZones(const design::Design& design,
                                  const std::vector<const design::Housing*>& housings,
                                  const design::Situation& situation,
                                  const std::vector<double>& target_heights_m, BlindOf of,
                                  const Progress& progress);

// Area of the housing's blind zone over mounting heights (the lens, or the middle of the lenses,
// moved up and down), on open floor out to `radius_m` around the foot.
struct BlindAt {
  double lens_height_m = 0, area_m2 = 0;
};
std::vector<BlindAt> blindCurve(const design::Design& design, const design::Housing& housing,
                                double target_height_m, const std::vector<double>& lens_heights_m,
                                double radius_m);

// The ring of a housing at depression angles below the horizon, one each, in their order. Arcs run
// clockwise, from in [0, 360); one that passes north has its `to` before its `from`; all round is
// 0 to 360. Gaps are where no imager looks, overlaps where two do (two aims of one imager are
// none). Ends are found to far better than kLeastArcDeg; what is narrower than that is left out.
inline constexpr double kLeastArcDeg = 0.01;
std::vector<RingAt> ringOf(const design::Design& design, const design::Housing& housing,
                           const std::vector<double>& depressions_deg);

// The closed form of handbook 7 on the centre column: nearest and farthest plan distance at which
// a target at target_height_m is in frame; farthest nothing when unbounded. A frame that
// lies wholly above the horizon: infinity and nothing. For a target above the lens, the same
// upwards.
double nearestM(double lens_height_m, double target_height_m, double tilt_deg, double vfov_deg);
std::optional<double> farthestM(double lens_height_m, double target_height_m, double tilt_deg,
                                double vfov_deg);

}  // namespace belvedere::proof
