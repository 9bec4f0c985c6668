// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/lens_fit.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "random_lens.h"

namespace belvedere::optics {
namespace {

constexpr std::array<int, 2> kFullHd{1920, 1080};

// Closed form: F = 960 / tan(30 deg) and VFOV = 2 atan(540/F), to the digits of a design brief
// worked by hand (F 1662.77 px, VFOV 35.983 deg).
TEST(LensFit, RectilinearSixtyDegrees) {
  const auto fit = fitFocal(kFullHd, {.hfov_deg = 60}, 1);
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->lens.f_px, 1662.77, 0.005);
  EXPECT_EQ(fit->lens.centre_px, (Vec2{960, 540}));
  const FieldOfView field = fieldsOfView(fit->lens, kFullHd);
  EXPECT_NEAR(*field.hfov_deg, 60, 1e-9);
  EXPECT_NEAR(*field.vfov_deg, 35.983, 0.0005);
}

// Published: F in pixels against HFOV for a picture 1920 wide, worked to 10 digits by a separate
// program from the mapping functions of an optics reference. Half of the last digit.
TEST(LensFit, FocalFromHfovForEveryFamily) {
  const struct {
    const char* family;
    double hfov_deg, f_px;
  } rows[] = {
      {"rectilinear", 30, 3582.768775},  {"rectilinear", 100, 805.5356459},
      {"stereographic", 90, 1158.82251}, {"stereographic", 120, 831.3843876},
      {"equidistant", 60, 1833.464944},  {"equidistant", 100, 1100.078967},
      {"equisolid", 30, 3677.422836},    {"equisolid", 120, 960.0},
      {"orthographic", 60, 1920.0},      {"orthographic", 100, 1253.190998},
  };
  for (const auto& row : rows) {
    const auto fit = fitFocal(kFullHd, {.hfov_deg = row.hfov_deg}, familyK(row.family).value());
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->lens.f_px, row.f_px, 6e-7 * 10) << row.family;
  }
  EXPECT_FALSE(familyK("fitted"));
}

// Closed form: rectilinear fields of view from sensor and focal length, 2 atan(size / 2f).
TEST(LensFit, RectilinearFieldsFromAFocalLength) {
  const RadialLens lens{4 / 5.568 * kFullHd[0], 1, {960, 540}};  // 4 mm before 5.568 x 3.132 mm
  const FieldOfView field = fieldsOfView(lens, kFullHd);
  EXPECT_NEAR(*field.hfov_deg, 69.675834, 5e-7);
  EXPECT_NEAR(*field.vfov_deg, 42.760686, 5e-7);
  EXPECT_NEAR(*field.dfov_deg, 77.218498, 5e-7);
}

// Closed form: a data sheet of 2688 x 1520 px, 106 and 60 deg, close to equidistant (whose VFOV
// would be 59.94): the model gives both back within 0.01 deg. k itself is not tested near 0.
TEST(LensFit, DataSheetNearEquidistant) {
  const std::array<int, 2> pixels{2688, 1520};
  const auto fit = fitFocalAndK(pixels, {.hfov_deg = 106, .vfov_deg = 60});
  ASSERT_TRUE(fit);
  EXPECT_LT(fit->largest_residual_deg(), 1e-6);
  const FieldOfView field = fieldsOfView(fit->lens, pixels);
  EXPECT_NEAR(*field.hfov_deg, 106, 0.01);
  EXPECT_NEAR(*field.vfov_deg, 60, 0.01);
  const auto equidistant = fitFocal(pixels, {.hfov_deg = 106, .vfov_deg = 60}, 0);
  EXPECT_NEAR(equidistant->lens.f_px, 1452.9, 0.05);
  EXPECT_NEAR(*equidistant->residual_deg.vfov_deg, -0.06, 0.005);
  EXPECT_FALSE(equidistant->residual_deg.dfov_deg);
}

// Property: fields of a lens of the family, given back to the fit, give the lens's fields again:
// two or three stated, any pair.
TEST(LensFit, GivesBackWhatALensShows) {
  RandomLenses random(11);
  int tried = 0;
  for (int i = 0; i < 300; ++i) {
    const double k = random.between(-1, 1), hfov = random.between(20, 150);
    const auto made = fitFocal(kFullHd, {.hfov_deg = hfov}, k);
    ASSERT_TRUE(made);
    FieldOfView field = fieldsOfView(made->lens, kFullHd);
    if (!field.dfov_deg || *field.dfov_deg > 300) continue;
    ++tried;
    if (i % 4 == 0) field.hfov_deg.reset();
    if (i % 4 == 1) field.vfov_deg.reset();
    if (i % 4 == 2) field.dfov_deg.reset();
    const auto fit = fitFocalAndK(kFullHd, field);
    ASSERT_TRUE(fit);
    EXPECT_LT(fit->largest_residual_deg(), 1e-6) << "k " << k << " hfov " << hfov;
    EXPECT_NEAR(fit->lens.f_px / made->lens.f_px, 1, 2e-5) << "k " << k << " hfov " << hfov;
  }
  EXPECT_GT(tried, 200);
}

