// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/pattern.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "aiming.h"
#include "edit_sample.h"

namespace belvedere::edit {
namespace {

bool says(const Changed& changed, const std::string& part) {
  return std::ranges::any_of(changed.says, [&](const std::string& sentence) {
    return sentence.find(part) != std::string::npos;
  });
}

// H with three imagers and streams; G of the same model on another wall; models M and N.
design::Design site() {
  design::Design design = headOf({zoomImager(1), zoomImager(2), zoomImager(3)},
                                 {aimed(10, 20, 3, 50), aimed(100, 30, 0, 70), aimed(250, 40)});
  design::Model other = design.catalogue.models[0];
  other.id.text = "N";
  other.imagers.pop_back();
  other.imagers[0].pixels = {1280, 720};
  other.imagers[0].tilt_deg = {0, 15};
  other.imagers[1].lens.hfov_deg = {90};
  design.catalogue.models.push_back(other);
  design::Housing& head = design.housings[0];
  const auto stream = [](const char* id, std::vector<int> from, std::array<int, 2> size) {
    design::Stream made;
    made.id.text = id;
    made.from = std::move(from);
    made.size_px = size;
    return made;
  };
  head.streams = {stream("s1", {1}, {1920, 1080}), stream("s2", {2}, {960, 540}),
                  stream("s3", {3}, {960, 540}), stream("all", {1, 2, 3}, {4000, 700})};
  head.streams[3].view = design::StreamView::stitched;
  design::Recording recording;
  recording.id.text = "rec3";
  recording.stream.text = "s3";
  design.services.recording = {recording};
  design::Test test;
  test.id.text = "t3";
  test.imager = "H.3";
  design.tests = {test};
  design::Housing second = head;
  second.id.text = "G";
  second.streams.clear();
  second.mount.base_bearing_deg = 90;
  for (design::HousingImager& imager : second.imagers) imager.aims = {aimed(90, 10)};
  design.housings.push_back(second);
  return design;
}

// Closed form: a base turned by 90 deg turns all bearings by 90 deg.
TEST(CopyPattern, keeps_aims_relative_to_the_base) {
  const design::Design design = site();
  const Changed changed = copyPattern(design, {"H"}, {{"G"}});
  EXPECT_TRUE(changed.says.empty());
  const auto& imagers = changed.design.housings[1].imagers;
  EXPECT_EQ(imagers[0].aims[0], aimed(100, 20, 3, 50));
  EXPECT_EQ(imagers[1].aims[0], aimed(190, 30, 0, 70));
  EXPECT_EQ(imagers[2].aims[0], aimed(340, 40));
  EXPECT_EQ(changed.design.housings[0], design.housings[0]);
}

TEST(CopyPattern, says_what_did_not_fit_another_model) {
  design::Design design = site();
  design.housings[1].model.text = "N";
  design.housings[1].imagers.resize(1);
  const Changed changed = copyPattern(design, {"H"}, {{"G"}});
  const design::Housing& target = changed.design.housings[1];
  ASSERT_EQ(target.imagers.size(), 2u);
  EXPECT_EQ(target.imagers[0].aims[0].tilt_deg, 15);
  EXPECT_NEAR(*target.imagers[0].aims[0].hfov_deg, 50, 1e-9);
  EXPECT_FALSE(target.imagers[1].aims[0].hfov_deg);
  EXPECT_TRUE(says(changed, "no imager 3"));
  EXPECT_TRUE(says(changed, "G.2 is in use now"));
  EXPECT_TRUE(says(changed, "G.1 is at its tilt stop"));
  EXPECT_TRUE(proof::withinLimits(changed.design, target));
}

TEST(SwapModel, takes_along_what_fits_and_says_the_rest) {
  const Changed changed = swapModel(site(), design::HousingId{"H"}, design::ModelId{"N"});
  const design::Housing& head = changed.design.housings[0];
  EXPECT_EQ(head.model.text, "N");
  ASSERT_EQ(head.imagers.size(), 2u);
  EXPECT_EQ(head.imagers[0].aims[0], aimed(10, 15, 3, 50));
  EXPECT_EQ(head.imagers[1].aims[0], aimed(100, 30));
  ASSERT_EQ(head.streams.size(), 3u);
  EXPECT_EQ(head.streams[0].size_px, (std::array<int, 2>{1280, 720}));
  EXPECT_EQ(head.streams[1].size_px, (std::array<int, 2>{960, 540}));
  EXPECT_EQ(head.streams[2].from, (std::vector<int>{1, 2}));
  EXPECT_EQ(head.streams[2].size_px, (std::array<int, 2>{3200, 560}));
  EXPECT_TRUE(changed.design.services.recording.empty());
  EXPECT_TRUE(changed.design.tests.empty());
  for (const char* part : {"H.3 goes", "stream s3", "recording rec3", "test t3", "1280 x 720",
                           "tilt stop", "fixed lens"})
    EXPECT_TRUE(says(changed, part)) << part;
  EXPECT_TRUE(proof::withinLimits(changed.design, head));
  EXPECT_EQ(changed.design.housings[1], site().housings[1]);
}

// Property: whatever speaks of an imager that goes, or of what hung on it, goes or is unlinked: the
// design can be read back. Four imagers to one, then to one of another slot than any in use.
TEST(SwapModel, leaves_nothing_that_names_what_is_gone) {
  const std::filesystem::path folder = kRoot / "tests/design/data";
  const design::Design design = design::readDesignText(R"({
    "format": "belvedere.design", "version": 1,
    "site": {
      "buildings": [{"id": "B", "storeys": [{"id": "F", "outline": [[0, 0], [9, 0], [9, 9], [0, 9]]}]}],
      "zones": [{"id": "Z", "storey": "F", "outline": [[1, 1], [2, 1], [2, 2], [1, 2]]}]},
    "brief": [{"id": "R", "zone": "Z", "task": "observe"}],
    "catalogue": {"models": [
      {"id": "four", "imagers": [
        {"slot": 1, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}},
        {"slot": 2, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}},
        {"slot": 3, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}},
        {"slot": 4, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}}]},
      {"id": "one", "imagers": [{"slot": 1, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}}]},
      {"id": "fifth", "imagers": [{"slot": 5, "pixels": [1920, 1080], "lens": {"hfov_deg": [90]}}]},
      {"id": "store", "kind": "recorder"}]},
    "housings": [{"id": "C", "model": "four", "mount": {"fixing_m": [1, 1, 3]},
      "imagers": [{"slot": 1, "aims": [{"pan_deg": 0, "tilt_deg": 0}]},
                  {"slot": 2, "aims": [{"pan_deg": 0, "tilt_deg": 0}]},
                  {"slot": 3, "aims": [{"pan_deg": 0, "tilt_deg": 0}]},
                  {"slot": 4, "aims": [{"pan_deg": 0, "tilt_deg": 0}]}],
      "streams": [{"id": "V1", "from": [1], "size_px": [960, 540]},
                  {"id": "V2", "from": [2], "size_px": [960, 540]}]}],
    "services": {
      "devices": [{"id": "N", "model": "store"}],
      "recording": [{"id": "K2", "stream": "V2", "device": "N", "days": 3}],
      "screens": [{"id": "W2", "stream": "V2", "tile_px": [480, 270]}]},
    "tests": [{"id": "Q2", "requirement": "R", "imager": "C.2", "at_m": [1.5, 1.5, 0]}],
    "evidence": [
      {"id": "E1", "kind": "clip", "of": "V2", "file": {"path": "paper.txt", "sha256": "bb3090da19f66aac077e9c2a19146765b0abe8125d8ba591bf92a199df5d7692"},
       "clip": {"size_px": [960, 540], "mean_mbps": 3}},
      {"id": "E2", "kind": "sheet", "of": "C.3", "file": {"path": "paper.txt", "sha256": "bb3090da19f66aac077e9c2a19146765b0abe8125d8ba591bf92a199df5d7692"},
       "readings": [{"test": "Q2", "value": 200}]}],
    "accepted": [{"id": "A1", "code": "frame_blocked", "of": "V2", "reason": "r", "by": "b"},
                 {"id": "A2", "code": "frame_blocked", "of": "C.4", "reason": "r", "by": "b"}],
    "alternatives": [{"id": "X", "name": "x", "edits": [
      {"id": "V2", "key": "frames_per_s", "value": "5"},
      {"id": "C", "key": "imagers/1/aims/0/pan_deg", "value": "30"},
      {"id": "C", "key": "life", "value": "\"removed\""}]}]
  })", folder).design;
  for (const char* to : {"one", "fifth"}) {
    const Changed changed = swapModel(design, design::HousingId{"C"}, design::ModelId{to});
    EXPECT_NO_THROW(readBack(changed.design, folder)) << to;
    for (const char* part : {"recording K2", "screen W2", "test Q2", "reading", "A1", "A2", "E1",
                             "alternative X"})
      EXPECT_TRUE(says(changed, part)) << to << " " << part;
    ASSERT_EQ(changed.design.evidence.size(), 2u);
    EXPECT_EQ(changed.design.evidence[1].of.text, "C");
    EXPECT_EQ(changed.design.housings.size(), 1u);
  }
}

