// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lights of a situation once some housings are changed, without metering anew: for searches that
// vary one housing many times.
#pragma once

#include "light/lighting.h"

namespace belvedere::light {

// Lamps, modes and what burns are anew those of the housings that `changed` holds (one that is not there
// yet is added); all else, and what imagers meet, stays as it was.
Lighting relit(const Lighting& lighting, const design::Design& changed,
               const DayNightSwitch& levels = {});

}  // namespace belvedere::light
