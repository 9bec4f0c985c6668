// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/orbit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "made_up.h"
#include "picture/volume.h"

namespace belvedere::picture {
namespace {

constexpr Size kSize{800, 600};

// Closed form: the target is in the middle; the eye stands where bearing and elevation say.
TEST(Orbit, EyeStandsBehindItsTarget) {
  const OrbitEye eye{{1, 2, 3}, 90, 30, 10, 40};
  const View view = viewOf(eye, kSize);
  EXPECT_NEAR(norm(view.eye_m - Vec3{1 - 10 * std::sqrt(0.75), 2, 8}), 0, 1e-12);
  const auto middle = placeOf(view, kSize, eye.target_m);
  ASSERT_TRUE(middle);
  EXPECT_NEAR(norm(*middle - Vec2{400, 300}), 0, 1e-9);
}

// Property: what was in the middle moves with the hand.
TEST(Orbit, PanFollowsTheHand) {
  const OrbitEye eye{{1, 2, 3}, 70, 30, 10, 40};
  const View moved = viewOf(panned(eye, {35, -20}, kSize[1]), kSize);
  const auto place = placeOf(moved, kSize, eye.target_m);
  ASSERT_TRUE(place);
  EXPECT_NEAR(norm(*place - Vec2{435, 280}), 0, 1e-9);
}

// Property: the point under the pointer stays there.
TEST(Orbit, DollyKeepsThePoint) {
  const OrbitEye eye{{1, 2, 3}, 70, 30, 10, 40};
  const Vec3 about{2, 3, 2.5};
  const auto before = placeOf(viewOf(eye, kSize), kSize, about);
  const auto after = placeOf(viewOf(dollied(eye, 0.6, about), kSize), kSize, about);
  ASSERT_TRUE(before && after);
  EXPECT_NEAR(norm(*before - *after), 0, 1e-9);
  EXPECT_EQ(orbited(eye, 0, 200).elevation_deg, 90);
}

// Property: all corners in the picture, one of them near its edge.
TEST(Orbit, FramingShowsTheWholeBox) {
  const Box3 box{{-3, 5, 0}, {40, 20, 9}};
  const View view = viewOf(framing(box, 33, 40, 35, kSize), kSize);
  double nearest = 1e9;
  for (int c = 0; c < 8; ++c) {
    const auto place = placeOf(view, kSize, {(c & 1) != 0 ? box.low.x : box.high.x,
                                             (c & 2) != 0 ? box.low.y : box.high.y,
                                             (c & 4) != 0 ? box.low.z : box.high.z});
    ASSERT_TRUE(place);
    nearest = std::min({nearest, place->x, place->y, 800 - place->x, 600 - place->y});
  }
  EXPECT_LT(nearest, 30);
}

// Closed form: straight down from 3 m through 90 degrees, a square of 6 m on the floor.
TEST(Volume, EndsOnTheFloor) {
  scene::Scene scene;
  addBox(scene, {-50, -50, -1}, {50, 50, 0}, addSource(scene, "floor"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const View imager = level({0, 0, 3}, 500, 1, {1000, 1000}, 0, 90);
  const auto lines = viewVolume(imager, subject, 30);
  ASSERT_EQ(lines.size(), 5u);
  for (std::size_t spoke = 0; spoke < 4; ++spoke) {
    EXPECT_EQ(lines[spoke].front(), imager.eye_m);
    EXPECT_NEAR(std::abs(lines[spoke].back().x), 3, 1e-4);
    EXPECT_NEAR(std::abs(lines[spoke].back().y), 3, 1e-4);
    EXPECT_NEAR(lines[spoke].back().z, 0, 1e-4);
  }
  for (const Vec3& p : lines[4]) {
    EXPECT_NEAR(std::max(std::abs(p.x), std::abs(p.y)), 3, 1e-4);
    EXPECT_NEAR(p.z, 0, 1e-4);
  }
}

// Property: what a border's few rays meet through a gap, far behind all else, is not drawn: it would
// be a stroke by itself.
TEST(Volume, AGlimpseThroughAGapIsNotDrawn) {
  scene::Scene scene;
  addBox(scene, {-50, 5, -50}, {1, 5.1, 50}, addSource(scene, "west of the gap"));
  addBox(scene, {2, 5, -50}, {50, 5.1, 50}, addSource(scene, "east of it"));
  addBox(scene, {-50, 20, -50}, {50, 20.1, 50}, addSource(scene, "behind"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const auto lines = viewVolume(level({0, 0, 0}, 500, 1, {1000, 1000}), subject, 30);
  std::size_t borders = 0;
  for (const Line3& line : lines) {
    if (line.size() == 2) continue;  // from the lens
    ++borders;
    for (const Vec3& p : line) EXPECT_LT(p.y, 5.2);
  }
  EXPECT_GE(borders, 2u);
}

// Closed form: of a line that runs behind a wall as wide as half of it, half is hidden.
TEST(Volume, LinesTellWhatIsHidden) {
  scene::Scene scene;
  addBox(scene, {0, 5, -2}, {2, 5.1, 2}, addSource(scene, "wall"));
  const scene::RayCaster caster(scene);
  const Subject subject(caster);
  const View view = level({0, 0, 0}, 400, 1, {800, 600});
  const Picture picture = render(subject, view, plain(), {});
  const std::vector<Line3> lines{{{-4, 10, 0}, {4, 10, 0}}};
  const auto stretches = drawnOver(view, picture, lines);
  ASSERT_EQ(stretches.size(), 2u);
  EXPECT_FALSE(stretches[0].hidden);
  EXPECT_TRUE(stretches[1].hidden);
  EXPECT_NEAR(stretches[0].places.front().x, 240, 1e-6);
  EXPECT_NEAR(stretches[0].places.back().x, 400, 6);
  EXPECT_NEAR(stretches[1].places.back().x, 560, 1e-6);
  // A line that leaves the picture is cut off there.
  const std::vector<Line3> long_line{{{-400, 10, 1}, {-3, 10, 1}}};
  const auto cut_off = drawnOver(view, picture, long_line);
  ASSERT_EQ(cut_off.size(), 1u);
  EXPECT_LT(cut_off[0].places.front().x, 8);
}

}  // namespace
}  // namespace belvedere::picture
