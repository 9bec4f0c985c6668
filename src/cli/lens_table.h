// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lenses that data sheets were fitted to: focal length and family parameter of each end of the
// zoom, and by how much each stated field of view is missed.
#pragma once

#include <string>

#include "cli/answer.h"
#include "optics/lens_fit.h"

namespace belvedere::cli {

// Of the imagers that the design's housings use, a row for each end, in the order of the file.
// A calibrated lens is not fitted and has no row. "" where there is none.
std::string lensTable(const design::Design& design);
Json lensJson(const design::Design& design);
// {"hfov", "vfov", "dfov"} in degrees, null for a field that is not stated.
Json residualJson(const optics::FieldOfView& residual_deg);

}  // namespace belvedere::cli
