// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/power.h"

#include <gtest/gtest.h>

#include <cmath>

#include "made_up.h"

namespace belvedere::services {
namespace {

constexpr std::size_t kDay = 0, kNight = 1, kCold = 2, kStart = 3;

// Heads of 22 W, 41 W with lamps and heater, class 6, on one switch, at the foot of a wall.
Design heads(int count, int port_class, double budget_w) {
  Design design = designWith({hall()});
  Model model = housingModel("quad", 4);
  model.power = ModelPower{.idle_w = 22, .lamps_w = 13, .heater_w = 6, .start_w = 30};
  model.power->feeds = {{"poe", 6, {}, {}, {}}};
  design.catalogue.models = {
      model,
      part("sw", ModelKind::switch_, {.ports = 8, .poe_class = port_class, .poe_budget_w = budget_w}),
      part("cat6", ModelKind::cable, {.media = "twisted_pair", .ohm_per_km = 84.22})};
  design.services.devices = {device("S", "sw", Vec3{0, 0, 1})};
  for (int i = 0; i < count; ++i) {
    const std::string id = "C" + std::to_string(i + 1);
    design.housings.push_back(housing(id, "quad", {10, 0, 3}, 4));
    design.services.links.push_back(link("k" + std::to_string(i + 1), id, "S", "cat6"));
  }
  return design;
}

Power powerOf(const Design& design) {
  return services::powerOf(design, networkOf(design, streamRates(design)));
}

// Closed form: 14 m of way (1 up, 10 along, 3 down) and 10 m of cords of 84.22 ohm/km on four pairs:
// 1.0106 ohm; at 50 V 41 W ask for 41.7 W.
TEST(Power, DrawAtThePortHasTheLossOfTheRealChannel) {
  const Power power = powerOf(heads(1, 6, 240));
  const Feeding& f = power.feedings.at(0);
  EXPECT_EQ(f.by, FedBy::poe);
  EXPECT_EQ(f.source.text, "S");
  EXPECT_EQ(*f.draw_w, (Watts{22, 35, 41, 30}));
  ASSERT_TRUE(f.source_w);
  const double ohm = 84.22 * 24 / 2000, volts = 50;
  const double current = (volts - std::sqrt(volts * volts - 4 * ohm * 41)) / (2 * ohm);
  EXPECT_NEAR((*f.source_w)[kCold], volts * current, 1e-9);
  EXPECT_EQ(f.allotted_w, 60);
  EXPECT_EQ(power.sources.at(0).housings, 1);
}

// Closed form: five heads draw 110 W by day and 205 W on a cold night at their own ends: a budget of
// 190 W looks right on paper and is not.
TEST(Power, ACohortOverloadsItsSwitchOnlyOnAColdNight) {
  const Power power = powerOf(heads(5, 6, 190));
  const Source& source = power.sources.at(0);
  EXPECT_LT(source.load_w[kDay], 190);
  EXPECT_LT(source.load_w[kNight], 190);
  EXPECT_GT(source.load_w[kCold], 205);
  EXPECT_LT(source.load_w[kStart], 190);
  EXPECT_EQ(source.allotted_w, 300);
}

// Closed form: after an outage all start together: five heads that draw 30 W while they start ask more
// than 150 W of their switch at once, where 110 W are drawn at rest.
TEST(Startup, AfterAnOutageAllStartTogether) {
  const Power power = powerOf(heads(5, 6, 190));
  const Source& source = power.sources.at(0);
  EXPECT_GT(source.load_w[kStart], 150);
  EXPECT_LT(source.load_w[kStart], 150 * 1.03);
  EXPECT_GT(source.load_w[kDay], 110);
}

// Published: a port of class 4 lets a device draw 25.5 W [IEEE 802.3]: enough for the head at rest,
// not with its lamps.
TEST(Power, APortOfClass4IsShownBesideAHeadOfClass6) {
  const Feeding f = powerOf(heads(1, 4, 240)).feedings.at(0);
  EXPECT_EQ(f.device_class, 6);
  EXPECT_EQ(f.port_class, 4);
  EXPECT_LT((*f.draw_w)[kDay], poeClass(4).device_w);
  EXPECT_GT((*f.draw_w)[kNight], poeClass(4).device_w);
}

// Closed form: 18 W at the end of 180 m from 24 V, 7.41 ohm/km: by the quadratic.
TEST(Power, LowVoltageSupplyOverItsCable) {
  Storey yard = hall();
  yard.outline = {{-1, -1}, {300, -1}, {300, 1}, {-1, 1}};
  yard.walls.clear();
  Design design = designWith({yard});
  Model model = housingModel("pole");
  model.power = ModelPower{.idle_w = 10, .lamps_w = 8};
  model.power->feeds = {{"dc", {}, 21.6, 24, 28}};
  design.catalogue.models = {model,
                             part("psu", ModelKind::supply, {.out_v = 24, .out_w = 60, .battery_ah = 17}),
                             part("c25", ModelKind::cable, {.media = "power", .ohm_per_km = 7.41})};
  design.housings.push_back(housing("P1", "pole", {178, 0, 3}));
  design.services.devices = {device("D", "psu", Vec3{0, 0, 1})};
  design.services.devices[0].standby_hours = 4;
  design.services.links = {link("k", "P1", "D", "c25")};
  const Power power = powerOf(design);
  const Feeding& f = power.feedings.at(0);
  EXPECT_EQ(f.by, FedBy::line);
  EXPECT_EQ(f.feed, "dc");
  EXPECT_NEAR(f.length_m, 180, 1e-9);
  const double ohm = 2 * 0.18 * 7.41, current = (24 - std::sqrt(24 * 24 - 4 * ohm * 18)) / (2 * ohm);
  ASSERT_TRUE(f.at_worst);
  EXPECT_NEAR(f.at_worst->load_v, 24 - current * ohm, 1e-9);
  EXPECT_GT(f.longest_m, 180);
  EXPECT_EQ(f.least_size->area_mm2, 2.5);
  const Source& source = power.sources.at(0);
  EXPECT_NEAR(*source.needed_ah, f.at_worst->source_w * 4 / (24 * 0.8 * 0.85) * 1.25, 1e-9);
  EXPECT_GT(*source.bridged_hours, 4);
  // 12 V cannot.
  design.catalogue.models[1].capacity->out_v = 12;
  EXPECT_FALSE(powerOf(design).feedings.at(0).at_worst);
}

// Common practice, no source: a head hangs on one cable with power over it, or on 24 V instead; with
// both, the design says which, and the other is what is left.
TEST(Power, WithTwoSuppliesTheDesignSaysWhich) {
  Design design = heads(1, 6, 240);
  design.catalogue.models[0].power->feeds.push_back({"dc", {}, 20, 24, 28});
  design.catalogue.models.push_back(part("psu", ModelKind::supply, {.out_v = 24, .out_w = 100}));
  design.catalogue.models.push_back(
      part("c25", ModelKind::cable, {.media = "power", .ohm_per_km = 7.41}));
  design.services.devices.push_back(device("D", "psu", Vec3{0, 0, 1}));
  design.services.links.push_back(link("kd", "D", "C1", "c25"));
  EXPECT_FALSE(powerOf(design).feedings.at(0).chosen);
  design.housings[0].fed_by = "dc";
  const Feeding f = powerOf(design).feedings.at(0);
  EXPECT_TRUE(f.chosen);
  EXPECT_EQ(f.feed, "dc");
  ASSERT_EQ(f.others.size(), 1u);
  EXPECT_EQ(f.others[0].feed, "poe");
  EXPECT_EQ(f.others[0].source.text, "S");
  EXPECT_TRUE(f.others[0].carries);
}

// Property: extenders' own draws and all channels load the switch's port, whichever way round the
// links are drawn.
TEST(Power, ExtendersLoadThePortToo) {
  Design design = heads(1, 6, 240);
  const double straight = (*powerOf(design).feedings.at(0).source_w)[kCold];
  Model extender = part("ext", ModelKind::injector, {.ports = 1, .repeats = true});
  extender.power = ModelPower{.idle_w = 3};
  extender.power->feeds = {{"poe", 6, {}, {}, {}}};
  design.catalogue.models.push_back(extender);
  design.services.devices.push_back(device("E", "ext", Vec3{5, 0, 3}));
  design.services.links = {link("k1", "C1", "E", "cat6"), link("k2", "E", "S", "cat6")};
  const Feeding f = powerOf(design).feedings.at(0);
  EXPECT_EQ(f.source.text, "S");
  ASSERT_EQ(f.links.size(), 2);
  EXPECT_GT((*f.source_w)[kCold], straight + 3);
  design.services.devices.push_back(device("F", "ext", Vec3{2, 0, 3}));
  std::vector<double> at_port_w;
  for (int way = 0; way < 8; ++way) {
    design.services.links = {link("k1", "C1", "E", "cat6"), link("k2", "E", "F", "cat6"),
                             link("k3", "F", "S", "cat6")};
    for (std::size_t i = 0; i < 3; ++i)
      if (way >> i & 1) std::swap(design.services.links[i].from, design.services.links[i].to);
    const Feeding of_two = powerOf(design).feedings.at(0);
    ASSERT_EQ(of_two.links.size(), 3) << way;
    at_port_w.push_back((*of_two.source_w)[kCold]);
  }
  EXPECT_GT(at_port_w[0], straight + 6);
  for (const double w : at_port_w) EXPECT_NEAR(w, at_port_w[0], 1e-9);
}

// Closed form: five heads of 41 W on a switch of 7 W itself, on 54 V: what the heads' cables lose, the
// switch and its own cable's loss are the supply's load, and its battery is sized for it.
TEST(Power, ASupplyBearsTheSwitchAndAllThatHangsOnIt) {
  Design design = heads(5, 6, 300);
  design.catalogue.models[1].power = ModelPower{.idle_w = 7};
  design.catalogue.models.push_back(
      part("psu", ModelKind::supply, {.out_v = 54, .out_w = 60, .battery_ah = 7}));
  design.catalogue.models.push_back(
      part("c4", ModelKind::cable, {.media = "power", .ohm_per_km = 4.61}));
  design.services.devices.push_back(device("D", "psu", Vec3{0, 0, 2}));
  design.services.devices[1].standby_hours = 4;
  design.services.links.push_back(link("kd", "D", "S", "c4"));
  const Power power = powerOf(design);
  const Source &sw = power.sources.at(0), &supply = power.sources.at(1);
  const double far_w = sw.load_w[kCold] + 7, ohm = 2 * 0.001 * 4.61;  // a metre apart
  const double current = (54 - std::sqrt(54 * 54 - 4 * ohm * far_w)) / (2 * ohm);
  EXPECT_NEAR(supply.load_w[kCold], 54 * current, 1e-6);
  EXPECT_GT(supply.load_w[kCold], 212);
  EXPECT_EQ(supply.housings, 0);
  EXPECT_EQ(supply.devices, 1);
  EXPECT_TRUE(supply.unstated.empty());
  EXPECT_NEAR(*supply.needed_ah, supply.load_w[kCold] * 4 / (54 * 0.8 * 0.85) * 1.25, 1e-6);
  EXPECT_LT(*supply.bridged_hours, 1);
  // Two that feed each other go round in no circle.
  design.catalogue.models[1].power->feeds = {{"poe", 4, {}, {}, {}}};
  design.services.devices.push_back(device("T", "sw", Vec3{1, 0, 1}));
  design.services.links.push_back(link("kt", "S", "T", "cat6"));
  EXPECT_EQ(powerOf(design).sources.size(), 3);
}

// Property: a second cable to the same switch is no second supply; another source counts only where
// its budget bears all that would come upon it.
TEST(Power, ASecondSupplyHasToBearAllThatComesUponIt) {
  Design design = heads(2, 6, 240);
  design.services.links.push_back(link("again", "C1", "S", "cat6"));
  EXPECT_TRUE(powerOf(design).feedings.at(0).others.empty());
  design.services.links.pop_back();
  design.catalogue.models.push_back(
      part("sw2", ModelKind::switch_, {.ports = 8, .poe_class = 6, .poe_budget_w = 60}));
  design.services.devices.push_back(device("T", "sw2", Vec3{0, 0, 1.5}));
  for (const char* id : {"C1", "C2"}) {
    design.services.links.push_back(link(std::string("t") + id, id, "T", "cat6"));
    design.housings[id[1] - '1'].fed_by = "poe";
  }
  Feeding f = powerOf(design).feedings.at(0);
  ASSERT_EQ(f.others.size(), 1);
  EXPECT_TRUE(f.others[0].carries);
  EXPECT_FALSE(f.others[0].bears_all);  // one fits, both do not
  design.services.links.pop_back();
  EXPECT_TRUE(powerOf(design).feedings.at(0).others[0].bears_all);
}

// IEEE 802.3: class 0 is powered as class 3.
TEST(Power, ClassZeroIsPoweredAsClassThree) {
  Design design = heads(1, 0, 240);
  design.catalogue.models[0].power = ModelPower{.idle_w = 6};
  design.catalogue.models[0].power->feeds = {{"poe", 2, {}, {}, {}}};
  EXPECT_EQ(powerOf(design).feedings.at(0).granted_class, 2);
  design.catalogue.models[0].power->feeds[0].poe_class = 4;
  EXPECT_EQ(powerOf(design).feedings.at(0).granted_class, 0);
  design.catalogue.models[1].capacity->poe_class = 2;
  design.catalogue.models[0].power->feeds[0].poe_class = 0;
  EXPECT_EQ(powerOf(design).feedings.at(0).granted_class, 2);
}

TEST(Power, AHeadWithoutALinkIsFedByNothing) {
  Design design = heads(1, 6, 240);
  design.services.links.clear();
  EXPECT_EQ(powerOf(design).feedings.at(0).by, FedBy::nothing);
}

}  // namespace
}  // namespace belvedere::services
