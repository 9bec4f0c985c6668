// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/night_plan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "drawing/night_words.h"

namespace belvedere::drawing {
namespace {

// A slab of 40 x 40 m about the origin.
design::Design slab() {
  design::Design design;
  design::Storey storey;
  storey.id = {"g"};
  storey.height_m = 8;
  storey.outline = {{-20, -20}, {20, -20}, {20, 20}, {-20, 20}};
  design.site.buildings.push_back({{"b"}, "", {}, 0, {storey}});
  return design;
}

light::Lighting lit(double ambient_lux) {
  light::Lighting lighting;
  lighting.light.stated = true;
  lighting.light.ambient_lux = ambient_lux;
  return lighting;
}

light::Luminaire hanging(double candela, Vec3 at_m) {
  return {"L", at_m, light::luminaireFromSite(0, 90),
          std::make_shared<const light::Photometry>(light::pointSource(candela)), 1};
}

std::optional<NightPlan> planOf(const light::Lighting& lighting,
                                const std::vector<design::PosedImager>& views = {},
                                const design::Requirement* shown = nullptr,
                                const light::Solids& solids = {}) {
  const design::Design design = slab();
  return nightPlan(design, design.site.buildings[0].storeys[0], {}, lighting, solids, views,
                   {shown, {}, 0.2}, {});
}

// A level imager 3 m up at the origin that looks north.
design::PosedImager looksNorth() {
  design::PosedImager view;
  view.housing = {"C1"};
  view.imager = view.name = "C1.1";
  view.lens_m = {0, 0, 3};
  view.imager_from_site = design::imagerFromSite(0, 20, 0);
  view.pixels = {1920, 1080};
  view.lens = optics::RadialLens{960, 1, {960, 540}};  // 90 deg
  return view;
}

TEST(LightLevels, AreTheSeriesOfOneAndThree) {
  EXPECT_EQ(lightLevels(0.2, 40), (std::vector<double>{0.3, 1, 3, 10, 30}));
  EXPECT_EQ(lightLevels(5, 9), (std::vector<double>{7}));  // even the fine series has no more
  EXPECT_EQ(lightLevels(1.2, 4), (std::vector<double>{1.5, 2, 3}));
  EXPECT_TRUE(lightLevels(75, 75).empty());
}

// Closed form: a point source of I at height h gives I h / (h^2 + r^2)^(3/2) on the floor, so that a
// level L is a circle of r^2 = (I h / L)^(2/3) - h^2.
TEST(NightPlan, LevelsOfOneSourceAreCircles) {
  light::Lighting lighting = lit(0);
  lighting.light.luminaires.push_back(hanging(1000, {1, 2, 5}));
  const auto plan = planOf(lighting);
  ASSERT_TRUE(plan);
  EXPECT_TRUE(plan->level);
  EXPECT_NEAR(plan->most_lux, 40, 0.2);
  int lines = 0;
  for (const LightLine& line : plan->lines) {
    ASSERT_EQ(line.of, LightOf::lux);
    ++lines;
    const double r = std::sqrt(std::pow(1000 * 5 / line.level, 2.0 / 3) - 25);
    for (const Vec2 p : line.points) EXPECT_NEAR(norm(p - Vec2{1, 2}), r, 0.05) << line.level;
  }
  EXPECT_GE(lines, 3);  // 3, 10 and 30 lx at least
  ASSERT_EQ(plan->luminaires.size(), 1u);
  EXPECT_EQ(plan->luminaires[0].at, (Vec2{1, 2}));
}

// Closed form: on an upright face that looks at the camera, light from behind it counts nothing, light
// from the camera's side I cos / d^2.
TEST(NightPlan, FacesAreTurnedToTheCamera) {
  design::Requirement faces;
  faces.target.kind = design::TargetKind::face;
  const double height = 1.65;
  light::Lighting lighting = lit(0.5);
  lighting.light.luminaires.push_back(hanging(400, {0, -4, height}));
  lighting.light.luminaires.push_back(hanging(90000, {0, 60, height}));  // behind all faces
  lighting.states.push_back({"C1.1", {"C1"}, 1, 5, light::Mode::colour, false});
  const auto plan = planOf(lighting, {looksNorth()}, &faces);
  ASSERT_TRUE(plan);
  EXPECT_FALSE(plan->level);
  EXPECT_NEAR(plan->height_m, height, 1e-12);
  int on_axis = 0;
  for (const LightLine& line : plan->lines)
    for (const Vec2 p : line.points) {
      if (std::abs(p.x) > 0.3) continue;
      ++on_axis;
      const double d = p.y + 4;
      EXPECT_NEAR(0.5 + 400 / (d * d), line.level, 0.05 * line.level);
    }
  EXPECT_GT(on_axis, 0);
  EXPECT_NE(lightWords(*plan, {}).find("upright to the camera"), std::string::npos);
  // In feet, as every length beside it.
  EXPECT_NE(planeWords(*plan, {0.3048, "ft"}).find(" ft up"), std::string::npos);
  EXPECT_EQ(planeWords(*plan, {0.3048, "ft"}).find(" m up"), std::string::npos);
}

// Common practice, no source: a 30 m lamp is enough at 30 m on its axis; where a wall stands, no line
// goes on behind it; a colour imager has no lines of an infrared lamp.
TEST(NightPlan, LampsReachAsFarAsTheirRange) {
  design::Requirement person;
  person.target.kind = design::TargetKind::custom;
  person.target.band_m = design::Range{3, 3};
  light::Lighting lighting = lit(0.01);
  lighting.states.push_back({"C1.1", {"C1"}, 1, 0.01, light::Mode::mono, true});
  light::Lamp lamp;
  lamp.housing = {"C1"};
  lamp.at_m = {0, 0, 3};
  lamp.axis = {0, 1, 0};
  lamp.half_beam_rad = degToRad(30);
  lamp.range_m = 15;
  lighting.lamps = {lamp};
  lighting.burns = {true};
  const auto plan = planOf(lighting, {looksNorth()}, &person);
  ASSERT_TRUE(plan);
  EXPECT_FALSE(plan->stateOf("C1.1") == nullptr);
  EXPECT_EQ(plan->stateOf("C1.9"), nullptr);
  double far = 0;
  for (const LightLine& line : plan->lines) {
    EXPECT_EQ(line.of, LightOf::lamps);
    if (line.level != 1) continue;
    for (const Vec2 p : line.points) far = std::max(far, p.y);
  }
  EXPECT_NEAR(far, 15, 0.05);
  lighting.states[0].mode = light::Mode::colour;
  const auto colour = planOf(lighting, {looksNorth()}, &person);
  ASSERT_TRUE(colour);
  EXPECT_TRUE(colour->lines.empty());
}

TEST(NightPlan, NothingToDrawByDay) {
  EXPECT_FALSE(planOf(lit(5000)));
  light::Lighting unsaid;
  unsaid.light.luminaires.push_back(hanging(1000, {1, 2, 5}));
  EXPECT_FALSE(planOf(unsaid));  // nobody said that it is night
}

}  // namespace
}  // namespace belvedere::drawing
