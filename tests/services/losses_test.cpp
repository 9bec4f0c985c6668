// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/losses.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "made_up.h"

namespace belvedere::services {
namespace {

using Names = std::vector<std::string>;

// Two heads of two imagers on switch A by power over the network cable, an uplink to switch B, and
// there a recorder that takes all four imagers and a viewer that takes the first of each head.
Design site() {
  Design design = designWith({hall()});
  Model head = housingModel("head", 2);
  head.power = ModelPower{};
  head.power->idle_w = 6;
  head.power->feeds.push_back({"poe", 3, {}, {}, {}});
  head.lamps.push_back({1, 0, 0, 60, 30, 850, {}, {}});
  design.catalogue.models = {
      head,
      part("sw", ModelKind::switch_, {.ports = 8, .uplinks = 2, .poe_class = 4, .poe_budget_w = 60}),
      part("nvr", ModelKind::recorder, {}), part("hdd", ModelKind::disk, {.size_tb = 4}),
      part("wall", ModelKind::viewer, {}), part("sd", ModelKind::card, {.size_tb = 0.256}),
      part("cat6", ModelKind::cable, {.media = "twisted_pair", .ohm_per_km = 80})};
  design.services.devices = {device("A", "sw", Vec3{1, 0, 1}), device("B", "sw", Vec3{19, 0, 1}),
                             device("R", "nvr", Vec3{19, 1, 1}), device("V", "wall", Vec3{19, 2, 1})};
  design.services.devices[2].disks = Disks{.model = {"hdd"}, .count = 3, .raid = "5"};
  for (int i = 1; i <= 2; ++i) {
    const std::string id = "C" + std::to_string(i);
    Housing h = housing(id, "head", Vec3{4.0 * i, 0, 3}, 2);
    for (int slot = 1; slot <= 2; ++slot) {
      const std::string name = id + "_" + std::to_string(slot);
      h.streams.push_back(stream(name, slot));
      h.streams.back().rate = Rate{"constant", 4};
      Recording r;
      r.id = {"keep_" + name};
      r.stream = {name};
      r.device = {"R"};
      r.days = 10;
      design.services.recording.push_back(r);
    }
    Screen screen;
    screen.id = {"show_" + id};
    screen.stream = {id + "_1"};
    screen.device = {"V"};
    design.services.screens.push_back(screen);
    design.housings.push_back(h);
    design.services.links.push_back(link("k" + std::to_string(i), id, "A", "cat6"));
  }
  design.services.links.push_back(link("up", "A", "B", "cat6"));
  design.services.links.push_back(link("kr", "B", "R", "cat6"));
  design.services.links.push_back(link("kv", "B", "V", "cat6"));
  return design;
}

Loss lossOf(const Design& design, PartKind kind, const std::string& part) {
  for (Loss& loss : lossesOf(design, sizesOf(design, {})))
    if (loss.kind == kind && loss.part == part) return loss;
  ADD_FAILURE() << part;
  return {};
}
Names dark(const Loss& loss) {
  Names names;
  for (const HousingId& id : loss.dark) names.push_back(id.text);
  return names;
}
const Names kAll{"C1.1", "C1.2", "C2.1", "C2.2"};

// By hand: every camera, imager's lamp, switch, recorder, disk and link is asked about once.
TEST(Losses, EveryPartIsThere) {
  const Design design = site();
  Names parts;
  for (const Loss& loss : lossesOf(design, sizesOf(design, {})))
    parts.push_back(std::string(word(loss.kind)) + " " + loss.part);
  EXPECT_EQ(parts, (Names{"camera C1", "camera C2", "lamp C1 lamp 1", "lamp C2 lamp 1", "switch A",
                          "switch B", "recorder R", "disk R", "link k1", "link k2", "link up",
                          "link kr", "link kv"}));
}

// By hand: what a part takes, as recorded, as viewed, and wholly.
TEST(Losses, WhatAPartTakes) {
  const Design design = site();
  const Loss camera = lossOf(design, PartKind::housing, "C1");
  EXPECT_EQ(dark(camera), Names{"C1"});
  EXPECT_EQ(camera.cut, (Names{"C1.1", "C1.2"}));
  // Its cable brings the power too.
  EXPECT_EQ(dark(lossOf(design, PartKind::link, "k2")), Names{"C2"});
  EXPECT_EQ(dark(lossOf(design, PartKind::switch_, "A")), (Names{"C1", "C2"}));
  // The uplink brings none: the heads go on, and nobody sees them.
  const Loss uplink = lossOf(design, PartKind::link, "up");
  EXPECT_TRUE(uplink.dark.empty());
  EXPECT_EQ(uplink.cut, kAll);
  EXPECT_EQ(lossOf(design, PartKind::switch_, "B").cut, kAll);
  // The recorder's loss leaves what the viewer takes.
  const Loss recorder = lossOf(design, PartKind::recorder, "R");
  EXPECT_EQ(recorder.unrecorded, kAll);
  EXPECT_EQ(recorder.cut, (Names{"C1.2", "C2.2"}));
  EXPECT_EQ(recorder.unviewed, (Names{"C1.2", "C2.2"}));  // whom nobody else takes
  EXPECT_EQ(recorder.recordings.size(), 4u);
  EXPECT_EQ(lossOf(design, PartKind::link, "kr").unrecorded, kAll);
  EXPECT_TRUE(lossOf(design, PartKind::link, "kr").recordings.empty());
  const Loss viewer_link = lossOf(design, PartKind::link, "kv");
  EXPECT_EQ(viewer_link.unviewed, (Names{"C1.1", "C2.1"}));
  EXPECT_TRUE(viewer_link.unrecorded.empty());
}

// Property: level 5 bears one disk, level 0 none.
TEST(Losses, ALevelBearsItsDisk) {
  Design design = site();
  const Loss spared = lossOf(design, PartKind::disk, "R");
  EXPECT_TRUE(spared.spared);
  EXPECT_TRUE(spared.harmless());
  design.services.devices[2].disks->raid = "0";
  const Loss lost = lossOf(design, PartKind::disk, "R");
  EXPECT_FALSE(lost.spared);
  EXPECT_EQ(lost.unrecorded, kAll);
  EXPECT_EQ(lost.recordings.size(), 4u);
}

// Closed form: 256 GB at 2 x 4 Mbit/s bridge 71.1 h; only of cameras that still have power.
TEST(Losses, CardsBridgeWhatStillHasPower) {
  Design design = site();
  for (Housing& h : design.housings) h.card = {"sd"};
  const RecordingSizes recording = sizesOf(design, {}).recording;
  const Loss uplink = lossOf(design, PartKind::link, "up");
  const auto hours = bridgedHours(uplink, uplink.unrecorded, recording);
  ASSERT_TRUE(hours);
  EXPECT_NEAR(hours->low, 256e9 / (8e6 / 8) / 3600, 1e-6);
  const Loss first = lossOf(design, PartKind::switch_, "A");
  EXPECT_FALSE(bridgedHours(first, first.unrecorded, recording));
  design.housings[1].card = {};
  EXPECT_FALSE(bridgedHours(uplink, uplink.unrecorded, sizesOf(design, {}).recording));
}

// Property: a second supply that carries a head keeps it, unless all that come to it are too much.
TEST(Losses, ASecondSupplyCarriesWhatItCan) {
  Design design = site();
  design.catalogue.models[0].power->feeds.push_back({"dc", {}, 10, 24, 28});
  design.catalogue.models.push_back(part("psu", ModelKind::supply, {.out_v = 24, .out_w = 20}));
  design.catalogue.models.push_back(
      part("c25", ModelKind::cable, {.media = "power", .ohm_per_km = 7.41}));
  design.services.devices.push_back(device("D", "psu", Vec3{1, 0, 2}));
  for (const char* id : {"C1", "C2"}) {
    design.services.links.push_back(link(std::string("d") + id, "D", id, "c25"));
    design.housings[id[1] - '1'].fed_by = "poe";
  }
  const Loss carried = lossOf(design, PartKind::switch_, "A");
  EXPECT_TRUE(carried.dark.empty());
  EXPECT_EQ(carried.carried.size(), 2u);
  EXPECT_EQ(carried.cut, kAll);  // powered, and yet nobody is reached
  EXPECT_TRUE(lossOf(design, PartKind::link, "k1").dark.empty());
  EXPECT_TRUE(lossOf(design, PartKind::supply, "D").harmless());
  design.catalogue.models[7].capacity->out_w = 10;  // less than both draw
  EXPECT_EQ(dark(lossOf(design, PartKind::switch_, "A")), (Names{"C1", "C2"}));
  EXPECT_TRUE(dark(lossOf(design, PartKind::link, "k1")).empty());
}

// Property: a ring bears any one of its links.
TEST(Losses, ARingBearsALink) {
  Design design = site();
  design.services.links.push_back(link("ring", "B", "A", "cat6"));
  EXPECT_TRUE(lossOf(design, PartKind::link, "up").harmless());
  EXPECT_TRUE(lossOf(design, PartKind::link, "ring").harmless());
}

}  // namespace
}  // namespace belvedere::services
