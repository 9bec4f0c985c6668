// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the brief asks of services, judged one by one (handbook 12, 13).
#pragma once

#include <vector>

#include "requirements/requirements.h"

namespace belvedere::requirements {

// Does a requirement ask for anything of services?
bool asksOfServices(const design::Requirement& requirement);

// How long who walks through a zone is in view of it on average, between bounds, s: pi times the area
// that is served over the perimeter of the zone's hull and over the speed. Every straight way through
// the zone counts alike: Cauchy's mean chord, of the part that is served [integral geometry: L. A.
// Santalo, Integral Geometry and Geometric Probability, 1976, I.3].
proof::Bounds secondsInView(const design::Zone& zone, double judged_m2, proof::Bounds share,
                            double speed_mps);

// Of the requirements `only` (empty: all), in the order of the brief.
//   rule       met: it has its imagers, and somebody who walks is in view as long as asked; undecided:
//              a housing that is to run it does not say what it can run, or the search was given up
//   days_kept  of every recorded stream of the imagers that serve it (of every recorded stream where
//              coverage was proven without spots): as scheduled, and as far as disks and cards hold at
//              the high end of the rates; undecided where only the low end fits, where disks or what
//              is recorded are not stated, or where an imager that serves it alone somewhere is not
//              recorded
//   frames     of the streams that serve it; undecided where they are assumed
//   money      the bill of material; undecided where what has a price keeps within it and something
//              has none
//   gap        the longest gap in every situation, as proven (proof/gap.h)
//   seconds    secondsInView in every situation, at the target's speed or kWalkMps
//   zones_lost for each part whose loss the requirement names with zones_lost_max: of all zones whose
//              requirements name one for it, how many fall below what must still hold, in any situation;
//              undecided where it hangs on rows that are undecided or were not proven
//   sizes  null where nothing is asked of services
std::vector<Demand> demandsOf(const design::Design& design, const proof::Proof& proof,
                              const std::vector<Gap>& gaps, const services::Sizes* sizes, const services::Seen& seen,
                              const std::vector<design::RequirementId>& only);

}  // namespace belvedere::requirements
