// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "scene/ray_caster.h"
#include "scene/sightline.h"

namespace belvedere::scene {
namespace {

constexpr double kWithinM = 1e-3;

Scene boxes(std::mt19937& random, int count, double spread_m) {
  std::uniform_real_distribution<double> any(0, 1);
  Scene scene;
  scene.sources.push_back({"opaque", 0, 0});
  scene.sources.push_back({"glass", 1, 0});
  for (int i = 0; i < count; ++i) {
    const Vec2 at{spread_m * any(random), spread_m * any(random)};
    const double turn = 6.28 * any(random), size = 0.2 + 2 * any(random);
    Ring ring;
    for (int c = 0; c < 4; ++c)
      ring.push_back(at + Vec2{std::cos(turn + 1.5708 * c), std::sin(turn + 1.5708 * c)} * size);
    const double low = 3 * any(random), high = low + 0.1 + 2 * any(random);
    addPrism(scene, ring, {low, low, low, low}, {high, high, high, high}, i % 5 == 0 ? 1 : 0);
  }
  return scene;
}

// Property: just before what a ray hits first, the sightline in doubles is free, and just behind it
// is not. Rays that graze are left out: a millimetre along them is less than a rounding across.
TEST(Nearest, DistancesAreThoseOfSightlines) {
  std::mt19937 random(11);
  const Scene scene = boxes(random, 300, 60);
  const BodyTree tree = buildTree(scene);
  const RayCaster caster(scene);
  std::uniform_real_distribution<double> any(0, 1);
  std::normal_distribution<double> bell;
  int hits = 0, misses = 0;
  for (int packet = 0; packet < 2000; ++packet) {
    const Vec3 eye{60 * any(random), 60 * any(random), 5.5 + any(random)};  // over all of them
    RayPacket rays;
    HitPacket hit;
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const Vec3 d = normalized(Vec3{bell(random), bell(random), 0.3 * bell(random)});
      rays.x[k] = static_cast<float>(d.x);
      rays.y[k] = static_cast<float>(d.y);
      rays.z[k] = static_cast<float>(d.z);
      rays.far_m[k] = 200;
      rays.traced[k] = -1;
    }
    caster.nearest(eye, rays, StopsAt::opaque, hit);
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const Vec3 d{static_cast<double>(rays.x[k]), static_cast<double>(rays.y[k]),
                   static_cast<double>(rays.z[k])};
      const auto t = static_cast<double>(hit.distance_m[k]);
      const auto blocked = [&](double far) {
        return blockerOf(scene, tree, eye, eye + d * far, Blocking::withhold);
      };
      if (hit.triangle[k] == kNoTriangle) {
        ++misses;
        EXPECT_EQ(t, 200);
        EXPECT_FALSE(blocked(200));
        continue;
      }
      ++hits;
      const TriangleOrigin origin = caster.triangle(hit.triangle[k]);
      if (std::abs(dot(scene.planes[origin.plane].normal, d)) < 0.02) continue;
      EXPECT_FALSE(blocked(t - kWithinM));
      const auto body = blocked(t + kWithinM);
      // A corner thinner than a millimetre along the ray ends before.
      EXPECT_TRUE(body || blocked(200)) << t;
      if (body) {
        EXPECT_EQ(*body, origin.body);
      }
      EXPECT_EQ(hit.leaves[k], 0);
    }
  }
  EXPECT_GT(hits, 4000);
  EXPECT_GT(misses, 5000);
}

// Closed form: a pane at 2 m before a wall at 3 m; from inside the wall, one leaves it.
TEST(Nearest, StopsAtWhatIsAsked) {
  Scene scene;
  scene.sources.push_back({"wall", 0, 0});
  scene.sources.push_back({"pane", 1, 0});
  addPrism(scene, {{-5, 3}, {5, 3}, {5, 4}, {-5, 4}}, {0, 0, 0, 0}, {3, 3, 3, 3}, 0);
  addPrism(scene, {{-5, 2}, {5, 2}, {5, 2.01}, {-5, 2.01}}, {0, 0, 0, 0}, {3, 3, 3, 3}, 1);
  const RayCaster caster(scene);
  RayPacket rays;
  HitPacket hit;
  rays.y[0] = 1;
  rays.far_m[0] = 100;
  rays.traced[0] = -1;
  caster.nearest({0, 0, 1}, rays, StopsAt::all, hit);
  EXPECT_NEAR(hit.distance_m[0], 2.0f, 1e-5f);
  EXPECT_EQ(caster.triangle(hit.triangle[0]).body, 1u);
  EXPECT_EQ(hit.triangle[1], kNoTriangle);
  caster.nearest({0, 0, 1}, rays, StopsAt::opaque, hit);
  EXPECT_NEAR(hit.distance_m[0], 3.0f, 1e-5f);
  EXPECT_EQ(hit.leaves[0], 0);
  caster.nearest({0, 3.5, 1}, rays, StopsAt::opaque, hit);
  EXPECT_NEAR(hit.distance_m[0], 0.5f, 1e-5f);
  EXPECT_EQ(hit.leaves[0], 1);
}

}  // namespace
}  // namespace belvedere::scene
