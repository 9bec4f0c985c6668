// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "services/findings.h"

namespace belvedere::services {
namespace {

std::string liftsText(const RulePlan& plan) {
  if (plan.lifts.empty())
    return plan.lifts_tried
               ? " No single change would lift it: another housing is needed."
               : " Whether a single change would lift it was not tried to the end.";
  std::vector<std::string> ways;
  for (const Lift& lift : plan.lifts) {
    if (ways.size() == 4) break;
    ways.push_back(lift.kind == Lift::Kind::housing
                       ? fmt::format("another model for {}, one that runs more imagers", lift.name)
                       : fmt::format("{} turned to {}", lift.name, lift.requirement.text));
  }
  return fmt::format(" What would lift it: {}.", fmt::join(ways, "; or "));
}

}  // namespace

std::vector<Finding> analyticsFindings(const Sizes& sizes) {
  std::vector<Finding> out;
  const RulePlan& plan = sizes.rules;
  std::vector<std::string> crowded;
  for (const design::RequirementId& id : plan.gives) {
    if (std::ranges::find(plan.unseen, id) == plan.unseen.end()) {
      crowded.push_back(id.text);
      continue;
    }
    out.push_back({"rule_unseen", Severity::shortfall, {id.text}, {}, {},
                   fmt::format("{}: fewer imagers than it asks for see its line or region well enough "
                               "to run it.", id.text),
                   "13"});
  }
  if (!crowded.empty())
    out.push_back({"rules_do_not_fit", Severity::shortfall, crowded, {},
                   Quantity{static_cast<double>(crowded.size()), "rules"},
                   fmt::format("Not all rules fit on what the housings can run: {} of them must give, "
                               "for instance {}.{}", crowded.size(), fmt::join(crowded, ", "),
                               liftsText(plan)),
                   "13"});
  if (!plan.proven)
    out.push_back({"rules_unproven", Severity::caution, {}, {}, {},
                   "The search for an assignment of rules was given up: fewer of them may have to "
                   "give than is said.",
                   "13"});
  for (const design::HousingId& id : plan.unstated)
    out.push_back({"analytics_unstated", Severity::caution, {id.text}, {}, {},
                   fmt::format("{}: runs rules, though its model does not say what it can run.", id.text),
                   "13"});
  for (const RuleTime& time : sizes.rule_times)
    if (time.seconds < time.asked_s)
      out.push_back({"rule_too_brief", Severity::shortfall, {time.requirement.text},
                     Quantity{time.asked_s, "s"}, Quantity{time.seconds, "s"},
                     fmt::format("{}: who walks through its region is in it for {:.1f} s on average; "
                                 "{:g} s are asked for.", time.requirement.text, time.seconds,
                                 time.asked_s),
                     "13"});
  return out;
}

}  // namespace belvedere::services
