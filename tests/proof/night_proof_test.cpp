// SPDX-License-Identifier: GPL-3.0-or-later
//
// A night as it is proven: whose lamps burn, and what they give to whom.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "base/units.h"
#include "design_text.h"
#include "light/lit.h"
#include "light/relit.h"
#include "proof/conditions.h"
#include "proof/cover_findings.h"

namespace belvedere::proof {
namespace {

constexpr double kRangeM = 20;

// A head of four imagers, 3 m up, that look to the four quarters, each carrying a lamp of 20 m and 60 deg
// level along its axis. Luminaires keep the site at 50 lx; `modes` of the imagers, `lamps` as set.
design::Design head(const std::array<const char*, 4>& modes, bool paired) {
  Parts parts;
  std::string imagers, lamps, set, follows;
  for (int slot = 1; slot <= 4; ++slot) {
    const char* comma = slot > 1 ? ", " : "";
    imagers += fmt::format(
        R"({}{{"slot": {}, "pixels": [1920, 1080], "lens": {{"family": "rectilinear", "hfov_deg": [80],
        "f_number": [1.6]}}, "least_light": {{"lux": 0.5, "f_number": 1.6, "exposure_s": 0.04}},
        "pan_deg": [-180, 180], "tilt_deg": [-10, 90]}})", comma, slot);
    lamps += fmt::format(R"({}{{"slot": {}, "carried_by": {}, "beam_deg": 60, "range_m": {}}})", comma, slot,
                         slot, kRangeM);
    set += fmt::format(R"({}{{"slot": {}, "mode": "{}", "aims": [{{"pan_deg": {}, "tilt_deg": 0}}]}})", comma,
                       slot, modes[static_cast<std::size_t>(slot - 1)], 90 * (slot - 1));
    follows += fmt::format(R"({}{{"slot": {}, "follows": {}}})", comma, slot, slot);
  }
  parts.models = fmt::format(R"({{"id": "head", "kind": "housing", "imagers": [{}], "lamps": [{}]}})", imagers,
                             lamps);
  parts.housings = fmt::format(
      R"({{"id": "C1", "model": "head", "storey": "g", "mount": {{"fixing_m": [0, 0, 3]}},
      "imagers": [{}]{}}})", set, paired ? ", \"lamps\": [" + follows + "]" : "");
  parts.situations = R"({"id": "night", "lights": ["sky"]})";
  std::string text = designText(parts);
  const std::string key = "}, \"situations\"";
  text.insert(text.find(key), R"(, "lights": [{"id": "sky", "kind": "ambient", "lux": 50}])");
  return design::readDesignText(text, ".").design;
}

struct Night {
  std::shared_ptr<const Lighting> lighting;
  std::vector<design::PosedImager> views;
  // Of the lamps alone, to one imager, at a spot.
  double lampLight(std::size_t imager, const Vec3& at_m) const {
    const auto by = conditionsOf(views[imager], *lighting, design::TargetKind::person).light;
    return by ? light::litAt(*by, {}, at_m).lamp_light : 0;
  }
};
Night nightOf(const design::Design& design) {
  const design::Situation situation = design::situationsOf(design).front();
  const auto place = makePlace(design, situation, ".");
  return {makeLighting(design, situation, *place, "."),
          design::posedImagers(design, design::JudgedOn::captured)};
}

// Closed form, the inverse square: on the axis at half the range 4.0, at half the beam's angle and the
// range 0.5. Common practice, no source: as a group all lamps burn when one imager goes to mono,
// as pairs its own alone; an imager in colour gains nothing from them.
TEST(NightProof, LampsGroupedOrPaired) {
  const Vec3 half{0, kRangeM / 2, 3};
  const Vec3 edge{kRangeM * std::sin(degToRad(30)), kRangeM * std::cos(degToRad(30)), 3};
  for (const bool paired : {false, true}) {
    const Night day = nightOf(head({"by_light", "by_light", "by_light", "by_light"}, paired));
    EXPECT_EQ(day.lighting->light.burns, (std::vector<bool>{false, false, false, false}));
    const Night night = nightOf(head({"mono", "colour", "colour", "colour"}, paired));
    EXPECT_EQ(night.lighting->light.burns, (std::vector<bool>{true, !paired, !paired, !paired}));
    for (std::size_t imager = 1; imager < 4; ++imager) EXPECT_EQ(night.lampLight(imager, half), 0);
  }
  const Night pair = nightOf(head({"mono", "colour", "colour", "colour"}, true));
  EXPECT_NEAR(pair.lampLight(0, half), 4.0, 1e-9);
  EXPECT_NEAR(pair.lampLight(0, edge), 0.5, 1e-9);
  // As a group its neighbours' beams add their edges: 90 deg off an axis is (1/2)^9 of it.
  const Night group = nightOf(head({"mono", "colour", "colour", "colour"}, false));
  EXPECT_NEAR(group.lampLight(0, half), 4.0 * (1 + 2 * std::exp2(-9) + std::exp2(-36)), 1e-9);
}

