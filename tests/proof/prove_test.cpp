// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/prove.h"

#include <gtest/gtest.h>

#include <iostream>

#include "design_text.h"
#include "made_up.h"
#include "optics/density.h"
#include "proof/over_year.h"

namespace belvedere::proof {
namespace {

// All that a proof says, in figures that show the last bit; time spent is left out.
struct Said {
  std::string text;
  void add(const std::string& s) { text += s + "; "; }
  void add(double x) { text += fmt::format("{:a}; ", x); }
  void add(const Vec3& p) {
    add(p.x);
    add(p.y);
    add(p.z);
  }
  void add(const Bounds& b) {
    add(b.low);
    add(b.high);
  }
  void add(const Measure& m) {
    add(m.found);
    add(m.needed);
    add(m.unit);
    add(m.margin);
  }
  void add(const RequirementProof& r) {
    text += "\n";
    add(r.requirement.text);
    add(r.situation.text);
    add(static_cast<double>(r.kind));
    add(word(r.verdict));
    add(r.needed_px_per_m);
    add(r.asked);
    add(r.share);
    add(r.zone_m2);
    for (const ReasonShare& reason : r.reasons) {
      add(word(reason.reason));
      add(reason.share);
    }
    for (const Contribution& c : r.imagers) {
      add(c.imager);
      add(c.serves);
      add(c.alone);
    }
    if (r.worst) {
      add(r.worst->at);
      add(word(r.worst->reason));
      add(r.worst->imager);
      add(r.worst->measure);
      add(r.worst->height_m);
    }
    for (const std::string& stream : r.judged_on_streams) add(stream);
    if (r.densest_px_per_m) add(*r.densest_px_per_m);
    add(r.densest_imager);
    if (r.densest_at) add(*r.densest_at);
    add(r.finest_m);
    add(static_cast<double>(r.boxes));
  }
};
std::string said(RequirementProof r) {
  r.without.clear();  // says how it was come by, not what is proven
  Said all;
  all.add(r);
  return all.text;
}
std::string said(const Proof& proof) {
  Said all;
  all.add(proof.edition);
  all.add(proof.design_sha256);
  for (const RequirementProof& r : proof.requirements) {
    all.add(r);
    all.add(r.without);
  }
  for (const BlindZone& b : proof.blind_zones) {
    all.text += "\n";
    all.add(b.housing.text);
    all.add(b.slot);
    all.add(b.situation.text);
    all.add(b.target_height_m);
    all.add(b.foot_is_seen);
    for (const Polygon& polygon : b.outline) {
      for (const Vec2 p : polygon.outer) all.add(withZ(p, 0));
      for (const Ring& hole : polygon.holes)
        for (const Vec2 p : hole) all.add(withZ(p, 1));
    }
    all.add(b.area_m2);
  }
  for (const RingAt& ring : proof.rings) {
    all.text += "\n";
    all.add(ring.housing.text);
    all.add(ring.depression_deg);
    for (const RingArc& arc : ring.arcs) {
      all.add(arc.imager);
      all.add(arc.from_deg);
      all.add(arc.to_deg);
    }
    for (const auto& list : {ring.gaps_deg, ring.overlaps_deg})
      for (const auto& [from, to] : list) {
        all.add(from);
        all.add(to);
      }
  }
  for (const Finding& f : proof.findings) {
    all.text += "\n";
    all.add(f.code);
    all.add(f.sentence);
  }
  return all.text;
}

design::Design ferryTerminal() {
  return design::readDesign(std::filesystem::path(BELVEDERE_SOURCE_DIR) /
                            "examples/ferry_terminal/design.json").design;
}

// Property: the number of threads changes nothing that is said, to the last bit.
TEST(Prove, SaysTheSameWithOneTwoAndSevenThreads) {
  const design::Design design = ferryTerminal();
  std::string with_one;
  for (const int threads : {1, 2, 7}) {
    ProveOptions options;
    options.threads = threads;
    const Proof proof = prove(design, ".", options, {});
    EXPECT_GT(proof.requirements.size(), 10u);
    EXPECT_FALSE(proof.blind_zones.empty());
    EXPECT_FALSE(proof.rings.empty());
    if (threads == 1) with_one = said(proof);
    EXPECT_EQ(said(proof), with_one) << threads;
  }
}

// Property: after a loss, what is proven equals to the last digit the
// proof of the design with that housing taken out: each housing by turns, another task and share.
TEST(Prove, AfterALossEqualsTheDesignWithoutTheHousing) {
  design::Design design = ferryTerminal();
  design::Housing second = design.housings.front();
  second.id = {"C2"};
  second.mount.fixing_m = second.mount.fixing_m + Vec3{-5, 3, -1};
  for (design::HousingImager& imager : second.imagers)
    for (design::Aim& aim : imager.aims) aim.pan_deg += 30;
  for (design::Stream& stream : second.streams) stream.id.text += "_2";
  design.housings.push_back(second);
  design.brief.erase(std::remove_if(design.brief.begin(), design.brief.end(), [](const auto& r) {
    return r.id.text != "R1" && r.id.text != "R3";
  }), design.brief.end());
  ASSERT_EQ(design.brief.size(), 2u);
  design.brief[0].after_loss = {{{"C2"}, "", 0.5, {}}};
  design.brief[1].after_loss = {{{"any_housing"}, "detect", 0.9, {}}};
  ProveOptions options;
  options.blind_zones = false;
  options.width = 0.02;
  const Proof proof = prove(design, ".", options, {});
  int compared = 0;
  for (const RequirementProof& r : proof.requirements) {
    if (r.without.empty()) continue;
    design::Design less = design;
    std::erase_if(less.housings, [&](const auto& h) { return h.id.text == r.without; });
    ASSERT_EQ(less.housings.size(), 1u);
    for (design::Requirement& requirement : less.brief) {
      const design::AfterLoss loss = requirement.after_loss.front();
      if (!loss.still_task.empty()) requirement.task = loss.still_task;
      requirement.share = *loss.still_share;
      requirement.after_loss.clear();
    }
    for (const RequirementProof& other : prove(less, ".", options, {}).requirements)
      if (other.requirement == r.requirement && other.situation == r.situation) {
        EXPECT_EQ(said(r), said(other)) << r.without;
        ++compared;
      }
  }
  EXPECT_EQ(compared, 2 * 1 + 1 * 2);  // R1 in two situations; R3, in one, for each of two housings
  // The loss is felt: otherwise equal means little.
  EXPECT_NE(said(proof.requirements[0]), said(proof.requirements[1]));
}

// A hall with a rack that is there on some days, a shutter in a doorway, and glass.
Parts hall() {
  Parts parts;
  parts.walls = R"({"id": "w", "path": [[-8, 5], [8, 5]], "openings": [
    {"id": "gate", "from_m": 6, "width_m": 4, "sill_m": 0, "head_m": 3}]})";
  parts.solids = solidText("rack", "stock", rectangle(-3, 2, -1, 3), 0, 2) + ", " +
                 solidText("crates", "stock", rectangle(1, 6, 2, 7), 0, 1.7);
  parts.zones = R"({"id": "near", "storey": "g", "outline": [[-6, 0], [6, 0], [6, 4.5], [-6, 4.5]]},
    {"id": "far", "storey": "g", "outline": [[-4, 5.5], [4, 5.5], [4, 9], [-4, 9]]})";
  parts.brief = R"({"id": "R1", "zone": "near", "target": {"kind": "person"}, "px_per_m": 60},
    {"id": "R2", "zone": "far", "target": {"kind": "face"}, "px_per_m": 60, "share": 0.5})";
  parts.models = R"({"id": "m", "kind": "housing", "imagers": [{"slot": 1, "pixels": [3840, 2160],
    "lens": {"family": "rectilinear", "hfov_deg": [100]}, "pan_deg": [-180, 180],
    "tilt_deg": [0, 90]}]})";
  parts.housings = R"({"id": "C1", "model": "m", "storey": "g", "mount": {"fixing_m": [0.5, -2, 2.9]},
    "imagers": [{"slot": 1, "aims": [{"pan_deg": 5, "tilt_deg": 20}]}], "streams": [
    {"id": "main", "from": [1], "size_px": [3840, 2160], "use": ["viewed"]},
    {"id": "kept", "from": [1], "size_px": [1280, 720], "use": ["recorded"]}]})";
  return parts;
}

