// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <random>

#include "base/units.h"
#include "design/task_table.h"
#include "made_up.h"
#include "optics/density.h"

namespace belvedere::picture {
namespace {

// Closed form: x = cx + f X/Z, y = cy - f (height)/Z.
TEST(Picture, PinholeShowsACornerAtItsPlace) {
  const View view = level({0, 0, 0}, 500, 1, {1000, 1000});
  const auto place = placeOf(view, {1000, 1000}, {2, 4, 1});
  ASSERT_TRUE(place);
  EXPECT_NEAR(place->x, 750, 1e-9);
  EXPECT_NEAR(place->y, 375, 1e-9);
  EXPECT_NEAR(placeOf(view, {1000, 500}, {2, 4, 1})->y, 187.5, 1e-9);  // squeezed
  scene::Scene scene;
  addBox(scene, {-2, 4, -3}, {2, 4.5, 1}, addSource(scene, "box"));
  const scene::RayCaster caster(scene);
  const Picture picture = render(Subject(caster), view, plain(), {});
  EXPECT_EQ(picture.body[picture.at(749, 375)], 0);
  EXPECT_EQ(picture.body[picture.at(750, 375)], kSky);
  EXPECT_EQ(picture.body[picture.at(749, 374)], kSky);
  // At half the size, at half the place.
  Options half = plain();
  half.size = {500, 500};
  const Picture small = render(Subject(caster), view, half, {});
  EXPECT_EQ(small.body[small.at(374, 188)], 0);
  EXPECT_EQ(small.body[small.at(375, 188)], kSky);
  EXPECT_EQ(small.body[small.at(374, 186)], kSky);
}

// Property: the judged part of a picture is outlined where it begins, what lies outside it is paler, and nothing
// else changes.
TEST(Picture, TheJudgedFrameIsDrawnWhereItIs) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  View view = level({3, 2, 1.5}, 400, 1, {400, 300});
  view.frame_low_px = {100, 80};
  view.frame_high_px = {300, 200};
  Options options = plain();
  const Picture bare = render(subject, view, options, {});
  options.judged_frame = true;
  const Picture framed = render(subject, view, options, {});
  const std::uint32_t accent =
      0xff000000u | options.tones.accent.red << 16 | options.tones.accent.green << 8 | options.tones.accent.blue;
  for (const auto& [x, y] : {std::pair{100, 150}, {299, 150}, {200, 80}, {200, 199}})
    EXPECT_EQ(framed.argb[framed.at(x, y)], accent) << x << " " << y;
  EXPECT_EQ(framed.argb[framed.at(200, 150)], bare.argb[bare.at(200, 150)]);
  EXPECT_EQ(framed.argb[framed.at(105, 150)], bare.argb[bare.at(105, 150)]);
  EXPECT_NE(framed.argb[framed.at(60, 150)], bare.argb[bare.at(60, 150)]);
  EXPECT_NE(framed.argb[framed.at(200, 40)], bare.argb[bare.at(200, 40)]);
}

// Closed form: r = f theta, also behind the lens (105 degrees from the axis).
TEST(Picture, EquidistantFisheyeKeepsAngles) {
  const double f = 200;
  const Size size{1000, 1000};
  const View view = level({0, 0, 0}, f, 0, size);
  scene::Scene scene;
  const auto source = addSource(scene, "post");
  // Near edges of two posts at bearings 60 and 105 degrees.
  for (const double bearing : {60.0, 105.0}) {
    const double s = std::sin(degToRad(bearing)), c = std::cos(degToRad(bearing));
    const Vec2 ahead{s, c}, right{c, -s};
    const Vec2 a = ahead * 5, b = a + right * 0.4;
    scene::addPrism(scene, {a, b, b + ahead * 0.1, a + ahead * 0.1}, {-1, -1, -1, -1}, {1, 1, 1, 1},
                    source);
  }
  const scene::RayCaster caster(scene);
  const Picture picture = render(Subject(caster), view, plain(), {});
  for (const std::size_t post : {0u, 1u}) {
    const double x = 500 + f * degToRad(post == 0 ? 60 : 105);
    const int edge = static_cast<int>(std::lround(x));
    EXPECT_EQ(picture.body[picture.at(edge - 2, 500)], kSky);
    EXPECT_EQ(picture.body[picture.at(edge + 1, 500)], static_cast<std::int32_t>(post));
  }
}

// Closed form: an orthographic lens ends at r = f.
TEST(Picture, OutsideTheImageCircleIsPaper) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  Options options = plain();
  options.lines = options.smooth = options.contact_shade = true;
  const Picture picture = render(subject, level({3, 2, 1.5}, 150, -1, {400, 400}), options, {});
  const std::uint32_t paper = 0xfffbfaf6;
  for (int y = 0; y < 400; ++y)
    for (int x = 0; x < 400; ++x) {
      const double r = std::hypot(x + 0.5 - 200, y + 0.5 - 200);
      if (r > 150) {
        ASSERT_EQ(picture.body[picture.at(x, y)], kOutside);
      }
      if (r < 149.99) {
        ASSERT_GE(picture.body[picture.at(x, y)], 0);
      }
      if (r > 152) {
        ASSERT_EQ(picture.argb[picture.at(x, y)], paper);
      }
    }
}

