// SPDX-License-Identifier: GPL-3.0-or-later
//
// Analytics: rules of the brief (crossing a line; entering, leaving or loitering in a region) onto
// imagers that see them, within what every housing can run (handbook 13). Solved exactly: either
// every rule has its imagers, or the smallest set of rules that has to give is named, with what
// would lift it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "design/design.h"

namespace belvedere::services {

// A rule and the imagers that see it well enough: from a proof, as plain values.
struct RuleDemand {
  design::RequirementId requirement;
  int imagers = 1;                     // that must run it
  std::vector<std::string> candidates; // "C1.2"
  std::string nearest{};               // who else comes nearest to seeing it, in words; may be empty
};

struct Assigned {
  design::RequirementId requirement;
  std::vector<std::string> imagers;
};

// One change after which every rule has its imagers.
struct Lift {
  enum class Kind { housing, aim } kind = Kind::housing;
  std::string name;                    // the housing without its limit; the imager that is aimed
  design::RequirementId requirement;   // of kind aim: at what
};

struct RulePlan {
  std::vector<Assigned> assigned;      // in the order of the demands
  std::vector<design::RequirementId> gives;   // smallest set; the latest demands where several tie
  std::vector<design::RequirementId> unseen;  // of those: fewer candidates than imagers asked for
  std::vector<Lift> lifts;
  std::vector<design::HousingId> unstated;    // run rules though their model says nothing of it
  bool proven = true;                  // false: given up after kMostSteps, `gives` may be too many
  bool lifts_tried = false;            // every single change, to its end
};
// Imagers tried for rules: in the search for the assignment, and again in that for all its lifts.
inline constexpr std::size_t kMostSteps = 1'000'000;

// Limits of a housing: what its model's imagers share with what == "analytics": at_most_n (imagers
// that run rules), one_of_sets (they all lie in one set), sum_at_most (rules in all). Imagers
// outside a limit's slots are not bound by it; a model without any limit runs whatever is asked.
// Throws Cancelled.
RulePlan assignRules(const design::Design& design, const std::vector<RuleDemand>& demands,
                     const Progress& progress = {});

// How long somebody who walks is inside: of a region the mean chord, pi times area over perimeter
// [Cauchy's formula for convex regions], over the speed.
double meanCrossingS(double area_m2, double perimeter_m, double speed_mps);
inline constexpr double kWalkMps = 1.5;  // brisk [practice, no source]

// Time in view that a rule over a region can give, beside what is asked for.
struct RuleTime {
  design::RequirementId requirement;
  double seconds = 0, asked_s = 0;
};
std::vector<RuleTime> ruleTimes(const design::Design& design);

}  // namespace belvedere::services
