// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/blind.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "base/units.h"
#include "optics/lens_fit.h"

namespace belvedere::proof {
namespace {

Ring rectangle(double x0, double y0, double x1, double y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}
Region square(double half_m) { return {{rectangle(-half_m, -half_m, half_m, half_m), {}}}; }

design::PosedImager viewOf(std::array<int, 2> pixels, optics::Lens lens, Vec3 lens_m,
                           double pan_deg, double tilt_deg, double roll_deg = 0) {
  design::PosedImager view;
  view.lens_m = lens_m;
  view.imager_from_site = design::imagerFromSite(pan_deg, tilt_deg, roll_deg);
  view.lens = lens;
  view.pixels = pixels;
  view.frame_high_px = {static_cast<double>(pixels[0]), static_cast<double>(pixels[1])};
  return view;
}
// Of a horizontal field of view.
optics::RadialLens lensOf(std::array<int, 2> pixels, double hfov_deg, double k) {
  return optics::fitFocal(pixels, {hfov_deg, {}, {}}, k)->lens;
}
bool inFrame(const design::PosedImager& view, const Vec3& target) {
  const auto at = optics::project(view.lens, view.imager_from_site * (target - view.lens_m));
  return at && at->x >= view.frame_low_px.x && at->x <= view.frame_high_px.x &&
         at->y >= view.frame_low_px.y && at->y <= view.frame_high_px.y;
}

constexpr std::array<int, 2> kTestBedPixels{1920, 1080};
design::PosedImager testBed() {
  return viewOf(kTestBedPixels, lensOf(kTestBedPixels, 60, 1), {0, 0, 3}, 0, 30);
}

// A housing H at (0, 0, lens_z_m) with one imager for each pan, all alike.
struct Head {
  std::array<int, 2> pixels{2592, 1944};
  double hfov_deg = 95;
  std::string family = "rectilinear";
  double lens_z_m = 5.2, tilt_deg = 40;
  std::vector<double> pans_deg{0, 90, 180, 270};
  Vec2 at_m{};
  double outwards_m = 0;
};
design::Design designOf(const Head& head) {
  design::Model model;
  model.id.text = "M";
  design::Housing housing;
  housing.id.text = "H";
  housing.model.text = "M";
  housing.mount.fixing_m = withZ(head.at_m, head.lens_z_m);
  int slot = 0;
  for (const double pan_deg : head.pans_deg) {
    design::ModelImager imager;
    imager.slot = ++slot;
    imager.pixels = head.pixels;
    imager.lens.family = head.family;
    imager.lens.hfov_deg = {head.hfov_deg};
    imager.offset_m = {head.outwards_m, 0, 0};
    model.imagers.push_back(imager);
    design::HousingImager fitted;
    fitted.slot = slot;
    fitted.aims = {design::Aim{pan_deg, head.tilt_deg, 0, {}, {}, {}, 1}};
    housing.imagers.push_back(fitted);
  }
  design::Design design;
  design.catalogue.models = {model};
  design.housings = {housing};
  return design;
}
design::Storey storeyOf(const std::string& id, double floor_m, const Ring& outline) {
  design::Storey storey;
  storey.id.text = id;
  storey.floor_m = floor_m;
  storey.outline = outline;
  return storey;
}
design::Wall wallOf(const std::string& id, Vec2 from, Vec2 to) {
  design::Wall wall;
  wall.id.text = id;
  wall.path = {from, to};
  wall.thickness_m = 0.2;
  return wall;
}
void addBuilding(design::Design& design, std::vector<design::Storey> storeys) {
  design::Building building;
  building.id.text = "B";
  building.storeys = std::move(storeys);
  design.site.buildings.push_back(std::move(building));
}
BlindZone zoneAt(const design::Design& design, double target_height_m, int slot = 0) {
  for (BlindZone& zone : blindZones(design, design.housings[0], {}, {target_height_m}))
    if (zone.slot == slot) return zone;
  ADD_FAILURE() << "no zone of slot " << slot;
  return {};
}
double widthAt(const Region& region, double y) {
  return area(intersectionOf(region, {{rectangle(-50, y, 50, y + 1e-4), {}}})) / 1e-4;
}

// ---- the test bed: 1920 x 1080, 60 degrees, 3 m, tilt 30 ----------------------------------------

// Closed form: a trapezoid of the floor; depth (h / sin) of the two edge rows by tan(30 deg).
TEST(FrameOnPlane, ShowsTheTestBedsTrapezoid) {
  const Region frame = frameOnPlane(testBed(), 0, square(20), 1e-3);
  const Box2 box = bounds(frame);
  EXPECT_NEAR(box.low.y, 2.702, 0.0005);
  EXPECT_NEAR(box.high.y, 14.104, 0.0005);
  EXPECT_NEAR(box.high.x - box.low.x, 15.836, 0.0005);
  EXPECT_NEAR(widthAt(frame, box.low.y), 4.434, 0.001);
  EXPECT_NEAR(area(frame), 115.557, 0.0005);
  EXPECT_NEAR(area(frame) / area(square(20)) * 4, 4 * 115.557 / 1600, 1e-6);
}

// Closed form: (h - p) / tan(t + v/2) at the lowest and the highest point of a face.
TEST(FrameOnPlane, BeginsBehindTheBlindDistanceOfAFace) {
  EXPECT_NEAR(bounds(frameOnPlane(testBed(), 1.45, square(20), 1e-3)).low.y, 1.396, 0.0005);
  EXPECT_NEAR(bounds(frameOnPlane(testBed(), 1.85, square(20), 1e-3)).low.y, 1.036, 0.0005);
}

// Closed form: a tilt below half the vertical field lets the frame cross the horizon; what is shown
// runs out to the edge of what is asked for, in a wedge. Sides through the lens's edge columns.
TEST(FrameOnPlane, ReachesTheEdgeOfTheRegionWhenTheHorizonIsInFrame) {
  const auto view = viewOf({1000, 1000}, lensOf({1000, 1000}, 90, 1), {0, 0, 2}, 0, 0);
  // Level, 90 x 90 degrees: z >= |x|, and 2 / y <= 1.
  const Region frame = frameOnPlane(view, 0, square(10), 1e-3);
  EXPECT_NEAR(area(frame), 10 * 10 - 2 * 2, 1e-6);
}

// Closed form: straight down, 90 x 90 degrees at 3 m: a square of 6 m, the foot in its middle.
TEST(FrameOnPlane, LooksStraightDown) {
  const auto view = viewOf({1000, 1000}, lensOf({1000, 1000}, 90, 1), {1, 2, 3}, 30, 90);
  const Region frame = frameOnPlane(view, 0, square(20), 1e-3);
  EXPECT_NEAR(area(frame), 36, 1e-6);
  EXPECT_TRUE(contains(frame, {1, 2}));
}

// Closed form: a frame above the horizon shows nothing of the floor, and a ceiling 2 m above the
// lens as a floor 2 m below it.
TEST(FrameOnPlane, LooksUpAtPlanesAboveTheLens) {
  const auto view = viewOf({1000, 1000}, lensOf({1000, 1000}, 60, 1), {0, 0, 1}, 40, -60);
  EXPECT_TRUE(frameOnPlane(view, 0, square(20), 1e-3).empty());
  const auto down = viewOf({1000, 1000}, lensOf({1000, 1000}, 60, 1), {0, 0, 1}, 40, 60);
  const Region above = frameOnPlane(view, 3, square(20), 1e-3);
  const Region below = frameOnPlane(down, -1, square(20), 1e-3);
  EXPECT_GT(area(below), 1);
  EXPECT_NEAR(area(above), area(below), 1e-6);
  EXPECT_TRUE(covers(above, below, 1e-6));
}

// Closed form: an equidistant lens of 120 degrees across, cut to a square picture, straight down:
// the middle of each edge at h tan 60.
TEST(FrameOnPlane, FollowsCurvedEdges) {
  const auto view = viewOf({1000, 1000}, lensOf({1000, 1000}, 120, 0), {0, 0, 1}, 0, 90);
  const Region frame = frameOnPlane(view, 0, square(20), 1e-3);
  EXPECT_TRUE(contains(frame, {std::tan(degToRad(60)) - 0.002, 0}));
  EXPECT_FALSE(contains(frame, {std::tan(degToRad(60)) + 0.002, 0}));
  // Along the diagonal: 60 deg * sqrt 2.
  const double corner_m = std::tan(degToRad(60 * std::sqrt(2.0)));
  const Box2 box = bounds(frame);
  EXPECT_NEAR(box.high.x, corner_m * std::sqrt(0.5), 1e-6);
}

// Closed form: 200 degrees straight down shows the whole floor; looking straight up, an equidistant
// lens of 200 degrees in a round picture leaves out all but what lies 80 degrees and more from the
// foot; level at 190, its near edge is still the foot.
TEST(FrameOnPlane, AnswersForLensesWiderThanHalfASphere) {
  const std::array<int, 2> pixels{1000, 1000};
  const auto down = viewOf(pixels, lensOf(pixels, 200, 0), {0, 0, 3}, 0, 90);
  EXPECT_NEAR(area(frameOnPlane(down, 0, square(50), 1e-3)), 1e4, 1e-3);
  EXPECT_NEAR(area(frameOnPlane(down, 2.9, square(50), 1e-3)), 1e4, 1e-3);
  // The circle where the lens ends lies within the picture: 2 atan(..) has nothing to do with it.
  optics::KannalaBrandtLens round =
      optics::makeKannalaBrandt({100, 100}, {500, 500}, {0, 0, 0, 0});
  round.largest_angle_rad = degToRad(100);
  const auto up = viewOf(pixels, round, {0, 0, 1}, 0, -90);
  const double hole_m = std::tan(degToRad(80));
  const Region seen = frameOnPlane(up, 0, square(50), 1e-3);
  EXPECT_NEAR(area(seen), 1e4 - kPi * hole_m * hole_m, 2e-3 * kPi * 2 * hole_m);
  EXPECT_FALSE(contains(seen, {0, 0}));
  const auto level = viewOf(pixels, round, {0, 0, 1}, 0, 0);
  const Region front = frameOnPlane(level, 0, square(50), 1e-3);
  EXPECT_TRUE(contains(front, {0, 0}));
  // A cone of 100 degrees about north cuts the floor behind the lens in a hyperbola.
  EXPECT_TRUE(contains(front, {0, -0.17}));
  EXPECT_FALSE(contains(front, {0, -0.18}));
}

// Property: a place of the plane lies in the outline exactly where its direction projects into the
// frame, away from the outline by what it may err; lenses of every family, poses all round, planes
// below and above, margins, crops off the axis.
TEST(FrameOnPlane, AgreesWithTheProjectionAtRandomPlaces) {
  std::mt19937_64 random(7);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  const std::array<double, 6> families{1, 0.5, 0, -0.5, -1, 0.2};
  std::size_t asked = 0, inside = 0;
  for (int round = 0; round < 600; ++round) {
    const std::array<int, 2> pixels{1200, 900};
    optics::Lens lens;
    if (round % 8 < 6) {
      const double k = families[static_cast<std::size_t>(round % 8)];
      const double widest = k == 1 ? 150 : k == -1 ? 175 : 240;
      lens = lensOf(pixels, between(10, widest), k);
    } else if (round % 8 == 6) {
      lens = optics::makeBrownConrady({800, 820}, {610, 440}, {-0.2, 0.03, 0.001, -0.002, 0});
    } else {
      lens = optics::makeKannalaBrandt({between(250, 500), between(250, 500)}, {590, 455},
                                       {-0.02, 0.003, -0.001, 0});
    }
    auto view = viewOf(pixels, lens, {between(-3, 3), between(-3, 3), 3}, between(0, 360),
                       between(-90, 90), between(-180, 180));
    if (round % 3 == 1) view.frame_low_px = {50, 50}, view.frame_high_px = {1150, 850};
    if (round % 3 == 2) view.frame_low_px = {700, 100}, view.frame_high_px = {1200, 500};
    const double plane_z_m = round % 5 == 0 ? 3 + between(0.01, 3) : between(0, 2.999);
    const Region frame = frameOnPlane(view, plane_z_m, square(30), 1e-3);
    for (int i = 0; i < 200; ++i) {
      const double reach_m = i % 2 ? 30 : 4;
      const Vec2 p{between(-reach_m, reach_m), between(-reach_m, reach_m)};
      double edge_m = 1e300;
      for (const Polygon& polygon : frame) {
        edge_m = std::min(edge_m, distanceToOutline(polygon.outer, p));
        for (const Ring& hole : polygon.holes)
          edge_m = std::min(edge_m, distanceToOutline(hole, p));
      }
      if (edge_m < 2e-3) continue;
      ++asked;
      const bool shown = inFrame(view, withZ(p, plane_z_m));
      inside += shown;
      ASSERT_EQ(contains(frame, p), shown)
          << "round " << round << " at " << p.x << " " << p.y << " plane " << plane_z_m;
    }
  }
  EXPECT_GT(asked, 115000U);
  EXPECT_GT(inside, asked / 10);
}

// ---- blind zones --------------------------------------------------------------------------------

// Closed form: each lower picture edge is a line at (h - p) / tan(t + v/2) = 0.9448 m: a square.
TEST(BlindZone, OfARingOfFourTiltedImagersIsASquareHole) {
  const BlindZone hole = zoneAt(designOf({}), 0.2);
  EXPECT_FALSE(hole.foot_is_seen);
  EXPECT_NEAR(hole.area_m2, 3.5705, 0.0005);
  const Box2 box = bounds(hole.outline);
  EXPECT_NEAR(box.high.x - box.low.x, 1.89, 0.005);
  EXPECT_NEAR(box.high.y - box.low.y, 1.89, 0.005);
  ASSERT_EQ(hole.outline.size(), 1U);
  double farthest_m = 0;
  for (const Vec2 p : hole.outline[0].outer) farthest_m = std::max(farthest_m, norm(p));
  EXPECT_NEAR(farthest_m, 1.34, 0.005);
  EXPECT_NEAR(hole.area_m2, (box.high.x - box.low.x) * (box.high.y - box.low.y), 1e-4);
}

// Closed form: lenses 0.1 m out from the head's middle move each side of the hole out by as much.
TEST(BlindZone, OfARingGrowsWithTheLensesDistanceFromItsMiddle) {
  const double side_m = 2 * (nearestM(5.2, 0.2, 40, 2 * radToDeg(std::atan(972 / 1187.6))) + 0.1);
  EXPECT_NEAR(zoneAt(designOf({.outwards_m = 0.1}), 0.2).area_m2, side_m * side_m, 1e-3);
}

// Property: on open ground one imager of the ring leaves the rest of the disc of 100 m.
TEST(BlindZone, OfOneImagerIsAllOfTheFloorThatItDoesNotShow) {
  const design::Design design = designOf({});
  const auto view = design::posedImagersOf(design, design.housings[0],
                                           design::JudgedOn::captured)[1];
  const double shown_m2 = area(frameOnPlane(view, 0.2, square(100), 1e-3));
  const BlindZone zone = zoneAt(design, 0.2, 2);
  EXPECT_LT(zone.area_m2, kPi * 1e4 - 0.7 * shown_m2);
  EXPECT_GT(zone.area_m2, kPi * 1e4 - shown_m2 - 1);
}

// Closed form: what an imager that looks up misses of a room of 10 x 8 m: all; a wall of 0.2 m
// across it bounds that, a door of 1 m in the wall lets it through.
TEST(BlindZone, EndsAtWallsAndGoesThroughDoors) {
  const Head head{kTestBedPixels, 60, "rectilinear", 2.8, -45, {0}, {2, 2}, 0};
  design::Design design = designOf(head);
  addBuilding(design, {storeyOf("S", 0, rectangle(0, 0, 10, 8))});
  EXPECT_NEAR(zoneAt(design, 1).area_m2, 80, 1e-3);
  design.site.buildings[0].storeys[0].walls = {wallOf("W", {6, 0}, {6, 8})};
  EXPECT_NEAR(zoneAt(design, 1).area_m2, 5.9 * 8, 1e-3);
  design::Opening door;
  door.id.text = "D";
  door.from_m = 3;
  door.width_m = 1;
  door.head_m = 2.1;
  design.site.buildings[0].storeys[0].walls[0].openings = {door};
  EXPECT_NEAR(zoneAt(design, 1).area_m2, 80 - 0.2 * 7, 1e-3);
}

// Closed form: rooms that touch in one point, the ends of two walls meeting there corner to corner,
// are not connected.
TEST(BlindZone, DoesNotPassThroughACorner) {
  Head head{kTestBedPixels, 60, "rectilinear", 2.5, -45, {0}, {2, 2}, 0};
  design::Design design = designOf(head);
  addBuilding(design, {storeyOf("S", 0, rectangle(0, 0, 10, 10))});
  // Two solids that leave the quarters south-west and north-east, touching at (5, 5).
  for (const auto& [id, outline] : {std::pair{"A", rectangle(0, 5, 5, 10)},
                                    std::pair{"B", rectangle(5, 0, 10, 5)}}) {
    design::Solid solid;
    solid.id.text = id;
    solid.storey.text = "S";
    solid.outline = outline;
    solid.top_m = 3;
    design.site.solids.push_back(solid);
  }
  EXPECT_NEAR(zoneAt(design, 0.5).area_m2, 25, 1e-3);
}

// Closed form: the floor under a lens is its storey's; in an atrium the one below. Over a roof,
// with the foot on the building, it is the open ground beside it: 10 m off, in sight.
TEST(BlindZone, CountsFromTheFloorUnderTheLens) {
  const auto at = [](double lens_z_m, Vec2 at_m) {
    design::Design design = designOf({.lens_z_m = lens_z_m, .at_m = at_m});
    design::Storey upper = storeyOf("S1", 4, rectangle(-10, -10, 30, 10));
    upper.voids = {rectangle(14, -6, 26, 6)};
    upper.roof_m = 0.3;
    addBuilding(design, {storeyOf("S0", 0, rectangle(-10, -10, 30, 10)), upper});
    return std::sqrt(zoneAt(design, 0.2).area_m2);
  };
  const double side_m = 1.8896;  // at 5 m over the target
  EXPECT_NEAR(at(6.2, {0, 0}), side_m * 2.0 / 5, 1e-3);
  EXPECT_NEAR(at(2.2, {0, 0}), side_m * 2.0 / 5, 1e-3);
  EXPECT_NEAR(at(6.2, {20, 0}), side_m * 6.0 / 5, 1e-3);
  EXPECT_EQ(at(9.2, {0, 0}), 0);
}

// Property: a lens whose foot is within a wall looks down on the side of the wall that it faces.
TEST(BlindZone, OfALensInAWallIsOnTheSideThatItLooksTo) {
  Head head{kTestBedPixels, 60, "rectilinear", 2.5, -45, {90}, {6, 4}, 0};
  design::Design design = designOf(head);
  addBuilding(design, {storeyOf("S", 0, rectangle(0, 0, 10, 8))});
  design.site.buildings[0].storeys[0].walls = {wallOf("W", {6, 0}, {6, 8})};
  EXPECT_NEAR(zoneAt(design, 0.5).area_m2, 3.9 * 8, 1e-3);
  design.housings[0].imagers[0].aims[0].pan_deg = 270;
  EXPECT_NEAR(zoneAt(design, 0.5).area_m2, 5.9 * 8, 1e-3);
}

// Closed form: t + v/2 = 95 degrees: the foot is in the frame; at 90 on its edge, which is inside.
TEST(BlindZone, IsNoneWhereTheFootIsSeen) {
  for (const double tilt_deg : {70.0, 65.0})
    for (const double pan_deg : {0.0, 33.3, 211.7}) {
      Head head{{1000, 1000}, 50, "rectilinear", 3, tilt_deg, {pan_deg}, {1.23, -4.56}, 0};
      const BlindZone zone = zoneAt(designOf(head), 0);
      EXPECT_TRUE(zone.foot_is_seen) << tilt_deg << " " << pan_deg;
      EXPECT_TRUE(zone.outline.empty());
      EXPECT_EQ(zone.area_m2, 0);
    }
  Head head{{1000, 1000}, 50, "rectilinear", 3, 64.9, {0}, {}, 0};
  EXPECT_FALSE(zoneAt(designOf(head), 0).foot_is_seen);
}

// Closed form: a margin of 100 px takes the lower edge 100 px up.
TEST(BlindZone, GrowsByTheMarginOfTheFrame) {
  design::Design design = designOf({});
  for (design::HousingImager& imager : design.housings[0].imagers) imager.margin_px = 100;
  const double f_px = 1296 / std::tan(degToRad(47.5));
  const double half_m = 5 / std::tan(degToRad(40) + std::atan(872 / f_px));
  EXPECT_NEAR(zoneAt(design, 0.2).area_m2, 4 * half_m * half_m, 1e-3);
}

// Property: frames that meet in one line leave no slit through which the hole leaks: four of 90
// degrees, level, turned and moved so that rounding comes in.
TEST(BlindZone, DoesNotLeakBetweenFramesThatMeet) {
  for (int i = 0; i < 40; ++i) {
    const double pan_deg = 2.17 * i;
    Head head{{1000, 1000}, 90, "rectilinear", 3, 0, {}, {0.37 * i, -0.71 * i}, 0};
    for (int side = 0; side < 4; ++side) head.pans_deg.push_back(pan_deg + 90 * side);
    EXPECT_NEAR(zoneAt(designOf(head), 0).area_m2, 36, 1e-3) << pan_deg;
  }
}

// Closed form: a wall 0.5 m beside a ring's foot cuts its square hole there.
TEST(BlindZone, BelowARingEndsAtAWallToo) {
  design::Design design = designOf({});
  addBuilding(design, {storeyOf("S", 0, rectangle(-20, -20, 20, 20))});
  design.site.buildings[0].storeys[0].height_m = 6;
  design.site.buildings[0].storeys[0].walls = {wallOf("W", {0.6, -20}, {0.6, 20})};
  const double half_m = 0.5 * std::sqrt(3.5705);
  EXPECT_NEAR(zoneAt(design, 0.2).area_m2, 2 * half_m * (half_m + 0.5), 1e-3);
}

// Property: many housings at once give what each gives alone, in their order, threads or none; with
// the imagers' own zones left out, the housings' alone.
TEST(BlindZone, OfManyHousingsIsThatOfEach) {
  design::Design design = designOf({.family = "equidistant"});
  addBuilding(design, {storeyOf("S", 0, rectangle(-10, -10, 30, 10))});
  for (const double x : {5.0, 12.0, 25.0, 60.0}) {
    design.housings.push_back(design.housings[0]);
    design.housings.back().id.text = "H" + std::to_string(static_cast<int>(x));
    design.housings.back().mount.fixing_m.x = x;
  }
  std::vector<const design::Housing*> housings;
  std::vector<BlindZone> alone;
  for (const design::Housing& housing : design.housings) {
    housings.push_back(&housing);
    const auto zones = blindZones(design, housing, {}, {0.2, 1.45});
    alone.insert(alone.end(), zones.begin(), zones.end());
  }
  const auto all =
      blindZones(design, housings, {}, {0.2, 1.45}, BlindOf::each_imager_too, Progress{});
  ASSERT_EQ(all.size(), 5U * 5 * 2);
  ASSERT_EQ(alone.size(), all.size());
  std::size_t of_housings = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(all[i].housing, alone[i].housing);
    EXPECT_EQ(all[i].slot, alone[i].slot);
    EXPECT_EQ(all[i].outline, alone[i].outline);
    of_housings += all[i].slot == 0;
  }
  EXPECT_EQ(blindZones(design, housings, {}, {0.2, 1.45}, BlindOf::housings, Progress{}).size(),
            of_housings);
}

// ---- over mounting heights ----------------------------------------------------------------------

// Common practice, no source: the higher the camera, the larger the zone below that it misses. And
// closed form: lengths in proportion to h - p, so areas to its square.
TEST(BlindCurve, GrowsWithMountingHeightByTheSquareOfWhatIsAboveTheTarget) {
  const design::Design design = designOf({});
  const double target_m = 0.2;
  const auto curve = blindCurve(design, design.housings[0], target_m, {2, 3, 4, 5.2, 6, 8}, 50);
  ASSERT_EQ(curve.size(), 6U);
  for (std::size_t i = 0; i < curve.size(); ++i) {
    const double above_m = curve[i].lens_height_m - target_m;
    EXPECT_NEAR(curve[i].area_m2, 3.5705 * above_m * above_m / 25, 1e-3);
    EXPECT_TRUE(i == 0 || curve[i].area_m2 > curve[i - 1].area_m2);
  }
}

// Closed form: one imager, T0: the disc less its trapezoid.
TEST(BlindCurve, CountsWithinItsRadius) {
  Head head{kTestBedPixels, 60, "rectilinear", 7, 30, {120}, {5, 5}, 0};
  const design::Design design = designOf(head);
  const auto curve = blindCurve(design, design.housings[0], 0, {3}, 20);
  EXPECT_NEAR(curve[0].area_m2, kPi * 400 - 115.557, 0.02);
}

// ---- the ring -----------------------------------------------------------------------------------

// Common practice, no source: four imagers at right angles, level, close the circle; closed form:
// of 95 degrees each, they overlap by 5.
TEST(Ring, OfFourLevelImagersClosesWithOverlapsOfFiveDegrees) {
  const design::Design design = designOf({.tilt_deg = 0});
  const auto rings = ringOf(design, design.housings[0], {0});
  ASSERT_EQ(rings.size(), 1U);
  EXPECT_TRUE(rings[0].gaps_deg.empty());
  ASSERT_EQ(rings[0].arcs.size(), 4U);
  EXPECT_EQ(rings[0].arcs[0].imager, "H.1");
  EXPECT_NEAR(rings[0].arcs[0].from_deg, 312.5, 1e-6);
  EXPECT_NEAR(rings[0].arcs[0].to_deg, 47.5, 1e-6);
  ASSERT_EQ(rings[0].overlaps_deg.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    const double corner_deg = 45 + 90 * static_cast<double>(i);
    EXPECT_NEAR(rings[0].overlaps_deg[i][0], corner_deg - 2.5, 1e-6);
    EXPECT_NEAR(rings[0].overlaps_deg[i][1], corner_deg + 2.5, 1e-6);
  }
}

// Closed form: tilted by t, the direction down by d at the bearing b off the axis lies forward by
// z = cos d cos b cos t + sin d sin t, right by x = cos d sin b, down by y = sin d cos t -
// cos d cos b sin t; in the frame where |x| <= z tan(hfov / 2) and |y| <= 3/4 of that.
TEST(Ring, OfTiltedImagersOverlapsMoreTheFartherDownItLooks) {
  const double tilt = degToRad(40), side = std::tan(degToRad(47.5));
  const design::Design design = designOf({});
  const auto rings = ringOf(design, design.housings[0], {0, 10, 20, 40, 60, 85});
  for (std::size_t i = 1; i < 5; ++i) {
    const double down = degToRad(rings[i].depression_deg);
    double low = 0, high = degToRad(120);
    for (int step = 0; step < 100; ++step) {
      const double b = 0.5 * (low + high);
      const double level = std::cos(down) * std::cos(b);
      const double z = level * std::cos(tilt) + std::sin(down) * std::sin(tilt);
      const double y = std::sin(down) * std::cos(tilt) - level * std::sin(tilt);
      const bool inside =
          std::cos(down) * std::sin(b) <= side * z && std::fabs(y) <= 0.75 * side * z;
      (inside ? low : high) = b;
    }
    ASSERT_EQ(rings[i].overlaps_deg.size(), 4U) << rings[i].depression_deg;
    EXPECT_TRUE(rings[i].gaps_deg.empty());
    EXPECT_NEAR(rings[i].overlaps_deg[0][1] - rings[i].overlaps_deg[0][0],
                2 * radToDeg(low) - 90, 1e-6);
  }
  // The horizon lies above the frame (40 > 39.3), and 85 degrees down below it.
  EXPECT_TRUE(rings[0].arcs.empty());
  EXPECT_EQ(rings[0].gaps_deg, (std::vector<std::array<double, 2>>{{0, 360}}));
  EXPECT_TRUE(rings[5].arcs.empty());
}

// Closed form: 60 degrees each at right angles leave four gaps of 30.
TEST(Ring, NamesItsGaps) {
  const design::Design design = designOf({.hfov_deg = 60, .tilt_deg = 0, .pans_deg = {0, 90, 180}});
  const auto ring = ringOf(design, design.housings[0], {0})[0];
  ASSERT_EQ(ring.gaps_deg.size(), 3U);
  EXPECT_TRUE(ring.overlaps_deg.empty());
  EXPECT_NEAR(ring.gaps_deg[0][0], 30, 1e-6);
  EXPECT_NEAR(ring.gaps_deg[0][1], 60, 1e-6);
  EXPECT_NEAR(ring.gaps_deg[2][0], 210, 1e-6);
  EXPECT_NEAR(ring.gaps_deg[2][1], 330, 1e-6);
}

// Closed form: straight down an equidistant lens of 180 degrees and more looks all round; two aims
// of one imager are no overlap; a field of a tenth of a degree is found.
TEST(Ring, KnowsWholeTurnsSeveralAimsAndNarrowFields) {
  const design::Design round =
      designOf({{1000, 1000}, 190, "equidistant", 3, 90, {0}, {}, 0});
  const auto all_round = ringOf(round, round.housings[0], {0, 45})[1];
  ASSERT_EQ(all_round.arcs.size(), 1U);
  EXPECT_EQ(all_round.arcs[0].from_deg, 0);
  EXPECT_EQ(all_round.arcs[0].to_deg, 360);
  EXPECT_TRUE(all_round.gaps_deg.empty());

  design::Design aims = designOf({.hfov_deg = 60, .tilt_deg = 0, .pans_deg = {10}});
  aims.housings[0].imagers[0].aims.push_back(design::Aim{30, 0, 0, {}, {}, {}, 1});
  const auto turned = ringOf(aims, aims.housings[0], {0})[0];
  ASSERT_EQ(turned.arcs.size(), 1U);
  EXPECT_NEAR(turned.arcs[0].from_deg, 340, 1e-6);
  EXPECT_NEAR(turned.arcs[0].to_deg, 60, 1e-6);
  EXPECT_TRUE(turned.overlaps_deg.empty());

  const design::Design narrow =
      designOf({.hfov_deg = 0.1, .tilt_deg = 10, .pans_deg = {123.456}});
  const auto thin = ringOf(narrow, narrow.housings[0], {10})[0];
  ASSERT_EQ(thin.arcs.size(), 1U);
  EXPECT_NEAR(thin.arcs[0].to_deg - thin.arcs[0].from_deg, 0.1 / std::cos(degToRad(10)), 1e-3);
}

// ---- the closed form ----------------------------------------------------------------------------

// Closed form, worked by hand: tan 50 deg = 1.191754, tan 10 deg = 0.176327.
TEST(BlindDistance, OfTheCentreColumn) {
  EXPECT_NEAR(nearestM(3, 0, 30, 40), 2.5173, 5e-5);
  EXPECT_NEAR(*farthestM(3, 0, 30, 40), 17.0138, 5e-5);
  EXPECT_NEAR(nearestM(3, 1.7, 30, 40), 1.0908, 5e-5);
  EXPECT_NEAR(*farthestM(3, 1.7, 30, 40), 7.3727, 5e-5);
  EXPECT_NEAR(nearestM(6, 0, 30, 40), 5.0346, 5e-5);
  EXPECT_EQ(nearestM(3, 0, 70, 50), 0);
  EXPECT_FALSE(farthestM(3, 0, 20, 40).has_value());
  EXPECT_FALSE(farthestM(3, 0, 10, 40).has_value());
}

// Property: in proportion to h - p, and so growing with the mounting height (common practice, no
// source).
TEST(BlindDistance, GrowsInProportionToHeightOverTheTarget) {
  for (double height_m = 2; height_m < 12; height_m += 0.5)
    EXPECT_NEAR(nearestM(height_m, 1.5, 25, 45) / (height_m - 1.5), nearestM(2.5, 1.5, 25, 45),
                1e-12);
}

// Closed form: a target above the lens is the same upside down; a frame all above the horizon never
// meets the floor.
TEST(BlindDistance, KnowsTargetsAboveTheLens) {
  EXPECT_NEAR(nearestM(1, 2, -30, 40), 1 / std::tan(degToRad(50)), 1e-12);
  EXPECT_NEAR(*farthestM(1, 2, -30, 40), 1 / std::tan(degToRad(10)), 1e-12);
  EXPECT_TRUE(std::isinf(nearestM(3, 0, -30, 40)));
  EXPECT_FALSE(farthestM(3, 0, -30, 40).has_value());
}

// Property: the outline's nearest place on the centre column is the closed form's.
TEST(BlindDistance, IsWhereTheOutlineBegins) {
  for (const double tilt_deg : {20.0, 35.0, 50.0})
    for (const double target_m : {0.0, 0.9, 1.7}) {
      const auto view = viewOf({800, 600}, lensOf({800, 600}, 70, 1), {0, 0, 4}, 0, tilt_deg);
      const double vfov_deg = 2 * radToDeg(std::atan(std::tan(degToRad(35)) * 0.75));
      EXPECT_NEAR(bounds(frameOnPlane(view, target_m, square(200), 1e-3)).low.y,
                  nearestM(4, target_m, tilt_deg, vfov_deg), 1e-6);
    }
}

}  // namespace
}  // namespace belvedere::proof
