// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/gap.h"

#include <gtest/gtest.h>

#include <cmath>

#include "made_up.h"

namespace belvedere::proof {
namespace {

// Straight down from 4 m, 90 deg across on 16:9: it shows 8 by 4.5 m of the floor about its foot.
design::PosedImager down(const char* name, Vec2 at) {
  return posed(name, withZ(at, 4), 0, 90, 0, {1920, 1080}, 90);
}
void expectHolds(const GapProof& proof, double exact_m) {
  EXPECT_LE(proof.extent_m.low, exact_m + 1e-6);
  EXPECT_GE(proof.extent_m.high, exact_m - 1e-6);
}

// Closed form: of a strip of 18 by 2 m, 6 m are left at one end and 4 m at the other: the longer patch
// is sqrt(6^2 + 2^2) long from corner to corner.
TEST(ProveGap, LongestPatchOfAStripBesideTheFrame) {
  auto made = ask({{rectangle(-10, -1, 8, 1), {}}}, 0, 0, 1, {down("C1", {0, 0})});
  const double exact_m = std::hypot(6, 2);
  const GapProof met = proveGap(made->question, 6.5, {}, {}), missed = proveGap(made->question, 6.3, {}, {});
  EXPECT_EQ(met.verdict, Verdict::met);
  EXPECT_LE(met.extent_m.high, 6.5);
  EXPECT_EQ(missed.verdict, Verdict::not_met);
  EXPECT_GT(missed.extent_m.low, 6.3);
  expectHolds(met, exact_m);
  expectHolds(missed, exact_m);
}

// Closed form: two frames side by side leave 1 m between them (sqrt(1 + 4) long) and 1 m at each end;
// pushed together, nothing is left between.
TEST(ProveGap, PatchesThatDoNotTouchAreGapsOfTheirOwn) {
  auto apart = ask({{rectangle(-9.5, -1, 9.5, 1), {}}}, 0, 0, 1,
                   {down("C1", {-4.5, 0}), down("C2", {4.5, 0})});
  const GapProof proof = proveGap(apart->question, 3, {}, {});
  EXPECT_EQ(proof.verdict, Verdict::met);
  expectHolds(proof, std::hypot(1, 2));
  EXPECT_EQ(proveGap(apart->question, 2.2, {}, {}).verdict, Verdict::not_met);
  auto whole = ask({{rectangle(-8, -1, 8, 1), {}}}, 0, 0, 1, {down("C1", {-4, 0}), down("C2", {4, 0})});
  EXPECT_LT(proveGap(whole->question, 0.5, {}, {}).extent_m.high, 2.1);
}

// Closed form: nothing sees a thing: the zone's own diagonal; all is seen: no gap.
TEST(ProveGap, NothingAndEverything) {
  auto none = ask({{rectangle(0, 0, 3, 4), {}}}, 0, 0, 1, {});
  EXPECT_EQ(proveGap(none->question, 4.9, {}, {}).verdict, Verdict::not_met);
  expectHolds(proveGap(none->question, 4.9, {}, {}), 5);
  EXPECT_EQ(proveGap(none->question, 5, {}, {}).verdict, Verdict::met);
  auto all = ask({{rectangle(-1, -1, 1, 1), {}}}, 0, 0, 1, {down("C1", {0, 0})});
  EXPECT_EQ(proveGap(all->question, 0, {}, {}).verdict, Verdict::met);
  EXPECT_EQ(proveGap(all->question, 0, {}, {}).extent_m, (Bounds{0, 0}));
}

// Property: undecided where no finer cells are allowed and the length lies between.
TEST(ProveGap, IsUndecidedWhereTheLengthLiesBetweenItsBounds) {
  auto made = ask({{rectangle(-10, -1, 8, 1), {}}}, 0, 0, 1,
                  {posed("C1", {0, 0, 4}, 0, 90, 0, {1920, 1080}, 90, 0)});
  ProveOptions coarse;
  coarse.finest_m = 0.7;
  const GapProof proof = proveGap(made->question, 6.4, coarse, {});
  EXPECT_LE(proof.extent_m.low, proof.extent_m.high);
  bool seen_undecided = false;
  for (double most_m = 4; most_m < 9; most_m += 0.05)
    seen_undecided = seen_undecided ||
                     proveGap(made->question, most_m, coarse, {}).verdict == Verdict::undecided;
  EXPECT_TRUE(seen_undecided);
}

// Property: in clutter, of points that are served by nobody and lie on one straight unserved stretch,
// none are farther apart than the upper bound.
TEST(ProveGap, NoUnservedStretchIsLongerThanTheUpperBound) {
  std::mt19937 random(23);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < 12; ++i) {
    std::vector<design::PosedImager> views;
    for (const char* name : {"C1", "C2", "C3"})
      views.push_back(posed(name, {10 * unit(random), 10 * unit(random), 2.5 + unit(random)},
                            360 * unit(random), 10 + 40 * unit(random), 0, {1920, 1080}, 100));
    auto made = ask({{rectangle(0, 0, 10, 10), {}}}, 0.5, 1, 60, views, clutter(random, 8));
    const double most_m = 1 + 8 * unit(random);
    const GapProof proof = proveGap(made->question, most_m, {}, {});
    for (int j = 0; j < 100; ++j) {
      const Vec2 from{10 * unit(random), 10 * unit(random)};
      const double way = 2 * kPi * unit(random);
      const Vec2 along{std::cos(way), std::sin(way)};
      double run_m = 0;
      for (double t = 0; t < 12; t += 0.005) {
        const Vec2 p = from + along * t;
        if (!contains(made->question.region, p) ||
            answerAt(made->question, p, 9).reason == Reason::served)
          break;
        run_m = t;
      }
      EXPECT_LE(run_m, proof.extent_m.high + 1e-6) << i;
    }
    if (proof.verdict == Verdict::met) {
      EXPECT_LE(proof.extent_m.high, most_m + 1e-6);
    }
    if (proof.verdict == Verdict::not_met) {
      EXPECT_GT(proof.extent_m.low, most_m);
    }
  }
}

}  // namespace
}  // namespace belvedere::proof
