// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <random>

#include "geometry/polygon.h"

namespace belvedere {
namespace {

bool convex(const Ring& ring) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()], c = ring[(i + 2) % ring.size()];
    if (cross(b - a, c - b) < -1e-9 * norm(c - a)) return false;
  }
  return ring.size() >= 3;
}

// How deep p lies inside a convex anticlockwise ring; negative outside.
double depth(const Ring& ring, Vec2 p) {
  double least = 1e300;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 d = ring[(i + 1) % ring.size()] - ring[i];
    least = std::min(least, cross(d, p - ring[i]) / norm(d));
  }
  return least;
}

Ring star(std::mt19937& random, int n, double least, double most) {
  std::uniform_real_distribution<double> radius(least, most);
  Ring ring;
  for (int i = 0; i < n; ++i) {
    const double a = 2 * std::numbers::pi * i / n, r = radius(random);
    ring.push_back({r * std::cos(a), r * std::sin(a)});
  }
  return ring;
}

// A staircase plan: the outline of columns of whole-number heights above and below a base line,
// so that many corners lie in a line and many seams run on as outline.
Ring staircase(std::mt19937& random, int columns) {
  std::uniform_int_distribution<int> height(1, 3);
  Ring ring;
  for (int i = 0; i < columns; ++i) {
    const double y = -height(random);
    ring.push_back({double(i), y});
    ring.push_back({double(i + 1), y});
  }
  for (int i = columns; i > 0; --i) {
    const double y = height(random);
    ring.push_back({double(i), y});
    ring.push_back({double(i - 1), y});
  }
  return ring;
}

std::vector<Polygon> randomPolygons() {
  std::mt19937 random(3);
  std::vector<Polygon> polygons;
  for (int i = 0; i < 150; ++i) polygons.push_back({star(random, 3 + i % 40, 0.2, 3), {}});
  for (int i = 0; i < 150; ++i) polygons.push_back({staircase(random, 1 + i % 12), {}});
  for (int i = 0; i < 100; ++i) {
    Polygon polygon{star(random, 24, 6, 9), {}};
    for (int h = 0; h < 4; ++h) {
      Ring hole = star(random, 5 + i % 7, 0.3, 1.4);
      for (Vec2& p : hole) p = p + Vec2{h % 2 ? 2.0 : -2.0, h < 2 ? 2.0 : -2.0};
      polygon.holes.push_back(reversed(hole));
    }
    polygons.push_back(polygon);
  }
  // Turned plans: rounding bends what was straight.
  const std::size_t n = polygons.size();
  for (std::size_t i = 150; i < n; ++i) {
    const double a = 0.1 + 0.37 * double(i);
    const auto turned = [&](Ring ring) {
      for (Vec2& p : ring)
        p = Vec2{100, -70} + Vec2{std::cos(a), std::sin(a)} * p.x +
            Vec2{-std::sin(a), std::cos(a)} * p.y;
      return ring;
    };
    Polygon polygon{turned(polygons[i].outer), {}};
    for (const Ring& hole : polygons[i].holes) polygon.holes.push_back(turned(hole));
    polygons.push_back(polygon);
  }
  return polygons;
}

// Property: pieces are convex, anticlockwise, cover the polygon's area and nothing else.
TEST(ConvexPieces, CoverTheAreaOnce) {
  for (const Polygon& polygon : randomPolygons()) {
    const auto pieces = convexPieces(polygon);
    double sum = 0;
    Region parts;
    for (const Ring& piece : pieces) {
      EXPECT_TRUE(convex(piece));
      sum += signedArea(piece);
      parts.push_back({piece, {}});
    }
    EXPECT_NEAR(sum, area(polygon), 1e-9);
    EXPECT_NEAR(area(differenceOf({polygon}, parts)), 0, 200 * kBooleanGridM);
    EXPECT_LE(pieces.size(), triangles(polygon).size());
  }
}

