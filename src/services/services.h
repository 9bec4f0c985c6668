// SPDX-License-Identifier: GPL-3.0-or-later
//
// services: what carries the pictures, powers the housings and keeps the recordings; which imagers
// run which rules; whether what hangs outside stands its surroundings (handbook 10 to 14).
//
//   conductors.h, power_line.h, poe.h   copper, constant-power loads, classes: formulas alone
//   ways.h          how long a cable is between two places of a site
//   streams.h       what each stream carries, as a range, and what a model can encode
//   network.h       cables, their limits, the load of every link, what a cut cable cuts off
//   power.h         what feeds each housing in four states, budgets, standby
//   recording.h     bytes, disks, days
//   analytics.h     rules onto imagers within what housings can run, exactly
//   surroundings.h  codes, temperature, wind, brackets
//   bill.h          what has to be bought, and what it costs
//   losses.h        what goes dark or is cut off when a part fails
//   schedules.h     cameras, cables and addresses as tables; workbook.h: as one XLSX workbook
//   findings.h      what of all that has to be told; sheets.h: of models alone
//   clip.h          the rate of a sample clip
//
// No light and no rays: what the pictures are good for is `proof`'s; its results come in as plain
// values. Everything is a function of the design; nothing is remembered.
#pragma once

namespace belvedere::services {

// A quantity known as a range: an estimate has three values, a stated or measured one the same
// three times.
struct Spread {
  double low = 0, typical = 0, high = 0;
  bool operator==(const Spread&) const = default;
};
constexpr Spread operator+(Spread a, Spread b) {
  return {a.low + b.low, a.typical + b.typical, a.high + b.high};
}
constexpr Spread operator*(Spread a, double s) { return {a.low * s, a.typical * s, a.high * s}; }

}  // namespace belvedere::services
