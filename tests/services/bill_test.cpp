// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/bill.h"

#include <gtest/gtest.h>

#include "made_up.h"
#include "services/findings.h"

namespace belvedere::services {
namespace {

// Three heads on a switch, 4 m up on the wall's line, so that each cable's length is plain: along the
// wall, and 3 m down to the switch.
Design threeHeads() {
  Design design = designWith({hall()});
  design.money = "EUR";
  Model head = housingModel("head");
  head.price = 400;
  head.power = ModelPower{};
  head.power->idle_w = 5;
  head.power->lamps_w = 3;
  head.power->feeds.push_back({"poe", 3, {}, {}, {}});
  Model arm = part("arm", ModelKind::mount, {});
  arm.price = 25.5;
  Model sw = part("sw", ModelKind::switch_, {.ports = 8, .poe_class = 4, .poe_budget_w = 100});
  sw.price = 300;
  sw.power = ModelPower{};
  sw.power->idle_w = 10;
  Model cable = part("cat6", ModelKind::cable, {.media = "twisted_pair", .ohm_per_km = 80});
  cable.price = 1.5;
  design.catalogue.models = {head, arm, sw, cable};
  design.services.devices = {device("S", "sw", Vec3{0, 0, 1})};
  for (int i = 1; i <= 3; ++i) {
    const std::string id = "C" + std::to_string(i);
    design.housings.push_back(housing(id, "head", Vec3{4.0 * i, 0, 4}));
    design.housings.back().mount.model = {"arm"};
    design.services.links.push_back(link("k" + std::to_string(i), id, "S", "cat6"));
  }
  return design;
}

Sizes sized(const Design& design) { return sizesOf(design, {}); }

// Closed form: by hand. Cables 4, 8 and 12 m along the wall and 3 m down each: 33 m, a tenth
// more is 36.3, bought as 37. 3 x 400 + 3 x 25.5 + 37 x 1.5 + 300 = 1632.
TEST(CostAndQuantities, ReproduceByHandAndEveryLineHasItsDrawnThings) {
  const Bill bill = sized(threeHeads()).bill;
  ASSERT_EQ(bill.lines.size(), 4u);
  EXPECT_EQ(bill.lines[0].part, "camera");
  EXPECT_EQ(bill.lines[0].of, (std::vector<std::string>{"C1", "C2", "C3"}));
  EXPECT_EQ(bill.lines[1].part, "mount");
  EXPECT_DOUBLE_EQ(*bill.lines[1].amount, 76.5);
  EXPECT_EQ(bill.lines[2].part, "cable");
  EXPECT_NEAR(bill.lines[2].laid_m, 33, 1e-9);
  EXPECT_DOUBLE_EQ(bill.lines[2].quantity, 37);
  EXPECT_EQ(bill.lines[2].of, (std::vector<std::string>{"k1", "k2", "k3"}));
  EXPECT_EQ(bill.lines[3].of, std::vector<std::string>{"S"});
  EXPECT_DOUBLE_EQ(bill.total, 1200 + 76.5 + 55.5 + 300);
  EXPECT_TRUE(bill.complete());
}

// Property: what nobody priced is counted, never taken for nothing.
TEST(Bill, SaysWhatHasNoPrice) {
  Design design = threeHeads();
  design.catalogue.models[1].price.reset();
  design.services.links[2].cable = {};
  const Bill bill = sized(design).bill;
  EXPECT_EQ(bill.unpriced, 2);
  EXPECT_FALSE(bill.complete());
  EXPECT_EQ(totalText(bill), "at least 1530.00 EUR of material; 2 items without a price");
  design.services.devices[0].at_m.reset();
  EXPECT_EQ(sized(design).bill.lengths_unknown, 3);
}

// Property: cameras that are there already, or go, are not bought.
TEST(Bill, BuysOnlyWhatIsNew) {
  Design design = threeHeads();
  design.housings[0].life = Life::existing;
  design.housings[1].life = Life::removed;
  const Bill bill = sized(design).bill;
  EXPECT_DOUBLE_EQ(bill.lines[0].quantity, 1);
  EXPECT_EQ(bill.already_there, 1);
}

// Property: exactly at the limit is within it; a cent less is not; what has no price leaves it open,
// unless the rest is too much already.
TEST(Bill, LimitsOfTheBrief) {
  Design design = threeHeads();
  Requirement money;
  money.id = {"M"};
  money.kind = RequirementKind::money;
  money.amount_most = 1632;
  design.brief = {money};
  EXPECT_EQ(sized(design).money.at(0).met, std::optional(true));
  EXPECT_TRUE(billFindings(sized(design)).empty());
  design.brief[0].amount_most = 1631.99;
  EXPECT_EQ(sized(design).money.at(0).met, std::optional(false));
  EXPECT_EQ(billFindings(sized(design)).at(0).code, "money_over");
  design.catalogue.models[1].price.reset();
  EXPECT_EQ(sized(design).money.at(0).met, std::nullopt);
  EXPECT_EQ(billFindings(sized(design)).at(0).code, "money_open");
  design.brief[0].amount_most = 1500;
  EXPECT_EQ(sized(design).money.at(0).met, std::optional(false));
}

// Closed form: by day 3 x 5 W, by night 3 x 8 W at the heads, a little more at the switch, and
// its own 10 W: (15 + 24) / 2 + 10 = 29.5 W, 258 kWh a year and less than 1 % for the cable.
TEST(CostAndQuantities, KilowattHoursOfAYear) {
  const Energy energy = sized(threeHeads()).energy;
  EXPECT_GT(energy.low_kwh, 29.5 * 8.760);
  EXPECT_LT(energy.low_kwh, 29.5 * 8.760 * 1.01);
  EXPECT_DOUBLE_EQ(energy.low_kwh, energy.high_kwh);
  EXPECT_TRUE(energy.unstated.empty());
}

}  // namespace
}  // namespace belvedere::services
