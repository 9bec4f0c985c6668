// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/mesh_plan.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "base/problem.h"
#include "make_design.h"

namespace belvedere::scene {
namespace {

const Box2 kEverywhere{{-100, -100}, {100, 100}};

void addFace(Mesh& mesh, const std::vector<Vec3>& corners) {
  const auto first = static_cast<std::uint32_t>(mesh.points.size());
  mesh.points.insert(mesh.points.end(), corners.begin(), corners.end());
  for (std::uint32_t i = 2; i < corners.size(); ++i)
    mesh.triangles.push_back({first, first + i - 1, first + i});
}
void addSides(Mesh& mesh, const Ring& ring, double low_m, double high_m, bool open_end = false) {
  for (std::size_t i = 0; i + (open_end ? 1 : 0) < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
    addFace(mesh, {withZ(a, low_m), withZ(b, low_m), withZ(b, high_m), withZ(a, high_m)});
  }
}
void addLid(Mesh& mesh, const Polygon& polygon, double z) {
  for (const Ring& piece : convexPieces(polygon)) {
    std::vector<Vec3> corners;
    for (const Vec2 p : piece) corners.push_back(withZ(p, z));
    addFace(mesh, corners);
  }
}
void addBlock(Mesh& mesh, const Polygon& polygon, double low_m, double high_m) {
  addSides(mesh, polygon.outer, low_m, high_m);
  for (const Ring& hole : polygon.holes) addSides(mesh, hole, low_m, high_m);
  addLid(mesh, polygon, low_m);
  addLid(mesh, polygon, high_m);
}
Ring turned(const Ring& ring, double turn) {
  Ring out;
  for (const Vec2 p : ring)
    out.push_back({std::cos(turn) * p.x - std::sin(turn) * p.y, std::sin(turn) * p.x + std::cos(turn) * p.y});
  return out;
}
double planOf(const Mesh& mesh) { return area(filledPlan(mesh, 1e-6, 0.2, kEverywhere)); }

// Closed form: a block takes its outline wherever it reaches between the heights, as a prism would:
// standing, sunk into the floor, beginning a little above it; not one that only touches it from below
// or begins higher.
TEST(FilledPlan, OfABlockIsItsOutline) {
  const Ring l_shape = turned({{0, 0}, {3, 0}, {3, 1}, {1, 1}, {1, 4}, {0, 4}}, 0.3);
  for (const auto& [low, high, m2] : {std::tuple{0.0, 2.0, 6.0}, {-1.0, 2.0, 6.0}, {0.15, 0.4, 6.0},
                                      {-1.0, 0.1, 6.0}, {-1.0, 0.0, 0.0}, {0.2, 1.0, 0.0}}) {
    Mesh mesh;
    addBlock(mesh, {l_shape, {}}, low, high);
    EXPECT_NEAR(planOf(mesh), m2, 1e-6) << low << " " << high;
  }
}

// Closed form: a pen of thick walls leaves its inside; a table takes its legs; a cone's frustum its
// wider end; two blocks that overlap their union, and one drawn twice itself.
TEST(FilledPlan, LeavesWhatIsHollow) {
  Mesh pen, table, two, twice;
  addBlock(pen, {rectangle(0, 0, 4, 4), {reversed(rectangle(1, 1, 3, 3))}}, 0, 1.5);
  EXPECT_NEAR(planOf(pen), 12, 1e-6);
  for (const double x : {0.0, 0.9})
    for (const double y : {0.0, 1.9}) addBlock(table, {rectangle(x, y, x + 0.1, y + 0.1), {}}, 0, 0.7);
  addBlock(table, {rectangle(0, 0, 1, 2), {}}, 0.7, 0.75);
  EXPECT_NEAR(planOf(table), 0.04, 1e-6);
  addBlock(two, {rectangle(0, 0, 2, 1), {}}, 0, 1);
  addBlock(two, {rectangle(1, 0.5, 3, 1.5), {}}, 0, 1);
  EXPECT_NEAR(planOf(two), 3.5, 1e-6);
  addBlock(twice, {rectangle(0, 0, 2, 1), {}}, 0, 1);
  addBlock(twice, {rectangle(0, 0, 2, 1), {}}, 0, 1);
  EXPECT_NEAR(planOf(twice), 2, 1e-6);
  // A pyramid of 4 by 4 m and 2 m: at the floor it is 4 m wide, less a micrometre's rise.
  Mesh pyramid;
  const Ring base = rectangle(-2, -2, 2, 2);
  addLid(pyramid, {base, {}}, 0);
  for (std::size_t i = 0; i < 4; ++i)
    addFace(pyramid, {withZ(base[i], 0), withZ(base[(i + 1) % 4], 0), {0, 0, 2}});
  EXPECT_NEAR(planOf(pyramid), 16, 1e-4);
}

// Property: faces that are cut up differently, and share no edge, enclose what they enclose.
TEST(FilledPlan, OfFacesThatShareNoEdge) {
  Mesh mesh;
  const Ring ring = turned(rectangle(0, 0, 2, 1), 0.7);
  for (std::size_t i = 0; i < 4; ++i)
    for (int k = 0; k < static_cast<int>(i) + 1; ++k) {  // side i in i + 1 storeys
      const double from = 0.9 * k / (static_cast<double>(i) + 1), to = 0.9 * (k + 1) / (static_cast<double>(i) + 1);
      const Vec2 a = ring[i], b = ring[(i + 1) % 4];
      addFace(mesh, {withZ(a, from), withZ(b, from), withZ(b, to), withZ(a, to)});
    }
  EXPECT_NEAR(planOf(mesh), 2, 1e-4);
}

// A sheet takes nothing; one that is bent and stays open cannot be told, unless it is elsewhere.
TEST(FilledPlan, OfSheets) {
  Mesh sheet, bent;
  addSides(sheet, {{0, 0}, {3, 1}}, 0, 2, true);
  EXPECT_EQ(planOf(sheet), 0);
  addSides(bent, {{0, 0}, {3, 0}, {3, 2}, {0, 2}}, 0, 2, true);
  EXPECT_THROW(planOf(bent), MeshError);
  EXPECT_NO_THROW(filledPlan(bent, 1e-6, 0.2, {{10, 10}, {20, 20}}));
  EXPECT_NO_THROW(filledPlan(bent, 3, 3.2, kEverywhere));
}

// Closed form: the top of a block and of a ramp; not where the zone reaches beside, over a step, or
// under what hangs over it.
TEST(TopOver, IsThePlaneOnWhichTargetsStand) {
  Mesh block;
  addBlock(block, {rectangle(0, 0, 4, 2), {}}, 0, 0.9);
  const Region zone{{rectangle(0.5, 0.5, 3, 1.5), {}}};
  EXPECT_DOUBLE_EQ(topOver(block, zone).at({1, 1}), 0.9);
  EXPECT_THROW(topOver(block, {{rectangle(3, 0, 5, 1), {}}}), MeshError);
  Mesh stepped = block, roofed = block, ramp;
  addBlock(stepped, {rectangle(0, 0, 1, 2), {}}, 0.9, 1.1);
  EXPECT_THROW(topOver(stepped, zone), MeshError);
  EXPECT_NO_THROW(topOver(stepped, {{rectangle(1, 0, 4, 2), {}}}));
  addBlock(roofed, {rectangle(2.5, 0, 4, 2), {}}, 2.5, 2.6);
  EXPECT_THROW(topOver(roofed, zone), MeshError);
  addFace(ramp, {{0, 0, 0}, {4, 0, 1}, {4, 2, 1}, {0, 2, 0}});
  const Floor floor = topOver(ramp, zone);
  EXPECT_NEAR(floor.at({2, 1}), 0.5, 1e-12);
  EXPECT_NEAR(floor.slope.x, 0.25, 1e-12);
  EXPECT_NEAR(floor.slope.y, 0, 1e-12);
}

std::string objOf(const Mesh& mesh) {
  std::string text;
  for (const Vec3& p : mesh.points) text += fmt::format("v {} {} {}\n", p.x, p.y, p.z);
  for (const auto& t : mesh.triangles) text += fmt::format("f {} {} {}\n", t[0] + 1, t[1] + 1, t[2] + 1);
  return text;
}

// Regression: people stood inside meshes, and targets "on" a mesh stood on the storey's floor. Clear
// glass takes its place on the floor too.
TEST(BuildScene, MeshesStandOnFloorsAndCarryTargets) {
  const Folder folder("mesh_plan");
  Mesh block;
  addBlock(block, {rectangle(0, 0, 2, 1), {}}, 0, 0.8);
  folder.write("block.obj", objOf(block));
  design::Design design = oneStorey(rectangle(-10, -10, 10, 10));
  design::Solid solid;
  solid.id.text = "M";
  solid.file = design::Attachment{"block.obj", ""};
  solid.place_m = Vec3{3, 4, 0};
  solid.turn_deg = 90;  // to x 3 to 4, y 2 to 4
  solid.material.text = "glass";
  design.site.solids = {solid};
  design::Material glass;
  glass.id.text = "glass";
  glass.light.share = glass.infrared.share = 1;
  design.site.materials = {glass};
  design::Zone floor_zone, top_zone;
  floor_zone.id.text = "F";
  floor_zone.storey.text = "S0";
  floor_zone.outline = rectangle(-5, -5, 5, 5);
  top_zone.id.text = "T";
  top_zone.storey.text = "S0";
  top_zone.surface.text = "M";
  top_zone.outline = rectangle(3, 2, 4, 4);
  design.site.zones = {floor_zone, top_zone};
  const Scene scene = build(design, {}, folder.path);
  const Region standing = standingFootprints(design, {"S0"}, {}, &scene);
  EXPECT_NEAR(area(standing), 2, 1e-6);
  EXPECT_TRUE(contains(standing, {3.5, 3}));
  EXPECT_NEAR(floorOf(design, top_zone, &scene).at({3.5, 3}), 0.8, 1e-12);
  design.site.zones[1].outline = rectangle(3, 2, 4, 4.5);
  try {
    build(design, {}, folder.path);
    FAIL() << "no error";
  } catch (const InputError& error) {
    ASSERT_EQ(error.problems().size(), 1u);
    EXPECT_EQ(error.problems()[0].code, "surface_unclear");
    EXPECT_EQ(error.problems()[0].where, "/site/zones/1/surface");
  }
}

}  // namespace
}  // namespace belvedere::scene
