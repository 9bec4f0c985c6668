// SPDX-License-Identifier: GPL-3.0-or-later
//
// The drawing board: the line at the sheet's foot, the tools with their keys, editing, drawings
// below the plan. Made once; knows the window.
#pragma once

namespace belvedere::desk {

class MainWindow;

void makeDrawParts(MainWindow& window);

}  // namespace belvedere::desk
