// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/density.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "design/resolve.h"
#include "optics/lens_fit.h"

namespace belvedere::optics {
namespace {

// An imager that looks north and `tilt_deg` down, with no roll.
Mat3 lookingNorth(double tilt_deg) {
  const double t = degToRad(tilt_deg);
  return {{Vec3{1, 0, 0}, Vec3{0, -std::sin(t), -std::cos(t)}, Vec3{0, std::cos(t), -std::sin(t)}}};
}
Lens lensOf(std::array<int, 2> pixels, double hfov_deg, double k) {
  return fitFocal(pixels, {.hfov_deg = hfov_deg}, k)->lens;
}

// Closed form: F/d on the axis: 3840 px, 90 deg, 10 m: 192.0 rectilinear, 244.5 equidistant.
TEST(Density, OnTheAxis) {
  for (const double tilt : {0.0, 20.0}) {
    const Mat3 rotation = lookingNorth(tilt);
    const Vec3 target = rotation.row[2] * 10.0 + Vec3{1, 2, 3};
    const auto flat = densityAt(lensOf({3840, 2160}, 90, 1), rotation, {1, 2, 3}, target);
    const auto arc = densityAt(lensOf({3840, 2160}, 90, 0), rotation, {1, 2, 3}, target);
    EXPECT_NEAR(flat->across_px_per_m, 192.0, 1e-9);
    EXPECT_NEAR(arc->across_px_per_m, 244.4620, 1e-4);
    EXPECT_NEAR(flat->upright_px_per_m, 192.0 * std::cos(degToRad(tilt)), 1e-9);
    EXPECT_NEAR(norm(flat->at_px - Vec2{1920, 1080}), 0, 1e-9);
  }
}

// Closed form: off the axis by theta, beside it and below it, both projections (handbook 4; figures
// worked by a separate program for 2560 px, 80 deg, 8 m).
TEST(Density, OffTheAxisDependsOnTheSide) {
  const struct {
    double theta_deg, flat_beside, arc_beside, flat_below, arc_below;
  } rows[] = {{0, 190.6805748, 229.1831181, 190.6805748, 229.1831181},
              {20, 215.9408565, 229.1831181, 202.9180294, 233.904352},
              {35, 284.1694676, 229.1831181, 232.7780003, 244.0825514}};
  const std::array<int, 2> pixels{2560, 1440};
  const Lens flat = lensOf(pixels, 80, 1), arc = lensOf(pixels, 80, 0);
  const Mat3 level = lookingNorth(0);
  for (const auto& row : rows) {
    const double a = degToRad(row.theta_deg);
    const Vec3 beside = Vec3{std::sin(a), std::cos(a), 0} * 8.0;
    const Vec3 below = Vec3{0, std::cos(a), -std::sin(a)} * 8.0;
    EXPECT_NEAR(densityAt(flat, level, {}, beside)->across_px_per_m, row.flat_beside, 1e-6);
    EXPECT_NEAR(densityAt(arc, level, {}, beside)->across_px_per_m, row.arc_beside, 1e-6);
    EXPECT_NEAR(densityAt(flat, level, {}, below)->across_px_per_m, row.flat_below, 1e-6);
    EXPECT_NEAR(densityAt(arc, level, {}, below)->across_px_per_m, row.arc_below, 1e-6);
  }
}

// Closed form: straight below the lens the picture's right is taken: F/d for one that looks down.
TEST(Density, StraightBelowTheLens) {
  const Lens lens = lensOf({1920, 1080}, 60, 1);
  const Mat3 down = lookingNorth(90);
  const auto below = densityAt(lens, down, {4, 5, 6}, {4, 5, 0});
  ASSERT_TRUE(below);
  EXPECT_NEAR(below->across_px_per_m, 1662.7688 / 6, 1e-4);
  EXPECT_NEAR(below->upright_px_per_m, 0, 1e-9);
  EXPECT_FALSE(densityAt(lens, lookingNorth(0), {0, 0, 6}, {0, -1, 6}));  // behind
}

// Closed form: 3840 recorded at 1280 has a third, a tile 960 wide a quarter; upright likewise.
TEST(Density, OfAStream) {
  const Lens lens = lensOf({3840, 2160}, 90, 1);
  const Vec3 target{1, 9, -2};
  const Mat3 rotation = lookingNorth(0);
  const auto captured = densityAt(lens, rotation, {}, target);
  const auto recorded = densityAt(lens, rotation, {}, target, {1280.0 / 3840, 720.0 / 2160});
  const auto viewed = densityAt(lens, rotation, {}, target, {960.0 / 3840, 540.0 / 2160});
  EXPECT_DOUBLE_EQ(recorded->across_px_per_m, captured->across_px_per_m / 3);
  EXPECT_DOUBLE_EQ(viewed->across_px_per_m, captured->across_px_per_m / 4);
  EXPECT_DOUBLE_EQ(viewed->upright_px_per_m, captured->upright_px_per_m / 4);
  EXPECT_EQ(recorded->at_px, captured->at_px);
  // Squeezed upright only: a level imager's across stays, its upright halves, on the axis.
  const auto squeezed = densityAt(lens, rotation, {}, {0, 9, 0}, {1, 0.5});
  EXPECT_NEAR(squeezed->across_px_per_m, 1920.0 / 9, 1e-9);
  EXPECT_NEAR(squeezed->upright_px_per_m, 960.0 / 9, 1e-9);
}

// Closed form: distances for 250 px/m, 1920 px wide, worked by a separate program; and a design
// brief's 7.68 m for 3840 px, 90 deg.
TEST(TaskDistance, BothForms) {
  const struct {
    double hfov_deg, flat_m, arc_m;
  } rows[] = {
      {60, 6.651075101, 7.333859778}, {90, 3.84, 4.889239852}, {100, 3.222142584, 4.400315867}};
  for (const auto& row : rows) {
    EXPECT_NEAR(rectilinearReachM(1920, row.hfov_deg, 250), row.flat_m, 1e-8);
    EXPECT_NEAR(equidistantReachM(1920, row.hfov_deg, 250), row.arc_m, 1e-8);
  }
  EXPECT_NEAR(rectilinearReachM(3840, 90, 250), 7.68, 1e-9);
  EXPECT_EQ(rectilinearReachM(1920, 180, 250), 0);
}

// Common practice, no source: a 5-megapixel imager (2592 x 1944) at about 100 deg identifies to
// about 6 m, recognises to 12, observes to 23 and detects to about 60; at about 49 deg 12, 24, 47
// and 120. Within 5 % by the arc form, that of data sheets; by the flat form it would not be.
TEST(TaskDistance, FactsOfTheTradeForFiveMegapixels) {
  const double densities[] = {250, 125, 62.5, 25};
  const double wide_m[] = {6, 12, 23, 60}, narrow_m[] = {12, 24, 47, 120};
  for (int i = 0; i < 4; ++i) {
    EXPECT_NEAR(equidistantReachM(2592, 100, densities[i]), wide_m[i], 0.05 * wide_m[i]);
    EXPECT_NEAR(equidistantReachM(2592, 49, densities[i]), narrow_m[i], 0.05 * narrow_m[i]);
    EXPECT_LT(rectilinearReachM(2592, 100, densities[i]), 0.8 * wide_m[i]);
  }
}

// Published: machine-vision teaching page, field of view: 8.8 mm and 22 mm sensors behind 16 mm at
// 400 mm show 220 mm and 550 mm.
TEST(PictureWidth, TeachingPageExample) {
  for (const double sensor_mm : {8.8, 22.0}) {
    const double hfov_deg = radToDeg(2 * std::atan(sensor_mm / 2 / 16));
    EXPECT_NEAR(*pictureWidthFlatM(hfov_deg, 0.4), sensor_mm == 22 ? 0.55 : 0.22, 1e-6);
  }
  EXPECT_FALSE(pictureWidthFlatM(180, 1));
  EXPECT_NEAR(pictureWidthArcM(180, 2), 2 * kPi, 1e-12);
}

// Closed form: straight below a rolled lens the tangent is level too, so that an equidistant lens has
// F / d across it at least there (F theta / (d sin theta) at most).
TEST(Density, TangentStraightBelowARolledLensIsLevel) {
  const Lens lens = RadialLens{600, 0, {960, 540}};
  for (const double tilt_deg : {20.0, 45.0, 70.0})
    for (const double roll_deg : {0.0, 30.0, 60.0, 90.0, 135.0, 200.0}) {
      const Mat3 turn = design::imagerFromSite(10, tilt_deg, roll_deg);
      const Vec3 t = horizontalTangent(turn, {0, 0, -3});
      EXPECT_EQ(t.z, 0);
      EXPECT_NEAR(norm(t), 1, 1e-12);
      const double theta = degToRad(90 - tilt_deg);
      const auto density = densityAt(lens, turn, {0, 0, 3}, {0, 0, 0});
      ASSERT_TRUE(density);
      EXPECT_GE(density->across_px_per_m, 600 / 3.0 * (1 - 1e-12));
      EXPECT_LE(density->across_px_per_m, 600 * theta / (3 * std::sin(theta)) * (1 + 1e-12));
    }
}

// Closed form: linear from the middle to the corners.
TEST(Delivered, LinearInTheRadius) {
  EXPECT_DOUBLE_EQ(deliveredFactor(0.9, 0.6, {800, 600}, {400, 300}), 0.9);
  EXPECT_DOUBLE_EQ(deliveredFactor(0.9, 0.6, {800, 600}, {0, 600}), 0.6);
  EXPECT_DOUBLE_EQ(deliveredFactor(0.9, 0.6, {800, 600}, {650, 300}), 0.75);
  EXPECT_DOUBLE_EQ(unrolledDensity(800, 4), 200);
}

}  // namespace
}  // namespace belvedere::optics