// Property: triangles sum to the area, and there are n - 2 of a simple polygon of n corners.
TEST(Triangles, SumToTheArea) {
  std::mt19937 random(4);
  for (int n = 3; n < 60; ++n) {
    const Ring ring = star(random, n, 0.5, 2);
    const auto found = triangles({ring, {}});
    EXPECT_EQ(found.size(), static_cast<std::size_t>(n - 2));
    double sum = 0;
    for (const auto& [a, b, c] : found) sum += 0.5 * cross(b - a, c - a);
    EXPECT_NEAR(sum, signedArea(ring), 1e-10);
  }
}

// Closed form: what is convex stays in one piece, a repeated or straight point notwithstanding; an
// L falls in two; a square with a square hole in at most six (Hertel and Mehlhorn: at most four
// times the fewest, which is four).
TEST(ConvexPieces, AreFew) {
  EXPECT_EQ(convexPieces({{{0, 0}, {2, 0}, {2, 0}, {4, 0}, {4, 4}, {0, 4}}, {}}).size(), 1u);
  EXPECT_EQ(convexPieces({{{0, 0}, {4, 0}, {4, 1}, {1, 1}, {1, 3}, {0, 3}}, {}}).size(), 2u);
  const Ring hole{{1, 1}, {1, 2}, {2, 2}, {2, 1}};
  EXPECT_LE(convexPieces({{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, {hole}}).size(), 6u);
}

TEST(ConvexPieces, AreNoneOfNothing) {
  EXPECT_TRUE(convexPieces({}).empty());
  EXPECT_TRUE(convexPieces({{{0, 0}, {1, 1}, {2, 2}}, {}}).empty());
}

// Property: of a ring that crosses itself anything may come back, but it comes back.
TEST(ConvexPieces, EndOnHostileRings) {
  std::mt19937 random(5);
  std::uniform_int_distribution<int> place(0, 6);
  for (int round = 0; round < 500; ++round) {
    Ring ring;
    for (int i = 0; i < 3 + round % 30; ++i)
      ring.push_back({double(place(random)), double(place(random))});
    convexPieces({ring, {{{2, 2}, {2, 3}, {3, 3}}, {{2, 2}, {3, 3}, {4, 2}}}});
    overlappingPieces({ring, {}}, 1e-6);
  }
}

// Property: overlapping pieces are convex and stay within the polygon.
TEST(OverlappingPieces, StayWithinTheOutline) {
  for (const double overlap_m : {1e-6, 1e-3}) {
    for (const Polygon& polygon : randomPolygons()) {
      for (const Ring& piece : overlappingPieces(polygon, overlap_m)) {
        EXPECT_TRUE(convex(piece));
        EXPECT_LE(area(differenceOf({{piece, {}}}, {polygon})), 100 * kBooleanGridM);
      }
    }
  }
}

// Property: along every seam, but for its very ends, the polygon's points lie deep inside some
// piece: no line along or across a seam finds a gap.
TEST(OverlappingPieces, LeaveNoSeamOpen) {
  constexpr double kOverlapM = 1e-6;
  std::mt19937 random(6);
  std::uniform_real_distribution<double> along(0, 1);
  for (const Polygon& polygon : randomPolygons()) {
    const auto pieces = overlappingPieces(polygon, kOverlapM);
    double sum = 0;
    for (const auto& piece : pieces) sum += signedArea(piece);
    EXPECT_GE(sum, area(polygon) - 1e-9);
    for (const Ring& piece : convexPieces(polygon)) {
      for (std::size_t i = 0; i < piece.size(); ++i) {
        const Vec2 a = piece[i], b = piece[(i + 1) % piece.size()];
        for (int k = 0; k < 5; ++k) {
          const Vec2 p = a + (b - a) * along(random);
          double to_outline = distanceToOutline(polygon.outer, p);
          for (const Ring& hole : polygon.holes)
            to_outline = std::min(to_outline, distanceToOutline(hole, p));
          if (to_outline < 1e-4) continue;
          double deepest = -1;
          for (const Ring& other : pieces) deepest = std::max(deepest, depth(other, p));
          EXPECT_GE(deepest, 1e-3 * kOverlapM) << p.x << " " << p.y;
        }
      }
    }
  }
}

}  // namespace
}  // namespace belvedere
