// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/reach.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "optics/lens_fit.h"

namespace belvedere::optics {
namespace {

// A rectilinear lookout of a given vertical field.
Lookout withVfov(double vfov_deg, double height_m, double tilt_deg) {
  return {
      fitFocal({1920, 1080}, {.vfov_deg = vfov_deg}, 1)->lens, {1920, 1080}, height_m, tilt_deg};
}
Lookout testBed() {
  return {fitFocal({1920, 1080}, {.hfov_deg = 60}, 1)->lens, {1920, 1080}, 3, 30};
}

// Closed form: (h-p)/tan(t +- v/2), worked by a separate program to 10 digits.
TEST(InFrame, NearestAndFarthest) {
  const struct {
    double height_m, tilt_deg, vfov_deg, target_m, nearest_m, farthest_m;
  } rows[] = {{3, 30, 40, 0, 2.517298894, 17.01384546},
              {3, 30, 40, 1.7, 1.090829521, 7.372666366},
              {6, 30, 40, 0, 5.034597787, 34.02769092},
              {4, 45, 60, 0.2, 1.018206931, 14.18179307},
              {3, 70, 50, 0, 0, 3},
              {3, 15, 40, 0, 4.28444402, -1}};
  for (const auto& row : rows) {
    const auto seen = inFrame(withVfov(row.vfov_deg, row.height_m, row.tilt_deg), row.target_m);
    ASSERT_TRUE(seen);
    EXPECT_NEAR(seen->from_m, row.nearest_m, 1e-8);
    ASSERT_EQ(seen->to_m.has_value(), row.farthest_m >= 0);
    if (seen->to_m) {
      EXPECT_NEAR(*seen->to_m, row.farthest_m, 1e-7);
    }
  }
}

// Closed form: a design brief's test bed, worked by hand: the nearest face is 1.396 m off at 1.45
// and 1.036 m at 1.85; the floor is seen from 2.702 to 14.104 m.
TEST(InFrame, TestBed) {
  EXPECT_NEAR(inFrame(testBed(), 1.45)->from_m, 1.396, 0.0005);
  EXPECT_NEAR(inFrame(testBed(), 1.85)->from_m, 1.036, 0.0005);
  EXPECT_NEAR(inFrame(testBed(), 0.0)->from_m, 2.702, 0.0005);
  EXPECT_NEAR(*inFrame(testBed(), 0.0)->to_m, 14.104, 0.0005);
}

// Closed form: what lies above the lens is seen by an upper edge above the horizon, from some
// distance on; a downward axis never sees it; looking straight down, from the foot on.
TEST(InFrame, AboveTheLensAndStraightDown) {
  const auto above = inFrame(withVfov(40, 2, 10), 3.0);
  ASSERT_TRUE(above);
  EXPECT_NEAR(above->from_m, 1 / std::tan(degToRad(10)), 1e-9);
  EXPECT_FALSE(above->to_m);
  EXPECT_FALSE(inFrame(withVfov(40, 2, 30), 3.0));
  EXPECT_TRUE(inFrame(withVfov(40, 2, 10), 2.0));
  EXPECT_FALSE(inFrame(withVfov(40, 2, 30), 2.0));
  const auto down = inFrame(withVfov(40, 3, 90), 0.0);
  ASSERT_TRUE(down);
  EXPECT_EQ(down->from_m, 0);
  EXPECT_NEAR(*down->to_m, 3 * std::tan(degToRad(20)), 1e-9);
  EXPECT_FALSE(inFrame(withVfov(40, 3, -30), 0.0));
}

// Closed form: a rectilinear lens has F over depth along its middle column, depth = d cos t +
// (h - p) sin t, largest at the band's lowest point; the frame's upper edge ends it otherwise.
TEST(DenseInFrame, RectilinearClosedForm) {
  const Lookout lookout = testBed();
  const double f_px = std::get<RadialLens>(lookout.lens).f_px, t = degToRad(30);
  const auto faces = denseInFrame(lookout, {1.45, 1.85}, 400);
  ASSERT_TRUE(faces);
  EXPECT_NEAR(faces->from_m, inFrame(lookout, 1.45)->from_m, 1e-12);
  EXPECT_NEAR(*faces->to_m, (f_px / 400 - 1.55 * std::sin(t)) / std::cos(t), 1e-8);
  const auto easy = denseInFrame(lookout, {1.45, 1.85}, 25);
  EXPECT_NEAR(*easy->to_m, *inFrame(lookout, 1.85)->to_m, 1e-9);
  EXPECT_FALSE(denseInFrame(lookout, {1.45, 1.85}, 2000));
  // Without an end of the frame, density ends it.
  const auto level = denseInFrame(withVfov(40, 3, 5), {0.2, 1.8}, 12.5);
  ASSERT_TRUE(level && level->to_m);
  const double f_level = 540 / std::tan(degToRad(20));
  EXPECT_NEAR(*level->to_m, (f_level / 12.5 - 2.8 * std::sin(degToRad(5))) / std::cos(degToRad(5)),
              1e-6);
}

// Property: a higher density never lengthens the stretch; the band's own frame bounds it.
TEST(DenseInFrame, ShrinksWithDensity) {
  for (const double k : {1.0, 0.5, 0.0, -0.5}) {
    const Lookout lookout{fitFocal({2592, 1944}, {.hfov_deg = 100}, k)->lens, {2592, 1944}, 3, 35};
    double last = 1e9;
    for (const double px_per_m : {12.5, 25.0, 62.5, 125.0, 250.0, 500.0}) {
      const auto found = denseInFrame(lookout, {0.2, 1.8}, px_per_m);
      if (!found) break;
      EXPECT_LE(*found->to_m, last + 1e-9);
      EXPECT_GE(found->from_m, inFrame(lookout, std::array{0.2, 1.8})->from_m - 1e-12);
      last = *found->to_m;
    }
    EXPECT_LT(last, 20);
  }
}

}  // namespace
}  // namespace belvedere::optics
