// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/snap.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cstdio>

#include "edit_sample.h"

namespace belvedere::edit {
namespace {

using design::Design;

void expectSnap(const SnapSet& set, Vec2 at, const SnapAsk& ask, SnapKind kind, Vec2 to,
                const std::string& says) {
  const Snap snap = snapped(set, at, ask);
  EXPECT_EQ(snap.kind, kind) << snap.says;
  EXPECT_NEAR(norm(snap.at_m - to), 0, 1e-12) << snap.at_m.x << " " << snap.at_m.y;
  EXPECT_EQ(snap.says, says);
}

// Closed form: in the hall, W1 runs from (100, 48) to (110, 48), 0.2 m thick, with a door from 104
// to 105; W2 is 0.3 m thick, from (100, 50) by (100, 30) to (110, 30).
TEST(Snap, TakesTheKindThatMattersMost) {
  const SnapSet set = snapSetOf(hall(), {"F1"}, {});
  const SnapAsk ask{.within_m = 0.15};
  expectSnap(set, {104.1, 39.95}, ask, SnapKind::end, {104, 40}, "end of S1");
  expectSnap(set, {105.02, 40.05}, ask, SnapKind::middle, {105, 40}, "middle of S1");
  expectSnap(set, {101.3, 48.02}, ask, SnapKind::on_line, {101.3, 48}, "on W1");
  expectSnap(set, {101.3, 48.19}, ask, SnapKind::on_face, {101.3, 48.1}, "on the face of W1");
  expectSnap(set, {110.1, 38.1}, ask, SnapKind::end, {110, 38}, "end of M1");
  expectSnap(set, {102.4, 43.5}, ask, SnapKind::free, {102.4, 43.5}, "");
  expectSnap(set, {106.05, 46.9}, ask, SnapKind::extension, {106, 46.9}, "in line with S1");
  expectSnap(set, {100.9, 47.95}, {.within_m = 0.15, .start = Vec2{100.95, 44}},
             SnapKind::perpendicular, {100.95, 48}, "square to W1");
}

TEST(Snap, ToCrossingsRightAnglesAndTheGrid) {
  Design design = hall();
  design.site.zones[0].outline = {{101, 43}, {108, 43}, {101, 46}};  // its slope crosses nothing
  design.site.mounting[0].path = {{103.4, 31}, {103.4, 49}};         // crosses S2 and W1
  const SnapSet set = snapSetOf(design, {"F1"}, {});
  expectSnap(set, {103.45, 39.1}, {.within_m = 0.2}, SnapKind::intersection, {103.4, 39},
             "crossing of S2 and M1");
  expectSnap(set, {102.2, 36.93}, {.within_m = 0.1, .start = Vec2{102.7, 37}},
             SnapKind::right_angle, {102.2, 37}, "right angle");
  // North from the start point on to the slope of Z1, at 46 - 3 (2.1 / 7).
  expectSnap(set, {103.12, 45.1}, {.within_m = 0.1, .start = Vec2{103.1, 42.5}},
             SnapKind::intersection, {103.1, 45.1}, "right angle to Z1");
  expectSnap(set, {500.1, 300.2}, {.within_m = 0.3, .grid_m = 0.5}, SnapKind::grid, {500, 300},
             "grid 0.5 m");
}

TEST(Snap, CanBeSwitchedOffAndLeavesOutWhatIsMoved) {
  const SnapSet set = snapSetOf(hall(), {"F1"}, {});
  expectSnap(set, {104.1, 39.95}, {.on = false}, SnapKind::free, {104.1, 39.95}, "");
  expectSnap(set, {104.1, 39.95}, {.within_m = 0.15, .except = {{ObjectKind::solid, "S1", 0}}},
             SnapKind::free, {104.1, 39.95}, "");
}

TEST(Snap, OnlyToWhatStandsInTheSituation) {
  const SnapAsk ask{.within_m = 0.15};
  EXPECT_EQ(snapped(snapSetOf(hall(), {"F1"}, {"market"}), {103.05, 32}, ask).kind, SnapKind::end);
  EXPECT_NE(snapped(snapSetOf(hall(), {"F1"}, {"day"}), {103.05, 32}, ask).says, "end of S3");
}

// Closed form, bounded loosely for busy machines: 5,000 boxes, of 20,000 edges.
TEST(Snap, IsQuickOverTwentyThousandEdges) {
  Design design;
  for (int i = 0; i < 5000; ++i) {
    design::Solid solid;
    solid.id.text = "S" + std::to_string(i);
    const double x = 2.0 * (i % 100), y = 3.0 * (i / 100);
    solid.outline = {{x, y}, {x + 1, y}, {x + 1, y + 1.3}, {x, y + 1.3}};
    solid.top_m = 1;
    design.site.solids.push_back(solid);
  }
  using Clock = std::chrono::steady_clock;
  const auto before = Clock::now();
  const SnapSet set = snapSetOf(design, {}, {});
  ASSERT_EQ(set.edges.size(), 20000u);
  const auto built = Clock::now();
  int ends = 0;
  for (int i = 0; i < 1000; ++i) {
    const Vec2 p{2.0 * (i % 90) + 0.05, 3.0 * (i % 45) + 1.35};
    ends += snapped(set, p, {.within_m = 0.2}).kind == SnapKind::end;
    snapped(set, p + Vec2{1.5, 0.7}, {.within_m = 0.2, .start = Vec2{0.3, 0.2}});
  }
  const auto asked = Clock::now();
  EXPECT_EQ(ends, 1000);
  const auto ms = [](auto d) { return std::chrono::duration<double, std::milli>(d).count(); };
  std::printf("built in %.1f ms, one question %.4f ms\n", ms(built - before),
              ms(asked - built) / 2000);
  EXPECT_LT(ms(asked - built) / 2000, 5);
}

// Property: a snap is never farther than the reach, and never worse in kind than what a look at all
// edges one by one finds.
TEST(Snap, FindsWhatLookingAtEveryEdgeFinds) {
  for (const auto& path : allDesigns()) {
    const Design design = design::readDesign(path).design;
    for (const design::Building& building : design.site.buildings)
      for (const design::Storey& storey : building.storeys) {
        const SnapSet set = snapSetOf(design, storey.id, {});
        for (std::size_t i = 0; i < set.edges.size(); i += 1 + set.edges.size() / 200) {
          const SnapEdge& e = set.edges[i];
          const Vec2 p = e.a * 0.63 + e.b * 0.37 + Vec2{0.03, -0.02};
          double nearest_end = 1e300;
          for (const SnapEdge& other : set.edges)
            nearest_end = std::min({nearest_end, norm(other.a - p), norm(other.b - p)});
          const Snap snap = snapped(set, p, {.within_m = 0.1});
          EXPECT_LE(norm(snap.at_m - p), 0.1);
          if (nearest_end < 0.0999) {
            EXPECT_EQ(snap.kind, SnapKind::end);
            EXPECT_NEAR(norm(snap.at_m - p), nearest_end, 1e-12);
          } else {
            EXPECT_LE(snap.kind, SnapKind::on_face);  // it lies 4 cm beside that edge at most
          }
        }
      }
  }
}

}  // namespace
}  // namespace belvedere::edit
