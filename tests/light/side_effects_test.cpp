// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/side_effects.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/units.h"
#include "made_up.h"

namespace belvedere::light {
namespace {

design::PosedImager looking(const char* name, Vec3 lens, double pan, double tilt, double hfov = 90) {
  design::PosedImager view;
  view.housing = {name};
  view.imager = std::string(name) + ".1";
  view.lens_m = lens;
  view.pixels = {1920, 1080};
  view.imager_from_site = design::imagerFromSite(pan, tilt, 0);
  view.lens = optics::RadialLens{960 / std::tan(degToRad(0.5 * hfov)), 1, {960, 540}};
  return view;
}

Lamp lampOf(const char* housing, Vec3 at_m, Vec3 axis, double range_m = 30) {
  Lamp one = lamp(at_m, axis, range_m, 60);
  one.housing = {housing};
  one.name = std::string(housing) + " lamp 1";
  return one;
}

// By hand: two cameras 20 m apart that look at each other; the lamp stands in the middle of the
// picture and gives (30/20)^2. Turned away by 90 deg it gives 0.5^9; a wall between hides it.
TEST(LampsInFrame, TwoCamerasThatLookAtEachOther) {
  const std::vector<design::PosedImager> views{looking("C1", {0, 0, 3}, 0, 0)};
  const std::vector<Lamp> facing{lampOf("C2", {0, 20, 3}, {0, -1, 0}), lampOf("C1", {0, 0, 3}, {0, 1, 0})};
  const auto found = lampsInFrame(facing, views, {});
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].lamp, "C2 lamp 1");
  EXPECT_EQ(found[0].imager, "C1.1");
  EXPECT_NEAR(found[0].at_px.x, 960, 1e-9);
  EXPECT_NEAR(found[0].share, 2.25, 1e-12);
  EXPECT_NEAR(found[0].off_beam_deg, 0, 1e-9);
  EXPECT_TRUE(lampsInFrame({lampOf("C2", {0, 20, 3}, {1, 0, 0})}, views, {}).empty());
  EXPECT_TRUE(lampsInFrame({lampOf("C2", {0, -20, 3}, {0, 1, 0})}, views, {}).empty());
  // Its own lamp, on an arm before it, is no neighbour's.
  EXPECT_EQ(lampsInFrame({lampOf("C2", {0, 0.5, 3}, {0, -1, 0})}, views, {}).size(), 1u);
  EXPECT_TRUE(lampsInFrame({lampOf("C1", {0, 0.5, 3}, {0, -1, 0})}, views, {}).empty());
  scene::Scene scene;
  addBox(scene, {-5, 10, 0}, {5, 10.2, 5});
  const MadeUpSolids walled = madeUp(scene);
  EXPECT_TRUE(lampsInFrame(facing, views, walled.solids()).empty());
}

// By hand: a canopy 0.4 m above the beam's upper edge, a ledge 0.5 m ahead and below; the wall that
// the camera hangs on does not count, nor does what is 1.2 m away.
TEST(NearSurfaces, CanopyAndLedgeWithinAMetre) {
  scene::Scene scene;
  addBox(scene, {-5, -0.3, 0}, {5, 0, 6});            // own wall: the lamp sits on its face
  addBox(scene, {-1, 0.4, 2.5}, {1, 0.6, 2.8});       // ledge
  addBox(scene, {-5, 1.2, 0}, {5, 1.4, 6}, 0, 0);     // too far
  scene.sources[0].id = "wall";
  scene.sources[1].id = "ledge";
  scene.sources[2].id = "far";
  const MadeUpSolids made = madeUp(scene);
  const std::vector<Lamp> lamps{lampOf("C1", {0, 0, 3}, {0, 1, -0.3})};
  const auto found = nearSurfaces(lamps, {looking("C1", {0, 0.05, 3}, 0, 30), looking("C2", {0, 0.05, 3}, 0, 30)},
                                  made.solids());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].of, "ledge");
  ASSERT_EQ(found[0].in_picture_of.size(), 1u);
  EXPECT_EQ(found[0].in_picture_of[0].imager, "C1.1");
  // Its nearest edge is 0.4 m ahead and 0.2 m below.
  EXPECT_NEAR(found[0].nearest_m, std::hypot(0.4, 0.2), 0.03);
  EXPECT_GT(found[0].in_picture_of[0].spot.share, 500);
  EXPECT_TRUE(nearSurfaces({lampOf("C1", {0, 0, 3}, {0, 1, 0.9})}, {}, made.solids()).empty());
}

