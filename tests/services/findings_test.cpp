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

// IEEE 802.3: a port of class 4 gives 25.5 W at the device; a head of 22 W at rest and 41 W with lamps
// and heater is refused, and what is too much is named.
TEST(Poe, APortOfClass4UnderItIsRefusedNamingLampsOrHeater) {
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

// Common practice, no source: a link is full above 70 %.
TEST(NetworkLoad, ALinkIsFullAbove70Percent) {
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

// ISO/IEC 11801-1:2017, recalled: 90 m of fixed cable and 10 m of cords; a metre more is flagged.
TEST(CableRoutes, MoreThan90MetresOfFixedCableAreFlagged) {
  EXPECT_EQ(kFixedCableM, 90);
  EXPECT_EQ(kCordsM, 10);
  Design design = depot(1);
  const double laid_m = sizesOf(design, {}).network.cables[1].length_m;
  Link& link = design.services.links[1];
  link.slack_m = 90 - laid_m;
  EXPECT_FALSE(has(design, "cable_too_long"));
  link.slack_m = 91 - laid_m;
  const auto findings = findingsOf(design);
  const Finding* f = find(findings, "cable_too_long");
  ASSERT_TRUE(f);
  EXPECT_EQ(f->severity, Severity::shortfall);
  EXPECT_NEAR(f->found->value, 91, 1e-9);
}

TEST(Findings, StorageIsShortByAHair) {
  Design design = depot(3);  // 12 x 4 Mbit/s x 30 d = 15.552 TB; 3 x 8 x 0.9 = 21.6 TB
  EXPECT_FALSE(has(design, "storage_short"));
  for (Recording& r : design.services.recording) r.days = 30 * 21.6 / 15.552;
  EXPECT_FALSE(has(design, "storage_short"));
  for (Recording& r : design.services.recording) r.days += 0.01;
  EXPECT_TRUE(has(design, "storage_short"));
  // Property: what more disks would do is said beside the bays that there are for them.
  for (Recording& r : design.services.recording) r.days *= 3;
  const std::vector<Finding> findings = findingsOf(design);
  const Finding* f = find(findings, "storage_short");
  ASSERT_TRUE(f);
  EXPECT_NE(f->sentence.find("such disks would do; it has 4 bays."), std::string::npos) << f->sentence;
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

// Property: without a proof of who serves what, frames are asked of all that is recorded.
TEST(Findings, FramesAreAskedOfAllWhereNothingIsProven) {
  Design design = depot(1);
  Requirement r;
  r.id = {"R1"};
  r.frames_per_s = 15;
  design.brief.push_back(r);
  EXPECT_TRUE(has(design, "frames_short"));
  Seen seen;
  seen.served = {{{"R1"}, {"C9.1"}}};
  EXPECT_FALSE(find(findingsOf(design, seen), "frames_short"));
}

// Property: what is kept on a card is held against the card; a share that no schedule uses is named.
TEST(Findings, CardsAndUnusedSharesAreNamed) {
  Design design = depot(1);
  for (Recording& r : design.services.recording) r.device = {};
  EXPECT_TRUE(has(design, "card_missing"));
  design.housings[0].card = {"sd"};
  design.catalogue.models.push_back(part("sd", ModelKind::card, {}));
  EXPECT_TRUE(has(design, "card_unstated"));
  design.catalogue.models.back().capacity->size_tb = 0.256;
  EXPECT_TRUE(has(design, "card_short"));
  design.catalogue.models.back().capacity->size_tb = 6;  // 4 x 4 Mbit/s for 30 days are 5.2 TB
  for (const char* code : {"card_missing", "card_unstated", "card_short", "card_uncertain",
                           "active_share_unused"})
    EXPECT_FALSE(has(design, code)) << code;
  design.services.recording[0].active_share = 0.1;
  EXPECT_TRUE(has(design, "active_share_unused"));
  design.services.recording[0].schedule = "activity";
  EXPECT_FALSE(has(design, "active_share_unused"));
}

// A head on a supply 42 m away by 7.41 ohm/km.
Design pole(const Feed& feed, std::optional<double> out_v) {
  Storey yard = hall();
  yard.outline = {{-1, -1}, {300, -1}, {300, 1}, {-1, 1}};
  yard.walls.clear();
  Design design = designWith({yard});
  Model head = housingModel("pole");
  head.power = ModelPower{.idle_w = 25};
  head.power->feeds = {feed};
  design.catalogue.models = {
      head, part("psu", ModelKind::supply, {.out_v = out_v, .out_w = 60}),
      part("c25", ModelKind::cable, {.media = "power", .ohm_per_km = 7.41})};
  design.housings.push_back(housing("P1", "pole", {40, 0, 3}));
  design.services.devices = {device("D", "psu", Vec3{0, 0, 1})};
  design.services.links = {link("k", "P1", "D", "c25")};
  return design;
}

// Property: a head whose model states no limits is judged by its nominal voltage, which is said; where
// not even that is stated, or the supply's own, that is said instead.
TEST(Findings, VoltagesAreJudgedByTheNominalWhereNoLimitIsStated) {
  const Feed nominal{"dc", {}, {}, 12, {}}, stated{"dc", {}, 10.8, 12, 13.2}, none{"dc", {}, {}, {}, {}};
  EXPECT_TRUE(has(pole(nominal, 24), "volts_over"));
  EXPECT_TRUE(has(pole(nominal, 24), "volts_unstated"));
  const auto twelve = findingsOf(pole(nominal, 12));
  EXPECT_FALSE(find(twelve, "volts_over"));
  const Finding* drop = find(twelve, "volts_short");
  ASSERT_TRUE(drop);
  EXPECT_NE(drop->sentence.find("from 10.8 V"), std::string::npos) << drop->sentence;
  EXPECT_FALSE(has(pole(nominal, 13.8), "volts_over"));  // a battery's float
  EXPECT_FALSE(has(pole(stated, 12), "volts_unstated"));
  const auto nothing = findingsOf(pole(none, 24));
  EXPECT_TRUE(find(nothing, "volts_unstated"));
  EXPECT_FALSE(find(nothing, "volts_short"));
  const auto no_supply = findingsOf(pole(stated, {}));
  ASSERT_TRUE(find(no_supply, "supply_volts_unstated"));
  for (const char* code : {"volts_short", "cannot_be_supplied", "volts_over"})
    EXPECT_FALSE(find(no_supply, code)) << code;
}

// IEEE 802.3: a port of class 8 gives 90 W: 71.3 W at the end of 76 m of 140 ohm/km at 60 C ask for more.
TEST(Findings, APortGivesNoMoreThanItsClass) {
  Design design = depot(1);
  design.catalogue.models[0].power = ModelPower{.idle_w = 71.3};
  design.catalogue.models[0].power->feeds = {{"poe", 8, {}, {}, {}}};
  design.catalogue.models[1].capacity->poe_class = 8;
  design.catalogue.models[2].capacity->ohm_per_km = 140;
  for (Link& l : design.services.links) l.temperature_c = 60, l.slack_m = 60;
  const auto findings = findingsOf(design);
  const Finding* f = find(findings, "port_power_short");
  ASSERT_TRUE(f);
  EXPECT_EQ(f->severity, Severity::shortfall);
  EXPECT_EQ(f->found->value, 90);
  design.catalogue.models[2].capacity->ohm_per_km = 67;
  EXPECT_FALSE(has(design, "port_power_short"));
}

// Property: a switch on a supply whose model states no draw of its own is named.
TEST(Findings, ASwitchWithoutADrawOnASupplyIsNamed) {
  Design design = depot(1);
  design.catalogue.models.push_back(part("psu", ModelKind::supply, {.out_v = 54, .out_w = 600}));
  design.services.devices.push_back(device("D", "psu", Vec3{20, 5, 3}));
  design.services.links.push_back(link("kd", "D", "S", "c"));
  design.catalogue.models.push_back(
      part("c", ModelKind::cable, {.media = "power", .ohm_per_km = 4.61}));
  EXPECT_TRUE(has(design, "load_not_counted"));
  design.catalogue.models[1].power = ModelPower{.idle_w = 7};
  EXPECT_FALSE(has(design, "load_not_counted"));
}

// Property: copper joins the earths of two buildings where there are two; what stands in the open is
// said apart, and a camera on the building's outer face is none of both.
TEST(Findings, EarthsOfTwoBuildingsAndOfTheOpenAreToldApart) {
  Design design = depot(1);
  design.housings[0].mount.fixing_m = {10, -0.3, 3.5};
  design.housings[0].mount.on = {"g_wall"};
  EXPECT_FALSE(has(design, "earths_differ"));
  EXPECT_FALSE(has(design, "earth_in_the_open"));
  design.housings[0].mount.on = {};
  EXPECT_FALSE(has(design, "earths_differ"));
  EXPECT_TRUE(has(design, "earth_in_the_open"));
}

// Property: where no ground is known, no height is judged, and that is said.
TEST(Findings, AHeightThatIsNotKnownIsSaid) {
  Design design = depot(1);
  EXPECT_FALSE(has(design, "height_unknown"));
  design.site.terrain = Terrain{};
  design.housings[0].mount.fixing_m = {50, 50, 104};
  EXPECT_TRUE(has(design, "height_unknown"));
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

// Property: further lines of the same stream are no further channels.
TEST(Findings, ChannelsAreCountedByStream) {
  Design design = depot(4);  // 16 streams, 16 channels
  Recording again = design.services.recording[0];
  for (int i = 0; i < 12; ++i) {
    again.id = {"again" + std::to_string(i)};
    design.services.recording.push_back(again);
  }
  EXPECT_FALSE(has(design, "channels_short"));
  EXPECT_TRUE(has(design, "stream_kept_twice"));
  EXPECT_FALSE(has(depot(4), "stream_kept_twice"));
}

TEST(Findings, ShortMirrorsNameWhatWouldDo) {
  Design design = depot(3);  // 15.55 TB; a mirror of 8 TB holds 7.2
  design.services.devices[1].disks->raid = "1";
  design.services.devices[1].disks->count = 2;
  const auto findings = findingsOf(design);
  const Finding* f = find(findings, "storage_short");
  ASSERT_TRUE(f);
  EXPECT_NE(f->sentence.find("disks of 17.3 TB would, or 4 of these at level 5"), std::string::npos)
      << f->sentence;
}

// Property: where the proof knows that nothing serves it, that is said, not that nothing is recorded.
TEST(Findings, WhatNothingServesIsNotCalledUnrecorded) {
  Design design = depot(1);
  Requirement r;
  r.id = {"R1"};
  r.keep_days = 10;
  design.brief.push_back(r);
  Seen seen;
  seen.served = {{{"R1"}, {}}};
  EXPECT_TRUE(find(findingsOf(design, seen), "nothing_serves"));
  EXPECT_FALSE(find(findingsOf(design, seen), "nothing_recorded"));
  seen.served = {{{"R1"}, {"C9.1"}}};
  EXPECT_FALSE(find(findingsOf(design, seen), "nothing_serves"));
  EXPECT_TRUE(find(findingsOf(design, seen), "nothing_recorded"));
}

// Property: what a stream says and what is counted are not silently two things.
TEST(Findings, RatesWithoutFiguresAndExtendedCodecsAreNamed) {
  Design design = depot(1);
  EXPECT_FALSE(has(design, "rate_without_figure"));
  EXPECT_FALSE(has(design, "codec_plain"));
  design.housings[0].streams[0].rate = Rate{"constant", {}};
  EXPECT_TRUE(has(design, "rate_without_figure"));
  design.housings[0].streams[0].codec = "H265+";
  const auto findings = findingsOf(design);
  const Finding* f = find(findings, "codec_plain");
  ASSERT_TRUE(f);
  EXPECT_EQ(f->about, std::vector<std::string>{"C1_1"});
}

// Property: a supply that is named and not linked is not silently another.
TEST(Findings, ASupplyThatIsNamedAndNotLinkedFallsShort) {
  Design design = depot(1);
  design.housings[0].fed_by = "poe";
  EXPECT_FALSE(has(design, "supply_not_linked"));
  design.housings[0].fed_by = "dc";
  const auto findings = findingsOf(design);
  const Finding* f = find(findings, "supply_not_linked");
  ASSERT_TRUE(f);
  EXPECT_NE(f->sentence.find("poe from S"), std::string::npos);
}

// Property: a link whose route does not join up names the two that do not; one that is bridged says so.
TEST(Findings, RoutesThatDoNotJoinNameTheTwo) {
  Design design = depot(1);
  design.site.containment = {{{"low"}, "", {"g"}, {{8, 1, 3.8}, {12, 1, 3.8}}},
                             {{"far"}, "", {"g"}, {{18, 6, 3.8}, {20, 6, 3.8}}},
                             {{"roof"}, "", {}, {{18, 6, 9}, {20, 6, 9}}}};
  Link& cable = design.services.links[1];
  cable.route = {{"low"}, {"far"}};
  const auto bridged = findingsOf(design);
  const Finding* gap = find(bridged, "route_gap");
  ASSERT_TRUE(gap);
  EXPECT_EQ(gap->about, (std::vector<std::string>{"k1", "low", "far"}));
  EXPECT_NE(gap->sentence.find("7.8 m apart"), std::string::npos) << gap->sentence;  // 6 and 5 m
  cable.route = {{"low"}, {"roof"}};
  const auto apart = findingsOf(design);
  EXPECT_FALSE(find(apart, "route_gap"));
  const Finding* none = find(apart, "cable_no_way");
  ASSERT_TRUE(none);
  EXPECT_NE(none->sentence.find("low and roof"), std::string::npos) << none->sentence;
}

}  // namespace
}  // namespace belvedere::services
