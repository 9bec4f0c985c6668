// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lamps.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "design/resolve.h"
#include "made_up.h"

namespace belvedere::light {
namespace {

// A housing with three imagers (by light) and two lamps.
design::Design site() {
  design::Design design;
  design::Model model;
  model.id = {"M"};
  for (int slot = 1; slot <= 3; ++slot) {
    design::ModelImager imager;
    imager.slot = slot;
    imager.pixels = {1920, 1080};
    imager.lens.hfov_deg = {90};
    model.imagers.push_back(imager);
  }
  model.lamps = {{1, 0, 10, 60, 30, 850, {}}, {2, 90, 10, 60, 30, 850, {}}};
  design.library.push_back(model);
  design::Model pole;
  pole.id = {"P"};
  pole.kind = design::ModelKind::lamp;
  pole.lamps = {{1, 0, 30, 90, 20, 555, {}}};
  design.library.push_back(pole);
  design::Housing housing;
  housing.id = {"C1"};
  housing.model = {"M"};
  housing.mount.fixing_m = {2, 3, 5};
  housing.mount.base_bearing_deg = 90;
  for (int slot = 1; slot <= 3; ++slot) {
    design::HousingImager imager;
    imager.slot = slot;
    imager.aims = {design::Aim{}};
    housing.imagers.push_back(imager);
  }
  housing.lamps = {{1, {}}, {2, {}}};
  design.housings.push_back(housing);
  design::Housing alone;
  alone.id = {"D1"};
  alone.model = {"P"};
  alone.mount.fixing_m = {20, 0, 4};
  alone.lamps = {{1, {}}};
  design.housings.push_back(alone);
  return design;
}

TEST(Lamps, StandWhereTheHousingDoesAndTurnWithIt) {
  const std::vector<Lamp> lamps = lampsOf(site());
  ASSERT_EQ(lamps.size(), 3u);
  EXPECT_EQ(lamps[0].name, "C1 lamp 1");
  EXPECT_EQ(lamps[0].at_m, (Vec3{2, 3, 5}));
  const double c = std::cos(degToRad(10.0)), s = std::sin(degToRad(10.0));
  EXPECT_NEAR(norm(lamps[0].axis - Vec3{c, 0, -s}), 0, 1e-12);   // the base looks east
  EXPECT_NEAR(norm(lamps[1].axis - Vec3{0, -c, -s}), 0, 1e-12);  // and 90 deg on from it is south
  EXPECT_NEAR(lamps[0].half_beam_rad, degToRad(30.0), 1e-12);  // the beam is stated whole
  EXPECT_FALSE(lamps[0].alone);
  EXPECT_TRUE(lamps[2].alone);
  EXPECT_TRUE(lamps[0].infrared());
  EXPECT_FALSE(lamps[2].infrared());
}

// Closed form: a lamp that an imager carries looks where it looks, less what the model says; a housing
// that says nothing of its lamps has them all.
TEST(Lamps, TurnWithTheImagerThatCarriesThem) {
  design::Design design = site();
  design.library[0].lamps[0] = {1, 0, 0, 60, 30, 850, {}, 2};
  design.library[0].lamps[1] = {2, 90, 0, 60, 30, 850, {}, 2};
  design.housings[0].lamps.clear();
  design.housings[0].imagers[1].aims = {design::Aim{200, 35, 0, {}, {}, {}, 1}};
  const std::vector<Lamp> lamps = lampsOf(design);
  ASSERT_EQ(lamps.size(), 3u);
  const Mat3 axes = design::imagerFromSite(200.0, 35.0, 0.0);
  EXPECT_NEAR(norm(lamps[0].axis - axes.row[2]), 0, 1e-12);
  EXPECT_NEAR(norm(lamps[1].axis - axes.row[0]), 0, 1e-12);
  // Tilted by 20 deg, it looks so much farther down the picture than its imager.
  design.library[0].lamps[1] = {2, 0, 20, 60, 30, 850, {}, 2};
  const Vec3 down = axes.row[2] * std::cos(degToRad(20.0)) + axes.row[1] * std::sin(degToRad(20.0));
  EXPECT_NEAR(norm(lampsOf(design)[1].axis - down), 0, 1e-12);
}

// Closed form: offset ahead, right and up, from the housing's origin in its own frame (its zero looks
// east), and from the lens in the frame of the imager that carries it.
TEST(Lamps, StandAtTheirOffset) {
  design::Design design = site();
  design.library[0].lamps[0].offset_m = {0.03, 0.02, 0.01};
  design.library[0].lamps[1] = {2, 0, 0, 60, 30, 850, {}, 2, {0, 0.02, 0.03}};
  design.housings[0].imagers[1].aims = {design::Aim{200, 35, 0, {}, {}, {}, 1}};
  const std::vector<Lamp> lamps = lampsOf(design);
  EXPECT_NEAR(norm(lamps[0].at_m - Vec3{2.03, 2.98, 5.01}), 0, 1e-12);
  const Mat3 axes = design::imagerFromSite(200.0, 35.0, 0.0);  // right, down, ahead
  EXPECT_NEAR(norm(lamps[1].at_m - (Vec3{2, 3, 5} + axes.row[0] * 0.02 - axes.row[1] * 0.03)), 0, 1e-12);
}

// Closed form (inverse square; the beam is one half at half its stated angle). Common practice, no
// source: a 30 m lamp lights its beam's centre at 30 m.
TEST(Lamps, ThirtyMetreLampLightsItsBeamsCentreAtThirtyMetres) {
  const Lamp one = lamp({0, 0, 0}, {0, 1, 0}, 30, 60);
  EXPECT_NEAR(shareFrom(one, {0, 30, 0}), 1, 1e-12);
  EXPECT_NEAR(shareFrom(one, {0, 15, 0}), 4, 1e-12);
  EXPECT_NEAR(shareFrom(one, {0, 20, 0}), 2.25, 1e-12);
  const Vec3 edge{30 * std::sin(degToRad(30.0)), 30 * std::cos(degToRad(30.0)), 0};
  EXPECT_NEAR(shareFrom(one, edge), 0.5, 1e-12);
  EXPECT_NEAR(shareFrom(one, edge * (2.0 / 3)), 1.125, 1e-12);
  EXPECT_NEAR(beamShare(degToRad(60.0), degToRad(30.0)), 1.0 / 16, 1e-12);
}

// Common practice, no source: grouped, all lamps burn when one imager goes to mono; in pairs only
// its own.
TEST(Lamps, GroupedAllBurnPairedOnlyTheirOwn) {
  design::Design design = site();
  const std::vector<double> one_dark{0.5, 50, 50};
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, one_dark), 50),
            (std::vector<bool>{true, true, false}));
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, {50}), 50),
            (std::vector<bool>{false, false, false}));
  design.housings[0].lamps = {{1, 1}, {2, 3}};
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, one_dark), 50),
            (std::vector<bool>{true, false, false}));
  // The second imager has no lamp of its own: nothing burns for it.
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, {50, 0.5, 50}), 50),
            (std::vector<bool>{false, false, false}));
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, {0.5}), 0.5),
            (std::vector<bool>{true, true, true}));
  // An imager held in colour calls no infrared lamp, one held in mono always does.
  design.housings[0].imagers[0].mode = design::ImagerMode::colour;
  EXPECT_FALSE(burning(lampsOf(design), imagerStates(design, one_dark), 50)[0]);
  design.housings[0].imagers[0].mode = design::ImagerMode::mono;
  EXPECT_TRUE(burning(lampsOf(design), imagerStates(design, {5000}), 50)[0]);
}

