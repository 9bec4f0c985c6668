// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the brief asks of services, judged one by one (handbook 12, 13).
#pragma once

#include <vector>

#include "requirements/requirements.h"

namespace belvedere::requirements {

// Does a requirement ask for anything but coverage?
bool asksOfServices(const design::Requirement& requirement);

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
std::vector<Demand> demandsOf(const design::Design& design, const proof::Proof& proof,
                              const services::Sizes& sizes, const services::Seen& seen,
                              const std::vector<design::RequirementId>& only);

}  // namespace belvedere::requirements
