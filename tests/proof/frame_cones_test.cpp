// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <iostream>

#include "made_up.h"
#include "proof/box_tests.h"
#include "proof/cells.h"

namespace belvedere::proof {
namespace {

using Random = std::mt19937;
double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

bool inFrame(const design::PosedImager& view, const Vec3& p) {
  const auto at = optics::project(view.lens, view.imager_from_site * (p - view.lens_m));
  return at && at->x >= view.frame_low_px.x && at->x <= view.frame_high_px.x &&
         at->y >= view.frame_low_px.y && at->y <= view.frame_high_px.y;
}

Vec2 placeIn(Random& random, const Ring& ring) {
  double sum = 0;
  Vec2 mean;
  for (const Vec2 c : ring) {
    const double weight = std::pow(between(random, 0, 1), 3);  // corners are drawn as well
    mean = mean + c * weight;
    sum += weight;
  }
  return mean / sum;
}

struct Drawn {
  design::PosedImager view;
  Cell cell;
  double low_m, high_m;
  Slab slab;
};
Drawn draw(Random& random, int i) {
  const double ks[] = {0.5, 0, -0.5, -1, between(random, -1, 0.99)};
  Drawn d{posed("C1", {0, 0, between(random, 2.2, 4)}, between(random, 0, 360), between(random, 0, 60),
                i % 2 ? 0 : between(random, -20, 20), {1920, 1080}, between(random, 40, 120), ks[i % 5]),
          {}, 0, 0, {}};
  d.low_m = between(random, 0, 1.4);
  d.high_m = d.low_m + (i % 3 ? between(random, 0, 0.6) : 0);
  scene::Floor floor;
  if (i % 7 == 0) floor.slope = {between(random, -0.2, 0.2), between(random, -0.2, 0.2)};
  // About where an edge of the frame meets the floor.
  const double half = between(random, 0, 1) < 0.5 ? 0.05 : 0.6;
  const auto ray = optics::unproject(d.view.lens, {i % 4 < 2 ? (i % 4) * 1920.0 : between(random, 0, 1920),
                                                   i % 4 < 2 ? between(random, 0, 1080) : (i % 4 - 2) * 1080.0});
  Vec2 centre{between(random, -8, 8), between(random, -8, 8)};
  if (ray) {
    const Vec3 down = transposed(d.view.imager_from_site) * *ray;
    if (down.z < -0.1) centre = down.xy() * ((d.view.lens_m.z - d.low_m) / -down.z);
  }
  const double turn = between(random, 0, kPi);
  d.cell = boxCell(centre + Vec2{between(random, -1, 1), between(random, -1, 1)} * half,
                   Vec2{std::cos(turn), std::sin(turn)} * half,
                   Vec2{-std::sin(turn), std::cos(turn)} * (half * between(random, 0.1, 1)));
  if (i % 3 == 1) d.cell.corners.pop_back();
  d.slab = slabOf(floor, d.cell, d.low_m, d.high_m);
  return d;
}
// Of a slab: a place in its cell at a share of its height.
Vec3 pointIn(const Slab& slab, const Cell& cell, Vec2 place, double share) {
  const Vec2 d = place - cell.centre;
  const double xx = dot(cell.half_x, cell.half_x), yy = dot(cell.half_y, cell.half_y);
  return slab.centre + slab.half[0] * (dot(d, cell.half_x) / xx) + slab.half[1] * (dot(d, cell.half_y) / yy) +
         slab.half[2] * (2 * share - 1);
}

// Property: `all` is said only of slabs all of whose points are in the frame, and `none` only of
// those without any (or, where the whole height must pass, without a place whose heights all do).
TEST(FrameByCones, AgreesWithTheProjectionOfPoints) {
  Random random(41);
  int all = 0, none = 0, mixed = 0;
  for (int i = 0; i < 20'000; ++i) {
    const Drawn d = draw(random, i);
    const bool whole = i % 2 == 0;
    const auto framed = frameByCones(d.view, d.slab, whole);
    if (!framed) continue;
    ++(framed->over == Over::all ? all : framed->over == Over::none ? none : mixed);
    if (framed->over == Over::mixed) continue;
    for (int j = 0; j < 40; ++j) {
      const Vec2 place = j < static_cast<int>(d.cell.corners.size())
                             ? d.cell.corners[static_cast<std::size_t>(j)] : placeIn(random, d.cell.corners);
      bool every = true, any = false;
      for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0}) {
        const bool in = inFrame(d.view, pointIn(d.slab, d.cell, place, share));
        every = every && in;
        any = any || in;
      }
      if (framed->over == Over::all) ASSERT_TRUE(every) << i;
      else ASSERT_FALSE(whole ? every : any) << i;
    }
  }
  std::cout << all << " in, " << none << " out, " << mixed << " undecided\n";
  EXPECT_GT(all, 1500);
  EXPECT_GT(none, 1500);
}

// Bound: of a level cell without height the undecided are those that an edge crosses, or nearly so:
// at most one in twenty-five is undecided of which a hundred points agree.
TEST(FrameByCones, DecidesWhatNoEdgeCrosses) {
  Random random(42);
  int asked = 0, missed = 0;
  for (int i = 0; i < 20'000; ++i) {
    const Drawn d = draw(random, 3 * i);
    if (d.slab.half[0].z != 0 || d.slab.half[1].z != 0) continue;
    const auto framed = frameByCones(d.view, d.slab, true);
    if (!framed) continue;
    int in = 0;
    for (int j = 0; j < 100; ++j)
      in += inFrame(d.view, pointIn(d.slab, d.cell, j < 4 ? d.cell.corners[static_cast<std::size_t>(j) % d.cell.corners.size()]
                                                          : placeIn(random, d.cell.corners), 0.5));
    if (in != 0 && in != 100) continue;
    ++asked;
    missed += framed->over == Over::mixed ? 1 : 0;
  }
  std::cout << missed << " of " << asked << " undecided\n";
  EXPECT_GT(asked, 2000);
  EXPECT_LT(missed, asked / 25);
}

// Property: a cut leaves a part without a place in the frame before it, and one wholly in the
// frame's edge beyond it, for most cells that one edge crosses.
TEST(FrameByCones, CutsWhereAnEdgeCrosses) {
  Random random(43);
  int cuts = 0, outside = 0, inside = 0;
  for (int i = 0; i < 4000; ++i) {
    const Drawn d = draw(random, i);
    const auto framed = frameByCones(d.view, d.slab, true);
    if (!framed || !framed->cut) continue;
    ++cuts;
    for (const bool beyond : {true, false}) {
      const Ring part = beyond ? clipHalfPlane(d.cell.corners, framed->cut->normal, framed->cut->at[0])
                               : clipHalfPlane(d.cell.corners, -framed->cut->normal, -framed->cut->at[1]);
      if (part.size() < 3 || std::fabs(signedArea(part)) < 1e-9) {
        ++(beyond ? outside : inside);
        continue;
      }
      const Slab slab = slabOf({}, cellOf(part), d.low_m, d.high_m);
      const auto again = frameByCones(d.view, slab, true);
      if (beyond) outside += again && again->over == Over::none ? 1 : 0;
      else inside += again && (again->over == Over::all || again->cut) ? 1 : 0;
    }
  }
  std::cout << cuts << " cuts; " << outside << " parts outside, " << inside << " inside or cut again\n";
  EXPECT_GT(cuts, 300);
  EXPECT_GE(outside, cuts * 95 / 100);
  EXPECT_GE(inside, cuts * 9 / 10);
}

}  // namespace
}  // namespace belvedere::proof
