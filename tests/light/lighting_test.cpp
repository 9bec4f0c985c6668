// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/lighting.h"
#include "light/relit.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>

#include "base/units.h"
#include "made_up.h"

namespace belvedere::light {
namespace {

namespace fs = std::filesystem;

// A yard: two imagers on one pole, one over the lit half, one over the dark half, two lamps.
struct Yard {
  fs::path folder = fs::temp_directory_path() / ("belvedere_lighting_test_" + std::to_string(getpid()));
  design::Design design;
  design::Situation night;
  MadeUpSolids made;
  Yard() {
    fs::create_directories(folder);
    std::ofstream(folder / "pole.ies") << "TILT=NONE\n1 9000 1 2 1 1 2 0 0 0 1 1 90\n0 85\n0\n6000 6000\n";
    design::Model model;
    model.id = {"M"};
    for (int slot = 1; slot <= 2; ++slot) {
      design::ModelImager imager;
      imager.slot = slot;
      imager.pixels = {1920, 1080};
      imager.lens.hfov_deg = {60};
      imager.lens.f_number = {2};
      imager.least_light = design::LeastLight{0.2, 1.6, 0.04, {}, {}};
      model.imagers.push_back(imager);
    }
    model.lamps = {{1, 0, 20, 60, 30, 850, {}}, {2, 180, 20, 60, 30, 850, {}}};
    design.library.push_back(model);
    design::Housing housing;
    housing.id = {"C1"};
    housing.model = {"M"};
    housing.mount.fixing_m = {0, 0, 5};
    for (int slot = 1; slot <= 2; ++slot) {
      design::HousingImager imager;
      imager.slot = slot;
      design::Aim aim;
      aim.pan_deg = slot == 1 ? 0 : 180;
      aim.tilt_deg = 40;
      imager.aims = {aim};
      imager.exposure_s = 0.02;
      housing.imagers.push_back(imager);
    }
    housing.lamps = {{1, 1}, {2, 2}};
    design.housings.push_back(housing);
    design::Light moon, pole;
    moon.id = {"moon"};
    moon.kind = "ambient";
    moon.lux = 0.1;
    pole.id = {"pole"};
    pole.kind = "luminaire";
    pole.at_m = Vec3{0, 8, 4};
    pole.photometry = design::Attachment{"pole.ies", ""};
    design.site.lights = {moon, pole};
    night.id = {"night"};
    night.lights = {{"moon"}, {"pole"}};
    scene::Scene scene;
    addBox(scene, {-50, -50, -0.2}, {50, 50, 0});   // ground
    addBox(scene, {-50, -0.5, 0}, {50, -0.3, 4.5});  // a wall keeps the pole's light in the north
    made = madeUp(std::move(scene));
  }
  ~Yard() { fs::remove_all(folder); }
};

// By hand: the imager over the lit half stays in colour, the other goes to mono; in pairs, only its
// own lamp burns.
TEST(Lighting, TheDarkHalfGoesToMono) {
  Yard yard;
  const Lighting lighting = lightingOf(yard.design, yard.night, yard.folder, yard.made.solids());
  EXPECT_TRUE(lighting.light.stated);
  ASSERT_EQ(lighting.states.size(), 2u);
  EXPECT_GT(lighting.states[0].lux, 20);
  EXPECT_EQ(lighting.states[0].mode, Mode::colour);
  EXPECT_LT(lighting.states[1].lux, 2);
  EXPECT_EQ(lighting.states[1].mode, Mode::mono);
  EXPECT_EQ(lighting.burns, (std::vector<bool>{false, true}));
  EXPECT_FALSE(lighting.coated_glass);
  EXPECT_EQ(findState(lighting, "C1.2")->slot, 2);
  EXPECT_EQ(findState(lighting, "C9.1"), nullptr);
}

// By hand: of an imager with two aims the darker one counts: by the lit half alone it stays in colour.
TEST(Lighting, TheDarkestAimDecides) {
  Yard yard;
  design::HousingImager& first = yard.design.housings[0].imagers[0];
  design::Aim south = first.aims[0];
  south.pan_deg = 180;
  first.aims.push_back(south);
  EXPECT_EQ(lightingOf(yard.design, yard.night, yard.folder, yard.made.solids()).states[0].mode, Mode::mono);
  std::swap(first.aims[0], first.aims[1]);
  EXPECT_EQ(lightingOf(yard.design, yard.night, yard.folder, yard.made.solids()).states[0].mode, Mode::mono);
}

// Common practice, no source: between the two levels of its switch an imager stays as it was.
TEST(Lighting, BetweenItsLevelsAnImagerStaysAsItWas) {
  Yard yard;
  yard.design.site.lights[0].lux = 4;
  yard.night.lights = {{"moon"}};
  for (const Mode before : {Mode::colour, Mode::mono})
    EXPECT_EQ(lightingOf(yard.design, yard.night, yard.folder, yard.made.solids(), {2, 6}, before).states[0].mode,
              before);
}

// Closed form: a wall square ahead of a source of 500 cd at 10 m lies in 5 lx, whatever a level floor would
// get; what looks past its edge meets the wall alone, and the sky counts for nothing.
TEST(MeteredLux, IsTheMeanOnWhatIsMetAsItLies) {
  scene::Scene scene;
  addBox(scene, {-50, 10, -50}, {0, 10.2, 50});
  const MadeUpSolids walled = madeUp(scene);
  SituationLight light;
  light.luminaires.push_back(luminaire(pointSource(500), {0, 0, 0}));
  design::PosedImager view;
  view.pixels = {1600, 900};
  view.imager_from_site = design::imagerFromSite(0, 0, 0);
  view.lens = optics::RadialLens{800 / std::tan(degToRad(0.5)), 1, {800, 450}};
  EXPECT_NEAR(meteredLux(view, light, walled.solids()), 5, 1e-3);
}

// Property: of glass that lets all light through and little infrared the lighting knows.
TEST(Lighting, KnowsCoatedGlass) {
  for (const auto& [passes, coated] : {std::pair{1.0, true}, {0.5, false}}) {
    Yard yard;
    scene::Scene scene = yard.made.scene;
    addBox(scene, {20, 20, 0}, {21, 20.01, 2}, passes, 0.4);
    yard.made = madeUp(std::move(scene));
    EXPECT_EQ(lightingOf(yard.design, yard.night, yard.folder, yard.made.solids()).coated_glass, coated);
  }
}

// Property: lamps crossed over and an imager set to mono, lit anew from what was metered, are what
// lighting the changed design from the start gives.
TEST(Relit, EqualsLightingTheChangedDesign) {
  Yard yard;
  const Lighting before = lightingOf(yard.design, yard.night, yard.folder, yard.made.solids());
  design::Design changed = yard.design;
  changed.housings[0].lamps = {{1, 2}, {2, 1}};
  const auto agree = [&] {
    const Lighting anew = lightingOf(changed, yard.night, yard.folder, yard.made.solids());
    const Lighting relit = light::relit(before, changed);
    EXPECT_EQ(relit.burns, anew.burns);
    ASSERT_EQ(relit.states.size(), anew.states.size());
    for (std::size_t i = 0; i < anew.states.size(); ++i) {
      EXPECT_EQ(relit.states[i].mode, anew.states[i].mode) << i;
      EXPECT_EQ(relit.states[i].lux, anew.states[i].lux) << i;
    }
    ASSERT_EQ(relit.lamps.size(), anew.lamps.size());
    for (std::size_t i = 0; i < anew.lamps.size(); ++i) EXPECT_EQ(relit.lamps[i].follows, anew.lamps[i].follows);
  };
  agree();
  EXPECT_EQ(relit(before, changed).burns, (std::vector<bool>{true, false}));
  changed.housings[0].imagers[0].mode = design::ImagerMode::mono;
  agree();
  EXPECT_EQ(relit(before, changed).burns, (std::vector<bool>{true, true}));
}

// By hand: 0.2 lx at f/1.6 and 1/25 s are 0.2 (2/1.6)^2 2 = 0.625 lx at f/2 and 1/50 s.
TEST(Lighting, ImagersNeedTheirOwnLight) {
  Yard yard;
  const Lighting lighting = lightingOf(yard.design, yard.night, yard.folder, yard.made.solids());
  const auto views = design::posedImagers(yard.design, design::JudgedOn::captured);
  const ImagerLight face = imagerLight(views[1], lighting, design::TargetKind::face);
  EXPECT_NEAR(face.needed.lux.value(), 0.625, 1e-12);
  EXPECT_EQ(face.mode, Mode::mono);
  EXPECT_FALSE(face.level);
  EXPECT_TRUE(imagerLight(views[0], lighting, design::TargetKind::floor).level);
  // 10 m south on the lamp's axis: (30/d)^2, and the moon's share.
  const Vec3 at{0, -10, 5 - 10 * std::tan(degToRad(20.0))};
  const LitParts parts = litAt(face, yard.made.solids(), at);
  const double d2 = 100 / std::pow(std::cos(degToRad(20.0)), 2);
  EXPECT_NEAR(parts.lamp_light, 900 / d2, 1e-9);
  EXPECT_NEAR(parts.lit, 0.1 / 0.625 + 900 / d2 * 0.5 * 0.64, 1e-9);
}

// By hand: a coated pane before the lens takes its share on the way there and back.
TEST(Lighting, GlassCountsTwiceForInfrared) {
  scene::Scene scene;
  addBox(scene, {-5, 1, -5}, {5, 1.01, 5}, 1, 0.4);
  const MadeUpSolids glazed = madeUp(scene);
  SituationLight light;
  const std::vector<Lamp> lamps{lamp({0, 0, 0}, {0, 1, 0}, 20, 60),
                                lamp({0, 0, 0}, {0, 1, 0}, 20, 60, 555)};
  ImagerLight imager;
  imager.light = &light;
  imager.lamps = &lamps;
  imager.burns = {true, true};
  imager.mode = Mode::mono;
  imager.needed = neededLight(design::LeastLight{1, 1.6, 0.04, {}, {}}, {});
  EXPECT_NEAR(litAt(imager, glazed.solids(), {0, 10, 0}).lamp_light, 4 * 0.16 + 4, 1e-9);
  imager.burns = {true, false};
  EXPECT_NEAR(litAt(imager, glazed.solids(), {0, 10, 0}).lamp_light, 4 * 0.16, 1e-9);
  // What takes a share of both kinds of light, such as foliage, does so on the way there alone.
  scene::Scene leaves;
  addBox(leaves, {-5, 1, -5}, {5, 1.01, 5}, 0.5, 0.4);
  const MadeUpSolids leafy = madeUp(leaves);
  imager.coated_glass = true;
  EXPECT_NEAR(litAt(imager, leafy.solids(), {0, 10, 0}).lamp_light, 4 * 0.4, 1e-9);
}

}  // namespace
}  // namespace belvedere::light
