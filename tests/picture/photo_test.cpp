// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>

#include "base/units.h"
#include "made_up.h"
#include "picture/develop.h"
#include "picture/figures.h"
#include "picture/photo.h"
#include "picture/studio.h"
#include "picture/work.h"

namespace belvedere::picture {
namespace {

std::vector<Coat> greyCoats(const scene::Scene& scene) {
  return std::vector<Coat>(scene.sources.size());
}
float bright(Colour c) { return 0.2126f * c.red + 0.7152f * c.green + 0.0722f * c.blue; }

// Property: the same bytes at any number of threads; figures, boards, glass and sun and all.
TEST(Photo, SameBytesAtAnyThreadCount) {
  scene::Scene scene = closedRoom();
  addBox(scene, {2, 2.5, 0}, {2.5, 3, 1.2}, addSource(scene, "bush", 0.3));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  PhotoOptions options;
  options.grid_m = {0};
  options.lighting = plausibleLighting(5000);
  options.figures = {{{3, 3, 0}, 1.75, 180}};
  options.boards = {{Pattern::chart, {2, 3.5, 1.5}, 180}};
  const View view = level({0.3, 0.3, 2.6}, 260, 1, {300, 201}, 45, 25);
  const std::vector<Coat> coats = greyCoats(scene);
  std::vector<Developed> made;
  for (const std::size_t threads : {1u, 2u, 7u}) {
    tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    const Photo photo = photograph(subject, coats, view, options, {});
    made.push_back(develop(photo, exposureOf(photo)));
  }
  EXPECT_TRUE(made[1].argb == made[0].argb);
  EXPECT_TRUE(made[2].argb == made[0].argb);
}

// Property: a part of a picture shows what the whole shows there.
TEST(Photo, PartIsThePartOfTheWhole) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const std::vector<Coat> coats = greyCoats(scene);
  View view = level({0.3, 0.3, 2.6}, 260, 0.5, {320, 240}, 45, 25);
  view.masks_px = {{{140, 70}, {200, 70}, {200, 90}, {140, 90}}};
  PhotoOptions options;
  options.figures = {{{3, 3, 0}, 1.75, 225}};
  const Photo whole = photograph(subject, coats, view, options, {});
  options.part_at = {120, 60};
  options.part = {90, 70};
  const Photo part = photograph(subject, coats, view, options, {});
  ASSERT_EQ(part.width, 90);
  std::size_t differ = 0;
  for (int y = 0; y < 70; ++y)
    for (int x = 0; x < 90; ++x)
      differ += part.surface[part.at(x, y)] != whole.surface[whole.at(x + 120, y + 60)] ? 1 : 0;
  EXPECT_LE(differ, 30u);  // of 6300: middles of pixels that lie on an edge to single precision
}

// Closed form: density at distance d is f / d pixels a metre; a plate of 0.52 m takes that many
// pixels, to one.
TEST(Photo, PlateIsAsWideAsItsDensitySays) {
  const scene::Scene scene;
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  PhotoOptions options;
  options.ground_m.reset();
  options.lighting = {0, 0, 1000, {0, -1, 0}};
  options.boards = {{Pattern::plate, {0, 5, 0}, 180}};
  for (const double f : {750.0, 1250.0}) {
    const View view = level({0, 0, 0}, f, 1, {400, 100});
    const Photo photo = photograph(subject, {}, view, options, {});
    int wide = 0, high = 0;
    for (int x = 0; x < 400; ++x) wide += photo.surface[photo.at(x, 50)] < kNoSurface ? 1 : 0;
    for (int y = 0; y < 100; ++y) high += photo.surface[photo.at(200, y)] < kNoSurface ? 1 : 0;
    EXPECT_NEAR(high, 0.11 * f / 5, 1.0) << f;
    EXPECT_NEAR(wide, 0.52 * f / 5, 1.0) << f;
  }
}

// Closed form: seen from before it, the chart's eight steps of grey are on the right, the darkest lowest, as the
// board's own pattern has them; each sends the sun's light times its reflectance.
TEST(Photo, BoardsAreNotMirrored) {
  const scene::Scene nothing;
  const scene::RayCaster caster(nothing);
  const Subject subject(caster);
  PhotoOptions options;
  options.ground_m.reset();
  options.lighting = {0, 0, 1000, {0, -1, 0}};
  options.boards = {{Pattern::chart, {0, 4, 0}, 180}};
  const Photo photo = photograph(subject, {}, level({0, 0, 0}, 1000, 1, {400, 200}), options, {});
  for (int step = 0; step < 8; ++step) {
    const Vec2 at{0.115, -0.17 + (step + 0.5) / 8 * 0.34};  // to the right and up, 250 px/m
    const Colour c = photo.light[photo.at(200 + static_cast<int>(250 * at.x), 100 - static_cast<int>(250 * at.y))];
    const float wanted = boardAlbedo(Pattern::chart, at).green;
    EXPECT_NEAR(wanted, 0.03f + 0.11f * static_cast<float>(step), 1e-6f);
    EXPECT_NEAR(c.green, 1000 * wanted, 20.0f) << step;
  }
}

// Property: of a wall and a figure the nearer is seen.
TEST(Photo, FiguresAreHiddenByWhatStandsBeforeThem) {
  scene::Scene scene;
  addBox(scene, {-5, 4, -5}, {5, 4.1, 5}, addSource(scene, "wall"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const View view = level({0, 0, 1}, 200, 1, {80, 80});
  for (const double figure_m : {3.0, 6.0}) {
    PhotoOptions options;
    options.figures = {{{0, figure_m, 0}, 1.75, 180}};
    const Photo photo = photograph(subject, greyCoats(scene), view, options, {});
    const auto far_m = static_cast<double>(photo.distance_m[photo.at(40, 40)]);
    EXPECT_NEAR(far_m, std::min(figure_m, 4.0), 0.3);
    EXPECT_EQ(photo.surface[photo.at(40, 40)] >= subject.surfaces().size(), figure_m < 4);
  }
}

// Closed form: of the light stated for a day, seven tenths fall on a level floor from the sun where it stands,
// three from the sky.
TEST(PlausibleLighting, ADaysLightFallsOnALevelFloor) {
  const Lighting day = plausibleLighting(10000, 90, 30);
  EXPECT_NEAR(norm(day.toward_sun - Vec3{std::cos(degToRad(30.0)), 0, 0.5}), 0, 1e-12);
  EXPECT_NEAR(day.sun_lux * day.toward_sun.z, 7000, 1e-6);
  EXPECT_NEAR(day.sky_lux, 3000, 1e-6);
  EXPECT_GT(plausibleLighting(10000, 0, 30).toward_sun.y, 0.8);  // a bearing of 0 is north
  EXPECT_EQ(plausibleLighting(0.01).sun_lux, 0);
}

// Closed form: a floor of reflectance rho under the sun alone sends E sin(elevation) rho, and
// next to nothing where something stands in the way.
TEST(Photo, SunShinesByItsCosineAndThrowsShadows) {
  scene::Scene scene;
  addBox(scene, {-50, -50, -1}, {50, 50, 0}, addSource(scene, "floor"));
  addBox(scene, {-1, 4, 2}, {1, 6, 2.1}, addSource(scene, "roof"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  PhotoOptions options;
  options.ground_m.reset();
  options.lighting = plausibleLighting(5000, 90, 90);
  options.lighting.fill_lux = options.lighting.sky_lux = 0;
  options.lighting.sun_lux = 1000;
  std::vector<Coat> coats = greyCoats(scene);
  // Straight down from 10 m, 40 px/m on the floor.
  const View view = level({0, 5, 10}, 400, 1, {400, 400}, 0, 90);
  const Photo photo = photograph(subject, coats, view, options, {});
  const auto open = static_cast<double>(bright(photo.light[photo.at(40, 200)]));
  EXPECT_NEAR(open,
              1000 * static_cast<double>(bright(albedoAt(coats[0], {-4, 5, 0}, {0, 0, 1}, 0.025))),
              60);
  // From a sun in the west, 30 deg high, half of it falls on a level floor, and the roof's shadow 2 m / tan 30
  // to the east of it.
  options.lighting.toward_sun = {-std::cos(degToRad(30.0)), 0, 0.5};
  const Photo slant = photograph(subject, coats, view, options, {});
  EXPECT_NEAR(static_cast<double>(bright(slant.light[slant.at(40, 200)])), 0.5 * open, 30);
  EXPECT_LT(bright(slant.light[slant.at(200 + static_cast<int>(40 * 2 / std::tan(degToRad(30.0))), 200)]), 0.05 * open);
  options.lighting.toward_sun = {0, 0, 1};
  // From the side, below the roof.
  const View low = level({-8, 5, 1}, 400, 1, {400, 400}, 90, 0);
  const Photo under = photograph(subject, coats, low, options, {});
  const auto shaded = placeOf(low, {400, 400}, {0, 5, 0}).value();
  // What is left is thrown back by what lies in the sun.
  EXPECT_LT(bright(under.light[under.at(static_cast<int>(shaded.x), static_cast<int>(shaded.y))]),
            0.05 * open);
}

// Property: masks cover and the image circle ends, in the tones that say so.
TEST(Photo, MasksCoverAndTheCircleEnds) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  View view = level({3, 2, 1.5}, 90, -1, {200, 200});
  view.masks_px = {{{80, 80}, {120, 80}, {120, 120}, {80, 120}}};
  const Photo photo = photograph(subject, greyCoats(scene), view, {}, {});
  const Developed made = develop(photo, 1);
  EXPECT_EQ(photo.surface[photo.at(100, 100)], kMaskedSurface);
  EXPECT_EQ(photo.surface[photo.at(2, 2)], kOutsideSurface);
  EXPECT_EQ(made.argb[photo.at(100, 100)], argbOf(colourOf(Tones{}.masked)));
  EXPECT_LT(photo.surface[photo.at(60, 100)], kNoSurface);
}

TEST(Photo, CanBeCancelled) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  Progress progress;
  progress.cancel = true;
  EXPECT_THROW(
      photograph(subject, greyCoats(scene), level({3, 2, 1.5}, 90, 1, {200, 200}), {}, progress),
      Cancelled);
}

// Published: IEC 61966-2-1 (sRGB), from memory: 18 % grey is 117.7 to 118 of 255, 0.0031308 the
// end of the straight part.
TEST(Develop, EncodesAsSrgb) {
  EXPECT_NEAR(encoded(0.18f), 117.6f, 0.6f);
  EXPECT_NEAR(encoded(0.5f), 187.5f, 0.6f);
  EXPECT_NEAR(encoded(0.0031308f), 255 * 0.04045f, 0.01f);
  EXPECT_NEAR(encoded(1), 255, 1e-3f);
}

// Property: what is up to five times as bright as white is told apart still.
TEST(Develop, LightsAreRolledOff) {
  Photo photo;
  photo.width = 5;
  photo.height = 1;
  photo.surface.assign(5, 0);
  photo.distance_m.assign(5, 1);
  for (const float light : {0.4f, 0.8f, 1.5f, 3.0f, 5.0f}) photo.light.push_back({light, light, light});
  const Developed made = develop(photo, 1);
  for (std::size_t i = 1; i < 5; ++i) EXPECT_GT(made.argb[i] & 255, made.argb[i - 1] & 255) << i;
  EXPECT_EQ(made.argb[4] & 255, 255u);
}

// Common practice, no source: a picture is exposed by its middle tone, that of the half of its pixels that is
// darker: so much as makes it 0.36 of white.
TEST(Develop, ExposesByTheMiddleTone) {
  Photo photo;
  photo.width = 100;
  photo.height = 1;
  photo.surface.assign(100, 0);
  photo.distance_m.assign(100, 1);
  for (int i = 0; i < 100; ++i) photo.light.push_back(i < 60 ? Colour{2, 2, 2} : Colour{3, 3, 3});
  EXPECT_NEAR(exposureOf(photo), 0.36 / 2, 1e-6);
}

// Closed form: a figure that faces east has its right hand in the south; out of its frame and in again is no way.
TEST(Figures, FaceWhereTheyAreTold) {
  const Figure figure{{3, 4, 0}, 2, 90};
  EXPECT_NEAR(norm(fromFigure(figure, {0, 1, 0}) - Vec3{1, 0, 0}), 0, 1e-12);
  EXPECT_NEAR(norm(fromFigure(figure, {1, 0, 0}) - Vec3{0, -1, 0}), 0, 1e-12);
  const Vec3 in{0.1, 0.3, 0.7};
  EXPECT_NEAR(norm(inFigure(figure, figure.at_m + fromFigure(figure, in) * 2) - in), 0, 1e-12);
}

// Property: an imager's view keeps its masks and the part that is judged.
TEST(ViewOf, KeepsTheJudgedFrame) {
  design::PosedImager posed;
  posed.pixels = {400, 300};
  posed.frame_low_px = {10, 20};
  posed.frame_high_px = {390, 280};
  posed.masks_px = {{{0, 0}, {5, 0}, {5, 5}}};
  const View view = viewOf(posed);
  EXPECT_EQ(view.frame_low_px, (Vec2{10, 20}));
  EXPECT_EQ(view.frame_high_px, (Vec2{390, 280}));
  EXPECT_EQ(view.masks_px, posed.masks_px);
}

// Closed form: level ahead at 5 m and 1000 px/rad a metre is 200 px; a point half a metre aside and one
// half a metre up lie 100 px off the middle. All of what is asked for is shown, no more than so many
// pixels of it, and none beyond the picture's edge.
TEST(FramingOf, ShowsAllThatIsAskedFor) {
  const View view = level({0, 0, 0}, 1000, 1, {400, 300});
  const Vec3 middle{0, 5, 0};
  const std::vector<Vec3> points{{-0.5, 5, 0}, {0.5, 5, 0}, {0, 5, 0.5}};
  const auto all = framingOf(view, {1, 1}, middle, points, 500);
  ASSERT_TRUE(all);
  EXPECT_EQ(all->part, (Size{200, 100}));
  EXPECT_EQ(all->part_at, (Vec2{100, 50}));
  const auto halved = framingOf(view, {0.5, 0.5}, middle, points, 500);
  EXPECT_EQ(halved->part, (Size{100, 50}));
  EXPECT_EQ(framingOf(view, {1, 1}, middle, points, 80)->part, (Size{80, 40}));
  const std::vector<Vec3> beyond{{-3, 5, 0}, {3, 5, 1}};
  EXPECT_EQ(framingOf(view, {1, 1}, middle, beyond, 500)->part, (Size{400, 150}));
  EXPECT_FALSE(framingOf(view, {1, 1}, {9, 5, 0}, points, 500));
}

}  // namespace
}  // namespace belvedere::picture