// Property: toggling a situation equals separate designs, to the last digit: stock that is there on some
// days only, stock that is away, a doorway's shutter.
TEST(SiteStates, TogglingAStateEqualsSeparateModels) {
  Parts parts = hall();
  parts.walls = R"({"id": "w", "path": [[-8, 5], [8, 5]], "openings": [
    {"id": "gate", "from_m": 6, "width_m": 4, "sill_m": 0, "head_m": 3, "material": "steel"}]})";
  parts.materials = R"({"id": "steel", "light": "blocks", "infrared": "blocks"})";
  parts.situations = R"({"id": "shut"}, {"id": "open", "absent": ["gate"]},
    {"id": "full", "absent": ["gate"], "present": ["rack"]},
    {"id": "empty", "absent": ["gate", "crates"]})";
  const design::Design design = readDesignOf(parts);
  ProveOptions options;
  options.blind_zones = false;
  const Proof proof = prove(design, ".", options, {});
  ASSERT_EQ(proof.requirements.size(), 8u);
  struct State {
    const char* id;
    bool gate, rack, crates;
  };
  std::vector<std::string> met;
  for (const State& state : {State{"shut", true, false, true}, State{"open", false, false, true},
                             State{"full", false, true, true}, State{"empty", false, false, false}}) {
    design::Design alike = design;
    alike.situations = {design::Situation{}};
    alike.situations[0].id = {state.id};
    if (!state.gate) alike.site.buildings[0].storeys[0].walls[0].openings[0].material = {};
    std::erase_if(alike.site.solids, [&](const design::Solid& s) {
      return s.id.text == "rack" ? !state.rack : !state.crates;
    });
    for (const RequirementProof& r : prove(alike, ".", options, {}).requirements)
      for (const RequirementProof& toggled : proof.requirements)
        if (toggled.requirement == r.requirement && toggled.situation == r.situation) {
          EXPECT_EQ(said(toggled), said(r));
          std::string answer = fmt::format("{} {:.3f}", r.requirement.text, r.share.low);
          if (std::find(met.begin(), met.end(), answer) == met.end()) met.push_back(answer);
        }
  }
  // R1 with the rack and without; R2 with the gate shut, open, behind the rack, without the crates.
  EXPECT_EQ(met.size(), 6u);
}