// What services say of a housing follows it: its card stays, a feed that the model lacks goes.
TEST(SwapModel, follows_card_and_feed) {
  design::Design design = site();
  design.catalogue.models[1].power = design::ModelPower{};
  design.catalogue.models[1].power->feeds.push_back({"poe", 4, {}, {}, {}});
  design::Model arm;
  arm.id.text = "arm";
  arm.kind = design::ModelKind::mount;
  arm.takes = {{"M"}};
  design.catalogue.models.push_back(arm);
  design.housings[0].card.text = "card";
  design.housings[0].fed_by = "dc";
  design.housings[0].mount.model.text = "arm";
  const Changed changed = swapModel(design, design::HousingId{"H"}, design::ModelId{"N"});
  EXPECT_EQ(changed.design.housings[0].card.text, "card");
  EXPECT_EQ(changed.design.housings[0].fed_by, "");
  EXPECT_TRUE(says(changed, "no longer said to be fed by dc"));
  EXPECT_TRUE(says(changed, "arm of H is not made for N"));
  design.housings[0].fed_by = "poe";
  EXPECT_EQ(swapModel(design, design::HousingId{"H"}, design::ModelId{"N"}).design.housings[0].fed_by,
            "poe");
}

TEST(SwapModel, everywhere_leaves_removed_housings) {
  design::Design design = site();
  design = withLife(design, {{"G"}}, design::Life::removed);
  EXPECT_EQ(design.housings[1].life, design::Life::removed);
  const Changed changed = swapModel(design, design::ModelId{"M"}, design::ModelId{"N"});
  EXPECT_EQ(changed.design.housings[0].model.text, "N");
  EXPECT_EQ(changed.design.housings[1].model.text, "M");
}

TEST(SwapModel, by_the_same_model_changes_nothing) {
  const Changed changed = swapModel(site(), design::ModelId{"M"}, design::ModelId{"M"});
  EXPECT_EQ(changed.design, site());
  EXPECT_TRUE(changed.says.empty());
}

}  // namespace
}  // namespace belvedere::edit
