// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/analytics.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <unordered_set>

#include "base/units.h"
#include "geometry/polygon.h"
#include "services/stay.h"

namespace belvedere::services {
namespace {

struct Limit {
  const design::Shared* shared;
  bool binds(int slot) const {
    return shared->slots.empty() ||
           std::ranges::find(shared->slots, slot) != shared->slots.end();
  }
};

// A housing with its limits, and what it runs so far.
struct Runner {
  const design::Housing* housing = nullptr;
  std::vector<Limit> limits;
  std::map<int, int> rules_of;  // by slot

  bool allows() const {
    for (const Limit& limit : limits) {
      int imagers = 0, rules = 0;
      std::vector<int> used;
      for (const auto& [slot, rules_here] : rules_of)
        if (rules_here > 0 && limit.binds(slot)) {
          ++imagers;
          rules += rules_here;
          used.push_back(slot);
        }
      const design::Shared& s = *limit.shared;
      if (s.rule == "at_most_n" && imagers > s.value.value_or(0)) return false;
      if (s.rule == "sum_at_most" && rules > s.value.value_or(0)) return false;
      if (s.rule == "one_of_sets" && !used.empty() &&
          std::ranges::none_of(s.sets, [&](const std::vector<int>& set) {
            return std::ranges::all_of(used, [&](int slot) {
              return std::ranges::find(set, slot) != set.end();
            });
          }))
        return false;
    }
    return true;
  }
};

struct Seat {
  std::size_t runner;
  int slot;
  std::string imager;
};

// Steps that are left, of a search or of many; looks whether the work is cancelled.
struct Steps {
  const Progress& progress;
  std::size_t left = kMostSteps;

  bool take() {
    if (left == 0) return false;
    if (--left % 1024 == 0) progress.throwIfCancelled();
    return true;
  }
};

struct Search {
  Steps& steps;
  std::vector<Runner> runners;
  struct Rule {
    std::size_t demand;
    int imagers;
    std::vector<Seat> seats;
  };
  std::vector<Rule> rules;  // fewest seats first
  std::vector<std::vector<std::string>> taken;  // by rule
  std::vector<bool> dropped;
  std::vector<std::size_t> in_use;         // runners on which any of the rules may run
  std::unordered_set<std::string> failed;  // what was tried from there on, to its end, in vain

  // All that what is left depends on: the rule, the drops and what runs where.
  std::string state(std::size_t k, int drops) const {
    std::string key = fmt::format("{}.{}", k, drops);
    for (const std::size_t r : in_use)
      for (const auto& [slot, rules_here] : runners[r].rules_of)
        if (rules_here > 0) key += fmt::format(" {}.{}.{}", r, slot, rules_here);
    return key;
  }

