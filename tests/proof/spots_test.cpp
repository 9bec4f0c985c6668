// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/spots.h"

#include <gtest/gtest.h>

#include <iostream>
#include <map>

#include "made_up.h"
#include "proof/prove.h"

namespace belvedere::proof {
namespace {

using Random = std::mt19937;
double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

// Three cameras over ten by ten metres of clutter; one imager is asked for, or two, or each of two
// facings, or any of them.
std::unique_ptr<MadeUp> randomQuestion(Random& random, int kind) {
  std::vector<design::PosedImager> views;
  for (const char* name : {"C1", "C2", "C3"})
    views.push_back(posed(name, {between(random, 0, 10), between(random, 0, 10), between(random, 2.4, 3.4)},
                          between(random, 0, 360), between(random, 10, 45), 0, {1920, 1080}, 90));
  auto made = ask({{rectangle(0, 0, 10, 10), {rectangle(4, 4, 6, 5)}}}, 1.2, 1.7,
                  between(random, 40, 90), views, clutter(random, 8));
  Question& q = made->question;
  q.imagers_needed = kind == 1 ? 2 : 1;
  if (kind >= 2) q.facings = {{90, 80, 40}, {250, 80, 40}};
  q.every_facing = kind == 2;
  return made;
}

// Property: shares of the reasons and of what is served sum to 1; reasons come largest first;
// no imager is needed where it does not serve; those needed never sum to more than is served, times
// how many each spot needs.
TEST(Spots, ReasonsAndTheServedShareSumToOne) {
  Random random(61);
  for (int i = 0; i < 40; ++i) {
    const auto made = randomQuestion(random, i % 4);
    const Question& q = made->question;
    RequirementProof proof;
    summariseSpots(q, 0.25, 4000, proof, {});
    const SpotMap map = spotMap(q, 0.25, 4000, {});
    double inside = 0, served = 0;
    std::map<Reason, double> reasons;
    for (const Spot& spot : map.spots) {
      if (!spot.inside) continue;
      ++inside;
      if (spot.reason == Reason::served) ++served;
      else ++reasons[spot.reason];
    }
    double sum = served / inside;
    for (std::size_t r = 0; r < proof.reasons.size(); ++r) {
      sum += proof.reasons[r].share;
      EXPECT_NEAR(proof.reasons[r].share, reasons[proof.reasons[r].reason] / inside, 1e-12) << i;
      if (r > 0) {
        EXPECT_GE(proof.reasons[r - 1].share, proof.reasons[r].share) << i;
      }
    }
    EXPECT_NEAR(sum, 1, 1e-12) << i;
    double alone = 0;
    for (const Contribution& c : proof.imagers) {
      EXPECT_LE(c.alone, c.serves) << i << c.imager;
      EXPECT_GT(c.serves, 0) << i << c.imager;
      alone += c.alone;
    }
    const double each = q.every_facing ? static_cast<double>(q.facings.size()) : 1;
    EXPECT_LE(alone, q.imagers_needed * each * served / inside + 1e-12) << i;
  }
}

// Property: "alone" is what would be lost: taking the imager away and asking again at the same
// spots, so much less is served.
TEST(Spots, AloneIsTheShareLostWithoutTheImager) {
  Random random(62);
  int felt = 0;
  for (int i = 0; i < 24; ++i) {
    const auto made = randomQuestion(random, i % 4);
    const Question& q = made->question;
    RequirementProof proof;
    summariseSpots(q, 0.25, 4000, proof, {});
    const auto servedShare = [](const Question& asked) {
      RequirementProof found;
      summariseSpots(asked, 0.25, 4000, found, {});
      double share = 1;
      for (const ReasonShare& r : found.reasons) share -= r.share;
      return share;
    };
    for (const std::string& imager : q.imagers) {
      Question less = q;
      auto views = q.views;
      std::erase_if(views, [&](const auto& v) { return v.imager == imager; });
      replaceViews(less, views);
      double alone = 0;
      for (const Contribution& c : proof.imagers)
        if (c.imager == imager) alone = c.alone;
      EXPECT_NEAR(servedShare(q) - servedShare(less), alone, 1e-9) << i << imager;
      felt += alone > 0 ? 1 : 0;
    }
  }
  EXPECT_GT(felt, 20);
}

// Bound: the served share of a spot map lies within the proven bounds, give or take the cells that
// a border runs through (those with a neighbour that fares otherwise).
TEST(Spots, ServedShareLiesWithinTheProvenBounds) {
  Random random(63);
  for (int i = 0; i < 24; ++i) {
    const auto made = randomQuestion(random, i % 4);
    const SpotMap map = spotMap(made->question, 0.1, 20'000, {});
    const ShareProof proof = proveShare(made->question, 0.5, {}, {});
    double inside = 0, served = 0, border = 0;
    for (int row = 0; row < map.rows; ++row)
      for (int column = 0; column < map.columns; ++column) {
        const Spot& spot = map.at(column, row);
        if (!spot.inside) continue;
        ++inside;
        const bool here = spot.reason == Reason::served;
        served += here ? 1 : 0;
        bool differs = false;
        for (const auto& [c, r] : {std::pair{column - 1, row}, {column + 1, row}, {column, row - 1},
                                   {column, row + 1}})
          if (c >= 0 && r >= 0 && c < map.columns && r < map.rows && map.at(c, r).inside)
            differs = differs || (map.at(c, r).reason == Reason::served) != here;
        border += differs ? 1 : 0;
      }
    // A border passes through the middle of its cells on average: a quarter of them is ample.
    const double slack = 0.25 * border / inside;
    EXPECT_GE(served / inside, proof.share.low - slack) << i;
    EXPECT_LE(served / inside, proof.share.high + slack) << i;
  }
}

// Property: the worst spot that is named is the worst of the lattice, and says what is wrong there.
TEST(Spots, TheWorstSpotIsTheWorst) {
  Random random(64);
  for (int i = 0; i < 12; ++i) {
    const auto made = randomQuestion(random, i % 4);
    const Question& q = made->question;
    RequirementProof proof;
    summariseSpots(q, 0.25, 4000, proof, {});
    ASSERT_TRUE(proof.worst.has_value());
    const int heights = sampledHeights(q.requirement->target);
    const Answer worst = answerAt(q, proof.worst->at.xy(), heights);
    EXPECT_EQ(worst.reason, proof.worst->reason);
    EXPECT_EQ(worst.measure.margin, proof.worst->measure.margin);
    const SpotMap map = spotMap(q, 0.25, 4000, {});
    for (int row = 0; row < map.rows; ++row)
      for (int column = 0; column < map.columns; ++column)
        if (map.at(column, row).inside) {
          EXPECT_FALSE(better(worst, answerAt(q, map.centre(column, row), heights)));
        }
  }
}

// Property: on a large site those near enough are asked first; what comes of it is what comes of asking
// all that are within four times their range. One imager has an aim that is near and one that is far.
TEST(Spots, ALargeSiteIsAnsweredAsIfAllWereAsked) {
  Random random(65);
  int unserved = 0, far_decided = 0;
  for (int i = 0; i < 12; ++i) {
    std::vector<design::PosedImager> views;
    std::vector<std::string> names;
    for (int v = 0; v < 76; ++v) names.push_back("C" + std::to_string(v));
    for (int v = 0; v < 76; ++v) {
      const double reach = v % 6 == 0 ? 10 : 60;
      views.push_back(posed(names[static_cast<std::size_t>(v)].c_str(),
                            {between(random, -reach, reach), between(random, -reach, reach), 3},
                            between(random, 0, 360), between(random, 5, 30), 0, {1920, 1080}, 60));
      if (v % 20 == 7) {
        design::PosedImager other = views.back();
        other.lens_m = {between(random, 0, 10), between(random, 0, 10), 3};
        other.aim = 1;
        views.push_back(other);
      }
    }
    auto made = ask({{rectangle(0, 0, 10, 10), {}}}, 1.2, 1.7, between(random, 90, 160), views,
                    clutter(random, 14));
    Question& q = made->question;
    q.imagers_needed = i % 3 == 1 ? 2 : 1;
    if (i % 3 == 2) {
      q.facings = {{90, 80, 40}, {250, 80, 40}};
      q.every_facing = true;
    }
    Question wide = q;
    std::vector<design::PosedImager> kept;
    for (const std::uint32_t v : viewsInRange(q, 4)) kept.push_back(q.views[v]);
    const std::size_t near = viewsInRange(q).size();
    ASSERT_LT(near, kept.size());
    replaceViews(wide, kept);
    const SpotMap map = spotMap(q, 0.5, 4000, {});
    for (int row = 0; row < map.rows; ++row)
      for (int column = 0; column < map.columns; ++column) {
        const Spot& spot = map.at(column, row);
        if (!spot.inside) continue;
        const Answer answer =
            answerAt(wide, map.centre(column, row), sampledHeights(q.requirement->target));
        ASSERT_EQ(spot.reason, answer.reason) << i;
        ASSERT_EQ(spot.margin, static_cast<float>(answer.measure.margin)) << i;
        ASSERT_GE(answer.view, 0);
        ASSERT_EQ(map.imagers.at(static_cast<std::size_t>(spot.imager)),
                  wide.views[static_cast<std::size_t>(answer.view)].imager) << i;
        unserved += answer.reason != Reason::served;
        far_decided += answer.reason == Reason::too_coarse || answer.reason == Reason::out_of_frame;
      }
    RequirementProof summary;
    summariseSpots(q, 0.5, 4000, summary, {});
    std::map<std::string, double> serves;
    for (const Contribution& by : summary.imagers) serves[by.imager] = by.serves;
    double inside = 0;
    std::map<std::string, double> counted;
    for (int row = 0; row < map.rows; ++row)
      for (int column = 0; column < map.columns; ++column) {
        if (!map.at(column, row).inside) continue;
        ++inside;
        std::vector<Answer> all;
        answerAt(wide, map.centre(column, row), sampledHeights(q.requirement->target), &all);
        for (std::size_t k = 0; k < all.size(); ++k)
          if (all[k].reason == Reason::served) ++counted[wide.imagers[k]];
      }
    for (auto& [imager, count] : counted) count /= inside;
    ASSERT_EQ(serves.size(), counted.size()) << i;
    for (const auto& [imager, share] : counted) EXPECT_NEAR(serves[imager], share, 1e-12) << imager;
  }
  EXPECT_GT(unserved, 100);
  EXPECT_GT(far_decided, 50);
}

}  // namespace
}  // namespace belvedere::proof
