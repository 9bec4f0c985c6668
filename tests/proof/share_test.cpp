// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/prove.h"

#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <optional>

#include "made_up.h"

namespace belvedere::proof {
namespace {

// Share of a square of 20 x 20 m before it that a rectilinear 1920x1080 imager, 60 deg across, at
// 3 m, tilted 30 deg, shows over the whole height from the floor to high_m: between where the lower
// edge of the picture meets the floor and the upper one high_m, as wide as at high_m.
double footprintShare(double high_m) {
  const double t = degToRad(30), half = std::tan(degToRad(30)), v = std::atan(half * 540 / 960);
  const double near = 3 / std::tan(t + v), far = (3 - high_m) / std::tan(t - v);
  const auto to = [&](double y) {
    return half * (y * y * std::cos(t) + 2 * y * (3 - high_m) * std::sin(t));
  };
  return (to(far) - to(near)) / 400;
}

// Closed form: 28.889 %. The edges of a rectilinear frame are planes: cut along them, only the
// strips of the cuts stay undecided.
TEST(ProveShare, RectilinearFloorFootprintIsExact) {
  EXPECT_NEAR(footprintShare(0), 0.28889, 5e-6);
  auto made = ask({{rectangle(-10, 0, 10, 20), {}}}, 0, 0, 1,
                  {posed("C1", {0, 0, 3}, 0, 30, 0, {1920, 1080}, 60)});
  const ShareProof proof = proveShare(made->question, 0.95, {}, {});
  EXPECT_LE(proof.share.low, footprintShare(0));
  EXPECT_GE(proof.share.high, footprintShare(0));
  EXPECT_LE(proof.share.high - proof.share.low, 1e-6);
  EXPECT_EQ(proof.verdict, Verdict::not_met);
}

// Closed form: the same for the handbook's floor target, 0 to 0.1 m, whole: 26.898 %.
TEST(ProveShare, FloorTargetMustBeInFrameOverItsWholeBand) {
  EXPECT_NEAR(footprintShare(0.1), 0.26898, 5e-6);
  auto made = ask({{rectangle(-10, 0, 10, 20), {}}}, 0, 0.1, 1,
                  {posed("C1", {0, 0, 3}, 0, 30, 0, {1920, 1080}, 60)});
  const ShareProof proof = proveShare(made->question, 0.95, {}, {});
  EXPECT_LE(proof.share.low, footprintShare(0.1));
  EXPECT_GE(proof.share.high, footprintShare(0.1));
  EXPECT_LE(proof.share.high - proof.share.low, 1e-6);
}

// Property: undecided where the threshold lies between the bounds and no finer cells are allowed.
TEST(ProveShare, IsUndecidedWhenTheThresholdLiesBetweenItsBounds) {
  auto made = ask({{rectangle(-10, 0, 10, 20), {}}}, 0, 0, 1,
                  {posed("C1", {0, 0, 3}, 0, 30, 0, {1920, 1080}, 60, 0)});
  const Bounds share = proveShare(made->question, 0.95, {}, {}).share;
  EXPECT_LE(share.high - share.low, 0.002);
  ProveOptions coarse;
  coarse.finest_m = 0.5;
  const double between = 0.5 * (share.low + share.high);
  EXPECT_EQ(proveShare(made->question, between, coarse, {}).verdict, Verdict::undecided);
}

// Property: bounds hold the share of many points, in clutter, for one and for two imagers wanted.
TEST(ProveShare, BoundsHoldTheShareOfManyPoints) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 60; ++i) {
    std::vector<design::PosedImager> views;
    for (const char* name : {"C1", "C2", "C3"})
      views.push_back(posed(name, {10 * unit(random), 10 * unit(random), 2.5 + unit(random)},
                            360 * unit(random), 10 + 40 * unit(random), 0, {1920, 1080}, 90));
    auto made = ask({{rectangle(0, 0, 10, 10), {rectangle(4, 4, 6, 5)}}}, 1.2, 1.7, 60, views,
                    clutter(random, 12));
    Question& q = made->question;
    q.imagers_needed = 1 + i % 2;
    const ShareProof proof = proveShare(q, 0.5, {}, {});
    int inside = 0, served = 0;
    for (int j = 0; j < 8000; ++j) {
      const Vec2 p{10 * unit(random), 10 * unit(random)};
      if (!contains(q.region, p)) continue;
      ++inside;
      served += answerAt(q, p, 9).reason == Reason::served ? 1 : 0;
    }
    const double share = double(served) / inside, slack = 4.5 * 0.5 / std::sqrt(double(inside));
    EXPECT_GE(share, proof.share.low - slack) << i;
    EXPECT_LE(share, proof.share.high + slack) << i;
    EXPECT_LE(proof.share.high - proof.share.low, 0.02) << i;
  }
}