// Closed form, inverse square and cosine: a lamp of 30 m a half metre off a board gives (30/0.5)^2 = 3600 of
// its light square on it, and cos 45 of that on one turned by 45 deg.
TEST(NearSurfaces, ShareIsOnTheSurfaceAsItLies) {
  for (const double turn_deg : {0.0, 45.0}) {
    const double c = std::cos(degToRad(turn_deg)), s = std::sin(degToRad(turn_deg));
    const Vec2 m{0, 0.5}, u{c, s}, n{-s, c};
    scene::Scene scene;
    scene.sources.push_back({"board", 0, 0});
    scene::addPrism(scene, {m - u * 2, m + u * 2, m + u * 2 + n * 0.01, m - u * 2 + n * 0.01},
                    std::vector<double>(4, 0.0), std::vector<double>(4, 6.0), 0);
    const MadeUpSolids made = madeUp(scene);
    Lamp spot = lampOf("C1", {0, 0, 3}, {0, 1, 0});
    spot.half_beam_rad = degToRad(1.0);
    const auto found = nearSurfaces({spot}, {}, made.solids());
    ASSERT_EQ(found.size(), 1u);
    EXPECT_NEAR(std::ranges::max(found[0].spots, {}, &NearSpot::share).share, 3600 * c, 0.02 * 3600);
  }
}

// By hand: a ledge 0.13 m under the lamp and lens runs on for 0.9 m. Its brightest spot lies steeply below, out of the
// picture, whose lower edge is 59/2 deg under its axis: what shows of the ledge begins 0.13 / tan(29.4 deg) = 0.23 m
// ahead, and is as bright there as the law of distance makes it. Who looks 35 deg up does not see it.
TEST(NearSurfaces, WhatShowsIsNotTheBrightest) {
  scene::Scene scene;
  addBox(scene, {-1, -0.2, 2.5}, {1, 0.9, 2.87});
  scene.sources[0].id = "ledge";
  const MadeUpSolids made = madeUp(scene);
  const std::vector<Lamp> lamps{lampOf("C1", {0, 0, 3}, normalized(Vec3{0, 1, -0.5}))};
  const auto found = nearSurfaces(lamps, {looking("C1", {0, 0, 3}, 0, 35), looking("C1", {0, 0, 3}, 0, 0),
                                          looking("C1", {0, 0, 3}, 0, -35)}, made.solids());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(found[0].nearest_m, 0.13, 0.02);
  ASSERT_EQ(found[0].in_picture_of.size(), 2u);
  const SpotInPicture &down = found[0].in_picture_of[0], &level = found[0].in_picture_of[1];
  EXPECT_EQ(down.view, 0u);
  EXPECT_EQ(level.view, 1u);
  EXPECT_GT(down.spot.share, level.spot.share);
  EXPECT_NEAR(level.spot.distance_m, 0.13 / std::sin(std::atan2(540.0, 960.0)), 0.03);
  EXPECT_GT(level.at_px.y, 1000);
  // A board right before the lens hides it.
  addBox(scene, {-1, 0.02, 2.87}, {1, 0.03, 2.9999}, 0, 0);
  scene.sources[1].id = "board";
  const MadeUpSolids boarded = madeUp(scene);
  EXPECT_FALSE(brightestInPicture(found[0].spots, looking("C1", {0, 0, 2.95}, 0, 0), boarded.solids(),
                                  scene::Band::infrared));
}

