// SPDX-License-Identifier: GPL-3.0-or-later
//
// How an imager's lens is set at an aim: aperture, focal length and pixel pitch, on which sharpness
// and exposure hang. The lens's geometry at its zoom is resolve.h's.
#pragma once

#include <optional>

#include "design/design.h"
#include "optics/lens.h"
#include "optics/sharpness.h"

namespace belvedere::design {

// Aperture at an aim's zoom, wide open: a varifocal lens that states two is taken to run linearly in focal
// length between them (an approximation). Nothing where none is stated.
std::optional<double> fNumberAt(const ModelImager& imager, const Aim& aim);
// Focal length, aperture and pixel pitch at an aim's zoom; the focal length is the stated one, else
// the lens's scale times the pitch. Nothing where one of the three cannot be told.
std::optional<optics::Focus> focusAt(const ModelImager& imager, const Aim& aim);
// Both where the lens at its zoom is known already.
//   zoom_share  0 at its wide end, 1 at its tele end
//   stopped_to  F-number to which the lens is stopped down; never less than the widest, where that is known
std::optional<double> fNumberOf(const ModelImager& imager, double zoom_share,
                                std::optional<double> stopped_to = {});
// The widest that the lens is known to open: as stated, else the aperture through which its least light
// was measured.
std::optional<double> widestFNumber(const ModelImager& imager, double zoom_share);
std::optional<optics::Focus> focusOf(const ModelImager& imager, const optics::Lens& lens,
                                     double zoom_share, std::optional<double> stopped_to = {});

}  // namespace belvedere::design
