// SPDX-License-Identifier: GPL-3.0-or-later
//
// What people expect of any program: files of lately, dropping a file on the window, units, theme,
// commands by typing, shortcuts, help, a first page. Made last: it knows all commands.
#pragma once

namespace belvedere::desk {

class MainWindow;

void makeHabitParts(MainWindow& window);

}  // namespace belvedere::desk