// Property: contradicting fields leave a residual that no neighbouring lens betters.
TEST(LensFit, LeastSquaresOfContradictingFields) {
  const FieldOfView stated{.hfov_deg = 100, .vfov_deg = 55, .dfov_deg = 118};
  const auto fit = fitFocalAndK(kFullHd, stated);
  ASSERT_TRUE(fit);
  EXPECT_GT(fit->largest_residual_deg(), 0.1);
  const auto sum = [&](double f_px, double k) {
    const FieldOfView f = fieldsOfView(RadialLens{f_px, k, {960, 540}}, kFullHd);
    const double a = *f.hfov_deg - 100, b = *f.vfov_deg - 55, c = *f.dfov_deg - 118;
    return a * a + b * b + c * c;
  };
  const double best = sum(fit->lens.f_px, fit->lens.k);
  for (const double df : {-0.5, 0.0, 0.5})
    for (const double dk : {-0.01, 0.0, 0.01})
      EXPECT_LE(best, sum(fit->lens.f_px + df, fit->lens.k + dk) + 1e-9);
  // No k gives a picture 16:9 that is wider than 4 times its height: the best within the family.
  const auto absurd = fitFocalAndK(kFullHd, {.hfov_deg = 120, .vfov_deg = 30});
  ASSERT_TRUE(absurd);
  EXPECT_GT(absurd->largest_residual_deg(), 5);
  EXPECT_FALSE(fitFocalAndK(kFullHd, {.hfov_deg = 120}));
  EXPECT_FALSE(fitFocal(kFullHd, {.hfov_deg = 185}, 1));
  EXPECT_TRUE(fitFocal(kFullHd, {.hfov_deg = 185}, 0));
}

// Closed form: a zoom of 95 to 31 deg HFOV on 2592 px (F 1187.6 to 4673.2 px by hand).
TEST(Zoom, FieldAndFocalLength) {
  const std::array<int, 2> pixels{2592, 1944};
  const Zoom zoom{fitFocal(pixels, {.hfov_deg = 95}, 1)->lens,
                  fitFocal(pixels, {.hfov_deg = 31}, 1)->lens, std::array<double, 2>{2.8, 11.0}};
  EXPECT_NEAR(zoom.wide.f_px, 1187.6, 0.05);
  EXPECT_NEAR(zoom.tele.f_px, 4673.2, 0.05);
  EXPECT_NEAR(*fieldsOfView(zoom.wide, pixels).vfov_deg, 78.6, 0.05);
  const double share = shareAtHfov(zoom, 2592, 60).value();
  EXPECT_NEAR(lensAtShare(zoom, share).f_px, 1296 / std::tan(degToRad(30)), 1e-8);
  EXPECT_NEAR(*focalAtShare(zoom, 0.25), 4.85, 1e-12);
  EXPECT_NEAR(shareAtFocal(zoom, 6.9).value(), 0.5, 1e-12);
  EXPECT_EQ(shareAtHfov(zoom, 2592, 31), 1);
  EXPECT_EQ(shareAtHfov(zoom, 2592, 95), 0);
  EXPECT_FALSE(shareAtHfov(zoom, 2592, 27.3));
  EXPECT_FALSE(shareAtHfov(zoom, 2592, 96));
  EXPECT_FALSE(shareAtFocal(zoom, 12));
  EXPECT_FALSE(shareAtFocal({zoom.wide, zoom.tele, {}}, 5));
}

// Closed form: k linear between the ends; the field asked for is met although F and k both move.
TEST(Zoom, KMovesWithTheFocalLength) {
  const Zoom zoom{{1000, 0, {960, 540}}, {4000, 1, {960, 540}}, {}};
  const RadialLens lens = lensAtShare(zoom, 0.4);
  EXPECT_NEAR(lens.f_px, 2200, 1e-9);
  EXPECT_NEAR(lens.k, 0.4, 1e-12);
  const double share = shareAtHfov(zoom, 1920, 50).value();
  EXPECT_NEAR(*fieldsOfView(lensAtShare(zoom, share), kFullHd).hfov_deg, 50, 1e-9);
}

// Common practice, no source: four imagers of a little over 90 deg, level and at right angles,
// close the circle; of 89 deg they leave four gaps of a degree.
TEST(LensFit, FourImagersAtRightAnglesCloseTheCircle) {
  const std::array<int, 2> pixels{2592, 1944};
  for (const double hfov : {100.0, 89.0}) {
    const Lens lens = fitFocal(pixels, {.hfov_deg = hfov}, 0)->lens;
    int seen = 0;
    for (int tenth = 0; tenth < 3600; ++tenth) {
      bool any = false;
      for (int imager = 0; imager < 4; ++imager) {
        const double a = degToRad(tenth / 10.0 + 0.05 - 90.0 * imager);
        const auto p = project(lens, {std::sin(a), 0, std::cos(a)});
        any = any || (p && p->x >= 0 && p->x <= 2592 && p->y >= 0 && p->y <= 1944);
      }
      seen += any;
    }
    EXPECT_EQ(seen, hfov > 90 ? 3600 : 3560);
  }
}

}  // namespace
}  // namespace belvedere::optics