// Closed form: each state weighs by its hours, and the weights are 100 %: of states that differ in nothing
// each has the year's share, and of those that differ the year's share is their mean by hours. The
// hours met are those of the states in which it is met.
TEST(SiteStates, TimeWeightedSharesSumToAHundredPercent) {
  const std::vector<double> hours{5000, 2760, 1000};
  for (const bool alike : {true, false}) {
    Parts parts = hall();
    parts.situations = fmt::format(
        R"({{"id": "s", "hours_per_year": {}{}}}, {{"id": "t", "hours_per_year": {}{}}},
        {{"id": "u", "hours_per_year": {}}})", hours[0], alike ? "" : R"(, "absent": ["crates"])", hours[1],
        alike ? "" : R"(, "present": ["rack"])", hours[2]);
    const design::Design design = readDesignOf(parts);
    ProveOptions options;
    options.blind_zones = false;
    const Proof proof = prove(design, ".", options, {});
    for (const char* id : {"R1", "R2"}) {
      const auto year = overYear(design, proof, {id});
      ASSERT_TRUE(year);
      EXPECT_EQ(year->hours, 8760);
      double low = 0, weights = 0, met_hours = 0, state = 0;
      for (const RequirementProof& row : proof.requirements) {
        if (row.requirement.text != id) continue;
        const double weight = hours[static_cast<std::size_t>(row.situation.text[0] - 's')] / 8760;
        weights += weight;
        low += weight * row.share.low;
        if (row.verdict == Verdict::met) met_hours += weight * 8760;
        state = row.share.low;
      }
      EXPECT_NEAR(weights, 1, 1e-12);
      EXPECT_NEAR(year->share.low, low, 1e-12);
      EXPECT_NEAR(year->met_hours, met_hours, 1e-9);
      if (alike) {
        EXPECT_NEAR(year->share.low, state, 1e-12);
      }
    }
  }
}

