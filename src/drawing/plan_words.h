// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words on a plan: how large they are, where they find room, and what plan.cpp and plan_marks.cpp
// share. Paper: mm, x right, y down.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/sheet_parts.h"

namespace belvedere::drawing {

struct Words {
  std::vector<std::string> lines;
  Rgb colour;
  std::size_t bold = 0;  // so many first lines
};
Vec2 sizeOf(const Canvas& canvas, const Words& words);
// Writes words into a box on paper of their own.
void write(Canvas& canvas, const Inks& inks, const Box2& box, const Words& words);

Box2 boxAt(Vec2 low, Vec2 size);
Box2 grownBox(Box2 box, double by);
// The place with the least that is against it; places outside `within` count as taken.
Box2 choose(const std::vector<Vec2>& lows, Vec2 size, const Box2& within, const Taken& taken,
            const std::function<double(const Box2&)>& against);
bool holds(const Region& region, const Box2& box);
// Area that two boxes share, mm2.
double overlapOf(const Box2& a, const Box2& b);
// Words keep off zones smaller than that: they would hide what they stand by.
inline constexpr double kSmallZoneMm2 = 900;
Vec2 nearestIn(const Box2& box, Vec2 p);
// Words farther than that from what they name get a thread to it.
inline constexpr double kApartMm = 3;

// Requirements that the sheet shows and that are not met, where they have a worst spot on the plan;
// and the selected one that withholds its zone, whose worst spot is the one seen most densely.
std::vector<const proof::RequirementProof*> worstOf(const Sheet& sheet, const Layout& layout);
Vec2 worstAt(const proof::RequirementProof& row);
// What imagers serve, and then their names in it.
void paintOutlines(Canvas& canvas, const Sheet& sheet, const Layout& layout, Occurs& occurs);
void nameOutlines(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken);

}  // namespace belvedere::drawing
