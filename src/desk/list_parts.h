// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lists of objects, findings and alternatives, in the drawer at the right of the sheet.
#pragma once

namespace belvedere::desk {

class MainWindow;

void makeListParts(MainWindow& window);

}  // namespace belvedere::desk
