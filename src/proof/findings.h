// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a proof, and the design it is about, has to be told about: each finding with a code that
// docs/findings.md explains. Computes nothing new.
#pragma once

#include <vector>

#include "base/finding.h"
#include "design/design.h"
#include "proof/proof.h"

namespace belvedere::proof {

// Of the design alone: a brief, a zone or a loss that is never judged, a face zone without a facing
// direction, a scale from memory, a data sheet that contradicts itself, an imager of several aims,
// demands that are not judged yet. `only`: of these requirements alone is it said that they are never
// judged; empty: of all.
std::vector<Finding> designFindings(const design::Design& design,
                                    const std::vector<design::RequirementId>& only = {});
// Those, and what the proof, of the requirements `only`, shows: requirements short or undecided,
// zones without a place to stand, imagers that serve nothing or that nobody needs.
std::vector<Finding> findingsOf(const design::Design& design, const Proof& proof,
                                const std::vector<design::RequirementId>& only = {});

}  // namespace belvedere::proof