// Closed form: of 3840 pixels recorded as 1280, density is a third, exactly; of a tile 960
// wide on the operator's screen a quarter; the verdict is that of the stream that is named.
TEST(Prove, DensityIsThatOfTheStreamThatIsNamed) {
  Parts parts = hall();
  parts.situations = R"({"id": "day"})";
  parts.screens = R"({"id": "wall", "stream": "main", "tile_px": [960, 540]})";
  const design::Design design = readDesignOf(parts);
  const auto densityOn = [&](design::JudgedOn stream, Vec2 at) {
    design::Design judged = design;
    judged.brief[0].judged_on = stream;
    return answerAt(questionOf(judged), at, 5).px_per_m;
  };
  for (const Vec2 at : {Vec2{0, 2}, Vec2{-3, 4}, Vec2{4, 3.3}}) {
    const double captured = densityOn(design::JudgedOn::captured, at);
    EXPECT_GT(captured, 100);
    EXPECT_NEAR(densityOn(design::JudgedOn::recorded, at), captured / 3, 1e-12 * captured);
    EXPECT_NEAR(densityOn(design::JudgedOn::viewed, at), captured / 4, 1e-12 * captured);
  }
  // A small zone, and a density between those of the streams: each verdict is its stream's.
  design::Design asked = design;
  asked.site.zones[0].outline = {{0, 3}, {0.1, 3}, {0.1, 3.1}, {0, 3.1}};
  asked.brief.resize(1);
  const double captured = densityOn(design::JudgedOn::captured, {0.05, 3.05});
  struct Named {
    design::JudgedOn stream;
    std::vector<std::string> on;
    double share;
  };
  for (const Named& named : {Named{design::JudgedOn::captured, {}, 1},
                             Named{design::JudgedOn::recorded, {"kept"}, 1.0 / 3},
                             Named{design::JudgedOn::viewed, {"main"}, 1.0 / 4}})
    for (const double needed : {0.9, 1.1 / 3, 0.9 / 3, 1.1 / 4, 0.9 / 4}) {
      asked.brief[0].judged_on = named.stream;
      asked.brief[0].px_per_m = needed * captured;
      ProveOptions options;
      options.blind_zones = false;
      const RequirementProof proof = prove(asked, ".", options, {}).requirements.at(0);
      EXPECT_EQ(proof.verdict, named.share > needed ? Verdict::met : Verdict::not_met) << needed;
      EXPECT_EQ(proof.judged_on_streams, named.on);
    }
}

