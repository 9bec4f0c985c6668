// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/light_bounds.h"

#include <gtest/gtest.h>

#include <cmath>
#include <optional>
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
    const auto corners = prism.corners();
    const Cast cast = castOver(one, corners);
    const Interval level = illuminanceOver(one, cast, corners, {});
    const Interval upright = illuminanceOver(one, cast, corners, normalsInPlan(lens, corners));
    const Interval square = illuminanceOver(one, cast, corners, normalsToward(lens, corners));
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

// Mean value: at any point of a box the value is that at another plus slopes times the way between; and what the
// slopes leave open falls with the square of the size.
template <class Exact>
void expectFollows(Random& random, const scene::Prism& prism, const Slopes& slopes, const Vec3& from,
                   Exact exact) {
  const auto light = [&](const Interval& v) {
    return slopes.per_height ? Interval{slopes.per_height->low * std::max(0.0, v.low),
                                        slopes.per_height->high * std::max(0.0, v.high)} : v;
  };
  expectHolds(light(slopes.value), exact(from));
  for (int i = 0; i < 16; ++i) {
    const Vec3 p = pointIn(random, prism, i), way = p - from;
    const Interval reach = slopes.slope[0] * Interval(way.x) + slopes.slope[1] * Interval(way.y) +
                           slopes.slope[2] * Interval(way.z);
    expectHolds(light(Interval(slopes.value) + reach), exact(p));
  }
}

Vec3 middleOf(const scene::Prism& prism) {
  Vec3 sum;
  for (const Vec3& c : prism.corners()) sum = sum + c;
  return sum / static_cast<double>(prism.corners().size());
}

TEST(IlluminanceSlopes, FollowEveryPointOfTheBox) {
  Random random{std::mt19937(14)};
  int known = 0, small = 0;
  for (int round = 0; round < 4000; ++round) {
    Photometry table = uneven(random);
    if (round % 3 == 0) table = flatSource(random(10, 1000));
    if (round % 3 == 1)  // come to nothing at the table's end
      for (std::size_t i = 1; i <= table.across_deg.size(); ++i)
        table.candela[i * table.along_deg.size() - 1] = 0;
    const Luminaire one = luminaire(table, {0, 0, 5}, random(0, 360), random(-90, 90));
    const Vec3 at{random(-10, 10), random(-10, 10), random(-1, 6)}, lens{random(-10, 10), random(-10, 10), 4};
    const double size = std::pow(10, random(-3, 0.5));
    const scene::Prism prism = prismAt(random, at, size);
    const Vec3 middle = middleOf(prism);
    const auto corners = prism.corners();
    const Cast cast = castOver(one, corners);
    if (const auto level = illuminanceSlopes(one, cast, corners, {}, middle, kUp)) {
      ++known;
      expectFollows(random, prism, *level, middle,
                    [&](const Vec3& p) { return illuminanceFrom(one, p, kUp); });
    }
    if (const auto upright = illuminanceSlopes(one, cast, corners, normalsInPlan(lens, corners), middle,
                                               facingInPlan(middle, lens))) {
      ++known;
      expectFollows(random, prism, *upright, middle, [&](const Vec3& p) {
        return illuminanceFrom(one, p, facingInPlan(p, lens));
      });
      // Of a table without steps the slopes close on one another.
      if (round % 3 == 0 && size < 0.01 && !upright->per_height && norm(middle - one.at_m) > 2 && norm(middle.xy() - lens.xy()) > 1 &&
          norm(cross(one.luminaire_from_site.row[2], normalized(middle - one.at_m))) > 0.2) {
        ++small;
        for (const Interval& slope : upright->slope)
          EXPECT_LT(slope.high - slope.low, (100 * size + 0.02) * table.candela[0]);
      }
    }
  }
  EXPECT_GT(known, 2000);
  EXPECT_GT(small, 50);
}

TEST(ShareSlopes, FollowEveryPointOfTheBox) {
  Random random{std::mt19937(15)};
  int known = 0;
  for (int round = 0; round < 4000; ++round) {
    const Lamp one = lamp({0, 0, 3}, random.direction(), random(5, 60), random(5, 340));
    const Vec3 at{random(-10, 10), random(-10, 10), random(-1, 4)};
    const scene::Prism prism = prismAt(random, at, std::pow(10, random(-3, 0.5)));
    const Vec3 middle = middleOf(prism);
    const auto slopes = shareSlopes(one, prism.corners(), middle);
    if (!slopes) continue;
    ++known;
    expectFollows(random, prism, *slopes, middle, [&](const Vec3& p) { return shareFrom(one, p); });
  }
  EXPECT_GT(known, 2000);
}

