// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/lens_bounds.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "base/units.h"

namespace belvedere::optics {
namespace {

std::vector<Lens> lenses() {
  std::vector<Lens> all;
  for (const double k : {1.0, 0.5, 0.2, 0.0, -0.5, -1.0}) all.push_back(RadialLens{1200, k, {960, 540}});
  all.push_back(makeBrownConrady({1400, 1380}, {950, 560}, {-0.3, 0.09, 0.001, -0.0007, -0.01}));
  all.push_back(makeKannalaBrandt({700, 690}, {960, 530}, {-0.02, 0.004, -0.001, 0.0001}));
  return all;
}

BoxInImager randomBox(std::mt19937& random, double size) {
  std::uniform_real_distribution<double> unit(-1, 1);
  BoxInImager box;
  box.centre = {6 * unit(random), 4 * unit(random), 6 + 4 * unit(random)};
  for (Vec3& half : box.half) half = Vec3{unit(random), unit(random), unit(random)} * size;
  return box;
}

Vec3 at(const BoxInImager& box, const Vec3& s) {
  return box.centre + box.half[0] * s.x + box.half[1] * s.y + box.half[2] * s.z;
}

// Property: every point of a box lands within the linear form's error, for every lens model.
TEST(PictureBounds, HoldEveryPointOfTheBox) {
  std::mt19937 random(20);
  std::uniform_real_distribution<double> unit(-1, 1);
  int judged = 0;
  for (const Lens& lens : lenses())
    for (int i = 0; i < 2000; ++i) {
      const BoxInImager box = randomBox(random, i % 2 ? 0.05 : 0.6);
      const PictureBounds bounds = pictureBounds(lens, box);
      for (int j = 0; j < 12; ++j) {
        Vec3 s{unit(random), unit(random), unit(random)};
        if (j < 8) s = {j & 1 ? 1.0 : -1.0, j & 2 ? 1.0 : -1.0, j & 4 ? 1.0 : -1.0};
        const auto p = project(lens, at(box, s));
        if (bounds.maps == Maps::nowhere) {
          EXPECT_FALSE(p.has_value());
        }
        if (bounds.maps != Maps::everywhere) continue;
        ASSERT_TRUE(p.has_value());
        ++judged;
        const auto& x = bounds.x_px;
        const auto& y = bounds.y_px;
        EXPECT_NEAR(p->x, x.value + x.slope[0] * s.x + x.slope[1] * s.y + x.slope[2] * s.z, x.error);
        EXPECT_NEAR(p->y, y.value + y.slope[0] * s.x + y.slope[1] * s.y + y.slope[2] * s.z, y.error);
      }
    }
  EXPECT_GT(judged, 40000);
}

// Property: the enclosure of the Jacobian holds the Jacobian everywhere in the box, so the density
// along any horizontal tangent lies within its bounds.
TEST(PictureBounds, HoldTheDensityEverywhereInTheBox) {
  std::mt19937 random(21);
  std::uniform_real_distribution<double> unit(-1, 1);
  for (const Lens& lens : lenses())
    for (int i = 0; i < 1500; ++i) {
      const BoxInImager box = randomBox(random, i % 2 ? 0.05 : 0.5);
      const PictureBounds bounds = pictureBounds(lens, box);
      if (bounds.maps != Maps::everywhere) continue;
      const Vec3 t0 = normalized(Vec3{unit(random), unit(random), unit(random)});
      const Vec3 t1 = normalized(cross(t0, Vec3{unit(random), unit(random), unit(random)}));
      const double swing = 0.3 * (1 + unit(random)), sx = 1 + 0.5 * unit(random), sy = i % 3 ? sx : 0.7;
      const Interval density =
          densityBounds(bounds, t0, t1, std::cos(swing), std::sin(swing), sx, sy);
      for (int j = 0; j < 6; ++j) {
        const auto p = projectWithJacobian(lens, at(box, {unit(random), unit(random), unit(random)}));
        ASSERT_TRUE(p.has_value());
        const double g = swing * unit(random);
        const Vec3 t = t0 * std::cos(g) + t1 * std::sin(g);
        const double found = std::hypot(sx * dot(p->px_per_m[0], t), sy * dot(p->px_per_m[1], t));
        EXPECT_GE(found, density.low * (1 - 1e-12));
        EXPECT_LE(found, density.high * (1 + 1e-12));
      }
    }
}

// Property: the error falls with the square of the box's size (a quarter for half the size; a
// third is let pass, since the widest angles bend more).
TEST(PictureBounds, ErrorFallsWithTheSquareOfTheSize) {
  std::mt19937 random(22);
  for (const Lens& lens : lenses()) {
    double large = 0, small = 0;
    for (int i = 0; i < 500; ++i) {
      BoxInImager box = randomBox(random, 0.08);
      const PictureBounds whole = pictureBounds(lens, box);
      for (Vec3& half : box.half) half = half * 0.5;
      const PictureBounds part = pictureBounds(lens, box);
      if (whole.maps != Maps::everywhere || part.maps != Maps::everywhere) continue;
      large += whole.x_px.error + whole.y_px.error;
      small += part.x_px.error + part.y_px.error;
    }
    EXPECT_LT(small, large / 3) << "lens " << lens.index();
  }
}

// Property: a box wholly behind a rectilinear lens is mapped nowhere; one around the lens is not
// decided.
TEST(PictureBounds, KnowWhatTheLensCannotMap) {
  const Lens lens = RadialLens{1000, 1, {500, 500}};
  const std::array<Vec3, 3> half{Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}};
  EXPECT_EQ(pictureBounds(lens, {{0, 0, -5}, half}).maps, Maps::nowhere);
  EXPECT_EQ(pictureBounds(lens, {{0, 0, 0.5}, half}).maps, Maps::unknown);
  EXPECT_EQ(pictureBounds(lens, {{0, 0, 5}, half}).maps, Maps::everywhere);
}

}  // namespace
}  // namespace belvedere::optics
