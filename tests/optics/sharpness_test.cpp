// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/sharpness.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/units.h"

namespace belvedere::optics {
namespace {

// Published: US Army correspondence course SS0507, learning event 10, prints 20.8 ft for a 2 in
// lens at f/8 with a circle of 0.002 in, leaving out the "+ f". Half of the last printed digit.
TEST(Hyperfocal, ArmyCourse) {
  const Focus focus{0.0508, 8, 50.8e-6};
  EXPECT_NEAR(hyperfocalM(focus) - focus.focal_m, feetToM(20.8), feetToM(0.05));
}

// Published: US Navy training manual NAVEDTRA 14209, 6.1 in lens at f/2.8 focused at 10 ft, sharp
// from 9.8 to 10.2 ft (circle of 0.002 in, inferred from its printed hyperfocal distance of 554
// ft).
TEST(SharpStretch, NavyManual) {
  const Focus focus{0.15494, 2.8, 50.8e-6};
  EXPECT_NEAR(hyperfocalM(focus), feetToM(554), 0.4);
  const SharpStretch sharp = sharpStretch(focus, feetToM(10));
  EXPECT_NEAR(sharp.near_m, feetToM(9.8), feetToM(0.05));
  EXPECT_NEAR(sharp.far_m.value(), feetToM(10.2), feetToM(0.05));
}

// Closed form: worked to 10 digits by a separate program.
TEST(SharpStretch, ThinLensLimits) {
  const SharpStretch narrow = sharpStretch({0.012, 1.4, 2e-6}, 10);
  EXPECT_NEAR(narrow.near_m, 8.373728821, 1e-8);
  EXPECT_NEAR(narrow.far_m.value(), 12.41019843, 1e-7);
  const SharpStretch wide = sharpStretch({0.004, 1.6, 2.9e-6}, 5);
  EXPECT_NEAR(wide.near_m, 2.041783048, 1e-8);
  EXPECT_FALSE(wide.far_m);
  const Focus focus{0.004, 1.6, 2.9e-6};
  EXPECT_NEAR(sharpStretch(focus, hyperfocalM(focus)).near_m, hyperfocalM(focus) / 2, 1e-12);
}

// Published: a teaching page on hyperfocal distance, 50 mm at f/8 and 0.02 mm, 15.625 m, and 35 mm at
// f/11 and 0.03 mm, 3.71 m, both without the "+ f".
TEST(Hyperfocal, TeachingPage) {
  EXPECT_NEAR(hyperfocalM({0.050, 8, 20e-6}) - 0.050, 15.625, 5e-4);
  EXPECT_NEAR(hyperfocalM({0.035, 11, 30e-6}) - 0.035, 3.71212, 5e-6);
}

// Closed form (thin lens): 8 mm at f/1.6 with a circle of 2 um, focused at 8 m, is sharp from 5.72 to
// 13.32 m, and its hyperfocal distance is 20.01 m.
TEST(DepthOfField, EightMillimetresAtEightMetres) {
  const Focus focus{0.008, 1.6, 2e-6};
  EXPECT_NEAR(hyperfocalM(focus), 20.01, 0.005);
  const SharpStretch sharp = sharpStretch(focus, 8);
  EXPECT_NEAR(sharp.near_m, 5.72, 0.005);
  EXPECT_NEAR(sharp.far_m.value(), 13.32, 0.01);
}

// Closed form: at the limits of the sharp stretch the blur is the circle.
TEST(Blur, IsTheCircleAtTheLimits) {
  const Focus focus{0.012, 1.4, 2e-6};
  const SharpStretch sharp = sharpStretch(focus, 10);
  EXPECT_NEAR(blurM(focus, 10, sharp.near_m), 2e-6, 1e-18);
  EXPECT_NEAR(blurM(focus, 10, *sharp.far_m), 2e-6, 1e-18);
  EXPECT_EQ(blurM(focus, 10, 10), 0);
}

// Property: no other focus makes the worse end of a stretch sharper.
TEST(BestFocus, MakesTheWorseEndSharpest) {
  const Focus focus{0.012, 1.4, 2e-6};
  const auto worst = [&](double s) { return std::max(blurM(focus, s, 4), blurM(focus, s, 20)); };
  const double best = bestFocusM(4, 20.0);
  EXPECT_NEAR(best, 2 * 4 * 20 / 24.0, 1e-12);
  EXPECT_NEAR(blurM(focus, best, 4), blurM(focus, best, 20), 1e-18);
  for (double s = 4; s <= 20; s += 0.01) EXPECT_GE(worst(s), worst(best) - 1e-18);
  EXPECT_EQ(bestFocusM(3, {}), 6);
}

TEST(SharpOver, TellsAllSomeNone) {
  const SharpStretch sharp{2, 8.0};
  EXPECT_EQ(sharpOver(sharp, {3, 7}), Sharp::all);
  EXPECT_EQ(sharpOver(sharp, {1, 7}), Sharp::some);
  EXPECT_EQ(sharpOver(sharp, {7, 9}), Sharp::some);
  EXPECT_EQ(sharpOver(sharp, {8.1, 9}), Sharp::none);
  EXPECT_EQ(sharpOver(sharp, {-3, 1.9}), Sharp::none);
  EXPECT_EQ(sharpOver({2, {}}, {2.1, 1e6}), Sharp::all);
  const std::array<Vec3, 3> corners{Vec3{1, 5, 0}, Vec3{-9, 2, 3}, Vec3{4, 3, 1}};
  const Interval depth = depthOver({0, 1, 0}, {0, 1, 0}, corners);
  EXPECT_EQ(depth.low, 1);
  EXPECT_EQ(depth.high, 4);
}

// Closed form: 2.44 lambda N, 3.76 um at f/2.8 and 550 nm.
TEST(Diffraction, Spot) { EXPECT_NEAR(diffractionSpotM(2.8, kGreenNm), 3.7576e-6, 1e-10); }

// Closed form: an image 20 um further back, of a 12 mm lens focused at 10 m (its image 14.4 um
// behind the focal point), needs light from beyond infinity; of 10 um, from 32.5 m.
TEST(InfraredFocus, MovesAway) {
  const Focus focus{0.012, 1.4, 2e-6};
  EXPECT_LT(infraredFocusM(focus, 10, 20e-6), 0);
  const double behind = 0.012 * 0.012 / (10 - 0.012) - 10e-6;
  EXPECT_NEAR(infraredFocusM(focus, 10, 10e-6), 0.012 * 0.012 / behind + 0.012, 1e-6);
  EXPECT_NEAR(infraredFocusM(focus, 10, 0), 10, 1e-9);
}

// By hand: 4 mm at f/1.6 focused at its hyperfocal distance for 2.8 um, 3.575 m, has 4.48 um of image
// space to either side. Moved 5 um back, infrared is sharp from f + f^2/(4.48 + 4.48 - 5 um) = 4.04 m
// on, though sharpest beyond infinity; moved 9 um it is sharp nowhere.
TEST(InfraredFocus, FarThingsStaySharpPastTheHyperfocalDistance) {
  const Focus focus{0.004, 1.6, 2.8e-6};
  const double at_m = hyperfocalM(focus);
  EXPECT_LT(infraredFocusM(focus, at_m, 5e-6), 0);
  const SharpStretch sharp = sharpStretch(focus, at_m, 5e-6);
  EXPECT_NEAR(sharp.near_m, 4.04, 0.02);
  EXPECT_FALSE(sharp.far_m);
  EXPECT_NEAR(blurM(focus, at_m, sharp.near_m, 5e-6), 2.8e-6, 1e-18);
  EXPECT_TRUE(std::isinf(sharpStretch(focus, at_m, 9.1e-6).near_m));
}

}  // namespace
}  // namespace belvedere::optics
