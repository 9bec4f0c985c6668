// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/ways.h"

#include <gtest/gtest.h>

#include <cmath>
#include <queue>
#include <random>

#include "made_up.h"

namespace belvedere::services {
namespace {

// Closed form: from a head 2 m off the south wall to a cabinet at the foot of the east wall: 2 m to
// the wall and up to the line under the ceiling, 10 m along it, 5 m along the next, 3 m down.
TEST(Ways, FollowWallsAndDrop) {
  const Ways ways(designWith({hall()}));
  const auto way = ways.between({10, 2, 3.5}, {20, 5, 1});
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->length_m, (2 + 0.5) + 10 + 5 + 3, 1e-9);
  EXPECT_NEAR(way->drop_m, 2.5 + 3, 1e-9);
  EXPECT_FALSE(way->open);
  EXPECT_EQ(way->contained_m, 0);
}

// Closed form: the tray crosses the hall at 3.8 m from wall to wall; it is the shorter way between
// two heads beside it.
TEST(Ways, TakeTheTrayWhereItIsNearest) {
  Design design = designWith({hall()});
  design.site.containment.push_back({{"tray"}, "", {"g"}, {{10, 0, 3.8}, {10, 10, 3.8}}});
  const Ways ways(design);
  const auto way = ways.between({9, 3, 4}, {11, 8, 4});
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->length_m, (1 + 0.2) + 5 + (1 + 0.2), 1e-9);
  EXPECT_NEAR(way->contained_m, 5, 1e-9);
  // Along the named containment alone, whatever is nearer.
  const design::AnyId tray{"tray"};
  const auto named = ways.between({1, 3, 4}, {11, 8, 4}, {&tray, 1});
  ASSERT_TRUE(named);
  EXPECT_NEAR(named->length_m, (9 + 0.2) + 5 + (1 + 0.2), 1e-9);
}

// Closed form: two storeys joined by a riser in the corner (20, 10): along the walls to it at 4 m,
// up to the next ceiling's line at 9 m, and back.
TEST(Ways, ClimbByRisersAlone) {
  Design design = designWith({hall("g", 0), hall("u", 5)});
  const Vec3 below{20, 5, 4}, above{15, 10, 9};
  EXPECT_FALSE(Ways(design).between(below, above));
  design.site.containment.push_back({{"riser"}, "", {}, {{20, 10, 0}, {20, 10, 9}}});
  const auto way = Ways(design).between(below, above);
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->length_m, 5 + 5 + 5, 1e-9);
  EXPECT_NEAR(way->contained_m, 5, 1e-9);
  EXPECT_NEAR(way->climb_m, 5, 1e-9);
}

// Closed form: a partition of 2 m beside the first head leads nowhere; the way is that along the
// outer walls as if it were not there: 2 + 0.5 m to the south wall, 10 along it, 5 along the next, 3
// down.
TEST(Ways, WhatLeadsNowhereIsPassedBy) {
  Storey storey = hall();
  Wall partition;
  partition.id = {"partition"};
  partition.path = {{9, 3}, {11, 3}};
  storey.walls.push_back(partition);
  const auto way = Ways(designWith({storey})).between({10, 2, 3.5}, {20, 5, 1});
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->length_m, (2 + 0.5) + 10 + 5 + 3, 1e-9);
  EXPECT_FALSE(way->open);
}

TEST(Ways, AnEmptyFloorIsCrossedSquare) {
  Storey bare = hall();
  bare.walls.clear();
  const auto way = Ways(designWith({bare})).between({1, 1, 3}, {4, 5, 1});
  ASSERT_TRUE(way);
  EXPECT_TRUE(way->open);
  EXPECT_NEAR(way->length_m, 3 + 4 + 2, 1e-12);
}

// Property: on a random grid of trays with pieces missing, the length equals that of a plain search
// over the grid's own nodes, written apart.
TEST(Ways, EqualTheShortestWayOnAGrid) {
  std::mt19937 random(7);
  int compared = 0;
  for (int round = 0; round < 40; ++round) {
    constexpr int kSide = 6;
    const auto node = [](int x, int y) { return y * kSide + x; };
    std::vector<std::vector<std::pair<int, double>>> edges(kSide * kSide);
    Storey bare = hall();
    bare.outline = {{-1, -1}, {30, -1}, {30, 30}, {-1, 30}};
    bare.walls.clear();
    Design design = designWith({bare});
    const auto add = [&](int x0, int y0, int x1, int y1) {
      if (random() % 100 < 35) return;
      const double length = 3.0 * (std::abs(x1 - x0) + std::abs(y1 - y0));
      edges[static_cast<std::size_t>(node(x0, y0))].push_back({node(x1, y1), length});
      edges[static_cast<std::size_t>(node(x1, y1))].push_back({node(x0, y0), length});
      design.site.containment.push_back({{"c" + std::to_string(design.site.containment.size())},
                                         "", {"g"}, {{3.0 * x0, 3.0 * y0, 3}, {3.0 * x1, 3.0 * y1, 3}}});
    };
    for (int y = 0; y < kSide; ++y)
      for (int x = 0; x < kSide; ++x) {
        if (x + 1 < kSide) add(x, y, x + 1, y);
        if (y + 1 < kSide) add(x, y, x, y + 1);
      }
    std::vector<double> distance(kSide * kSide, INFINITY);
    distance[0] = 0;
    for (int pass = 0; pass < kSide * kSide; ++pass)  // Bellman and Ford
      for (std::size_t a = 0; a < edges.size(); ++a)
        for (const auto& [b, length] : edges[a])
          distance[static_cast<std::size_t>(b)] =
              std::min(distance[static_cast<std::size_t>(b)], distance[a] + length);
    const Ways ways(design);
    for (int y = 0; y < kSide; ++y)
      for (int x = 0; x < kSide; ++x) {
        const auto at = static_cast<std::size_t>(node(x, y));
        // Both must stand on the grid, else the place takes to another point of it.
        if (edges[0].empty() || edges[at].empty()) continue;
        const auto way = ways.between({0, 0, 3}, {3.0 * x, 3.0 * y, 3});
        ASSERT_TRUE(way);
        if (std::isinf(distance[at])) {  // on another net: one of both is left, or the floor crossed
          EXPECT_GE(way->length_m, std::hypot(3.0 * x, 3.0 * y) - 1e-9);
          EXPECT_TRUE(way->open || way->drop_m > 1 || way->length_m <= 3.0 * (x + y) + 1e-9);
          continue;
        }
        EXPECT_NEAR(way->length_m, distance[at], 1e-6);
        ++compared;
      }
  }
  EXPECT_GT(compared, 300);
}

}  // namespace
}  // namespace belvedere::services