// Common practice, no source: an imager that is kept in colour calls for white light where the others
// would go to mono, and for no infrared.
TEST(Lamps, AColourImagerCallsForWhiteLight) {
  design::Design design = site();
  design.library[0].lamps[1].wave_nm = 555;
  for (design::HousingImager& imager : design.housings[0].imagers) imager.mode = design::ImagerMode::colour;
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, {0.5}), 50), (std::vector<bool>{false, true, false}));
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, {50}), 50), (std::vector<bool>{false, false, false}));
}

// Property: a lamp set to stay off does so on a housing without imagers in use, too.
TEST(Lamps, OffStaysOffWithoutImagers) {
  design::Design design = site();
  design.housings[0].lamps = {{1, 0}, {2, {}}};
  for (design::HousingImager& imager : design.housings[0].imagers) imager.aims.clear();
  EXPECT_EQ(burning(lampsOf(design), imagerStates(design, {}), 0.5),
            (std::vector<bool>{false, true, true}));
}

TEST(Lamps, ColourImagerGainsNothingFromInfrared) {
  const std::vector<Lamp> lamps{lamp({0, 0, 0}, {0, 1, 0}, 30, 60),
                                lamp({0, 0, 0}, {0, 1, 0}, 30, 60, 555)};
  const Vec3 at{0, 30, 0};
  EXPECT_NEAR(lampLightAt(lamps, {true, false}, Mode::mono, {}, at), 1, 1e-12);
  EXPECT_EQ(lampLightAt(lamps, {true, false}, Mode::colour, {}, at), 0);
  EXPECT_NEAR(lampLightAt(lamps, {true, true}, Mode::mono, {}, at), 2, 1e-12);
  EXPECT_NEAR(lampLightAt(lamps, {true, true}, Mode::colour, {}, at), 1, 1e-12);
  EXPECT_EQ(lampLightAt(lamps, {false, false}, Mode::mono, {}, at), 0);
}