// A yard with a wall, a pane, foliage, a beam and a pole; luminaires, lamps of both kinds.
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
  addBox(scene, {-6, -1, 2.2}, {6, -0.7, 2.6});
  for (int i = 0; i < 6; ++i) {
    const Vec3 low{random(-6, 6), random(-6, 6), i % 3 == 2 ? random(0.5, 2) : 0};
    addBox(scene, low, low + Vec3{random(0.1, 1), random(0.1, 1), random(0.5, 3)});
  }
  Yard y{madeUp(std::move(scene)), {}, {}, {}};
  y.light.stated = true;
  y.light.ambient_lux = 0.2;
  y.light.luminaires = {luminaire(uneven(random), {-5, 0, 4}), luminaire(uneven(random), {5, 5, 5}, 40, 60),
                        luminaire(flatSource(random(10, 300)), {0, -3, 2.5})};
  y.lamps = {lamp({0, -6, 3}, {0, 1, -0.2}, 8, 70), lamp({6, 0, 3}, {-1, 0, -0.2}, 10, 90),
             lamp({0, 6, 3}, {0, -1, -0.3}, 6, 60, 555)};
  y.imager.lens_m = {0, -6, 3};
  y.imager.mode = Mode::mono;
  y.imager.needed = neededLight(design::LeastLight{random(0.5, 20), 1.6, 0.04, {}, {}}, {});
  y.imager.burns = {true, true, true};
  return y;
}

// Bound: of a column that is lit everywhere every point is; of one lit nowhere none is, or, where the whole height
// must be lit, some height of every place is not. Told with the shadows of a larger column it is never the
// opposite.
TEST(LitOver, AgreesWithEveryPointOfTheColumn) {
  Random random{std::mt19937(5)};
  int all = 0, none = 0, some = 0, cuts = 0, settled = 0;
  for (int round = 0; round < 90; ++round) {
    Yard y = yard(random);
    y.imager.light = &y.light;
    y.imager.lamps = &y.lamps;
    if (round % 3 == 0) y.imager.mode = Mode::colour;
    y.imager.level = round % 4 == 0;
    const Solids solids = y.made.solids();
    for (int k = 0; k < 60; ++k) {
      const Vec3 at{random(-7, 7), random(-7, 7), 0.5};
      scene::Prism large = prismAt(random, at, 2);
      if (k % 2 == 0)  // on a level floor
        for (std::size_t i = 0; i < 4; ++i) {
          large.corner[4 + i].z += at.z - large.corner[i].z;
          large.corner[i].z = at.z;
        }
      scene::Prism small = large;
      const double scale = k % 7 < 4 ? 0.1 : 0.02;
      for (std::size_t i = 0; i < small.corner.size(); ++i) {
        const Vec2 p = at.xy() + (large.corner[i].xy() - at.xy()) * scale;
        small.corner[i] = {p.x, p.y, at.z + (large.corner[i % 4].z - at.z) * scale};
      }
      // A thin column as tall as the large one.
      const double tall_m = k % 5 == 0 ? 0 : large.corner[4].z - large.corner[0].z;
      for (std::size_t i = 0; i < 4; ++i) small.corner[4 + i].z = small.corner[i].z + tall_m;
      const bool whole = k % 3 != 0;
      const Interval heights{k % 4 == 0 ? 0.3 * tall_m : 0, tall_m};
      Shades of_large;
      litOver(y.imager, solids, large, {0, large.corner[4].z - large.corner[0].z}, whole, of_large);
      Shades of_small, of_part = Shades::partOf(of_large);
      std::optional<LitCut> cut;
      const Lit over = litOver(y.imager, solids, small, heights, whole, of_small, &cut);
      cuts += cut ? 1 : 0;
      const bool settles = over == Lit::some && cut && cut->proven;
      std::optional<Lit> again;
      if (k % 2 == 0 && k % 5 != 0 && small.corner[4].z <= large.corner[4].z)  // on the same floor
        again = litOver(y.imager, solids, small, heights, whole, of_part);
      all += over == Lit::all;
      none += over == Lit::none;
      some += over == Lit::some;
      if (over == Lit::some && again.value_or(Lit::some) == Lit::some && !settles) continue;
      for (int i = 0; i < 16; ++i) {  // its corners, then places within
        const Vec2 p = pointIn(random, small, i).xy();
        // The lower face is a plane: found from three of its corners.
        const Vec3 &a = small.corner[0], &b = small.corner[1], &c = small.corner[3];
        const Vec3 n = cross(b - a, c - a);
        const double floor_m = a.z - (n.x * (p.x - a.x) + n.y * (p.y - a.y)) / n.z;
        const auto litAtHeight = [&](double height_m) {
          return litAt(y.imager, solids, {p.x, p.y, floor_m + height_m}).lit;
        };
        constexpr int kHeights = 200;
        double least = 1e300, most = 0;
        for (int h = 0; h <= kHeights; ++h) {
          const double lit = litAtHeight(heights.low + (heights.high - heights.low) * h / kHeights);
          least = std::min(least, lit);
          most = std::max(most, lit);
          if (heights.high == heights.low) break;
        }
        // What a cut settles on either side of its strip is as true as what is told of whole columns.
        Lit beside = Lit::some;
        if (settles && dot(cut->normal, p) >= cut->at + cut->half_m) beside = Lit::all;
        if (settles && dot(cut->normal, p) <= cut->at - cut->half_m) beside = Lit::none;
        settled += beside != Lit::some;
        for (const Lit told : {over, again.value_or(Lit::some), beside}) {
          if (told == Lit::all) {
            EXPECT_GE(least, 1 - 1e-9);
          } else if (told == Lit::none) {
            EXPECT_LT(whole ? least : most, 1 + 1e-9);
          }
        }
      }
    }
  }
  EXPECT_GT(all, 600);
  EXPECT_GT(none, 600);
  EXPECT_LT(some, 1300);
  EXPECT_GT(cuts, 50);
  EXPECT_GT(settled, 300);
}

