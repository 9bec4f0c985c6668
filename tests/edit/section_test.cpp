// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/section.h"

#include <gtest/gtest.h>

#include "aiming.h"
#include "edit/mount_drag.h"
#include "proof/blind.h"
#include "scene/scene.h"

namespace belvedere::edit {
namespace {

constexpr double kHalfHeightTan = 1080.0 / 1920;  // of a field 60 deg wide, over tan(30 deg)

// A lens 3 m up at the zero point, 60 deg across, no offset.
design::PosedImager lookout(double pan_deg, double tilt_deg, double roll_deg = 0) {
  design::ModelImager imager = zoomImager(1);
  imager.offset_m = {};
  return *posedOf(headOf({imager}, {aimed(pan_deg, tilt_deg, roll_deg, 60)}, 3), slotOf(1),
                  design::JudgedOn::captured);
}
double vfov() { return 2 * radToDeg(std::atan(std::tan(degToRad(30.0)) * kHalfHeightTan)); }

std::shared_ptr<const proof::Place> placeOf(scene::Scene scene) {
  auto place = std::make_shared<proof::Place>();
  place->scene = std::move(scene);
  place->tree = scene::buildTree(place->scene);
  return place;
}
std::shared_ptr<const proof::Place> openPlace() { return placeOf({}); }

// A box over [x0, x1] x [y0, y1] up to a height.
void addBox(scene::Scene& scene, const char* id, double x0, double y0, double x1, double y1,
            double top_m) {
  scene.sources.push_back({id, 0, 0});
  scene::addPrism(scene, {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, {0, 0, 0, 0},
                  {top_m, top_m, top_m, top_m},
                  static_cast<std::uint32_t>(scene.sources.size() - 1));
}

// Closed form: handbook 7. The band's low end comes into the frame last, its high end leaves first.
TEST(Section, of_an_open_floor_has_the_closed_forms_stretches) {
  for (const double pan : {0.0, 130.0}) {
    const auto question =
        sectionQuestion(openPlace(), lookout(pan, 30), {0.2, 1.8}, 50, scene::Floor{});
    const Section section = sectionOf({}, question, 0, -2, 20);
    EXPECT_NEAR(section.bearing_deg, pan, 1e-9);
    ASSERT_TRUE(section.blind_m);
    EXPECT_TRUE(section.blind_ends);
    EXPECT_EQ((*section.blind_m)[0], 0);
    EXPECT_NEAR((*section.blind_m)[1], proof::nearestM(3, 0.2, 30, vfov()), 1e-6);
    ASSERT_TRUE(section.far_m);
    EXPECT_NEAR(*section.far_m, *proof::farthestM(3, 1.8, 30, vfov()), 1e-6);
  }
}

// Closed form: on the middle column of a rectilinear lens density across is F over the depth along
// the axis, s cos t + (h - p) sin t, least at the band's low end.
TEST(Section, ends_where_density_falls_below_the_need) {
  const auto question =
      sectionQuestion(openPlace(), lookout(0, 30), {0, 1.8}, 400, scene::Floor{});
  const Section section = sectionOf({}, question, 0, 0, 20);
  const double f_px = 960 / std::tan(degToRad(30.0));
  const double depth = f_px / 400;
  ASSERT_TRUE(section.far_m);
  EXPECT_NEAR(*section.far_m, (depth - 3 * 0.5) / std::cos(degToRad(30.0)), 1e-6);
  EXPECT_TRUE(section.far_ends);
}

// Closed form: rays at tilt plus and minus half the field; the lower one meets the floor's level.
TEST(Section, rays_are_the_frames_top_and_bottom) {
  const auto question =
      sectionQuestion(openPlace(), lookout(0, 30), {0, 1.8}, 50, scene::Floor{});
  const Section section = sectionOf({}, question, 0, -2, 20);
  ASSERT_TRUE(section.upper && section.lower);
  EXPECT_NEAR(section.upper->down_deg, 30 - vfov() / 2, 1e-6);
  EXPECT_NEAR(section.axis.down_deg, 30, 1e-9);
  EXPECT_NEAR(section.lower->down_deg, 30 + vfov() / 2, 1e-6);
  EXPECT_NEAR(section.lower->end.y, 0, 1e-9);
  EXPECT_NEAR(section.lower->end.x, 3 / std::tan(degToRad(30 + vfov() / 2)), 1e-6);
  EXPECT_TRUE(section.lower->stopped_by.empty());
  EXPECT_NEAR(section.upper->end.y, 0, 1e-9);
}

TEST(Section, of_an_imager_that_sees_its_foot_has_no_blind_stretch) {
  const auto question =
      sectionQuestion(openPlace(), lookout(0, 80), {0, 1}, 50, scene::Floor{});
  const Section section = sectionOf({}, question, 0, -5, 20);
  EXPECT_FALSE(section.blind_m);
  ASSERT_TRUE(section.lower);
  EXPECT_GT(section.lower->down_deg, 90);
  EXPECT_LT(section.lower->end.x, 0);
}

// Closed form: a box across the axis is cut to its own face, one turned by 45 deg to its diagonal.
TEST(Section, cuts_bodies_exactly) {
  scene::Scene scene;
  addBox(scene, "rack", -1, 4, 1, 5, 2);
  scene.sources.push_back({"post", 0, 0});
  const double r = 0.5;
  scene::addPrism(scene, {{-r, 8}, {0, 8 - r}, {r, 8}, {0, 8 + r}}, {0, 0, 0, 0}, {1, 1, 1, 1}, 1);
  scene.sources.push_back({"sail", 0, 0});
  scene::addTriangle(scene, {-1, 10, 0}, {1, 10, 0}, {0, 10, 2}, 2);
  addBox(scene, "aside", 2, 4, 3, 5, 2);
  design::PosedImager view = lookout(0, 30);
  view.lens_m.y = -1;  // the foot is not the site's zero
  const auto question =
      sectionQuestion(placeOf(std::move(scene)), view, {0, 1.8}, 50, scene::Floor{});
  const Section section = sectionOf({}, question, 0, -2, 20);
  ASSERT_EQ(section.bodies.size(), 3u);
  EXPECT_EQ(section.bodies[0].id, "rack");
  const Box2 rack = bounds(section.bodies[0].outline);
  EXPECT_NEAR(rack.low.x, 5, 1e-9);
  EXPECT_NEAR(rack.high.x, 6, 1e-9);
  EXPECT_NEAR(signedArea(section.bodies[0].outline), 2, 1e-9);
  EXPECT_NEAR(signedArea(section.bodies[1].outline), 2 * r, 1e-9);
  EXPECT_EQ(section.bodies[2].id, "sail");
  ASSERT_EQ(section.bodies[2].line.size(), 2u);
  EXPECT_NEAR(std::abs(section.bodies[2].line[0].y - section.bodies[2].line[1].y), 2, 1e-9);
  // The axis falls by tan(30) to the rack's front, which it meets; the blind stretch does not mind.
  EXPECT_EQ(section.axis.stopped_by, "rack");
  EXPECT_NEAR(section.axis.end.x, 5, 1e-5);
  EXPECT_NEAR(section.axis.end.y, 3 - 5 * std::tan(degToRad(30.0)), 1e-5);
}

// Closed form: a slab from y = -1 to 10 at z = 0.5, a ramp that rises by 1 m from y = 4 to 8.
TEST(Section, floor_follows_slabs_and_ramps) {
  design::Design design;
  design::Storey storey;
  storey.id.text = "g";
  storey.floor_m = 0.5;
  storey.outline = {{-5, -1}, {5, -1}, {5, 10}, {-5, 10}};
  design.site.buildings.resize(1);
  design.site.buildings[0].storeys = {storey};
  design::Solid ramp;
  ramp.id.text = "ramp";
  ramp.storey.text = "g";
  ramp.kind = design::SolidKind::ramp;
  ramp.outline = {{-1, 4}, {1, 4}, {1, 8}, {-1, 8}};
  ramp.slope = design::Slope{0, 1};
  design.site.solids = {ramp};
  const auto question =
      sectionQuestion(openPlace(), lookout(0, 30), {0, 1.8}, 50, scene::Floor{});
  const Section section = sectionOf(design, question, 0, -2, 20);
  const std::vector<std::array<double, 4>> expected{{-2, 0, -1, 0},     {-1, 0.5, 4, 0.5},
                                                    {4, 0.5, 8, 1.5},   {8, 0.5, 10, 0.5},
                                                    {10, 0, 20, 0}};
  ASSERT_EQ(section.floor.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    EXPECT_NEAR(section.floor[i].from.x, expected[i][0], 1e-9);
    EXPECT_NEAR(section.floor[i].from.y, expected[i][1], 1e-9);
    EXPECT_NEAR(section.floor[i].to.x, expected[i][2], 1e-9);
    EXPECT_NEAR(section.floor[i].to.y, expected[i][3], 1e-9);
  }
}

// Property: a ray dragged to a point passes through it afterwards, by tilt and by zoom.
TEST(Section, rays_are_dragged_by_tilt_and_zoom) {
  design::ModelImager imager = zoomImager(1);
  const design::Design design = headOf({imager}, {aimed(70, 30, 0, 60)}, 3);
  const auto sectionBy = [&](const design::Design& d) {
    const auto view = posedOf(d, slotOf(1), design::JudgedOn::captured);
    return sectionOf(d, sectionQuestion(openPlace(), *view, {0, 1.8}, 50, scene::Floor{}), 0, -2,
                     20);
  };
  const Section before = sectionBy(design);
  const Vec2 at{2.2, 0.4};
  for (const EdgeBy by : {EdgeBy::tilt, EdgeBy::zoom}) {
    const Aimed result =
        edgeThrough(design, slotOf(1), Edge::near, by, siteOf(before, at));
    ASSERT_FALSE(result.at_stop) << result.stop;
    const Section after = sectionBy(result.design);
    const double down = radToDeg(std::atan2(after.lens_z_m - at.y, at.x));
    EXPECT_NEAR(after.lower->down_deg, down, 0.02);  // half a pixel
  }
  EXPECT_NEAR(inSection(before, siteOf(before, at)).x, at.x, 1e-12);
}

}  // namespace
}  // namespace belvedere::edit
