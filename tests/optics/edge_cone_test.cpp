// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/edge_cone.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace belvedere::optics {
namespace {

using Random = std::mt19937;
double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

struct Case {
  RadialLens lens;
  int axis = 0;
  double side = 1, edge_px = 0;
  EdgeCone cone;
};
Case randomCase(Random& random, int i) {
  const double ks[] = {0.5, 0, -0.5, -1, 0.999, between(random, -1, 1)};
  Case c;
  c.lens = {between(random, 300, 2500), ks[i % 6], {960 + between(random, -20, 20), 540}};
  c.axis = i % 2;
  c.side = i % 4 < 2 ? 1 : -1;
  const double centre = c.axis == 0 ? c.lens.centre_px.x : c.lens.centre_px.y;
  c.edge_px = centre + c.side * between(random, 5, 0.9 * c.lens.f_px);
  c.cone = edgeCone(c.lens, c.axis, c.side, c.edge_px).value();
  return c;
}
Vec3 before(Random& random) {
  const double theta = between(random, 0, 1.5), turn = between(random, 0, 7), d = between(random, 0.1, 30);
  return Vec3{std::sin(theta) * std::cos(turn), std::sin(theta) * std::sin(turn), std::cos(theta)} * d;
}

// Property: the sign of `inside` is that of the projection.
TEST(EdgeCone, TellsTheSideAsTheProjectionDoes) {
  Random random(31);
  int beyond = 0;
  for (int i = 0; i < 60'000; ++i) {
    const Case c = randomCase(random, i);
    const Vec3 p = before(random);
    const auto at = project(c.lens, p);
    ASSERT_TRUE(at.has_value());
    const double off = c.side * (c.edge_px - (c.axis == 0 ? at->x : at->y));
    if (std::fabs(off) < 1e-6) continue;
    EXPECT_EQ(off > 0, c.cone.inside(p) > 0) << i;
    beyond += off < 0 ? 1 : 0;
  }
  EXPECT_GT(beyond, 5000);
}

// Property: a touching plane, wherever it is taken, lies on the edge's outer side nowhere; taken at
// a place of the edge, it passes through it.
TEST(EdgeCone, ATouchingPlaneIsNeverPastTheEdge) {
  Random random(32);
  for (int i = 0; i < 6'000; ++i) {
    const Case c = randomCase(random, i);
    const Vec3 near = before(random);
    const Vec3 n = c.cone.touching(near);
    for (int j = 0; j < 40; ++j) {
      const Vec3 p = before(random);
      EXPECT_LE(dot(n, p), c.cone.inside(p) + 1e-9 * norm(p) * (norm(n) + c.lens.f_px)) << i;
    }
    // A direction on the edge, from the picture.
    const double along = between(random, -0.5, 0.5) * c.lens.f_px;
    const Vec2 px = c.axis == 0 ? Vec2{c.edge_px, c.lens.centre_px.y + along}
                                : Vec2{c.lens.centre_px.x + along, c.edge_px};
    const auto ray = unproject(c.lens, px);
    if (!ray || ray->z < 0.05) continue;
    EXPECT_NEAR(dot(c.cone.touching(*ray), *ray), 0, 1e-5 * c.lens.f_px) << i;
  }
}

// Property: a point between two beyond an edge lies beyond it.
TEST(EdgeCone, IsConvex) {
  Random random(33);
  int chords = 0;
  for (int i = 0; i < 60'000; ++i) {
    const Case c = randomCase(random, i);
    const Vec3 a = before(random), b = before(random);
    if (c.cone.inside(a) > 0 || c.cone.inside(b) > 0) continue;
    ++chords;
    const Vec3 p = a + (b - a) * between(random, 0, 1);
    EXPECT_LE(c.cone.inside(p), 1e-9 * c.lens.f_px * (norm(a) + norm(b))) << i;
  }
  EXPECT_GT(chords, 1000);
}

// Property: lenses and edges for which this does not hold get none.
TEST(EdgeCone, IsNotThereForOtherLensesAndEdges) {
  EXPECT_FALSE(edgeCone({1000, 1, {500, 500}}, 0, 1, 900).has_value());
  EXPECT_FALSE(edgeCone({1000, -1.2, {500, 500}}, 0, 1, 900).has_value());
  EXPECT_FALSE(edgeCone({1000, 0.5, {500, 500}}, 0, 1, 400).has_value());
  EXPECT_TRUE(edgeCone({1000, 0.5, {500, 500}}, 0, -1, 400).has_value());
}

}  // namespace
}  // namespace belvedere::optics
