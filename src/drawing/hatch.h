// SPDX-License-Identifier: GPL-3.0-or-later
//
// Hatches as plain strokes and dots that end at a region's edge, so that no painter needs to clip
// (SVG stays small and prints alike everywhere). Paper coordinates, mm; anchored to the paper, so
// that neighbouring regions' hatches run on.
#pragma once

#include <vector>

#include "drawing/contours.h"
#include "geometry/polygon.h"

namespace belvedere::drawing {

struct Segment {
  Vec2 a, b;
};

// Strokes at angle_deg (anticlockwise from x, y as in the region) inside the region, spacing_mm
// apart. With dash_mm > 0 strokes of that length, gap_mm apart, those of every second row shifted.
std::vector<Segment> hatchStrokes(const Region& region, double angle_deg, double spacing_mm,
                                  double dash_mm = 0, double gap_mm = 0);
// Dots in staggered rows.
std::vector<Vec2> hatchDots(const Region& region, double spacing_mm);

// The parts of a line that lie inside the region, in order.
std::vector<std::vector<Vec2>> partsInside(const Line& line, const Region& region);

}  // namespace belvedere::drawing
