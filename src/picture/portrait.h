// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a figure wears and looks like: a drawn face, nobody's; clothes and hair that differ from one
// figure to the next.
#pragma once

#include <cstdint>

#include "picture/figures.h"
#include "picture/paint.h"

namespace belvedere::picture {

// Linear share of the light thrown back at a place in a figure's own frame (figures.h).
//   seed  tells one figure from the next
Colour figureAlbedo(const FigureBody& body, const Vec3& at_in_figure, std::uint32_t seed);

}  // namespace belvedere::picture
