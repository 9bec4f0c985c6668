// SPDX-License-Identifier: GPL-3.0-or-later
//
// From an older version of the format to the current one, on the tree as written, before any
// field is read. A step turns version N into N + 1 and knows nothing of the structs, which go on
// changing: it renames, moves and converts keys. To raise the version: raise kDesignVersion in
// fields.h, add the step below, and keep a design of the old version in tests/design/versions/.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "design/json_tree.h"

namespace belvedere::design {

struct MigrationStep {
  int from = 0;           // the version that it takes; it gives from + 1
  std::string_view says;  // what it does, for docs/format.md
  void (*apply)(Json& root);
};

// The steps of the design's format, oldest first. Version 1 is the first: there are none yet.
std::span<const MigrationStep> designSteps();

// Takes `root` from version `from` to version `to` and writes the version into it. False, and
// nothing is changed, when a step is missing.
bool migrate(Json& root, int from, int to, std::span<const MigrationStep> steps);

}  // namespace belvedere::design
