// SPDX-License-Identifier: GPL-3.0-or-later
//
// A whole housing photographed and unrolled: its imagers in ring order, put together as panorama.h says.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "design/resolve.h"
#include "picture/panorama.h"
#include "picture/studio.h"

namespace belvedere::picture {

// Its imagers by the bearing of their axes, clockwise, beginning after the widest gap (of equals, from north
// on), so that neighbours stay neighbours; none where none looks anywhere.
std::vector<const design::PosedImager*> ringOf(const design::HousingId& housing,
                                               const std::vector<design::PosedImager>& imagers);
Panorama panoramaOf(const std::vector<const design::PosedImager*>& ring);

// Exposed as the imagers are: where some take less light than others, as those that take least.
//   ring     at least one, of panoramaOf
//   options  what stands in an imager's picture; its size is chosen here
//   told     of each photograph as it is taken; may be empty
//   throws   Cancelled
Developed shootUnrolled(
    const Studio& studio, const Panorama& panorama, const std::vector<const design::PosedImager*>& ring,
    const std::function<PhotoOptions(const design::PosedImager&)>& options,
    const std::function<void(const design::PosedImager&, const Shot&)>& told, const Progress& progress);

}  // namespace belvedere::picture
