// SPDX-License-Identifier: GPL-3.0-or-later
//
// Lenses on, or next to, the faces of the bodies that carry them.
#include <gtest/gtest.h>

#include "made_up.h"
#include "proof/box_tests.h"
#include "proof/sight.h"

namespace belvedere::proof {
namespace {

struct Mounted {
  std::unique_ptr<MadeUp> made;
  Vec2 out, along;  // of the face, in plan
};
// A camera in the middle of a face of a column or a wall that is turned, or so far before it.
Mounted mounted(double yaw_deg, double off_m, Vec2 half, double high_m, double pan_off_deg) {
  const double yaw = degToRad(yaw_deg);
  const Vec2 out{std::cos(yaw), std::sin(yaw)}, along{-out.y, out.x};
  const Vec2 centre{3.7 - 0.01 * yaw_deg, 12.3};
  const Vec2 u = out * half.x, v = along * half.y;
  scene::Scene scene;
  scene.sources.push_back({"column", 0, 0});
  scene::addPrism(scene, {centre - u - v, centre + u - v, centre + u + v, centre - u + v},
                  {0, 0, 0, 0}, {high_m, high_m, high_m, high_m}, 0);
  const Vec2 foot = centre + u + out * off_m;
  const double bearing = radToDeg(std::atan2(out.x, out.y));
  return {ask({{rectangle(-20, -20, 20, 20), {}}}, 0.2, 1.8, 20,
              {posed("C1", withZ(foot, 2.6), bearing + pan_off_deg, 35, 0, {3840, 2160}, 150, 0)},
              std::move(scene)),
          out, along};
}

// Property: over 200 turns and three distances from the face, a lens is not shadowed by the face that
// carries it: what lies before the face is served, at points and over cells; and over cells anywhere,
// the face's own plane among them, cells and points agree.
TEST(FlushLens, IsNotShadowedByTheFaceThatCarriesIt) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> unit(0, 1);
  int served = 0, unserved = 0;
  for (int i = 0; i < 200; ++i)
    for (const double off_m : {0.0, 1e-9, 1e-6}) {
      const double yaw_deg = 1.8 * i + (i % 4 == 0 ? 0 : unit(random));
      const Vec2 half = i % 2 ? Vec2{0.2, 0.3} : Vec2{0.1, 4};
      const double high_m = i % 3 ? 3 : 2.7;
      const Mounted m = mounted(yaw_deg, off_m, half, high_m, i % 5 == 0 ? 60 : 0);
      const Question& q = m.made->question;
      const Vec2 foot = q.views[0].lens_m.xy();
      const auto judged = [&](const Cell& cell) {
        ViewState state;
        std::optional<Cut> cut;
        return judgeCell(q, cell, state, -1, 4, cut);
      };
      // Before the face: never hidden by it, and in the frame on the axis.
      for (const double ahead : {0.001, 0.3, 2.0, 4.0})
        for (const double aside : {-3.0, -0.4, 0.0, 0.4, 3.0}) {
          const Vec2 p = foot + m.out * ahead + m.along * aside;
          EXPECT_NE(answerOf(q, 0, p, 33).reason, Reason::hidden) << yaw_deg << " " << off_m;
          EXPECT_FALSE(hiddenAtAGlance(q, q.views[0], boxCell(p, m.out * 0.0005, m.along * 0.01),
                                       slabOf(q.floor, boxCell(p, m.out * 0.0005, m.along * 0.01),
                                              q.low_m, q.high_m)));
        }
      if (i % 5 != 0) {
        EXPECT_EQ(judged(boxCell(foot + m.out * 2.5, m.out * 0.3, m.along * 0.3)), Over::all)
            << yaw_deg << " " << off_m;
      }
      // Anywhere, and along the plane of the face.
      for (int j = 0; j < 12; ++j) {
        const double ahead = j % 3 == 0 ? 0 : 6 * unit(random) - 2;
        const Vec2 centre = foot + m.out * ahead + m.along * (8 * unit(random) - 4);
        const double size = j % 2 ? 0.2 : 0.02;
        Cell cell = boxCell(centre, m.out * size, m.along * size);
        if (j % 3 == 0) cell = boxCell(centre + m.out * size, m.out * size, m.along * size);
        const Over over = judged(cell);
        if (over == Over::mixed) continue;
        ++(over == Over::all ? served : unserved);
        for (int k = 0; k < 12; ++k) {
          const Vec2 p = k < 4 ? cell.corners[static_cast<std::size_t>(k)]
                               : cell.centre + cell.half_x * (2 * unit(random) - 1) +
                                     cell.half_y * (2 * unit(random) - 1);
          const Answer answer = answerOf(q, 0, p, 33);
          ASSERT_EQ(answer.reason == Reason::served, over == Over::all)
              << yaw_deg << " " << off_m << " cell " << j << ": " << word(answer.reason);
        }
      }
    }
  EXPECT_GT(served, 1000);
  EXPECT_GT(unserved, 1000);
}

}  // namespace
}  // namespace belvedere::proof
