// SPDX-License-Identifier: GPL-3.0-or-later
//
// Bill of quantities: what is to be bought for a design as it is drawn, each line with the drawn
// things that need it, and what that costs at the catalogue's prices. Material alone: no labour, no
// containment, no taxes. Cameras that are there already are not bought again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "services/network.h"
#include "services/power.h"

namespace belvedere::services {

// Of each type of cable, on top of what is laid: offcuts and what is left on the drum [practice, no
// source].
inline constexpr double kCableWaste = 0.1;

struct BillLine {
  std::string part;                 // "camera", "mount", "cable", "switch", ...
  design::ModelId model;            // empty: a cable that is not chosen
  std::string title, maker;
  double quantity = 0;              // pieces; of a cable metres, waste counted, rounded up
  bool metres = false;
  double laid_m = 0;                // of a cable: before waste
  int lengths_unknown = 0;          // of a cable: links of it that have no length
  std::vector<std::string> of;      // housings, devices and links, in the order of the file
  std::optional<double> price, amount;  // of one, or of a metre; of all
};

struct Bill {
  std::vector<BillLine> lines;      // by part, then in the order of their first use
  std::string money;                // ISO 4217; empty: the design names none
  double total = 0;                 // of what has a price
  int unpriced = 0;                 // lines without one
  int lengths_unknown = 0;          // links whose cable is not, or not wholly, in the total
  int already_there = 0;            // cameras
  // Is the total all that is to be paid for the material?
  bool complete() const { return unpriced == 0 && lengths_unknown == 0; }
};
Bill billOf(const design::Design& design, const Network& network);

// A limit of the brief (kind money) against the bill.
struct MoneyCheck {
  design::RequirementId requirement;
  double most = 0;
  std::optional<bool> met;          // nothing: what has a price keeps within it, and not all has
};
std::vector<MoneyCheck> moneyChecks(const design::Design& design, const Bill& bill);

// What the sources take in a year, kWh: half of it day, half night [practice, no source]; low: no
// heater ever burns, high: every night. Switches', injectors', supplies' and recorders' own draw is
// counted where stated (`unstated`: those of which it is not).
struct Energy {
  double low_kwh = 0, high_kwh = 0;
  std::vector<design::DeviceId> unstated;
};
Energy energyOf(const design::Design& design, const Power& power);

}  // namespace belvedere::services
