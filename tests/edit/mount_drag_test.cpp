// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/mount_drag.h"

#include <gtest/gtest.h>

#include "aiming.h"

namespace belvedere::edit {
namespace {

// A storey at 1 m with a wall along x = 0 (0.2 thick, a door from 4 to 5 m) and a mounting line
// round a corner at (10, 5); H hangs on the line at 3.5 m, lens 0.1 m below and no other offset.
design::Design room() {
  design::ModelImager imager = zoomImager(1);
  imager.offset_m = {0, 0, -0.1};
  design::Design design = headOf({imager}, {aimed(200, 20, 0, 60)}, 3.5);
  design::Storey storey;
  storey.id.text = "g";
  storey.floor_m = 1;
  storey.outline = {{-20, -20}, {20, -20}, {20, 20}, {-20, 20}};
  design::Wall wall;
  wall.id.text = "w";
  wall.path = {{0, 0}, {0, 10}};
  wall.thickness_m = 0.2;
  design::Opening door;
  door.id.text = "d";
  door.from_m = 4;
  door.width_m = 1;
  door.head_m = 2.1;
  wall.openings = {door};
  storey.walls = {wall};
  design.site.buildings.resize(1);
  design.site.buildings[0].storeys = {storey};
  design::Mounting line;
  line.id.text = "L";
  line.storey.text = "g";
  line.path = {{5, 5}, {10, 5}, {10, 10}};
  line.heights_m = {2, 3};
  line.excluded = {{2, 3}};
  design.site.mounting = {line};
  design.housings[0].mount.on.text = "L";
  design.housings[0].mount.fixing_m = {6, 5, 3.5};
  return design;
}
const design::Mount& mountOf(const design::Design& design) { return design.housings[0].mount; }

// Closed form: feet of perpendiculars, ends of the excluded stretch.
TEST(OnMounting, slides_round_corners_and_past_excluded_stretches) {
  const design::Design design = room();
  const auto at = [&](Vec2 p) { return *onMounting(design, {"L"}, p); };
  EXPECT_EQ(at({6, 7}).at_m, (Vec2{6, 5}));
  EXPECT_DOUBLE_EQ(at({6, 7}).away_m, 2);
  EXPECT_EQ(at({7.2, 5}).at_m, (Vec2{7, 5}));
  EXPECT_EQ(at({7.8, 5}).at_m, (Vec2{8, 5}));
  EXPECT_EQ(at({12, 8}).at_m, (Vec2{10, 8}));
  EXPECT_DOUBLE_EQ(at({12, 8}).along_m, 8);
  EXPECT_EQ(at({0, 0}).at_m, (Vec2{5, 5}));
  EXPECT_FALSE(onMounting(design, {"none"}, {0, 0}));
}

TEST(NearestFixing, takes_the_face_on_the_points_side_and_leaves_doors_out) {
  const design::Design design = room();
  const auto right = nearestFixing(design, {"g"}, {0.4, 2}, 0.5);
  ASSERT_TRUE(right);
  EXPECT_EQ(right->on.text, "w");
  EXPECT_NEAR(right->at_m.x, 0.1, 1e-12);
  EXPECT_NEAR(*right->outward_deg, 90, 1e-9);
  EXPECT_EQ(*right->z_m, (design::Range{1, 4}));
  const auto other_side = nearestFixing(design, {"g"}, {-0.3, 4.4}, 0.6);
  ASSERT_TRUE(other_side);
  EXPECT_NEAR(other_side->at_m.x, -0.1, 1e-12);
  EXPECT_NEAR(other_side->at_m.y, 4, 1e-12);
  EXPECT_NEAR(*other_side->outward_deg, 270, 1e-9);
  EXPECT_FALSE(nearestFixing(design, {"g"}, {2, 2}, 0.5));
}

TEST(DragHousing, stays_on_its_line_and_keeps_its_aims) {
  const design::Design design = room();
  const Aimed moved = dragHousing(design, {"H"}, {10.2, 7}, 0.5);
  EXPECT_FALSE(moved.at_stop);
  EXPECT_EQ(mountOf(moved.design).fixing_m, (Vec3{10, 7, 3.5}));
  EXPECT_EQ(aimOf(moved.design, 1), aimOf(design, 1));
  const Aimed held = dragHousing(design, {"H"}, {14, 7}, 0.5);
  EXPECT_TRUE(held.at_stop);
  EXPECT_EQ(mountOf(held.design).fixing_m, (Vec3{10, 7, 3.5}));
  EXPECT_EQ(mountOf(held.design).on.text, "L");
}

TEST(DragHousing, snaps_onto_a_wall_and_turns_a_bracket_outwards) {
  design::Design design = room();
  design::Model bracket;
  bracket.id.text = "B";
  bracket.kind = design::ModelKind::mount;
  bracket.reach_m = 0.3;
  design.catalogue.models.push_back(bracket);
  design.housings[0].mount.model.text = "B";
  const Aimed moved = dragHousing(design, {"H"}, {0.3, 2}, 0.5);
  EXPECT_EQ(mountOf(moved.design).on.text, "w");
  EXPECT_NEAR(mountOf(moved.design).fixing_m.x, 0.1, 1e-12);
  EXPECT_NEAR(mountOf(moved.design).base_bearing_deg, 90, 1e-9);
  // Along the same face, the base stays as the hand has turned it.
  const design::Design turned =
      withBaseBearing(moved.design, {"H"}, 75, Aims::stay).design;
  EXPECT_NEAR(mountOf(dragHousing(turned, {"H"}, {0.3, 3}, 0.5).design).base_bearing_deg, 75,
              1e-9);
}

TEST(DragHousing, is_free_where_there_is_nothing) {
  design::Design design = room();
  design.housings[0].mount.on = {};
  const Aimed moved = dragHousing(design, {"H"}, {-8, -3}, 0.5);
  EXPECT_FALSE(moved.at_stop);
  EXPECT_EQ(mountOf(moved.design).fixing_m, (Vec3{-8, -3, 3.5}));
  EXPECT_TRUE(mountOf(moved.design).on.empty());
}

// Closed form: the lens hangs 0.1 m below the fixing point, the floor is at 1 m.
TEST(LensHeight, is_typed_above_the_floor_within_the_lines_heights) {
  const design::Design design = room();
  EXPECT_NEAR(lensHeight(design, {"H"}), 2.4, 1e-12);
  const Aimed set = withLensHeight(design, {"H"}, 2.2);
  EXPECT_FALSE(set.at_stop);
  EXPECT_NEAR(mountOf(set.design).fixing_m.z, 3.3, 1e-12);
  EXPECT_NEAR(lensHeight(set.design, {"H"}), 2.2, 1e-12);
  const Aimed high = withLensHeight(design, {"H"}, 5);
  EXPECT_TRUE(high.at_stop);
  EXPECT_NEAR(mountOf(high.design).fixing_m.z, 4, 1e-12);
}

TEST(WithFixing, keeps_what_it_hangs_on_while_it_does) {
  const design::Design design = room();
  EXPECT_EQ(mountOf(withFixing(design, {"H"}, {9, 5, 3.2}).design).on.text, "L");
  const Aimed off = withFixing(design, {"H"}, {9, 6, 8});
  EXPECT_TRUE(mountOf(off.design).on.empty());
  EXPECT_EQ(mountOf(off.design).fixing_m, (Vec3{9, 6, 8}));
  EXPECT_FALSE(off.at_stop);
}

}  // namespace
}  // namespace belvedere::edit
