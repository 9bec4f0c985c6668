// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/sharp_view.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace belvedere::light {
namespace {

design::Design site() {
  design::Design design;
  design::Model model;
  model.id = {"M"};
  design::ModelImager imager;
  imager.pixels = {2000, 1000};
  imager.pitch_um = 2;
  imager.lens.focal_mm = {12};
  imager.lens.f_number = {1.4};
  model.imagers = {imager};
  design.library.push_back(model);
  design::Housing housing;
  housing.id = {"C1"};
  housing.model = {"M"};
  housing.mount.fixing_m = {0, 0, 3};
  design::HousingImager used;
  used.aims = {design::Aim{}};
  used.aims[0].focus_m = 10;
  housing.imagers = {used};
  design.housings.push_back(housing);
  return design;
}
design::PosedImager viewOf(const design::Design& design) {
  return design::posedImagers(design, design::JudgedOn::captured).at(0);
}

// Closed form: 12 mm, f/1.4, 2 um, focused at 10 m: sharp from 8.373728821 to 12.41019843 m (worked
// by a separate program).
TEST(SharpView, TakesTheStatedFocus) {
  const design::Design design = site();
  const SharpView sharp = sharpView(design, viewOf(design), {}, false).value();
  EXPECT_FALSE(sharp.chosen);
  EXPECT_EQ(sharp.focused_at_m, 10);
  EXPECT_NEAR(sharp.stretch.near_m, 8.373728821, 1e-8);
  EXPECT_NEAR(sharp.stretch.far_m.value(), 12.41019843, 1e-7);
  EXPECT_TRUE(sharp.sharp(8.4));
  EXPECT_FALSE(sharp.sharp(8.3));
  EXPECT_FALSE(sharp.sharp(12.5));
}

// By hand: targets from 6 to 12 m along the axis are served best from 8 m; far ones from no farther
// than the hyperfocal distance (51.44 m).
TEST(SharpView, ChoosesTheFocusForItsTargets) {
  design::Design design = site();
  design.housings[0].imagers[0].aims[0].focus_m.reset();
  const std::array<Vec3, 3> near{Vec3{-1, 6, 3}, Vec3{2, 12, 1}, Vec3{0, 9, 0}};
  SharpView sharp = sharpView(design, viewOf(design), near, false).value();
  EXPECT_TRUE(sharp.chosen);
  EXPECT_NEAR(sharp.focused_at_m, 8, 1e-12);
  const std::array<Vec3, 2> far{Vec3{0, 60, 3}, Vec3{0, 400, 3}};
  sharp = sharpView(design, viewOf(design), far, false).value();
  EXPECT_NEAR(sharp.focused_at_m, 51.44057143, 1e-7);
  EXPECT_FALSE(sharp.stretch.far_m);
  EXPECT_NEAR(sharpView(design, viewOf(design), {}, false)->focused_at_m, 51.44057143, 1e-7);
  const std::array<Vec3, 2> beneath{Vec3{0, -4, 0}, Vec3{0, 0.1, 0}};
  EXPECT_EQ(sharpView(design, viewOf(design), beneath, false)->focused_at_m, kNearestFocusM);
}

// By hand: an image shifted by 5 um moves the focus of infrared; one shifted by 20 um has none.
TEST(SharpView, InfraredIsSharpElsewhere) {
  design::Design design = site();
  std::optional<double>& shift = design.library[0].imagers[0].lens.infrared_shift_um;
  shift = 5;
  const double behind = 0.012 * 0.012 / (10 - 0.012) - 5e-6;
  EXPECT_NEAR(sharpView(design, viewOf(design), {}, true)->sharp_at_m,
              0.012 * 0.012 / behind + 0.012, 1e-6);
  EXPECT_EQ(sharpView(design, viewOf(design), {}, false)->sharp_at_m, 10);
  shift = 20;
  EXPECT_FALSE(sharpView(design, viewOf(design), {}, true)->sharp(1e9));
  EXPECT_EQ(sharpView(design, viewOf(design), {}, true)->focused_at_m, 10);
  shift.reset();
  EXPECT_EQ(sharpView(design, viewOf(design), {}, true)->sharp_at_m, 10);
}

TEST(SharpView, NothingWhereTheModelDoesNotSay) {
  design::Design design = site();
  design.library[0].imagers[0].lens.f_number.clear();
  EXPECT_FALSE(sharpView(design, viewOf(design), {}, false));
}

}  // namespace
}  // namespace belvedere::light