// A hall of 10 x 10 m under beams and nine luminaires, with clutter, in the dark; persons are looked for.
std::unique_ptr<MadeUp> darkHall(std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  scene::Scene scene = clutter(random, 8);
  for (double x = 1; x < 10; x += 2)
    scene::addPrism(scene, rectangle(x, 0, x + 0.3, 10), std::vector<double>(4, 2.25),
                    std::vector<double>(4, 2.8), 0);
  std::vector<design::PosedImager> views;
  for (const char* name : {"C1", "C2", "C3"})
    views.push_back(posed(name, {10 * unit(random), 10 * unit(random), 2.1}, 360 * unit(random),
                          10 + 30 * unit(random), 0, {1920, 1080}, 90));
  auto made = ask({{rectangle(0, 0, 10, 10), {rectangle(4, 4, 6, 5)}}}, 0.2, 1.8, 40, views, scene);
  auto lighting = std::make_shared<Lighting>();
  lighting->light.light.stated = true;
  for (int i = 0; i < 9; ++i)
    lighting->light.light.luminaires.push_back(
        hanging({2 + 2 * double(i % 3) + 0.6 * unit(random), 1 + 4.0 * (i / 3), 2.6}, 10 + 10 * unit(random)));
  const double lux = 0.2 + 3 * unit(random);
  for (design::PosedImager& view : made->question.views) {
    view.least_light = design::LeastLight{lux, 1.6, 0.04, {}, {}};
    view.f_number = 1.6;
  }
  made->question.lighting = lighting;
  replaceViews(made->question, made->question.views);
  return made;
}

// Property: bounds hold the share of many points, at many heights, where light decides; they come near one another,
// and the light is what decides.
TEST(ProveShare, BoundsHoldTheShareOfManyPointsInTheDark) {
  std::mt19937 random(12);
  std::uniform_real_distribution<double> unit(0, 1);
  int dark = 0, served_in_all = 0;
  for (int i = 0; i < 8; ++i) {
    auto made = darkHall(random);
    const Question& q = made->question;
    const ShareProof proof = proveShare(q, 0.5, {}, {});
    int inside = 0, served = 0;
    for (int j = 0; j < 4000; ++j) {
      const Vec2 p{10 * unit(random), 10 * unit(random)};
      if (!contains(q.region, p)) continue;
      ++inside;
      const Answer answer = answerAt(q, p, 33);
      served += answer.reason == Reason::served ? 1 : 0;
      dark += answer.reason == Reason::too_dark ? 1 : 0;
    }
    served_in_all += served;
    const double share = double(served) / inside, slack = 4.5 * 0.5 / std::sqrt(double(inside));
    EXPECT_GE(share, proof.share.low - slack) << i;
    EXPECT_LE(share, proof.share.high + slack) << i;
    EXPECT_LE(proof.share.high - proof.share.low, 0.01) << i;
    EXPECT_LT(proof.boxes, 100000u) << i;
  }
  EXPECT_GT(dark, 2000);
  EXPECT_GT(served_in_all, 2000);
}

// Property: the number of threads changes nothing, to the last bit, where lights' shadows are shared.
TEST(ProveShare, IsTheSameWithOneTwoAndSevenThreadsInTheDark) {
  std::mt19937 random(13);
  auto made = darkHall(random);
  ProveOptions coarse;
  coarse.finest_m = 0.04;
  std::optional<ShareProof> with_one;
  for (const std::size_t threads : {1u, 2u, 7u}) {
    const tbb::global_control most(tbb::global_control::max_allowed_parallelism, threads);
    const ShareProof proof = proveShare(made->question, 0.5, coarse, {});
    if (!with_one) with_one = proof;
    EXPECT_EQ(proof.share.low, with_one->share.low);
    EXPECT_EQ(proof.share.high, with_one->share.high);
    EXPECT_EQ(proof.boxes, with_one->boxes);
  }
}

// Closed form: a quarter turn, and a wedge of 60 degrees of which the square's corner is cut off.
TEST(ProveShare, SpanOfAnUnrolledViewBoundsTheShare) {
  design::PosedImager view = posed("C1", {0, 0, 3}, 0, 90, 0, {2000, 2000}, 180, 0);
  const auto share = [&](double width_deg) {
    view.span = design::viewSpan(0, 90, {width_deg, 90});
    auto made = ask({{rectangle(-4, -4, 4, 4), {}}}, 0, 0.5, 1, {view});
    return proveShare(made->question, 0.5, {}, {});
  };
  const ShareProof quarter = share(90), wedge = share(60), most = share(300);
  for (const auto& [proof, exact] : {std::pair{quarter, 0.25}, std::pair{wedge, std::tan(degToRad(30)) / 4},
                                     std::pair{most, 1 - std::tan(degToRad(30)) / 4}}) {
    EXPECT_LE(proof.share.low, exact + 1e-9);
    EXPECT_GE(proof.share.high, exact - 1e-9);
    EXPECT_LT(proof.share.high - proof.share.low, 0.001);
    EXPECT_LT(proof.boxes, 300u);
  }
}

}  // namespace
}  // namespace belvedere::proof
