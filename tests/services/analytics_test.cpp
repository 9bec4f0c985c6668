// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/analytics.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <random>
#include <set>

#include "made_up.h"

namespace belvedere::services {
namespace {

Design quad(std::vector<Shared> shared) {
  Design design;
  Model model = housingModel("quad", 4);
  model.shared = std::move(shared);
  design.catalogue.models.push_back(model);
  design.housings.push_back(housing("C1", "quad", {}, 4));
  return design;
}

RuleDemand demand(const std::string& id, std::vector<std::string> candidates, int imagers = 1) {
  return {{id}, imagers, std::move(candidates)};
}

// Common practice, no source: analytics run on two of four imagers, as fixed pairs.
TEST(AnalyticsAssignment, ImpossibilityNamesTheRuleAndTheHousingThatMustChange) {
  const Design design = quad({{"analytics", {1, 2, 3, 4}, "one_of_sets", {}, {{1, 2}, {3, 4}}}});
  RulePlan plan = assignRules(
      design, {demand("A", {"C1.1", "C1.3"}), demand("B", {"C1.4"})});
  ASSERT_TRUE(plan.gives.empty());
  EXPECT_EQ(plan.assigned[0].imagers, std::vector<std::string>{"C1.3"});
  plan = assignRules(design, {demand("A", {"C1.1"}), demand("B", {"C1.4"})});
  ASSERT_EQ(plan.gives.size(), 1);
  EXPECT_EQ(plan.gives[0].text, "B");
  ASSERT_FALSE(plan.lifts.empty());
  EXPECT_EQ(plan.lifts[0].kind, Lift::Kind::housing);
  EXPECT_EQ(plan.lifts[0].name, "C1");
  // Imager 3 turned towards A, or 2 turned towards B.
  bool turned = false;
  for (const Lift& lift : plan.lifts)
    turned = turned || (lift.kind == Lift::Kind::aim && lift.name == "C1.3" &&
                        lift.requirement.text == "A");
  EXPECT_TRUE(turned);
}

TEST(Analytics, ThreeRulesOnAHeadThatRunsTwoImagers) {
  const Design design = quad({{"analytics", {}, "at_most_n", 2, {}}});
  const RulePlan plan = assignRules(
      design, {demand("A", {"C1.1"}), demand("B", {"C1.2"}), demand("C", {"C1.3"})});
  EXPECT_EQ(plan.gives.size(), 1);
  EXPECT_EQ(plan.assigned.size(), 2);
  EXPECT_TRUE(plan.proven);
  EXPECT_TRUE(plan.unseen.empty());
}

TEST(Analytics, ARuleThatNobodySeesIsNamed) {
  const RulePlan plan = assignRules(quad({}), {demand("A", {})});
  EXPECT_EQ(plan.unseen.size(), 1);
  EXPECT_EQ(plan.gives.size(), 1);
}

// Exhaustive: every choice of imagers (or none) for every rule, checked against the limits as
// written, on 500 random cases.
TEST(AnalyticsAssignment, EqualsBruteForceOn500RandomSmallCases) {
  std::mt19937 random(11);
  int impossible = 0;
  for (int round = 0; round < 500; ++round) {
    Design design;
    const int heads = 1 + static_cast<int>(random() % 3);
    for (int h = 0; h < heads; ++h) {
      Model model = housingModel("m" + std::to_string(h), 4);
      switch (random() % 4) {
        case 0:
          model.shared.push_back({"analytics", {}, "at_most_n", 1.0 + static_cast<double>(random() % 2), {}});
          break;
        case 1:
          model.shared.push_back({"analytics", {}, "one_of_sets", {}, {{1, 2}, {3, 4}}});
          break;
        case 2:
          model.shared.push_back({"analytics", {1, 2, 3}, "sum_at_most", 2, {}});
          model.shared.push_back({"analytics", {}, "one_of_sets", {}, {{1, 3}, {2, 4}, {1, 4}}});
          break;
        default: break;
      }
      design.catalogue.models.push_back(model);
      design.housings.push_back(
          housing("C" + std::to_string(h), "m" + std::to_string(h), {}, 4));
    }
    std::vector<RuleDemand> demands;
    const int rules = 1 + static_cast<int>(random() % 5);
    for (int r = 0; r < rules; ++r) {
      RuleDemand d{{"R" + std::to_string(r)}, 1 + static_cast<int>(random() % 5 == 0), {}};
      for (int h = 0; h < heads; ++h)
        for (int slot = 1; slot <= 4; ++slot)
          if (random() % 100 < 30)
            d.candidates.push_back("C" + std::to_string(h) + "." + std::to_string(slot));
      demands.push_back(d);
    }

    const auto legal = [&](const std::vector<std::vector<std::string>>& chosen) {
      for (int h = 0; h < heads; ++h)
        for (const Shared& s : design.catalogue.models[static_cast<std::size_t>(h)].shared) {
          std::set<int> used;
          int count = 0;
          for (const auto& imagers : chosen)
            for (const std::string& name : imagers) {
              const int slot = name.back() - '0';
              if (name[1] - '0' != h) continue;
              if (!s.slots.empty() && !std::ranges::count(s.slots, slot)) continue;
              used.insert(slot);
              ++count;
            }
          if (s.rule == "at_most_n" && static_cast<double>(used.size()) > *s.value) return false;
          if (s.rule == "sum_at_most" && count > *s.value) return false;
          if (s.rule == "one_of_sets" && !used.empty()) {
            bool some = false;
            for (const auto& set : s.sets) {
              bool all = true;
              for (const int slot : used) all = all && std::ranges::count(set, slot);
              some = some || all;
            }
            if (!some) return false;
          }
        }
      return true;
    };
    std::size_t most = 0;
    std::vector<std::vector<std::string>> chosen(demands.size());
    std::function<void(std::size_t, std::size_t)> each = [&](std::size_t k, std::size_t served) {
      if (k == demands.size()) {
        if (legal(chosen)) most = std::max(most, served);
        return;
      }
      chosen[k].clear();
      each(k + 1, served);
      const auto& c = demands[k].candidates;
      for (std::size_t i = 0; i < c.size(); ++i) {
        if (demands[k].imagers == 1) {
          chosen[k] = {c[i]};
          each(k + 1, served + 1);
          continue;
        }
        for (std::size_t j = i + 1; j < c.size(); ++j) {
          chosen[k] = {c[i], c[j]};
          each(k + 1, served + 1);
        }
      }
      chosen[k].clear();
    };
    each(0, 0);
    const RulePlan plan = assignRules(design, demands);
    EXPECT_TRUE(plan.proven);
    EXPECT_EQ(plan.assigned.size(), most) << round;
    EXPECT_EQ(plan.gives.size(), demands.size() - most) << round;
    impossible += !plan.gives.empty();
    // What is assigned is legal and asked for.
    std::vector<std::vector<std::string>> given;
    for (const Assigned& a : plan.assigned) {
      given.push_back(a.imagers);
      const auto& d = *std::ranges::find(demands, a.requirement, &RuleDemand::requirement);
      EXPECT_EQ(static_cast<int>(a.imagers.size()), d.imagers);
      for (const std::string& name : a.imagers) EXPECT_TRUE(std::ranges::count(d.candidates, name));
    }
    EXPECT_TRUE(legal(given));
  }
  EXPECT_GT(impossible, 50);
}

// Closed form: one rule more than there are heads of one rule: one must give, an idle head more turned
// to a rule lifts it; the search ends long before it is given up.
TEST(Analytics, OneRuleTooManyIsProvenAndItsLiftsAreTried) {
  for (const int heads : {4, 9, 14}) {
    Design design;
    Model model = housingModel("one");
    model.shared = {{"analytics", {}, "sum_at_most", 1.0, {}}};
    design.catalogue.models.push_back(model);
    std::vector<std::string> all;
    for (int i = 0; i < heads; ++i) {
      design.housings.push_back(housing("C" + std::to_string(i), "one", {}));
      all.push_back("C" + std::to_string(i) + ".1");
    }
    for (int i = 0; i < 10; ++i)
      design.housings.push_back(housing("I" + std::to_string(i), "one", {}));
    std::vector<RuleDemand> demands;
    for (int i = 0; i <= heads; ++i) demands.push_back(demand("R" + std::to_string(i), all));
    const RulePlan plan = assignRules(design, demands);
    EXPECT_TRUE(plan.proven) << heads;
    EXPECT_EQ(plan.gives.size(), 1u) << heads;
    EXPECT_TRUE(plan.lifts_tried) << heads;
    // Each of the heads without its limit; each idle one turned to each rule.
    EXPECT_EQ(plan.lifts.size(), static_cast<std::size_t>(heads + 10 * (heads + 1))) << heads;
  }
}

// Property: a search that takes too many steps is given up, within bounded steps, and does not claim
// that no change would lift it; cancelled, it ends.
TEST(Analytics, WhatTakesTooLongIsGivenUpAndSaysSo) {
  Design design;
  Model model = housingModel("wide", 24);
  model.shared = {{"analytics", {}, "at_most_n", 11.0, {}}};
  design.catalogue.models.push_back(model);
  design.housings.push_back(housing("C1", "wide", {}, 24));
  std::vector<std::string> all;
  for (int slot = 1; slot <= 24; ++slot) all.push_back("C1." + std::to_string(slot));
  const RulePlan plan = assignRules(design, {demand("R", all, 12)});
  EXPECT_FALSE(plan.proven);
  EXPECT_FALSE(plan.lifts_tried);
  EXPECT_EQ(plan.gives.size(), 1u);
  Progress stopped;
  stopped.cancel = true;
  EXPECT_THROW(assignRules(design, {demand("R", all, 12)}, stopped), Cancelled);
}

// Closed form: the mean chord of a disc of radius r is pi r / 2.
TEST(Analytics, MeanCrossingOfADisc) {
  const double pi = 3.14159265358979;
  EXPECT_NEAR(meanCrossingS(pi * 4, 2 * pi * 2, 1), pi, 1e-9);
}

}  // namespace
}  // namespace belvedere::services
