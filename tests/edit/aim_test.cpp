// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/aim.h"

#include <gtest/gtest.h>

#include <random>

#include "aiming.h"

namespace belvedere::edit {
namespace {

design::Shared ringOf(double apart_deg) {
  design::Shared shared;
  shared.what = "ring";
  shared.rule = "apart_deg";
  shared.value = apart_deg;
  return shared;
}

// Closed form: on a level base the arc is the model's own, turned by the base bearing.
TEST(AimLimits, of_a_level_base_are_the_models_turned) {
  design::Design design = headOf({zoomImager(1)}, {aimed(30, 20)});
  design.catalogue.models[0].imagers[0].pan_deg = {-40, 100};
  design.housings[0].mount.base_bearing_deg = 20;
  const auto limits = limitsOf(design, slotOf(1));
  ASSERT_TRUE(limits);
  ASSERT_EQ(limits->pan_deg.size(), 1u);
  EXPECT_EQ(limits->pan_deg[0], (design::Range{340, 480}));
  EXPECT_EQ(limits->tilt_deg, (std::vector<design::Range>{{-30, 90}}));
  EXPECT_EQ(limits->hfov_deg, (design::Range{30, 100}));
  EXPECT_FALSE(limits->ring_deg);
}

// Closed form: the base plane leaned forwards by 30 deg, an imager held in that plane (tilt 0, any
// pan) that looks along the base bearing looks 30 deg down, and square to it level. So at site tilt
// 0 to 15 the bearings b that the plane itself reaches have tan(tilt) = tan(30) cos(b).
TEST(AimLimits, of_a_leaning_base_are_the_true_arcs) {
  design::Design design = headOf({zoomImager(1)}, {aimed(30, 15)});
  design.catalogue.models[0].imagers[0].tilt_deg = {0, 90};  // below the plane only
  design.housings[0].mount.base_tilt_deg = 30;
  const auto limits = limitsOf(design, slotOf(1));
  // Below the plane at tilt 15: where the plane's own tilt is less than 15.
  const double edge = radToDeg(std::acos(std::tan(degToRad(15.0)) / std::tan(degToRad(30.0))));
  ASSERT_EQ(limits->pan_deg.size(), 1u);
  EXPECT_NEAR(limits->pan_deg[0][0], edge, 1e-5);
  EXPECT_NEAR(limits->pan_deg[0][1], 360 - edge, 1e-5);
  const double here = radToDeg(std::atan(std::tan(degToRad(30.0)) * std::cos(degToRad(30.0))));
  ASSERT_EQ(limits->tilt_deg.size(), 1u);
  EXPECT_NEAR(limits->tilt_deg[0][0], here, 1e-5);
  EXPECT_NEAR(limits->tilt_deg[0][1], 90, 1e-5);
}

// Property: whatever is asked for, the reader's own check finds the result within limits.
TEST(WithAim, always_gives_what_the_reader_accepts) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> pan(-400, 800), tilt(-120, 120), zoom(10, 150);
  for (const double base_tilt : {0.0, 25.0, 90.0, -60.0})
    for (int i = 0; i < 200; ++i) {
      design::Design design =
          headOf({zoomImager(1), zoomImager(2), zoomImager(3)},
                 {aimed(300, 20), aimed(60, 20), aimed(180, 20)});
      for (auto& imager : design.catalogue.models[0].imagers) {
        imager.pan_deg = {-150, 150};
        imager.tilt_deg = {10, 80};
      }
      design.catalogue.models[0].shared = {ringOf(40)};
      design.housings[0].mount.base_bearing_deg = pan(random);
      design.housings[0].mount.base_tilt_deg = base_tilt;
      // A start within the limits.
      std::vector<std::pair<ImagerRef, design::Aim>> start;
      for (int slot = 1; slot <= 3; ++slot) {
        const auto at = design::siteFromHousing(design.housings[0].mount, {-120.0 + 60 * slot, 30});
        start.push_back({slotOf(slot), aimed(at.pan_deg, at.tilt_deg)});
      }
      design = withAims(design, start).design;
      ASSERT_TRUE(proof::withinLimits(design, design.housings[0]));
      const int slot = 1 + i % 3;
      const Aimed result =
          withAim(design, slotOf(slot), aimed(pan(random), tilt(random), 0, zoom(random)));
      EXPECT_TRUE(proof::withinLimits(result.design, result.design.housings[0]));
      EXPECT_EQ(result.at_stop, !result.stop.empty());
    }
}

TEST(WithAim, keeps_what_is_within_the_limits_to_the_bit) {
  const design::Design design = headOf({zoomImager(1)}, {aimed(30, 20)});
  const design::Aim asked = aimed(123.456, 43.21, 5, 61.5);
  const Aimed result = withAim(design, slotOf(1), asked);
  EXPECT_FALSE(result.at_stop);
  EXPECT_EQ(aimOf(result.design, 1), asked);
}

TEST(WithAim, stops_at_the_nearer_stop_and_says_so) {
  design::Design design = headOf({zoomImager(1)}, {aimed(0, 20)});
  design.catalogue.models[0].imagers[0].pan_deg = {-90, 100};
  const Aimed right = withPan(design, slotOf(1), 150);
  EXPECT_TRUE(right.at_stop);
  EXPECT_DOUBLE_EQ(aimOf(right.design, 1).pan_deg, 100);
  EXPECT_NE(right.stop.find("H.1"), std::string::npos);
  EXPECT_DOUBLE_EQ(aimOf(withPan(design, slotOf(1), 240).design, 1).pan_deg, 270);
  EXPECT_DOUBLE_EQ(aimOf(withTilt(design, slotOf(1), -60).design, 1).tilt_deg, -30);
  EXPECT_DOUBLE_EQ(*aimOf(withHfov(design, slotOf(1), 12).design, 1).hfov_deg, 30);
}

// Closed form: neighbours at 90 and 200, 30 apart: the way is free from 230 over north to 60.
TEST(WithAim, holds_at_the_neighbour_on_a_ring_and_does_not_pass) {
  design::Design design = headOf({zoomImager(1), zoomImager(2), zoomImager(3)},
                                 {aimed(0, 20), aimed(90, 20), aimed(200, 20)});
  design.catalogue.models[0].shared = {ringOf(30)};
  const auto limits = limitsOf(design, slotOf(1));
  ASSERT_TRUE(limits->ring_deg);
  EXPECT_NEAR((*limits->ring_deg)[0], 230, 1e-9);
  EXPECT_NEAR((*limits->ring_deg)[1], 420, 1e-9);
  const Aimed near = withPan(design, slotOf(1), 80);
  EXPECT_TRUE(near.at_stop);
  EXPECT_NEAR(aimOf(near.design, 1).pan_deg, 60, 1e-9);
  EXPECT_NEAR(aimOf(withPan(design, slotOf(1), 140).design, 1).pan_deg, 60, 1e-9);
  EXPECT_NEAR(aimOf(withPan(design, slotOf(1), 190).design, 1).pan_deg, 230, 1e-9);
  EXPECT_EQ(aimOf(withPan(design, slotOf(1), 300).design, 1).pan_deg, 300);
}

// Closed form: three asked to the same bearing end 30 apart, the middle one where it was asked.
TEST(WithAims, pushes_ring_neighbours_apart) {
  design::Design design = headOf({zoomImager(1), zoomImager(2), zoomImager(3)},
                                 {aimed(0, 20), aimed(90, 20), aimed(200, 20)});
  design.catalogue.models[0].shared = {ringOf(30)};
  const Aimed result = withAims(design, {{slotOf(1), aimed(99, 20)},
                                         {slotOf(2), aimed(100, 20)},
                                         {slotOf(3), aimed(101, 20)}});
  EXPECT_TRUE(result.at_stop);
  EXPECT_NEAR(aimOf(result.design, 1).pan_deg, 70, 1e-6);
  EXPECT_NEAR(aimOf(result.design, 2).pan_deg, 100, 1e-6);
  EXPECT_NEAR(aimOf(result.design, 3).pan_deg, 130, 1e-6);
}

TEST(WithBaseBearing, turns_a_level_head_as_a_whole) {
  design::Design design =
      headOf({zoomImager(1), zoomImager(2)}, {aimed(350, 20), aimed(90, 30)});
  design.catalogue.models[0].imagers[0].pan_deg = {-20, 20};
  const Aimed along = withBaseBearing(design, {"H"}, 25, Aims::turn_along);
  EXPECT_FALSE(along.at_stop);
  EXPECT_NEAR(aimOf(along.design, 1).pan_deg, 15, 1e-9);
  EXPECT_NEAR(aimOf(along.design, 2).pan_deg, 115, 1e-9);
  const Aimed stay = withBaseBearing(design, {"H"}, 25, Aims::stay);
  EXPECT_TRUE(stay.at_stop);
  EXPECT_NEAR(aimOf(stay.design, 1).pan_deg, 5, 1e-9);
  EXPECT_EQ(aimOf(stay.design, 2).pan_deg, 90);
}

TEST(WithAim, of_an_imager_that_is_not_there_changes_nothing) {
  const design::Design design = headOf({zoomImager(1)}, {aimed(0, 20)});
  const Aimed result = withPan(design, slotOf(7), 10);
  EXPECT_TRUE(result.at_stop);
  EXPECT_EQ(result.design, design);
}

}  // namespace
}  // namespace belvedere::edit
