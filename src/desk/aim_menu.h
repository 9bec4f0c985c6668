// SPDX-License-Identifier: GPL-3.0-or-later
//
// The menu "Aim": several imagers turned together, patterns copied, bases turned, models swapped,
// lives set. Each command says in a sentence what it lacks (a selection, a zone) instead of being
// greyed without a reason.
#pragma once

namespace belvedere::desk {

class MainWindow;

void addAimMenu(MainWindow& window);

}  // namespace belvedere::desk