// Closed form: square before a pane the lamp is mirrored where the perpendicular meets it, with the
// path twice the distance; a pane turned by 30 deg throws it out of the picture.
TEST(MirroredLamps, MirrorRayHitsTheLens) {
  design::Design design;
  design.site.materials.push_back({{"mirror"}, "", {0}, {0}, {0.9}});
  design::Solid solid;
  solid.id = {"looking_glass"};
  solid.material = {"mirror"};
  design.site.solids.push_back(solid);
  scene::Scene scene;
  addBox(scene, {-2, 4, 0}, {2, 4.01, 4}, 0.9, 0.5);
  scene.sources[0].id = "pane";
  const std::vector<Lamp> lamps{lampOf("C1", {0, 0, 3}, {0, 1, 0})};
  const std::vector<design::PosedImager> views{looking("C1", {0.2, 0, 3}, 0, 0)};
  const MadeUpSolids glazed = madeUp(scene);
  auto found = mirroredLamps(design, lamps, views, glazed.solids());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].of, "pane");
  EXPECT_NEAR(norm(found[0].at_m - Vec3{0.1, 4, 3}), 0, 1e-9);
  EXPECT_NEAR(found[0].path_m, std::hypot(8, 0.2), 1e-9);
  EXPECT_NEAR(found[0].share, 0.08 * 900 / (64.04) * beamShare(std::atan2(0.1, 4), degToRad(30.0)), 1e-9);
  // The image lies 8 m ahead, 0.2 m to the left.
  EXPECT_NEAR(found[0].at_px.x, 960 - 960 * 0.2 / 8, 1e-6);
  scene.sources[0].id = "looking_glass";
  scene.sources[0].light = 0;
  const MadeUpSolids mirror = madeUp(scene);
  found = mirroredLamps(design, lamps, views, mirror.solids());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].thrown_back, 0.9);
  // Out of the picture, and beside the pane.
  EXPECT_TRUE(mirroredLamps(design, lamps, {looking("C1", {0.2, 0, 3}, 50, 0, 60)}, mirror.solids()).empty());
  EXPECT_TRUE(mirroredLamps(design, {lampOf("C1", {5, 0, 3}, {0, 1, 0})}, {looking("C1", {5, 0, 3}, 0, 0)},
                            mirror.solids()).empty());
  scene::Scene turned;
  turned.sources.push_back({"pane", 0.9, 0.5});
  const double c = std::cos(degToRad(30.0)), s = std::sin(degToRad(30.0));
  const Vec2 m{0, 4}, u{c, s}, n{-s, c};
  scene::addPrism(turned, {m - u * 2, m + u * 2, m + u * 2 + n * 0.01, m - u * 2 + n * 0.01},
                  std::vector<double>(4, 0.0), std::vector<double>(4, 4.0), 0);
  const MadeUpSolids oblique = madeUp(turned);
  EXPECT_TRUE(mirroredLamps(design, lamps, {looking("C1", {0.2, 0, 3}, 0, 0, 40)}, oblique.solids()).empty());
}

// Common practice, no source: hedges and screens mirror nothing.
TEST(MirroredLamps, HedgesAndScreensAreNoPanes) {
  design::Design design;
  design::Solid hedge;
  hedge.id = {"hedge"};
  hedge.kind = design::SolidKind::foliage;
  design.site.solids.push_back(hedge);
  design::Opening window;
  window.id = {"dark_window"};
  design.site.buildings.emplace_back().storeys.emplace_back().walls.emplace_back().openings = {window};
  const std::vector<Lamp> lamps{lampOf("C1", {0, 0, 3}, {0, 1, 0})};
  const std::vector<design::PosedImager> views{looking("C1", {0.2, 0, 3}, 0, 0)};
  const auto mirrored = [&](const char* id, double light) {
    scene::Scene scene;
    addBox(scene, {-2, 4, 0}, {2, 4.01, 4}, light, 0.5);
    scene.sources[0].id = id;
    const MadeUpSolids solids = madeUp(scene);
    const std::size_t through = lampsThroughGlass(design, lamps, views, solids.solids()).size();
    EXPECT_EQ(mirroredLamps(design, lamps, views, solids.solids()).size(), through) << id;
    return through;
  };
  EXPECT_EQ(mirrored("hedge", 0.7), 0u);
  EXPECT_EQ(mirrored("screen", 0.4), 0u);
  EXPECT_EQ(mirrored("pane", 0.7), 1u);
  EXPECT_EQ(mirrored("dark_window", 0.4), 1u);
}

