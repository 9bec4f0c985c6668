// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/services_on_plan.h"

#include <gtest/gtest.h>

#include "../services/made_up.h"
#include "services/network.h"

namespace belvedere::drawing {
namespace {

using namespace design;

// Two storeys with a riser in the corner (20, 10): a head above, its switch and a recorder below.
Design twoStoreys() {
  Design d = services::designWith({services::hall("g", 0), services::hall("u", 5)});
  d.site.containment.push_back({{"riser"}, "", {}, {{20, 10, 1}, {20, 10, 9}}});
  d.catalogue.models = {services::housingModel("head"),
                        services::part("sw", ModelKind::switch_, {.ports = 8}),
                        services::part("nvr", ModelKind::recorder, {})};
  d.housings = {services::housing("C1", "head", {10, 0, 8.5})};
  d.services.devices = {services::device("S", "sw", Vec3{18, 10, 1}),
                        services::device("R", "nvr", Vec3{18, 10, 2}), services::device("X", "sw")};
  d.services.links = {services::link("k1", "C1", "S"), services::link("k2", "R", "S")};
  return d;
}

double lengthOf(const CableOnPlan& cable) {
  double sum = 0;
  for (const auto& run : cable.runs)
    for (std::size_t i = 0; i + 1 < run.size(); ++i) sum += norm(run[i + 1] - run[i]);
  return sum;
}

// By hand: above, 10 m along the south wall and 10 m along the east wall to the riser; below, 2 m along
// the north wall to the switch.
TEST(ServicesOnPlan, EachStoreyShowsItsPartOfTheWay) {
  const Design d = twoStoreys();
  const services::Network network = services::networkOf(d, services::streamRates(d));
  const auto& storeys = d.site.buildings[0].storeys;
  const ServicesOnPlan above = servicesOn(d, network, storeys[1]), below = servicesOn(d, network, storeys[0]);
  ASSERT_EQ(above.cables.size(), 1u);
  EXPECT_EQ(above.cables[0].link.text, "k1");
  EXPECT_NEAR(lengthOf(above.cables[0]), 20, 1e-9);
  EXPECT_EQ(above.cables[0].runs.size(), 1u);
  ASSERT_EQ(below.cables.size(), 1u);  // k2 goes straight down: nothing on a plan
  EXPECT_NEAR(lengthOf(below.cables[0]), 2, 1e-9);
  EXPECT_NEAR(below.cables[0].length_m, network.cables[0].length_m, 1e-12);
  ASSERT_EQ(above.risers.size(), 1u);
  EXPECT_TRUE(above.risers[0].down);
  EXPECT_FALSE(above.risers[0].up);
  ASSERT_EQ(below.risers.size(), 1u);
  EXPECT_TRUE(below.risers[0].up);
  EXPECT_FALSE(below.risers[0].down);
  EXPECT_NEAR(norm(below.risers[0].at - Vec2{20, 10}), 0, 1e-9);
}

TEST(ServicesOnPlan, DevicesWithAPlaceOnTheirStorey) {
  const Design d = twoStoreys();
  const services::Network network = services::networkOf(d, services::streamRates(d));
  const auto& storeys = d.site.buildings[0].storeys;
  EXPECT_TRUE(servicesOn(d, network, storeys[1]).devices.empty());
  const auto devices = servicesOn(d, network, storeys[0]).devices;
  ASSERT_EQ(devices.size(), 2u);
  EXPECT_EQ(devices[0].device.text, "S");
  EXPECT_EQ(devices[1].kind, ModelKind::recorder);
}

// Property: a duct that names its storey is that storey's, with the cable in it, however deep it lies; the
// tray above is drawn where it is.
TEST(ServicesOnPlan, ContainmentLiesOnTheStoreyThatItNames) {
  Design d = twoStoreys();
  d.site.containment.push_back({{"duct"}, "", {"g"}, {{2, 2, -1.3}, {12, 2, -1.3}}});
  d.site.containment.push_back({{"tray"}, "", {}, {{2, 5, 8.8}, {9, 5, 8.8}}});
  d.housings[0].mount.fixing_m = {2, 2, 3};
  d.services.devices[0].at_m = Vec3{12, 2, 1};
  d.services.links[0].route = {{"duct"}};
  const services::Network network = services::networkOf(d, services::streamRates(d));
  const auto& storeys = d.site.buildings[0].storeys;
  const ServicesOnPlan above = servicesOn(d, network, storeys[1]), below = servicesOn(d, network, storeys[0]);
  ASSERT_EQ(below.containment.size(), 1u);
  EXPECT_EQ(below.containment[0].id.text, "duct");
  EXPECT_EQ(below.containment[0].runs, (std::vector<std::vector<Vec2>>{{{2, 2}, {12, 2}}}));
  ASSERT_EQ(above.containment.size(), 1u);  // the riser is upright: nothing on a plan
  EXPECT_EQ(above.containment[0].id.text, "tray");
  ASSERT_FALSE(below.cables.empty());
  EXPECT_EQ(below.cables[0].link.text, "k1");
  EXPECT_NEAR(lengthOf(below.cables[0]), 10, 1e-9);
  EXPECT_TRUE(above.cables.empty());
}

}  // namespace
}  // namespace belvedere::drawing