// Property: a closed room shows no sky, whatever the lens, from anywhere in it.
TEST(Picture, ClosedRoomHasNoSky) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  for (const double k : {1.0, 0.5, 0.0, -0.5})
    for (const Vec3 eye : {Vec3{3, 2, 1.5}, {0.02, 0.02, 2.98}, {5.9, 3.9, 0.1}, {3, 2, 3}}) {
      const Picture picture =
          render(subject, level(eye, 260, k, {640, 480}, 37, 30), plain(), {});
      for (std::size_t i = 0; i < picture.body.size(); ++i) {
        ASSERT_GE(picture.body[i], 0) << k << " " << i;
        ASSERT_LT(picture.distance_m[i], 8.1f);
      }
    }
}

// Property: what the picture says of a pixel is what the pixel's own ray hits first, but where
// rays a fiftieth of a pixel aside differ.
TEST(Picture, IdentityIsThatOfThePixelsRay) {
  scene::Scene scene = closedRoom();
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(0, 1);
  const auto stuff = addSource(scene, "stuff");
  for (int i = 0; i < 60; ++i) {
    const Vec3 low{5.5 * any(random), 3.5 * any(random), 2 * any(random)};
    addBox(scene, low, low + Vec3{0.05 + 0.3 * any(random), 0.05 + 0.3 * any(random), 0.3}, stuff);
  }
  const scene::RayCaster caster(scene);
  const Size size{640, 360};
  View view = level({0.1, 0.1, 2.9}, 300, 1, size, 50, 30);
  for (int lens = 0; lens < 3; ++lens) {
    if (lens == 1) view.lens = optics::RadialLens{200, 0, {320, 180}};
    if (lens == 2)
      view.lens = optics::makeBrownConrady({350, 350}, {320, 180}, {-0.2, 0.04, 1e-3, -1e-3, 0});
    const Picture picture = render(Subject(caster), view, plain(), {});
    const auto bodyAt = [&](Vec2 place) {
      const Vec3 d = rayOf(view, size, place).value();
      scene::RayPacket rays;
      scene::HitPacket hit;
      rays.x[0] = static_cast<float>(d.x);
      rays.y[0] = static_cast<float>(d.y);
      rays.z[0] = static_cast<float>(d.z);
      rays.near_m[0] = 1e-3f;
      rays.far_m[0] = 1e6f;
      rays.traced[0] = -1;
      caster.nearest(view.eye_m, rays, scene::StopsAt::all, hit);
      return static_cast<std::int32_t>(caster.triangle(hit.triangle[0]).body);
    };
    int differ = 0;
    for (int y = 0; y < size[1]; y += 3)
      for (int x = 0; x < size[0]; x += 3) {
        const Vec2 middle{x + 0.5, y + 0.5};
        const std::int32_t found = picture.body[picture.at(x, y)];
        if (found == bodyAt(middle)) continue;
        ++differ;
        bool near = false;
        for (const Vec2 aside : {Vec2{0.02, 0}, {-0.02, 0}, {0, 0.02}, {0, -0.02}})
          near |= bodyAt(middle + aside) == found;
        EXPECT_TRUE(near) << x << " " << y;
      }
    EXPECT_LT(differ, 40);
  }
}

