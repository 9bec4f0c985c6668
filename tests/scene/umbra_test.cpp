// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/umbra.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "scene/sightline.h"

namespace belvedere::scene {
namespace {

Prism column(const std::vector<Vec3>& lower, double tall_m) {
  Prism prism;
  prism.sides = lower.size();
  for (std::size_t i = 0; i < lower.size(); ++i) {
    prism.corner[i] = lower[i];
    prism.corner[lower.size() + i] = lower[i] + Vec3{0, 0, tall_m};
  }
  return prism;
}

HiddenHeights hiddenBy(const Scene& scene, const Vec3& from, const Prism& prism) {
  Umbras umbras;
  addUmbra(scene, 0, from, umbras);
  if (umbras.all.empty()) return {{1, -1}, {1, -1}};
  return hiddenHeights(scene, umbras, umbras.all[0], from, prism);
}

// Closed form (similar triangles): from 3 m up, a box of 2 m between 2.0 and 2.2 m hides at 4 m what is below
// 3 - 4 / 2.2 m; of 3.9 to 4.1 m all below 3 - 4.1 / 2.2 and nothing above 3 - 3.9 / 2.2.
TEST(Umbra, EndsWhereSimilarTrianglesSay) {
  Scene scene;
  scene.sources.push_back({"box", 0, 0});
  addPrism(scene, {{2, -1}, {2.2, -1}, {2.2, 1}, {2, 1}}, {0, 0, 0, 0}, {2, 2, 2, 2}, 0);
  const HiddenHeights hidden = hiddenBy(
      scene, {0, 0, 3}, column({{3.9, -0.1, 0}, {4.1, -0.1, 0}, {4.1, 0.1, 0}, {3.9, 0.1, 0}}, 2.5));
  EXPECT_EQ(hidden.perhaps.low, 0);
  EXPECT_EQ(hidden.surely.low, 0);
  EXPECT_NEAR(hidden.perhaps.high, 3 - 3.9 / 2.2, 1e-9);
  EXPECT_NEAR(hidden.surely.high, 3 - 4.1 / 2.2, 1e-6);
  // Beside it, and before it.
  EXPECT_FALSE(hiddenBy(scene, {0, 0, 3}, column({{4, 3, 0}, {4.1, 3, 0}, {4, 3.1, 0}}, 2)).any());
  EXPECT_FALSE(hiddenBy(scene, {0, 0, 3}, column({{1.8, 0, 0}, {1.9, 0, 0}, {1.8, 0.1, 0}}, 2)).any());
  // From within the box, everything.
  EXPECT_TRUE(hiddenBy(scene, {2.1, 0, 1}, column({{-4, 3, 0}, {-4.1, 3, 0}, {-4, 3.1, 0}}, 2)).always(2));
}

// Property: beyond the heights that are perhaps hidden no point is, within those that are surely hidden every point
// is; and the two lie as near as the column is thin. Boxes, wedges and triangles, standing and hanging, on
// level and sloping floors.
TEST(Umbra, AgreesWithSightlines) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> unit(0, 1);
  int hidden_points = 0, open_points = 0, vague = 0, told = 0;
  for (int round = 0; round < 30000; ++round) {
    Scene scene;
    scene.sources.push_back({"body", 0, 0});
    const auto at = [&] { return Vec3{6 * unit(random) - 3, 6 * unit(random) - 3, 3 * unit(random)}; };
    if (round % 4 == 0) {
      addTriangle(scene, at(), at(), at(), 0);
    } else {
      const Vec3 c = at();
      const double turn = 2 * std::numbers::pi * unit(random), a = 0.05 + unit(random), b = 0.05 + unit(random);
      const Vec2 u = Vec2{std::cos(turn), std::sin(turn)} * a, v = Vec2{-std::sin(turn), std::cos(turn)} * b;
      const double tall = 0.1 + 2 * unit(random), wedge = round % 4 == 1 ? 0.5 * unit(random) * tall : 0;
      addPrism(scene, {c.xy() - u - v, c.xy() + u - v, c.xy() + u + v, c.xy() - u + v},
               std::vector<double>(4, c.z), {c.z + tall, c.z + tall - wedge, c.z + tall - wedge, c.z + tall}, 0);
    }
    Vec3 from = at();
    from.z += 1;
    // A lamp on the body's face now and then.
    if (round % 50 == 1) from = {from.x, from.y, scene.bodies[0].box.high.z};
    const Vec3 foot = at();
    const double size = std::pow(10, -3 + 3 * unit(random)), slope = round % 3 ? 0 : 0.3 * unit(random);
    const double tall_m = round % 7 == 0 ? 0 : 2 * unit(random);
    const double turn = 2 * std::numbers::pi * unit(random);
    const Vec2 u = Vec2{std::cos(turn), std::sin(turn)} * size,
               v = Vec2{-std::sin(turn), std::cos(turn)} * (size * unit(random));
    const auto corner = [&](Vec2 p) { return withZ(foot.xy() + p, foot.z + slope * p.x); };
    const Prism prism = column({corner(-u - v), corner(u - v), corner(u + v), corner(-u + v)}, tall_m);
    const HiddenHeights hidden = hiddenBy(scene, from, prism);
    for (int k = 0; k < 40; ++k) {
      const double s = k < 4 ? (k & 1 ? 1 : -1) : 2 * unit(random) - 1;
      const double t = k < 4 ? (k & 2 ? 1 : -1) : 2 * unit(random) - 1;
      const double height_m = k % 5 == 0 ? (k % 2 ? 0 : tall_m) : tall_m * unit(random);
      const Vec3 p = corner(u * s + v * t) + Vec3{0, 0, height_m};
      const bool hides_it = hides(scene, scene.bodies[0], from, p);
      if (hides_it) {
        ++hidden_points;
        const Interval& perhaps = hidden.perhaps;
        ASSERT_TRUE(perhaps.low - 1e-12 <= height_m && height_m <= perhaps.high + 1e-12) << round;
      } else {
        ++open_points;
        ASSERT_FALSE(hidden.surely.low < height_m && height_m < hidden.surely.high) << round;
      }
    }
    if (size < 0.01 && hidden.any() && tall_m > 0.5 && scene.bodies[0].plane_count > 0) {
      ++told;
      const double surely = std::max(0.0, hidden.surely.high - hidden.surely.low);
      if (hidden.perhaps.high - hidden.perhaps.low - surely > 0.2) ++vague;
    }
  }
  EXPECT_GT(hidden_points, 20000);
  EXPECT_GT(open_points, 100000);
  EXPECT_GT(told, 300);
  EXPECT_LT(vague, told / 5);
}

}  // namespace
}  // namespace belvedere::scene
