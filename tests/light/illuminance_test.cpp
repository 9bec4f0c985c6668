// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/illuminance.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>

#include "base/units.h"
#include "made_up.h"

namespace belvedere::light {
namespace {

namespace fs = std::filesystem;

double horizontal(const Photometry& p, double height_m, double offset_m) {
  return illuminanceFrom(luminaire(p, {0, 0, height_m}), {offset_m, 0, 0}, kUp);
}

// Published: solved school problems. 628 lm at 1 m under 37 deg give 40 lx (printed with cos 37 =
// 4/5; 39.91 exactly). 15 lx at 0.6 m below give 3.24 lx 0.8 m beside.
TEST(Illuminance, SchoolProblems) {
  const double down = std::cos(degToRad(37.0)), beside = std::sin(degToRad(37.0));
  EXPECT_NEAR(horizontal(pointSource(628 / (4 * kPi)), down, beside), 40, 0.15);
  EXPECT_NEAR(horizontal(pointSource(5.4), 0.6, 0), 15, 1e-12);
  EXPECT_NEAR(horizontal(pointSource(5.4), 0.6, 0.8), 3.24, 1e-12);
}

// Published: trigonometry textbook (90 cd under 25 deg, 18 lm/ft2 wanted: 2.128741 ft).
TEST(Illuminance, ReadingLight) {
  const double d_m = feetToM(2.128741);
  const double down = d_m * std::cos(degToRad(25.0)), beside = d_m * std::sin(degToRad(25.0));
  EXPECT_NEAR(horizontal(pointSource(90), down, beside) * 0.3048 * 0.3048, 18, 2e-5);
}

// Closed form: inverse square and cosine, worked by hand: 1000 cd at 5 m, 5 m beside; 4000 cd at
// 6 m, 8 m beside (a 6-8-10 triangle), on the floor and on a face turned to the lamp.
TEST(Illuminance, HorizontalVerticalAndTowardTheLens) {
  const Luminaire lamp = luminaire(pointSource(4000), {0, 0, 6});
  const Vec3 at{8, 0, 0}, lens{0, 0, 6};
  EXPECT_NEAR(illuminanceFrom(lamp, at, kUp), 24, 1e-12);
  EXPECT_NEAR(illuminanceFrom(lamp, at, facingInPlan(at, lens)), 32, 1e-12);
  EXPECT_NEAR(illuminanceFrom(lamp, at, facingBearing(270)), 32, 1e-12);
  EXPECT_NEAR(illuminanceFrom(lamp, at, normalized(lens - at)), 40, 1e-12);
  EXPECT_EQ(illuminanceFrom(lamp, at, facingBearing(90)), 0);  // from behind
  EXPECT_NEAR(illuminanceFrom(luminaire(pointSource(1000), {0, 0, 5}), {5, 0, 0}, kUp),
              14.14213562, 1e-8);
}

// Closed form: a luminous square of evenly bright points against the plane's own formula. A disc of
// luminance L and radius r at height h gives pi L r^2/(r^2 + h^2) below its centre.
TEST(Illuminance, OfALuminousDisc) {
  const double radius = 2, height = 3, luminance = 500;
  SituationLight light;
  const int rings = 60;
  for (int i = 0; i < rings; ++i) {
    const double r0 = radius * i / rings, r1 = radius * (i + 1) / rings, r = 0.5 * (r0 + r1);
    const int parts = 6 * (2 * i + 1);
    const double area = kPi * (r1 * r1 - r0 * r0) / parts;
    const Photometry patch = flatSource(luminance * area);
    for (int k = 0; k < parts; ++k) {
      const double a = 2 * kPi * (k + 0.5) / parts;
      light.luminaires.push_back(luminaire(patch, {r * std::cos(a), r * std::sin(a), height}));
    }
  }
  const double closed = kPi * luminance * radius * radius / (radius * radius + height * height);
  EXPECT_NEAR(illuminanceAt(light, {}, {0, 0, 0}, kUp), closed, 1e-3 * closed);
}

// Closed form: a line of length l with I cd per metre (cosine across its axis, equal around) at
// height h gives, square below its end, I/(2 h) (sin a cos a + a) with tan a = l/h.
TEST(Illuminance, OfALuminousLine) {
  const double length = 4, height = 2.5, candela_per_m = 300;
  SituationLight light;
  const int parts = 400;
  // Intensity of a piece: full across its axis, with the cosine towards its ends.
  Photometry piece;
  for (int c = 0; c <= 360; c += 2) piece.across_deg.push_back(c);
  for (int g = 0; g <= 180; ++g) piece.along_deg.push_back(g);
  for (const double c : piece.across_deg)
    for (const double g : piece.along_deg) {
      const double along = std::sin(degToRad(g)) * std::cos(degToRad(c));  // the axis is x
      piece.candela.push_back(candela_per_m * length / parts * std::sqrt(std::max(0.0, 1 - along * along)));
    }
  for (int i = 0; i < parts; ++i)
    light.luminaires.push_back(luminaire(piece, {length * (i + 0.5) / parts, 0, height}, 90));
  const double a = std::atan2(length, height);
  const double closed = candela_per_m / (2 * height) * (std::sin(a) * std::cos(a) + a);
  EXPECT_NEAR(illuminanceAt(light, {}, {0, 0, 0}, kUp), closed, 2e-3 * closed);
}

// Frames: C = 0 to the pan, C = 90 a quarter anticlockwise; tilted up, the axis follows.
TEST(Illuminance, TurnsWithPanAndTilt) {
  Photometry p;
  p.across_deg = {0, 90, 180, 270, 360};
  p.along_deg = {0, 90, 180};
  p.candela = {50, 100, 0, 50, 200, 0, 50, 300, 0, 50, 400, 0, 50, 100, 0};
  const auto candela = [&](double pan, double tilt, const Vec3& toward) {
    return candelaToward(p, luminaireFromSite(pan, tilt) * toward);
  };
  EXPECT_NEAR(candela(0, 90, {0, 0, -1}), 50, 1e-9);
  EXPECT_NEAR(candela(0, 90, {0, 1, 0}), 100, 1e-9);
  EXPECT_NEAR(candela(0, 90, {-1, 0, 0}), 200, 1e-9);  // west of north: anticlockwise from above
  EXPECT_NEAR(candela(90, 90, {1, 0, 0}), 100, 1e-9);
  EXPECT_NEAR(candela(90, 90, {0, 1, 0}), 200, 1e-9);
  EXPECT_NEAR(candela(90, 0, {1, 0, 0}), 50, 1e-9);  // looks east
  EXPECT_NEAR(candela(90, 0, {0, 0, 1}), 100, 1e-9);
}

// By hand: a floodlight 5 m up, tilted 45 degrees, of 10000 cd over 60 degrees to either side and 10
// up and down. 5 m out and 5 m aside lies 35 degrees aside and none up: 10000 (5 / 75^0.5) / 75 lx;
// 20 m out, 31 degrees up.
TEST(Illuminance, FloodlightsAreWideSideways) {
  for (const Planes planes : {Planes::b, Planes::a}) {
    Photometry flood;
    flood.planes = planes;
    flood.across_deg = {-60, 60};
    flood.along_deg = {-10, 10};
    flood.candela = {10000, 10000, 10000, 10000};
    const Luminaire lamp = luminaire(flood, {0, 0, 5}, 0, 45);
    EXPECT_NEAR(illuminanceFrom(lamp, {5, 5, 0}, kUp), 76.98, 0.01);
    EXPECT_NEAR(illuminanceFrom(lamp, {-5, 5, 0}, kUp), 76.98, 0.01);
    EXPECT_EQ(illuminanceFrom(lamp, {0, 20, 0}, kUp), 0);
    // CIE 121, from memory: vertical angles of types A and B are counted upwards. Its upper half alone
    // lights what lies beyond the foot of its axis.
    flood.along_deg = {0, 10};
    const Luminaire upper = luminaire(flood, {0, 0, 5}, 0, 45);
    EXPECT_GT(illuminanceFrom(upper, {0, 6, 0}, kUp), 0);
    EXPECT_EQ(illuminanceFrom(upper, {0, 4.2, 0}, kUp), 0);
    flood.along_deg = {-10, 10};
    flood.across_deg = {0, 60};
    EXPECT_EQ(illuminanceFrom(luminaire(flood, {0, 0, 5}, 0, 45), {-5, 5, 0}, kUp), 0);  // its left
  }
}

// By hand: what stands between takes the light, a pane its share of it, once; the lamp's other
// lights go on.
TEST(Illuminance, ShadowsAndPanes) {
  SituationLight light;
  light.luminaires.push_back(luminaire(pointSource(900), {0, 0, 3}));
  light.luminaires.push_back(luminaire(pointSource(900), {10, 0, 3}));
  light.ambient_lux = 5;
  const Vec3 at{0, 0, 0};
  const double first = 100, second = 900 * 3 / std::pow(109, 1.5);
  EXPECT_NEAR(illuminanceAt(light, {}, at, kUp), 5 + first + second, 1e-9);
  scene::Scene wall;
  addBox(wall, {4, -5, 0}, {4.2, 5, 4});
  const MadeUpSolids walled = madeUp(wall);
  EXPECT_NEAR(illuminanceAt(light, walled.solids(), at, kUp), 5 + first, 1e-9);
  scene::Scene pane;
  addBox(pane, {4, -5, 0}, {4.2, 5, 4}, 0.7, 0.2);
  // The same pane in two pieces that overlap is one pane.
  scene::addPrism(pane, {{4.1, -5}, {4.3, -5}, {4.3, 5}, {4.1, 5}}, std::vector<double>(4, 0.0),
                  std::vector<double>(4, 4.0), 0);
  addBox(pane, {6, -5, 0}, {6.2, 5, 4}, 0.5, 1);
  const MadeUpSolids glazed = madeUp(pane);
  EXPECT_NEAR(illuminanceAt(light, glazed.solids(), at, kUp), 5 + first + 0.35 * second, 1e-9);
  EXPECT_NEAR(glazed.solids().passes({10, 0, 3}, at, scene::Band::infrared), 0.2, 1e-12);
}

// Published: UFC 4-021-02NF (2006), table 4-3: 4:1 wanted, 6:1 good, 8:1 marginal.
TEST(LightRatioInView, ClassesAsPublished) {
  const auto of = [](double least, double most) {
    return ratioClass(evennessOf(std::array<double, 2>{least, most}));
  };
  EXPECT_EQ(of(10, 40), RatioClass::wanted);
  EXPECT_EQ(of(10, 41), RatioClass::good);
  EXPECT_EQ(of(10, 60), RatioClass::good);
  EXPECT_EQ(of(10, 61), RatioClass::marginal);
  EXPECT_EQ(of(10, 80), RatioClass::marginal);
  EXPECT_EQ(of(10, 81), RatioClass::worse);
  EXPECT_EQ(of(0, 1), RatioClass::worse);
  const Evenness even = evennessOf(std::array<double, 4>{2, 4, 6, 8});
  EXPECT_EQ(even.mean_lux, 5);
  EXPECT_EQ(even.uniformity, 0.4);
  EXPECT_EQ(even.ratio, 4);
}

// Property: what is pitch-dark is not even.
TEST(Evenness, NoRatioInTheDark) {
  const Evenness dark = evennessOf(std::array<double, 2>{0, 0});
  EXPECT_FALSE(dark.ratio);
  EXPECT_EQ(ratioClass(dark), RatioClass::worse);
}

TEST(LightOf, TakesWhatTheSituationNames) {
  const fs::path folder = fs::temp_directory_path() / ("belvedere_light_test_" + std::to_string(getpid()));
  fs::create_directories(folder);
  std::ofstream(folder / "quay.ies") << "TILT=INCLUDE\n1 2\n0 90\n1 0.5\n1 1000 1 2 1 1 2 0 0 0 1 1 10\n"
                                        "0 180\n0\n100 100\n";
  std::ofstream(folder / "flood.ies")
      << "TILT=NONE\n1 1000 1 2 2 2 2 0 0 0 1 1 10\n-10 10\n-60 60\n100 100\n100 100\n";
  std::ofstream(folder / "bad.ies") << "TILT=NONE\n1 1000 1 2 1 1 2 0 0 0 1 1 10\n0 180\n0\n100\n";
  design::Design design;
  const auto add = [&](const char* id, const char* kind) -> design::Light& {
    design.site.lights.push_back({});
    design.site.lights.back().id = {id};
    design.site.lights.back().kind = kind;
    return design.site.lights.back();
  };
  add("sky", "ambient").lux = 20;
  add("moon", "ambient").lux = 7;
  design::Light& lamp = add("lamp", "luminaire");
  lamp.at_m = Vec3{0, 0, 10};
  lamp.photometry = design::Attachment{"quay.ies", ""};
  lamp.factor = 0.8;
  lamp.tilt_deg = 45;
  design::Situation night;
  EXPECT_FALSE(lightOf(design, night, folder).stated);
  night.lights = {{"sky"}, {"lamp"}};
  const SituationLight light = lightOf(design, night, folder);
  EXPECT_TRUE(light.stated);
  EXPECT_EQ(light.ambient_lux, 20);
  ASSERT_EQ(light.luminaires.size(), 1u);
  EXPECT_NEAR(light.luminaires[0].factor, 0.8 * 0.75, 1e-12);
  EXPECT_NEAR(illuminanceAt(light, {}, {0, 0, 0}, kUp), 20 + 0.6, 1e-12);
  // Straight down it is tilted by nothing, level by a right angle (LM-63: half of its light is left).
  for (const auto& [tilt_deg, left] : {std::pair{90.0, 1.0}, {0.0, 0.5}}) {
    design.site.lights[2].tilt_deg = tilt_deg;
    EXPECT_NEAR(lightOf(design, night, folder).luminaires.at(0).factor, 0.8 * left, 1e-12);
  }
  design.site.lights[2].tilt_deg = 45;
  design.site.lights[1].factor = 0.5;  // the moon, half hidden
  night.lights.push_back({"moon"});
  EXPECT_EQ(lightOf(design, night, folder).ambient_lux, 20 + 3.5);
  night.lights.pop_back();
  design.site.lights[2].photometry = design::Attachment{"flood.ies", ""};
  const Luminaire flood = lightOf(design, night, folder).luminaires.at(0);
  EXPECT_EQ(flood.luminaire_from_site.row[0], (Vec3{1, 0, 0}));  // its horizontal angles go sideways
  design.site.lights[2].photometry = design::Attachment{"bad.ies", ""};
  try {
    lightOf(design, night, folder);
    FAIL() << "the file is cut off";
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems()[0].where, "/site/lights/2/photometry/path");
    EXPECT_NE(error.problems()[0].what.find("bad.ies, line"), std::string::npos);
  }
  fs::remove_all(folder);
}

}  // namespace
}  // namespace belvedere::light
