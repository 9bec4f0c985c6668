// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which imagers see a rule's line or region well enough to run the rule (handbook 13): a rule is
// taken as a requirement to see, and each imager is proven by itself. Of a region, its zone; of a
// line, a strip about it, as wide as a target goes in the seconds that it must be in view (half of
// them before the line), and at least kStripM to either side.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "proof/prove.h"

namespace belvedere::proof {

inline constexpr double kStripM = 1;         // practice, no source
inline constexpr double kRuleSpeedMps = 1.5; // of a target that states none: brisk walking [practice]

// What an imager sees of a rule's line or region by itself, in the situation in which it sees least.
struct RuleView {
  std::string imager;
  design::SituationId situation;
  Bounds share;                      // proven, of the region or strip
  std::vector<ReasonShare> reasons;  // of the rest, from a lattice of spots, largest first
};

struct RuleSight {
  design::RequirementId requirement;
  int imagers_asked = 1;
  double px_per_m = 0;               // asked for; 0: none is stated, so that being in frame is enough
  double target_px = 0;              // height of the target's band at that density
  double share_asked = 0;
  std::vector<std::string> imagers;  // that serve the share asked for, alone, in every situation
  std::vector<RuleView> others;      // that do not, who sees most first
};

// Of each requirement of kind rule, in the order of the brief. Of a rule whose line lies on no
// storey no imager is named. Throws as prove does. The first of `others` have their
// reasons where a rule has fewer imagers than it asks for.
std::vector<RuleSight> ruleSights(const design::Design& design, const std::filesystem::path& folder,
                                  const ProveOptions& options, const Progress& progress);

}  // namespace belvedere::proof
