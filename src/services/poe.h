// SPDX-License-Identifier: GPL-3.0-or-later
//
// Power over the network cable by class (handbook 11). Powers are the least that a port of that
// class must be able to give and the most that a device of that class may draw at its own end; the
// difference is the worst channel [IEEE Std 802.3-2022 clauses 33 and 145, as reproduced in the
// Ethernet Alliance's overview of 802.3bt, April 2018].
#pragma once

#include <optional>

#include "services/power_line.h"

namespace belvedere::services {

struct PoeClass {
  int number;
  int lowest_type;       // 1 (802.3af) to 4
  int pairs;             // that carry: 2 or 4
  double source_w;       // at the port
  double device_w;       // at the device
  double source_least_v; // at the port
  double channel_ohm;    // loop of the worst channel, all carrying pairs together
};
inline constexpr int kPoeClassMost = 8;
// Classes in the order of what they give: class 0 gives what class 3 does.
constexpr int classRank(int number) { return number == 0 ? 3 : number; }
// What a device of a class is given at a port; ports that state no class give any.
constexpr int grantedClass(std::optional<int> port, int device) {
  return port && classRank(*port) < classRank(device) ? *port : device;
}
// number: 0 to 8.
const PoeClass& poeClass(int number);
// The least class whose device may draw so much; nothing above class 8. (Class 0 is not proposed:
// it equals class 3.)
std::optional<int> classFor(double device_w);

// Loop resistance of a real channel: on each of two pairs the two conductors lie in parallel, out
// and back: r L; with four pairs half of it. r: of one conductor at 20 C.
constexpr double channelOhm(double length_m, double ohm_per_km_20c, double temperature_c,
                            int pairs) {
  return ohmAt(ohm_per_km_20c, temperature_c) * length_m / 1000 / (pairs == 4 ? 2 : 1);
}
// Of one conductor of the worst channel that a class allows for: 12.5 ohm a pairset over 100 m.
inline constexpr double kWorstPairOhmPerKm = 125;

// What a device's draw takes of the port over a channel: the constant-power solution.
inline std::optional<LineState> portState(double port_v, double channel_ohm, double device_w) {
  return lineState({.supply_v = port_v, .loop_ohm = channel_ohm, .load_w = device_w});
}

}  // namespace belvedere::services
