// SPDX-License-Identifier: GPL-3.0-or-later
//
// What explain proposes where it is too dark or unsharp.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "design_text.h"
#include "proof/explain.h"

namespace belvedere::proof {
namespace {

// A dark slab; a head of two imagers that look east and west, with a lamp of 10 m that looks east.
// `lights`, `imager` (keys of an imager as set), `lamps`, `lens` (keys of the model's imager), more housings.
struct Dark {
  double lux = 0.01;
  std::string east, lamps, model_imager, housings, models;
  std::string lamp = R"({"slot": 1, "bearing_deg": 0, "tilt_deg": 15, "beam_deg": 70, "range_m": 10})";
};
design::Design site(const Dark& dark) {
  Parts parts;
  const auto imager = [&](int slot) {
    return fmt::format(
        R"({{"slot": {}, "pixels": [1920, 1080], "lens": {{"family": "rectilinear", "hfov_deg": [80],
        "f_number": [1.6]}}, "least_light": {{"lux": 0.5, "f_number": 1.6, "exposure_s": 0.04}},
        "pan_deg": [-180, 180], "tilt_deg": [-10, 90], "roll_deg": [0, 0]{}}})",
        slot, dark.model_imager);
  };
  parts.models = fmt::format(
      R"({{"id": "twin", "kind": "housing", "imagers": [{}, {}], "lamps": [{}]}}{})", imager(1),
      imager(2), dark.lamp, dark.models);
  parts.housings = fmt::format(
      R"({{"id": "C1", "model": "twin", "storey": "g", "mount": {{"fixing_m": [0, 0, 3],
      "base_bearing_deg": 90}}, "imagers": [{{"slot": 1, "locked": true,
      "aims": [{{"pan_deg": 90, "tilt_deg": 20}}]{}}},
      {{"slot": 2, "locked": true, "aims": [{{"pan_deg": 270, "tilt_deg": 20}}]}}]{}}}{})",
      dark.east, dark.lamps, dark.housings);
  parts.zones = R"({"id": "yard", "storey": "g", "outline": [[-16, -2], [16, -2], [16, 2], [-16, 2]]})";
  parts.situations = R"({"id": "night", "lights": ["sky"]})";
  parts.brief = R"({"id": "R1", "purpose": "who", "kind": "see", "zone": "yard",
    "target": {"kind": "person", "speed_mps": 1.4}, "px_per_m": 20})";
  std::string text = designText(parts);
  const std::string key = ", \"zones\"";
  text.insert(text.find(key),
              fmt::format(R"(, "lights": [{{"id": "sky", "kind": "ambient", "lux": {}}}])", dark.lux));
  return design::readDesignText(text, ".").design;
}

struct Asked {
  Reason reason = Reason::served;
  std::vector<Change> changes;
};
// Every proposed change must serve the spot in the changed design, asked anew, and be a design that can
// be read.
Asked ask(const design::Design& design, Vec2 at) {
  const Question q = questionOf(design);
  const SpotExplanation spot = explainSpot(design, q, at);
  Asked asked{spot.nearest.reason, changesFor(design, q, spot, {}, {})};
  for (const Change& change : asked.changes) {
    const design::Design changed = withChange(design, change);
    EXPECT_EQ(problemsWith(changed), "") << change.sentence;
    const Question again = questionOf(changed);
    EXPECT_EQ(explainSpot(changed, again, at).nearest.reason, Reason::served) << change.sentence;
    EXPECT_GT(change.effort, 0);
  }
  return asked;
}
const Change* of(const Asked& asked, ChangeKind kind) {
  const auto at = std::find_if(asked.changes.begin(), asked.changes.end(),
                               [&](const Change& c) { return c.kind == kind; });
  return at == asked.changes.end() ? nullptr : &*at;
}

// Common practice, no source: an imager whose lamp follows another stays dark; let it follow, and it is lit.
TEST(LightChanges, ALampThatIsOffOrFollowsAnotherIsGivenBack) {
  Dark dark;
  dark.lamps = R"(, "lamps": [{"slot": 1, "follows": 0}])";
  const Asked off = ask(site(dark), {8, 0});
  EXPECT_EQ(off.reason, Reason::too_dark);
  const Change* follow = of(off, ChangeKind::follow);
  ASSERT_TRUE(follow);
  EXPECT_NE(follow->sentence.find("lamp 1"), std::string::npos) << follow->sentence;
}

