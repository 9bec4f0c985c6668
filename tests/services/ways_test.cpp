// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/ways.h"

#include <gtest/gtest.h>

#include <cmath>
#include <queue>
#include <random>

#include "made_up.h"
#include "services/findings.h"

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

// Closed form: from a head at (1, 1), 3 m up, by (4, 1) and (4, 9) at 3.8 m to a device at (6, 9), 1 m
// up: 3 + 0.8 m to the first place, 8 m on, and 2 + 2.8 m to the device, whatever lies nearer.
TEST(Ways, AnOwnWayIsItsLineWithTheDropsAtItsEnds) {
  const Ways ways(designWith({hall()}));
  const std::vector<Vec3> path{{4, 1, 3.8}, {4, 9, 3.8}};
  const auto way = ways.through({1, 1, 3}, path, {6, 9, 1});
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->length_m, 3.8 + 8 + 4.8, 1e-9);
  EXPECT_NEAR(way->drop_m, 3.8 + 4.8, 1e-9);
  double along_path_m = 0;
  for (std::size_t i = 1; i < way->path.size(); ++i)
    along_path_m += norm(way->path[i] - way->path[i - 1]);
  EXPECT_NEAR(along_path_m, way->length_m, 1e-9);
  const std::vector<Vec3> one{{4, 1, 3.8}};
  EXPECT_NEAR(ways.through({1, 1, 3}, one, {6, 9, 1})->length_m, 3.8 + std::hypot(2, 8) + 2.8, 1e-9);
}

// Closed form: a cable's length is its own way, its drops and its slack.
TEST(Ways, TheLengthOfACableIsItsOwnWayDropsAndSlack) {
  Design design = designWith({hall()});
  design.catalogue.models = {housingModel("head", 1), part("switch", ModelKind::switch_, {})};
  design.housings = {housing("C1", "head", {1, 1, 3}, 1)};
  design.services.devices = {device("S", "switch")};
  design.services.devices[0].at_m = Vec3{6, 9, 1};
  design.services.links = {link("k1", "C1", "S")};
  design.services.links[0].path = {{4, 1, 3.8}, {4, 9, 3.8}};
  design.services.links[0].slack_m = 2.5;
  const Network network = networkOf(design, streamRates(design));
  ASSERT_EQ(network.cables.size(), 1u);
  EXPECT_NEAR(network.cables[0].length_m, 3.8 + 8 + 4.8 + 2.5, 1e-9);
}

// Closed form: an own way on one storey, to a device on another: by the riser in the corner (20, 10).
TEST(Ways, AnOwnWayClimbsByRisersAlone) {
  Design design = designWith({hall("g", 0), hall("u", 5)});
  const std::vector<Vec3> path{{10, 1, 3.8}, {19, 10, 4}};
  const Vec3 from{10, 1, 3}, above{15, 10, 9};
  EXPECT_FALSE(Ways(design).through(from, path, above));
  design.site.containment.push_back({{"riser"}, "", {}, {{20, 10, 0}, {20, 10, 9}}});
  const auto way = Ways(design).through(from, path, above);
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->length_m, 0.8 + std::sqrt(9 * 9 + 9 * 9 + 0.2 * 0.2) + 1 + 5 + 5, 1e-9);
  EXPECT_EQ(way->along, std::vector<ContainmentId>{{"riser"}});
}

// Property: a found way, stated by its bends, is as long as it was found.
TEST(Ways, AFoundWayStatedAsItsOwnIsAsLong) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> x(0.5, 19.5), y(0.5, 9.5), z(0.5, 3.9);
  Storey low = hall("g", 0), high = hall("u", 5);
  Design design = designWith({low, high});
  design.site.containment = {{{"tray"}, "", {"g"}, {{10, 0, 3.8}, {10, 10, 3.8}}},
                             {{"sloped"}, "", {"g"}, {{0, 5, 3.8}, {20, 5, 3}}},
                             {{"riser"}, "", {}, {{20, 10, 0}, {20, 10, 9}}}};
  const Ways ways(design);
  int compared = 0;
  for (int i = 0; i < 300; ++i) {
    const Vec3 a{x(random), y(random), z(random)};
    const Vec3 b{x(random), y(random), z(random) + (i % 3 == 0 ? 5.0 : 0.0)};
    const auto found = ways.between(a, b);
    if (!found) continue;
    const auto own = ways.through(a, bendsOf(*found), b);
    ASSERT_TRUE(own);
    EXPECT_NEAR(own->length_m, found->length_m, 1e-6) << i;
    ++compared;
  }
  EXPECT_GT(compared, 250);
}

