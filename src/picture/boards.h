// SPDX-License-Identifier: GPL-3.0-or-later
//
// Flat things to hold before an imager: a number plate of a pattern of our own, and a test chart.
#pragma once

#include <cstdint>
#include <span>

#include "geometry/vec.h"
#include "picture/paint.h"
#include "scene/scene.h"

namespace belvedere::picture {

enum class Pattern : std::uint8_t { plate, chart };

struct Board {
  Pattern pattern = Pattern::plate;
  Vec3 middle_m;          // site
  double facing_deg = 0;  // bearing in which its front looks
  Vec2 moves_mps{};       // while the picture is taken
  bool operator==(const Board&) const = default;
};

// Plate: 0.52 x 0.11 m, the size of a European single-line plate (Vienna Convention plates vary;
// common practice, no source). Chart: 0.4 x 0.4 m.
Vec2 boardSizeM(Pattern pattern);
inline constexpr double kBoardThickM = 0.004;

// A scene of boards alone; source i is board i, of one body each.
scene::Scene boardScene(std::span<const Board> boards);

// Linear share of the light thrown back by the front, at a place of it in metres: right of and over
// its middle, as one sees it.
//
// The chart: bars in groups for 125, 250, 500, 1000 and 2000 px/m, each as wide as one pixel of a
// picture of that density, upright and level; a star of 36 rays; grey steps; a frame.
Colour boardAlbedo(Pattern pattern, Vec2 at_m);

}  // namespace belvedere::picture
