// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "base/units.h"
#include "services/poe.h"

namespace belvedere::services {
namespace {

// Recalled from a training page on low-voltage drop whose name was not kept (16 AWG, 4.99 ohm per 1000 ft from a
// table at 75 C, 100 ft, 4 A, 24 V) prints 4.0 V and 16.7 %. Tolerance: half of the last digit.
TEST(PowerLine, MatchesThePrintedDropOf16Awg) {
  const double loop = loopOhm(feetToM(100), 4.99 / 0.3048, 20);
  EXPECT_NEAR(4 * loop, 4.0, 0.05);
  EXPECT_NEAR(100 * 4 * loop / 24, 16.7, 0.1);
}

struct Drop {
  double supply_v, length_m, ohm_per_km, load_w, temperature_c;
  double loop_ohm, current_a, load_v, loss_w, most_w;  // current 0: cannot be supplied
};
// Closed form: I = (V - sqrt(V^2 - 4 R P)) / 2R, worked out by an independent script.
TEST(PowerLine, MatchesWorkedConstantPowerExamples) {
  for (const Drop& d :
       {Drop{12, 40, 13.3, 12, 20, 1.064, 1.109061554, 10.81995851, 1.308738654, 33.83458647},
        Drop{12, 40, 13.3, 12, 50, 1.1894456, 1.12557836, 10.66118577, 1.506940324, 30.26620133},
        Drop{24, 60, 7.98, 30, 20, 0.9576, 1.319465466, 22.73647987, 1.667171177, 150.3759398},
        Drop{48, 100, 19.5, 25, 20, 3.9, 0.5449633707, 45.87464285, 1.158241794, 147.6923077},
        Drop{12, 150, 13.3, 12, 20, 3.99, 0, 0, 0, 9.022556391}}) {
    const double loop = loopOhm(d.length_m, d.ohm_per_km, d.temperature_c);
    EXPECT_NEAR(loop, d.loop_ohm, 1e-6);
    EXPECT_NEAR(mostPowerW(d.supply_v, loop), d.most_w, 1e-6);
    const auto state = lineState({.supply_v = d.supply_v, .loop_ohm = loop, .load_w = d.load_w});
    ASSERT_EQ(state.has_value(), d.current_a > 0);
    if (!state) continue;
    EXPECT_NEAR(state->current_a, d.current_a, 1e-8);
    EXPECT_NEAR(state->load_v, d.load_v, 1e-7);
    EXPECT_NEAR(state->loss_w, d.loss_w, 1e-8);
  }
}

// Closed form (copper 0.01724 ohm mm2/m; the smaller root of P = I (V - I R)): a lamp head of 18 W, 180 m from 24 V over 2.5 mm2, has
// 21.97 V at 20 C and 21.79 V at 40 C; over 1.5 mm2 20.34 V; at 240 m 21.19 V; 12 V cannot carry it.
TEST(LowVoltageSupply, VoltsAtTheLoadOrCannotBeSupplied) {
  const auto volts = [](double supply_v, double length_m, double mm2, double temperature_c) {
    const auto state = lineState({.supply_v = supply_v,
                                  .loop_ohm = loopOhm(length_m, 17.24 / mm2, temperature_c),
                                  .load_w = 18});
    return state ? state->load_v : 0;
  };
  EXPECT_NEAR(volts(24, 180, 2.5, 20), 21.97, 0.005);
  EXPECT_NEAR(volts(24, 180, 2.5, 40), 21.79, 0.005);
  EXPECT_NEAR(volts(24, 180, 1.5, 20), 20.34, 0.005);
  EXPECT_NEAR(volts(24, 240, 2.5, 20), 21.19, 0.005);
  EXPECT_EQ(volts(12, 180, 2.5, 20), 0);
}

// Property: at the longest run the load has just its least voltage; a metre more is too much.
TEST(PowerLine, LongestRunIsWhereTheLeastVoltageIsReached) {
  const LineNeed need{.supply_v = 24, .least_v = 21.6, .load_w = 18, .temperature_c = 40};
  for (const CopperSize& size : copperSizes()) {
    const double run = longestRunM(need, size.flexible_ohm_per_km);
    const auto at = [&](double length) {
      return lineState({.supply_v = 24,
                        .loop_ohm = loopOhm(length, size.flexible_ohm_per_km, 40),
                        .load_w = 18});
    };
    EXPECT_NEAR(at(run)->load_v, 21.6, 1e-9);
    EXPECT_LT(at(run + 1)->load_v, 21.6);
  }
  EXPECT_EQ(longestRunM({.supply_v = 12, .least_v = 21.6, .load_w = 18}, 7.41), 0);
}

// Property: the thinnest conductor carries the load, and the next thinner one does not.
TEST(PowerLine, LeastConductorIsTheThinnestThatCarries) {
  const LineNeed need{.supply_v = 24, .least_v = 21.6, .load_w = 18};
  const auto size = leastConductor(need, 180);
  ASSERT_TRUE(size);
  EXPECT_EQ(size->area_mm2, 2.5);
  EXPECT_LT(longestRunM(need, 12.1), 180);
  EXPECT_FALSE(leastConductor(need, 100'000));
}

// Property: a power factor below 1 asks for more current at the same power.
TEST(PowerLine, PowerFactorRaisesTheCurrent) {
  const auto one = lineState({.supply_v = 24, .loop_ohm = 1, .load_w = 20});
  const auto low = lineState({.supply_v = 24, .loop_ohm = 1, .load_w = 20, .power_factor = 0.7});
  EXPECT_GT(low->current_a, one->current_a);
  EXPECT_LT(low->load_v, one->load_v);
}

// Closed form: 60 W, 4 h, 12 V, depth 0.8, efficiency 0.9, ageing 1.25: 34.72 Ah; 41 W, 4 h, 24 V,
// 0.8, 0.85: 12.6 Ah.
TEST(Standby, AmpereHoursForALoadOverHours) {
  EXPECT_NEAR(batteryAh({.load_w = 60, .hours = 4, .volts = 12, .efficiency = 0.9}), 34.72222, 1e-4);
  EXPECT_NEAR(batteryAh({.load_w = 41, .hours = 4, .volts = 24}), 12.6, 0.05);
  EXPECT_NEAR(bridgedHours({.load_w = 41, .volts = 24}, batteryAh({.load_w = 41, .hours = 4, .volts = 24})),
              4, 1e-12);
}

// Published: printed factors that bring a resistance back to 20 C [IEC 60228:2004, temperature
// correction]. They use 0.004/K: 0.2 % apart at 50 C.
TEST(Conductors, WarmthAgreesWithPrintedFactors) {
  for (const auto& [t, factor] : {std::pair{5, 1.064}, {20, 1.0}, {35, 0.943}, {50, 0.893}})
    EXPECT_NEAR(1 / ohmAt(1, t), factor, 0.0025 * factor);
}

// Closed form: each gauge's resistance is 17.241 ohm mm2/km over its area, within 0.2 %; the same
// of IEC sizes is at least that, since their area may be smaller than its name.
TEST(Conductors, ResistanceFollowsArea) {
  for (const WireGauge& w : wireGauges())
    EXPECT_NEAR(w.ohm_per_km * w.area_mm2, 17.241, 0.002 * 17.241) << w.awg;
  for (const CopperSize& s : copperSizes()) {
    EXPECT_GT(s.solid_or_stranded_ohm_per_km * s.area_mm2, 17.241);
    EXPECT_GT(s.flexible_ohm_per_km, s.solid_or_stranded_ohm_per_km);
  }
}

// Published: class powers [IEEE 802.3, as reproduced by the Ethernet Alliance, April 2018] and the
// worst channel close within 0.08 W.
TEST(Poe, ClassLimitsAtTheSourceAndAtTheDevice) {
  for (int n = 0; n <= kPoeClassMost; ++n) {
    const PoeClass& c = poeClass(n);
    const double current = c.source_w / c.source_least_v;
    EXPECT_NEAR(c.source_w - current * current * c.channel_ohm, c.device_w, 0.08) << n;
  }
  const double source[] = {15.4, 30, 45, 60, 75, 90}, device[] = {12.95, 25.5, 40, 51, 62, 71.3};
  for (int n = 3; n <= 8; ++n) {
    EXPECT_EQ(poeClass(n).source_w, source[n - 3]);
    EXPECT_EQ(poeClass(n).device_w, device[n - 3]);
  }
}

// Closed form: 41 W at the device over 6.25 ohm at 50 V asks 46.4 W of the port.
TEST(Poe, WattsAtTheSourceForADrawOverAChannel) {
  EXPECT_NEAR(portState(50, 6.25, 41)->source_w, 46.4, 0.05);
  EXPECT_EQ(classFor(41), 6);
  EXPECT_EQ(classFor(25.5), 4);
  EXPECT_EQ(classFor(25.6), 5);
  EXPECT_FALSE(classFor(71.4));
}

// Closed form: 80 m of 24 AWG at 53 V.
TEST(Poe, EightyMetresOfThinCable) {
  const double two = channelOhm(80, 84.22, 20, 2), four = channelOhm(80, 84.22, 20, 4);
  EXPECT_NEAR(two, 6.7376, 1e-4);
  EXPECT_NEAR(portState(53, two, 20)->source_w, 21.06425, 1e-4);
  EXPECT_NEAR(portState(53, two, 20)->load_v, 50.32222, 1e-4);
  EXPECT_NEAR(portState(53, four, 45)->source_w, 47.73244, 1e-4);
}

// Recalled from a note of 2014 on loss in category 6 cable whose name was not kept: 0.858 W and 2.5 V for 0.35 A over two
// pairs of 7 ohm a conductor: 4 (I/2)^2 R.
TEST(Poe, MatchesThePrintedLossOfCategory6) {
  const double loop = channelOhm(1000, 7, 20, 2);
  EXPECT_NEAR(0.35 * 0.35 * loop, 0.858, 0.001);
  EXPECT_NEAR(0.35 * loop, 2.5, 0.051);
}

}  // namespace
}  // namespace belvedere::services