// Closed form: at 13 m a lamp of 10 m gives (10/13)^2 = 0.59 of what is enough; twice the time makes it
// enough, and a new lamp of 15 m, the next of the series, does.
TEST(LightChanges, LongerExposureOrAnotherLampOfTheLeastRangeThatSuffices) {
  const Asked asked = ask(site({}), {13, 0});
  EXPECT_EQ(asked.reason, Reason::too_dark);
  const Change* exposure = of(asked, ChangeKind::exposure);
  ASSERT_TRUE(exposure);
  EXPECT_NEAR(exposure->by, 0.08, 1e-9);
  // 20 px/m at 1.4 m/s and 0.08 s.
  EXPECT_NE(exposure->sentence.find("smears a target at 1.4 m/s over 2.2 px"), std::string::npos) << exposure->sentence;
  const Change* lamp = of(asked, ChangeKind::add_lamp);
  ASSERT_TRUE(lamp);
  ASSERT_TRUE(lamp->lamp);
  EXPECT_LE(lamp->lamp->lamps.front().range_m, 15);
  EXPECT_GE(lamp->lamp->lamps.front().wave_nm, 800);
  EXPECT_EQ(lamp->as->id.text, "L1");
}

// A lamp of the catalogue that suffices goes before one that would have to be found.
TEST(LightChanges, TakesALampOfTheCatalogue) {
  Dark dark;
  dark.models = R"(, {"id": "far", "kind": "lamp", "lamps": [{"slot": 1, "beam_deg": 40, "range_m": 60}]},
    {"id": "farther", "kind": "lamp", "lamps": [{"slot": 1, "beam_deg": 40, "range_m": 90}]})";
  const Asked asked = ask(site(dark), {14, 0});
  const Change* lamp = of(asked, ChangeKind::add_lamp);
  ASSERT_TRUE(lamp);
  EXPECT_FALSE(lamp->lamp);
  EXPECT_EQ(lamp->as->model.text, "far");  // the least range that suffices
}

// A lamp that stands alone and looks away is turned.
TEST(LightChanges, TurnsALampThatStandsAlone) {
  Dark dark;
  dark.models = R"(, {"id": "far", "kind": "lamp", "lamps": [{"slot": 1, "beam_deg": 30, "range_m": 40}]})";
  dark.housings = R"(, {"id": "D1", "model": "far", "storey": "g",
    "mount": {"fixing_m": [0, 10, 3], "base_bearing_deg": 300}, "imagers": []})";
  const Asked asked = ask(site(dark), {14, 0});
  const Change* turn = of(asked, ChangeKind::turn_lamp);
  ASSERT_TRUE(turn);
  EXPECT_EQ(turn->as->id.text, "D1");
  // Due south-east: 14 m east and 10 m south.
  EXPECT_NEAR(turn->as->mount.base_bearing_deg, 90 + 35.54, 0.1);
  // From 3 m to the middle of a person's 0.2 to 1.8 m or so, over 17.2 m.
  EXPECT_NEAR(turn->as->mount.base_tilt_deg, 6.6, 0.6);
}

// Property: a lamp on a housing whose imagers look elsewhere is not turned away from what they see, near as it is.
TEST(LightChanges, LeavesLampsThatServeImagersWhereTheyAre) {
  Dark dark;
  dark.lamps = R"(, "lamps": [{"slot": 1, "follows": 0}])";
  dark.housings = R"(, {"id": "C2", "model": "twin", "storey": "g",
    "mount": {"fixing_m": [8, 6, 3], "base_bearing_deg": 90},
    "imagers": [{"slot": 1, "locked": true, "aims": [{"pan_deg": 90, "tilt_deg": 20}]}]})";
  const Asked asked = ask(site(dark), {8, 0});
  EXPECT_EQ(asked.reason, Reason::too_dark);
  EXPECT_FALSE(of(asked, ChangeKind::turn_lamp));
}

// Handbook 9: an imager held in colour gains nothing from infrared; let it go to mono.
TEST(LightChanges, LetsAnImagerInColourGoToMono) {
  Dark dark;
  dark.east = R"(, "mode": "colour")";
  const Asked asked = ask(site(dark), {8, 0});
  EXPECT_EQ(asked.reason, Reason::too_dark);
  ASSERT_TRUE(of(asked, ChangeKind::mode));
  EXPECT_NE(of(asked, ChangeKind::mode)->sentence.find("mono"), std::string::npos);
}

