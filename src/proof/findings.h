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

// Of the design alone: a face zone without a facing direction, a scale from memory, a data sheet
// that contradicts itself, an imager of several aims, demands that are not judged yet.
std::vector<Finding> designFindings(const design::Design& design);
// Those, and what the proof shows: requirements short or undecided, imagers that serve nothing or
// that nobody needs.
std::vector<Finding> findingsOf(const design::Design& design, const Proof& proof);

}  // namespace belvedere::proof