// Property: the same bytes at any number of threads, and whether or not coarse passes went before.
TEST(Picture, SameBytesAtAnyThreadCount) {
  scene::Scene scene = closedRoom();
  addBox(scene, {2, 2.5, 0}, {2.5, 3, 1.2}, addSource(scene, "bush", 0.3));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  Options options;
  options.grid_m = {0};
  options.figures = {{{3, 3, 0}, 1.75, 180}};
  const View view = level({0.3, 0.3, 2.6}, 260, 1, {500, 333}, 45, 25);
  std::vector<Picture> pictures;
  for (const std::size_t threads : {1u, 2u, 7u}) {
    tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    pictures.push_back(render(subject, view, options, {}));
  }
  Renderer slow(subject, view, options);
  for (const int step : {8, 4, 2}) {
    const Picture& coarse = slow.pass(step, {});
    EXPECT_EQ(coarse.step, step);
    EXPECT_EQ(coarse.argb[0], coarse.argb[coarse.at(step - 1, step - 1)]);
  }
  pictures.push_back(slow.pass(1, {}));
  for (const Picture& picture : pictures) {
    EXPECT_TRUE(picture.argb == pictures[0].argb);
    EXPECT_TRUE(picture.distance_m == pictures[0].distance_m);
    EXPECT_TRUE(picture.surface == pictures[0].surface);
    EXPECT_TRUE(picture.body == pictures[0].body);
  }
}

TEST(Picture, CancelledPassCanBeAskedForAgain) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const View view = level({0.3, 0.3, 2.6}, 260, 1, {320, 240}, 45, 25);
  Renderer renderer(subject, view, {});
  Progress progress;
  renderer.pass(4, progress);
  progress.cancel = true;
  EXPECT_THROW(renderer.pass(1, progress), Cancelled);
  progress.cancel = false;
  EXPECT_TRUE(renderer.pass(1, progress).argb == render(subject, view, {}, {}).argb);
  // And another view in its place.
  const View other = level({3, 2, 1}, 260, 1, {320, 240}, 100, 0);
  renderer.look(other);
  EXPECT_TRUE(renderer.pass(1, progress).argb == render(subject, other, {}, {}).argb);
}

// Property: what lets light pass is seen through and tints; what is behind is named.
TEST(Picture, WindowsAndFoliageAreSeenThrough) {
  scene::Scene scene = closedRoom();
  const View view = level({3, 0.5, 1.5}, 100, 1, {60, 60});
  const auto middle = [&](const scene::Scene& of) {
    const scene::RayCaster caster(of);
    const Picture p = render(Subject(caster), view, plain(), {});
    EXPECT_EQ(p.body[p.at(30, 30)], 3);  // the north wall
    EXPECT_NEAR(p.distance_m[p.at(30, 30)], 3.5f, 1e-3f);
    return p.argb[p.at(30, 30)] & 255;
  };
  const auto clear = middle(scene);
  addBox(scene, {2, 2, 0}, {4, 2.02, 3}, addSource(scene, "glass", 1));
  EXPECT_NE(clear, middle(scene));
  addBox(scene, {2, 3, 0}, {4, 3.5, 3}, addSource(scene, "hedge", 0.2));
  middle(scene);
  // Before the sky, half of the hedge's tone and half of the sky's.
  const auto alone = [&](double light) {
    scene::Scene of;
    addBox(of, {2, 3, 0}, {4, 3.5, 3}, addSource(of, "hedge", light));
    const scene::RayCaster caster(of);
    const Picture p = render(Subject(caster), view, plain(), {});
    return static_cast<double>(p.argb[p.at(30, 30)] & 255);
  };
  const double paper = Tones{}.paper.blue;
  EXPECT_LT(alone(0), paper - 10);
  EXPECT_NEAR(alone(0.5), 0.5 * (alone(0) + paper), 1.5);
}