// A dome of 60 mm, its lens in the centre, a lamp 30 mm behind that which looks north.
design::Design dome(double tilt_deg, bool lamp_inside = true, double most_tilt_deg = 90) {
  Parts parts;
  parts.models = fmt::format(
      R"({{"id": "dome", "kind": "housing", "cover_radius_mm": 60, "imagers": [{{"slot": 1,
      "pixels": [1920, 1080], "lens": {{"family": "rectilinear", "hfov_deg": [90]}}, "pan_deg": [-180, 180],
      "tilt_deg": [-15, {}]}}], "lamps": [{{"slot": 1, "beam_deg": 60, "range_m": 10,
      "offset_m": [{}, 0, 0]}}]}})", most_tilt_deg, lamp_inside ? -0.03 : 0.07);
  parts.housings = fmt::format(
      R"({{"id": "C1", "model": "dome", "storey": "g", "mount": {{"fixing_m": [0, 0, 3]}},
      "imagers": [{{"slot": 1, "mode": "mono", "aims": [{{"pan_deg": 0, "tilt_deg": {}}}]}}]}})", tilt_deg);
  return readDesignOf(parts);
}

// Closed form: light from behind the centre comes back along the radius it went out on: due north, level.
// A picture of 90 deg across is 2 atan(540/960) = 58.7 deg high: tilted 20 deg down it has that 20 deg
// above its axis, and 9.4 deg more, 10 in whole degrees, take it out; to the side it were 46. A lamp
// outside the sphere is neither mirrored nor a veil.
TEST(CoverFindings, TheLeastTurnTakesTheMirroredLampOut) {
  const auto found = [](const design::Design& design) {
    LeastTurns turns;
    return mirroredInCovers(design, design::situationsOf(design).front(), light::lampsOf(design),
                            design::posedImagers(design, design::JudgedOn::captured), turns, {});
  };
  const auto mirrored = found(dome(20));
  ASSERT_EQ(mirrored.size(), 1u);
  EXPECT_EQ(mirrored[0].code, "lamp_in_cover");
  EXPECT_EQ(mirrored[0].about, (std::vector<std::string>{"C1.1", "C1 lamp 1"}));
  for (const char* words : {"radius of 60 mm", "lens is 0 mm", "lamp 30 mm", "bearing of 0 deg, 0 deg down",
                            "tilted 10 deg farther down"})
    EXPECT_NE(mirrored[0].sentence.find(words), std::string::npos) << words << ": " << mirrored[0].sentence;
  EXPECT_TRUE(found(dome(30)).empty());
  EXPECT_TRUE(found(dome(20, false)).empty());
  ASSERT_EQ(coverVeils(dome(30)).size(), 1u);
  EXPECT_EQ(coverVeils(dome(30))[0].about, (std::vector<std::string>{"dome", "C1"}));
  EXPECT_TRUE(coverVeils(dome(20, false)).empty());
}

std::vector<Finding> mirrored(const design::Design& design) {
  LeastTurns turns;
  return mirroredInCovers(design, design::situationsOf(design).front(), light::lampsOf(design),
                          design::posedImagers(design, design::JudgedOn::captured), turns, {});
}