// Closed form: light through a lens falls with the square of its F-number, a lamp's with that of the distance. The
// lamp of 10 m range is enough at f/1.6 and 10 m on its axis.
TEST(LightChanges, OpensALensThatIsStoppedDown) {
  Dark dark;
  dark.east = R"(, "f_number": 8)";
  const Asked near = ask(site(dark), {5, 0});
  EXPECT_EQ(near.reason, Reason::too_dark);
  const Change* open = of(near, ChangeKind::open_up);
  ASSERT_TRUE(open);
  // Feet are worst off: 5.73 m away and 14.2 deg off the axis of a beam of 70 deg, (10/5.73)^2 0.5^((14.2/35)^2) =
  // 2.72 at f/1.6, of which f/2.8 leaves 0.89 and f/2 1.74.
  EXPECT_DOUBLE_EQ(open->by, 2);
  EXPECT_EQ(open->as->imagers.front().f_number, 2.0);
  EXPECT_NE(open->sentence.find("from f/8 to f/2; it then gets 16 times the light"), std::string::npos)
      << open->sentence;
  // Nothing is less to do.
  EXPECT_DOUBLE_EQ(open->effort, near.changes.front().effort);
  // There 8.95 m and 3.2 deg: 1.24, of which f/2 leaves 0.79: as wide as it opens.
  const Asked far = ask(site(dark), {8.5, 0});
  ASSERT_TRUE(of(far, ChangeKind::open_up));
  EXPECT_NEAR(of(far, ChangeKind::open_up)->by, 1.6, 1e-9);
  EXPECT_FALSE(of(far, ChangeKind::open_up)->as->imagers.front().f_number);
  // Beyond the lamp's range, or open already, there is nothing to open.
  EXPECT_FALSE(of(ask(site(dark), {13, 0}), ChangeKind::open_up));
  EXPECT_FALSE(of(ask(site({}), {13, 0}), ChangeKind::open_up));
}

// Closed form: f = 960 / tan 40 px at 8 um is 9.15 mm; at f/1.6 and focused at 3 m, 12 m are out of focus;
// focused there, they are not.
TEST(FocusChanges, FocusIsSetToTheSpot) {
  Dark dark;
  dark.lux = 1000;
  dark.model_imager = R"(, "pitch_um": 8)";
  design::Design design = site(dark);
  for (design::HousingImager& imager : design.housings[0].imagers) imager.aims[0].focus_m = 3;
  const Asked asked = ask(design, {12, 0});
  EXPECT_EQ(asked.reason, Reason::unsharp);
  const Change* focus = of(asked, ChangeKind::focus);
  ASSERT_TRUE(focus);
  EXPECT_NEAR(focus->by, 12, 1.5);
  EXPECT_EQ(std::fmod(focus->by, 0.5), 0);  // so far off no ring is set finer
}

// Closed form, the thin lens: the same lens brings infrared to a focus 60 um behind that of light. By night a person
// 12 m off (f^2 / 11.95 m = 7.0 um behind the focal plane) is sharp with the lens set to 67.0 um: f^2 / 67.0 um = 1.25 m.
TEST(FocusChanges, FocusForInfraredIsSetToWhereLightWouldBe) {
  Dark dark;
  dark.model_imager = R"(, "pitch_um": 8)";
  dark.lamp = R"({"slot": 1, "bearing_deg": 0, "tilt_deg": 10, "beam_deg": 70, "range_m": 40})";
  design::Design design = site(dark);
  for (design::ModelImager& imager : design.catalogue.models[0].imagers) imager.lens.infrared_shift_um = 60;
  for (design::HousingImager& imager : design.housings[0].imagers) imager.aims[0].focus_m = 12;
  const Asked asked = ask(design, {12, 0});
  EXPECT_EQ(asked.reason, Reason::unsharp);
  const Change* focus = of(asked, ChangeKind::focus);
  ASSERT_TRUE(focus);
  EXPECT_NEAR(focus->by, 1.26, 0.02);
  EXPECT_NE(focus->sentence.find("by light, so that infrared is sharpest at"), std::string::npos) << focus->sentence;
}

