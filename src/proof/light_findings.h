// SPDX-License-Identifier: GPL-3.0-or-later
//
// What has to be said of light, lamps and sharpness in a design's situations: findings about values
// that light/ and conditions.h compute; each code has its entry in docs/findings.md.
#pragma once

#include <filesystem>
#include <vector>

#include "base/finding.h"
#include "base/progress.h"
#include "design/design.h"

namespace belvedere::proof {

// Codes light_not_judged, light_unstated, imager_without_lamp, lamp_in_frame, lamp_near_surface,
// lamp_mirrored, lamp_in_cover, cover_veil, lamp_behind_glass, eye_exposure, motion_blur, mains_flicker,
// diffraction_limit, aperture_too_wide, aperture_unstated, infrared_focus: each is said once, for the first situation in which it is so, of
// what hangs on where an imager looks in each of its aims.
//   only  this situation, where one is named
// Throws InputError for attachments that cannot be used.
std::vector<Finding> lightFindings(const design::Design& design, const std::filesystem::path& folder,
                                   const Progress& progress, const design::SituationId& only = {});

}  // namespace belvedere::proof
