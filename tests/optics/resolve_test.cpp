// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/resolve.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "optics/density.h"
#include "random_lens.h"

namespace belvedere::design {
namespace {

void expectNear(const Vec3& a, const Vec3& b, double tolerance = 1e-12) {
  EXPECT_NEAR(a.x, b.x, tolerance);
  EXPECT_NEAR(a.y, b.y, tolerance);
  EXPECT_NEAR(a.z, b.z, tolerance);
}

// A level floor's housing with one rectilinear imager of 60 deg at 3 m, tilt 30 deg.
Design oneCamera() {
  Model model;
  model.id.text = "M";
  ModelImager imager;
  imager.pixels = {1920, 1080};
  imager.lens.hfov_deg = {60};
  model.imagers = {imager};
  Housing housing;
  housing.id.text = "C1";
  housing.model = model.id;
  housing.mount.fixing_m = {1, 2, 3};
  HousingImager set;
  set.aims = {Aim{}};
  set.aims[0].tilt_deg = 30;
  housing.imagers = {set};
  Design design;
  design.catalogue.models = {model};
  design.housings = {housing};
  return design;
}
Stream stream(const char* id, StreamView view, std::array<int, 2> size_px, const char* use) {
  Stream s;
  s.id.text = id;
  s.from = {1};
  s.view = view;
  s.size_px = size_px;
  s.use = {use};
  return s;
}

// Closed form: pan clockwise from +y, tilt down, roll clockwise seen from behind; exact at
// quarters.
TEST(ImagerFromSite, TurnsAsTheWordsSay) {
  const Mat3 north = imagerFromSite(0, 0, 0);
  EXPECT_EQ(north.row[0], (Vec3{1, 0, 0}));
  EXPECT_EQ(north.row[1], (Vec3{0, 0, -1}));
  EXPECT_EQ(north.row[2], (Vec3{0, 1, 0}));
  EXPECT_EQ(imagerFromSite(90, 0, 0).row[2], (Vec3{1, 0, 0}));
  EXPECT_EQ(imagerFromSite(-90, 0, 0).row[2], (Vec3{-1, 0, 0}));
  EXPECT_EQ(imagerFromSite(37, 90, 0).row[2], (Vec3{0, 0, -1}));
  expectNear(imagerFromSite(45, 30, 0).row[2], {std::sqrt(0.375), std::sqrt(0.375), -0.5});
  // Rolled a quarter clockwise, the picture's right points down.
  EXPECT_EQ(imagerFromSite(0, 0, 90).row[0], (Vec3{0, 0, -1}));
  EXPECT_EQ(imagerFromSite(0, 0, 90).row[1], (Vec3{-1, 0, 0}));
}

// Property: rotations are right-handed and orthonormal for any angles.
TEST(ImagerFromSite, IsARotation) {
  optics::RandomLenses random(2);
  for (int i = 0; i < 1000; ++i) {
    const Mat3 m = imagerFromSite(random.between(-720, 720), random.between(-90, 90),
                                  random.between(-360, 360));
    const Mat3 unit = m * transposed(m);
    for (std::size_t r = 0; r < 3; ++r) expectNear(unit.row[r], Mat3{}.row[r], 1e-14);
    expectNear(cross(m.row[0], m.row[1]), m.row[2], 1e-14);
  }
}

// Closed form: an upright housing only turns the bearing; one hung with its base plane vertical
// (base tilt 90) looks down where it looks forward.
TEST(HousingFrame, FromSiteAndBack) {
  Mount mount;
  mount.base_bearing_deg = 200;
  const PanTilt plain = housingFromSite(mount, {170, 25});
  EXPECT_DOUBLE_EQ(plain.pan_deg, -30);
  EXPECT_DOUBLE_EQ(plain.tilt_deg, 25);
  mount.base_tilt_deg = 90;
  const PanTilt down = housingFromSite(mount, {0, 90});
  EXPECT_NEAR(down.pan_deg, 0, 1e-12);
  EXPECT_NEAR(down.tilt_deg, 0, 1e-12);
  const PanTilt away = housingFromSite(mount, {200, 0});  // square to the base plane, upwards
  EXPECT_NEAR(away.tilt_deg, -90, 1e-6);
}

// Property: back and forth is the same axis, for any mount.
TEST(HousingFrame, RoundTrip) {
  optics::RandomLenses random(4);
  for (int i = 0; i < 2000; ++i) {
    Mount mount;
    mount.base_bearing_deg = random.between(-360, 360);
    mount.base_tilt_deg = i % 3 ? random.between(-180, 180) : 0;
    const PanTilt aim{random.between(-180, 180), random.between(-89, 89)};
    const PanTilt back = siteFromHousing(mount, housingFromSite(mount, aim));
    expectNear(imagerFromSite(aim.pan_deg, aim.tilt_deg, 0).row[2],
               imagerFromSite(back.pan_deg, back.tilt_deg, 0).row[2], 1e-12);
  }
}

// Closed form: reach along the base bearing, drop, and an offset that turns with the pan.
TEST(LensPoint, FixingMountAndOffset) {
  Mount mount;
  mount.fixing_m = {10, 20, 5};
  mount.base_bearing_deg = 90;  // east
  Model arm;
  arm.reach_m = 0.5;
  arm.drop_m = 0.25;
  ModelImager imager;
  imager.offset_m = {0.1, 0.02, -0.05};
  expectNear(lensPoint(mount, &arm, imager, {0, 0}), {10.6, 19.98, 4.7});
  expectNear(lensPoint(mount, &arm, imager, {90, 40}), {10.48, 19.9, 4.7});  // south
  expectNear(lensPoint(mount, nullptr, imager, {180, 0}), {9.9, 20.02, 4.95});
  mount.base_tilt_deg = 90;  // a base plane on a wall's face: forward is down, up is forward
  expectNear(lensPoint(mount, &arm, imager, {0, 0}), {10.5 - 0.05, 19.98, 4.75 - 0.1});
}

// Closed form: F 1662.77 px, VFOV 35.983 deg, floor from 2.702 to 14.104 m, 4.434 m wide near and
// 15.836 m far (a design brief's test bed, worked by hand).
TEST(PosedImager, TestBedSeesItsStretchOfFloor) {
  const auto posed = posedImagers(oneCamera(), JudgedOn::captured);
  ASSERT_EQ(posed.size(), 1U);
  const PosedImager& imager = posed[0];
  EXPECT_EQ(imager.imager, "C1.1");
  EXPECT_EQ(imager.name, "C1.1");
  EXPECT_EQ(imager.lens_m, (Vec3{1, 2, 3}));
  EXPECT_NEAR(std::get<optics::RadialLens>(imager.lens).f_px, 1662.77, 0.005);
  EXPECT_NEAR(imager.vfov_deg, 35.983, 0.0005);
  const auto floorAt = [&](Vec2 p_px) {
    const Vec3 dir = transposed(imager.imager_from_site) * *optics::unproject(imager.lens, p_px);
    return (imager.lens_m + dir * (imager.lens_m.z / -dir.z)).xy() - imager.lens_m.xy();
  };
  EXPECT_NEAR(floorAt({960, 1080}).y, 2.702, 0.0005);
  EXPECT_NEAR(floorAt({960, 0}).y, 14.104, 0.0005);
  EXPECT_NEAR(floorAt({1920, 1080}).x - floorAt({0, 1080}).x, 4.434, 0.0005);
  EXPECT_NEAR(floorAt({1920, 0}).x - floorAt({0, 0}).x, 15.836, 0.0005);
}

// Closed form: recorded a third, a tile a quarter; the stream that is judged on is named; streams
// for other uses and other imagers do not count.
TEST(PosedImager, CapturedRecordedViewed) {
  Design design = oneCamera();
  design.catalogue.models[0].imagers[0].pixels = {3840, 2160};
  Housing& housing = design.housings[0];
  EXPECT_EQ(posedImagers(design, JudgedOn::recorded)[0].stream, "");
  housing.streams = {stream("phone", StreamView::whole, {640, 360}, "phone"),
                     stream("rec", StreamView::whole, {1280, 720}, "recorded"),
                     stream("live", StreamView::whole, {3840, 2160}, "viewed")};
  EXPECT_EQ(posedImagers(design, JudgedOn::captured)[0].scale_x, 1);
  const auto recorded = posedImagers(design, JudgedOn::recorded);
  ASSERT_EQ(recorded.size(), 1U);
  EXPECT_EQ(recorded[0].stream, "rec");
  EXPECT_DOUBLE_EQ(recorded[0].scale_x, 1.0 / 3);
  EXPECT_DOUBLE_EQ(recorded[0].scale_y, 1.0 / 3);
  EXPECT_EQ(posedImagers(design, JudgedOn::viewed)[0].stream, "rec");  // no screen: as recorded
  Screen screen;
  screen.stream.text = "live";
  screen.tile_px = {960, 600};
  design.services.screens = {screen};
  const auto viewed = posedImagers(design, JudgedOn::viewed);
  ASSERT_EQ(viewed.size(), 1U);
  EXPECT_EQ(viewed[0].stream, "live");
  EXPECT_DOUBLE_EQ(viewed[0].scale_x, 0.25);
  EXPECT_DOUBLE_EQ(viewed[0].scale_y, 0.25);
  design.services.screens[0].tile_px = {7680, 4320};  // a larger tile shows no more
  EXPECT_DOUBLE_EQ(posedImagers(design, JudgedOn::viewed)[0].scale_x, 1);
  housing.streams[1].from = {2};
  EXPECT_EQ(posedImagers(design, JudgedOn::recorded)[0].stream, "");
}

// Closed form: a crop shows its region at its own scale; margins come off each edge; an unrolled
// view has its width over its span.
TEST(PosedImager, CropMarginAndUnrolled) {
  Design design = oneCamera();
  Housing& housing = design.housings[0];
  housing.imagers[0].margin_px = 10;
  housing.imagers[0].masks = {{{0, 0}, {0.5, 0}, {0.5, 0.25}}};
  Stream crop = stream("crop", StreamView::crop, {480, 270}, "recorded");
  crop.region = {0.25, 0.5, 0.75, 1};
  Stream wide = stream("wide", StreamView::unrolled, {1800, 400}, "recorded");
  wide.span_deg = {180, 40};
  housing.streams = {crop, wide};
  const auto posed = posedImagers(design, JudgedOn::recorded);
  ASSERT_EQ(posed.size(), 2U);
  EXPECT_EQ(posed[0].frame_low_px, (Vec2{490, 550}));
  EXPECT_EQ(posed[0].frame_high_px, (Vec2{1430, 1070}));
  EXPECT_DOUBLE_EQ(posed[0].scale_x, 0.5);
  EXPECT_DOUBLE_EQ(posed[0].scale_y, 0.5);
  EXPECT_FALSE(posed[0].px_per_rad);
  EXPECT_EQ(posed[1].frame_low_px, (Vec2{10, 10}));
  EXPECT_EQ(posed[1].frame_high_px, (Vec2{1910, 1070}));
  EXPECT_DOUBLE_EQ(posed[1].px_per_rad.value(), 1800 / kPi);
  EXPECT_FALSE(posed[0].span);
  ASSERT_TRUE(posed[1].span);  // about the aim: pan 0, tilt 30
  EXPECT_EQ(posed[1].span->half_width_deg, 90);
  EXPECT_EQ(posed[1].span->depression_deg, (std::array<double, 2>{10, 50}));
  EXPECT_TRUE(posed[1].span->holdsBearing({1, 0.001}));
  EXPECT_FALSE(posed[1].span->holdsBearing({1, -0.001}));
  EXPECT_EQ(posed[0].masks_px[0][2], (Vec2{960, 270}));
}

// Closed form: the span of a stitched view lies about the middle of its imagers' aims, across north
// too, and no row of it passes straight down or up.
TEST(PosedImager, StitchedSpanLiesAboutTheMiddleOfItsImagers) {
  Design design = oneCamera();
  ModelImager second = design.catalogue.models[0].imagers[0];
  second.slot = 2;
  design.catalogue.models[0].imagers.push_back(second);
  Housing& housing = design.housings[0];
  housing.imagers.push_back(housing.imagers[0]);
  housing.imagers[1].slot = 2;
  housing.imagers[0].aims[0].pan_deg = 340;
  housing.imagers[1].aims[0].pan_deg = 40;
  Stream stitched = stream("all", StreamView::stitched, {4000, 1000}, "recorded");
  stitched.from = {1, 2};
  stitched.span_deg = {100, 80};
  housing.streams = {stitched};
  const auto posed = posedImagers(design, JudgedOn::recorded);
  ASSERT_EQ(posed.size(), 2U);
  for (const PosedImager& view : posed) {
    EXPECT_NEAR(view.span->bearing_deg, 10, 1e-9);
    EXPECT_EQ(view.span->half_width_deg, 50);
    EXPECT_EQ(view.span->depression_deg, (std::array<double, 2>{-10, 70}));
  }
  EXPECT_EQ(viewSpan(0, 90, {360, 90}).depression_deg, (std::array<double, 2>{0, 90}));
  EXPECT_EQ(viewSpan(0, -80, {360, 40}).depression_deg, (std::array<double, 2>{-90, -50}));
}

// Closed form: several aims are several views of one imager; removed housings and imagers without
// an aim are left out.
TEST(PosedImager, AimsAndLives) {
  Design design = oneCamera();
  Housing& housing = design.housings[0];
  housing.imagers[0].aims.resize(2);
  housing.imagers[0].aims[1].pan_deg = 90;
  housing.imagers[0].aims[1].time_share = 0.25;
  const auto posed = posedImagers(design, JudgedOn::recorded);
  ASSERT_EQ(posed.size(), 2U);
  EXPECT_EQ(posed[1].imager, "C1.1");
  EXPECT_EQ(posed[1].name, "C1.1 aim 2");
  EXPECT_EQ(posed[1].aim, 1U);
  EXPECT_EQ(posed[1].time_share, 0.25);
  EXPECT_EQ(posed[1].housing_pan_deg, 90);
  housing.imagers[0].aims.clear();
  EXPECT_TRUE(posedImagers(design, JudgedOn::recorded).empty());
  design = oneCamera();
  design.housings[0].life = Life::removed;
  EXPECT_TRUE(posedImagers(design, JudgedOn::recorded).empty());
}

// Closed form: zoom by field, by focal length, at the wide end by default; lenses from every way in
// which a data sheet states them.
TEST(LensAt, EveryWayToStateALens) {
  ModelImager imager;
  imager.pixels = {2592, 1944};
  imager.lens.hfov_deg = {95, 31};
  const auto focal = [&](const Aim& aim) {
    return std::get<optics::RadialLens>(lensAt(imager, aim)).f_px;
  };
  Aim aim;
  EXPECT_NEAR(focal(aim), 1187.6, 0.05);
  aim.hfov_deg = 31;
  EXPECT_NEAR(focal(aim), 4673.2, 0.05);
  aim.hfov_deg = 27.3;
  EXPECT_THROW(lensAt(imager, aim), InputError);
  aim = {};
  aim.focal_mm = 5;
  EXPECT_THROW(lensAt(imager, aim), InputError);  // no focal lengths stated
  imager.lens.focal_mm = {3, 11};
  aim.focal_mm = 7;
  EXPECT_NEAR(focal(aim), (1187.62 + 4673.24) / 2, 0.05);
  EXPECT_EQ(lensFits(imager).size(), 2U);
  EXPECT_TRUE(zoomOf(imager));

  imager = {};
  imager.pixels = {2688, 1520};
  imager.lens.hfov_deg = {106};
  imager.lens.vfov_deg = {60};
  EXPECT_LT(std::abs(std::get<optics::RadialLens>(lensAt(imager, {})).k), 0.3);  // fitted
  imager.lens.family = "rectilinear";
  EXPECT_GT(lensFits(imager)[0].largest_residual_deg(), 10);  // contradicts: said, not mended
  EXPECT_FALSE(zoomOf(imager));

  imager = {};
  imager.pixels = {1920, 1080};
  imager.pitch_um = 2.9;
  imager.lens.focal_mm = {4};
  EXPECT_NEAR(std::get<optics::RadialLens>(lensAt(imager, {})).f_px, 4 / 0.0029, 1e-9);

  imager.lens = {};
  EXPECT_THROW(lensAt(imager, {}), InputError);
  imager.lens.family = "kannala_brandt";
  EXPECT_THROW(lensAt(imager, {}), InputError);
  imager.lens.focal_x_px = 600;
  imager.lens.coefficients = {0.01, -0.002};
  const auto fisheye = std::get<optics::KannalaBrandtLens>(lensAt(imager, {}));
  EXPECT_EQ(fisheye.f_px, (Vec2{600, 600}));
  EXPECT_EQ(fisheye.centre_px, (Vec2{960, 540}));
  EXPECT_EQ(fisheye.coefficients[1], -0.002);
  imager.lens.family = "brown_conrady";
  imager.lens.coefficients = {-0.1, 0.01, 1e-3, 2e-3, 0, 0};
  EXPECT_THROW(lensAt(imager, {}), InputError);
}

// Regression guard: an unknown model is a problem with its place, not a crash.
TEST(PosedImager, ProblemsCarryTheirPlace) {
  Design design = oneCamera();
  design.housings[0].model.text = "nobody";
  design.housings.push_back(oneCamera().housings[0]);
  design.housings[1].imagers[0].slot = 7;
  design.catalogue.models[0].id.text = "M";
  try {
    posedImagers(design, JudgedOn::recorded);
    FAIL();
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 2U);
    EXPECT_EQ(error.problems()[0].where, "/housings/0");
    EXPECT_EQ(error.problems()[1].code, "unknown_slot");
  }
}

}  // namespace
}  // namespace belvedere::design
