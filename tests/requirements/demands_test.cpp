// SPDX-License-Identifier: GPL-3.0-or-later
#include "requirements/demands.h"

#include <gtest/gtest.h>

#include "../services/made_up.h"

namespace belvedere::requirements {
namespace {

using namespace design;
using proof::Verdict;

// A head of two imagers, 4 Mbit/s each and 12 frames a second, kept 20 days on a recorder whose disks
// hold 20.8 days of it: 2 x 4 Mbit/s are 86.4 GB a day; 1 TB x 2 x 0.9 = 1.8 TB usable.
Design kept() {
  Design design;
  design.money = "EUR";
  Model head = services::housingModel("head", 2);
  head.price = 500;
  design.catalogue.models = {head, services::part("nvr", ModelKind::recorder, {}),
                             services::part("hdd", ModelKind::disk, {.size_tb = 1})};
  design.catalogue.models[1].price = 300;
  design.catalogue.models[2].price = 50;
  design.services.devices = {services::device("R", "nvr")};
  design.services.devices[0].disks = Disks{.model = {"hdd"}, .count = 2, .raid = "jbod"};
  Housing h = services::housing("C1", "head", {0, 0, 3}, 2);
  for (int slot = 1; slot <= 2; ++slot) {
    Stream s = services::stream("s" + std::to_string(slot), slot);
    s.frames_per_s = 12;
    s.rate = Rate{"constant", 4};
    h.streams.push_back(s);
    Recording r;
    r.id = {"r" + std::to_string(slot)};
    r.stream = s.id;
    r.device = {"R"};
    r.days = 20;
    design.services.recording.push_back(r);
  }
  design.housings = {h};
  Requirement see;
  see.id = {"R1"};
  see.keep_days = 20;
  Requirement money;
  money.id = {"R2"};
  money.kind = RequirementKind::money;
  money.amount_most = 900;
  design.brief = {see, money};
  return design;
}

proof::Proof served(std::vector<proof::Contribution> by) {
  proof::Proof proof;
  proof::RequirementProof row;
  row.requirement = {"R1"};
  row.imagers = std::move(by);
  proof.requirements = {row};
  return proof;
}

std::vector<Demand> judged(const Design& design, std::vector<std::string> by = {"C1.1"},
                           std::vector<services::RuleDemand> rules = {}) {
  std::vector<proof::Contribution> contributions;
  for (const std::string& imager : by) contributions.push_back({imager, 0.9, 0.5});
  services::Seen seen{{{{"R1"}, by}}, std::move(rules)};
  return demandsOf(design, served(contributions), services::sizesOf(design, seen), seen, {});
}
const Demand& of(const std::vector<Demand>& demands, Asks asks) {
  for (const Demand& demand : demands)
    if (demand.asks == asks) return demand;
  throw std::runtime_error("there is none");
}

// Closed form: days as scheduled, and as far as the disks hold.
TEST(Demands, DaysKept) {
  Design design = kept();
  EXPECT_EQ(of(judged(design), Asks::days_kept).verdict, Verdict::met);
  design.brief[0].keep_days = 20.1;
  EXPECT_EQ(of(judged(design), Asks::days_kept).verdict, Verdict::not_met);
  design.brief[0].keep_days = 21;
  for (Recording& r : design.services.recording) r.days = 21;
  const Demand full = of(judged(design), Asks::days_kept);
  EXPECT_EQ(full.verdict, Verdict::not_met);
  EXPECT_NEAR(*full.found, 1.8 / (8e6 / 8 * 86400 / 1e12), 1e-6);
  // An estimate that fits at its low end only leaves it open.
  for (Stream& s : design.housings[0].streams) s.rate = Rate{"capped", 4};
  EXPECT_EQ(of(judged(design), Asks::days_kept).verdict, Verdict::undecided);
}

// Property: what is not stated leaves it open; what is stated and missing does not.
TEST(Demands, DaysThatNobodyStates) {
  Design design = kept();
  design.services.devices[0].disks.reset();
  EXPECT_EQ(of(judged(design), Asks::days_kept).verdict, Verdict::undecided);
  design = kept();
  design.services.recording.pop_back();  // of imager 2
  EXPECT_EQ(of(judged(design), Asks::days_kept).verdict, Verdict::met);
  EXPECT_EQ(of(judged(design, {"C1.2"}), Asks::days_kept).verdict, Verdict::not_met);
  // Imager 2 serves a part alone and is not recorded.
  EXPECT_EQ(of(judged(design, {"C1.1", "C1.2"}), Asks::days_kept).verdict, Verdict::undecided);
  design.services.recording.clear();
  const Demand nothing = of(judged(design), Asks::days_kept);
  EXPECT_EQ(nothing.verdict, Verdict::undecided);
  EXPECT_NE(nothing.sentence.find("nothing says"), std::string::npos);
}

// Closed form: 500 + 300 + 2 x 50 = 900.
TEST(Demands, Money) {
  Design design = kept();
  EXPECT_EQ(of(judged(design), Asks::money).verdict, Verdict::met);
  design.brief[1].amount_most = 899;
  EXPECT_EQ(of(judged(design), Asks::money).verdict, Verdict::not_met);
  design.catalogue.models[1].price.reset();
  const Demand open = of(judged(design), Asks::money);
  EXPECT_EQ(open.verdict, Verdict::undecided);
  EXPECT_NE(open.sentence.find("1 item without a price"), std::string::npos) << open.sentence;
}

TEST(Demands, Frames) {
  Design design = kept();
  design.brief[0].frames_per_s = 12;
  EXPECT_EQ(of(judged(design), Asks::frames).verdict, Verdict::met);
  design.brief[0].frames_per_s = 12.5;
  EXPECT_EQ(of(judged(design), Asks::frames).verdict, Verdict::not_met);
  design.housings[0].streams[0].frames_per_s.reset();
  EXPECT_EQ(of(judged(design), Asks::frames).verdict, Verdict::undecided);
  EXPECT_EQ(of(judged(design, {"C1.2"}), Asks::frames).verdict, Verdict::not_met);
}

// A head that runs one rule at a time: of two, the later gives; one whose model says nothing leaves it
// open; one that nobody sees is not met.
TEST(Demands, Rules) {
  Design design = kept();
  for (const char* id : {"R3", "R4"}) {
    Requirement rule;
    rule.id = {id};
    rule.kind = RequirementKind::rule;
    rule.rule = "enter";
    design.brief.push_back(rule);
  }
  const std::vector<services::RuleDemand> both{{{"R3"}, 1, {"C1.1"}}, {{"R4"}, 1, {"C1.2"}}};
  const auto verdicts = [&](const std::vector<services::RuleDemand>& rules) {
    std::vector<Verdict> out;
    for (const Demand& demand : judged(design, {"C1.1"}, rules))
      if (demand.asks == Asks::rule) out.push_back(demand.verdict);
    return out;
  };
  EXPECT_EQ(verdicts(both), (std::vector{Verdict::undecided, Verdict::undecided}));
  Shared limit;
  limit.what = "analytics";
  limit.rule = "at_most_n";
  limit.value = 1;
  design.catalogue.models[0].shared = {limit};
  EXPECT_EQ(verdicts(both), (std::vector{Verdict::met, Verdict::not_met}));
  EXPECT_EQ(verdicts({{{"R3"}, 1, {}}, {{"R4"}, 1, {"C1.2"}}}),
            (std::vector{Verdict::not_met, Verdict::met}));
}

// Property: a camera that serves nothing is not called unrecorded, and a shorter copy shortens nothing.
TEST(Demands, DaysKeptNameTheRightReason) {
  Design design = kept();
  EXPECT_EQ(of(judged(design, {}), Asks::days_kept).sentence, "nothing serves it");
  EXPECT_EQ(of(judged(design, {"C9.1"}), Asks::days_kept).sentence,
            "no stream that serves it is recorded");
  Recording copy = design.services.recording[0];
  copy.id = {"copy"};
  copy.days = 7;
  design.services.recording.push_back(copy);
  EXPECT_EQ(of(judged(design), Asks::days_kept).verdict, Verdict::met);
}

}  // namespace
}  // namespace belvedere::requirements
