// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/shapes.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/problem.h"
#include "base/units.h"
#include "design/resolve.h"
#include "edit/handles.h"
#include "edit/trace.h"
#include "edit_sample.h"

namespace belvedere::edit {
namespace {

using design::Design;

// "code where" of the first problem; "" where nothing was thrown.
std::string problemOf(auto edit) {
  try {
    edit();
  } catch (const InputError& error) {
    return error.problems().front().code + " " + error.problems().front().where;
  }
  return "";
}

TEST(Shapes, ADesignIsDrawnFromNothing) {
  Added made = withBuilding({}, {{0, 0}, {20, 0}, {20, 10}, {0, 10}}, 0, 3.5);
  EXPECT_EQ(made.ref, (ObjectRef{ObjectKind::storey, "F1", 0}));
  const design::StoreyId f1{"F1"};
  made = withWall(made.design, f1, {{0, 5}, {20, 5}}, 0.2, {});
  made = withOpening(made.design, {"W1"}, {.from_m = 3, .width_m = 1, .material = {}});
  made =
      withSolid(made.design, f1, design::SolidKind::column, {{9, 2}, {9.5, 2}, {9.5, 2.5}}, 0, 3);
  made = withZone(made.design, f1, {{1, 1}, {8, 1}, {8, 4}, {1, 4}}, "Way in");
  made = withMounting(made.design, f1, "ceiling", {{1, 3}, {19, 3}}, {3.2, 3.5});
  made = withContainment(made.design, f1, {{0, 0, 3}, {20, 0, 3}});
  const design::Model twin = hall().catalogue.models[0];
  made.design.catalogue.models.push_back(twin);
  made = withHousing(made.design, {{"twin"}, {{}, {"M1"}, {5, 3, 3.3}, 10, 0}, f1});
  EXPECT_EQ(made.ref.id, "C1");
  EXPECT_EQ(made.design.housings[0].lamps.size(), 1u);
  const AddedRequirement asked =
      withRequirement(made.design, {"Z1"}, "identify", design::TargetKind::face);
  EXPECT_EQ(asked.id.text, "R1");
  made = withStoreyAbove(asked.design, f1);
  EXPECT_DOUBLE_EQ(findStorey(made.design, {"F2"})->floor_m, 3.7);  // 3.5 m and a slab of 0.2 m
  EXPECT_EQ(problemOf([&] { withStoreyAbove(made.design, f1); }),
            "storey_in_the_way /site/buildings/0/storeys/0");
  EXPECT_NO_THROW(readBack(made.design, {}));
}

// Closed form: building (x, y) of the hall is site (100 + y, 50 - x).
TEST(Shapes, WallsAreGivenOnTheSiteAndKeptInTheBuilding) {
  const Added made = withWall(hall(), {"F1"}, {{100, 45}, {110, 45}}, 0.1, 2.0);
  EXPECT_EQ(made.ref.id, "W3");
  const design::Wall& wall = made.design.site.buildings[0].storeys[0].walls.back();
  EXPECT_NEAR(norm(wall.path[0] - Vec2{5, 0}), 0, 1e-12);
  EXPECT_NEAR(norm(wall.path[1] - Vec2{5, 10}), 0, 1e-12);
}

TEST(Shapes, WhatCannotBeIsRefusedWithItsPlace) {
  const Design design = hall();
  const std::string wall = "/site/buildings/0/storeys/0/walls/0";
  EXPECT_EQ(problemOf([&] { withOpening(design, {"W1"}, {9, 2, 0, 2.1, {}}); }),
            "opening_outside_wall " + wall + "/openings/1");
  EXPECT_EQ(problemOf([&] { withOpening(design, {"W1"}, {4.5, 2, 0, 2.1, {}}); }),
            "openings_overlap " + wall + "/openings/1");
  EXPECT_EQ(problemOf([&] {
              withZone(design, {"F1"}, {{101, 31}, {109, 31}, {101, 33}, {109, 33}}, "");
            }),
            "self_crossing /site/zones/2/outline");
  EXPECT_EQ(problemOf([&] { withZone(design, {"F1"}, {{120, 31}, {129, 31}, {129, 33}}, ""); }),
            "zone_outside_slab /site/zones/2/outline");
  EXPECT_EQ(problemOf([&] { withSolid(design, {"F1"}, {}, {{1, 1}, {2, 2}, {3, 3}}, 0, 1); }),
            "zero_area /site/solids/3/outline");
  EXPECT_EQ(problemOf([&] { withMounting(design, {"F1"}, "ceiling", {}, {3, 3}); }),
            "too_few_points /site/mounting/1/path");
  EXPECT_EQ(problemOf([&] { withWall(design, {"F9"}, {{0, 0}, {1, 1}}, 0.1, {}); }), "unknown_id ");
  EXPECT_EQ(problemOf([&] { withRequirement(design, {"Z1"}, "perceive", {}); }),
            "unknown_task /brief/1/task");
  EXPECT_EQ(problemOf([&] { withHousing(design, {{"none"}, {}, {}}); }), "unknown_model ");
}

TEST(Shapes, AZoneDoesNotLieOverAVoid) {
  Design design = hall();  // site (106..108, 46.5..47.5)
  design.site.buildings[0].storeys[0].voids = {{{2.5, 6}, {3.5, 6}, {3.5, 8}, {2.5, 8}}};
  EXPECT_EQ(problemOf([&] {
              withZone(design, {"F1"}, {{105, 46.2}, {109, 46.2}, {109, 47}, {105, 47}}, "");
            }),
            "zone_outside_slab /site/zones/2/outline");
}

TEST(Shapes, PinsLayADrawing) {
  const Added made = withUnderlay(hall(), {"F1"}, {"plan.png", std::string(64, 'a')}, 1);
  const Design pinned =
      withPins(made.design, {"U1"}, {{{0, 0}, {100, 30}}, {{500, 0}, {110, 30}}});
  EXPECT_EQ(pinned.site.underlays[0].pins.size(), 2u);
  EXPECT_EQ(problemOf([&] { withPins(made.design, {"U1"}, {{{0, 0}, {1, 1}}}); }),
            "too_few_points /site/underlays/0/pins");
  EXPECT_EQ(problemOf([&] { withPins(made.design, {"U1"}, {{{0, 0}, {1, 1}}, {{5, 5}, {1, 1}}}); }),
            "pins_same_place /site/underlays/0/pins/1");
  EXPECT_EQ(
      withoutVertex(pinned, made.ref, {HandleKind::place, 0, 0, {}}).site.underlays[0].pins.size(),
      0u);
}

TEST(Shapes, NewIdsAreFree) {
  Design design = hall();
  EXPECT_EQ(newId(design, "W"), "W3");
  EXPECT_EQ(newId(design, "V"), "V2");  // a stream has V1
  EXPECT_EQ(newId(design, "twi"), "twi1");
  design.library.push_back({});
  design.library.back().id.text = "Q1";
  EXPECT_EQ(newId(design, "Q"), "Q2");
}

// Property: of every housing model of every example, the defaults are within its limits, level,
// turned and leaning.
TEST(Shapes, DefaultAimsKeepTheLimitsOfEveryModel) {
  for (const auto& path : allDesigns()) {
    const Design design = design::readDesign(path).design;
    for (const auto* list : {&design.catalogue.models, &design.library})
      for (const design::Model& model : *list) {
        if (model.kind != design::ModelKind::housing) continue;
        for (const double lean_deg : {0.0, 90.0, -17.0})
          for (const double bearing_deg : {0.0, 123.4}) {
            const design::Mount mount{{}, {}, {5, 5, 3}, bearing_deg, lean_deg};
            EXPECT_NO_THROW(withHousing(design, {model.id, mount, {}}))
                << path << " " << model.id.text;
          }
      }
  }
}

// Closed form: two on a whole ring are half a turn apart from the base bearing on.
TEST(Shapes, AWholeRingIsSharedEvenly) {
  const auto imagers = defaultImagers(hall().catalogue.models[0], {{}, {}, {}, 30, 0});
  ASSERT_EQ(imagers.size(), 2u);
  EXPECT_NEAR(imagers[0].aims[0].pan_deg, 30, 1e-6);
  EXPECT_NEAR(imagers[1].aims[0].pan_deg, 210, 1e-6);
  EXPECT_NEAR(imagers[0].aims[0].tilt_deg, kDefaultTiltDeg, 1e-6);
}

// ---- handles ------------------------------------------------------------------------------------

Handle handleAt(const Design& design, const ObjectRef& ref, HandleKind kind, Vec2 at) {
  for (const Handle& handle : handlesOf(design, ref))
    if (handle.kind == kind && norm(handle.at_m - at) < 1e-9) return handle;
  ADD_FAILURE() << "no handle there";
  return {};
}

TEST(Handles, PointsArePulledInsertedAndRemoved) {
  const Design design = hall();
  const ObjectRef z1{ObjectKind::zone, "Z1", 0};
  EXPECT_EQ(handlesOf(design, z1).size(), 8u);
  const Design pulled =
      withHandleAt(design, z1, handleAt(design, z1, HandleKind::vertex, {108, 43}), {109, 42.5});
  EXPECT_EQ(pulled.site.zones[0].outline[1], (Vec2{109, 42.5}));
  const Design more =
      withHandleAt(design, z1, handleAt(design, z1, HandleKind::edge, {104.5, 46}), {104, 46.5});
  ASSERT_EQ(more.site.zones[0].outline.size(), 5u);
  EXPECT_EQ(more.site.zones[0].outline[3], (Vec2{104, 46.5}));
  const Design back =
      withoutVertex(more, z1, handleAt(more, z1, HandleKind::vertex, {104, 46.5}));
  EXPECT_TRUE(back == design);
  EXPECT_EQ(
      problemOf([&] {
        withHandleAt(design, z1, handleAt(design, z1, HandleKind::vertex, {108, 43}), {130, 43});
      }),
      "zone_outside_slab /site/zones/0/outline");
  EXPECT_EQ(problemOf([&] {
              withHandleAt(design, z1, handleAt(design, z1, HandleKind::vertex, {101, 43}),
                           {109.5, 44});
            }),
            "self_crossing /site/zones/0/outline");
}

TEST(Handles, AnOpeningStaysWhereItIsWhenItsWallIsPulled) {
  const Design design = hall();
  const ObjectRef w1{ObjectKind::wall, "W1", 0}, o1{ObjectKind::opening, "O1", 0};
  const auto doorAt = [&](const Design& d) { return traceOf(d, o1).lines.front(); };
  const auto before = doorAt(design);
  const Design start =
      withHandleAt(design, w1, handleAt(design, w1, HandleKind::vertex, {100, 48}), {102, 48});
  EXPECT_NEAR(norm(doorAt(start)[0] - before[0]), 0, 1e-9);
  const Design end =
      withHandleAt(design, w1, handleAt(design, w1, HandleKind::vertex, {110, 48}), {107, 48});
  EXPECT_NEAR(norm(doorAt(end)[0] - before[0]), 0, 1e-9);
  const Design bent =
      withHandleAt(design, w1, handleAt(design, w1, HandleKind::edge, {105, 48}), {103, 48});
  EXPECT_NEAR(norm(doorAt(bent)[0] - before[0]), 0, 1e-9);
  EXPECT_EQ(
      problemOf([&] {
        withHandleAt(design, w1, handleAt(design, w1, HandleKind::vertex, {100, 48}), {104.5, 48});
      }),
      "opening_outside_wall ");
}

TEST(Handles, AnOpeningsEndsSlideAlongItsWall) {
  const Design design = hall();
  const ObjectRef o1{ObjectKind::opening, "O1", 0};
  const Design wide =
      withHandleAt(design, o1, handleAt(design, o1, HandleKind::end, {105, 48}), {106.5, 48.7});
  const design::Opening& o = wide.site.buildings[0].storeys[0].walls[0].openings[0];
  EXPECT_DOUBLE_EQ(o.from_m, 4);
  EXPECT_DOUBLE_EQ(o.width_m, 2.5);
  EXPECT_NE(problemOf([&] {
              withHandleAt(design, o1, handleAt(design, o1, HandleKind::end, {105, 48}), {103, 48});
            }),
            "");
}

TEST(Handles, AnEdgeTakesATypedLength) {
  const Design design = hall();
  const ObjectRef z1{ObjectKind::zone, "Z1", 0}, w2{ObjectKind::wall, "W2", 0};
  const Design wide =
      withEdgeLength(design, z1, handleAt(design, z1, HandleKind::edge, {104.5, 43}), 5);
  EXPECT_EQ(wide.site.zones[0].outline, (Ring{{101, 43}, {106, 43}, {106, 46}, {101, 46}}));
  const Design shorter =
      withEdgeLength(design, w2, handleAt(design, w2, HandleKind::edge, {100, 40}), 15);
  const auto& path = shorter.site.buildings[0].storeys[0].walls[1].path;
  EXPECT_NEAR(norm(path[1] - Vec2{15, 0}), 0, 1e-9);
  EXPECT_NEAR(norm(path[2] - Vec2{15, 10}), 0, 1e-9);  // what follows moves along
}

// Property: pulling any handle of any object of any example by a little leaves a usable design or
// says why not, and where nothing is pulled, nothing changes.
TEST(Handles, OfEveryExampleKeepTheDesignUsable) {
  std::size_t pulled = 0, refused = 0;
  for (const auto& path : allDesigns()) {
    const Design design = design::readDesign(path).design;
    for (const ObjectLine& line : objectsOf(design, {})) {
      const std::vector<Handle> handles = handlesOf(design, line.ref);
      for (std::size_t i = 0; i < handles.size(); i += 1 + handles.size() / 3) {
        if ((pulled + refused) % 7 == 3) {
          ++refused;
          continue;
        }
        try {
          const Design after =
              withHandleAt(design, line.ref, handles[i], handles[i].at_m + Vec2{0.11, -0.07});
          ++pulled;
          if (pulled % 5 == 0) {
            EXPECT_NO_THROW(readBack(after, path.parent_path())) << path << " " << line.ref.id;
          }
          if (handles[i].kind == HandleKind::vertex && line.ref.kind != ObjectKind::wall) {
            EXPECT_TRUE(withHandleAt(design, line.ref, handles[i], handles[i].at_m) == design)
                << path << " " << line.ref.id;
          }
        } catch (const InputError& error) {
          EXPECT_FALSE(error.problems().front().what.empty());
          ++refused;
        }
      }
    }
  }
  EXPECT_GT(pulled, 200u);
}

}  // namespace
}  // namespace belvedere::edit
