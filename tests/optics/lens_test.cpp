// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/lens.h"

#include <gtest/gtest.h>

#include <vector>

#include "base/units.h"
#include "optics/trig.h"
#include "random_lens.h"

namespace belvedere::optics {
namespace {

// Published: mapping functions and scales of an optics reference's table of fisheye projections
// (rectilinear, stereographic, equidistant, equisolid, orthographic), evaluated to 12 digits by a
// separate program in higher precision. Tolerance: half of the last digit, and rounding.
struct TableRow {
  double k, theta_deg, r_over_f, meridional, sagittal;
};
constexpr TableRow kTable[] = {
    {1, 1, 0.0174550649282, 1.00030467929, 1.00015232804},
    {1, 30, 0.57735026919, 1.33333333333, 1.15470053838},
    {1, 60, 1.73205080757, 4.0, 2.0},

    {0.5, 35, 0.630597577758, 1.09941332627, 1.09941332627},
    {0.5, 90, 2.0, 2.0, 2.0},
    {0.5, 110, 2.85629601348, 3.03960672916, 3.03960672916},
    {0, 25, 0.436332312999, 1.0, 1.0324502098},
    {0, 65, 1.1344640138, 1.0, 1.25174254268},
    {-0.5, 60, 1.0, 0.866025403784, 1.15470053838},
    {-0.5, 120, 1.73205080757, 0.5, 2.0},
    {-1, 30, 0.5, 0.866025403784, 1.0},
    {-1, 60, 0.866025403784, 0.5, 1.0},
};
TEST(RadialLens, MatchesTheTableOfProjections) {
  for (const TableRow& row : kTable) {
    const RadialLens lens{1000, row.k, {}};
    const double theta = degToRad(row.theta_deg);
    const Vec3 p = Vec3{std::sin(theta), 0, std::cos(theta)} * 2.0;  // two metres away
    const auto at = projectWithJacobian(lens, p);
    ASSERT_TRUE(at);
    EXPECT_NEAR(at->at_px.x / 1000, row.r_over_f, 6e-12 * (1 + row.r_over_f));
    // Along the radius: across the ray in the plane of ray and axis; sideways: y.
    const double along =
        dot(at->px_per_m[0], Vec3{std::cos(theta), 0, -std::sin(theta)}) * 2 / 1000;
    const double across = at->px_per_m[1].y * 2 / 1000;
    EXPECT_NEAR(along, row.meridional, 6e-12 * (1 + row.meridional))
        << row.k << ' ' << row.theta_deg;
    EXPECT_NEAR(across, row.sagittal, 6e-12 * (1 + row.sagittal)) << row.k << ' ' << row.theta_deg;
  }
}

// Property: unproject is the inverse of project over the whole frame, for every model; a place that
// no ray reaches gives nothing.
TEST(Lens, RoundTripOverTheWholeFrame) {
  RandomLenses random(20240611);
  int reached = 0;
  for (int i = 0; i < 600; ++i) {
    const Lens lens = random.any();
    for (int iy = 0; iy <= 12; ++iy)
      for (int ix = 0; ix <= 20; ++ix) {
        const Vec2 p{1920 * ix / 20.0, 1080 * iy / 12.0};
        const auto dir = unproject(lens, p);
        if (!dir) continue;
        ++reached;
        EXPECT_NEAR(norm(*dir), 1, 1e-15);
        const auto again = project(lens, *dir);
        ASSERT_TRUE(again) << i << ' ' << p.x << ' ' << p.y;
        ASSERT_NEAR(again->x, p.x, kProjectErrorPx) << i;
        ASSERT_NEAR(again->y, p.y, kProjectErrorPx) << i;
      }
  }
  EXPECT_GT(reached, 600 * 13 * 21 / 2);
}

// Property: the direction comes back as well, away from the rim where the radius turns back.
TEST(Lens, DirectionRoundTrip) {
  RandomLenses random(77);
  for (int i = 0; i < 20000; ++i) {
    const Lens lens = random.any();
    const double theta = random.between(0, std::min(0.9 * largestAngleRad(lens), 3.0));
    const Vec3 dir = random.directionAt(theta);
    const auto p = project(lens, dir);
    ASSERT_TRUE(p);
    if (norm(*p) > 20000) continue;
    const auto again = unproject(lens, *p);
    ASSERT_TRUE(again) << i;
    EXPECT_NEAR(norm(*again - dir), 0, 2e-11) << i << " model " << lens.index();
  }
}

// Property: central differences agree with the Jacobian.
TEST(Lens, JacobianMatchesCentralDifferences) {
  RandomLenses random(5);
  for (int i = 0; i < 5000; ++i) {
    const Lens lens = random.any();
    const double theta = random.between(0, std::min(0.85 * largestAngleRad(lens), 2.9));
    const Vec3 p = random.directionAt(theta) * random.between(0.5, 40);
    const auto exact = projectWithJacobian(lens, p);
    ASSERT_TRUE(exact);
    ASSERT_NEAR(norm(exact->at_px - *project(lens, p)), 0, 1e-9 * (1 + norm(exact->at_px)));
    const double h = 1e-5 * norm(p);
    const Vec3 steps[] = {{h, 0, 0}, {0, h, 0}, {0, 0, h}};
    const double size = norm(exact->px_per_m[0]) + norm(exact->px_per_m[1]);
    for (int axis = 0; axis < 3; ++axis) {
      const auto more = project(lens, p + steps[axis]), less = project(lens, p - steps[axis]);
      ASSERT_TRUE(more && less);
      const Vec2 slope = (*more - *less) / (2 * h);
      const Vec3 &rx = exact->px_per_m[0], &ry = exact->px_per_m[1];
      const Vec2 found = axis == 0   ? Vec2{rx.x, ry.x}
                         : axis == 1 ? Vec2{rx.y, ry.y}
                                     : Vec2{rx.z, ry.z};
      EXPECT_NEAR(norm(slope - found), 0, 2e-6 * size) << i << " axis " << axis;
    }
  }
}

// Property: many at once give the bytes of one at a time, odd counts and misses included.
TEST(Lens, ManyAtOnceAreTheSameToTheLastBit) {
  RandomLenses random(9);
  for (int i = 0; i < 200; ++i) {
    const Lens lens = random.any();
    std::vector<Vec3> dirs;
    for (int j = 0; j < 101; ++j)
      dirs.push_back(random.directionAt(random.between(0, kPi)) * random.between(0.1, 100));
    dirs.push_back({0, 0, 3});
    dirs.push_back({0, 0, -3});
    dirs.push_back({1e-200, 0, 1});
    dirs.push_back({0, 2, 0});
    std::vector<Vec2> many(dirs.size());
    projectMany(lens, dirs, many);
    for (std::size_t j = 0; j < dirs.size(); ++j) {
      const auto one = project(lens, dirs[j]);
      ASSERT_EQ(one.has_value(), !std::isnan(many[j].x));
      ASSERT_EQ(std::isnan(many[j].x), std::isnan(many[j].y));
      if (one) {
        EXPECT_EQ(*one, many[j]);
      }
    }
  }
}

// Closed form: behind the camera, on the axis, and at the ends of each family.
TEST(RadialLens, EndsOfTheFamilies) {
  EXPECT_FALSE(project(RadialLens{1000, 1, {}}, {0, 0.1, -1}));
  EXPECT_FALSE(project(RadialLens{1000, 1, {}}, {1, 0, 0}));
  EXPECT_FALSE(project(RadialLens{1000, -1, {}}, {1, 0, -0.01}));
  EXPECT_FALSE(project(RadialLens{1000, 0, {}}, {0, 0, -1}));  // no one place
  EXPECT_NEAR(project(RadialLens{1000, -1, {}}, {1, 0, 0})->x, 1000, 1e-9);
  EXPECT_NEAR(project(RadialLens{1000, 0, {}}, {1, 0, 0})->x, 500 * kPi, 1e-9);
  EXPECT_NEAR(project(RadialLens{1000, 0, {}}, {1, 0, -1})->x, 750 * kPi, 1e-9);
  EXPECT_NEAR(project(RadialLens{1000, -0.5, {}}, {0, -1, 0})->y, -2000 * std::sin(kPi / 4), 1e-9);
  EXPECT_EQ(*project(RadialLens{1000, 0.3, {7, 8}}, {0, 0, 5}), (Vec2{7, 8}));
  EXPECT_FALSE(unproject(RadialLens{1000, -1, {}}, {1000.001, 0}));
  EXPECT_FALSE(unproject(RadialLens{1000, 0, {}}, {1000 * kPi + 0.001, 0}));
  EXPECT_NEAR(unproject(RadialLens{1000, -1, {}}, {1000, 0})->z, 0, 1e-7);
  EXPECT_NEAR(largestAngleRad(RadialLens{1000, 1, {}}), kPi / 2, 2 * kPoleGapRad);
  EXPECT_LT(largestAngleRad(RadialLens{1000, 1, {}}), kPi / 2);
  EXPECT_EQ(largestAngleRad(RadialLens{1000, -0.25, {}}), kPi);
  EXPECT_NEAR(largestAngleRad(RadialLens{1000, -0.8, {}}), kPi / 1.6, 1e-15);
}

// Closed form: r (1 + k1 r^2) turns back at r^2 = -1/(3 k1); theta + k1 theta^3 likewise.
TEST(CalibratedLens, StopsWhereTheRadiusTurnsBack) {
  const auto brown = makeBrownConrady({1000, 1000}, {}, {-0.3, 0, 0, 0, 0});
  const double r = std::sqrt(1 / 0.9);
  EXPECT_NEAR(std::tan(brown.largest_angle_rad), r, 1e-12);
  EXPECT_TRUE(project(brown, {r * 0.999999, 0, 1}));
  EXPECT_FALSE(project(brown, {r * 1.000001, 0, 1}));
  EXPECT_FALSE(project(brown, {3, 0, 1}));  // the polynomial alone would bring it into the picture
  EXPECT_FALSE(project(brown, {0, 0, -1}));
  const double rim = 1000 * r * (1 - 0.3 * r * r);
  EXPECT_TRUE(unproject(brown, {rim * 0.999999, 0}));
  EXPECT_FALSE(unproject(brown, {rim * 1.000001, 0}));

  const auto kannala = makeKannalaBrandt({1000, 1000}, {}, {-0.1, 0, 0, 0});
  const double t = std::sqrt(1 / 0.3);
  EXPECT_NEAR(kannala.largest_angle_rad, t, 1e-12);
  EXPECT_FALSE(project(kannala, {std::sin(t * 1.0001), 0, std::cos(t * 1.0001)}));
  EXPECT_TRUE(project(kannala, {std::sin(t * 0.9999), 0, std::cos(t * 0.9999)}));
  // A dip and a rise: the first turn counts, not a later one.
  const auto wavy = makeBrownConrady({1000, 1000}, {}, {-0.5, 0.1, 0, 0, 0});
  EXPECT_NEAR(std::tan(wavy.largest_angle_rad), 1, 1e-9);  // 1 - 1.5 u + 0.5 u^2 at u = 1
  // One coefficient at a time, chosen so that the slope is 0 at 1.
  EXPECT_NEAR(makeBrownConrady({1, 1}, {}, {0, -0.2, 0, 0, 0}).largest_angle_rad, kPi / 4, 1e-12);
  EXPECT_NEAR(makeBrownConrady({1, 1}, {}, {0, 0, 0, 0, -1.0 / 7}).largest_angle_rad, kPi / 4,
              1e-12);
  EXPECT_NEAR(makeKannalaBrandt({1, 1}, {}, {0, -0.2, 0, 0}).largest_angle_rad, 1, 1e-12);
  EXPECT_NEAR(makeKannalaBrandt({1, 1}, {}, {0, 0, -1.0 / 7, 0}).largest_angle_rad, 1, 1e-12);
  EXPECT_NEAR(makeKannalaBrandt({1, 1}, {}, {0, 0, 0, -1.0 / 9}).largest_angle_rad, 1, 1e-12);
  EXPECT_NEAR(makeBrownConrady({1, 1}, {}, {}).largest_angle_rad, kPi / 2, 2 * kPoleGapRad);
  EXPECT_NEAR(makeKannalaBrandt({1, 1}, {}, {}).largest_angle_rad, kPi, 1e-15);
}

// Bound: the angle functions against the C library.
TEST(Trig, WithinAFewUnitsInTheLastPlace) {
  RandomLenses random(3);
  for (int i = 0; i < 200000; ++i) {
    const double angle = random.between(0, kPi / 2);
    double s, c;
    trig::sineCosine(angle, s, c);
    ASSERT_NEAR(s, std::sin(angle), 1e-15 * std::sin(angle));
    ASSERT_NEAR(c, std::cos(angle), 1e-15 * std::cos(angle) + 1e-32);
    const double x = std::exp(random.between(-20, 20)), z = random.between(-1, 1);
    ASSERT_NEAR(trig::angleOf(x, z), std::atan2(x, z), 1e-15 * std::atan2(x, z));
  }
}

}  // namespace
}  // namespace belvedere::optics
