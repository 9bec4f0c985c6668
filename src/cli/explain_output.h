// SPDX-License-Identifier: GPL-3.0-or-later
//
// Explanations as text for people and as the object "belvedere.explanation" (docs/json.md).
#pragma once

#include <string>
#include <vector>

#include "cli/answer.h"
#include "proof/explain.h"
#include "proof/rules.h"
#include "proof/withhold.h"

namespace belvedere::cli {

// A withheld zone: how densely it can be seen, and what keeps it.
struct WithheldZone {
  proof::RequirementProof row;
  std::vector<proof::Keep> keeps;
};

struct Explained {
  proof::Effort effort;
  bool changes = true;                     // were searched for
  std::vector<proof::SpotExplanation> points;
  std::vector<WithheldZone> withheld;
  std::vector<proof::RuleSight> rules;
  std::vector<proof::MayGrow> may_change;
};

// Whether a spot is as its requirement wants it: served, or, of a withheld zone, not.
bool asWanted(const design::Design& design, const proof::SpotExplanation& point);

std::string explanationText(const design::Design& design, const Explained& explained);
Json explanationJson(const Loaded& loaded, const Explained& explained);

}  // namespace belvedere::cli