// Closed form: beside a tray from (2, 5) to (18, 5) an own way from (5, 5.2) to (12, 5.2), then square off
// it to (12, 9): 7 m are in the tray, and none of what leaves it or crosses it.
TEST(Ways, AnOwnWayIsContainedWhereItRunsBesideContainment) {
  Design design = designWith({hall()});
  design.site.containment = {{{"tray"}, "", {"g"}, {{2, 5, 3.8}, {18, 5, 3.8}}},
                             {{"across"}, "", {"g"}, {{8, 0, 3.8}, {8, 10, 3.8}}}};
  const Ways ways(design);
  const std::vector<Vec3> beside{{5, 5.2, 3.8}, {12, 5.2, 3.8}, {12, 9, 3.8}};
  const auto way = ways.through({5, 1, 3}, beside, {14, 9, 1});
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->contained_m, 7, 1e-6);
  EXPECT_EQ(way->along, std::vector<ContainmentId>{{"tray"}});
  // Out of the tray's end: only what lies beside it, and a rest within kJoinM of its end.
  const std::vector<Vec3> beyond{{15, 5, 3.8}, {20, 5, 3.8}};
  EXPECT_NEAR(ways.through({15, 1, 3}, beyond, {20, 9, 1})->contained_m, 3 + kJoinM, 1e-6);
}

// Property: a way of its own wins over a route, and the cable says that it is drawn; where no riser
// joins its storeys, a shortfall says that it is the drawn way that cannot be followed.
TEST(Ways, AnOwnWayWinsOverARoute) {
  Design design = designWith({hall("g", 0), hall("u", 5)});
  design.catalogue.models = {housingModel("head", 1), part("switch", ModelKind::switch_, {})};
  design.housings = {housing("C1", "head", {1, 1, 3}, 1)};
  design.services.devices = {device("S", "switch")};
  design.services.devices[0].at_m = Vec3{6, 9, 1};
  design.site.containment = {{{"tray"}, "", {"g"}, {{1, 5, 3.8}, {18, 5, 3.8}}}};
  design.services.links = {link("k1", "C1", "S")};
  design.services.links[0].route = {{"tray"}};
  const Cable routed = networkOf(design, streamRates(design)).cables.front();
  EXPECT_FALSE(routed.drawn);
  design.services.links[0].path = {{4, 1, 3.8}, {4, 9, 3.8}};
  const Cable drawn = networkOf(design, streamRates(design)).cables.front();
  EXPECT_TRUE(drawn.drawn);
  EXPECT_NEAR(drawn.length_m, 3.8 + 8 + 4.8, 1e-9);
  EXPECT_EQ(routed.way->along, std::vector<ContainmentId>{{"tray"}});
  EXPECT_TRUE(drawn.way->along.empty());
  design.services.links[0].path.push_back({10, 5, 8});
  Sizes sizes;
  sizes.network = networkOf(design, streamRates(design));
  EXPECT_FALSE(sizes.network.cables.front().way);
  const std::vector<Finding> found = networkFindings(design, sizes);
  const auto no_way = std::ranges::find(found, "cable_no_way", &Finding::code);
  ASSERT_NE(no_way, found.end());
  EXPECT_NE(no_way->sentence.find("the way drawn for it cannot be followed"), std::string::npos);
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

// A bakery with an office over half of it and a yard beside it: a duct under the yard climbs at the wall,
// a tray goes on through the ground floor, a riser and a tray lead to the cabinet above.
Design bakery() {
  Storey ground = hall("ground", 0), upper = hall("upper", 3.4), yard = hall("yard", -1);
  ground.height_m = 3.2;
  ground.outline = {{0, 0}, {16, 0}, {16, 10}, {0, 10}};
  ground.walls[0].path = {{0, 0}, {16, 0}, {16, 10}, {0, 10}, {0, 0}};
  upper.height_m = 2.6;
  upper.outline = {{0, 0}, {8, 0}, {8, 10}, {0, 10}};
  upper.walls[0].path = {{0, 0}, {8, 0}, {8, 10}, {0, 10}, {0, 0}};
  yard.height_m = 7;
  yard.outline = {{16, -4}, {38, -4}, {38, 16}, {16, 16}};
  yard.walls.clear();
  Design design = designWith({ground, upper, yard});
  design.site.containment = {
      {{"duct"}, "", {"yard"},
       {{36, 12, -1.3}, {36, 14, -1.3}, {16.3, 14, -1.3}, {16.3, 9.5, -1.3}, {16.3, 9.5, 3.1}}},
      {{"tray"}, "", {"ground"}, {{16.3, 9.5, 3.1}, {7.6, 9.5, 3.1}}},
      {{"riser"}, "", {}, {{7.6, 9.5, 3.1}, {7.6, 9.5, 5.8}}},
      {{"tray_up"}, "", {"upper"}, {{7.6, 9.5, 5.8}, {2, 9.5, 5.8}}},
      {{"shop"}, "", {"ground"}, {{1, 2.4, 3.1}, {5, 2.4, 3.1}}}};
  return design;
}
const Vec3 kPole{36, 12, 3.5}, kCabinet{2, 9.3, 4.6};
std::vector<AnyId> routeOf(std::initializer_list<const char*> ids) {
  std::vector<AnyId> route;
  for (const char* id : ids) route.push_back({id});
  return route;
}

// Worked by hand: down the pole 4.8, the duct 2 + 19.7 + 4.5 + 4.4, the tray 8.7, the riser 2.7, the
// upper tray 5.6, across and down to the cabinet 0.2 + 1.2: 53.8 m. It is the shortest as well.
TEST(Ways, AStatedRouteIsFollowedPieceByPiece) {
  const Design design = bakery();
  const Ways ways(design);
  const auto way = ways.between(kPole, kCabinet, routeOf({"duct", "tray", "riser", "tray_up"}));
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->length_m, 53.8, 1e-9);
  EXPECT_NEAR(way->contained_m, 30.6 + 8.7 + 2.7 + 5.6, 1e-9);
  EXPECT_NEAR(way->drop_m, 4.8 + 1.4, 1e-9);
  EXPECT_TRUE(way->bridged.empty());
  std::vector<std::string> along;
  for (const ContainmentId& id : way->along) along.push_back(id.text);
  EXPECT_EQ(along, (std::vector<std::string>{"duct", "tray", "riser", "tray_up"}));
  double drawn = 0;  // what is drawn is what is counted
  for (std::size_t k = 0; k + 1 < way->path.size(); ++k) drawn += norm(way->path[k + 1] - way->path[k]);
  EXPECT_NEAR(drawn, 53.8, 1e-9);
  const auto shortest = ways.between(kPole, kCabinet);
  ASSERT_TRUE(shortest);
  EXPECT_NEAR(shortest->length_m, 53.8, 1e-9);
}

