// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/exposure.h"

#include "design/lens_setting.h"
#include "design/resolve.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"

namespace belvedere::light {
namespace {

design::LeastLight stated(double lux, std::optional<double> n, std::optional<double> t) {
  return {lux, n, t, {}, {}};
}

// Closed form, worked by hand: 0.05 lx at f/1.6 and 1/25 s are 0.70 lx at 1/350 s. Figures that lack
// F-number or time are not compared (IEC 62676-5, clause 4.2.3: both belong to a statement).
TEST(MinimumIllumination, IsMadeComparableOrRefused) {
  const NeededLight needed = neededLight(stated(0.05, 1.6, 1.0 / 25), {.exposure_s = 1.0 / 350});
  EXPECT_NEAR(needed.lux.value(), 0.70, 1e-12);
  EXPECT_EQ(needed.f_number, 1.6);
  EXPECT_EQ(neededLight(stated(0.05, {}, 1.0 / 25), {.exposure_s = 1.0 / 350}).unknown, Unknown::f_number);
  EXPECT_EQ(neededLight(stated(0.05, 1.6, {}), {.exposure_s = 1.0 / 350}).unknown, Unknown::exposure_s);
  EXPECT_FALSE(neededLight(stated(0.05, {}, 1.0 / 25), {.exposure_s = 1.0 / 350}).lux);
  EXPECT_FALSE(neededLight(stated(0.05, 1.6, {}), {.exposure_s = 1.0 / 350}).lux);
}

// Closed form: E N^2 / (t rho) held constant; 0.01 lx at f/1.2, 1/25 s, 89 % are 0.3164 lx at
// f/1.6, 1/100 s, 20 %.
TEST(NeededLight, ScalesWithApertureAndReflectance) {
  design::LeastLight sheet = stated(0.01, 1.2, 0.04);
  sheet.reflectance = 0.89;
  NeededLight needed =
      neededLight(sheet, {.f_number = 1.6, .exposure_s = 0.01, .reflectance = 0.2});
  EXPECT_NEAR(needed.lux.value(), 0.3164444444, 1e-9);
  EXPECT_FALSE(needed.reflectance_assumed);
  sheet.reflectance.reset();
  needed = neededLight(sheet, {.reflectance = 0.2, .contrast = 0.6});
  EXPECT_TRUE(needed.reflectance_assumed);
  EXPECT_TRUE(needed.contrast_assumed);  // IEC 62676-5: 30 %
  EXPECT_NEAR(needed.lux.value(), 0.02, 1e-12);
}

TEST(NeededLight, RefusesWithoutFNumberOrTime) {
  EXPECT_EQ(neededLight({}, {}).unknown, Unknown::statement);
  EXPECT_EQ(neededLight(stated(0, 1.6, 0.04), {}).unknown, Unknown::statement);
  EXPECT_EQ(neededLight(stated(0.1, {}, 0.04), {.f_number = 1.6}).unknown, Unknown::f_number);
  EXPECT_EQ(neededLight(stated(0.1, 1.6, {}), {.exposure_s = 0.04}).unknown, Unknown::exposure_s);
  EXPECT_FALSE(neededLight(stated(0.1, {}, 0.04), {}).lux);
  EXPECT_EQ(litShare(neededLight({}, {}), 100, 100), 0);
}

// By hand: half of the light needed from a luminaire and half from a lamp make one; a quarter of the
// time makes both a quarter of that, a stop of aperture likewise.
TEST(Lit, BothKindsOfLightAddInOneScale) {
  const auto sheet = stated(0.2, 2, 0.04);
  EXPECT_NEAR(litShare(neededLight(sheet, {}), 0.1, 0.5), 1, 1e-12);
  EXPECT_NEAR(litShare(neededLight(sheet, {.exposure_s = 0.01}), 0.1, 0.5), 0.25, 1e-12);
  EXPECT_NEAR(litShare(neededLight(sheet, {.f_number = 4}), 0.1, 0.5), 0.25, 1e-12);
  EXPECT_NEAR(litShare(neededLight(sheet, {.f_number = 1}), 0.1, 0.5), 4, 1e-12);
}

// Closed form, worked by hand: 1.4 m/s at 250 px/m and 1/25 s smear 14 px; one pixel needs 1/350 s.
// 4 m at 1.4 m/s and 15 pictures a second: 42.9 of them.
TEST(FramesAndBlur, OfAWalkerAndTheLongestExposure) {
  EXPECT_NEAR(motionBlurPx(250, 1.4, 1.0 / 25), 14, 1e-12);
  EXPECT_NEAR(longestExposureS(250, 1.4, kBlurFacePx), 1.0 / 350, 1e-15);
  EXPECT_NEAR(motionBlurPx(250, 13.9, 0.001), 3.475, 1e-12);
  EXPECT_NEAR(framesInZone(15, 4, 1.4), 42.9, 0.05);
  EXPECT_NEAR(framesInZone(15, 4, 1.4), 42.857, 1e-3);
  EXPECT_NEAR(framesInZone(12.5, 4, 1.5), 33.33333333, 1e-8);
}

// Closed form: whole pulses leave nothing; half a pulse 2/pi; against the integral by small steps.
TEST(Flicker, ShareOfTheRippleLeft) {
  EXPECT_NEAR(flickerLeft(50, 1.0 / 100), 0, 1e-12);
  EXPECT_NEAR(flickerLeft(50, 1.0 / 50), 0, 1e-12);
  EXPECT_NEAR(flickerLeft(60, 1.0 / 120), 0, 1e-12);
  EXPECT_NEAR(flickerLeft(50, 1.0 / 200), 2 / kPi, 1e-12);
  EXPECT_NEAR(flickerLeft(50, 1e-12), 1, 1e-9);
  const double t = 0.013;
  double most = 0;  // over all phases, of the mean of a ripple of 1
  for (int phase = 0; phase < 360; ++phase) {
    double sum = 0;
    for (int i = 0; i < 2000; ++i)
      sum += std::sin(2 * kPi * 100 * t * (i + 0.5) / 2000 + degToRad(phase));
    most = std::max(most, sum / 2000);
  }
  EXPECT_NEAR(flickerLeft(50, t), most, 1e-4);
  EXPECT_NEAR(steadyExposureS(50, 1.0 / 25).value(), 1.0 / 25, 1e-15);
  EXPECT_NEAR(steadyExposureS(50, 1.0 / 60).value(), 1.0 / 100, 1e-15);
  EXPECT_FALSE(steadyExposureS(50, 1.0 / 350));
  EXPECT_NEAR(flickerBeatHz(50, 25), 0, 1e-12);
  EXPECT_NEAR(flickerBeatHz(50, 30), 10, 1e-12);
  EXPECT_NEAR(flickerBeatHz(60, 25), 5, 1e-12);
}

// Closed form: between two apertures linear in focal length.
TEST(ImagerAsSet, ApertureAndFocusAtTheZoom) {
  design::ModelImager imager;
  imager.pixels = {1920, 1080};
  imager.pitch_um = 3;
  imager.lens.hfov_deg = {90, 30};
  imager.lens.focal_mm = {2.88, 10.749};
  imager.lens.f_number = {1.4, 2.4};
  design::Aim aim;
  aim.hfov_deg = 90;
  EXPECT_NEAR(design::fNumberAt(imager, aim).value(), 1.4, 1e-9);
  aim.hfov_deg = 30;
  EXPECT_NEAR(design::fNumberAt(imager, aim).value(), 2.4, 1e-9);
  EXPECT_NEAR(design::focusAt(imager, aim)->focal_m, 0.010749, 1e-9);
  aim.hfov_deg = radToDeg(2 * std::atan(960 / (0.5 * (960 + 960 / std::tan(degToRad(15.0))))));
  EXPECT_NEAR(design::fNumberAt(imager, aim).value(), 1.9, 1e-6);
  imager.lens.focal_mm.clear();
  aim.hfov_deg = 90;
  EXPECT_NEAR(design::focusAt(imager, aim)->focal_m, 960 * 3e-6, 1e-9);
  imager.lens.f_number = {2};
  EXPECT_EQ(design::fNumberAt(imager, aim), 2);
  EXPECT_EQ(design::fNumberOf(imager, 0, 4), 4);
  EXPECT_EQ(design::fNumberOf(imager, 0, 1.4), 2);  // wider than it opens
  EXPECT_EQ(design::focusOf(imager, design::lensAt(imager, aim), 0, 5.6)->f_number, 5.6);
  imager.lens.f_number.clear();
  EXPECT_FALSE(design::fNumberAt(imager, aim));
  EXPECT_FALSE(design::focusAt(imager, aim));
  EXPECT_EQ(design::fNumberOf(imager, 0, 8), 8);  // all that is known of it
  // Measured at f/1.6: a wider stop than that is not to be had, a narrower one costs light.
  imager.least_light = design::LeastLight{0.5, 1.6, 0.04, {}, {}};
  EXPECT_EQ(design::fNumberOf(imager, 0, 0.5), 1.6);
  EXPECT_EQ(design::fNumberOf(imager, 0, 8), 8);
  design::PosedImager posed;
  EXPECT_EQ(posed.stoppedDown(), 1);
  posed.f_number = 16;  // and nothing of the lens: as if it opened to f/1
  EXPECT_EQ(posed.stoppedDown(), 256);
  posed.widest_f_number = 8;
  EXPECT_EQ(posed.stoppedDown(), 4);
}

}  // namespace
}  // namespace belvedere::light
