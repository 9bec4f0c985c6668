// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/aim_drag.h"

#include <gtest/gtest.h>

#include <random>

#include "aiming.h"

namespace belvedere::edit {
namespace {

constexpr double kNearPx = 0.5;

// Property: the point under the hand keeps its pixel, through any lens, with roll and offset.
TEST(BodyFollows, keeps_the_point_under_the_hand) {
  for (const char* family : {"rectilinear", "equidistant", "stereographic", "equisolid"})
    for (const double roll : {0.0, 12.0, -70.0})
      for (const double base_tilt : {0.0, 20.0}) {
        design::Design design = headOf({zoomImager(1, family)}, {aimed(40, 30, roll, 70)});
        design.housings[0].mount.base_tilt_deg = base_tilt;
        const Vec3 from{4, 5, 1.5};
        const auto pixel = pixelOf(design, 1, from);
        ASSERT_TRUE(pixel);
        for (const Vec3 to : {Vec3{4.2, 5.1, 1.5}, Vec3{1, 7, 1.5}, Vec3{6, 1, 1.5}}) {
          const Aimed result = bodyFollows(design, slotOf(1), from, to);
          if (result.at_stop) continue;  // some are beyond any tilt of the rolled picture
          const auto now = pixelOf(result.design, 1, to);
          ASSERT_TRUE(now);
          EXPECT_LT(norm(*now - *pixel), kNearPx) << family << ' ' << roll << ' ' << to.x;
        }
        EXPECT_FALSE(bodyFollows(design, slotOf(1), from, {4.2, 5.1, 1.5}).at_stop);
      }
}

// Where tilt is held, the point's bearing is still followed: the pixel's column, for an axis point.
TEST(BodyFollows, turns_on_where_tilt_is_at_its_stop) {
  design::Design design = headOf({zoomImager(1)}, {aimed(0, 30, 0, 70)});
  design.catalogue.models[0].imagers[0].tilt_deg = {0, 32};
  const auto view = posedOf(design, slotOf(1), design::JudgedOn::captured);
  const Vec3 forward = view->imager_from_site.row[2];
  const Vec3 from = view->lens_m + forward * (2.5 / -forward.z);
  const Aimed result = bodyFollows(design, slotOf(1), from, {2, 1, from.z});
  EXPECT_TRUE(result.at_stop);
  EXPECT_NEAR(aimOf(result.design, 1).tilt_deg, 32, 1e-9);
  EXPECT_NEAR(pixelOf(result.design, 1, {2, 1, from.z})->x, 960, kNearPx);
}

// Property: after the drag the point lies on the edge that was dragged.
TEST(EdgeThrough, lays_near_and_far_edge_through_the_point_by_tilt) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> side(-0.8, 0.8), out(2, 12);
  int exact = 0;
  for (const char* family : {"rectilinear", "equidistant", "orthographic"})
    for (const double base_tilt : {0.0, 15.0})
      for (const double roll : {0.0, 8.0})
        for (int i = 0; i < 20; ++i) {
          design::Design design = headOf({zoomImager(1, family)}, {aimed(0, 25, roll, 60)});
          design.housings[0].mount.base_tilt_deg = base_tilt;
          const Vec3 point{side(random), out(random), 1};
          for (const Edge edge : {Edge::near, Edge::far}) {
            const Aimed result = edgeThrough(design, slotOf(1), edge, EdgeBy::tilt, point);
            if (result.at_stop) continue;
            ++exact;
            const auto at = pixelOf(result.design, 1, point);
            ASSERT_TRUE(at);
            EXPECT_NEAR(at->y, edge == Edge::near ? 1080 : 0, kNearPx);
            EXPECT_EQ(aimOf(result.design, 1).pan_deg, 0);
          }
        }
  EXPECT_GT(exact, 400);  // of 480
}

// Closed form: handbook 7, nearest = (h - p) / tan(t + v/2) on the middle column.
TEST(EdgeThrough, by_tilt_agrees_with_the_closed_form) {
  design::ModelImager imager = zoomImager(1);
  imager.offset_m = {};
  const design::Design design = headOf({imager}, {aimed(0, 25, 0, 60)});
  const double half_v = radToDeg(std::atan(std::tan(degToRad(30.0)) * 1080 / 1920));
  const Aimed near = edgeThrough(design, slotOf(1), Edge::near, EdgeBy::tilt, {0, 3, 1});
  EXPECT_NEAR(aimOf(near.design, 1).tilt_deg, 45 - half_v, 1e-4);  // 3 m out, 3 m down
  const Aimed far = edgeThrough(design, slotOf(1), Edge::far, EdgeBy::tilt, {0, 3, 1});
  EXPECT_NEAR(aimOf(far.design, 1).tilt_deg, 45 + half_v, 1e-4);
}

// Property; the axis stays.
TEST(EdgeThrough, lays_a_side_through_the_point_by_zoom) {
  for (const char* family : {"rectilinear", "equidistant", "fitted"}) {
    design::ModelImager imager = zoomImager(1, family);
    if (std::string(family) == "fitted") imager.lens.vfov_deg = {54, 17};
    const design::Design design = headOf({imager}, {aimed(0, 25, 0, 60)});
    for (const double x : {3.2, 2.0, -2.5, 4.0}) {
      const Vec3 point{x, 6, 1.2};
      const Edge edge = x > 0 ? Edge::right : Edge::left;
      const Aimed result = edgeThrough(design, slotOf(1), edge, EdgeBy::zoom, point);
      ASSERT_FALSE(result.at_stop) << result.stop;
      EXPECT_NEAR(pixelOf(result.design, 1, point)->x, x > 0 ? 1920 : 0, kNearPx);
      EXPECT_EQ(aimOf(result.design, 1).pan_deg, 0);
      EXPECT_EQ(aimOf(result.design, 1).tilt_deg, 25);
      EXPECT_TRUE(proof::withinLimits(result.design, result.design.housings[0]));
    }
  }
}

TEST(EdgeThrough, stops_at_the_ends_of_the_zoom) {
  const design::Design design = headOf({zoomImager(1)}, {aimed(0, 25, 0, 60)});
  const Aimed tele = edgeThrough(design, slotOf(1), Edge::right, EdgeBy::zoom, {0.3, 8, 1});
  EXPECT_TRUE(tele.at_stop);
  EXPECT_NEAR(*aimOf(tele.design, 1).hfov_deg, 30, 1e-3);
  const Aimed wide = edgeThrough(design, slotOf(1), Edge::right, EdgeBy::zoom, {30, 4, 1});
  EXPECT_TRUE(wide.at_stop);
  EXPECT_NEAR(*aimOf(wide.design, 1).hfov_deg, 100, 1e-3);
  design::Design fixed = design;
  fixed.catalogue.models[0].imagers[0].lens.hfov_deg = {60};
  fixed.housings[0].imagers[0].aims[0].hfov_deg.reset();
  const Aimed none = edgeThrough(fixed, slotOf(1), Edge::right, EdgeBy::zoom, {3, 6, 1});
  EXPECT_TRUE(none.at_stop);
  EXPECT_EQ(none.design, fixed);
}

// A picture rolled by a quarter turn: its right edge is the one near the foot for a roll of 90.
TEST(EdgeThrough, takes_the_edge_that_lies_there_when_rolled) {
  const design::Design right = headOf({zoomImager(1)}, {aimed(0, 25, 90, 60)});
  const Aimed a = edgeThrough(right, slotOf(1), Edge::near, EdgeBy::tilt, {0, 3, 1});
  EXPECT_NEAR(pixelOf(a.design, 1, {0, 3, 1})->x, 1920, kNearPx);
  const design::Design left = headOf({zoomImager(1)}, {aimed(0, 25, -90, 60)});
  const Aimed b = edgeThrough(left, slotOf(1), Edge::near, EdgeBy::tilt, {0, 3, 1});
  EXPECT_NEAR(pixelOf(b.design, 1, {0, 3, 1})->x, 0, kNearPx);
  // Rolled by a quarter, the picture's lower edge looks to the left of the axis.
  const Aimed c = edgeThrough(right, slotOf(1), Edge::left, EdgeBy::zoom, {-1.2, 5, 1});
  EXPECT_NEAR(pixelOf(c.design, 1, {-1.2, 5, 1})->y, 1080, kNearPx) << c.stop;
}

// Property: the direction under the first pixel is under the second afterwards.
TEST(PictureFollows, moves_what_is_under_the_hand) {
  for (const char* family : {"rectilinear", "equidistant"})
    for (const double roll : {0.0, 15.0, 80.0}) {
      const design::Design design = headOf({zoomImager(1, family)}, {aimed(200, 35, roll, 80)});
      for (const Vec2 to : {Vec2{900, 500}, Vec2{1500, 700}, Vec2{200, 300}}) {
        const Vec2 from{1000, 600};
        const auto view = posedOf(design, slotOf(1), design::JudgedOn::captured);
        const Vec3 direction =
            transposed(view->imager_from_site) * *optics::unproject(view->lens, from);
        const Aimed result = pictureFollows(design, slotOf(1), from, to);
        if (result.at_stop) continue;
        const auto now = posedOf(result.design, slotOf(1), design::JudgedOn::captured);
        const auto at = optics::project(now->lens, now->imager_from_site * direction);
        ASSERT_TRUE(at);
        EXPECT_LT(norm(*at - to), kNearPx);
      }
      EXPECT_FALSE(pictureFollows(design, slotOf(1), {1000, 600}, {900, 500}).at_stop);
    }
}

TEST(LooksAt, puts_the_point_in_the_middle_of_the_picture) {
  const design::Design design = headOf({zoomImager(1, "equidistant")}, {aimed(10, 20, 30, 80)});
  for (const Vec3 point : {Vec3{3, -4, 0}, Vec3{-9, 2, 1.7}, Vec3{0.5, 0.4, 0}, Vec3{20, 1, 5}}) {
    const Aimed result = looksAt(design, slotOf(1), point);
    EXPECT_FALSE(result.at_stop);
    EXPECT_LT(norm(*pixelOf(result.design, 1, point) - Vec2{960, 540}), kNearPx);
  }
}

}  // namespace
}  // namespace belvedere::edit
