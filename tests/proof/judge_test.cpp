// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/judge.h"

#include <gtest/gtest.h>

#include "made_up.h"
#include "proof/box_tests.h"

namespace belvedere::proof {
namespace {

design::PosedImager randomView(std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  const std::array<double, 4> ks{1, 0.5, 0, -0.5};
  design::PosedImager view =
      posed("C1", {10 * unit(random), 10 * unit(random), 2.2 + 2 * unit(random)}, 360 * unit(random),
            60 * unit(random), 20 * unit(random) - 10, {1920, 1080}, 40 + 70 * unit(random),
            ks[static_cast<std::size_t>(4 * unit(random)) % 4]);
  if (unit(random) < 0.5) view.masks_px.push_back(rectangle(300, 200, 900, 700));
  if (unit(random) < 0.3) view.delivered = {0.9, 0.6};
  if (unit(random) < 0.3) view.scale_x = view.scale_y = 0.5;
  return view;
}

// Property: what a cell's judgement says of all its points, the judge of points says of each, at
// densely sampled heights; with clutter, masks, every lens family, facings and bands; by day and, where
// light and sharpness are judged too, at dusk.
TEST(JudgeCell, AgreesWithTheJudgeOfPoints) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> unit(0, 1);
  int everywhere = 0, nowhere = 0, dark = 0, unsharp = 0, lit = 0;
  for (int i = 0; i < 8000; ++i) {
    const double low = 0.2 + unit(random), high = low + (i % 5 == 0 ? 0 : 1.2 * unit(random));
    auto made = ask({{rectangle(0, 0, 10, 10), {}}}, low, high, 40 + 200 * unit(random),
                    {randomView(random)}, clutter(random, i % 3 == 0 ? 0 : 6));
    Question& q = made->question;
    if (i % 4 == 0) q.facings = {{360 * unit(random), 60, 35}};
    if (i % 7 == 0) q.height_share = 0.5;
    if (i % 9 == 0) q.floor.slope = {0.2 * unit(random), -0.1};
    if (i % 4 == 1)
      q.views[0].span = design::viewSpan(360 * unit(random), 60 * unit(random),
                                         {(i % 8 == 1 ? 120 : 360) * unit(random), 10 + 80 * unit(random)});
    if (i % 2 == 0 && i % 3 != 2) dusk(q, random);
    const double turn = kPi * unit(random), half = i % 2 ? 0.04 : 0.4;
    Cell cell = boxCell({10 * unit(random), 10 * unit(random)},
                        Vec2{std::cos(turn), std::sin(turn)} * half,
                        Vec2{-std::sin(turn), std::cos(turn)} * (half * (0.1 + 0.9 * unit(random))));
    if (i % 3 == 1) cell.corners.pop_back();  // a triangle in its box
    ViewState state;
    std::optional<Cut> cut;
    const Over over = judgeCell(q, cell, state, q.facings.empty() ? -1 : 0, i % 3 ? 4 : 1, cut);
    if (over == Over::mixed) continue;
    ++(over == Over::all ? everywhere : nowhere);
    for (int j = 0; j < 30; ++j) {
      // Corners, then any weighted mean of them.
      Vec2 p = cell.corners[static_cast<std::size_t>(j) % cell.corners.size()];
      if (j >= 4) {
        double sum = 0;
        Vec2 mean;
        for (const Vec2 c : cell.corners) {
          const double weight = unit(random);
          mean = mean + c * weight;
          sum += weight;
        }
        p = mean / sum;
      }
      // A share of the band is exact only to the spacing of the heights: two more are allowed for.
      const int heights = q.height_share < 1 ? 401 : 33;
      const double share = q.height_share;
      if (share < 1) q.height_share = share + (over == Over::all ? -0.006 : 0.006);
      const Answer answer = answerOf(q, 0, p, heights);
      q.height_share = share;
      dark += answer.reason == Reason::too_dark ? 1 : 0;
      unsharp += answer.reason == Reason::unsharp ? 1 : 0;
      lit += answer.reason == Reason::served && q.lighting ? 1 : 0;
      ASSERT_EQ(answer.reason == Reason::served, over == Over::all)
          << "case " << i << " point " << j << ": " << word(answer.reason) << " margin "
          << answer.measure.margin;
    }
  }
  EXPECT_GT(everywhere, 150);
  EXPECT_GT(nowhere, 2000);
  EXPECT_GT(dark, 150);
  EXPECT_GT(unsharp, 200);
  EXPECT_GT(lit, 200);
}

// Regression: a crop whose margins leave nothing (or nothing but a line) was served by the planes of
// its frame, which meet again behind the lens. Nothing is in it: before, behind or on the line.
TEST(JudgeCell, NothingIsInAFrameWithoutArea) {
  for (const double k : {1.0, 0.0})
    for (const double past_px : {0.0, 5.0}) {
      design::PosedImager view = posed("C1", {0, 0, 3}, 0, 30, 0, {1000, 1000}, 90, k);
      view.frame_low_px = {500 + past_px, 500 + past_px};
      view.frame_high_px = {500 - past_px, 500 - past_px};
      auto made = ask({{rectangle(-20, -20, 20, 20), {}}}, 0, 0, 1, {view});
      for (const double y : {3 / std::tan(degToRad(30)), -3 / std::tan(degToRad(30)), 8.0}) {
        EXPECT_EQ(answerOf(made->question, 0, {0, y}, 1).reason, Reason::out_of_frame);
        ViewState state;
        std::optional<Cut> cut;
        EXPECT_EQ(judgeCell(made->question, boxCell({0, y}, {1e-4, 0}, {0, 1e-4}), state, -1, 1, cut),
                  Over::none) << k << " " << past_px << " " << y;
      }
    }
}

// Closed form: what an unrolled view's span leaves out is out of frame, by bearing and by depression,
// though the lens has it in its picture.
TEST(AnswerOf, SpanOfAnUnrolledViewIsItsFrame) {
  design::PosedImager view = posed("C1", {0, 0, 3}, 0, 90, 0, {2000, 2000}, 180, 0);
  view.span = design::viewSpan(0, 90, {90, 45});  // 45 deg to either side of north, 45 to 90 deg down
  auto made = ask({{rectangle(-9, -9, 9, 9), {}}}, 0, 0, 1, {view});
  const auto reason = [&](Vec2 p) { return answerOf(made->question, 0, p, 1).reason; };
  EXPECT_EQ(reason({0, 2.99}), Reason::served);
  EXPECT_EQ(reason({0, 3.01}), Reason::out_of_frame);
  EXPECT_EQ(reason({0.99, 1}), Reason::served);
  EXPECT_EQ(reason({1.01, 1}), Reason::out_of_frame);
  EXPECT_EQ(reason({0, -1}), Reason::out_of_frame);
  const Answer aside = answerOf(made->question, 0, {1, 0}, 1);
  EXPECT_NEAR(aside.measure.found, 90, 1e-9);
  EXPECT_EQ(aside.measure.needed, 45);
  EXPECT_EQ(aside.measure.unit, "deg");
  made->question.views[0].span = design::viewSpan(0, 90, {270, 90});
  EXPECT_EQ(reason({2, -1.99}), Reason::served);
  EXPECT_EQ(reason({2, -2.01}), Reason::out_of_frame);
  EXPECT_EQ(reason({0, 8}), Reason::served);
}

// A cell with more corners than a prism has room for is our own mistake, and is told.
TEST(JudgeCell, RefusesMoreCornersThanAPrismHolds) {
  auto made = ask({{rectangle(0, 0, 10, 10), {}}}, 0, 1, 1,
                  {posed("C1", {0, 0, 3}, 0, 30, 0, {1000, 1000}, 90)});
  Cell cell = boxCell({5, 5}, {1, 0}, {0, 1});
  cell.corners.clear();
  for (int i = 0; i <= 16; ++i)
    cell.corners.push_back(cell.centre + Vec2{std::cos(i * kPi / 8.5), std::sin(i * kPi / 8.5)});
  ASSERT_GT(cell.corners.size(), scene::kOutlineMost);
  EXPECT_THROW(slabOf(made->question.floor, cell, 0, 1), std::logic_error);
}

// Closed form: on the axis density is F / d; a lens at 3 m over its target's height.
TEST(AnswerOf, DensityOnTheAxisIsFocalLengthOverDistance) {
  auto made = ask({{rectangle(-1, 0, 1, 10), {}}}, 0, 0, 100,
                  {posed("C1", {0, 0, 3}, 0, 45, 0, {1920, 1080}, 60)});
  const Answer answer = answerOf(made->question, 0, {0, 3}, 1);
  EXPECT_EQ(answer.reason, Reason::served);
  EXPECT_NEAR(answer.px_per_m, 960 / std::tan(degToRad(30)) / std::hypot(3, 3), 1e-9);
}

// Closed form (handbook 5): from 5.2 m, a face at 1.45 m is seen at 15 degrees from 14.0 m on, not
// from the 13.2 m that its middle would allow.
TEST(AnswerOf, LowestPointOfTheFaceBandIsTheSteepest) {
  auto made = ask({{rectangle(-1, 0, 1, 30), {}}}, 1.45, 1.85, 10,
                  {posed("C1", {0, 0, 5.2}, 0, 15, 0, {3840, 2160}, 60)});
  made->question.facings = {{180, 45, 15}};
  EXPECT_EQ(answerOf(made->question, 0, {0, 13.99}, 3).reason, Reason::too_steep);
  EXPECT_EQ(answerOf(made->question, 0, {0, 14.01}, 3).reason, Reason::served);
}

// Closed form: people who walk away from the camera are never served.
TEST(AnswerOf, PeopleWalkingAwayAreTurnedAway) {
  auto made = ask({{rectangle(-1, 0, 1, 30), {}}}, 1.45, 1.85, 10,
                  {posed("C1", {0, 0, 3}, 0, 10, 0, {3840, 2160}, 60)});
  made->question.facings = {{0, 45, 30}};
  EXPECT_EQ(answerOf(made->question, 0, {0, 10}, 3).reason, Reason::turned_away);
  made->question.facings = {{180, 45, 30}};
  EXPECT_EQ(answerOf(made->question, 0, {0, 10}, 3).reason, Reason::served);
}

// Closed form (similar triangles): a beam 0.4 m below the lens and 2.4 m away hides a face's foot
// (1.45 m) beyond 7.20 m, its top (1.85 m) beyond 4.80 m and the floor beyond 15.90 m, lens at
// 2.65 m.
TEST(AnswerOf, BeamHidesBySimilarTriangles) {
  const auto farthest = [](double height) {
    scene::Scene scene;
    scene.sources.push_back({"beam", 0, 0});
    scene::addPrism(scene, rectangle(-20, 2.4, 20, 2.6), {2.25, 2.25, 2.25, 2.25}, {3, 3, 3, 3}, 0);
    auto made = ask({{rectangle(-1, 0, 1, 30), {}}}, height, height, 1,
                    {posed("C1", {0, 0, 2.65}, 0, 0, 0, {3840, 2160}, 100)}, std::move(scene));
    double seen = 3, hidden = 30;
    while (hidden - seen > 1e-6) {
      const double middle = 0.5 * (seen + hidden);
      (answerOf(made->question, 0, {0, middle}, 1).reason == Reason::hidden ? hidden : seen) = middle;
    }
    return seen;
  };
  EXPECT_NEAR(farthest(1.45), 7.20, 0.005);
  EXPECT_NEAR(farthest(1.85), 4.80, 0.005);
  EXPECT_NEAR(farthest(0.0), 15.90, 0.005);
}

}  // namespace
}  // namespace belvedere::proof
