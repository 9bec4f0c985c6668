// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/contours.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace belvedere::drawing {
namespace {

constexpr LatticeSize kSize{121, 101};
constexpr Vec2 kApex{60.3, 49.6};

// Values that fall off as one over the distance, as a density does: a level is a circle.
std::vector<double> cone() {
  std::vector<double> values(kSize.count());
  for (int row = 0; row < kSize.rows; ++row)
    for (int column = 0; column < kSize.columns; ++column)
      values[kSize.index(column, row)] =
          1000 / norm(Vec2{static_cast<double>(column), static_cast<double>(row)} - kApex);
  return values;
}

// Closed form: 1000 / d = 1000 / 30 is a circle of radius 30. On the logarithm the field is straight
// to d ln / dd^2 / 8 = 1 / (8 * 30^2) of a cell: a hundredth of a cell is ample, plus the slack.
TEST(TraceLines, LevelOfAConeIsACircle) {
  const std::vector<std::uint8_t> usable(kSize.count(), 1);
  const auto lines = traceLines(kSize, cone(), usable, 1000.0 / 30, 0.02);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_TRUE(lines[0].closed);
  const auto& points = lines[0].points;
  double length = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vec2 next = points[(i + 1) % points.size()];
    EXPECT_NEAR(norm(points[i] - kApex), 30, 0.02);
    EXPECT_NEAR(norm((points[i] + next) * 0.5 - kApex), 30, 0.05);
    length += norm(next - points[i]);
  }
  EXPECT_NEAR(length, 2 * std::numbers::pi * 30, 0.5);
}

// Property: greater values lie to the left, so the line runs anticlockwise round a summit.
TEST(TraceLines, GreaterValuesLieToTheLeft) {
  const std::vector<std::uint8_t> usable(kSize.count(), 1);
  const auto lines = traceLines(kSize, cone(), usable, 1000.0 / 30, 0.02);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_GT(signedArea(lines[0].points), 0);
}

// Property: lines end at cells that are not usable, and stay out of them.
TEST(TraceLines, LinesEndAtCellsThatAreNotUsable) {
  std::vector<std::uint8_t> usable(kSize.count(), 1);
  for (int row = 0; row < kSize.rows; ++row)
    for (int column = 70; column < 80; ++column) usable[kSize.index(column, row)] = 0;
  const auto lines = traceLines(kSize, cone(), usable, 1000.0 / 30, 0.02);
  ASSERT_EQ(lines.size(), 2u);
  for (const Line& line : lines) {
    EXPECT_FALSE(line.closed);
    for (const Vec2 p : line.points) EXPECT_TRUE(p.x <= 70 + 1e-9 || p.x >= 80 - 1e-9) << p.x;
  }
}

std::vector<std::uint8_t> insideWhere(auto test) {
  std::vector<std::uint8_t> inside(kSize.count(), 0);
  for (int row = 1; row + 1 < kSize.rows; ++row)
    for (int column = 1; column + 1 < kSize.columns; ++column)
      inside[kSize.index(column, row)] =
          test(Vec2{static_cast<double>(column), static_cast<double>(row)});
  return inside;
}
BorderAt halfWay(std::size_t, std::size_t) { return {0.5, 1.05}; }

// Closed form: a ring between radii 15 and 35 has pi (35^2 - 15^2) cells, and a hole.
TEST(TraceRegion, RingHasItsHoleAndItsArea) {
  const auto inside = insideWhere([](Vec2 p) {
    const double d = norm(p - kApex);
    return d >= 15 && d <= 35;
  });
  const Region region = traceRegion(kSize, inside, [](std::size_t, std::size_t) {
    return BorderAt{0.5, 0.01};
  });
  ASSERT_EQ(region.size(), 1u);
  ASSERT_EQ(region[0].holes.size(), 1u);
  const double exact = std::numbers::pi * (35 * 35 - 15 * 15);
  EXPECT_NEAR(area(region), exact, 0.01 * exact);
}

