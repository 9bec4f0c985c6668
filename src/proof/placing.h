// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where cameras hang, and whether that can be meant: lenses within bodies, fixing points off what
// they hang on, cameras and outlines far from everything else (millimetres written as metres).
#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "base/finding.h"
#include "design/design.h"

namespace belvedere::proof {

// Site z of the floor over which a housing hangs: of the storey it names, else of the storey of
// what it is mounted on, else the highest floor at or below its fixing point (of a building around it,
// where there is one). Nothing for a site without storeys, or below them all.
std::optional<double> floorUnder(const design::Design& design, const design::Housing& housing);

// Codes lens_inside_solid (in the first situation in which it is so), fixing_off_mounting,
// lens_far_from_site and outline_far_from_site. `folder`: where attachments lie. Throws InputError
// for attachments that cannot be used.
std::vector<Finding> placingFindings(const design::Design& design,
                                     const std::filesystem::path& folder);

}  // namespace belvedere::proof
