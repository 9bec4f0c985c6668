// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/conditions.h"

#include <gtest/gtest.h>

#include <cmath>

#include "made_up.h"

namespace belvedere::proof {
namespace {

// A level lens 2 m up that looks north, f = 50 mm at f/2 and 5 um pixels: hyperfocal 250.05 m.
design::PosedImager longLens() {
  design::PosedImager view = posed("C1", {0, 0, 2}, 0, 0, 0, {2000, 1500}, 20);
  view.focus = optics::Focus{0.05, 2, 5e-6};
  return view;
}

FocusTarget field(double from_m, double to_m, double px_per_m = 10) {
  return {{{rectangle(-0.5, from_m, 0.5, to_m), {}}}, 1.9, 2.1, px_per_m};
}

TEST(FocusChoice, TakesTheStatedDistance) {
  design::PosedImager view = longLens();
  view.focused_at_m = 30;
  const auto choice = focusChoice(view, {field(5, 15)});
  ASSERT_TRUE(choice);
  EXPECT_TRUE(choice->stated);
  EXPECT_EQ(choice->at_m, 30);
  EXPECT_LT(choice->sharp.near_m, 30);
  EXPECT_GT(choice->sharp.far_m.value(), 30);
}

// Closed form: a stretch from a to b is sharpest as a whole at 2ab/(a + b). Points lie within the
// stretch by half a step of twelve.
TEST(FocusChoice, ServesTheStretchOfItsTargets) {
  const auto choice = focusChoice(longLens(), {field(10, 40)});
  ASSERT_TRUE(choice);
  EXPECT_FALSE(choice->stated);
  EXPECT_NEAR(choice->for_near_m.value(), 10, 1.3);
  EXPECT_NEAR(choice->for_far_m.value(), 40, 1.3);
  const double a = *choice->for_near_m, b = *choice->for_far_m;
  EXPECT_DOUBLE_EQ(choice->at_m, 2 * a * b / (a + b));
}

// Property: what it cannot serve, for want of density or out of its frame, does not move the focus.
TEST(FocusChoice, LeavesOutWhatItCannotServe) {
  const auto alone = focusChoice(longLens(), {field(10, 40)});
  const auto both = focusChoice(longLens(), {field(10, 40), field(60, 90, 1e5), field(-90, -60)});
  EXPECT_EQ(alone->at_m, both->at_m);
}

// Published rule (handbook 8): focused at the hyperfocal distance all from half of it on is sharp.
TEST(FocusChoice, ShortLensesStandAtTheHyperfocalDistance) {
  design::PosedImager view = longLens();
  view.focus = optics::Focus{0.0028, 1.6, 3e-6};
  const auto choice = focusChoice(view, {field(10, 40)});
  ASSERT_TRUE(choice);
  EXPECT_NEAR(choice->at_m, 0.0028 * 0.0028 / (1.6 * 3e-6) + 0.0028, 1e-12);
  EXPECT_FALSE(choice->sharp.far_m);
  EXPECT_NEAR(choice->sharp.near_m, choice->at_m / 2, 0.002);
}

// Closed form: where infrared comes to its focus 0.01 mm further behind the lens, what is sharp lies
// farther off: at f v / (v - f) with v = 50 * 30 / (30 - 0.05) mm less 0.01.
TEST(FocusChoice, InfraredIsSharpElsewhere) {
  design::PosedImager view = longLens();
  view.focused_at_m = 30;
  view.infrared_shift_m = 1e-5;
  const auto day = focusChoice(view, {}), night = focusChoice(view, {}, true);
  const double v = 0.05 * 30 / (30 - 0.05) - 1e-5, at_m = 0.05 * v / (v - 0.05);
  const optics::SharpStretch wanted = optics::sharpStretch(*view.focus, at_m);
  EXPECT_NEAR(night->sharp.near_m, wanted.near_m, 1e-6);
  EXPECT_NEAR(night->sharp.far_m.value(), wanted.far_m.value(), 1e-6);
  EXPECT_GT(night->sharp.near_m, day->sharp.near_m);
  EXPECT_EQ(day->at_m, night->at_m);
  view.infrared_shift_m = 1e-3;  // sharp nowhere, not even far away
  EXPECT_TRUE(std::isinf(focusChoice(view, {}, true)->sharp.near_m));
}

TEST(FocusChoice, NothingWhereTheLensIsNotKnown) {
  design::PosedImager view = longLens();
  view.focus.reset();
  EXPECT_FALSE(focusChoice(view, {field(10, 40)}));
}

// Property: a stretch that is not sharp, and one that is too dark, fail as such, in that order.
TEST(Conditions, AreTheReasonsUnsharpAndTooDark) {
  design::PosedImager view = longLens();
  view.focused_at_m = 20;
  view.least_light = design::LeastLight{1, 2, 0.04, {}, {}};
  view.f_number = 2;
  auto made = ask({{rectangle(-0.5, 5, 0.5, 60), {}}}, 1.9, 2.1, 10, {view});
  auto lighting = std::make_shared<Lighting>();
  lighting->light.light.stated = true;
  lighting->light.light.ambient_lux = 0.5;
  made->question.lighting = lighting;
  replaceViews(made->question, {view});
  const auto sharp = made->question.conditions[0].sharp;
  ASSERT_TRUE(sharp);
  const Answer near = answerOf(made->question, 0, {0, sharp->near_m - 0.5}, 3);
  EXPECT_EQ(near.reason, Reason::unsharp);
  EXPECT_NEAR(near.measure.margin, (sharp->near_m - 0.5) / sharp->near_m, 1e-9);
  const Answer dark = answerOf(made->question, 0, {0, 20}, 3);
  EXPECT_EQ(dark.reason, Reason::too_dark);
  EXPECT_NEAR(dark.measure.found, 0.5, 1e-12);
  EXPECT_NEAR(dark.measure.needed, 1, 1e-12);
  // Twice as long, half as much light is enough.
  view.exposure_s = 0.08;
  replaceViews(made->question, {view});
  EXPECT_EQ(answerOf(made->question, 0, {0, 20}, 3).reason, Reason::served);
}

}  // namespace
}  // namespace belvedere::proof