// A pane that lets light through may stop the lamp.
TEST(Lamps, GlassStopsInfraredAsItsMaterialSays) {
  scene::Scene scene;
  addBox(scene, {-5, 10, -5}, {5, 10.01, 5}, 1, 0.3);
  addBox(scene, {-5, 20, -5}, {5, 20.01, 5}, 0.5, 0);
  const MadeUpSolids glazed = madeUp(scene);
  const std::vector<Lamp> lamps{lamp({0, 0, 0}, {0, 1, 0}, 30, 60),
                                lamp({0, 0, 0}, {0, 1, 0}, 30, 60, 555)};
  EXPECT_NEAR(lampLightAt(lamps, {true, false}, Mode::mono, glazed.solids(), {0, 15, 0}), 1.2, 1e-12);
  EXPECT_NEAR(lampLightAt(lamps, {true, false}, Mode::mono, glazed.solids(), {0, 30, 0}), 0, 1e-12);
  EXPECT_NEAR(lampLightAt(lamps, {false, true}, Mode::mono, glazed.solids(), {0, 30, 0}), 0.5, 1e-12);
}

TEST(DayNight, StaysBetweenTheTwoLevels) {
  const DayNightSwitch levels{2, 6};
  using design::ImagerMode;
  EXPECT_EQ(modeUnder(ImagerMode::by_light, 10, levels, Mode::mono), Mode::colour);
  EXPECT_EQ(modeUnder(ImagerMode::by_light, 1, levels, Mode::colour), Mode::mono);
  EXPECT_EQ(modeUnder(ImagerMode::by_light, 4, levels, Mode::colour), Mode::colour);
  EXPECT_EQ(modeUnder(ImagerMode::by_light, 4, levels, Mode::mono), Mode::mono);
  EXPECT_EQ(modeUnder(ImagerMode::colour, 0, levels), Mode::colour);
  EXPECT_EQ(modeUnder(ImagerMode::mono, 1e5, levels), Mode::mono);
}

}  // namespace
}  // namespace belvedere::light
