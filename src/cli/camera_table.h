// SPDX-License-Identifier: GPL-3.0-or-later
//
// The cameras as they hang, in both frames: the designer thinks in the site's (bearing on the
// drawing, tilt below the horizontal), the fitter turns the housing's.
#pragma once

#include <optional>
#include <string>

#include "cli/answer.h"
#include "design/design.h"
#include "design/resolve.h"

namespace belvedere::cli {

// Of the lens above the floor under its housing, m; nothing where nothing is known to lie there.
std::optional<double> heightAboveFloorM(const design::Design& design, const design::PosedImager& posed);

std::string cameraTable(const design::Design& design);
Json cameraJson(const design::Design& design);

}  // namespace belvedere::cli