// Property: the section shows what it cuts, and what lies below through where it cuts nothing.
TEST(Picture, CutShowsSectionAndLooksIn) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  Options options = plain();
  options.cut_m = 1.5;
  // Straight down from 10 m, 50 px/m at the cut; north is up.
  const View view = level({3, 2, 11.5}, 500, 1, {400, 300}, 0, 90);
  const Renderer renderer = [&] {
    static const Subject subject(caster);
    Renderer made(subject, view, options);
    made.pass(1, {});
    return made;
  }();
  const Picture& p = renderer.picture();
  EXPECT_EQ(p.body[p.at(200, 150)], 0);  // the floor
  EXPECT_NEAR(p.distance_m[p.at(200, 150)], 11.5f, 1e-3f);
  const auto west = placeOf(view, {400, 300}, {-0.1, 2, 1.5}).value();
  EXPECT_EQ(p.body[p.at(static_cast<int>(west.x), static_cast<int>(west.y))], 4);
  const auto spot = spotAt(renderer, west);
  ASSERT_TRUE(spot);
  EXPECT_EQ(spot->source, "west");
  EXPECT_NEAR(spot->at_m.z, 1.5, 1e-9);
}

// Closed form: a ray meets the floor where eye height over slope says.
TEST(Picture, SpotsGoThereAndBack) {
  const scene::Scene scene = closedRoom();
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  Options options = plain();
  options.size = {320, 240};
  options.figures = {{{3, 3, 0}, 1.75, 180}};
  View view = level({1, 0.2, 2.5}, 640, 1, {640, 480}, 20, 30);
  view.masks_px = {{{0, 0}, {100, 0}, {100, 100}, {0, 100}}};
  Renderer renderer(subject, view, options);
  renderer.pass(1, {});
  const auto place = placeOf(view, options.size, {1.8, 2.6, 0});
  ASSERT_TRUE(place);
  const auto spot = spotAt(renderer, *place);
  ASSERT_TRUE(spot);
  EXPECT_EQ(spot->source, "floor");
  EXPECT_NEAR(norm(spot->at_m - Vec3{1.8, 2.6, 0}), 0, 1e-9);
  EXPECT_EQ(spot->normal, (Vec3{0, 0, 1}));
  const auto chest = placeOf(view, options.size, {3, 3, 1.2});
  ASSERT_TRUE(chest);
  const auto on_figure = spotAt(renderer, *chest);
  ASSERT_TRUE(on_figure);
  EXPECT_EQ(on_figure->figure, 0);
  EXPECT_FALSE(spotAt(renderer, {20, 20}));
  EXPECT_EQ(renderer.picture().body[renderer.picture().at(20, 20)], kMasked);
  EXPECT_FALSE(spotAt(renderer, {-1, 20}));
}