// Closed form, as above: where its limits forbid the 10 deg down, 46 deg to a side is the least: the ray, 20 deg
// above the axis, shows at tan(p)/cos(20) = 1 there at p = 43.2 deg and less. Another aim of the imager that
// has the lamp in its picture, too, does not keep the first from being turned out of it.
TEST(CoverFindings, TurnsWithinTheLimitsOneAimAtATime) {
  const auto sideways = mirrored(dome(20, true, 25));
  ASSERT_EQ(sideways.size(), 1u);
  EXPECT_NE(sideways[0].sentence.find("deg to the right it does not"), std::string::npos) << sideways[0].sentence;
  design::Design two = dome(20);
  std::vector<design::Aim>& aims = two.housings[0].imagers[0].aims;
  aims.push_back(aims[0]);
  aims[1].tilt_deg = 0;
  aims[0].time_share = aims[1].time_share = 0.5;
  const auto both = mirrored(two);
  ASSERT_EQ(both.size(), 2u);
  EXPECT_NE(both[0].sentence.find("tilted 10 deg farther down"), std::string::npos) << both[0].sentence;
  // Nor does a second lamp that is off, whose light would come back 30 deg below the horizon.
  design::Design spare = dome(20);
  spare.catalogue.models[0].lamps.push_back(spare.catalogue.models[0].lamps[0]);
  design::ModelLamp& second = spare.catalogue.models[0].lamps[1];
  second.slot = 2;
  second.tilt_deg = 30;
  second.offset_m = {-0.03 * std::cos(degToRad(30)), 0, 0.03 * std::sin(degToRad(30))};
  std::vector<light::Lamp> burning = light::lampsOf(spare);
  ASSERT_EQ(burning.size(), 2u);
  burning.pop_back();
  LeastTurns turns;
  const auto one = mirroredInCovers(spare, design::situationsOf(spare).front(), burning,
                                    design::posedImagers(spare, design::JudgedOn::captured), turns, {});
  ASSERT_EQ(one.size(), 1u);
  EXPECT_NE(one[0].sentence.find("tilted 10 deg farther down"), std::string::npos) << one[0].sentence;
}

// Closed form: of a lamp 30 mm west of the centre the light comes back along the radius due east and due
// west; a picture that looks east has the former in its middle. A lamp that is off veils nothing.
TEST(CoverFindings, SaysWhereOnTheCover) {
  design::Design design = dome(0);
  design.catalogue.models[0].lamps[0].offset_m = {0, -0.03, 0};
  design.catalogue.models[0].lamps[0].bearing_deg = 90;
  design.housings[0].imagers[0].aims[0].pan_deg = 90;
  const auto east = mirrored(design);
  ASSERT_EQ(east.size(), 1u);
  EXPECT_NE(east[0].sentence.find("at a bearing of 90 deg, 0 deg down"), std::string::npos) << east[0].sentence;
  design = dome(30);
  design.housings[0].lamps = {{1, 0}};
  EXPECT_TRUE(coverVeils(design).empty());
}

// The same dome with a first aim that looks the other way: the second is found all the same, is named, and is the one
// that is turned. An imager that is locked is not to be turned.
TEST(CoverFindings, EveryAimIsAsked) {
  design::Design design = dome(20);
  design::HousingImager& imager = design.housings[0].imagers[0];
  imager.aims[0].time_share = 0.5;
  imager.aims = {imager.aims[0], imager.aims[0]};
  imager.aims[0].pan_deg = 180;
  const auto found = [&] {
    LeastTurns turns;
    return mirroredInCovers(design, design::situationsOf(design).front(), light::lampsOf(design),
                            design::posedImagers(design, design::JudgedOn::captured), turns, {});
  };
  auto mirrored = found();
  ASSERT_EQ(mirrored.size(), 1u);
  for (const char* words : {"C1.1 aim 2 (", "with aim 2 tilted 10 deg farther down"})
    EXPECT_NE(mirrored[0].sentence.find(words), std::string::npos) << words << ": " << mirrored[0].sentence;
  imager.locked = true;
  mirrored = found();
  ASSERT_EQ(mirrored.size(), 1u);
  EXPECT_NE(mirrored[0].sentence.find("no turn that it may make"), std::string::npos) << mirrored[0].sentence;
}

