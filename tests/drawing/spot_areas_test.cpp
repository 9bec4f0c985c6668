// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/spot_areas.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "drawing/contours.h"
#include "made_up.h"

namespace belvedere::drawing {
namespace {

using proof::Reason;

double areaOf(const std::vector<ReasonArea>& areas, Reason reason) {
  for (const ReasonArea& part : areas)
    if (part.reason == reason) return area(part.area);
  return 0;
}

// Closed form: a lens in a corner of the zone with 1000 px/m at 1 m serves a quarter disc of
// 1000 / 250 = 4 m where 250 is needed. The border is the density's, so it is known far below a
// cell (0.1 m).
TEST(ReasonAreas, ServedIsTheQuarterDiscOfItsDensity) {
  const ZoneMap map = madeUpMap({}, 250, [](Vec2) { return Reason::served; });
  const auto areas = reasonAreas(map);
  EXPECT_NEAR(areaOf(areas, Reason::served), std::numbers::pi * 4 * 4 / 4, 0.02);
  // The two sides of the border are drawn apart, each within 0.04 of a cell of it.
  EXPECT_NEAR(areaOf(areas, Reason::served) + areaOf(areas, Reason::too_coarse), 50,
              2 * 0.04 * 0.1 * std::numbers::pi * 4 / 2);
}

// Closed form: a shadow behind a straight edge through the zone; its border is known to half a cell
// along its length (5.4 m), the areas add up to the zone.
TEST(ReasonAreas, ShadowHasItsAreaToHalfACell) {
  const ZoneMap map = madeUpMap({}, 50, [](Vec2 p) {
    return p.x > 6 + 0.4 * p.y ? Reason::hidden : Reason::served;
  });
  const auto areas = reasonAreas(map);
  EXPECT_NEAR(areaOf(areas, Reason::hidden), 50 - (6 + 0.4 * 2.5) * 5, 0.5 * 0.1 * 5.4);
  double sum = 0;
  for (const ReasonArea& part : areas) sum += area(part.area);
  EXPECT_NEAR(sum, 50, 0.1 * 5.4);
}

// Property: a zone that is turned on the site gives the same areas.
TEST(ReasonAreas, TurnedLatticesGiveTheSame) {
  const auto all = [](Vec2) { return Reason::served; };
  const double straight = areaOf(reasonAreas(madeUpMap({}, 250, all)), Reason::served);
  const ZoneMap turned = turnedMap(madeUpMap({}, 250, all), 31);
  const auto areas = reasonAreas(turned);
  EXPECT_NEAR(areaOf(areas, Reason::served), straight, 1e-6);
}

// Property: what stands in the zone is cut out, wherever the lattice lies.
TEST(ReasonAreas, WhatIsNotJudgedIsNotDrawn) {
  ZoneMap map = madeUpMap({}, 50, [](Vec2) { return Reason::served; });
  map.judged[0].holes.push_back({{3.03, 2}, {3.03, 3}, {4.07, 3}, {4.07, 2}});
  EXPECT_NEAR(area(servedArea(map)), 50 - 1.04, 1e-9);
}

// Property: bands lie within one another; closed form: that of margin m is the quarter disc of
// radius 1000 / (m * needed).
TEST(MarginBands, AreNestedDiscs) {
  const ZoneMap map = madeUpMap({}, 125, [](Vec2) { return Reason::served; });
  const auto bands = marginBands(map, {2, 4});
  ASSERT_EQ(bands.size(), 2u);
  EXPECT_NEAR(area(bands[0].area), std::numbers::pi * 4 * 4 / 4, 0.02);
  EXPECT_NEAR(area(bands[1].area), std::numbers::pi * 2 * 2 / 4, 0.02);
  EXPECT_NEAR(area(intersectionOf(bands[0].area, bands[1].area)), area(bands[1].area), 1e-9);
}

// Closed form: the line of 250 px/m lies 4 m from the lens.
TEST(DensityLines, LieAtTheirDistance) {
  const ZoneMap map = madeUpMap({}, 62.5, [](Vec2) { return Reason::served; });
  const auto lines = densityLines(map, {{250, true}});
  ASSERT_EQ(lines.size(), 1u);
  for (const Vec2 p : lines[0].points) EXPECT_NEAR(norm(p), 4, 0.01);
  EXPECT_NEAR(lengthOf(lines[0].points), std::numbers::pi * 4 / 2, 0.05);
}

// Property: where the picture changes from one imager's to a denser one's, no line follows the jump.
TEST(DensityLines, DoNotFollowAJump) {
  ZoneMap map = madeUpMap({}, 62.5, [](Vec2) { return Reason::served; });
  for (int row = 0; row < map.spots.rows; ++row)
    for (int column = 50; column < map.spots.columns; ++column) {
      proof::Spot& spot = map.spots.spots[static_cast<std::size_t>(row * map.spots.columns + column)];
      spot.px_per_m = 900;
      spot.imager = 1;
    }
  for (const DensityLine& line : densityLines(map, {{250, true}, {500, true}}))
    for (const Vec2 p : line.points) EXPECT_LT(p.x, 5);
}

// Published: IEC 62676-4:2014 names 25, 62.5, 125, 250 and 1000 px/m; from memory.
TEST(DensityLevels, TaskLevelsAreHeavyAndOthersThin) {
  const auto scale = design::taskScale({});
  ASSERT_TRUE(scale);
  const auto levels = densityLevels(scale->lines, 300, {50, 700, 70, 450}, 20);
  const auto heavy = [&](double v) {
    for (const DensityLevel& level : levels)
      if (level.px_per_m == v) return level.heavy ? 1 : 0;
    return -1;
  };
  for (const double task : {62.5, 125.0, 250.0, 300.0}) EXPECT_EQ(heavy(task), 1) << task;
  for (const double round : {80.0, 200.0, 400.0}) EXPECT_EQ(heavy(round), 0) << round;
  EXPECT_EQ(heavy(500), -1) << "round numbers lie in the usual range";
  EXPECT_EQ(heavy(25), -1);
  EXPECT_EQ(heavy(1000), -1);
  for (const DensityLevel& level : densityLevels(scale->lines, 300, {1, 700, 1, 700}, 5))
    EXPECT_TRUE(level.heavy) << "too many round numbers: only the tasks'";
}

}  // namespace
}  // namespace belvedere::drawing
