// SPDX-License-Identifier: GPL-3.0-or-later
//
// What may be proposed: nobody is told to turn an imager further than it goes.
#pragma once

#include "design/design.h"

namespace belvedere::proof {

// May the housing, one of the design's or a changed copy of one, be set as it is: slots, aims and
// zooms within its model's limits as mounted, neighbours on a ring apart? The reader's own check.
bool withinLimits(const design::Design& design, const design::Housing& housing);

}  // namespace belvedere::proof
