// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/power_line.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace belvedere::services {

std::optional<LineState> lineState(const Line& line) {
  if (!(line.supply_v > 0) || !(line.power_factor > 0)) return {};
  const double apparent_va = line.load_w / line.power_factor;
  const double inside = line.supply_v * line.supply_v - 4 * line.loop_ohm * apparent_va;
  if (inside < 0) return {};
  LineState state;
  // The smaller root, written so that a short cable loses no digits: (V - sqrt(...)) / 2R.
  state.current_a = 2 * apparent_va / (line.supply_v + std::sqrt(inside));
  state.load_v = line.supply_v - state.current_a * line.loop_ohm;
  state.loss_w = state.current_a * state.current_a * line.loop_ohm;
  state.source_w = line.load_w + state.loss_w;
  return state;
}

double mostPowerW(double supply_v, double loop_ohm) {
  return loop_ohm > 0 ? supply_v * supply_v / (4 * loop_ohm)
                      : std::numeric_limits<double>::infinity();
}

double longestRunM(const LineNeed& need, double ohm_per_km_20c) {
  const double least_v = std::max(need.least_v, need.supply_v / 2);
  if (least_v > need.supply_v) return 0;
  const double per_m = loopOhm(1, ohm_per_km_20c, need.temperature_c);
  if (!(need.load_w > 0) || !(per_m > 0)) return std::numeric_limits<double>::infinity();
  // At its least voltage the load draws its largest current.
  const double current_a = need.load_w / need.power_factor / least_v;
  return (need.supply_v - least_v) / current_a / per_m;
}

std::optional<CopperSize> leastConductor(const LineNeed& need, double length_m) {
  for (const CopperSize& size : copperSizes())
    if (longestRunM(need, size.solid_or_stranded_ohm_per_km) >= length_m) return size;
  return {};
}

double batteryAh(const Standby& s) {
  return s.load_w * s.hours / (s.volts * s.depth * s.efficiency) * s.ageing;
}

double bridgedHours(const Standby& s, double battery_ah) {
  if (!(s.load_w > 0)) return std::numeric_limits<double>::infinity();
  return battery_ah / s.ageing * s.volts * s.depth * s.efficiency / s.load_w;
}

}  // namespace belvedere::services
