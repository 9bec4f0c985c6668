// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pictures of several imagers unrolled into one; parts of pictures at their place.
#include "picture/panorama.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "made_up.h"
#include "picture/studio.h"

namespace belvedere::picture {
namespace {

// Posts round an eye at the origin, by their bearings; bodies in that order.
scene::Scene posts(const std::vector<double>& bearings_deg) {
  scene::Scene scene;
  const auto source = addSource(scene, "post");
  for (const double bearing_deg : bearings_deg) {
    const double s = std::sin(degToRad(bearing_deg)), c = std::cos(degToRad(bearing_deg));
    const Vec2 ahead{s, c}, right{c, -s}, middle = ahead * 5;
    scene::addPrism(scene, {middle - right * 0.1, middle + right * 0.1, middle + right * 0.1 + ahead * 0.1,
                            middle - right * 0.1 + ahead * 0.1},
                    {-1, -1, -1, -1}, {0.5, 0.5, 0.5, 0.5}, source);
  }
  return scene;
}

struct Unrolled {
  Panorama panorama;
  Photo photo;
  // What stands at a bearing and an elevation: whether a post does, and how bright it is.
  bool postAt(double bearing_deg, double up_deg) const {
    return photo.surface[at(bearing_deg, up_deg)] < kNoSurface;
  }
  std::size_t at(double bearing_deg, double up_deg) const {
    while (bearing_deg < panorama.from_deg) bearing_deg += 360;
    return photo.at(static_cast<int>((bearing_deg - panorama.from_deg) * panorama.px_per_deg),
                    static_cast<int>((panorama.high_deg - up_deg) * panorama.px_per_deg));
  }
};
Unrolled unroll(const scene::Scene& scene, const std::vector<View>& views, const std::vector<float>& brightness = {}) {
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const std::vector<Coat> coats(scene.sources.size());
  PhotoOptions options;
  options.ground_m.reset();
  Unrolled made{panoramaOf(views), {}};
  Unrolling unrolling(made.panorama);
  for (std::size_t i = 0; i < views.size(); ++i) {
    options.size = sizeFor(made.panorama, views[i]);
    Photo photo = photograph(subject, coats, views[i], options, {});
    if (!brightness.empty()) photo.light.assign(photo.light.size(), {brightness[i], brightness[i], brightness[i]});
    unrolling.add(views[i], photo, {});
  }
  made.photo = std::move(unrolling).finished();
  return made;
}

// Closed form: columns are bearings, from left to right clockwise, rows elevations from above; a post 0.2 m wide
// at 5 m takes 2.3 deg, and its top, half a metre up, stands at 5.7 deg. Two imagers of 80 deg to the north
// and the east see from 320 to 130 deg, over north.
TEST(Panorama, ShowsEachBearingAtItsPlace) {
  const Size size{800, 600};
  const double f = 400 / std::tan(degToRad(40.0));
  const std::vector<View> views{level({0, 0, 0}, f, 1, size, 90), level({0, 0, 0}, f, 1, size, 0)};
  const Unrolled made = unroll(posts({330, 20, 60, 120}), views);
  EXPECT_NEAR(made.panorama.from_deg, 320, 4);
  EXPECT_NEAR(made.panorama.to_deg, 360 + 130, 4);
  for (const double bearing : {330.0, 20.0, 60.0, 120.0}) {
    EXPECT_TRUE(made.postAt(bearing, 0)) << bearing;
    EXPECT_TRUE(made.postAt(bearing, -8)) << bearing;
    EXPECT_FALSE(made.postAt(bearing, 8)) << bearing;
    EXPECT_FALSE(made.postAt(bearing + 3, 0)) << bearing;
    EXPECT_FALSE(made.postAt(bearing - 3, 0)) << bearing;
  }
  // As dense as the lens is on its axis: f px a radian.
  EXPECT_NEAR(made.panorama.px_per_deg, degToRad(1) * f, 0.05);
}

// Closed form: a picture weighs by how far it is from its own edge there. Where two of like weight meet, their mean
// shows; beside the overlap each alone.
TEST(Panorama, OverlapsAreBlended) {
  const Size size{800, 600};
  const double f = 400 / std::tan(degToRad(40.0));
  const std::vector<View> views{level({0, 0, 0}, f, 1, size, 0), level({0, 0, 0}, f, 1, size, 75)};
  const Unrolled made = unroll(posts({200}), views, {1, 3});
  const auto brightness = [&](double bearing) { return made.photo.light[made.at(bearing, 0)].red; };
  EXPECT_NEAR(brightness(20), 1, 1e-4);
  EXPECT_NEAR(brightness(60), 3, 1e-4);
  EXPECT_NEAR(brightness(37.5), 2, 0.1);
  EXPECT_LT(brightness(36), 1.9f);
  EXPECT_GT(brightness(39), 2.1f);
}

// Closed form: a fisheye that looks down sees all bearings: the cut is behind what is ahead of it. Four level
// imagers all round are cut behind the first, which then is the middle.
TEST(Panorama, AllRoundIsCutBehindTheFirst) {
  const Size size{800, 600};
  const double f = 400 / std::tan(degToRad(50.0));
  std::vector<View> views;
  for (const double pan : {90.0, 180.0, 270.0, 0.0}) views.push_back(level({0, 0, 0}, f, 1, size, pan));
  const Panorama panorama = panoramaOf(views);
  EXPECT_NEAR(panorama.to_deg - panorama.from_deg, 360, 1e-9);
  EXPECT_NEAR(0.5 * (panorama.from_deg + panorama.to_deg), 90, 1e-9);
}

// Closed form: a crop from a quarter to three quarters across and from the half down to three quarters, shown at
// 200 x 100 px, is a part of a whole of 400 x 400 px, that begins at (100, 200).
TEST(FramingOf, ACropIsThePartThatItsRegionSays) {
  design::Stream stream;
  stream.view = design::StreamView::crop;
  stream.region = std::array<double, 4>{0.25, 0.5, 0.75, 0.75};
  stream.size_px = {200, 100};
  const auto framing = framingOf(stream, {1920, 1080});
  ASSERT_TRUE(framing);
  EXPECT_EQ(framing->size, (Size{400, 400}));
  EXPECT_EQ(framing->part_at, (Vec2{100, 200}));
  EXPECT_EQ(framing->part, (Size{200, 100}));
  stream.view = design::StreamView::unrolled;
  EXPECT_FALSE(framingOf(stream, {1920, 1080}));
}

// Property: the depth of a part lies where the part does.
TEST(DepthOf, APartLiesAtItsPlace) {
  Photo part;
  part.width = 2;
  part.height = 1;
  part.distance_m = {3, 4};
  const Picture depth = depthOf(part, {10, 8}, {5, 6});
  EXPECT_EQ(depth.distance_m[depth.at(5, 6)], 3);
  EXPECT_EQ(depth.distance_m[depth.at(6, 6)], 4);
  EXPECT_TRUE(std::isinf(depth.distance_m[depth.at(0, 0)]));
}

}  // namespace
}  // namespace belvedere::picture
