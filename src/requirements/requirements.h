// SPDX-License-Identifier: GPL-3.0-or-later
//
// requirements: the whole brief. `proof` knows what is seen, `services` what is carried, kept, run
// and paid; here each hands the other what it needs, as plain values:
//
//   prove.h      everything that the brief asks for: coverage, and its demands on services
//   demands.h    rules, days kept, frames a second, money, gaps, seconds in view, zones lost: met, not
//                met or undecided, and why
//   failures.h   which requirements fall when a part fails, ranked
//
// The command line and the window ask this room; proof and services do not know each other.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "proof/gap.h"
#include "proof/proof.h"
#include "services/size.h"

namespace belvedere::requirements {

// What a requirement asks for beyond its share.
enum class Asks { rule, days_kept, frames, money, gap, seconds, zones_lost };
// "rule", "keep_days", "frames_per_s", "money", "largest_gap_m", "seconds_in_view", "zones_lost_max"
const char* word(Asks asks);

struct Demand {
  design::RequirementId requirement;
  Asks asks = Asks::rule;
  proof::Verdict verdict = proof::Verdict::undecided;
  std::optional<double> found, needed;  // days, frames a second, money, m, s, zones; needed of a rule:
                                        // imagers
  std::string unit;
  std::vector<std::string> by;          // imagers that run the rule; streams that are kept
  std::string sentence;                 // what was found, for people
};

// Of a requirement with largest_gap_m, as the design stands.
struct Gap {
  design::RequirementId requirement;
  design::SituationId situation;
  proof::GapProof gap;
};

// All that was found out about a design.
struct Answer {
  proof::Proof proof;
  std::vector<Gap> gaps;
  std::vector<Demand> demands;          // in the order of the brief
  // Where a demand, or the loss of a device, needed them.
  std::optional<services::Sizes> sizes;
  services::Seen seen;
};

}  // namespace belvedere::requirements
