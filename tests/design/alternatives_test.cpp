// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/alternatives.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "design/write.h"
#include "sample.h"

namespace belvedere::design {
namespace {

Design small() { return readDesignText(kSmall, dataFolder()).design; }
Design whole() { return readDesign(dataFolder() / "whole.json").design; }

// By hand: what a person writes, docs/format.md.
TEST(Applied, makes_the_edits_of_the_format) {
  Alternative alternative;
  alternative.edits = {{{"C1"}, "mount/fixing_m", "[6, 5, 2.5]"},
                       {{"C1.2"}, "aims", R"([{"pan_deg": -60, "tilt_deg": 0}])"},
                       {{"rack"}, "top_m", "2.4"},
                       {{"w"}, "height_m", "2.5"},
                       {{"r"}, "target/kind", "\"person\""}};
  Design expected = small();
  expected.housings[0].mount.fixing_m = {6, 5, 2.5};
  expected.housings[0].imagers[1].aims[0].pan_deg = -60;
  expected.housings[0].imagers[1].aims[0].tilt_deg = 0;
  expected.site.solids[0].top_m = 2.4;
  expected.site.buildings[0].storeys[0].walls[0].height_m = 2.5;
  expected.brief[0].target.kind = TargetKind::person;
  EXPECT_EQ(applied(small(), alternative), expected);
}

TEST(Applied, refuses_what_names_nothing_and_what_cannot_be) {
  const auto code = [](Edit edit) -> std::string {
    Alternative alternative;
    alternative.edits = {std::move(edit)};
    try {
      applied(small(), alternative);
    } catch (const InputError& error) {
      return error.problems().front().code;
    }
    return "none";
  };
  EXPECT_EQ(code({{"C9"}, "title", "\"x\""}), "alternative_edit");
  EXPECT_EQ(code({{"C1.7"}, "locked", "true"}), "alternative_edit");
  EXPECT_EQ(code({{"C1"}, "title", "{"}), "alternative_edit");
  EXPECT_EQ(code({{"C1"}, "id", "\"C2\""}), "alternative_edit");
  EXPECT_EQ(code({{"C1"}, "model/size", "1"}), "alternative_edit");
  EXPECT_EQ(code({{"C1"}, "modle", "\"cam\""}), "unknown_key");
  EXPECT_EQ(code({{"C1.1"}, "aims", R"([{"pan_deg": 170, "tilt_deg": 5}])"}),
            "aim_outside_limits");
}

// Property: round trip.
TEST(DifferenceAs, and_applied_give_the_changed_design) {
  const Design base = small();
  Design changed = base;
  Housing& housing = changed.housings[0];
  housing.mount.fixing_m = {5.1, 4.9, 2.7};
  housing.mount.base_bearing_deg = 10;
  housing.imagers[0].aims[0] = {31.2345678901, 27.5, 0, 44.25, {}, 6.0, 1};
  housing.imagers[1].locked = true;
  housing.life = Life::existing;
  housing.title = "by the door";
  housing.streams[0].size_px = {1280, 720};
  changed.site.solids[0].outline[0] = {3.9, 3};
  changed.site.buildings[0].storeys[0].walls[0].openings[0].width_m = 1.2;
  changed.brief[0].share = 0.9;
  const Difference difference = differenceAs(base, changed, "closer");
  EXPECT_TRUE(difference.unsaid.empty());
  EXPECT_EQ(difference.alternative.name, "closer");
  EXPECT_EQ(applied(base, difference.alternative), changed);
  // And back: values that return to their defaults are written.
  const Difference back = differenceAs(changed, base, "back");
  EXPECT_TRUE(back.unsaid.empty());
  EXPECT_EQ(applied(changed, back.alternative), base);
  // Small changes are small edits.
  const auto& edits = difference.alternative.edits;
  EXPECT_TRUE(std::ranges::any_of(edits, [](const Edit& e) {
    return e.id.text == "C1" && e.key == "mount/fixing_m" && e.value == "[5.1, 4.9, 2.7]";
  }));
  EXPECT_TRUE(std::ranges::any_of(
      edits, [](const Edit& e) { return e.id.text == "C1.2" && e.key == "locked"; }));
}

TEST(DifferenceAs, of_a_design_from_itself_is_empty) {
  for (const Design& design : {small(), whole()}) {
    const Difference difference = differenceAs(design, design, "same");
    EXPECT_TRUE(difference.alternative.edits.empty());
    EXPECT_TRUE(difference.unsaid.empty());
    EXPECT_EQ(applied(design, difference.alternative), design);
  }
}

TEST(DifferenceAs, takes_an_imager_out_by_its_housings_list) {
  const Design base = small();
  Design changed = base;
  changed.housings[0].imagers.pop_back();
  changed.housings[0].imagers[0].margin_px = 4;
  const Difference difference = differenceAs(base, changed, "one imager");
  EXPECT_TRUE(difference.unsaid.empty());
  ASSERT_EQ(difference.alternative.edits.size(), 1u);
  EXPECT_EQ(applied(base, difference.alternative), changed);
  const Difference back = differenceAs(changed, base, "two");
  EXPECT_EQ(applied(changed, back.alternative), base);
}

TEST(DifferenceAs, says_what_no_edit_can_say) {
  const Design base = small();
  Design changed = base;
  changed.title = "Other";
  changed.site.solids.push_back(changed.site.solids[0]);
  changed.site.solids.back().id.text = "rack2";
  changed.site.zones[0].base_m = 0.5;
  const Difference difference = differenceAs(base, changed, "more");
  ASSERT_EQ(difference.unsaid.size(), 2u);
  EXPECT_NE(difference.unsaid[0].find("title"), std::string::npos);
  EXPECT_NE(difference.unsaid[1].find("rack2"), std::string::npos);
  ASSERT_EQ(difference.alternative.edits.size(), 1u);
  EXPECT_EQ(difference.alternative.edits[0].id.text, "z");
}

TEST(Edits, are_kept_by_the_file) {
  const Design base = small();
  Design changed = base;
  changed.housings[0].mount.fixing_m.z = 2.6;
  DesignFile file;
  file.design = base;
  file.design.alternatives = {differenceAs(base, changed, "lower").alternative};
  file.design.alternatives[0].id.text = "lower";
  const Design read = readDesignText(writeDesign(file), dataFolder()).design;
  EXPECT_EQ(read, file.design);
  Design again = applied(read, read.alternatives[0]);
  again.alternatives.clear();
  EXPECT_EQ(again, changed);
}

}  // namespace
}  // namespace belvedere::design