// A lens of f = 960 / tan 40 px at 8 um (9.15 mm), f/1.6, focused at 3 m and held in colour.
design::Design focusedNear(double lux, const std::string& more = "") {
  Dark dark;
  dark.lux = lux;
  dark.model_imager = R"(, "pitch_um": 8)";
  dark.east = R"(, "mode": "colour")" + more;
  design::Design design = site(dark);
  for (design::HousingImager& imager : design.housings[0].imagers) imager.aims[0].focus_m = 3;
  return design;
}

// Closed form, the thin lens: at f/1.6 H = 6.55 m, and 3 m reach to 5.5 m; a person 12 m off is up to
// 12.3 m along the axis, which asks for H of 3.97 m, and so f/2.64 at least. f/2.8, the next stop, needs
// (2.8/1.6)^2 times the light (exposure is held where E t / N^2 is; handbook 8): 0.5 lx become 1.53125.
TEST(Aperture, StoppingDownSharpensAZoneAndCostsLight) {
  const auto answerOf = [](const design::Design& design) {
    return explainSpot(design, questionOf(design), {12, 0}).nearest;
  };
  EXPECT_EQ(answerOf(focusedNear(1.54)).reason, Reason::unsharp);
  EXPECT_EQ(answerOf(focusedNear(1.54, R"(, "f_number": 2.6)")).reason, Reason::unsharp);
  EXPECT_EQ(answerOf(focusedNear(1.54, R"(, "f_number": 2.8)")).reason, Reason::served);
  const Answer dark = answerOf(focusedNear(1.52, R"(, "f_number": 2.8)"));
  EXPECT_EQ(dark.reason, Reason::too_dark);
  EXPECT_NEAR(dark.measure.needed, 0.5 * 2.8 * 2.8 / (1.6 * 1.6), 1e-9);
  // No lens opens wider than it does.
  const design::Design wide = focusedNear(1.54, R"(, "f_number": 1)");
  EXPECT_EQ(questionOf(wide).views[0].f_number, 1.6);
}

// Closed form, as above: the least stop of the row that serves, and none where there is no light to spare.
TEST(Aperture, ExplainProposesTheLeastStopThereIsLightFor) {
  const Asked asked = ask(focusedNear(1.54), {12, 0});
  const Change* stop = of(asked, ChangeKind::stop_down);
  ASSERT_TRUE(stop);
  EXPECT_EQ(stop->by, 2.8);
  EXPECT_NE(stop->sentence.find("3.06 times the light"), std::string::npos) << stop->sentence;
  EXPECT_FALSE(of(ask(focusedNear(1.52), {12, 0}), ChangeKind::stop_down));
}

// Closed form, 2.44 lambda N: pixels of 1 um are as fine as half a point's image at f/1.5 already: stopping
// down gains nothing, and is not proposed.
TEST(Aperture, ExplainDoesNotStopDownIntoDiffraction) {
  Dark dark;
  dark.lux = 1000;
  dark.model_imager = R"(, "pitch_um": 1)";
  design::Design design = site(dark);
  for (design::HousingImager& imager : design.housings[0].imagers) imager.aims[0].focus_m = 0.5;
  const Asked asked = ask(design, {12, 0});
  EXPECT_EQ(asked.reason, Reason::unsharp);
  EXPECT_FALSE(of(asked, ChangeKind::stop_down));
  EXPECT_TRUE(of(asked, ChangeKind::focus));
}

// Closed form: a lamp's range is of a lens that is wide open; at twice the F-number a quarter of the
// light comes through, and half the range is left.
TEST(Aperture, ALampReachesHalfAsFarAtTwiceTheFNumber) {
  for (const bool stated : {true, false}) {
    const auto reasonAt = [&](double f_number, double x_m) {
      Dark dark;
      dark.lux = 0;
      dark.lamp = R"({"slot": 1, "bearing_deg": 0, "tilt_deg": 15, "beam_deg": 360, "range_m": 12})";
      design::Design design = site(dark);
      design.housings[0].imagers[0].f_number = f_number;
      if (!stated)
        for (design::ModelImager& imager : design.catalogue.models[0].imagers) imager.least_light.reset();
      return explainSpot(design, questionOf(design), {x_m, 0}).nearest.reason;
    };
    EXPECT_EQ(reasonAt(1.6, 10), Reason::served) << stated;
    EXPECT_EQ(reasonAt(3.2, 10), Reason::too_dark) << stated;
    EXPECT_EQ(reasonAt(3.2, 4.5), Reason::served) << stated;
  }
}

}  // namespace
}  // namespace belvedere::proof
