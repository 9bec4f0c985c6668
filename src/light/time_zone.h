// SPDX-License-Identifier: GPL-3.0-or-later
//
// Standard time of a named time zone.
#pragma once

#include <optional>
#include <string>

namespace belvedere::light {

// Hours by which the clocks of `zone` ("Europe/Berlin") are ahead of UTC in `year` outside summer
// time, by the machine's copy of the IANA time zone database; nothing where that does not know it.
std::optional<double> standardOffsetH(const std::string& zone, int year);

}  // namespace belvedere::light
