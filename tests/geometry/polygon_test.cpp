// SPDX-License-Identifier: GPL-3.0-or-later
#include "geometry/polygon.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace belvedere {
namespace {

const Ring kSquare{{0, 0}, {4, 0}, {4, 4}, {0, 4}};
const Ring kEl{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {0, 3}};

// Closed form: area of an L of 4 x 1 and 1 x 2, either way round, and far from the origin.
TEST(SignedArea, IsPositiveAnticlockwise) {
  EXPECT_DOUBLE_EQ(signedArea(kEl), 6);
  EXPECT_DOUBLE_EQ(signedArea(reversed(kEl)), -6);
  EXPECT_DOUBLE_EQ(signedArea(anticlockwise(reversed(kEl))), 6);
  Ring far = kEl;
  for (Vec2& p : far) p = p + Vec2{500000, 5000000};
  EXPECT_NEAR(signedArea(far), 6, 1e-8);
}

TEST(Area, LeavesHolesOut) {  // Closed form
  EXPECT_DOUBLE_EQ(area(Polygon{kSquare, {{{1, 1}, {1, 2}, {2, 2}, {2, 1}}}}), 15);
}

// Closed form: points of an L, its edges and corners inside.
TEST(Contains, TakesTheEdgeAsInside) {
  EXPECT_TRUE(contains(kEl, {0.5, 2}));
  EXPECT_FALSE(contains(kEl, {2, 2}));
  EXPECT_TRUE(contains(kEl, {1, 2}));
  EXPECT_TRUE(contains(kEl, {1, 1}));
  EXPECT_TRUE(contains(kEl, {4, 0}));
  EXPECT_FALSE(contains(kEl, {4.000001, 0}));
  EXPECT_FALSE(contains(kEl, {-1, 1}));  // a ray from here runs along an edge
  EXPECT_FALSE(contains(kEl, {-1, 3}));
}

// Closed form: the edge of a hole belongs to the polygon, its inside does not.
TEST(Contains, LeavesHolesOutButKeepsTheirEdges) {
  const Polygon polygon{kSquare, {{{1, 1}, {1, 2}, {2, 2}, {2, 1}}}};
  EXPECT_FALSE(contains(polygon, {1.5, 1.5}));
  EXPECT_TRUE(contains(polygon, {1, 1.5}));
  EXPECT_TRUE(contains(polygon, {3, 3}));
}

TEST(DistanceToOutline, IsToTheNearestEdgeOrCorner) {  // Closed form
  EXPECT_DOUBLE_EQ(distanceToOutline(kSquare, {2, 1}), 1);
  EXPECT_DOUBLE_EQ(distanceToOutline(kSquare, {7, 8}), 5);
}

// Closed form: a bow tie crosses in its middle; a ring that touches itself at a corner, or folds
// back, is not simple either; a repeated point does no harm.
TEST(SelfCrossing, FindsCrossingsTouchesAndFolds) {
  EXPECT_FALSE(selfCrossing(kEl));
  EXPECT_FALSE(selfCrossing({{0, 0}, {4, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}}));
  const auto tie = selfCrossing({{0, 0}, {2, 2}, {2, 0}, {0, 2}});
  ASSERT_TRUE(tie);
  EXPECT_EQ(tie->edge_a, 0u);
  EXPECT_EQ(tie->edge_b, 2u);
  EXPECT_NEAR(tie->at.x, 1, 1e-12);
  EXPECT_NEAR(tie->at.y, 1, 1e-12);
  EXPECT_TRUE(selfCrossing({{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}));
  EXPECT_TRUE(selfCrossing({{0, 0}, {4, 0}, {2, 0}, {2, 3}}));
  EXPECT_TRUE(selfCrossing({{0, 0}, {4, 0}, {4, 4}, {4, -1}}));
}

TEST(ClipHalfPlane, CutsASquareInTwo) {  // Closed form
  EXPECT_DOUBLE_EQ(signedArea(clipHalfPlane(kSquare, {1, 0}, 1)), 4);
  EXPECT_DOUBLE_EQ(signedArea(clipHalfPlane(kSquare, {1, 0}, 5)), 16);
  EXPECT_TRUE(clipHalfPlane(kSquare, {1, 0}, -1).empty());
  EXPECT_DOUBLE_EQ(signedArea(clipHalfPlane(kEl, {0, 1}, 2)), 5);
}

TEST(ConvexHull, DropsInnerAndStraightPoints) {  // Closed form
  const Ring hull = convexHull({{0, 0}, {2, 0}, {4, 0}, {4, 4}, {0, 4}, {1, 1}, {4, 2}, {0, 0}});
  EXPECT_EQ(hull, kSquare);
}

// Closed form: two squares of side 4, shifted by (2, 2).
TEST(Booleans, OfTwoSquares) {
  const Region a{{kSquare, {}}}, b{{{{2, 2}, {6, 2}, {6, 6}, {2, 6}}, {}}};
  EXPECT_DOUBLE_EQ(area(unionOf(a, b)), 28);
  EXPECT_DOUBLE_EQ(area(intersectionOf(a, b)), 4);
  EXPECT_DOUBLE_EQ(area(differenceOf(a, b)), 12);
  EXPECT_DOUBLE_EQ(area(unionOf({a[0].outer, b[0].outer, kSquare})), 28);
  EXPECT_TRUE(intersectionOf(a, Region{{{{9, 9}, {10, 9}, {10, 10}}, {}}}).empty());
  EXPECT_TRUE(unionOf(std::vector<Ring>{}).empty());
}

// Closed form: a hole comes out clockwise, the outer ring anticlockwise.
TEST(Booleans, TurnHolesClockwise) {
  const Region hole{{{{1, 1}, {2, 1}, {2, 2}, {1, 2}}, {}}};
  const Region cut = differenceOf({{reversed(kSquare), {}}}, hole);
  ASSERT_EQ(cut.size(), 1u);
  ASSERT_EQ(cut[0].holes.size(), 1u);
  EXPECT_DOUBLE_EQ(signedArea(cut[0].outer), 16);
  EXPECT_DOUBLE_EQ(signedArea(cut[0].holes[0]), -1);
}

// Closed form: a bow tie is two triangles of area 1; squares that only touch share no area.
TEST(Booleans, MendWhatIsInvalid) {
  EXPECT_DOUBLE_EQ(area(unionOf({{{0, 0}, {2, 2}, {2, 0}, {0, 2}}})), 2);
  const Region touching{{{{4, 0}, {8, 0}, {8, 4}, {4, 4}}, {}}};
  EXPECT_TRUE(intersectionOf({{kSquare, {}}}, touching).empty());
  EXPECT_TRUE(unionOf({{{0, 0}, {1, 1}}, {{0, 0}, {1, 1}, {2, 2}}}).empty());
}

// Closed form: a polygon whose outline has one more point, on an edge but for rounding, less the
// polygon itself leaves nothing.
TEST(Booleans, TakeOutlinesThatNearlyCoincideAsOne) {
  const Ring all{{0, 0}, {0.0991595712, -0.9434403}, {0.411242245, -1.26567349}, {0.6, 0}};
  Ring part = all;
  part.insert(part.begin() + 1, all[0] + (all[1] - all[0]) * 0.5 + Vec2{1e-17, 1e-17});
  EXPECT_LT(area(differenceOf({{part, {}}}, {{all, {}}})), 1e-8);
}

// Property: at points of a floor with posts in it, some of them in a row that touches, and shapes
// laid over it, each operation holds what its definition says; and the areas add up.
TEST(Booleans, AgreeWithTheirDefinitionAtPoints) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> place(-1, 11), size(0.05, 0.6), large(0.5, 5);
  const auto block = [&](double least, double most) {
    const double x = place(random), y = place(random), turn = place(random);
    const double u = least + most * size(random), v = least + most * size(random);
    const Vec2 a{u * std::cos(turn), u * std::sin(turn)}, b{-v * std::sin(turn), v * std::cos(turn)};
    return Ring{{x, y}, {x + a.x, y + a.y}, {x + a.x + b.x, y + a.y + b.y}, {x + b.x, y + b.y}};
  };
  for (int round = 0; round < 15; ++round) {
    std::vector<Ring> posts;
    for (int i = 0; i < 40; ++i) posts.push_back(block(0.02, 1));
    for (int i = 0; i < 5; ++i) posts.push_back({{i + 3.0, 3}, {i + 4.0, 3}, {i + 4.0, 3.5}, {i + 3.0, 3.5}});
    const Region floor{{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {}}}, standing = unionOf(posts);
    const Region free = differenceOf(floor, standing);
    std::vector<Ring> shapes;
    for (int i = 0; i < 4; ++i) shapes.push_back(block(large(random), 1));
    const Region over = unionOf(shapes);
    const Region left = differenceOf(free, over), covered = intersectionOf(free, over);
    EXPECT_NEAR(area(left) + area(covered), area(free), 1e-6) << round;
    const auto onEdge = [&](Vec2 p) {
      for (const std::vector<Ring>* rings : {&posts, &shapes})
        for (const Ring& ring : *rings)
          if (distanceToOutline(ring, p) < 1e-6) return true;
      return false;
    };
    const auto inAny = [](const std::vector<Ring>& rings, Vec2 p) {
      return std::any_of(rings.begin(), rings.end(), [&](const Ring& r) { return contains(r, p); });
    };
    for (int i = 0; i < 300; ++i) {
      const Vec2 p{place(random), place(random)};
      if (onEdge(p) || distanceToOutline(floor.front().outer, p) < 1e-6) continue;
      const bool is_free = contains(floor, p) && !inAny(posts, p);
      EXPECT_EQ(contains(standing, p), inAny(posts, p));
      EXPECT_EQ(contains(free, p), is_free);
      EXPECT_EQ(contains(left, p), is_free && !inAny(shapes, p));
      EXPECT_EQ(contains(covered, p), is_free && inAny(shapes, p));
    }
  }
}

// Regression: an outline whose last point lies on its first lost that corner.
TEST(Booleans, MergeOutlinesWithPointsTwice) {
  const Ring twice{{0, 0}, {0, 0}, {2, 0}, {4, 0}, {4, 4}, {4, 4}, {0, 4}, {0, 1e-17}};
  EXPECT_NEAR(area(unionOf(std::vector<Ring>{twice})), 16, 1e-9);
  EXPECT_NEAR(area(differenceOf({{{{-1, -1}, {5, -1}, {5, 5}, {-1, 5}}, {}}}, {{twice, {}}})), 20, 1e-9);
}

// Closed form: of copies one is left, and what lies within another adds nothing.
TEST(Booleans, MergeCopiesAndWhatLiesWithin) {
  const Ring inner{{1, 1}, {2, 1}, {2, 2}};
  EXPECT_EQ(unionOf(std::vector<Ring>{kSquare, inner, kSquare, kSquare}), (Region{{kSquare, {}}}));
}

TEST(Grown, HasMitredCorners) {  // Closed form
  EXPECT_NEAR(area(grown({{kSquare, {}}}, 1)), 36, 1e-9);
  EXPECT_NEAR(area(grown({{kSquare, {}}}, -1)), 4, 1e-9);
  EXPECT_TRUE(grown({{kSquare, {}}}, -3).empty());
}

TEST(Covers, AllowsEdgesAndTheTolerance) {  // Closed form
  const Region all{{kSquare, {}}};
  EXPECT_TRUE(covers(all, all, 0));
  EXPECT_TRUE(covers(all, {{{{0, 0}, {4, 0}, {4, 1}}, {}}}, 0));
  EXPECT_FALSE(covers(all, {{{{0, 0}, {4.001, 0}, {4, 1}}, {}}}, 0));
  EXPECT_TRUE(covers(all, {{{{0, 0}, {4.001, 0}, {4, 1}}, {}}}, 0.01));
}

TEST(GrownConvex, MovesEveryEdgeOut) {  // Closed form
  EXPECT_NEAR(signedArea(grownConvex(kSquare, 0.5)), 25, 1e-12);
  // A needle's tip is cut off: it reaches no farther than four times the distance.
  const Ring needle = grownConvex({{0, 0}, {10, -0.01}, {10, 0.01}}, 0.1);
  EXPECT_GT(bounds(needle).low.x, -0.4 - 1e-9);
  EXPECT_LT(bounds(needle).low.x, -0.1);
}

// Property: booleans of random star polygons: |a| + |b| = |a or b| + |a and b|, and
// |a less b| = |a| - |a and b|.
TEST(Booleans, CountAreaOnce) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> radius(0.5, 3), place(-2, 2);
  for (int round = 0; round < 200; ++round) {
    const auto star = [&](int n) {
      const Vec2 c{place(random), place(random)};
      Ring ring;
      for (int i = 0; i < n; ++i) {
        const double a = 2 * std::numbers::pi * i / n, r = radius(random);
        ring.push_back(c + Vec2{r * std::cos(a), r * std::sin(a)});
      }
      return Region{{ring, {}}};
    };
    const Region a = star(11), b = star(17);
    const double both = area(intersectionOf(a, b));
    constexpr double kOutlinesM = 200;  // of the two stars together, at most
    EXPECT_NEAR(area(a) + area(b), area(unionOf(a, b)) + both, kOutlinesM * kBooleanGridM);
    EXPECT_NEAR(area(differenceOf(a, b)), area(a) - both, kOutlinesM * kBooleanGridM);
  }
}

}  // namespace
}  // namespace belvedere
