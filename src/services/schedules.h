// SPDX-License-Identifier: GPL-3.0-or-later
//
// Schedules: what fitters, network and electrical people, and the buyer take with them, as tables of
// plain cells. workbook.h writes them.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "design/design.h"
#include "services/size.h"

namespace belvedere::services {

using ScheduleCell = std::variant<std::monostate, double, std::string>;
struct ScheduleColumn {
  std::string title;  // with its unit
  int decimals = -1;  // of its numbers; -1: text
};
struct Schedule {
  std::string name;   // "cameras": of the file and, with a capital, of the sheet
  std::vector<ScheduleColumn> columns;
  std::vector<std::vector<ScheduleCell>> rows;
};

// Addresses by a rule: from this network, in the order of the design, devices before cameras, from its
// second host on (the first is left to the router).
struct AddressRule {
  std::uint32_t network = 0;  // its first address
  int length = 24;            // of the prefix, 8 to 30
};
// Of "10.20.0.0/24"; nothing where it is none, or where bits behind the prefix are set.
std::optional<AddressRule> addressRuleOf(std::string_view text);

// What has an address: cameras, switches, recorders and viewers.
struct Address {
  std::string id;
  std::string text;           // empty: none
  bool stated = false;        // the device's setting "address" gives it; else the rule
};
// Throws InputError (network_too_small) where the rule's network has too few.
std::vector<Address> addressesOf(const design::Design& design,
                                 const std::optional<AddressRule>& rule);

// Cameras (a row an imager and aim), cables (a row a link), addresses, bill: in this order.
std::vector<Schedule> schedulesOf(const design::Design& design, const Sizes& sizes,
                                  const std::optional<AddressRule>& rule);

}  // namespace belvedere::services
