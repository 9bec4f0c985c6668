// SPDX-License-Identifier: GPL-3.0-or-later
//
// A proof as text for people and as the object "belvedere.proof" (docs/json.md).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "proof/proof.h"
#include "proof/withhold.h"
#include "requirements/requirements.h"

namespace belvedere::cli {

// What is printed: the proof, and what would keep withheld zones that are not kept (as long as
// proof.requirements, empty where nothing is asked).
struct Proven {
  requirements::Answer answer;
  std::vector<std::vector<proof::Keep>> keeps;
};

std::string proofText(const Loaded& loaded, const Proven& proven);
// One line a verdict.
std::string proofLines(const design::Design& design, const requirements::Answer& answer);
Json proofJson(const Loaded& loaded, const Proven& proven);

// "met 96.2 to 96.4 % of 95": low rounded down and high up, so that bounds stay bounds, with more
// decimals where they would read like what is asked for.
std::string verdictText(const proof::RequirementProof& row);
// "C1.1 too_coarse: 238.5 px/m where 250 is needed, 1.45 m above the floor". `above`: see footText.
std::string failureText(proof::Reason reason, const std::string& imager,
                        const proof::Measure& measure, double height_m, const std::string& above);
// What heights in a requirement's zone count from: "the floor", "the zone's base", "the top of
// ramp".
std::string footText(const design::Design& design, const design::Requirement* requirement);
// "238.5 px/m where 250 is needed", "38.2 deg where at most 30 is allowed"; "" without a measure.
std::string measureText(proof::Reason reason, const proof::Measure& measure);
Json measureJson(const proof::Measure& measure);
Json boundsJson(const proof::Bounds& bounds);
std::string keepText(const proof::Keep& keep);
Json keepJson(const proof::Keep& keep);

// The situation in which a requirement fares worst (no part lost); empty where it has but one.
std::string worstSituation(const proof::Proof& proof, const design::RequirementId& requirement);

}  // namespace belvedere::cli