// Published (IEC 62676-4:2014 and :2025, as tests/design/task_table_test.cpp has them; the second
// from memory): 250 px/m identifies under the one and characterises under the other, and to know
// who a person is takes 500: the same design meets the one and not the other, and each answer
// carries its edition.
TEST(Prove, TheSameDesignUnderBothEditions) {
  Parts parts = hall();
  parts.situations = R"({"id": "day"})";
  design::Design design = readDesignOf(parts);
  design.site.zones[0].outline = {{0, 2}, {0.5, 2}, {0.5, 2.5}, {0, 2.5}};
  design.brief.resize(1);
  design::Requirement& r = design.brief[0];
  r.px_per_m.reset();
  r.judged_on = design::JudgedOn::captured;
  ProveOptions options;
  options.blind_zones = false;
  struct Case {
    const char* edition;
    const char* task;
    double px_per_m;
    Verdict verdict;
  };
  for (const Case& c : {Case{"2014", "identify", 250, Verdict::met},
                        Case{"2025", "characterise", 250, Verdict::met},
                        Case{"2025", "validate", 500, Verdict::not_met},
                        Case{"2014", "inspect", 1000, Verdict::not_met}}) {
    design.task_table.edition = c.edition;
    r.task = c.task;
    const Proof proof = prove(design, ".", options, {});
    EXPECT_NE(proof.edition.find(c.edition), std::string::npos);
    EXPECT_EQ(proof.requirements.at(0).needed_px_per_m, c.px_per_m);
    EXPECT_EQ(proof.requirements.at(0).verdict, c.verdict) << c.task;
  }
  // 250 px/m itself, whatever it is called: the same proof under both.
  r.task.clear();
  r.px_per_m = 250;
  design.task_table.edition = "2014";
  const Proof before = prove(design, ".", options, {});
  design.task_table.edition = "2025";
  const Proof after = prove(design, ".", options, {});
  EXPECT_EQ(said(before.requirements.at(0)), said(after.requirements.at(0)));
  EXPECT_NE(before.edition, after.edition);
}

// Property: only what is asked for is proven, in the order of the brief, and a requirement that a
// situation takes the zone away from says nothing there.
TEST(Prove, AnswersWhatIsAskedAndNothingElse) {
  Parts parts = hall();
  parts.situations = R"({"id": "day"}, {"id": "night", "absent": ["far"]})";
  const design::Design design = readDesignOf(parts);
  const auto names = [&](const ProveOptions& options) {
    std::string all;
    for (const auto& r : prove(design, ".", options, {}).requirements)
      all += r.requirement.text + " " + r.situation.text + ", ";
    return all;
  };
  ProveOptions options;
  EXPECT_EQ(names(options), "R1 day, R1 night, R2 day, ");
  options.only = {{"R2"}};
  EXPECT_EQ(names(options), "R2 day, ");
  EXPECT_TRUE(prove(design, ".", options, {}).blind_zones.empty());
}

std::string codesOf(const Proof& proof, Severity severity) {
  std::string codes;
  for (const Finding& f : proof.findings)
    if (f.severity == severity) codes += f.code + " ";
  return codes;
}

// Regression: what is never asked passed for met. It is a shortfall: an empty brief, a zone that is
// there in none of its requirement's situations, the loss of a housing that is removed anyway.
TEST(Prove, WhatIsNeverAskedFallsShort) {
  Parts parts = hall();
  parts.situations = R"({"id": "day"}, {"id": "night", "absent": ["far"]})";
  parts.brief = R"({"id": "R1", "zone": "near", "target": {"kind": "person"}, "px_per_m": 1,
      "share": 0.01, "after_loss": [{"of": "C2", "still_share": 0.01}]},
    {"id": "R2", "zone": "far", "px_per_m": 60, "situations": ["night"]})";
  std::string second = parts.housings;
  for (const auto& [from, to] : {std::pair{"C1", "C2"}, {"\"main\"", "\"main2\""}, {"\"kept\"", "\"kept2\""},
                                 {"\"model\"", "\"life\": \"removed\", \"model\""}})
    second.replace(second.find(from), std::string(from).size(), to);
  parts.housings += ", " + second;
  design::Design design = readDesignOf(parts);
  ProveOptions options;
  options.blind_zones = false;
  EXPECT_EQ(codesOf(prove(design, ".", options, {}), Severity::shortfall),
            "loss_of_removed zone_never_there ");
  options.only = {{"R2"}};
  EXPECT_EQ(codesOf(prove(design, ".", options, {}), Severity::shortfall), "zone_never_there ");
  design.brief[0].after_loss.clear();
  options.only = {{"R1"}};
  EXPECT_EQ(codesOf(prove(design, ".", options, {}), Severity::shortfall), "");
  design.brief.clear();
  EXPECT_EQ(codesOf(prove(design, ".", {}, {}), Severity::shortfall), "nothing_asked ");
}

