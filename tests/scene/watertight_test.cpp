// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sightlines aimed where it hurts: exactly at corners, seams and joints; along walls and at them.
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>

#include "joints.h"

namespace belvedere::scene {
namespace {

// Property: nothing leaks at any joint: not for a sightline in double, and hardly ever (the bound)
// for the single-precision caster.
TEST(Watertight, AtEveryJoint) {
  constexpr int kAims = 4000;
  constexpr double kCasterLeaks = 0.002;
  const Scene scene = build(house());
  const BodyTree tree = buildTree(scene);
  const RayCaster caster(scene);
  Random random(23);
  std::size_t all = 0, all_leaks = 0;
  for (const Joint& joint : joints()) {
    std::vector<Segment> segments;
    for (int i = 0; i < kAims; ++i) segments.push_back(beyond(joint.aim(random)));
    std::size_t leaks = 0;
    for (const Segment& s : segments) {
      if (!blockerOf(scene, tree, s.from, s.to, Blocking::see)) {
        if (leaks++ < 3)
          ADD_FAILURE() << joint.name << ": (" << s.from.x << ", " << s.from.y << ", " << s.from.z
                        << ") to (" << s.to.x << ", " << s.to.y << ", " << s.to.z << ")";
      }
    }
    EXPECT_EQ(leaks, 0u) << joint.name;
    std::vector<std::uint8_t> hidden(segments.size());
    caster.hidden(segments, Blocking::see, Band::light, hidden);
    const auto caster_leaks =
        static_cast<std::size_t>(std::count(hidden.begin(), hidden.end(), std::uint8_t{0}));
    std::printf("%-50s caster leaks %zu of %d\n", joint.name, caster_leaks, kAims);
    all += segments.size();
    all_leaks += caster_leaks;
  }
  EXPECT_LE(static_cast<double>(all_leaks), kCasterLeaks * static_cast<double>(all));
}

// Property: openings do open: through the door, the window and the stair well.
TEST(Watertight, YetOpenWhereItShouldBe) {
  const Seeing seeing{build(house())};
  EXPECT_TRUE(seeing.sees({2.65, 2, 1}, {2.65, -2, 1}));
  EXPECT_TRUE(seeing.sees({6.15, 2, 1.5}, {6.15, -2, 1.5}));
  EXPECT_TRUE(seeing.sees({2, 1.5, 1}, {2, 1.5, 5}));
}

// Property: the caster answers random sightlines as the double-precision test does, but for a few
// that graze (the bound) and those wholly inside one body, of which it promises nothing.
TEST(RayCaster, AgreesWithTheDoublePrecisionTest) {
  const Scene scene = build(house());
  const BodyTree tree = buildTree(scene);
  const RayCaster caster(scene);
  Random random(29);
  std::vector<Segment> segments;
  const auto point = [&] {
    return Vec3{between(random, -2, 12), between(random, -2, 10), between(random, -1, 7)};
  };
  for (int i = 0; i < 100000; ++i) segments.push_back({point(), point()});
  std::vector<std::uint8_t> hidden(segments.size());
  caster.hidden(segments, Blocking::see, Band::light, hidden);
  std::size_t differ = 0;
  const auto inside = [&](const Vec3& p, const Body& body) {
    for (std::uint32_t i = body.first_plane; i < body.first_plane + body.plane_count; ++i)
      if (dot(scene.planes[i].normal, p) > scene.planes[i].offset) return false;
    return true;
  };
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const auto& [a, b] = segments[i];
    const auto blocker = blockerOf(scene, tree, a, b, Blocking::see);
    if (blocker && inside(a, scene.bodies[*blocker]) && inside(b, scene.bodies[*blocker])) continue;
    differ += (hidden[i] != 0) != blocker.has_value();
  }
  EXPECT_LE(differ, 2u);
}

// Closed form: a lens 1 mm off a wall sees along it and into the room, and nothing through it;
// targets on a wall's face and lenses on it are seen; a millimetre inside they are not. In double
// and by the caster, near the origin and 3 km off.
TEST(RayCaster, StandsALensOrATargetAtAWall) {
  for (const double far : {0.0, 3000.0}) {
    design::Design design = oneStorey(rectangle(0, 0, 8, 6));
    design.site.buildings[0].origin_m = {far, far};
    storey(design).walls = {wall("W", {{0, 3}, {8, 3}}, 0.2)};
    const Scene scene = build(design);
    const BodyTree tree = buildTree(scene);
    const RayCaster caster(scene);
    const auto sees = [&](Vec3 a, Vec3 b) {
      const Segment s{a + Vec3{far, far, 0}, b + Vec3{far, far, 0}};
      const bool exact = !blockerOf(scene, tree, s.from, s.to, Blocking::see);
      std::uint8_t hidden = 2;
      caster.hidden({&s, 1}, Blocking::see, Band::light, {&hidden, 1});
      EXPECT_EQ(exact, hidden == 0);
      return exact;
    };
    const double face = 2.9;  // of the wall, southern side
    const Vec3 near_wall{4, face - 0.001, 2.5};
    EXPECT_TRUE(sees(near_wall, {1, 0.5, 0}));
    EXPECT_TRUE(sees(near_wall, {0.2, face - 0.001, 1}));
    EXPECT_TRUE(sees(near_wall, {1, face - 1e-6, 1}));
    EXPECT_FALSE(sees(near_wall, {4, 3.2, 2.5}));
    EXPECT_FALSE(sees(near_wall, {4, face + 0.001, 2.5}));
    EXPECT_TRUE(sees({4, 0.5, 2.5}, {3, face - 1e-7, 1.5}));
    EXPECT_FALSE(sees({4, 0.5, 2.5}, {3, face + 0.001, 1.5}));
    EXPECT_FALSE(sees({4, 5.5, 2.5}, {3, face - 0.001, 1.5}));
    EXPECT_TRUE(sees({4, 5.5, 2.5}, {3, 3.1 + 1e-7, 1.5}));
    EXPECT_TRUE(sees({4, 0.5, 2.5}, {4, 0.5, 0}));  // on the floor
    EXPECT_FALSE(sees({4, 0.5, 2.5}, {4, 0.5, -0.001}));
  }
}

// Closed form: what is not finite is hidden, what has no length is not; an empty scene hides
// nothing.
TEST(RayCaster, AnswersOddSegments) {
  const Scene scene = build(house());
  const double nan = std::nan(""), infinity = std::numeric_limits<double>::infinity();
  const std::vector<Segment> segments{{{1, 1, 1}, {1, 1, 1}},
                                      {{1, 1, 1}, {1, nan, 1}},
                                      {{1, infinity, 1}, {1, 1, 1}},
                                      {{2, 2, 1}, {2, 2, -1}}};
  std::vector<std::uint8_t> hidden(4, 9);
  RayCaster(scene).hidden(segments, Blocking::see, Band::light, hidden);
  EXPECT_EQ(hidden, (std::vector<std::uint8_t>{0, 1, 1, 1}));
  const Scene empty;
  RayCaster(empty).hidden(segments, Blocking::see, Band::light, hidden);
  EXPECT_EQ(hidden, (std::vector<std::uint8_t>{0, 0, 0, 0}));
}

// Closed form: glass that blocks infrared only, foliage that passes a share of both.
TEST(RayCaster, TellsTheBandsApart) {
  design::Design design = oneStorey(rectangle(0, 0, 8, 8));
  design.site.materials = {{{"glass"}, "", {1}, {0}, {}}, {{"leaves"}, "", {0.4}, {0.4}, {}}};
  design.site.solids = {box("pane", rectangle(2, 0, 2.1, 4), 0, 2),
                        box("tree", rectangle(2, 4, 3, 8), 0, 2)};
  design.site.solids[0].material.text = "glass";
  design.site.solids[1].material.text = "leaves";
  const Scene scene = build(design);
  const RayCaster caster(scene);
  const std::vector<Segment> segments{{{1, 2, 1}, {5, 2, 1}}, {{1, 6, 1}, {5, 6, 1}}};
  const auto ask = [&](Blocking blocking, Band band) {
    std::vector<std::uint8_t> hidden(2);
    caster.hidden(segments, blocking, band, hidden);
    return hidden;
  };
  using Answers = std::vector<std::uint8_t>;
  EXPECT_EQ(ask(Blocking::see, Band::light), (Answers{0, 1}));
  EXPECT_EQ(ask(Blocking::withhold, Band::light), (Answers{0, 0}));
  EXPECT_EQ(ask(Blocking::see, Band::infrared), (Answers{1, 1}));
  EXPECT_EQ(ask(Blocking::withhold, Band::infrared), (Answers{1, 0}));
}

// Closed form (similar triangles): under a beam whose edge is 0.4 m below the lens (at 2.65 m) and
// 2.4 m away, a point at height z is seen up to 6 (2.65 - z) away: a face's lower end (1.45 m) to
// 7.20 m, its upper end (1.85 m) to 4.80 m, the floor to 15.90 m.
TEST(Occlusion, UnderABeamEndsWhereSimilarTrianglesSay) {
  design::Design design = oneStorey(rectangle(-1, -2, 30, 2));
  design::Wall beam = wall("beam", {{2.5, -2}, {2.5, 2}}, 0.2);
  beam.base_m = 2.25;
  storey(design).walls = {beam};
  const Seeing seeing{build(design)};
  const Vec3 lens{0, 0, 2.65};
  for (const auto& [height, reach] : {std::pair{1.45, 7.20}, {1.85, 4.80}, {0.0, 15.90}}) {
    EXPECT_TRUE(seeing.sees(lens, {reach - 1e-6, 0, height}));
    EXPECT_FALSE(seeing.sees(lens, {reach + 1e-6, 0, height}));
  }
}

// Closed form (similar triangles): mezzanine at 3.0 m with a solid parapet of 1.0 m, 6.0 m from a
// lens at 3.2 m: 1.2 m behind the parapet's near edge one sees above 3.2 + 0.8 / 6 * 7.2 = 4.16 m,
// 1.160 m over the mezzanine's floor.
TEST(Occlusion, OverAParapetStartsWhereSimilarTrianglesSay) {
  design::Design design = oneStorey(rectangle(0, -4, 20, 4));
  storey(design).height_m = 6;
  design::Storey mezzanine;
  mezzanine.id.text = "M";
  mezzanine.floor_m = 3;
  mezzanine.outline = rectangle(6, -4, 20, 4);
  design::Wall parapet = wall("parapet", {{6.05, -4}, {6.05, 4}}, 0.1);
  parapet.height_m = 1;
  mezzanine.walls = {parapet};
  design.site.buildings[0].storeys.push_back(mezzanine);
  const Seeing seeing{build(design)};
  const Vec3 lens{0, 0, 3.2};
  EXPECT_FALSE(seeing.sees(lens, {7.2, 0, 3 + 1.160 - 1e-6}));
  EXPECT_TRUE(seeing.sees(lens, {7.2, 0, 3 + 1.160 + 1e-6}));
}

// Property: the same answers from one thread's worth of segments and from many, in any batch.
TEST(RayCaster, AnswersTheSameInAnyBatch) {
  const Scene scene = build(house());
  const RayCaster caster(scene);
  Random random(31);
  const Vec3 lens{5, 1, 2.5};
  std::vector<Vec3> targets;
  for (int i = 0; i < 20000; ++i)
    targets.push_back({between(random, 0, 10), between(random, 0, 8), between(random, 0, 6)});
  std::vector<std::uint8_t> at_once(targets.size()), piecewise(targets.size());
  caster.hiddenFrom(lens, targets, Blocking::see, Band::light, at_once);
  for (std::size_t i = 0; i < targets.size(); i += 13) {
    const std::size_t n = std::min<std::size_t>(13, targets.size() - i);
    caster.hiddenFrom(lens, std::span(targets).subspan(i, n), Blocking::see, Band::light,
                      std::span(piecewise).subspan(i, n));
  }
  EXPECT_EQ(at_once, piecewise);
}

}  // namespace
}  // namespace belvedere::scene
