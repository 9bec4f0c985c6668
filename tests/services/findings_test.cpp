// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/findings.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "made_up.h"
#include "services/sheets.h"

namespace belvedere::services {
namespace {

std::vector<Finding> findingsOf(const Design& design, const Seen& seen = {}) {
  return services::findingsOf(design, sizesOf(design, seen), seen);
}
const Finding* find(const std::vector<Finding>& findings, const std::string& code) {
  const auto at = std::ranges::find_if(findings, [&](const Finding& f) { return f.code == code; });
  return at == findings.end() ? nullptr : &*at;
}
bool has(const Design& design, const std::string& code) {
  return find(findingsOf(design), code) != nullptr;
}

// Heads on one switch, a recorder beside it, everything within the limits.
Design depot(int heads = 3) {
  Design design = designWith({hall()});
  Model head = housingModel("head", 4);
  head.power = ModelPower{.idle_w = 22, .lamps_w = 13, .heater_w = 6};
  head.power->feeds = {{"poe", 6, {}, {}, {}}};
  head.capacity = Capacity{.port_mbps = 100};
  design.catalogue.models = {
      head,
      part("sw", ModelKind::switch_,
           {.ports = 8, .uplinks = 2, .poe_class = 6, .port_mbps = 100, .uplink_mbps = 1000,
            .poe_budget_w = 240}),
      part("cat6", ModelKind::cable, {.media = "twisted_pair", .ohm_per_km = 67}),
      part("nvr", ModelKind::recorder, {.channels = 16, .bays = 4, .uplink_mbps = 1000}),
      part("hdd", ModelKind::disk, {.size_tb = 8})};
  design.services.devices = {device("S", "sw", Vec3{20, 5, 1}), device("R", "nvr", Vec3{20, 5, 2})};
  design.services.devices[1].disks = Disks{.model = {"hdd"}, .count = 4, .raid = "5"};
  design.services.links = {link("kr", "R", "S", "cat6")};
  for (int i = 1; i <= heads; ++i) {
    const std::string id = "C" + std::to_string(i);
    design.housings.push_back(housing(id, "head", {10, 0, 3.5}, 4));
    for (int slot = 1; slot <= 4; ++slot) {
      Stream s = stream(id + "_" + std::to_string(slot), slot);
      s.rate = Rate{"constant", 4};
      Recording r;
      r.id = {"r" + s.id.text};
      r.stream = s.id;
      r.device = {"R"};
      r.days = 30;
      design.housings.back().streams.push_back(s);
      design.services.recording.push_back(r);
    }
    design.services.links.push_back(link("k" + std::to_string(i), id, "S", "cat6"));
  }
  return design;
}

TEST(Findings, WithinTheLimitsNothingFallsShort) {
  for (const Finding& f : findingsOf(depot()))
    EXPECT_NE(f.severity, Severity::shortfall) << f.code << ": " << f.sentence;
}

TEST(Findings, AColdNightOverloadsTheSwitchAndSaysSo) {
  Design design = depot(5);
  design.catalogue.models[1].capacity->poe_budget_w = 190;
  const auto findings = findingsOf(design);
  const Finding* f = find(findings, "source_overloaded");
  ASSERT_TRUE(f);
  EXPECT_NE(f->sentence.find("cold night"), std::string::npos);
  EXPECT_NE(f->sentence.find("by day"), std::string::npos);
  design.catalogue.models[1].capacity->poe_budget_w = 300;  // what the classes claim, to the watt
  EXPECT_FALSE(has(design, "source_overloaded"));
  EXPECT_FALSE(has(design, "budget_allotted"));
  design.catalogue.models[1].capacity->poe_budget_w = 299;
  EXPECT_TRUE(has(design, "budget_allotted"));
}

TEST(Findings, APortOfClass4NamesLamps) {
  Design design = depot(1);
  design.catalogue.models[1].capacity->poe_class = 4;
  const auto findings = findingsOf(design);
  const Finding* f = find(findings, "port_class_short");
  ASSERT_TRUE(f);
  EXPECT_EQ(f->severity, Severity::shortfall);
  EXPECT_NE(f->sentence.find("lamps on"), std::string::npos);
  // With the heater alone too much, the heater is named.
  design.catalogue.models[0].power = ModelPower{.idle_w = 15, .lamps_w = 10.5, .heater_w = 0.1};
  design.catalogue.models[0].power->feeds = {{"poe", 6, {}, {}, {}}};
  const auto heater = findingsOf(design);
  ASSERT_TRUE(find(heater, "port_class_short"));
  EXPECT_NE(find(heater, "port_class_short")->sentence.find("heater"), std::string::npos);
  // Exactly at the limit the port is enough, though it grants less than is asked for.
  design.catalogue.models[0].power->heater_w = 0;
  EXPECT_FALSE(has(design, "port_class_short"));
  EXPECT_TRUE(has(design, "port_class_lower"));
}

TEST(Findings, LinksFillAt70Percent) {
  Design design = depot(1);  // four streams of 4 Mbit/s on a link of 100
  const auto rate = [&](double mbps) {
    for (Stream& s : design.housings[0].streams) s.rate->mbps = mbps;
  };
  rate(17.5);
  EXPECT_FALSE(has(design, "link_full"));
  rate(17.6);
  EXPECT_TRUE(has(design, "link_full"));
  rate(25.1);
  EXPECT_TRUE(has(design, "link_overloaded"));
}

TEST(Findings, StorageIsShortByAHair) {
  Design design = depot(3);  // 12 x 4 Mbit/s x 30 d = 15.552 TB; 3 x 8 x 0.9 = 21.6 TB
  EXPECT_FALSE(has(design, "storage_short"));
  for (Recording& r : design.services.recording) r.days = 30 * 21.6 / 15.552;
  EXPECT_FALSE(has(design, "storage_short"));
  for (Recording& r : design.services.recording) r.days += 0.01;
  EXPECT_TRUE(has(design, "storage_short"));
}

TEST(Findings, RecorderPartsAndRetention) {
  Design design = depot(5);
  EXPECT_TRUE(has(design, "channels_short"));  // 20 streams, 16 channels
  design.services.devices[1].disks->count = 5;
  EXPECT_TRUE(has(design, "bays_short"));
  design.services.devices[1].disks->raid = "jbod";
  EXPECT_TRUE(has(design, "no_redundancy"));
  Requirement r;
  r.id = {"R1"};
  r.keep_days = 30;
  design.brief.push_back(r);
  EXPECT_FALSE(has(design, "retention_short"));
  design.brief[0].keep_days = 31;
  EXPECT_TRUE(has(design, "retention_short"));
}

TEST(Findings, CablesTooLongUnplacedAndBetweenBuildings) {
  Design design = depot(1);
  design.services.links[1].slack_m = 70;
  EXPECT_FALSE(has(design, "cable_too_long"));
  design.services.links[1].slack_m = 80;
  EXPECT_TRUE(has(design, "cable_too_long"));
  design.services.devices[0].at_m.reset();
  EXPECT_TRUE(has(design, "cable_unplaced"));
  design = depot(1);
  Building other = design.site.buildings[0];
  other.id = {"b2"};
  other.origin_m = {40, 0};
  other.storeys[0].id = {"g2"};
  design.site.buildings.push_back(other);
  design.housings[0].mount.fixing_m = {45, 0, 3.5};
  EXPECT_TRUE(has(design, "earths_differ"));
}

TEST(Findings, RulesThatDoNotFitSayWhatWouldLiftIt) {
  Design design = depot(1);
  design.catalogue.models[0].shared.push_back({"analytics", {}, "at_most_n", 1, {}});
  const Seen seen{{}, {{{"A"}, 1, {"C1.1"}}, {{"B"}, 1, {"C1.2"}}}};
  const auto findings = findingsOf(design, seen);
  const Finding* f = find(findings, "rules_do_not_fit");
  ASSERT_TRUE(f);
  EXPECT_NE(f->sentence.find("another model for C1"), std::string::npos);
}

TEST(Findings, NothingIsSaidOfWhatIsNotDrawn) {
  Design design = depot(1);
  design.services = {};
  for (const Finding& f : findingsOf(design)) {
    EXPECT_NE(f.handbook, "11") << f.code;
    EXPECT_NE(f.handbook, "12") << f.code;
  }
}

// The ways in which data sheets contradict themselves.
TEST(Sheets, ContradictionsAreSaidWithWhatIsUsed) {
  Model model = housingModel("m");
  model.imagers[0].pitch_um = 2;
  model.imagers[0].lens.focal_mm = {4};
  model.imagers[0].lens.hfov_deg = {100};
  model.imagers[0].lens.vfov_deg = {70};
  model.imagers[0].lens.dfov_deg = {150};
  model.power = ModelPower{.idle_w = 9, .lamps_w = 5, .start_w = 7};
  model.power->feeds = {{"poe", 3, {}, {}, {}}, {"dc", {}, 13, 12, 14}};
  model.ratings = Ratings{"IP67", "", "", {}};
  const auto findings = sheetFindings(std::vector{model});
  for (const char* code : {"lens_residual", "focal_contradicts_field", "class_contradicts_draw",
                           "start_below_rest", "volts_out_of_order", "ip_without_jets"})
    EXPECT_TRUE(find(findings, code)) << code;
  model = housingModel("m");
  model.power = ModelPower{.idle_w = 9, .lamps_w = 3.95};
  model.power->feeds = {{"poe", 3, {}, {}, {}}};
  model.ratings = Ratings{"IP66/IP67", "", "", {}};
  EXPECT_TRUE(sheetFindings(std::vector{model}).empty());
}

}  // namespace
}  // namespace belvedere::services
