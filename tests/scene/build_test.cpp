// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <random>

#include "make_design.h"
#include "scene/bodies.h"
#include "scene/wall_pieces.h"

namespace belvedere::scene {
namespace {

std::size_t bodiesOf(const Scene& scene, const std::string& id) {
  return static_cast<std::size_t>(
      std::count_if(scene.bodies.begin(), scene.bodies.end(),
                    [&](const Body& b) { return scene.sources[b.source].id == id; }));
}

// Property: a body's vertices lie within its planes, each on at least three of them, its faces
// close up, and Euler's formula holds.
void expectSound(const Scene& scene) {
  for (const Body& body : scene.bodies) {
    if (body.triangle()) continue;
    std::size_t faces = 0, corners = 0;
    for (std::uint32_t p = body.first_plane; p < body.first_plane + body.plane_count; ++p) {
      const Plane& plane = scene.planes[p];
      EXPECT_NEAR(norm(plane.normal), 1, 1e-12);
      for (std::uint32_t v = body.first_vertex; v < body.first_vertex + body.vertex_count; ++v)
        EXPECT_LE(dot(plane.normal, scene.vertices[v]), plane.offset + 1e-12);
      const auto ring = faceOf(scene, body, plane, 1e-10);
      if (ring.empty()) continue;
      ++faces;
      corners += ring.size();
    }
    EXPECT_EQ(corners, 2u * body.edge_count);
    EXPECT_EQ(body.vertex_count + faces, body.edge_count + 2);
  }
}

TEST(AddPrism, OfASquareIsABox) {  // Closed form
  Scene scene;
  scene.sources.resize(1);
  addPrism(scene, rectangle(1, 2, 3, 5), {0, 0, 0, 0}, {2, 2, 2, 2}, 0);
  ASSERT_EQ(scene.bodies.size(), 1u);
  EXPECT_EQ(scene.bodies[0].plane_count, 6u);
  EXPECT_EQ(scene.bodies[0].vertex_count, 8u);
  EXPECT_EQ(scene.bodies[0].edge_count, 12u);
  EXPECT_EQ(scene.bodies[0].box, (Box3{{1, 2, 0}, {3, 5, 2}}));
  expectSound(scene);
}

TEST(AddPrism, WithATopThatMeetsTheBottomIsAWedge) {  // Closed form
  Scene scene;
  scene.sources.resize(1);
  addPrism(scene, rectangle(0, 0, 4, 2), {0, 0, 0, 0}, {0, 1, 1, 0}, 0);
  ASSERT_EQ(scene.bodies.size(), 1u);
  EXPECT_EQ(scene.bodies[0].vertex_count, 6u);
  EXPECT_EQ(scene.bodies[0].edge_count, 9u);
  expectSound(scene);
}

TEST(AddPrism, OfNothingAddsNothing) {  // Closed form
  Scene scene;
  scene.sources.resize(1);
  addPrism(scene, {{0, 0}, {1, 0}}, {0, 0}, {1, 1}, 0);
  addPrism(scene, rectangle(0, 0, 1, 1), {1, 1, 1, 1}, {1, 1, 1, 1}, 0);
  EXPECT_TRUE(scene.bodies.empty());
}

// Closed form: plan area of a ring of walls with mitred outer corners: 4.2 x 3.2 less 3.8 x 2.8;
// drawn closed, so there are no ends.
TEST(WallPieces, OfAClosedRingAreMitred) {
  design::Design design = oneStorey(rectangle(0, 0, 4, 3));
  const Ring path{{0, 0}, {4, 0}, {4, 3}, {0, 3}, {0, 0}};
  const auto pieces = wallPieces(design.site.buildings[0], storey(design), wall("W", path));
  ASSERT_EQ(pieces.size(), 4u);
  std::vector<Ring> rings;
  for (const WallPiece& piece : pieces) rings.push_back(piece.outline);
  EXPECT_NEAR(area(unionOf(rings)), 4.2 * 3.2 - 3.8 * 2.8, 1e-6);
  for (const WallPiece& piece : pieces) {
    EXPECT_LT(piece.bottom_m, 0);
    EXPECT_GT(piece.top_m, 3);
    EXPECT_NEAR(piece.top_m - piece.bottom_m, 3, 1e-5);
  }
}

// Closed form: points in a line are merged, so that a straight wall stays one body; its ends reach
// out by the seam's overlap, its faces do not move.
TEST(WallPieces, OfAStraightWallAreOne) {
  design::Design design = oneStorey(rectangle(0, 0, 4, 3));
  const auto pieces = wallPieces(design.site.buildings[0], storey(design),
                                 wall("W", {{0, 1}, {1, 1}, {1, 1}, {2.5, 1}, {4, 1}}));
  ASSERT_EQ(pieces.size(), 1u);
  const Box2 box = bounds(pieces[0].outline);
  EXPECT_DOUBLE_EQ(box.low.y, 0.9);
  EXPECT_DOUBLE_EQ(box.high.y, 1.1);
  EXPECT_NEAR(box.low.x, -kSeamOverlapM, 1e-12);
  EXPECT_NEAR(box.high.x, 4 + kSeamOverlapM, 1e-12);
}

// Closed form: a drawn quarter circle of 90 short segments has the area of its band (mitred chords:
// tangent polygons inside and out), and no piece leaves it.
TEST(WallPieces, OfACurveStayInItsBand) {
  Ring path;
  constexpr int kSteps = 90;
  constexpr double kRadius = 5, kThickness = 0.2;
  for (int i = 0; i <= kSteps; ++i) {
    const double a = 0.5 * 3.14159265358979323846 * i / kSteps;
    path.push_back({kRadius * std::cos(a), kRadius * std::sin(a)});
  }
  design::Design design = oneStorey(rectangle(0, 0, 6, 6));
  const auto pieces =
      wallPieces(design.site.buildings[0], storey(design), wall("W", path, kThickness));
  EXPECT_EQ(pieces.size(), static_cast<std::size_t>(kSteps));
  double length = 0;
  for (int i = 0; i < kSteps; ++i) length += norm(path[i + 1] - path[i]);
  std::vector<Ring> rings;
  for (const WallPiece& piece : pieces) rings.push_back(piece.outline);
  EXPECT_NEAR(area(unionOf(rings)), length * kThickness, 1e-5);
}

// Property: on random zigzag paths no piece leaves the band around the path by more than a mitre,
// and consecutive strips overlap around their corner.
TEST(WallPieces, OverlapAtEveryCorner) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> turn(-2.6, 2.6), step(0.5, 3);
  design::Design design = oneStorey(rectangle(0, 0, 4, 3));
  for (int round = 0; round < 300; ++round) {
    Ring path{{0, 0}};
    double bearing = turn(random);
    for (int i = 0; i < 5; ++i) {
      const double s = step(random);
      path.push_back(path.back() + Vec2{s * std::cos(bearing), s * std::sin(bearing)});
      bearing += turn(random);
    }
    const auto pieces = wallPieces(design.site.buildings[0], storey(design), wall("W", path));
    ASSERT_EQ(pieces.size(), 5u);
    for (std::size_t i = 0; i < 5; ++i) {
      EXPECT_TRUE(contains(pieces[i].outline, path[i]));
      EXPECT_TRUE(contains(pieces[i].outline, path[i + 1]));
      if (i > 0) {
        // A disc of a twentieth of a metre about the corner lies in both.
        EXPECT_GT(distanceToOutline(pieces[i].outline, path[i]), 0.02);
        EXPECT_GT(distanceToOutline(pieces[i - 1].outline, path[i]), 0.02);
      }
      for (const Vec2 p : pieces[i].outline) {
        double off = 1e300;
        for (std::size_t s = 0; s < 5; ++s) {
          const Vec2 d = path[s + 1] - path[s];
          const double t = std::clamp(dot(p - path[s], d) / dot(d, d), 0.0, 1.0);
          off = std::min(off, norm(p - path[s] - d * t));
        }
        EXPECT_LE(off, 4.2 * 0.1);  // kMitre half-thicknesses
      }
    }
  }
}

// Closed form: a door (no sill) and a window leave three jambs, a piece under the sill and two
// over the heads; a filled window adds a pane.
TEST(WallPieces, AreCutByOpenings) {
  design::Design design = oneStorey(rectangle(0, 0, 8, 3));
  design::Wall w = wall("W", {{0, 0}, {8, 0}});
  w.openings = {opening("D", 1, 1, 0, 2.1), opening("N", 4, 2, 0.9, 2, "glass")};
  const auto pieces = wallPieces(design.site.buildings[0], storey(design), w);
  EXPECT_EQ(pieces.size(), 7u);
  const auto is_pane = [](const WallPiece& p) { return p.filling != nullptr; };
  EXPECT_EQ(std::count_if(pieces.begin(), pieces.end(), is_pane), 1);
  double volume = 0;
  for (const auto& p : pieces) volume += signedArea(p.outline) * (p.top_m - p.bottom_m);
  EXPECT_NEAR(volume, 0.2 * (8 * 3 - 2.1 - 2 * 1.1) + 0.02 * 2 * 1.1, 2e-3);  // and the overlaps
}

TEST(BuildScene, KeepsAPanelOneBody) {  // Closed form
  design::Design design = oneStorey(rectangle(0, 0, 4, 3));
  storey(design).walls = {wall("W", {{0, 0}, {4, 0}})};
  const Scene scene = build(design);
  EXPECT_EQ(bodiesOf(scene, "W"), 1u);
  EXPECT_EQ(bodiesOf(scene, "S0"), 1u);
  expectSound(scene);
}

// Closed form: sightlines through a door, over its head, past the sill of a window.
TEST(BuildScene, LeavesOpeningsOpen) {
  design::Design design = oneStorey(rectangle(-4, -4, 12, 4));
  design::Wall w = wall("W", {{0, 0}, {8, 0}});
  w.openings = {opening("D", 1, 1, 0, 2.1), opening("N", 4, 2, 0.9, 2)};
  storey(design).walls = {w};
  const Seeing seeing{build(design)};
  EXPECT_TRUE(seeing.sees({1.5, -2, 0}, {1.5, 2, 0}));
  EXPECT_TRUE(seeing.sees({1.5, -2, 2.1}, {1.5, 2, 2.1}));
  EXPECT_FALSE(seeing.sees({1.5, -2, 2.11}, {1.5, 2, 2.11}));
  EXPECT_TRUE(seeing.sees({1.0, -2, 1}, {1.0, 2, 1}));    // along the jamb's face
  EXPECT_FALSE(seeing.sees({0.99, -2, 1}, {0.99, 2, 1}));
  EXPECT_TRUE(seeing.sees({5, -2, 0.9}, {5, 2, 0.9}));
  EXPECT_FALSE(seeing.sees({5, -2, 0.89}, {5, 2, 0.89}));
  expectSound(seeing.scene);
}

// Closed form: an opening round a corner opens both walls and the corner between, over its heights.
TEST(BuildScene, SplitsAnOpeningRoundACorner) {
  design::Design design = oneStorey(rectangle(-4, -4, 12, 12));
  design::Wall w = wall("W", {{0, 0}, {4, 0}, {4, 4}});
  w.openings = {opening("N", 3, 2, 1, 2)};
  storey(design).walls = {w};
  const Seeing seeing{build(design)};
  EXPECT_TRUE(seeing.sees({3, 1, 1.5}, {5, -1, 1.5}));    // through the corner itself
  EXPECT_FALSE(seeing.sees({3, 1, 0.5}, {5, -1, 0.5}));
  EXPECT_FALSE(seeing.sees({3, 1, 2.5}, {5, -1, 2.5}));
  EXPECT_TRUE(seeing.sees({3, 0.5, 1.5}, {5, 0.5, 1.5}));
  EXPECT_FALSE(seeing.sees({3, 1.5, 1.5}, {5, 1.5, 1.5}));
}

// Closed form: glass that passes light and not infrared stands as a pane with its own shares, and
// is left out with its opening where a situation takes its filling away.
TEST(BuildScene, GivesPanesTheirMaterial) {
  design::Design design = oneStorey(rectangle(0, 0, 8, 3));
  design.site.materials = {{{"glass"}, "", {1}, {0}, {}}, {{"air"}, "", {1}, {1}, {}}};
  design::Wall w = wall("W", {{0, 0}, {8, 0}});
  w.openings = {opening("N", 4, 2, 0.9, 2, "glass"), opening("A", 1, 1, 0.9, 2, "air")};
  storey(design).walls = {w};
  const Scene scene = build(design);
  ASSERT_EQ(bodiesOf(scene, "N"), 1u);
  EXPECT_EQ(bodiesOf(scene, "A"), 0u);
  const auto pane = std::find_if(scene.sources.begin(), scene.sources.end(),
                                 [](const Source& s) { return s.id == "N"; });
  EXPECT_EQ(pane->light, 1);
  EXPECT_EQ(pane->infrared, 0);
  design::Situation open;
  open.absent = {{"N"}};
  EXPECT_EQ(bodiesOf(build(design, open), "N"), 0u);
  EXPECT_EQ(bodiesOf(build(design, open), "W"), bodiesOf(scene, "W"));
}

// Closed form: what some situation names as present stands only there; what one names as absent
// stands everywhere else.
TEST(BuildScene, FollowsTheSituation) {
  design::Design design = oneStorey(rectangle(0, 0, 8, 8));
  design.site.solids = {box("stock", rectangle(1, 1, 2, 2), 0, 2),
                        box("stall", rectangle(3, 3, 4, 4), 0, 2)};
  storey(design).walls = {wall("W", {{0, 0}, {8, 0}})};
  design::Situation day, market, bare;
  day.id.text = "day";
  market.id.text = "market";
  market.present = {{"stall"}};
  bare.id.text = "bare";
  bare.absent = {{"stock"}, {"W"}};
  design.situations = {day, market, bare};
  const Scene by_day = build(design, day), at_market = build(design, market),
              empty = build(design, bare);
  EXPECT_EQ(bodiesOf(by_day, "stock"), 1u);
  EXPECT_EQ(bodiesOf(by_day, "stall"), 0u);
  EXPECT_EQ(bodiesOf(at_market, "stall"), 1u);
  EXPECT_EQ(bodiesOf(empty, "stock") + bodiesOf(empty, "stall") + bodiesOf(empty, "W"), 0u);
  EXPECT_FALSE(sameSolids(design, day, market));
  EXPECT_FALSE(sameSolids(design, day, bare));
  design::Situation night = day;
  night.lights = {{"L1"}};
  night.absent = {{"some zone"}};
  EXPECT_TRUE(sameSolids(design, day, night));
}

// Closed form: slabs lie below the floor and on top, voids are open, edges reach out by the seam.
TEST(BuildScene, CutsVoidsOutOfSlabs) {
  design::Design design = oneStorey(rectangle(0, 0, 10, 8));
  storey(design).voids = {rectangle(4, 3, 6, 5)};
  storey(design).roof_m = 0.3;
  const Seeing seeing{build(design)};
  EXPECT_FALSE(seeing.sees({1, 1, 1}, {1, 1, -1}));
  EXPECT_TRUE(seeing.sees({5, 4, 1}, {5, 4, -1}));
  EXPECT_FALSE(seeing.sees({5, 4, 1}, {5, 4, 4}));
  EXPECT_TRUE(seeing.sees({1, 1, 0}, {9, 7, 0}));  // along the floor
  Box3 box;
  for (const Body& b : seeing.scene.bodies) box.add(b.box);
  EXPECT_NEAR(box.low.z, -0.2, 1e-12);
  EXPECT_NEAR(box.high.z, 3.3, 1e-12);
  EXPECT_LE(box.low.x, -kSeamOverlapM);
  EXPECT_GE(box.low.x, -4 * kSeamOverlapM - 1e-12);  // a sharp piece's corner, mitred
  expectSound(seeing.scene);
}

// Closed form: a building turned clockwise by 90 degrees: its +y becomes the site's +x.
TEST(BuildScene, PlacesTheBuilding) {
  design::Design design = oneStorey(rectangle(0, 0, 4, 2));
  design.site.buildings[0].origin_m = {100, 50};
  design.site.buildings[0].turn_deg = 90;
  const Scene scene = build(design);
  EXPECT_NEAR(scene.bodies[0].box.low.x, 100, 1e-5);
  EXPECT_NEAR(scene.bodies[0].box.high.x, 102, 1e-5);
  EXPECT_NEAR(scene.bodies[0].box.low.y, 46, 1e-5);
  EXPECT_NEAR(scene.bodies[0].box.high.y, 50, 1e-5);
}

// Closed form: a ramp rising east from 0 to 1 m over 5 m, L-shaped: a sightline 0.4 m high meets
// it after 2 m; its floor as a zone's surface has the same slope.
TEST(BuildScene, SlopesTops) {
  design::Design design = oneStorey(rectangle(0, 0, 12, 12));
  design::Solid ramp = box("R", {{1, 1}, {6, 1}, {6, 2}, {3, 2}, {3, 4}, {1, 4}}, 0, 0);
  ramp.kind = design::SolidKind::ramp;
  ramp.storey.text = "S0";
  ramp.slope = design::Slope{90, 1};
  design.site.solids = {ramp};
  const Seeing seeing{build(design)};
  EXPECT_TRUE(seeing.sees({0, 1.5, 0.4}, {3, 1.5, 0.4}));
  EXPECT_FALSE(seeing.sees({0, 1.5, 0.4}, {3.1, 1.5, 0.4}));
  EXPECT_TRUE(seeing.sees({0, 3, 0.4}, {9, 3, 0.4}));
  expectSound(seeing.scene);
  design::Zone zone;
  zone.storey.text = "S0";
  zone.surface.text = "R";
  const Floor floor = floorOf(design, zone);
  EXPECT_NEAR(floor.at({1, 3}), 0, 1e-12);
  EXPECT_NEAR(floor.at({6, 1}), 1, 1e-12);
  EXPECT_NEAR(floor.at({3.5, 7}), 0.5, 1e-12);
}

// Closed form: a wall 8 m long with a door of 1 m and a window of 2 m stands on 7 m; a counter
// stands, a canopy does not; what is on another floor does not.
TEST(StandingFootprints, AreOfWhatStandsOnTheFloor) {
  design::Design design = oneStorey(rectangle(0, -4, 8, 4));
  design::Wall w = wall("W", {{0, 0}, {8, 0}});
  w.openings = {opening("D", 1, 1, 0, 2.1), opening("N", 4, 2, 0.9, 2)};
  design::Wall beam = wall("Beam", {{0, 2}, {8, 2}});
  beam.base_m = 2.5;
  storey(design).walls = {w, beam};
  design::Storey upper = storey(design);
  upper.id.text = "S1";
  upper.floor_m = 3.2;
  upper.walls.clear();
  design.site.buildings[0].storeys.push_back(upper);
  design.site.solids = {box("counter", rectangle(2, 1, 4, 1.5), 0, 1.1),
                        box("canopy", rectangle(2, -2, 4, -1), 2.2, 2.4),
                        box("upstairs", rectangle(6, -2, 7, -1), 0, 1)};
  design.site.solids[0].storey.text = "S0";
  design.site.solids[1].storey.text = "S0";
  design.site.solids[2].storey.text = "S1";
  EXPECT_NEAR(area(standingFootprints(design, {"S0"}, {})), 7 * 0.2 + 1, 1e-5);
  EXPECT_NEAR(area(standingFootprints(design, {"S1"}, {})), 1, 1e-9);
  EXPECT_TRUE(standingFootprints(design, {"none"}, {}).empty());
  EXPECT_NEAR(area(slabOutline(design, {"S1"})), 64, 1e-9);
}

// Bound: a hundred thousand solids build in a few seconds (they take about a third of one).
TEST(BuildScene, TakesTimeInProportionToTheSolids) {
  design::Design design = oneStorey(rectangle(0, 0, 400, 400));
  for (int i = 0; i < 100000; ++i) {
    const double x = i % 316, y = i / 316;
    design.site.solids.push_back(
        box("b" + std::to_string(i), rectangle(x, y, x + 0.5, y + 0.5), 0, 1));
  }
  const auto start = std::chrono::steady_clock::now();
  const Scene scene = build(design);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  EXPECT_EQ(scene.bodies.size(), 100001u);
  EXPECT_LT(took.count(), 60);
  RecordProperty("milliseconds", static_cast<int>(1000 * took.count()));
}

}  // namespace
}  // namespace belvedere::scene
