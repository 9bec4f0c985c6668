// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/surroundings.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "made_up.h"
#include "services/findings.h"

namespace belvedere::services {
namespace {

// Published: IEC 60529: numerals 7 and 8 do not include jets (5 and 6); both are marked where both
// hold.
TEST(Surroundings, IpCodes) {
  EXPECT_TRUE(ipCovers("IP66", "IP66"));
  EXPECT_TRUE(ipCovers("IP66", "IP54"));
  EXPECT_FALSE(ipCovers("IP65", "IP66"));
  EXPECT_FALSE(ipCovers("IP67", "IP66"));
  EXPECT_FALSE(ipCovers("IP68", "IP65"));
  EXPECT_TRUE(ipCovers("IP67", "IP54"));  // spray is no jet: the same clause, recalled
  EXPECT_FALSE(ipCovers("IP66", "IP67"));
  EXPECT_TRUE(ipCovers("IP66/IP67", "IP66"));
  EXPECT_TRUE(ipCovers("IP66, IP67", "IP67"));
  EXPECT_TRUE(ipCovers("IP68", "IP67"));
  EXPECT_FALSE(ipCovers("IP56", "IP66"));
  EXPECT_FALSE(ipCovers("", "IP54"));
}

// Published: IEC 62262 energies; IK06 to IK11 are a striker's mass times g times its drop, within
// 2 %.
TEST(Surroundings, IkEnergies) {
  EXPECT_EQ(ikEnergyJ("IK10"), 20);
  EXPECT_EQ(ikEnergyJ("IK08"), 5);
  EXPECT_EQ(ikEnergyJ("IK11"), 50);
  EXPECT_EQ(ikEnergyJ("IK00"), 0);
  EXPECT_EQ(ikEnergyJ("ik10"), 20);
  EXPECT_FALSE(ikEnergyJ("IK12"));
  EXPECT_FALSE(ikEnergyJ("10"));
  const double mass_drop[][2] = {{0.5, 0.2}, {0.5, 0.4}, {1.7, 0.3}, {5, 0.2}, {5, 0.4}, {10, 0.5}};
  for (int n = 6; n <= 11; ++n) {
    const auto e = ikEnergyJ(n < 10 ? "IK0" + std::to_string(n) : "IK" + std::to_string(n));
    EXPECT_NEAR(mass_drop[n - 6][0] * mass_drop[n - 6][1] * 9.80665, *e, 0.02 * *e);
  }
}

// Published: Steel Buildings in Europe, single-storey buildings part 3, appendix B: 26 m/s gives
// 422.5 Pa (EN 1991-1-4).
TEST(Surroundings, WindPressure) {
  EXPECT_NEAR(windPressurePa(26), 422.5, 1e-9);
  EXPECT_NEAR(windPressurePa(40), 1000, 1e-9);
}

TEST(Surroundings, CorrosionCategoriesAreOrdered) {
  EXPECT_TRUE(corrosionCovers("C5", "C3"));
  EXPECT_FALSE(corrosionCovers("C3", "C4"));
  EXPECT_TRUE(corrosionCovers("C5-M", "C5"));
  EXPECT_FALSE(corrosionCovers("C5", "CX"));
  EXPECT_TRUE(corrosionCovers("c5", "C3"));
}

struct Pole {
  Design design = designWith({hall()});
  Pole() {
    Model model = housingModel("m");
    model.ratings = Ratings{"IP66", "IK10", "C4", Range{-30, 55}};
    model.mass_kg = 3;
    model.wind_area_m2 = 0.05;
    model.heights_m = Range{2.5, 5};
    model.power = ModelPower{.idle_w = 9, .heater_w = 6};
    Model arm;
    arm.id = {"arm"};
    arm.kind = ModelKind::mount;
    arm.fits = {"pole"};
    arm.mass_kg = 1;
    arm.carries_kg = 5;
    design.catalogue.models = {model, arm};
    Mounting pole;
    pole.id = {"p"};
    pole.on = "pole";
    pole.path = {{5, 5}};
    pole.width_m = 0.1;
    design.site.mounting.push_back(pole);
    design.site.buildings[0].storeys[0].surroundings =
        Surroundings{"open", Range{-20, 40}, "C3", 30, {}};
    design.housings.push_back(housing("C1", "m", {5, 5, 4}));
    design.housings[0].mount.on = {"p"};
    design.housings[0].mount.model = {"arm"};
  }
  Standing standing() const { return surroundingsOfAll(design).standing.at(0); }
  Fixing fixing() const { return surroundingsOfAll(design).fixings.at(0); }
};

// Property: each rule toggles alone.
TEST(EnvironmentAndRating, EachRuleTogglesAlone) {
  const auto all = [](const Standing& s) {
    return std::array{s.ip, s.ik, s.corrosion, s.temperature};
  };
  const std::array fine{Covered::yes, Covered::yes, Covered::yes, Covered::yes};
  Pole pole;
  EXPECT_EQ(all(pole.standing()), fine);
  const auto with = [&](auto change, std::size_t at, Covered wanted) {
    Pole other;
    change(other);
    auto expected = fine;
    expected[at] = wanted;
    EXPECT_EQ(all(other.standing()), expected) << at;
  };
  with([](Pole& p) { p.design.catalogue.models[0].ratings->ip = "IP65"; }, 0, Covered::no);
  with([](Pole& p) { p.design.catalogue.models[0].ratings->ip = ""; }, 0, Covered::unstated);
  with([](Pole& p) {
    p.design.catalogue.models[0].ratings->ik = "IK08";
    p.design.housings[0].mount.fixing_m.z = 2.4;
  }, 1, Covered::no);
  with([](Pole& p) { p.design.catalogue.models[0].ratings->ik = "IK08"; }, 1, Covered::yes);
  with([](Pole& p) { p.design.housings[0].surroundings = Surroundings{"open", Range{-20, 40}, "C5", 30, {}}; },
       2, Covered::no);
  with([](Pole& p) { p.design.housings[0].surroundings = Surroundings{"open", Range{-35, 40}, "C3", 30, {}}; },
       3, Covered::no);
}

// Every rule that is broken says its source, or that it is practice; what a heater draws is said where
// there is one.
TEST(EnvironmentAndRating, EachRuleSaysItsSourceOrThatItIsPractice) {
  Pole pole;
  pole.design.catalogue.models[0].ratings = Ratings{"IP54", "IK06", "C2", Range{-10, 40}};
  pole.design.housings[0].mount.fixing_m.z = 2.4;
  const std::vector<Finding> findings = surroundingsFindings(pole.design, sizesOf(pole.design, {}));
  for (const auto& [code, source] :
       {std::pair{"ip_short", "practice; codes of IEC 60529"}, {"ik_short", "practice; codes of IEC 62262"},
        {"corrosion_short", "ISO 12944-2"}, {"temperature_short", "data sheet"}}) {
    const auto at = std::ranges::find(findings, code, &Finding::code);
    ASSERT_NE(at, findings.end()) << code;
    EXPECT_NE(at->sentence.find(source), std::string::npos) << at->sentence;
  }
  EXPECT_EQ(pole.standing().heater_w, 6);
}

// Closed form: 562.5 Pa; box 2.0 x 0.05 m2: 56.25 N at 4 m; pole 1.2 x 0.1 x 4: 270 N at 2 m.
TEST(Surroundings, WindOnAPole) {
  const Standing s = Pole().standing();
  ASSERT_TRUE(s.wind);
  EXPECT_NEAR(s.wind->housing_n, 56.25, 1e-9);
  EXPECT_NEAR(s.wind->pole_n, 270, 1e-9);
  EXPECT_NEAR(s.wind->moment_nm, 56.25 * 4 + 270 * 2, 1e-9);
  EXPECT_EQ(s.heater_w, 6);
}

// Property: a height is above what is under it, or not known: never above z = 0 whatever the ground.
TEST(Surroundings, AHeightIsAboveTheGroundOrNotKnown) {
  Pole pole;
  Housing& out = pole.design.housings[0];
  out.surroundings = pole.design.site.buildings[0].storeys[0].surroundings;
  out.mount.fixing_m = {50, 5, 4};  // in the yard of a site at z = 0
  EXPECT_EQ(pole.standing().fixing_height_m, 4);
  pole.design.site.buildings[0].storeys[0].floor_m = 100;
  out.mount.fixing_m.z = 104;
  EXPECT_FALSE(pole.standing().fixing_height_m);
  EXPECT_FALSE(pole.standing().wind);
  EXPECT_TRUE(pole.fixing().height_fits);
  pole.design.site.mounting[0].storey = {"g"};
  EXPECT_EQ(pole.standing().fixing_height_m, 4);
  ASSERT_TRUE(pole.standing().wind);
  EXPECT_NEAR(pole.standing().wind->pole_n, 270, 1e-9);
  pole.design.site.mounting[0].storey = {};
  out.mount.on = {"g_wall"};  // on the outer face of the hall's wall
  EXPECT_EQ(pole.standing().fixing_height_m, 4);
  pole.design.site.buildings[0].storeys[0].floor_m = 0;
  out.mount = {};
  out.mount.fixing_m = {50, 5, 4};
  pole.design.site.terrain = Terrain{};
  EXPECT_FALSE(pole.standing().fixing_height_m);
}

TEST(Surroundings, FixingsFitSurfaceModelAndHeight) {
  Pole pole;
  Fixing f = pole.fixing();
  EXPECT_TRUE(f.surface_fits && f.model_fits && f.height_fits);
  EXPECT_EQ(f.surface, "pole");
  EXPECT_EQ(f.mass_kg, 4);
  pole.design.catalogue.models[1].fits = {"wall"};
  EXPECT_FALSE(pole.fixing().surface_fits);
  pole.design.catalogue.models[1].fits = {"wall", "pole"};
  pole.design.catalogue.models[1].takes = {{"other"}};
  EXPECT_FALSE(pole.fixing().model_fits);
  pole.design.housings[0].mount.fixing_m.z = 6;
  EXPECT_FALSE(pole.fixing().height_fits);
}

TEST(Surroundings, WithoutAPlaceNothingIsClaimed) {
  Pole pole;
  pole.design.site.buildings[0].storeys[0].surroundings.reset();
  const SurroundingsCheck check = surroundingsOfAll(pole.design);
  EXPECT_TRUE(check.standing.empty());
  EXPECT_EQ(check.unstated.size(), 1);
}

}  // namespace
}  // namespace belvedere::services
