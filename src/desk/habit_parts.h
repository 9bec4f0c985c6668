// SPDX-License-Identifier: GPL-3.0-or-later
//
// What people expect of any program: files of lately, dropping a file on the window, units, theme,
// commands by typing, shortcuts, help, a first page. Made last: it knows all commands.
#pragma once

namespace belvedere::desk {

class MainWindow;

void makeHabitParts(MainWindow& window);
// Shows it where it was left; the first time over the whole of a screen that is not much larger than
// it, so that nothing of it stands outside.
void showWindow(MainWindow& window);

}  // namespace belvedere::desk
