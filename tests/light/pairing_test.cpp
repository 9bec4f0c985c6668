// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/pairing.h"

#include <gtest/gtest.h>

#include <random>

namespace belvedere::light {
namespace {

// By hand: the greedy choice (lamp 1 to imager 1) is not the best one.
TEST(Pairing, SolvesByHand) {
  const Pairing best = bestPairing({{10, 9, 0}, {9, 1, 0}});
  EXPECT_EQ(best.imager_of, (std::vector<int>{1, 0}));
  EXPECT_EQ(best.without, (std::vector<int>{2}));
  EXPECT_EQ(best.value, 18);
  EXPECT_EQ(bestPairing({{1, 5}}).without, (std::vector<int>{0}));
  EXPECT_TRUE(bestPairing({{1}, {2}, {3}}).without.empty());
  EXPECT_EQ(bestPairing({{1}, {2}, {3}}).value, 6);
  EXPECT_EQ(bestPairing({{}, {}}).imager_of, (std::vector<int>{kNoImager, kNoImager}));
  EXPECT_TRUE(bestPairing({}).imager_of.empty());
}

// Property: both ways of solving agree, with fewer lamps than imagers, as many, and more; and every
// imager that can have a lamp has one.
TEST(Pairing, TableAndSearchAgree) {
  std::mt19937 random(11);
  std::uniform_int_distribution<int> value(-9, 9);
  for (int lamps = 0; lamps <= 5; ++lamps)
    for (int imagers = 1; imagers <= 5; ++imagers)
      for (int round = 0; round < 20; ++round) {
        std::vector<std::vector<double>> table(static_cast<std::size_t>(lamps));
        for (auto& row : table)
          for (int i = 0; i < imagers; ++i) row.push_back(value(random));
        int asked = 0;
        const auto by_search = bestPairing(lamps, imagers, [&](std::span<const int> list) {
          ++asked;
          double sum = 0;
          for (std::size_t k = 0; k < list.size(); ++k) sum += table[k][static_cast<std::size_t>(list[k])];
          return sum;
        });
        ASSERT_TRUE(by_search);
        EXPECT_EQ(asked, pairingCount(lamps, imagers)) << lamps << " " << imagers;
        if (lamps == 0) continue;
        const Pairing by_table = bestPairing(table);
        EXPECT_EQ(by_table.value, by_search->value) << lamps << " " << imagers;
        EXPECT_EQ(by_table.imager_of, by_search->imager_of) << lamps << " " << imagers;
        EXPECT_EQ(by_table.without.size(), static_cast<std::size_t>(std::max(0, imagers - lamps)));
      }
  EXPECT_FALSE(bestPairing(9, 9, [](std::span<const int>) { return 0.0; }));
}

}  // namespace
}  // namespace belvedere::light
