// SPDX-License-Identifier: GPL-3.0-or-later
//
// From a figure or a finding to what it came from.
#pragma once

#include <string>
#include <vector>

#include "desk/workspace.h"

namespace belvedere::desk {

class SheetView;

// Of these ids, the first requirement is opened, and the first that is a thing on the plan is
// selected and shown; a link leads to what hangs at its end, a stream to its camera.
void goTo(Workspace& workspace, SheetView& sheet, const std::vector<std::string>& about);

// What of these ids are things on the plan is selected, all of it; where none of them is on the
// shown storey, the first is gone to.
void showOnPlan(Workspace& workspace, SheetView& sheet, const std::vector<std::string>& ids);

}  // namespace belvedere::desk
