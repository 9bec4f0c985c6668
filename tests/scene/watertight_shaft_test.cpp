// SPDX-License-Identifier: GPL-3.0-or-later
//
// Shafts aimed exactly at corners, seams and joints.
#include <gtest/gtest.h>

#include "joints.h"
#include "scene/shaft.h"

namespace belvedere::scene {
namespace {

// Property: no shaft, however thin, to a small box beyond a joint is ever said to be clear.
TEST(Watertight, AtEveryJointForShafts) {
  constexpr int kAims = 2000;
  const Scene scene = build(house());
  const BodyTree tree = buildTree(scene);
  Random random(37);
  for (const Joint& joint : joints()) {
    std::size_t leaks = 0;
    for (int i = 0; i < kAims; ++i) {
      const Segment s = beyond(joint.aim(random));
      const double half = i % 2 ? 1e-3 : 1e-9;
      Prism prism;
      prism.sides = 4;
      for (std::size_t c = 0; c < 8; ++c)
        prism.corner[c] = s.to + Vec3{c % 4 == 0 || c % 4 == 3 ? -half : half,
                                      c % 4 < 2 ? -half : half, c < 4 ? -half : half};
      std::vector<std::uint32_t> met;
      bodiesIn(scene, tree, makeShaft(s.from, prism), Blocking::see, met);
      leaks += met.empty();
    }
    EXPECT_EQ(leaks, 0u) << joint.name;
  }
}

}  // namespace
}  // namespace belvedere::scene