TEST(ThroughGlass, WeakensInfraredTwice) {
  scene::Scene scene;
  addBox(scene, {-2, 2, 0}, {2, 2.01, 4}, 0.9, 0.5);
  const MadeUpSolids glazed = madeUp(scene);
  const std::vector<design::PosedImager> views{looking("C1", {0, 0, 3}, 0, 0)};
  const auto found = lampsThroughGlass({}, {lampOf("C1", {0, 0, 3}, {0, 1, 0})}, views, glazed.solids());
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(found[0].distance_m, 2, 1e-9);
  EXPECT_NEAR(found[0].infrared_twice, 0.25, 1e-12);
  EXPECT_TRUE(lampsThroughGlass({}, {lampOf("C2", {0, 0, 3}, {0, 1, 0})}, views, glazed.solids()).empty());
}

// Closed form: lens and lamp alike on either side of the centre of a sphere: straight above and below
// the middle between them, and (beyond R = distance) nowhere else but in line with both. Property:
// at each place the angles in and out agree.
TEST(CoverReflections, ObeyTheMirror) {
  for (const auto& [lens, lamp, radius] :
       {std::tuple{Vec3{-0.02, 0, 0}, Vec3{0.02, 0, 0}, 0.06}, std::tuple{Vec3{0.01, 0.02, 0}, Vec3{0.03, -0.01, 0.01}, 0.05},
        std::tuple{Vec3{0, 0, 0.01}, Vec3{0, 0.03, 0}, 0.07}}) {
    const auto places = coverReflections(lens, lamp, {}, radius);
    EXPECT_GE(places.size(), 2u);
    EXPECT_LE(places.size(), 4u);
    for (const Vec3& p : places) {
      EXPECT_NEAR(norm(p), radius, 1e-12);
      const Vec3 n = normalized(p), in = normalized(p - lamp), out = normalized(lens - p);
      EXPECT_NEAR(norm(in - n * (2 * dot(n, in)) - out), 0, 1e-9);
    }
  }
  const auto even = coverReflections({-0.02, 0, 0}, {0.02, 0, 0}, {}, 0.06);
  EXPECT_TRUE(std::any_of(even.begin(), even.end(), [](const Vec3& p) { return std::fabs(p.x) < 1e-9; }));
}

// Closed form, the mirror: a pane at y = 5 shows a lamp at (2, 0) to a lens at (-2, 0) at (0, 5), in line
// with its image at (2, 10); past the pane's end nothing is thrown back.
TEST(LampSideEffects, AMirrorRayThatHitsTheLensIsFlagged) {
  const auto found = [](double pane_from_x) {
    scene::Scene scene;
    addBox(scene, {pane_from_x, 5, 0}, {6, 5.01, 6}, 0.8, 0.8);
    const MadeUpSolids glazed = madeUp(scene);
    return mirroredLamps({}, {lampOf("C1", {2, 0, 3}, {0, 1, 0})}, {looking("C1", {-2, 0, 3}, 0, 0)},
                         glazed.solids());
  };
  const auto flagged = found(-6);
  ASSERT_GE(flagged.size(), 1u);
  EXPECT_NEAR(norm(flagged[0].at_m - Vec3{0, 5, 3}), 0, 1e-9);
  EXPECT_NEAR(flagged[0].at_px.x, 960 + 960 * 4.0 / 10, 1e-6);
  EXPECT_TRUE(found(0.1).empty());
  // A board across the way there, or the way back, stops the ray.
  for (const double x : {1.0, -1.0}) {
    scene::Scene scene;
    addBox(scene, {-6, 5, 0}, {6, 5.01, 6}, 0.8, 0.8);
    addBox(scene, {x - 0.2, 2.4, 0}, {x + 0.2, 2.6, 6});
    const MadeUpSolids made = madeUp(scene);
    EXPECT_TRUE(mirroredLamps({}, {lampOf("C1", {2, 0, 3}, {0, 1, 0})}, {looking("C1", {-2, 0, 3}, 0, 0)},
                              made.solids()).empty()) << x;
  }
}

