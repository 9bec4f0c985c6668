// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where a model's figures contradict each other in the ways in which data sheets do, and which of
// them the program goes by.
#pragma once

#include <span>
#include <vector>

#include "base/finding.h"
#include "design/design.h"

namespace belvedere::services {

// Fields of view against one lens, focal length against field of view, class against draw, start
// against rest, voltages out of order, protection codes that leave out jets. Models that cannot be
// resolved have been refused by the reader.
std::vector<Finding> sheetFindings(std::span<const design::Model> models);

// Below these nobody could tell by looking.
inline constexpr double kFieldMissDeg = 0.1;
inline constexpr double kFocalMissShare = 0.03;

}  // namespace belvedere::services
