// SPDX-License-Identifier: GPL-3.0-or-later
//
// Several imagers turned together. These are proposals: locked imagers, and those with several
// aims, stay as they are. Limits hold; what could not be had is said in sentences.
#pragma once

#include "edit/aim.h"

namespace belvedere::edit {

struct Spread {
  design::Design design;
  double missing_deg = 0;         // of the circle: what is left open, or lacks in overlap
  std::vector<std::string> says;  // one sentence each; empty: all as asked
};

// May a proposal turn it?
bool mayTurn(const ImagerParts& parts);

// Spreads the pans of a housing's imagers so that, at an angle below the horizon, their arcs close
// the circle and overlap each other by overlap_deg or more, all joints alike; what is too little is
// shared out alike too. Order on the ring stays; on the whole, they turn as little as can be.
// Between imagers that stay, each stretch is closed by itself.
Spread closeTheCircle(const design::Design& design, const design::HousingId& housing,
                      double depression_deg, double overlap_deg);

// The imagers share the length of a path on the site (a wall's face, a fence) evenly, in the order
// given, from whichever end makes them turn less; each is aimed and zoomed so that its part, from
// low_m to high_m (site z), just fits its frame.
Spread followWall(const design::Design& design, const std::vector<ImagerRef>& imagers,
                  const std::vector<Vec2>& path, double low_m, double high_m);

// Each takes its share of the bearings under which the zone is seen from the lens (from the middle
// of the lenses), those further left the further left part; it is aimed and zoomed so that its part
// lies in the frame, the target's whole band over the zone's floor, with the tightest zoom that
// still holds it. The floor under the lens may be out of any frame: then as much as can be, and it
// is said.
Spread lookAtZone(const design::Design& design, const std::vector<ImagerRef>& imagers,
                  const design::ZoneId& zone, const design::RequirementId& requirement);

// The aim nearest in zoom to the tele end at which all points lie in the frame (captured pixels
// less the margin, and kFitPx more), centred; false beside it when even the wide end does not hold
// them, the aim then as near as it comes.
inline constexpr double kFitPx = 1;
std::pair<design::Aim, bool> aimToHold(const design::Design& design, const ImagerRef& imager,
                                       const std::vector<Vec3>& points);

}  // namespace belvedere::edit
