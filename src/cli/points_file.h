// SPDX-License-Identifier: GPL-3.0-or-later
//
// The file of `explain --points`: a JSON list of {"requirement", "at": [x, y], "situation"}, where
// the situation may be left out: then it is the first in which the requirement must hold.
#pragma once

#include <string>
#include <vector>

#include "design/design.h"

namespace belvedere::cli {

struct AskedPoint {
  const design::Requirement* requirement = nullptr;  // of the design that was given
  design::Situation situation;
  Vec2 at;
};

// Throws InputError with all problems of the file.
std::vector<AskedPoint> readPoints(const design::Design& design, const std::string& file);

}  // namespace belvedere::cli