// Regression: a zone of no area was undecided without a reason, or kept; and where the solid is away
// on which a zone's targets stand, they were judged in the air.
TEST(Prove, NoPlaceToStandIsSaidAndNotJudged) {
  Parts parts = hall();
  parts.situations = R"({"id": "day"}, {"id": "night", "absent": ["crates"]})";
  parts.zones = R"({"id": "near", "storey": "g", "outline": [[-2.5, 2.2], [-1.5, 2.2], [-1.5, 2.8]]},
    {"id": "far", "storey": "g", "surface": "crates", "outline": [[1, 6], [2, 6], [2, 7], [1, 7]]})";
  parts.brief = R"({"id": "R1", "zone": "near", "px_per_m": 60, "situations": ["day"]},
    {"id": "W1", "kind": "withhold", "zone": "near", "px_per_m": 60, "situations": ["day"]},
    {"id": "R2", "zone": "far", "target": {"kind": "floor"}, "px_per_m": 1, "share": 0.01},
    {"id": "W2", "kind": "withhold", "zone": "far", "px_per_m": 60, "situations": ["night"]})";
  ProveOptions options;
  options.blind_zones = false;
  const Proof proof = prove(readDesignOf(parts), ".", options, {});
  ASSERT_EQ(proof.requirements.size(), 5u);
  for (const RequirementProof& r : proof.requirements)
    EXPECT_EQ(r.verdict, r.requirement.text == "R2" && r.situation.text == "day" ? Verdict::met
                                                                                 : Verdict::undecided)
        << r.requirement.text << " " << r.situation.text;
  EXPECT_EQ(codesOf(proof, Severity::shortfall),
            "zone_without_area zone_without_area surface_absent surface_absent ");
}

// Regression: where two holes of a zone overlap, the overlap counted as part of the zone.
TEST(Prove, OverlappingHolesAreHoles) {
  Parts parts = hall();
  parts.zones = R"({"id": "near", "storey": "g", "outline": [[-6, 0], [6, 0], [6, 1.5], [-6, 1.5]],
    "holes": [[[0, 0.5], [2, 0.5], [2, 1], [0, 1]], [[1, 0.5], [3, 0.5], [3, 1], [1, 1]]]},
    {"id": "far", "storey": "g", "surface": "crates", "outline": [[1, 6], [2, 6], [2, 7], [1, 7]],
     "holes": [[[1.2, 6.2], [1.6, 6.2], [1.6, 6.6], [1.2, 6.6]],
               [[1.4, 6.4], [1.8, 6.4], [1.8, 6.8], [1.4, 6.8]]]})";
  const design::Design design = readDesignOf(parts);
  const Question near = questionOf(design), far = questionOf(design, 1);
  EXPECT_NEAR(near.region_m2, 18 - 1.5, 1e-6);
  EXPECT_FALSE(contains(near.region, {1.5, 0.75}));
  EXPECT_NEAR(far.region_m2, 1 - 0.28, 1e-6);
  EXPECT_FALSE(contains(far.region, {1.5, 6.5}));
}

// Property: whoever cancels gets no half-proof.
TEST(Prove, ThrowsWhenCancelled) {
  Progress progress;
  progress.cancel = true;
  EXPECT_THROW(prove(ferryTerminal(), ".", {}, progress), Cancelled);
}

}  // namespace
}  // namespace belvedere::proof