// By hand: a wall hides a column from a lamp where it stands in the first aim, not where it stands in the second.
// Both aims' views share what is known of shadows.
TEST(LitOver, LampsThatMovedHaveShadowsOfTheirOwn) {
  scene::Scene scene;
  addBox(scene, {-5, 2, 0}, {5, 2.2, 4});
  const MadeUpSolids made = madeUp(std::move(scene));
  const SituationLight dark{true, 0, {}};
  const std::vector<Lamp> first{lamp({0, 0, 3}, {0, 1, -0.3}, 30, 90)};
  std::vector<Lamp> second{lamp({0, 3, 3}, {0, 1, -0.3}, 30, 90)};
  second[0].moved = 1;
  ImagerLight imager;
  imager.lens_m = {0, 0, 3};
  imager.mode = Mode::mono;
  imager.needed = neededLight(design::LeastLight{1, 1.6, 0.04, {}, {}}, {});
  imager.light = &dark;
  imager.burns = {true};
  imager.moved_lamps = 1;
  ImagerLight other = imager;
  imager.lamps = &first;
  other.lamps = &second;
  other.number = 1;
  const Box3 box{{-0.1, 5.9, 0}, {0.1, 6.1, 1.8}};
  scene::Prism column;
  column.sides = 4;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2 p{i == 1 || i == 2 ? box.high.x : box.low.x, i >= 2 ? box.high.y : box.low.y};
    column.corner[i] = {p.x, p.y, box.low.z};
    column.corner[4 + i] = {p.x, p.y, box.high.z};
  }
  Shades shades;
  EXPECT_EQ(litOver(imager, made.solids(), column, {0, 1.8}, true, shades), Lit::none);
  EXPECT_EQ(litOver(other, made.solids(), column, {0, 1.8}, true, shades), Lit::all);
}

// Asked in a short cut, the answers are those of the whole sum.
TEST(EnoughAt, SaysWhatTheWholeSumSays) {
  Random random{std::mt19937(11)};
  int enough = 0, asked = 0, reached = 0;
  for (int round = 0; round < 60; ++round) {
    Yard y = yard(random);
    y.imager.light = &y.light;
    y.imager.lamps = &y.lamps;
    if (round % 3 == 0) y.imager.mode = Mode::colour;
    y.imager.level = round % 4 == 0;
    const Solids solids = y.made.solids();
    Blockers blockers;
    for (int k = 0; k < 200; ++k, ++asked) {
      const Vec3 at{random(-7, 7), random(-7, 7), random(0, 3)};
      const bool lit = litAt(y.imager, solids, at).lit >= 1;
      EXPECT_EQ(enoughAt(y.imager, solids, at), lit);
      enough += lit;
      const Vec3 normal = facingInPlan(at, y.imager.lens_m);
      const double lux = illuminanceAt(y.light, solids, at, normal);
      EXPECT_EQ(illuminanceAt(y.light, solids, at, normal, &blockers), lux);
      const double asked_lux = lux * random(0.5, 1.5);
      EXPECT_EQ(illuminanceReaches(y.light, solids, at, normal, asked_lux), lux >= asked_lux);
      reached += lux >= asked_lux;
      EXPECT_EQ(lampLightFor(y.imager, solids, at), litAt(y.imager, solids, at).lamp_light);
    }
  }
  EXPECT_GT(enough, asked / 10);
  EXPECT_LT(enough, asked * 9 / 10);
  EXPECT_GT(reached, asked / 4);
  EXPECT_LT(reached, asked * 3 / 4);
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