// Closed form, worked apart from the program's own rotations and lenses: a direction's shares ahead, to the
// right and down of an axis with this bearing and tilt, divided by the first. A box of eight corners
// shows to within a pixel between the outermost of them.
TEST(SimulatedView, CornersOfSolidsWithinAPixelOfAnIndependentProjection) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> any(-1, 1);
  int shown = 0;
  for (int trial = 0; trial < 30; ++trial) {
    const double pan_deg = 180 * any(random), tilt_deg = 15 + 25 * any(random), f_px = 500;
    const double p = degToRad(pan_deg), t = degToRad(tilt_deg);
    const Vec3 eye{any(random), any(random), 3 + any(random)};
    const double far_m = 7 + 3 * any(random), bearing = p + 0.4 * any(random);
    const Vec3 low = eye + Vec3{far_m * std::sin(bearing), far_m * std::cos(bearing), -2 + any(random)};
    const Vec3 high = low + Vec3{1 + 0.5 * any(random), 1 + 0.5 * any(random), 1 + 0.5 * any(random)};
    Box2 wanted;
    for (int corner = 0; corner < 8; ++corner) {
      const Vec3 d = Vec3{corner & 1 ? high.x : low.x, corner & 2 ? high.y : low.y,
                          corner & 4 ? high.z : low.z} - eye;
      const double north = d.x * std::sin(p) + d.y * std::cos(p);  // along the bearing, level
      const double ahead = north * std::cos(t) - d.z * std::sin(t);
      const double right = d.x * std::cos(p) - d.y * std::sin(p);
      const double down = -d.z * std::cos(t) - north * std::sin(t);
      wanted.add({500 + f_px * right / ahead, 400 + f_px * down / ahead});
    }
    if (wanted.low.x < 2 || wanted.low.y < 2 || wanted.high.x > 998 || wanted.high.y > 798) continue;
    scene::Scene scene;
    addBox(scene, low, high, addSource(scene, "box"));
    const scene::RayCaster caster(scene);
    const Picture picture = render(Subject(caster), level(eye, f_px, 1, {1000, 800}, pan_deg, tilt_deg), plain(), {});
    Box2 found;
    for (int y = 0; y < 800; ++y)
      for (int x = 0; x < 1000; ++x)
        if (picture.body[picture.at(x, y)] == 0) {
          found.add({x + 0.0, y + 0.0});
          found.add({x + 1.0, y + 1.0});
        }
    EXPECT_NEAR(found.low.x, wanted.low.x, 1) << trial;
    EXPECT_NEAR(found.low.y, wanted.low.y, 1) << trial;
    EXPECT_NEAR(found.high.x, wanted.high.x, 1) << trial;
    EXPECT_NEAR(found.high.y, wanted.high.y, 1) << trial;
    ++shown;
  }
  EXPECT_GT(shown, 8);
}

// Closed form: density at distance d is f / d pixels a metre.
TEST(SimulatedView, FigureIsAsTallAsItsDensitySays) {
  const scene::Scene scene;
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  for (const double height : {1.2, 1.75, 1.95})
    for (const double distance : {15.0, 25.0}) {
      Options options = plain();
      options.figures = {{{0, distance, 0}, height, 180}};
      const View view = level({0, 0, 0.5 * height}, 1000, 1, {400, 400});
      const Picture p = render(subject, view, options, {});
      int top = 400, bottom = -1;
      for (int y = 0; y < 400; ++y)
        for (int x = 0; x < 400; ++x)
          if (p.body[p.at(x, y)] >= 0) {
            top = std::min(top, y);
            bottom = std::max(bottom, y);
          }
      EXPECT_NEAR(bottom - top + 1, 1000 / distance * height, 1.0) << height << " " << distance;
    }
}

// Closed form, with the older practice's scale (task_table.h): a person of 1.6 m who stands square before a level
// lens where the density is so many pixels a metre fills 1.6 times as many of the picture's lines. What
// the rendered picture shows is what the table and the judge's own density say.
TEST(SimulatedView, PictureHeightIsThePercentageThatTheDensitySays) {
  const scene::Scene scene;
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  for (const int lines : {400, 576, 1080})
    for (const double px_per_m : {62.5, 125.0, 200.0}) {
      const double distance_m = 5000 / px_per_m;  // far enough for its feet to be as dense as the rest
      Options options = plain();
      options.figures = {{{0, distance_m, 0}, design::kPersonHeightM, 180}};
      const View view = level({0, 0, 0.8}, 5000, 1, {300, lines});
      const auto density = optics::densityAt(view.lens, view.view_from_site, view.eye_m, {0, distance_m, 0.8}, {1, 1});
      ASSERT_TRUE(density);
      EXPECT_NEAR(density->upright_px_per_m, px_per_m, 1e-9);
      const Picture p = render(subject, view, options, {});
      int filled = 0;
      for (int y = 0; y < lines; ++y) {
        bool any = false;
        for (int x = 0; x < 300 && !any; ++x) any = p.body[p.at(x, y)] >= 0;
        filled += any;
      }
      EXPECT_NEAR(100.0 * filled / lines, design::percentOfHeight(px_per_m, lines), 2 * 100.0 / lines)
          << lines << " " << px_per_m;
    }
}

}  // namespace
}  // namespace belvedere::picture
