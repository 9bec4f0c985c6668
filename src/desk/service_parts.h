// SPDX-License-Identifier: GPL-3.0-or-later
//
// The stage Services: tables beside the plan, and the catalogue.
#pragma once

namespace belvedere::desk {

class Drawer;
class MainWindow;

void makeServiceParts(MainWindow& window, Drawer& drawer);

}  // namespace belvedere::desk
