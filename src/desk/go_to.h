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

}  // namespace belvedere::desk
