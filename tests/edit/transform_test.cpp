// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/transform.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "base/problem.h"
#include "base/units.h"
#include "design/resolve.h"
#include "edit/erase.h"
#include "edit/pick.h"
#include "edit/trace.h"
#include "edit_sample.h"

namespace belvedere::edit {
namespace {

using design::Design;

std::string problemOf(auto edit) {
  try {
    edit();
  } catch (const InputError& error) {
    return error.problems().front().code;
  }
  return "";
}

// The largest difference between two designs' places (m) and bearings (deg, over 360 the same).
double apart(const Design& a, const Design& b) {
  double most = 0;
  const auto lengths = [&](Vec2 p, Vec2 q) { most = std::max(most, norm(p - q)); };
  const auto bearings = [&](double p, double q) {
    most = std::max(most, std::abs(wrap180(p - q)));
  };
  const auto lines = objectsOf(a, {}), others = objectsOf(b, {});
  EXPECT_EQ(lines.size(), others.size());
  for (std::size_t i = 0; i < std::min(lines.size(), others.size()); ++i) {
    EXPECT_EQ(lines[i].ref, others[i].ref);
    const Trace s = traceOf(a, lines[i].ref), t = traceOf(b, lines[i].ref);
    for (std::size_t r = 0; r < s.rings.size(); ++r)
      for (std::size_t k = 0; k < s.rings[r].size(); ++k) lengths(s.rings[r][k], t.rings[r][k]);
    for (std::size_t r = 0; r < s.lines.size(); ++r)
      for (std::size_t k = 0; k < s.lines[r].size(); ++k) lengths(s.lines[r][k], t.lines[r][k]);
    for (std::size_t k = 0; k < s.points.size(); ++k) lengths(s.points[k], t.points[k]);
  }
  for (std::size_t h = 0; h < a.housings.size(); ++h) {
    const design::Housing &p = a.housings[h], &q = b.housings[h];
    bearings(p.mount.base_bearing_deg, q.mount.base_bearing_deg);
    for (std::size_t i = 0; i < p.imagers.size(); ++i)
      for (std::size_t k = 0; k < p.imagers[i].aims.size(); ++k) {
        bearings(p.imagers[i].aims[k].pan_deg, q.imagers[i].aims[k].pan_deg);
        bearings(p.imagers[i].aims[k].roll_deg, q.imagers[i].aims[k].roll_deg);
      }
  }
  for (std::size_t i = 0; i < a.site.solids.size(); ++i)
    if (a.site.solids[i].slope)
      bearings(a.site.solids[i].slope->toward_deg, b.site.solids[i].slope->toward_deg);
  return most;
}

Selection everything(const Design& design) {
  Selection all;
  for (const ObjectLine& line : objectsOf(design, {}))
    if (line.ref.slot == 0 && line.ref.kind != ObjectKind::underlay) all.push_back(line.ref);
  return all;
}

// Property: there and back is the same design, for the whole of every example.
TEST(Transform, ThereAndBackIsTheSame) {
  for (const auto& path : allDesigns()) {
    const Design design = design::readDesign(path).design;
    const Selection all = everything(design);
    const Vec2 v{1.23456, -7.1};
    const Design there = moved(design, all, v);
    EXPECT_NO_THROW(readBack(there, path.parent_path())) << path;
    EXPECT_LT(apart(moved(there, all, -v), design), 1e-9 * 2) << path;
    const Design round = turned(turned(design, all, {3, 4}, 33.3), all, {3, 4}, -33.3);
    EXPECT_LT(apart(round, design), 1e-6) << path;
    const Design quarter = turned(design, all, {3, 4}, 90);
    EXPECT_NO_THROW(readBack(quarter, path.parent_path())) << path;
  }
}

// Property: mirrored twice is the same design; where a housing cannot look so, it is said.
TEST(Transform, MirroredTwiceIsTheSame) {
  std::size_t done = 0;
  for (const auto& path : allDesigns()) {
    const Design design = design::readDesign(path).design;
    const Selection all = everything(design);
    try {
      const Design image = mirrored(design, all, {1, 2}, {4, 9});
      EXPECT_NO_THROW(readBack(image, path.parent_path())) << path;
      EXPECT_LT(apart(mirrored(image, all, {1, 2}, {4, 9}), design), 1e-8) << path;
      ++done;
    } catch (const InputError& error) {
      EXPECT_EQ(error.problems().front().code, "aim_outside_limits") << path;
    }
  }
  EXPECT_GE(done, 6u);
}

// Closed form.
TEST(Transform, AHousingTurnsWithItsAims) {
  const Selection c1{{ObjectKind::housing, "C1", 2}};
  const Design design = turned(hall(), c1, {105, 37}, 90);
  const design::Housing& turned_one = design.housings[0];
  EXPECT_EQ(turned_one.mount.fixing_m, (Vec3{106, 37, 4.5}));
  EXPECT_EQ(turned_one.mount.base_bearing_deg, 120);
  EXPECT_EQ(turned_one.imagers[1].aims[0].pan_deg, 180);
  Design rolled = hall();
  rolled.catalogue.models[0].imagers[0].roll_deg = {-30, 30};
  rolled.housings[0].imagers[0].aims[0].roll_deg = 12;
  const Design image = mirrored(rolled, c1, {100, 0}, {100, 1});  // across north to south
  EXPECT_EQ(image.housings[0].mount.fixing_m, (Vec3{95, 38, 4.5}));
  EXPECT_EQ(image.housings[0].mount.base_bearing_deg, 330);
  EXPECT_EQ(image.housings[0].imagers[0].aims[0].roll_deg, -12);
  EXPECT_EQ(image.housings[0].imagers[1].aims[0].pan_deg, 270);
}

// Closed form: a slope that rises east, turned by a quarter, rises south; seen in a mirror that
// runs north, west.
TEST(Transform, ASlopeTurnsWithItsSolid) {
  Design design = hall();
  design.site.solids[2].slope = design::Slope{90, 1};
  const Selection s3{{ObjectKind::solid, "S3", 0}};
  EXPECT_EQ(turned(design, s3, {102, 33}, 90).site.solids[2].slope->toward_deg, 180);
  EXPECT_EQ(mirrored(design, s3, {104, 0}, {104, 1}).site.solids[2].slope->toward_deg, 270);
  EXPECT_EQ(moved(design, s3, {1, 0}).site.solids[2].slope->toward_deg, 90);
}

TEST(Transform, WhatIsOnAThingGoesAlong) {
  const Design design = hall();
  const Design counter = moved(design, {{ObjectKind::solid, "S1", 0}}, {1, 2});
  EXPECT_EQ(counter.site.zones[1].outline[0], (Vec2{105.5, 42.2}));
  const Design beam = moved(design, {{ObjectKind::mounting, "M1", 0}}, {0, -3});
  EXPECT_EQ(beam.housings[0].mount.fixing_m, (Vec3{105, 35, 4.5}));
  const Design zone = turned(design, {{ObjectKind::zone, "Z1", 0}}, {104.5, 44.5}, 90);
  EXPECT_EQ(zone.brief[0].facings[0].bearing_deg, 100);
  for (const ObjectRef& ref : {ObjectRef{ObjectKind::building, "B1", 0},
                               ObjectRef{ObjectKind::storey, "F1", 0}}) {
    const Design all = moved(design, {ref}, {10, 20});
    EXPECT_NEAR(norm(traceOf(all, {ObjectKind::wall, "W1", 0}).lines[0][0] - Vec2{110, 68}), 0,
                1e-9);
    EXPECT_EQ(all.site.zones[0].outline[0], (Vec2{111, 63}));
    EXPECT_EQ(all.housings[0].mount.fixing_m, (Vec3{115, 58, 4.5}));
  }
}

TEST(Transform, AnOpeningSlidesAlongItsWall) {
  const Selection o1{{ObjectKind::opening, "O1", 0}};
  const auto from_m = [](const Design& d) {
    return d.site.buildings[0].storeys[0].walls[0].openings[0].from_m;
  };
  EXPECT_DOUBLE_EQ(from_m(moved(hall(), o1, {2, 5})), 6);
  EXPECT_EQ(problemOf([&] { moved(hall(), o1, {-4.5, 0}); }), "opening_outside_wall");
  EXPECT_EQ(problemOf([&] { moved(hall(), o1, {5.5, 0}); }), "opening_outside_wall");
  const Design both =
      moved(hall(), {{ObjectKind::opening, "O1", 0}, {ObjectKind::wall, "W1", 0}}, {0, -1});
  EXPECT_DOUBLE_EQ(from_m(both), 4);  // it goes with its wall, once
}

TEST(Transform, WhatCannotBeIsRefused) {
  EXPECT_EQ(problemOf([] { moved(hall(), {{ObjectKind::zone, "Z1", 0}}, {0, 30}); }),
            "zone_outside_slab");
  EXPECT_EQ(problemOf([] { mirrored(hall(), {}, {1, 1}, {1, 1}); }), "zero_length");
  EXPECT_EQ(problemOf([] { mirrored(hall(), {{ObjectKind::underlay, "U1", 0}}, {0, 1}, {1, 1}); }),
            "mirror_of_drawing");
  EXPECT_EQ(problemOf([] { arrayed(hall(), {{ObjectKind::solid, "S3", 0}}, 0, 2, {}, {}); }),
            "array_size");
  EXPECT_EQ(problemOf([] {
              arrayed(hall(), {{ObjectKind::solid, "S3", 0}}, 2000, 2000, {1, 0}, {0, 1});
            }),
            "array_size");
}

TEST(Copies, HaveIdsOfTheirOwnAndNameEachOther) {
  const Copied made = copied(hall(),
                             {{ObjectKind::mounting, "M1", 0}, {ObjectKind::housing, "C1", 1},
                              {ObjectKind::housing, "C1", 2}, {ObjectKind::solid, "S3", 0}},
                             {0, 1});
  EXPECT_EQ(made.copies, (Selection{{ObjectKind::mounting, "M2", 0}, {ObjectKind::housing, "C2", 0},
                                    {ObjectKind::solid, "S4", 0}}));
  ASSERT_EQ(made.design.housings.size(), 2u);
  const design::Housing& copy = made.design.housings[1];
  EXPECT_EQ(copy.mount.on.text, "M2");
  EXPECT_EQ(copy.mount.fixing_m, (Vec3{105, 39, 4.5}));
  EXPECT_EQ(copy.life, design::Life::new_);
  EXPECT_EQ(copy.streams[0].id.text, "V2");
  EXPECT_EQ(made.design.situations[1].present.back().text, "S4");  // only on market day too
  EXPECT_EQ(made.design.brief.size(), 1u);
  EXPECT_NO_THROW(readBack(made.design, {}));
}

TEST(Copies, OfABuildingHaveAllThatStandsInIt) {
  const Copied made = copied(hall(), {{ObjectKind::building, "B1", 0}}, {50, 0});
  EXPECT_EQ(made.design.site.buildings.size(), 2u);
  EXPECT_EQ(made.design.site.zones.size(), 4u);
  EXPECT_EQ(made.design.site.zones[3].surface.text, "S4");
  EXPECT_EQ(made.design.site.zones[3].storey.text, "F2");
  EXPECT_EQ(made.design.housings[1].storey.text, "F2");
  EXPECT_EQ(made.copies, (Selection{{ObjectKind::building, "B2", 0}}));
  EXPECT_NO_THROW(readBack(made.design, {}));
}

// Closed form.
TEST(Copies, StandInRowsAndAlongLines) {
  const Selection s3{{ObjectKind::solid, "S3", 0}};
  const Copied rows = arrayed(hall(), s3, 3, 2, {2.5, 0}, {0, -4});
  EXPECT_EQ(rows.copies.size(), 5u);
  EXPECT_EQ(rows.design.site.solids.back().outline[0], (Vec2{106, 28}));
  const Copied along = arrayedAlong(hall(), s3, {{0, 0}, {10, 0}, {10, 10}}, 5, true);
  ASSERT_EQ(along.copies.size(), 4u);
  // The third stands 5 m up the second leg (10, 5), turned from east to north: a quarter back.
  const auto& third = along.design.site.solids[3 + 2].outline;
  EXPECT_NEAR(norm(middleOf(along.design, {along.copies[2]}) - Vec2{112, 38.5}), 0, 1e-9);
  EXPECT_NEAR(std::abs(third[1].y - third[0].y), 2, 1e-9);  // its width lies along y now
  EXPECT_NO_THROW(readBack(rows.design, {}));
  EXPECT_NO_THROW(readBack(along.design, {}));
}

// Property: random edits, one upon another, keep the design usable.
TEST(Transform, RandomEditsKeepTheDesignUsable) {
  for (const auto& path : allDesigns()) {
    Design design = design::readDesign(path).design;
    std::mt19937 random(7);
    const auto upTo = [&](std::size_t n) { return static_cast<std::size_t>(random()) % n; };
    const auto small = [&] { return (static_cast<double>(upTo(2001)) - 1000) / 1000; };
    std::size_t done = 0;
    for (int i = 0; i < 40; ++i) {
      const auto lines = objectsOf(design, {});
      if (lines.empty()) break;
      Selection selection;
      for (std::size_t k = 0; k < 1 + upTo(4); ++k) {
        const ObjectRef& ref = lines[upTo(lines.size())].ref;
        if (std::ranges::find(selection, ref) == selection.end()) selection.push_back(ref);
      }
      try {
        switch (upTo(6)) {
          case 0: design = moved(design, selection, {small(), small()}); break;
          case 1:
            design = turned(design, selection, middleOf(design, selection), 90 * small());
            break;
          case 2: design = mirrored(design, selection, {0, 0}, {small(), 1}); break;
          case 3: design = copied(design, selection, {small(), small()}).design; break;
          case 4:
            design = arrayed(design, selection, 2, 2, {small(), 0}, {0, small()}).design;
            break;
          default:
            if (upTo(4) == 0) design = erased(design, {selection.front()}).design;
        }
        ++done;
      } catch (const InputError&) {
      }
      if (i % 8 == 7) {
        EXPECT_NO_THROW(readBack(design, path.parent_path())) << path << " after edit " << i;
      }
    }
    EXPECT_GT(done, 5u) << path;
  }
}

}  // namespace
}  // namespace belvedere::edit
