// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/light_bounds.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "base/units.h"
#include "light/lit.h"
#include "made_up.h"

namespace belvedere::light {
namespace {

struct Random {
  std::mt19937 engine;
  double operator()(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine);
  }
  Vec3 direction() {
    for (;;)
      if (const Vec3 v{(*this)(-1, 1), (*this)(-1, 1), (*this)(-1, 1)}; norm(v) > 0.1)
        return normalized(v);
  }
};

// A turned, perhaps sheared slab around a place.
scene::Prism prismAt(Random& random, Vec3 at, double size) {
  scene::Prism prism;
  prism.sides = 4;
  const double turn = random(0, kPi), a = size * random(0.1, 1), b = size * random(0.1, 1);
  const Vec2 u = Vec2{std::cos(turn), std::sin(turn)} * a, v = Vec2{-std::sin(turn), std::cos(turn)} * b;
  const Vec2 corner[4] = {-u - v, u - v, u + v, v - u};
  const double rise = random(-0.2, 0.2), height = random(0, size);
  for (std::size_t i = 0; i < 4; ++i) {
    const double z = at.z + rise * corner[i].x;
    prism.corner[i] = withZ(at.xy() + corner[i], z);
    prism.corner[4 + i] = withZ(at.xy() + corner[i], z + height);
  }
  return prism;
}

// A point of the hull: corners, then convex combinations.
Vec3 pointIn(Random& random, const scene::Prism& prism, int i) {
  const auto corners = prism.corners();
  if (i < static_cast<int>(corners.size())) return corners[static_cast<std::size_t>(i)];
  double sum = 0;
  Vec3 p;
  for (const Vec3& c : corners) {
    const double w = std::pow(random(0, 1), 3);
    sum += w;
    p = p + c * w;
  }
  return p / sum;
}

Photometry uneven(Random& random) {
  Photometry p;
  for (int c = 0; c <= 360; c += 30) p.across_deg.push_back(c);
  for (int g = 0; g <= 120; g += 10) p.along_deg.push_back(g);
  for (std::size_t i = 0; i < p.across_deg.size() * p.along_deg.size(); ++i)
    p.candela.push_back(random(0, 1000));
  for (std::size_t j = 0; j < p.along_deg.size(); ++j)
    p.candela[(p.across_deg.size() - 1) * p.along_deg.size() + j] = p.candela[j];
  return p;
}

void expectHolds(const Interval& bound, double found) {
  EXPECT_LE(bound.low, found + 1e-9 * std::fabs(found));
  EXPECT_GE(bound.high, found - 1e-9 * std::fabs(found));
}

// Bound: every point of a box has a share within shareOver; the bounds close on it as it shrinks.
TEST(ShareOver, HoldsEveryPointOfTheBox) {
  Random random{std::mt19937(3)};
  for (int round = 0; round < 3000; ++round) {
    const Lamp one = lamp({0, 0, 3}, random.direction(), random(5, 60), random(5, 340));
    const Vec3 at{random(-10, 10), random(-10, 10), random(-1, 4)};
    const double size = std::pow(10, random(-4, 1));
    const scene::Prism prism = prismAt(random, at, size);
    const Interval bound = shareOver(one, prism.corners());
    for (int i = 0; i < 16; ++i) expectHolds(bound, shareFrom(one, pointIn(random, prism, i)));
    if (size < 1e-3 && norm(at - one.at_m) > 1 && bound.high > 1e-6 && one.half_beam_rad > 0.3) {
      EXPECT_LT(bound.high / bound.low, 1 + 200 * size) << size;
    }
  }
}

TEST(IlluminanceOver, HoldsEveryPointOfTheBox) {
  Random random{std::mt19937(4)};
  for (int round = 0; round < 3000; ++round) {
    const Luminaire one = luminaire(uneven(random), {0, 0, 5}, random(0, 360), random(-90, 90));
    const Vec3 at{random(-10, 10), random(-10, 10), random(-1, 4)};
    const Vec3 lens{random(-10, 10), random(-10, 10), 4};
    const double size = std::pow(10, random(-4, 1));
    const scene::Prism prism = prismAt(random, at, size);
    const Interval level = illuminanceOver(one, prism.corners(), {});
    const Interval upright = illuminanceOver(one, prism.corners(), normalsInPlan(lens, prism.corners()));
    const Interval square = illuminanceOver(one, prism.corners(), normalsToward(lens, prism.corners()));
    for (int i = 0; i < 16; ++i) {
      const Vec3 p = pointIn(random, prism, i);
      expectHolds(level, illuminanceFrom(one, p, kUp));
      expectHolds(upright, illuminanceFrom(one, p, facingInPlan(p, lens)));
      expectHolds(square, illuminanceFrom(one, p, normalized(lens - p)));
    }
    // On its axis this table jumps: there the bound stays wide.
    const Vec3 axis = one.luminaire_from_site.row[2], ray = normalized(at - one.at_m);
    if (size < 1e-3 && norm(cross(axis, ray)) > 0.1) {
      EXPECT_LT(level.high - level.low, 5000 * size);
    }
  }
}

// A yard with a wall, a pane and foliage; luminaires, lamps of both kinds.
struct Yard {
  MadeUpSolids made;
  SituationLight light;
  std::vector<Lamp> lamps;
  ImagerLight imager;
};
Yard yard(Random& random) {
  scene::Scene scene;
  addBox(scene, {2, -4, 0}, {2.2, 4, 2});
  addBox(scene, {-4, 1, 0}, {4, 1.1, 3}, 1, 0.3);
  addBox(scene, {-3, -3, 0}, {-2, -2, 4}, 0.4, 0.6);
  for (int i = 0; i < 6; ++i) {
    const Vec3 low{random(-6, 6), random(-6, 6), 0};
    addBox(scene, low, low + Vec3{random(0.1, 1), random(0.1, 1), random(0.5, 3)});
  }
  Yard y{madeUp(std::move(scene)), {}, {}, {}};
  y.light.stated = true;
  y.light.ambient_lux = 0.2;
  y.light.luminaires = {luminaire(uneven(random), {-5, 0, 4}), luminaire(uneven(random), {5, 5, 5}, 40, 60)};
  y.lamps = {lamp({0, -6, 3}, {0, 1, -0.2}, 8, 70), lamp({6, 0, 3}, {-1, 0, -0.2}, 10, 90),
             lamp({0, 6, 3}, {0, -1, -0.3}, 6, 60, 555)};
  y.imager.lens_m = {0, -6, 3};
  y.imager.mode = Mode::mono;
  y.imager.needed = neededLight(design::LeastLight{random(0.5, 20), 1.6, 0.04, {}, {}}, {});
  y.imager.burns = {true, true, true};
  return y;
}

// Bound: litAt at points of a prism lies within litBounds, and litOver agrees with every point, with
// and without what a larger prism met.
TEST(LitOver, AgreesWithEveryPointOfThePrism) {
  Random random{std::mt19937(5)};
  int all = 0, none = 0, some = 0;
  for (int round = 0; round < 60; ++round) {
    Yard y = yard(random);
    y.imager.light = &y.light;
    y.imager.lamps = &y.lamps;
    if (round % 3 == 0) y.imager.mode = Mode::colour;
    y.imager.level = round % 4 == 0;
    const Solids solids = y.made.solids();
    for (int k = 0; k < 60; ++k) {
      const Vec3 at{random(-7, 7), random(-7, 7), 1};
      const scene::Prism large = prismAt(random, at, 2);
      scene::Prism small = large;
      for (Vec3& c : small.corner) c = at + (c - at) * 0.1;
      LitBodies kept;
      const Lit over_large = litOver(y.imager, solids, large, &kept);
      const Lit over = litOver(y.imager, solids, small, &kept);
      EXPECT_EQ(over, litOver(y.imager, solids, small));
      if (over_large != Lit::some) {
        EXPECT_EQ(over, over_large);
      }
      const Interval bound = litBounds(y.imager, solids, small);
      all += over == Lit::all;
      none += over == Lit::none;
      some += over == Lit::some;
      for (int i = 0; i < 12; ++i) {
        const double lit = litAt(y.imager, solids, pointIn(random, small, i)).lit;
        expectHolds(bound, lit);
        if (over == Lit::all) {
          EXPECT_GE(lit, 1);
        }
        if (over == Lit::none) {
          EXPECT_LT(lit, 1);
        }
      }
    }
  }
  EXPECT_GT(all, 300);
  EXPECT_GT(none, 300);
  EXPECT_LT(some, 1200);
  EXPECT_GT(some, 0);
}

// By hand: a lamp of 20 m, half of what is needed of luminaires at 5 m.
TEST(LitAt, AddsUpByHand) {
  SituationLight light;
  light.luminaires.push_back(luminaire(pointSource(25), {0, 0, 1.5}));
  const std::vector<Lamp> lamps{lamp({0, 0, 1.5}, {0, 1, 0}, 20, 60)};
  ImagerLight imager;
  imager.lens_m = {0, 0, 1.5};
  imager.light = &light;
  imager.lamps = &lamps;
  imager.burns = {true};
  imager.mode = Mode::mono;
  imager.needed = neededLight(design::LeastLight{2, 1.6, 0.04, {}, {}}, {});
  LitParts parts = litAt(imager, {}, {0, 5, 1.5});
  EXPECT_NEAR(parts.lux, 1, 1e-12);
  EXPECT_NEAR(parts.lamp_light, 16, 1e-12);
  EXPECT_NEAR(parts.lit, 16.5, 1e-12);
  imager.mode = Mode::colour;
  EXPECT_NEAR(litAt(imager, {}, {0, 5, 1.5}).lit, 0.5, 1e-12);
}

}  // namespace
}  // namespace belvedere::light
