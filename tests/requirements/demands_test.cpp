// SPDX-License-Identifier: GPL-3.0-or-later
#include "requirements/demands.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "base/units.h"
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
  const services::Sizes sizes = services::sizesOf(design, seen);
  return demandsOf(design, served(contributions), {}, &sizes, seen, {});
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

// By hand: of all recorded streams of the imagers that serve it the slowest counts; one that is not recorded
// does not.
TEST(Demands, FramesAreThoseOfTheSlowestRecordedStream) {
  Design design = kept();
  design.brief[0].frames_per_s = 10;
  design.housings[0].streams[1].frames_per_s = 8;
  const Demand both = of(judged(design, {"C1.1", "C1.2"}), Asks::frames);
  EXPECT_EQ(both.verdict, Verdict::not_met);
  EXPECT_EQ(both.found, 8);
  EXPECT_EQ(of(judged(design, {"C1.1"}), Asks::frames).verdict, Verdict::met);
  Stream live = services::stream("live", 1);
  live.frames_per_s = 5;
  design.housings[0].streams.push_back(live);
  const Demand recorded = of(judged(design, {"C1.1"}), Asks::frames);
  EXPECT_EQ(recorded.verdict, Verdict::met);
  EXPECT_EQ(recorded.found, 12);
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

proof::RequirementProof row(const char* id, Verdict verdict, const char* without = "") {
  proof::RequirementProof made;
  made.requirement = {id};
  made.situation = {"day"};
  made.verdict = verdict;
  made.without = without;
  return made;
}
Demand only(const Design& design, const proof::Proof& proof, Asks asks,
            const std::vector<Gap>& gaps = {}) {
  return of(demandsOf(design, proof, gaps, nullptr, {}, {}), asks);
}

// The verdict is that of the worst situation; the sentence names it.
TEST(Demands, LongestGapInEverySituation) {
  Design design;
  Requirement see;
  see.id = {"R1"};
  see.largest_gap_m = 5;
  design.brief = {see};
  std::vector<Gap> gaps{{{"R1"}, {"day"}, {{3, 3.2}, Verdict::met, 0}},
                        {{"R1"}, {"night"}, {{1, 2}, Verdict::met, 0}}};
  Demand gap = only(design, {}, Asks::gap, gaps);
  EXPECT_EQ(gap.verdict, Verdict::met);
  EXPECT_EQ(*gap.found, 3.2);
  gaps[1].gap = {{4.8, 5.3}, Verdict::undecided, 0};
  gap = only(design, {}, Asks::gap, gaps);
  EXPECT_EQ(gap.verdict, Verdict::undecided);
  EXPECT_NE(gap.sentence.find("night"), std::string::npos) << gap.sentence;
  gaps[0].gap = {{5.1, 9}, Verdict::not_met, 0};
  gap = only(design, {}, Asks::gap, gaps);
  EXPECT_EQ(gap.verdict, Verdict::not_met);
  EXPECT_EQ(*gap.found, 5.1);
  EXPECT_EQ(only(design, {}, Asks::gap).verdict, Verdict::undecided);
}

// Closed form: a square of side a has the mean chord pi a / 4; of a disc (here of 720 corners) of radius
// r it is pi r / 2; of a part that is served, so much of it [Cauchy; Santalo 1976, I.3]. Against chords of
// 200,000 random straight ways, for a zone with a notch and a served part anywhere in it.
TEST(Demands, SecondsInViewAreTheMeanChordOfWhatIsServed) {
  Zone square;
  square.outline = {{0, 0}, {4, 0}, {4, 4}, {0, 4}};
  proof::Bounds s = secondsInView(square, 16, {0.5, 1}, 2);
  EXPECT_NEAR(s.high, kPi * 4 / 4 / 2, 1e-12);
  EXPECT_NEAR(s.low, s.high / 2, 1e-12);
  Zone disc;
  for (int i = 0; i < 720; ++i)
    disc.outline.push_back({3 * std::cos(2 * kPi * i / 720), 3 * std::sin(2 * kPi * i / 720)});
  const double disc_m2 = std::abs(signedArea(disc.outline));
  EXPECT_NEAR(secondsInView(disc, disc_m2, {1, 1}, 1).low, kPi * 3 / 2, 1e-4);

  Zone notched;
  notched.outline = {{0, 0}, {6, 0}, {6, 4}, {4, 4}, {4, 1}, {2, 1}, {2, 4}, {0, 4}};
  const double m2 = std::abs(signedArea(notched.outline)), served_m2 = 2 * 3;  // the left leg
  const proof::Bounds exact = secondsInView(notched, m2, {served_m2 / m2, served_m2 / m2}, 1);
  std::mt19937 random(3);
  std::uniform_real_distribution<double> angle(0, kPi), offset(-5, 5);
  const Ring hull = convexHull(notched.outline), served{{0, 1}, {2, 1}, {2, 4}, {0, 4}};
  double sum_m = 0;
  int hits = 0;
  for (int i = 0; i < 200'000; ++i) {
    const double a = angle(random), d = offset(random);
    const Vec2 along{std::cos(a), std::sin(a)}, foot = Vec2{3, 2} + perpLeft(along) * d;
    const auto chord = [&](const Ring& ring) {
      double low = -100, high = 100;  // anticlockwise and convex: half planes
      for (std::size_t k = 0; k < ring.size(); ++k) {
        const Vec2 e = ring[(k + 1) % ring.size()] - ring[k], n = perpLeft(e);
        const double rate = dot(n, along), at = dot(n, foot - ring[k]);
        if (rate > 0) low = std::max(low, -at / rate);
        else if (rate < 0) high = std::min(high, -at / rate);
        else if (at < 0) return 0.0;
      }
      return std::max(0.0, high - low);
    };
    if (chord(hull) <= 0) continue;
    ++hits;
    sum_m += chord(served);
  }
  EXPECT_NEAR(sum_m / hits, exact.low, 0.01 * exact.low);

  Design design;
  notched.id = {"Z"};
  design.site.zones = {notched};
  Requirement see;
  see.id = {"R1"};
  see.zone = {"Z"};
  see.target.speed_mps = 1;
  design.brief = {see};
  proof::Proof proof;
  proof.requirements = {row("R1", Verdict::met)};
  proof.requirements[0].zone_m2 = m2;
  proof.requirements[0].share = {0.9, 0.95};
  const proof::Bounds seconds = secondsInView(notched, m2, {0.9, 0.95}, 1);
  const auto verdict = [&](double asked_s) {
    design.brief[0].seconds_in_view = asked_s;
    return only(design, proof, Asks::seconds).verdict;
  };
  EXPECT_EQ(verdict(seconds.low), Verdict::met);
  EXPECT_EQ(verdict((seconds.low + seconds.high) / 2), Verdict::undecided);
  EXPECT_EQ(verdict(seconds.high + 1e-6), Verdict::not_met);
}

// Counted by hand: of three zones, the loss of C1 takes one surely and one perhaps.
TEST(Demands, ZonesThatFallWithAPart) {
  Design design;
  for (const char* id : {"C1", "C2"}) design.housings.push_back(services::housing(id, "head", {0, 0, 3}));
  for (const char* id : {"R1", "R2", "R3"}) {
    Requirement see;
    see.id = {id};
    see.zone = {std::string("Z") + id};
    see.after_loss = {{{"any_housing"}, "", {}, 1}};
    design.brief.push_back(see);
  }
  proof::Proof proof;
  for (const char* id : {"R1", "R2", "R3"})
    for (const char* without : {"", "C1", "C2"}) proof.requirements.push_back(row(id, Verdict::met, without));
  Demand lost = only(design, proof, Asks::zones_lost);
  EXPECT_EQ(lost.verdict, Verdict::met);
  EXPECT_EQ(*lost.found, 0);
  proof.requirements[1].verdict = Verdict::not_met;  // R1 without C1
  lost = only(design, proof, Asks::zones_lost);
  EXPECT_EQ(lost.verdict, Verdict::met);
  EXPECT_EQ(*lost.found, 1);
  proof.requirements[4].verdict = Verdict::undecided;  // R2 without C1
  EXPECT_EQ(only(design, proof, Asks::zones_lost).verdict, Verdict::undecided);
  proof.requirements[4].verdict = Verdict::not_met;
  lost = only(design, proof, Asks::zones_lost);
  EXPECT_EQ(lost.verdict, Verdict::not_met);
  EXPECT_EQ(*lost.found, 2);
  EXPECT_EQ(lost.by, (std::vector<std::string>{"ZR1", "ZR2"}));
  // Two requirements of one zone are one zone.
  design.brief[1].zone = design.brief[0].zone;
  EXPECT_EQ(only(design, proof, Asks::zones_lost).verdict, Verdict::met);
  // What was left out of the proof may have fallen too.
  std::erase_if(proof.requirements, [](const auto& r) { return r.requirement.text == "R3"; });
  EXPECT_EQ(only(design, proof, Asks::zones_lost).verdict, Verdict::undecided);
  // Of a part whose loss was not proven nobody knows what falls with it.
  Design viewer = design;
  for (Requirement& r : viewer.brief) r.after_loss[0].of = {"V1"};
  EXPECT_EQ(only(viewer, proof, Asks::zones_lost).verdict, Verdict::undecided);
  // Another part's loss is no concern of it.
  for (Requirement& r : design.brief) r.after_loss[0].of = {"C2"};
  EXPECT_EQ(demandsOf(design, proof, {}, nullptr, {}, {{"R1"}}).front().verdict, Verdict::met);
  design.brief.pop_back();
  EXPECT_EQ(only(design, proof, Asks::zones_lost).verdict, Verdict::met);
}

}  // namespace
}  // namespace belvedere::requirements
