// SPDX-License-Identifier: GPL-3.0-or-later
//
// What keeps work safe, put into the window: the journal, the question of other programs' changes,
// and the offer of what a crash left.
#pragma once

namespace belvedere::desk {

class MainWindow;

void makeSafetyParts(MainWindow& window);
// At the program's start: asks about each design that a process which is gone left unsaved.
void offerLeftWork(MainWindow& window);

}  // namespace belvedere::desk