// Property: a border that is straight at any slope is drawn with few points, all within about half a
// cell of it, and it leaves as much on either side: its area is right to a tenth of a cell along it.
TEST(TraceRegion, StaircasesBecomeStraight) {
  for (const double slope : {0.0, 1.0 / 13, 0.21, 0.5, 0.77, 1.0}) {
    const auto inside = insideWhere([&](Vec2 p) { return p.y < 10 + slope * p.x; });
    const Region region = traceRegion(kSize, inside, halfWay);
    ASSERT_EQ(region.size(), 1u);
    int near_border = 0;
    for (const Vec2 p : region[0].outer) {
      if (p.x < 3 || p.x > kSize.columns - 4 || p.y < 3 || p.y > kSize.rows - 4) continue;
      EXPECT_NEAR(p.y, 10 + slope * p.x, 0.55);
      ++near_border;
    }
    EXPECT_LE(near_border, 3) << "slope " << slope;
    const Ring middle{{20, 0}, {kSize.columns - 21.0, 0}, {kSize.columns - 21.0, kSize.rows - 2.0},
                      {20, kSize.rows - 2.0}};
    double exact = 0;  // from y = 0.5, the border to the row below, which is outside
    for (double x = 20; x < kSize.columns - 21; x += 0.01)
      exact += 0.01 * (std::min(10 + slope * x, kSize.rows - 1.5) - 0.5);
    // A border of slope p/q passes the points in q ways only: the lattice knows its place to 1/(2q).
    const double unknown = slope == 0 || slope == 1 ? 0.51 : slope == 0.5 ? 0.26 : 0.1;
    EXPECT_NEAR(area(intersectionOf(region, Region{{middle, {}}})), exact,
                unknown * (kSize.columns - 41)) << "slope " << slope;
  }
}

// Property: what touches only across a corner stays apart.
TEST(TraceRegion, CornersDoNotJoin) {
  const auto inside = insideWhere([](Vec2 p) {
    return (p.x >= 10 && p.x <= 20 && p.y >= 10 && p.y <= 20) ||
           (p.x >= 21 && p.x <= 30 && p.y >= 21 && p.y <= 30);
  });
  const Region region = traceRegion(kSize, inside, [](std::size_t, std::size_t) {
    return BorderAt{0.5, 0.01};
  });
  EXPECT_EQ(region.size(), 2u);
}

// Property: every dropped point lies within its slack of the line that is left.
TEST(Simplified, DroppedPointsLieWithinTheirSlack) {
  std::vector<Vec2> points;
  std::vector<double> slack;
  for (int i = 0; i <= 400; ++i) {
    points.push_back({i * 0.1, 3 * std::sin(i * 0.05) + 0.2 * std::cos(i * 1.7)});
    slack.push_back(i % 3 == 0 ? 0.05 : 0.4);
  }
  const auto kept = simplified(points, slack, false);
  EXPECT_LT(kept.size(), points.size());
  EXPECT_EQ(kept.front(), points.front());
  EXPECT_EQ(kept.back(), points.back());
  for (std::size_t i = 0; i < points.size(); ++i) {
    double nearest = 1e300;
    for (std::size_t k = 0; k + 1 < kept.size(); ++k) {
      const Vec2 d = kept[k + 1] - kept[k];
      const double t = std::clamp(dot(points[i] - kept[k], d) / dot(d, d), 0.0, 1.0);
      nearest = std::min(nearest, norm(points[i] - (kept[k] + d * t)));
    }
    EXPECT_LE(nearest, slack[i] + 1e-12);
  }
}

// Closed form: a stretch from 1 to 3.5 of an L of two sides of 2 has a length of 2.5.
TEST(StretchOf, HasItsLengthAndItsCorner) {
  const auto part = stretchOf({{0, 0}, {2, 0}, {2, 2}}, 1, 3.5);
  ASSERT_EQ(part.size(), 3u);
  EXPECT_DOUBLE_EQ(lengthOf(part), 2.5);
  EXPECT_EQ(part[0], (Vec2{1, 0}));
  EXPECT_EQ(part[1], (Vec2{2, 0}));
  EXPECT_EQ(part[2], (Vec2{2, 1.5}));
}

}  // namespace
}  // namespace belvedere::drawing
