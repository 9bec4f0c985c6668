// SPDX-License-Identifier: GPL-3.0-or-later
//
// A camera's picture as it is set: light, blur, exposure and noise.
#include "picture/studio.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "design/resolve.h"
#include "picture/develop.h"

namespace belvedere::picture {
namespace {

// A slab with one imager 4 m up, and what is known of it as a test asks.
struct Site {
  design::Design design;
  design::Situation night;
  Site() {
    design::Model model;
    model.id = {"M"};
    design::ModelImager imager;
    imager.slot = 1;
    imager.pixels = {160, 90};
    imager.pitch_um = 5;
    imager.lens.family = "rectilinear";
    imager.lens.hfov_deg = {40};
    imager.lens.f_number = {1.6};
    imager.lens.focal_mm = {25};
    imager.lens.infrared_shift_um = 20;
    imager.least_light = design::LeastLight{0.5, 1.6, 0.04, 0.5, 0.3};
    model.imagers.push_back(imager);
    model.lamps = {{1, 0, 0, 60, 30, 850, {}}};
    design.library.push_back(model);
    design::Housing housing;
    housing.id = {"C1"};
    housing.model = {"M"};
    housing.mount.fixing_m = {0, 0, 4};
    design::HousingImager used;
    used.slot = 1;
    used.mode = design::ImagerMode::mono;
    design::Aim aim;
    aim.focus_m = 10;
    aim.tilt_deg = 30;
    used.aims = {aim};
    housing.imagers.push_back(used);
    design.housings.push_back(housing);
    design::Light sky;
    sky.id = {"sky"};
    sky.kind = "ambient";
    sky.lux = 0.5;
    design.site.lights = {sky};
    night.id = {"night"};
    night.lights = {{"sky"}};
  }
  design::PosedImager view() const { return design::posedImagers(design, design::JudgedOn::captured)[0]; }
  // Its lights are those of a studio that is gone: luxAt() asks while it is there.
  Settings settings() const { return Studio(design, night, ".").settingsOf(view()); }
  double luxAt(const Vec3& at_m) const {
    const Studio studio(design, night, ".");
    return studio.settingsOf(view()).lights.at(0).luxAt(at_m);
  }
};

// Closed form: the aperture's radius is f/(2 N): 25 mm at f/1.6 has 7.8125 mm. By infrared, whose image lies 20 um
// further back, what is sharp lies beyond the 10 m that are set: at v = 25 10/(10 - 0.025) mm less 20 um.
TEST(Studio, BlursByApertureAndInfraredFocus) {
  Site site;
  const Settings night = site.settings();
  EXPECT_NEAR(night.aperture_m, 0.0078125, 1e-12);
  const double v = 0.025 * 10 / (10 - 0.025) - 20e-6;
  EXPECT_NEAR(night.focus_m, 0.025 * v / (v - 0.025), 1e-6);
  site.design.housings[0].imagers[0].mode = design::ImagerMode::colour;
  EXPECT_NEAR(site.settings().focus_m, 10, 1e-9);
}

// Closed form: light is needed as E N^2/t is held: half of the time needs twice of it, and f/3.2 four times.
// Contrast and reflectance are the data sheet's; a lamp counts by its range, whatever the exposure.
TEST(Studio, SensorIsTheDataSheetsAtTheExposureAsSet) {
  Site site;
  Sensor sensor = site.settings().sensor.value();
  EXPECT_NEAR(sensor.needed_lux, 0.5, 1e-12);
  EXPECT_EQ(sensor.contrast, site.design.library[0].imagers[0].least_light->contrast);
  EXPECT_EQ(sensor.reflectance, site.design.library[0].imagers[0].least_light->reflectance);
  EXPECT_TRUE(sensor.mono);
  const Vec3 lens = site.view().lens_m, at = lens + Vec3{0, 30, 0};
  ASSERT_EQ(site.settings().lights.size(), 1u);
  EXPECT_NEAR(site.luxAt(at), 0.5, 1e-9);
  site.design.housings[0].imagers[0].exposure_s = 0.02;
  sensor = site.settings().sensor.value();
  EXPECT_NEAR(sensor.needed_lux, 1, 1e-12);
  EXPECT_EQ(sensor.exposure_s, 0.02);
  EXPECT_NEAR(site.luxAt(at), 0.5, 1e-9);  // as much light as before
  site.design.housings[0].imagers[0].f_number = 3.2;
  EXPECT_NEAR(site.settings().sensor->needed_lux, 4, 1e-12);
  // Nothing stated: 0.1 lx wide open, so much more stopped down.
  site.design.library[0].imagers[0].least_light.reset();
  EXPECT_NEAR(site.settings().sensor->needed_lux, 0.4, 1e-9);
}

double meanOf(const Developed& picture) {
  double sum = 0;
  for (const std::uint32_t argb : picture.argb) sum += (argb >> 8) & 255;
  return sum / static_cast<double>(picture.argb.size());
}

// Of neighbours on the even ground, by their sum: of a noise of sigma on a mean of m, sigma/m / sqrt(pi).
double spreadOf(const Photo& of) {
  double sum = 0;
  int count = 0;
  for (int y = of.height / 2; y < of.height; ++y)
    for (int x = 0; x + 1 < of.width; ++x, ++count) {
      const double a = static_cast<double>(of.light[of.at(x, y)].red);
      const double b = static_cast<double>(of.light[of.at(x + 1, y)].red);
      sum += std::abs(a - b) / std::max(1e-12, a + b);
    }
  return sum / count;
}

// Property: the picture is what its own light comes to at the exposure that is told, once; where light is short it
// is grey with noise, and less so where sixteen captured pixels make one.
TEST(Studio, ExposesOnceAndAddsNoise) {
  Site site;
  site.design.housings[0].lamps = {{1, 0}};  // off
  const Studio studio(site.design, site.night, ".");
  PhotoOptions options;
  options.lighting = studio.lighting();
  const Shot shot = studio.shoot(site.view(), options, {}, Keep::light);
  EXPECT_TRUE(shot.exposed.gain_at_most);
  const double told = meanOf(develop(shot.photo, shot.exposed.exposure));
  EXPECT_NEAR(meanOf(studio.shoot(site.view(), options, {}).picture), told, 1e-9);
  EXPECT_GT(told, 5);
  for (const Colour& c : shot.photo.light) EXPECT_EQ(c.red, c.green);  // mono
  options.size = {40, 23};
  EXPECT_LT(spreadOf(studio.shoot(site.view(), options, {}, Keep::light).photo), 0.5 * spreadOf(shot.photo));
}

// Closed form: a time shortened by day gathers so much less light: of n electrons the noise is
// sqrt(n + reading^2), n falling with the time.
TEST(Studio, NoiseIsThatOfTheTimeTaken) {
  Site site;
  site.design.site.lights[0].lux = 1000;
  site.design.housings[0].lamps = {{1, 0}};
  const Studio studio(site.design, site.night, ".");
  PhotoOptions options;
  options.lighting = studio.lighting();
  const Shot shot = studio.shoot(site.view(), options, {}, Keep::light);
  EXPECT_FALSE(shot.exposed.gain_at_most);
  ASSERT_LT(shot.exposed.exposure_s, 0.5 * 0.04);
  double light = 0;
  int count = 0;
  for (int y = shot.photo.height / 2; y < shot.photo.height; ++y)
    for (int x = 0; x < shot.photo.width; ++x, ++count)
      light += static_cast<double>(shot.photo.light[shot.photo.at(x, y)].red);
  const double electrons = light / count * kElectronsAtNeeded / (0.5 * 0.3) * shot.exposed.exposure_s / 0.04;
  const double wanted = std::sqrt(electrons + kReadElectrons * kReadElectrons) / electrons / std::sqrt(kPi);
  EXPECT_NEAR(spreadOf(shot.photo), wanted, 0.25 * wanted);
}

// Closed form: at 10 m/s a figure moves by 0.4 m, a dozen pixels, in the 1/25 s of a dim evening; in a day's light, at
// a few thousandths of a second, by hardly one.
TEST(Studio, WhatMovesSmearsOverTheTimeTaken) {
  const auto differ = [](double lux) {
    Site site;
    site.design.site.lights[0].lux = lux;
    site.design.housings[0].lamps = {{1, 0}};
    site.design.library[0].imagers[0].lens.f_number.clear();  // sharp all over
    const Studio studio(site.design, site.night, ".");
    PhotoOptions options;
    options.lighting = {0, 0, 0, {0, 0, 1}};
    options.lighting.sky_lux = lux;
    std::vector<Shot> shots;
    for (const double speed_mps : {0.0, 10.0}) {
      options.figures = {{{0, 7, 0}, 1.75, 180, {speed_mps, 0}}};
      shots.push_back(studio.shoot(site.view(), options, {}));
    }
    int count = 0;
    for (std::size_t i = 0; i < shots[0].picture.argb.size(); ++i) {
      const auto grey = [&](std::size_t shot) { return static_cast<int>(shots[shot].picture.argb[i] & 255); };
      count += std::abs(grey(0) - grey(1)) > 16;
    }
    return std::pair{count, shots[1].exposed.exposure_s};
  };
  const auto [by_day, short_s] = differ(20000);
  EXPECT_LT(short_s, 0.004);
  const auto [by_dusk, long_s] = differ(2);
  EXPECT_EQ(long_s, 0.04);
  EXPECT_GT(by_dusk, 100);
  EXPECT_LT(by_day, by_dusk / 3);
}

// By hand: a zone's outline is drawn a hand's breadth over the floor at most, and closed.
TEST(Studio, ZonesAreMarkedOnTheirFloors) {
  Site site;
  design::Zone zone;
  zone.id = {"yard"};
  zone.outline = {{0, 1}, {2, 1}, {2, 3}, {0, 3}};
  site.design.site.zones.push_back(zone);
  const auto marks = Studio(site.design, site.night, ".").zoneMarks();
  ASSERT_EQ(marks.size(), 1u);
  EXPECT_EQ(marks[0].name, "yard");
  ASSERT_EQ(marks[0].outline.size(), 5u);
  EXPECT_EQ(marks[0].outline.front(), marks[0].outline.back());
  for (const Vec3& p : marks[0].outline) EXPECT_NEAR(p.z, 0.05, 0.05);
  EXPECT_NEAR(norm(marks[0].middle_m.xy() - Vec2{1, 2}), 0, 1e-12);
}

}  // namespace
}  // namespace belvedere::picture
