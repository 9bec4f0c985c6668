// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/erase.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "edit_sample.h"

namespace belvedere::edit {
namespace {

using design::Design;

Design whole() { return design::readDesign(kRoot / "tests/design/data/whole.json").design; }

bool says(const Erased& erased, const std::string& part) {
  return std::ranges::any_of(erased.also, [&](const std::string& line) {
    return line.find(part) != std::string::npos;
  });
}

// Property: whatever goes, nothing dangles: the design can be read back.
TEST(Erase, AnyObjectOfAnyExampleLeavesAUsableDesign) {
  std::size_t tried = 0;
  for (const auto& path : allDesigns()) {
    const Design design = design::readDesign(path).design;
    const std::vector<ObjectLine> lines = objectsOf(design, {});
    for (std::size_t i = 0; i < lines.size(); i += 1 + lines.size() / 60) {
      const Erased erased_one = erased(design, {lines[i].ref});
      EXPECT_FALSE(erased_one.design == design);
      EXPECT_NO_THROW(readBack(erased_one.design, path.parent_path()))
          << path << " " << lines[i].ref.id << "." << lines[i].ref.slot;
      ++tried;
    }
    Selection half;
    for (std::size_t i = 0; i < lines.size(); i += 2) half.push_back(lines[i].ref);
    EXPECT_NO_THROW(readBack(erased(design, half).design, path.parent_path())) << path;
    for (const design::Requirement& r : design.brief)
      EXPECT_NO_THROW(readBack(erasedRequirement(design, r.id).design, path.parent_path()));
  }
  EXPECT_GT(tried, 300u);
}

TEST(Erase, AHousingTakesItsCableItsRecordingAndItsTests) {
  const Erased e = erased(whole(), {{ObjectKind::housing, "C1", 0}});
  EXPECT_TRUE(e.design.housings.empty());
  EXPECT_TRUE(e.design.services.links.empty());
  EXPECT_TRUE(e.design.services.recording.empty());
  EXPECT_TRUE(e.design.services.screens.empty());
  EXPECT_TRUE(e.design.tests.empty());
  EXPECT_TRUE(e.design.accepted.empty());  // spoke of the link
  ASSERT_EQ(e.design.evidence.size(), 2u);
  EXPECT_TRUE(e.design.evidence[0].of.empty());
  EXPECT_TRUE(e.design.evidence[0].readings.empty());
  ASSERT_EQ(e.design.alternatives.size(), 1u);
  EXPECT_EQ(e.design.alternatives[0].edits.size(), 1u);
  for (const char* part : {"the link k1 went with C1", "the test q1", "the screen e1",
                           "the recording n1", "the accepted finding a1", "the evidence y1",
                           "mount/fixing_m of C1"})
    EXPECT_TRUE(says(e, part)) << part;
}

TEST(Erase, OneImagerLeavesTheOthers) {
  const Erased e = erased(whole(), {{ObjectKind::housing, "C1", 1}});
  ASSERT_EQ(e.design.housings.size(), 1u);
  ASSERT_EQ(e.design.housings[0].imagers.size(), 1u);
  EXPECT_EQ(e.design.housings[0].imagers[0].slot, 2);
  ASSERT_EQ(e.design.housings[0].streams.size(), 1u);  // v1 came from it alone
  EXPECT_EQ(e.design.housings[0].streams[0].from, std::vector{2});
  EXPECT_TRUE(e.design.services.recording.empty());
  const Erased second = erased(e.design, {{ObjectKind::housing, "C1", 2}});
  EXPECT_TRUE(second.design.housings.empty());
  EXPECT_TRUE(says(second, "went with its last imager"));
}

TEST(Erase, WhatSpeaksOfAnImagerByItsSlotOrPlaceGoes) {
  Design design = whole();  // its lamp follows imager 2
  design.alternatives[0].edits = {{{"C1"}, "imagers/0/locked", "true"}, {{"C1"}, "title", "\"x\""}};
  const Erased e = erased(design, {{ObjectKind::housing, "C1", 2}});
  EXPECT_FALSE(e.design.housings[0].lamps[0].follows);
  EXPECT_TRUE(says(e, "lamp 1 of C1: C1.2 is no longer named"));
  ASSERT_EQ(e.design.alternatives[0].edits.size(), 1u);
  EXPECT_EQ(e.design.alternatives[0].edits[0].key, "title");
}

TEST(Erase, AZoneTakesItsRequirementsAndASolidTheZoneOnIt) {
  const Erased e = erased(hall(), {{ObjectKind::zone, "Z1", 0}});
  EXPECT_TRUE(e.design.brief.empty());
  EXPECT_EQ(e.also, std::vector<std::string>{"the requirement R1 went with Z1"});
  const Erased counter = erased(hall(), {{ObjectKind::solid, "S1", 0}});
  EXPECT_EQ(counter.design.site.zones.size(), 1u);
  EXPECT_TRUE(says(counter, "the zone Z2 \"Till\" went with S1"));
  EXPECT_TRUE(erased(hall(), {{ObjectKind::solid, "S3", 0}}).design.situations[1].present.empty());
  const Erased beam = erased(hall(), {{ObjectKind::mounting, "M1", 0}});
  EXPECT_TRUE(beam.design.housings[0].mount.on.empty());
  EXPECT_TRUE(says(beam, "the mount of C1: M1 is no longer named"));
}

TEST(Erase, WhatDoesNotExistIsPassedOver) {
  const Erased e = erased(hall(), {{ObjectKind::wall, "nowhere", 0}});
  EXPECT_TRUE(e.design == hall());
  EXPECT_TRUE(e.also.empty());
}

TEST(Erase, AnAlternativeLosesOnlyWhatSpeaksOfIt) {
  Design design = hall();
  design.alternatives = {{{"A"}, "other", {{{"C1"}, "mount/on", "\"M1\""},
                                          {{"C1"}, "title", "\"M1 and more\""},
                                          {{"R1"}, "share", "0.5"}}}};
  const Erased e = erased(design, {{ObjectKind::mounting, "M1", 0}});
  ASSERT_EQ(e.design.alternatives[0].edits.size(), 2u);
  EXPECT_EQ(e.design.alternatives[0].edits[0].key, "title");
  // A list that is replaced whole would bring back what went, or lack what its places counted.
  design.alternatives[0].edits = {{{"W1"}, "openings", "[]"}, {{"W1"}, "thickness_m", "0.3"}};
  const Erased door = erased(design, {{ObjectKind::opening, "O1", 0}});
  ASSERT_EQ(door.design.alternatives[0].edits.size(), 1u);
  EXPECT_EQ(door.design.alternatives[0].edits[0].key, "thickness_m");
}

}  // namespace
}  // namespace belvedere::edit