// Property: less stated is no shorter way through the slab: it is no way, and the two are named.
TEST(Ways, WhatDoesNotJoinIsNamed) {
  const Design whole = bakery();
  const Ways ways(whole);
  std::optional<Parted> parted;
  EXPECT_FALSE(ways.between(kPole, kCabinet, routeOf({"duct", "tray", "tray_up"}), &parted));
  ASSERT_TRUE(parted);
  EXPECT_EQ(parted->one, "tray");
  EXPECT_EQ(parted->other, "tray_up");
  EXPECT_NEAR(parted->apart_m, 2.7, 1e-9);
  EXPECT_FALSE(ways.between({3, 2.4, 3}, kCabinet, routeOf({"duct"}), &parted));
  EXPECT_EQ(parted->one, "");  // the camera in the shop
  EXPECT_EQ(parted->other, "duct");
  EXPECT_FALSE(ways.between(kPole, kCabinet, routeOf({"duct"}), &parted));
  EXPECT_EQ(parted->one, "duct");
  EXPECT_EQ(parted->other, "");
  EXPECT_FALSE(ways.between(kPole, kCabinet, routeOf({"nowhere"}), &parted));
  EXPECT_EQ(parted->one, "nowhere");
  // Of no route: a riser that does not reach the slab, 2.7 m below the tray above and 0.8 m beside it.
  Design design = bakery();
  design.site.containment[2].path = {{7.6, 9.5, 1}, {7.6, 9.5, 2.5}};
  design.site.containment[3].path = {{6.8, 9.5, 5.8}, {2, 9.5, 5.8}};
  design.site.buildings[0].storeys[1].walls.clear();
  EXPECT_FALSE(Ways(design).between(kPole, kCabinet, {}, &parted));
  EXPECT_EQ(parted->one, "tray");
  EXPECT_EQ(parted->other, "tray_up");
  EXPECT_NEAR(parted->apart_m, std::hypot(0.8, 2.7), 1e-9);
}

// Closed form: from the end of the shop's tray (5, 2.4) to the riser at (7.6, 9.5), on one storey without
// walls: straight across, and the answer says so.
TEST(Ways, AGapOnOneStoreyIsBridgedAndSaid) {
  Design design = bakery();
  for (Storey& storey : design.site.buildings[0].storeys) storey.walls.clear();
  design.site.containment[1].path = {{16.3, 9.5, 3.1}, {12, 9.5, 3.1}};
  const auto way = Ways(design).between({1, 2.4, 3.1}, kCabinet, routeOf({"shop", "riser", "tray_up"}));
  ASSERT_TRUE(way);
  ASSERT_EQ(way->bridged.size(), 1u);
  EXPECT_EQ(way->bridged[0].one, "shop");
  EXPECT_EQ(way->bridged[0].other, "riser");
  EXPECT_NEAR(way->bridged[0].apart_m, std::hypot(2.6, 7.1), 1e-9);
  EXPECT_NEAR(way->bridged[0].bridge_m, std::hypot(2.6, 7.1), 1e-9);
  EXPECT_TRUE(way->bridged[0].open);
  EXPECT_NEAR(way->length_m, 4 + std::hypot(2.6, 7.1) + 2.7 + 5.6 + 1.4, 1e-9);
}

}  // namespace
}  // namespace belvedere::services