// Closed form: at the stated distance the lamps of a housing together give the lasting limit of IEC 62471
// (100 W/m2, from memory), and each by itself no more: the distance is never below any lamp's own.
TEST(LampSideEffects, TheStatedDistanceIsNeverBelowALampsOwnLimit) {
  std::vector<Lamp> lamps;
  for (const double intensity : {0.4, 2.0, 7.5}) {
    lamps.push_back(lampOf("C1", {}, {0, 1, 0}));
    lamps.back().intensity_w_per_sr = intensity;
    const auto found = eyeExposures(lamps);
    ASSERT_EQ(found.size(), 1u);
    const double at_m = found[0].lasting_from_m.value();
    double sum = 0;
    for (const Lamp& lamp : lamps) {
      EXPECT_GE(at_m, std::sqrt(*lamp.intensity_w_per_sr / 100) - 1e-12);
      sum += *lamp.intensity_w_per_sr / (at_m * at_m);
    }
    EXPECT_NEAR(sum, 100, 1e-9);
  }
}

// A dome of 60 mm about (0, 0, 3), named C1.
design::Design dome(double radius_mm = 60) {
  design::Design design;
  design::Model model;
  model.id = {"dome"};
  model.cover_radius_mm = radius_mm;
  design.catalogue.models.push_back(model);
  design::Housing housing;
  housing.id = {"C1"};
  housing.model = {"dome"};
  housing.mount.fixing_m = {0, 0, 3};
  design.housings.push_back(housing);
  return design;
}

// Closed form, law of reflection on a sphere of radius R: lens and lamp e to either side of its centre
// mirror each other all round the circle halfway between them. Straight ahead that is R on and e
// beside the lens, 960 e/R px off the middle of a picture of 90 deg; there and back it is 2 sqrt(R^2 + e^2).
TEST(LampsInCover, HalfwayBetweenLensAndLamp) {
  const Vec3 lens{-0.02, 0, 3};
  const Lamp lamp = lampOf("C1", {0.02, 0, 3}, {0, 1, 0}, 20);
  const auto found = lampsInCover(dome(), {lamp}, {looking("C1", lens, 0, 0)});
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].lamp, "C1 lamp 1");
  EXPECT_NEAR(norm(found[0].at_m - Vec3{0, 0.06, 3}), 0, 1e-9);
  EXPECT_NEAR(found[0].at_px.x, 960 + 960 * 0.02 / 0.06, 1e-6);
  EXPECT_NEAR(found[0].at_px.y, 540, 1e-6);
  EXPECT_NEAR(found[0].lens_off_m, 0.02, 1e-12);
  EXPECT_NEAR(found[0].lamp_off_m, 0.02, 1e-12);
  const double path_m = 2 * std::hypot(0.06, 0.02);
  const double off_deg = radToDeg(std::atan2(0.02, 0.06));  // of a beam of 60 deg
  EXPECT_NEAR(found[0].share, 400 / (path_m * path_m) * 0.08 * std::exp2(-off_deg * off_deg / 900), 1e-6);
  // Between the circle and the end of the line through both, or with the lamp outside the sphere, nothing
  // is seen; at that end, due west, the light comes straight back.
  EXPECT_TRUE(lampsInCover(dome(), {lamp}, {looking("C1", lens, 315, 0, 20)}).empty());
  const auto behind = lampsInCover(dome(), {lamp}, {looking("C1", lens, 270, 0, 20)});
  ASSERT_EQ(behind.size(), 1u);
  EXPECT_NEAR(norm(behind[0].at_m - Vec3{-0.06, 0, 3}), 0, 1e-9);
  EXPECT_TRUE(lampsInCover(dome(), {lampOf("C1", {0.07, 0, 3}, {0, 1, 0})}, {looking("C1", lens, 0, 0)}).empty());
  design::Design bare = dome();
  bare.catalogue.models[0].cover_radius_mm.reset();
  EXPECT_TRUE(lampsInCover(bare, {lamp}, {looking("C1", lens, 0, 0)}).empty());
  // The lamp of another housing does not shine from beneath this cover.
  EXPECT_TRUE(lampsInCover(dome(), {lampOf("C2", {0.02, 0, 3}, {0, 1, 0})}, {looking("C1", lens, 0, 0)}).empty());
}

