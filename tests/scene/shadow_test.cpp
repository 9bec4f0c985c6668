// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/shadow.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "scene/sightline.h"

namespace belvedere::scene {
namespace {

Lies at(const Shadows& shadows, Vec2 p) {
  constexpr double kSmall = 1e-6;
  const std::array<Vec2, 3> ring{p + Vec2{-kSmall, -kSmall}, p + Vec2{kSmall, -kSmall},
                                 p + Vec2{0, kSmall}};
  Box2 box;
  for (const Vec2 c : ring) box.add(c);
  return shadows.all.empty() ? Lies::apart : liesOver(shadows, shadows.all[0], ring, box);
}

// Closed form (similar triangles): from 3 m, a box of 2 m between 2.0 and 2.2 m hides what is 1 m
// high up to 2.2 * (3 - 1) / (3 - 2) = 4.4 m, and what is 1 to 1.5 m high no farther; from 2.0 m on.
TEST(Shadow, EndsWhereSimilarTrianglesSay) {
  Scene scene;
  scene.sources.push_back({"box", 0, 0});
  addPrism(scene, {{2, -1}, {2.2, -1}, {2.2, 1}, {2, 1}}, {0, 0, 0, 0}, {2, 2, 2, 2}, 0);
  for (const double high : {1.0, 1.5}) {
    Shadows shadows;
    addShadow(scene, scene.bodies[0], {0, 0, 3}, 1, high, shadows);
    EXPECT_EQ(at(shadows, {1.9999, 0}), Lies::apart);
    EXPECT_EQ(at(shadows, {2.0001, 0}), Lies::covers);
    EXPECT_EQ(at(shadows, {4.3999, 0}), Lies::covers);
    EXPECT_EQ(at(shadows, {4.4001, 0}), Lies::apart);
  }
}

// Closed form: a wall as high as the lens hides all behind it; a lens within a body sees nothing.
TEST(Shadow, ReachesToInfinityBehindAWall) {
  Scene scene;
  scene.sources.push_back({"wall", 0, 0});
  addPrism(scene, {{2, -1}, {2.2, -1}, {2.2, 1}, {2, 1}}, {0, 0, 0, 0}, {4, 4, 4, 4}, 0);
  Shadows behind, within;
  addShadow(scene, scene.bodies[0], {0, 0, 3}, 1, 1.5, behind);
  EXPECT_EQ(at(behind, {5000, 2499}), Lies::covers);
  EXPECT_EQ(at(behind, {5000, 2501}), Lies::apart);
  EXPECT_EQ(at(behind, {-1, 0}), Lies::apart);
  addShadow(scene, scene.bodies[0], {2.1, 0, 3}, 1, 1.5, within);
  EXPECT_EQ(at(within, {-50, 3}), Lies::covers);
  EXPECT_EQ(at(within, {5, 3}), Lies::covers);
}

// Property: apart, no height of the band is hidden by the body; covered (and 5 cm within, for the
// heights are sampled), some height is. Boxes, wedges and triangles, standing and hanging, over and
// under the lens.
TEST(Shadow, AgreesWithSightlines) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> unit(0, 1);
  int covered = 0, apart = 0, across = 0;
  for (int i = 0; i < 4000; ++i) {
    Scene scene;
    scene.sources.push_back({"body", 0, 0});
    const Vec2 centre{6 * unit(random) - 3, 6 * unit(random) - 3};
    if (i % 4 == 3) {
      const auto corner = [&] {
        return withZ(centre + Vec2{2 * unit(random), 2 * unit(random)}, 4 * unit(random));
      };
      const Vec3 a = corner(), b = corner(), c = corner();
      addTriangle(scene, a, b, c, 0);
    } else {
      const double turn = 2 * std::numbers::pi * unit(random);
      const Vec2 u = Vec2{std::cos(turn), std::sin(turn)} * (0.05 + unit(random));
      const Vec2 v = Vec2{-std::sin(turn), std::cos(turn)} * (0.05 + unit(random));
      const double z = i % 3 ? 0 : 2 * unit(random), tall = 0.2 + 3 * unit(random);
      const double lean = i % 4 == 2 ? 0.5 * tall * unit(random) : 0;
      addPrism(scene, {centre - u - v, centre + u - v, centre + u + v, centre - u + v}, {z, z, z, z},
               {z + tall, z + tall, z + tall - lean, z + tall - lean}, 0);
    }
    const double low = 0.2 + 1.5 * unit(random), high = low + (i % 5 ? 0.5 * unit(random) : 0);
    const Vec3 lens{0, 0, high + 0.3 + 2 * unit(random)};
    Shadows shadows;
    addShadow(scene, scene.bodies[0], lens, low, high, shadows);
    for (int j = 0; j < 40; ++j) {
      const Vec2 p{16 * unit(random) - 8, 16 * unit(random) - 8};
      bool hidden = false;
      for (int h = 0; h <= 100 && !hidden; ++h)
        hidden = hides(scene, scene.bodies[0], lens, withZ(p, low + (high - low) * h / 100));
      const Lies lies = at(shadows, p);
      if (lies == Lies::apart) {
        ++apart;
        ASSERT_FALSE(hidden) << i;
      } else if (lies == Lies::covers) {
        ++covered;
        double depth = 1e300;
        const Shadow& shadow = shadows.all[0];
        for (std::uint32_t s = 0; s < shadow.side_count; ++s) {
          const ShadowSide& side = shadows.sides[shadow.first_side + s];
          depth = std::min(depth, side.offset - dot(side.normal, p));
        }
        if (depth > 0.05) { ASSERT_TRUE(hidden) << i; }
      } else {
        ++across;
      }
    }
  }
  EXPECT_GT(covered, 5000);
  EXPECT_GT(apart, 50000);
  EXPECT_LT(across, 10);  // within a micrometre of an outline, by chance
}

}  // namespace
}  // namespace belvedere::scene
