// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/hatch.h"

#include <gtest/gtest.h>

#include <cmath>

namespace belvedere::drawing {
namespace {

// A square of 40 mm with a hole of 10 mm: 1500 mm2.
Region holed() {
  return {{{{0, 0}, {40, 0}, {40, 40}, {0, 40}}, {{{15, 15}, {15, 25}, {25, 25}, {25, 15}}}}};
}
bool inside(Vec2 p) {
  const bool in_hole = p.x > 15 && p.x < 25 && p.y > 15 && p.y < 25;
  return p.x >= -1e-9 && p.x <= 40 + 1e-9 && p.y >= -1e-9 && p.y <= 40 + 1e-9 && !in_hole;
}

// Closed form: strokes d apart cover 1/d of length to the area, whatever their angle; at most one
// stroke's length over for a square.
TEST(HatchStrokes, LengthTimesSpacingIsTheArea) {
  for (const double angle : {0.0, 45.0, -45.0, 90.0, 17.0}) {
    double length = 0;
    for (const Segment& s : hatchStrokes(holed(), angle, 0.5)) {
      EXPECT_TRUE(inside((s.a + s.b) * 0.5));
      length += norm(s.b - s.a);
    }
    EXPECT_NEAR(length * 0.5, 1500, 0.5 * 40 * std::sqrt(2.0)) << angle;
  }
}

// Closed form: dashes of 1.5 with gaps of 1.5 cover half of the strokes.
TEST(HatchStrokes, DashesCoverTheirShare) {
  double length = 0;
  for (const Segment& s : hatchStrokes(holed(), 0, 0.5, 1.5, 1.5)) {
    EXPECT_LE(norm(s.b - s.a), 1.5 + 1e-9);
    EXPECT_TRUE(inside((s.a + s.b) * 0.5));
    length += norm(s.b - s.a);
  }
  EXPECT_NEAR(length * 0.5, 750, 30);
}

// Closed form: staggered rows hold one dot to s^2 sqrt(3)/2.
TEST(HatchDots, AsManyAsTheAreaHolds) {
  const auto dots = hatchDots(holed(), 1);
  for (const Vec2 p : dots) EXPECT_TRUE(inside(p));
  EXPECT_NEAR(static_cast<double>(dots.size()), 1500 / (0.5 * std::sqrt(3.0)), 60);
}

// Closed form: a line through the middle is cut at the hole's edges.
TEST(PartsInside, LineIsCutAtEveryEdge) {
  const auto parts = partsInside({{{-5, 20}, {20, 20}, {50, 20}}, false}, holed());
  ASSERT_EQ(parts.size(), 2u);
  EXPECT_NEAR(parts[0].front().x, 0, 1e-12);
  EXPECT_NEAR(parts[0].back().x, 15, 1e-12);
  EXPECT_NEAR(parts[1].front().x, 25, 1e-12);
  EXPECT_NEAR(parts[1].back().x, 40, 1e-12);
}

// Property: a closed line that is cut once comes back in one part, wherever it starts.
TEST(PartsInside, ClosedLineRunsOnThroughItsStart) {
  // A square half out to the right; its first point lies inside the region.
  const auto parts =
      partsInside({{{30, 5}, {30, 2}, {50, 2}, {50, 8}, {30, 8}}, true}, holed());
  ASSERT_EQ(parts.size(), 1u);
  EXPECT_NEAR(lengthOf(parts[0]), 26, 1e-9);
}

}  // namespace
}  // namespace belvedere::drawing