// By hand: a carried lamp turns with the aim that is turned, so that a wall right before both cannot be left by a
// degree: asked of the second aim as of a single one.
TEST(CoverFindings, ACarriedLampTurnsWithTheAimThatIsTurned) {
  design::Design design = head({"mono", "mono", "colour", "colour"}, true);
  auto& aims = design.housings[0].imagers[0].aims;
  aims[0].tilt_deg = 0;
  aims.push_back(aims[0]);
  aims[1].pan_deg = 180;
  aims[0].time_share = aims[1].time_share = 0.5;
  std::vector<Vec3> axes;
  for (const design::PosedImager& view : design::posedImagers(design, design::JudgedOn::captured)) {
    if (view.slot != 1) continue;
    const auto sees = [&](const design::Design&, const design::PosedImager& turned,
                          const std::vector<light::Lamp>& lamps) {
      const auto own = std::ranges::find_if(lamps, [](const light::Lamp& lamp) { return lamp.slot == 1; });
      if (own == lamps.end()) {
        ADD_FAILURE() << "the lamp is gone";
        return true;
      }
      EXPECT_GT(dot(own->axis, turned.imager_from_site.row[2]), 0.999);
      return true;
    };
    EXPECT_FALSE(leastTurn(design, view, light::lampsOf(design), sees, {}));
    axes.push_back(view.imager_from_site.row[2]);
  }
  ASSERT_EQ(axes.size(), 2u);
  EXPECT_LT(dot(axes[0], axes[1]), -0.9);
}

// By hand: the same lamp asked for where it stands in one aim and in another gets a turn of each.
TEST(CoverFindings, TurnsAreKeptByWhereLampsStand) {
  const design::Design design = dome(20);
  const auto view = design::posedImagers(design, design::JudgedOn::captured).front();
  std::vector<light::Lamp> lamps = light::lampsOf(design);
  int asked = 0;
  const auto sees = [&](const design::Design&, const design::PosedImager&, const std::vector<light::Lamp>&) {
    ++asked;
    return false;
  };
  LeastTurns turns;
  turns.of("frame", design, view, lamps, sees, {});
  turns.of("frame", design, view, lamps, sees, {});
  EXPECT_EQ(asked, 1);
  lamps[0].at_m.x += 0.5;
  turns.of("frame", design, view, lamps, sees, {});
  EXPECT_EQ(asked, 2);
}

// Closed form, the inverse square: a lamp that an imager carries stands in each aim as that aim has it, 4.0 on
// its axis at half the range; to another imager it is as in the first.
TEST(NightProof, ACarriedLampTurnsWithEveryAim) {
  design::Design design = head({"mono", "mono", "colour", "colour"}, true);
  auto& aims = design.housings[0].imagers[0].aims;
  aims.push_back(aims[0]);
  aims[1].pan_deg = 180;
  const Vec3 north{0, kRangeM / 2, 3}, south{0, -kRangeM / 2, 3};
  const auto check = [&](const Night& night) {
    ASSERT_EQ(night.views[0].name, "C1.1 aim 1");
    EXPECT_NEAR(night.lampLight(0, north), 4.0 * (1 + std::exp2(-9)), 1e-9);
    EXPECT_NEAR(night.lampLight(1, south), 4.0 * (1 + std::exp2(-9)), 1e-9);
    EXPECT_LT(night.lampLight(1, north), 0.1);
    EXPECT_LT(night.lampLight(2, south), 0.1);
  };
  const Night whole = nightOf(design);
  check(whole);
  // As found anew for a search that varies one housing.
  design::Design before = design;
  before.housings[0].imagers[0].aims[1].pan_deg = 90;
  Night varied = nightOf(before);
  auto again = std::make_shared<Lighting>(*varied.lighting);
  again->light = light::relit(varied.lighting->light, design);
  check({again, whole.views});
}

// The search can be left, and what it found is not looked for again.
TEST(CoverFindings, TheTurnIsLookedForOnceAndCanBeLeft) {
  const design::Design design = dome(20);
  const auto found = [&](LeastTurns& turns, const Progress& progress) {
    return mirroredInCovers(design, design::situationsOf(design).front(), light::lampsOf(design),
                            design::posedImagers(design, design::JudgedOn::captured), turns, progress);
  };
  Progress left;
  left.cancel = true;
  LeastTurns turns;
  EXPECT_THROW(found(turns, left), Cancelled);
  const auto first = found(turns, {});
  ASSERT_EQ(first.size(), 1u);
  const auto again = found(turns, left);
  ASSERT_EQ(again.size(), 1u);
  EXPECT_EQ(again[0].sentence, first[0].sentence);
}

}  // namespace
}  // namespace belvedere::proof
