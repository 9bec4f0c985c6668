// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/prove.h"

#include <gtest/gtest.h>

#include "made_up.h"

namespace belvedere::proof {
namespace {

// Closed form: a rectilinear 1920x1080 imager, 60 deg across, at 3.000 m, tilted 30 deg, shows
// 115.557 m2 of the level floor, 28.889 % of a square of 20 x 20 m around it.
TEST(ProveShare, TestBedFloorFootprintIsWithinTwoTenthsOfAPoint) {
  auto made = ask({{rectangle(-10, 0, 10, 20), {}}}, 0, 0, 1,
                  {posed("C1", {0, 0, 3}, 0, 30, 0, {1920, 1080}, 60)});
  const ShareProof proof = proveShare(made->question, 0.95, {}, {});
  EXPECT_LE(proof.share.low, 0.28889);
  EXPECT_GE(proof.share.high, 0.28889);
  EXPECT_LE(proof.share.high - proof.share.low, 0.002);
  EXPECT_EQ(proof.verdict, Verdict::not_met);
  std::cout << "boxes " << proof.boxes << " finest " << proof.finest_m << "\n";
}

// Closed form: the same for the handbook's floor target, 0 to 0.1 m, whole: 26.898 %.
TEST(ProveShare, FloorTargetMustBeInFrameOverItsWholeBand) {
  auto made = ask({{rectangle(-10, 0, 10, 20), {}}}, 0, 0.1, 1,
                  {posed("C1", {0, 0, 3}, 0, 30, 0, {1920, 1080}, 60)});
  const ShareProof proof = proveShare(made->question, 0.95, {}, {});
  EXPECT_LE(proof.share.low, 0.26898);
  EXPECT_GE(proof.share.high, 0.26898);
  EXPECT_LE(proof.share.high - proof.share.low, 0.002);
}

// Property: undecided where the threshold lies between the bounds and no finer cells are allowed.
TEST(ProveShare, IsUndecidedWhenTheThresholdLiesBetweenItsBounds) {
  auto made = ask({{rectangle(-10, 0, 10, 20), {}}}, 0, 0, 1,
                  {posed("C1", {0, 0, 3}, 0, 30, 0, {1920, 1080}, 60)});
  ProveOptions coarse;
  coarse.finest_m = 0.5;
  EXPECT_EQ(proveShare(made->question, 0.28889, coarse, {}).verdict, Verdict::undecided);
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

}  // namespace
}  // namespace belvedere::proof