// Closed form: from behind the centre, light goes out along a radius and comes back to a lens on it.
TEST(LampsInCover, InLineWithTheCentre) {
  const auto found = lampsInCover(dome(), {lampOf("C1", {0, -0.03, 3}, {0, 1, 0})},
                                  {looking("C1", {0, 0, 3}, 10, 0)});
  ASSERT_EQ(found.size(), 1u);
  EXPECT_NEAR(norm(found[0].at_m - Vec3{0, 0.06, 3}), 0, 1e-9);
  EXPECT_NEAR(found[0].at_px.x, 960 - 960 * std::tan(degToRad(10)), 1e-6);
  // From behind the cover it does not come through it again.
  EXPECT_TRUE(lampsInCover(dome(), {lampOf("C1", {0, -0.07, 3}, {0, 1, 0})}, {looking("C1", {0, 0, 3}, 10, 0)}).empty());
  // Both in the centre, all of the cover throws back: also what the middle of the picture shows.
  const auto all = lampsInCover(dome(), {lampOf("C1", {0, 0, 3}, {0, 1, 0})}, {looking("C1", {0, 0, 3}, 10, 0)});
  ASSERT_EQ(all.size(), 1u);
  EXPECT_NEAR(all[0].at_px.x, 960, 1e-6);
}

// Published: IEC 62471:2006 as applied in a public question, 4182.63 W/m2 for 7 s. Closed form:
// 5 W/sr keep below 100 W/m2 from 0.2236 m on.
TEST(EyeExposure, LimitsAndDistances) {
  EXPECT_NEAR(eyeLimitWPerM2(7), 4182.63, 0.1);
  EXPECT_NEAR(eyeLimitWPerM2(1000), 101.2, 0.1);
  EXPECT_EQ(eyeLimitWPerM2(1001), 100);
  Lamp one = lampOf("C1", {}, {0, 1, 0});
  one.intensity_w_per_sr = 2;
  Lamp two = one;
  two.intensity_w_per_sr = 3;
  Lamp white = one;
  white.wave_nm = 555;
  const auto found = eyeExposures({one, two, white});
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].lamps.size(), 2u);
  EXPECT_NEAR(found[0].lasting_from_m.value(), 0.2236067977, 1e-9);
  EXPECT_EQ(found[0].group, RiskGroup::one);  // 125 W/m2 at 0.2 m
  // IEC 62471, from memory: at 0.2 m up to 100 W/m2 are exempt, to 570 group 1, to 3200 group 2.
  for (const auto& [w_per_m2, group] : {std::pair{99.0, RiskGroup::exempt}, {101.0, RiskGroup::one},
                                        {569.0, RiskGroup::one}, {571.0, RiskGroup::two},
                                        {3199.0, RiskGroup::two}, {3201.0, RiskGroup::three}}) {
    one.intensity_w_per_sr = w_per_m2 * 0.2 * 0.2;
    EXPECT_EQ(eyeExposures({one})[0].group, group) << w_per_m2;
  }
  two.intensity_w_per_sr.reset();
  EXPECT_FALSE(eyeExposures({one, two})[0].lasting_from_m);
  EXPECT_FALSE(eyeExposures({two, one})[0].group);
}

}  // namespace
}  // namespace belvedere::light
