// SPDX-License-Identifier: GPL-3.0-or-later
//
// What belongs to aiming: outline, numbers, folded section, prints, the view from outside and the
// menu. Made once, as long as the sheet is there.
#pragma once

namespace belvedere::desk {

class MainWindow;

void makeAimParts(MainWindow& window);

}  // namespace belvedere::desk
