// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a new design begins with: nothing drawn, and a small catalogue of an invented maker so that
// a first housing can be put up before anybody's data sheets are in. Its models are the design's
// own: to be kept, changed or erased.
#pragma once

#include <filesystem>

#include "design/design.h"

namespace belvedere::desk {

class MainWindow;

design::Design newDesign();
// The models of a catalogue file that the design has none of the same id of become its own. What is
// wrong with the file is shown.
void takeModels(MainWindow& window, const std::filesystem::path& path);
// The commands "file.new" and "file.models".
void addNewDesign(MainWindow& window);

}  // namespace belvedere::desk
