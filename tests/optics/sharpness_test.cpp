// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/sharpness.h"

#include <gtest/gtest.h>

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

}  // namespace
}  // namespace belvedere::optics
