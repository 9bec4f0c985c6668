// SPDX-License-Identifier: GPL-3.0-or-later
//
// Figures as people of the trade say them: F-numbers, exposures, clock times.
#pragma once

#include <string>

#include "base/figures.h"

namespace belvedere {

// "f/1.7", "f/11": two digits that count.
std::string fNumberText(double f_number);

// "1/50 s" where a whole share of a second says it to 2 %, else "286 ms"; from half a second on
// "0.6 s". Rounded::down: no longer than it is, below half a second (for the longest exposure that
// something allows).
std::string exposureText(double seconds, Rounded rounded = Rounded::nearest);

// "07:30" of 7.5 hours since midnight, to the minute.
std::string clockText(double hours);

}  // namespace belvedere
