// SPDX-License-Identifier: GPL-3.0-or-later
//
// A load that draws the same power whatever the voltage, at the end of a pair of conductors: as its
// voltage falls it draws more, so that the drop is found from a quadratic (handbook 11). Serves
// low-voltage direct current, single-phase alternating current and, with the channel's resistance,
// power over the network cable.
#pragma once

#include <optional>

#include "services/conductors.h"

namespace belvedere::services {

struct Line {
  double supply_v = 0;      // at its near end
  double loop_ohm = 0;      // out and back
  double load_w = 0;        // at its far end
  double power_factor = 1;  // of the load; the drop is then taken in phase with the voltage, which
                            // is the worse case
};
struct LineState {
  double current_a = 0;
  double load_v = 0;
  double loss_w = 0;
  double source_w = 0;  // load and loss
};

// P = I (V - I R), smaller root; with a power factor, P / power_factor in place of P. Nothing where
// there is no real root: the load cannot be supplied at any voltage.
std::optional<LineState> lineState(const Line& line);

// The most that can be had at the far end: V^2 / 4 R, at half the voltage.
double mostPowerW(double supply_v, double loop_ohm);

// Out and back: 2 L r, warm.
constexpr double loopOhm(double length_m, double ohm_per_km_20c, double temperature_c) {
  return 2 * length_m / 1000 * ohmAt(ohm_per_km_20c, temperature_c);
}

// What a load needs at the end of a cable, and where it is.
struct LineNeed {
  double supply_v = 0;
  double least_v = 0;  // that the load works at; 0: none stated (then half the supply, where the
                       // root ends)
  double load_w = 0;
  double power_factor = 1;
  double temperature_c = 20;
};
// The longest cable of such conductors at whose end the load still has its least voltage. 0 where
// the supply itself lacks it.
double longestRunM(const LineNeed& need, double ohm_per_km_20c);

// The thinnest of copperSizes() (classes 1 and 2) that carries the load over the length; nothing
// where 16 mm2 does not.
std::optional<CopperSize> leastConductor(const LineNeed& need, double length_m);

// Battery of a supply: Ah = W h / (V depth efficiency) ageing. Depth 0.8, efficiency 0.85: practice,
// no source; ageing 1.25 [IEEE 485, Sizing lead-acid batteries, recalled].
struct Standby {
  double load_w = 0;
  double hours = 0;
  double volts = 0;
  double depth = 0.8;
  double efficiency = 0.85;
  double ageing = 1.25;
};
double batteryAh(const Standby& standby);
// The hours that a battery of so many Ah bridges; `standby.hours` does not count.
double bridgedHours(const Standby& standby, double battery_ah);

}  // namespace belvedere::services
