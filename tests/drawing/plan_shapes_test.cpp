// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/plan_shapes.h"

#include <gtest/gtest.h>

#include "made_up.h"

namespace belvedere::drawing {
namespace {

const design::Situation kDay{{"day"}, "Day", {}, {}, {}, {}, 0};

// Closed form: an L of 4 m and 3 m along its centre lines, 0.2 m thick, mitred: the bend's two
// halves make up for each other, so its area is (4 + 3) * 0.2.
TEST(WallBody, MitredBendKeepsTheArea) {
  const Region body = wallBody({{0, 0}, {4, 0}, {4, 3}}, 0.2);
  EXPECT_NEAR(area(body), 1.4, 1e-9);
  EXPECT_TRUE(contains(body, Vec2{4.09, -0.09}));
}

// Closed form: a room of 4 x 3 m on centre lines: the outer box less the inner one.
TEST(WallBody, ClosedPathHasFourBends) {
  const Region body = wallBody({{0, 0}, {4, 0}, {4, 3}, {0, 3}, {0, 0}}, 0.2);
  EXPECT_NEAR(area(body), 4.2 * 3.2 - 3.8 * 2.8, 1e-9);
}

// Closed form: a door of 1.2 m takes 1.2 * 0.2 out of the wall, wherever it lies on the path.
TEST(PlanShapes, OpeningsAreCutOut) {
  design::Design design = madeUpDesign();
  design::Storey& storey = design.site.buildings[0].storeys[0];
  const double with = area(planShapes(design, storey, kDay).walls[0].area);
  storey.walls[0].openings[0].from_m = 22;
  EXPECT_NEAR(area(planShapes(design, storey, kDay).walls[0].area), with, 1e-9);
  storey.walls[0].openings.clear();
  EXPECT_NEAR(area(planShapes(design, storey, kDay).walls[0].area), with + 0.24, 1e-9);
}

// Property: what is named present somewhere stands only there; what is absent stands not.
TEST(PlanShapes, SituationsSwitchWhatStands) {
  design::Design design = madeUpDesign();
  design::Solid solid;
  solid.id.text = "stall";
  solid.storey.text = "ground";
  solid.outline = {{1, 1}, {2, 1}, {2, 2}, {1, 2}};
  solid.top_m = 1;
  design.site.solids = {solid};
  design.situations = {kDay, kDay};
  design.situations[1].id.text = "market";
  design.situations[1].present = {{"stall"}};
  const design::Storey& storey = design.site.buildings[0].storeys[0];
  EXPECT_EQ(planShapes(design, storey, design.situations[0]).solids.size(), 0u);
  EXPECT_EQ(planShapes(design, storey, design.situations[1]).solids.size(), 1u);
  design.situations[1].present.clear();
  design.situations[1].absent = {{"stall"}};
  EXPECT_EQ(planShapes(design, storey, design.situations[0]).solids.size(), 1u);
  EXPECT_EQ(planShapes(design, storey, design.situations[1]).solids.size(), 0u);
}

// Property: a building that is moved and turned takes its slab and walls along.
TEST(PlanShapes, BuildingsStandWhereTheSiteHasThem) {
  design::Design design = madeUpDesign();
  design.site.buildings[0].origin_m = {100, 50};
  design.site.buildings[0].turn_deg = 90;  // clockwise: its x runs south
  const design::Storey& storey = design.site.buildings[0].storeys[0];
  const Box2 box = bounds(planShapes(design, storey, kDay).slab);
  EXPECT_NEAR(box.low.x, 100, 1e-9);
  EXPECT_NEAR(box.high.x, 114, 1e-9);
  EXPECT_NEAR(box.low.y, 30, 1e-9);
  EXPECT_NEAR(box.high.y, 50, 1e-9);
}

// Property: a camera without a storey is drawn on the highest floor below its fixing point.
TEST(DrawnOn, GoesByHeightWhereNoStoreyIsNamed) {
  design::Design design = madeUpDesign();
  design::Building& building = design.site.buildings[0];
  building.storeys.push_back(building.storeys[0]);
  building.storeys[1].id.text = "first";
  building.storeys[1].floor_m = 3.5;
  design::Housing housing = design.housings[0];
  housing.storey = {};
  housing.mount.fixing_m.z = 3.2;
  EXPECT_TRUE(drawnOn(design, housing, building.storeys[0]));
  EXPECT_FALSE(drawnOn(design, housing, building.storeys[1]));
  housing.mount.fixing_m.z = 6;
  EXPECT_FALSE(drawnOn(design, housing, building.storeys[0]));
  EXPECT_TRUE(drawnOn(design, housing, building.storeys[1]));
}

}  // namespace
}  // namespace belvedere::drawing
