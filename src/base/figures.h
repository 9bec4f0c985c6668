// SPDX-License-Identifier: GPL-3.0-or-later
//
// Figures as people read them beside a limit: "30.04 deg where at most 30 is allowed", never
// "30.0 where at most 30".
#pragma once

#include <string>

namespace belvedere {

enum class Rounded { nearest, down, up };  // bounds are said outwards: low down, high up

// `found` with that many decimals, or as many more (at most six) as tell it from `limit`. Equal
// only where it is equal (to a billionth). Never "-0.0".
std::string figureBeside(double found, double limit, int decimals,
                         Rounded rounded = Rounded::nearest);

}  // namespace belvedere