  // Places rule k and those after it with at most `drops` left out.
  bool place(std::size_t k, int drops) {
    if (k == rules.size()) return true;
    const std::string here = state(k, drops);
    if (failed.contains(here)) return false;
    if (seat(k, 0, rules[k].imagers, drops)) return true;
    if (drops > 0) {
      dropped[k] = true;
      if (place(k + 1, drops - 1)) return true;
      dropped[k] = false;
    }
    if (steps.left > 0) failed.insert(here);
    return false;
  }
  // Chooses the rule's imagers among its seats from `from` on.
  bool seat(std::size_t k, std::size_t from, int wanted, int drops) {
    if (wanted == 0) return place(k + 1, drops);
    Rule& rule = rules[k];
    for (std::size_t i = from; i < rule.seats.size(); ++i) {
      if (!steps.take()) return false;
      Runner& runner = runners[rule.seats[i].runner];
      ++runner.rules_of[rule.seats[i].slot];
      taken[k].push_back(rule.seats[i].imager);
      if (runner.allows() && seat(k, i + 1, wanted - 1, drops)) return true;
      taken[k].pop_back();
      --runner.rules_of[rule.seats[i].slot];
    }
    return false;
  }
};

// Demands that share no housing are solved apart: their numbers of rules to give add up.
std::vector<std::vector<std::size_t>> groupsOf(const std::vector<Search::Rule>& rules,
                                               std::size_t runners) {
  std::vector<std::size_t> root(runners);
  std::iota(root.begin(), root.end(), std::size_t{0});
  const auto find = [&](std::size_t r) {
    while (root[r] != r) r = root[r] = root[root[r]];
    return r;
  };
  for (const Search::Rule& rule : rules)
    for (const Seat& seat : rule.seats) root[find(seat.runner)] = find(rule.seats[0].runner);
  std::map<std::size_t, std::vector<std::size_t>> by;
  for (std::size_t k = 0; k < rules.size(); ++k) by[find(rules[k].seats[0].runner)].push_back(k);
  std::vector<std::vector<std::size_t>> groups;
  for (auto& [r, group] : by) groups.push_back(std::move(group));
  return groups;
}

struct Solved {
  std::vector<std::vector<std::string>> imagers;  // by demand
  std::vector<bool> gives, unseen;
  bool proven = true;
};

// `free`: a housing taken without its limits; `all`: whether all fit is all that is asked.
Solved solve(const design::Design& design, const std::vector<RuleDemand>& demands, Steps& steps,
             bool all = false, const std::string& free = {}) {
  Solved out;
  out.imagers.resize(demands.size());
  out.gives.assign(demands.size(), false);
  out.unseen.assign(demands.size(), false);
  std::vector<Runner> runners;
  std::map<std::string, Seat> seat_of;
  for (const design::Housing* housing : stayingHousings(design)) {
    Runner runner{housing, {}, {}};
    const design::Model* model = findModel(design, housing->model);
    if (model && housing->id.text != free)
      for (const design::Shared& shared : model->shared)
        if (shared.what == "analytics") runner.limits.push_back({&shared});
    for (const design::HousingImager& imager : housing->imagers) {
      const std::string name = fmt::format("{}.{}", housing->id.text, imager.slot);
      seat_of[name] = {runners.size(), imager.slot, name};
    }
    runners.push_back(std::move(runner));
  }
  std::vector<Search::Rule> rules;
  for (std::size_t d = 0; d < demands.size(); ++d) {
    Search::Rule rule{d, demands[d].imagers, {}};
    for (const std::string& name : demands[d].candidates)
      if (const auto at = seat_of.find(name); at != seat_of.end()) rule.seats.push_back(at->second);
    if (static_cast<int>(rule.seats.size()) < rule.imagers) {
      out.gives[d] = out.unseen[d] = true;
      continue;
    }
    if (rule.imagers > 0) rules.push_back(std::move(rule));
  }
  if (all && std::ranges::find(out.gives, true) != out.gives.end()) return out;
  for (const std::vector<std::size_t>& group : groupsOf(rules, runners.size())) {
    Search search{steps, runners, {}, {}, {}, {}, {}};
    for (const std::size_t k : group) {
      search.rules.push_back(rules[k]);
      for (const Seat& seat : rules[k].seats)
        if (std::ranges::find(search.in_use, seat.runner) == search.in_use.end())
          search.in_use.push_back(seat.runner);
    }
    std::ranges::stable_sort(search.rules, {}, [](const Search::Rule& r) { return r.seats.size(); });
    for (int drops = 0;; ++drops) {
      search.taken.assign(search.rules.size(), {});
      search.dropped.assign(search.rules.size(), false);
      for (Runner& runner : search.runners) runner.rules_of.clear();
      if (search.place(0, drops)) break;
      if (all) {
        out.proven = steps.left > 0;
        out.gives[search.rules[0].demand] = true;
        return out;
      }
      if (steps.left == 0) {  // one after the other, as long as they fit
        out.proven = false;
        for (Runner& runner : search.runners) runner.rules_of.clear();
        search.dropped.assign(search.rules.size(), true);
        search.taken.assign(search.rules.size(), {});
        for (std::size_t k = 0; k < search.rules.size(); ++k)
          for (const Seat& seat : search.rules[k].seats) {
            if (search.rules[k].imagers != 1) break;
            Runner& runner = search.runners[seat.runner];
            ++runner.rules_of[seat.slot];
            if (runner.allows()) {
              search.taken[k] = {seat.imager};
              search.dropped[k] = false;
              break;
            }
            --runner.rules_of[seat.slot];
          }
        break;
      }
    }
    for (std::size_t k = 0; k < search.rules.size(); ++k) {
      out.imagers[search.rules[k].demand] = search.taken[k];
      out.gives[search.rules[k].demand] = search.dropped[k];
    }
  }
  return out;
}

// Whether any imager of a housing sees any rule: without its limit nothing changes where none does.
bool mayRun(const std::vector<RuleDemand>& demands, const design::HousingId& housing) {
  return std::ranges::any_of(demands, [&](const RuleDemand& demand) {
    return std::ranges::any_of(demand.candidates, [&](const std::string& name) {
      return name.substr(0, name.rfind('.')) == housing.text;
    });
  });
}

bool allFit(const Solved& solved) { return std::ranges::find(solved.gives, true) == solved.gives.end(); }

}  // namespace

RulePlan assignRules(const design::Design& design, const std::vector<RuleDemand>& demands,
                     const Progress& progress) {
  RulePlan plan;
  Steps search_steps{progress}, lift_steps{progress};
  const Solved solved = solve(design, demands, search_steps);
  plan.proven = solved.proven;
  for (std::size_t d = 0; d < demands.size(); ++d) {
    if (solved.unseen[d]) plan.unseen.push_back(demands[d].requirement);
    if (solved.gives[d]) plan.gives.push_back(demands[d].requirement);
    else plan.assigned.push_back({demands[d].requirement, solved.imagers[d]});
  }
  for (const design::Housing* housing : stayingHousings(design)) {
    const design::Model* model = findModel(design, housing->model);
    const bool states = model && std::ranges::find(model->shared, "analytics",
                                                   &design::Shared::what) != model->shared.end();
    const bool runs = std::ranges::any_of(plan.assigned, [&](const Assigned& a) {
      return std::ranges::any_of(a.imagers, [&](const std::string& name) {
        return name.substr(0, name.rfind('.')) == housing->id.text;
      });
    });
    if (runs && !states) plan.unstated.push_back(housing->id);
  }
  if (plan.gives.empty() || !plan.proven) return plan;
  plan.lifts_tried = true;
  const auto lifts = [&](const std::vector<RuleDemand>& changed, const std::string& free) {
    if (lift_steps.left == 0) plan.lifts_tried = false;
    if (!plan.lifts_tried) return false;
    const Solved tried = solve(design, changed, lift_steps, true, free);
    plan.lifts_tried = tried.proven;
    return tried.proven && allFit(tried);
  };
  if (plan.unseen.empty())
    for (const design::Housing* housing : stayingHousings(design))
      if (mayRun(demands, housing->id) && lifts(demands, housing->id.text))
        plan.lifts.push_back({Lift::Kind::housing, housing->id.text, {}});
  if (plan.gives.size() > 1) return plan;  // one aim mends one rule
  for (std::size_t d = 0; d < demands.size(); ++d) {
    for (const design::Housing* housing : stayingHousings(design))
      for (const design::HousingImager& imager : housing->imagers) {
        const std::string name = fmt::format("{}.{}", housing->id.text, imager.slot);
        if (std::ranges::find(demands[d].candidates, name) != demands[d].candidates.end()) continue;
        // Turned towards this rule, it sees no other: it may not run one at the same time.
        std::vector<RuleDemand> turned = demands;
        for (RuleDemand& demand : turned) std::erase(demand.candidates, name);
        turned[d].candidates.push_back(name);
        if (lifts(turned, {}))
          plan.lifts.push_back({Lift::Kind::aim, name, demands[d].requirement});
      }
  }
  return plan;
}

double meanCrossingS(double area_m2, double perimeter_m, double speed_mps) {
  return kPi * area_m2 / perimeter_m / speed_mps;
}

std::vector<RuleTime> ruleTimes(const design::Design& design) {
  std::vector<RuleTime> times;
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::rule || !r.seconds_in_view || r.rule == "loiter" ||
        !r.line.empty())
      continue;
    const design::Zone* zone = findZone(design, r.zone);
    if (!zone) continue;
    double perimeter_m = 0;
    for (std::size_t i = 0; i < zone->outline.size(); ++i)
      perimeter_m += norm(zone->outline[(i + 1) % zone->outline.size()] - zone->outline[i]);
    times.push_back({r.id,
                     meanCrossingS(std::abs(signedArea(zone->outline)), perimeter_m,
                                   r.target.speed_mps.value_or(kWalkMps)),
                     *r.seconds_in_view});
  }
  return times;
}

}  // namespace belvedere::services
