// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/pick.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "edit/trace.h"
#include "edit_sample.h"

namespace belvedere::edit {
namespace {

using design::Design;

std::string at(const Design& design, Vec2 p, double within_m = 0.3,
               const std::string& situation = "") {
  const auto ref = objectAt(design, {"F1"}, {situation}, p, within_m);
  if (!ref) return "";
  return ref->id + (ref->slot ? "." + std::to_string(ref->slot) : "");
}

// Closed form: the hall's building point (x, y) lies at (100 + y, 50 - x) on the site.
TEST(Pick, TheNearestOrSmallestComesFirst) {
  const Design design = hall();
  EXPECT_EQ(at(design, {105, 38}), "C1");          // over the beam
  EXPECT_EQ(at(design, {105, 38.45}), "C1.1");     // its lens, half a metre north
  EXPECT_EQ(at(design, {105.45, 38}), "C1.2");
  EXPECT_EQ(at(design, {109, 38.1}), "M1");
  EXPECT_EQ(at(design, {105, 38.3}, 0.6), "C1.1");   // both within reach, the lens nearer
  EXPECT_EQ(at(design, {105.2, 38}, 0.6), "C1");
  EXPECT_EQ(at(design, {104.5, 48.05}), "O1");     // in the door of W1
  EXPECT_EQ(at(design, {103, 48.35}), "W1");       // 0.25 m from its face
  EXPECT_EQ(at(design, {103, 47.2}), "");          // nothing near
  EXPECT_EQ(at(design, {105, 43.1}), "Z1");        // its edge
  EXPECT_EQ(at(design, {105, 44.5}), "Z1");        // its inside, nothing else there
  EXPECT_EQ(at(design, {104.1, 40.5}, 0.05), "S1");  // the smaller of two that contain it
  EXPECT_EQ(at(design, {103.5, 41.5}, 0.05), "S2");
  EXPECT_EQ(at(design, {105, 40.5}, 0.05), "S1");  // before the inside of the zone on it
  EXPECT_EQ(at(design, {110.1, 33}), "F1");        // the slab's edge
  EXPECT_EQ(at(design, {200, 200}), "");
}

TEST(Pick, WhatDoesNotStandInTheSituationIsPassedOver) {
  const Design design = hall();
  EXPECT_EQ(at(design, {102, 33}, 0.1), "S3");
  EXPECT_EQ(at(design, {102, 33}, 0.1, "market"), "S3");
  EXPECT_EQ(at(design, {102, 33}, 0.1, "day"), "");
}

TEST(Pick, RepeatedClicksGoDeeper) {
  const auto refs = objectsAt(hall(), {"F1"}, {}, {105, 40.5}, 0.05);
  ASSERT_EQ(refs.size(), 3u);
  EXPECT_EQ(refs[0].id, "S1");
  EXPECT_EQ(refs[1].id, "S2");
  EXPECT_EQ(refs[2].id, "Z2");
}

TEST(Pick, ABoxTakesWhatLiesWhollyInIt) {
  const Design design = hall();
  const auto ids = [&](Box2 box) {
    std::string text;
    for (const ObjectRef& ref : objectsIn(design, {"F1"}, box)) text += ref.id + " ";
    return text;
  };
  EXPECT_EQ(ids({{103.5, 37.5}, {107.5, 43.5}}), "S1 Z2 C1 ");
  EXPECT_EQ(ids({{99, 47.8}, {111, 48.2}}), "W1 ");           // the door goes with its wall
  EXPECT_EQ(ids({{103.9, 47.8}, {105.1, 48.2}}), "O1 ");      // the wall sticks out
  EXPECT_EQ(ids({{99, 29}, {111, 51}}), "W1 W2 S1 S2 S3 Z1 Z2 M1 C1 ");
}

TEST(Objects, AreListedInTheOrderOfTheFile) {
  std::string text;
  for (const ObjectLine& line : objectsOf(hall(), {"F1"})) text += line.title + ", ";
  EXPECT_EQ(text, "B1, F1, W1, Door, W2, Counter, S2, Truck, Floor, Till, M1, C1, C1.1, C1.2, ");
  EXPECT_TRUE(objectsOf(hall(), {"elsewhere"}).empty());
  for (const ObjectLine& line : objectsOf(hall(), {}))
    if (line.ref.id == "Z1") {
      EXPECT_EQ(line.at_m, (Vec2{104.5, 44.5}));
      EXPECT_EQ(line.kind, "zone");
      EXPECT_EQ(line.storey.text, "F1");
    }
}

// Property: every object of every example is listed once, and has a place or is an ambient light, a
// device whose place is not said or a cable whose way is found.
TEST(Objects, OfEveryExampleHaveAPlace) {
  for (const auto& path : allDesigns()) {
    const Design design = design::readDesign(path).design;
    std::vector<ObjectRef> seen;
    for (const ObjectLine& line : objectsOf(design, {})) {
      seen.push_back(line.ref);
      if (line.ref.kind == ObjectKind::light || line.ref.kind == ObjectKind::device ||
          line.ref.kind == ObjectKind::link)
        continue;
      EXPECT_FALSE(line.extent.empty()) << path << " " << line.ref.id;
    }
    std::ranges::sort(seen);
    EXPECT_TRUE(std::ranges::adjacent_find(seen) == seen.end()) << path;
  }
}

// Closed form: an L of 4 by 3 m, 0.2 m thick, has its outer corner 0.1 m beyond the bend each way.
TEST(Trace, FacesAreMitredAtBends) {
  const auto faces = facesOf({{0, 0}, {4, 0}, {4, 3}}, 0.2);
  ASSERT_EQ(faces.size(), 2u);
  EXPECT_NEAR(norm(faces[0][1] - Vec2{3.9, 0.1}), 0, 1e-12);
  EXPECT_NEAR(norm(faces[1][1] - Vec2{4.1, -0.1}), 0, 1e-12);
}

// Property: what the list of objects holds is there, and nothing else is.
TEST(Pick, WhatIsListedIsThere) {
  const Design design = hall();
  const std::vector<ObjectLine> lines = objectsOf(design, {});
  ASSERT_FALSE(lines.empty());
  for (const ObjectLine& line : lines) {
    EXPECT_TRUE(isThere(design, line.ref)) << line.ref.id;
    ObjectRef other = line.ref;
    other.id += "?";
    EXPECT_FALSE(isThere(design, other)) << other.id;
    if (line.ref.slot == 0) continue;
    other = line.ref;
    other.slot = 63;
    EXPECT_FALSE(isThere(design, other)) << other.id;
  }
}

}  // namespace
}  // namespace belvedere::edit
