// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/time_zone.h"

#include <date/tz.h>

#include <stdexcept>

namespace belvedere::light {

std::optional<double> standardOffsetH(const std::string& zone, int year) {
  if (zone.empty()) return {};
  try {
    const date::time_zone* known = date::locate_zone(zone);
    // Half a year apart: summer time holds at one of the two at most. Where it holds at both (a zone
    // that keeps it for the year), the first is the clock that people have.
    std::optional<double> first;
    for (const date::month month : {date::January, date::July}) {
      const date::sys_info info =
          known->get_info(date::sys_days{date::year{year} / month / 1});
      const double offset_h = static_cast<double>(info.offset.count()) / 3600;
      if (info.save == std::chrono::minutes{0}) return offset_h;
      if (!first) first = offset_h;
    }
    return first;
  } catch (const std::runtime_error&) {  // no such zone, or no database on this machine
    return {};
  }
}

}  // namespace belvedere::light
