// SPDX-License-Identifier: GPL-3.0-or-later
//
// Moving, turning, mirroring, copying. All of a selection at once, each thing once; the order of
// the selection does not matter. Points and vectors are site metres, angles clockwise.
//
// What goes along: with a building all its storeys, with a storey its slab, its walls and all that
// names it or hangs over its slab at its height; zones with the solid on whose top their targets
// stand; housings with what they are fixed on (mount.on). An imager (a slot) stands for its
// housing.
//
// An opening picked without its wall slides along the wall, by as much of the movement as lies
// along it, and never turns. A housing turns with its aims: in its own frame nothing changes.
// Heights stay.
//
// Throws InputError where what comes out could not be read back (see shapes.h): a zone that leaves
// its slab, an opening past its wall's end.
#pragma once

#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

design::Design moved(const design::Design& design, const Selection& selection, Vec2 by);
design::Design turned(const design::Design& design, const Selection& selection, Vec2 about,
                      double clockwise_deg);
// Mirrored across the line through two points. A housing's base bearing, aims, masks and crops are
// mirrored; the housing itself is not a mirror image, so an aim may come to lie outside its model's
// limits (aim_outside_limits). A mesh is placed and turned as its mirror image would be, its shape
// stays. Throws mirror_of_drawing for an underlay, zero_length where the points are the same.
design::Design mirrored(const design::Design& design, const Selection& selection, Vec2 a, Vec2 b);

// Copies have new ids, also their openings and streams; with a building or a storey goes what
// stands on it, but nothing else goes along. Copies name each other where their originals did, hold
// in the same situations, and are not `existing`. Requirements, services and tests are not copied.
struct Copied {
  design::Design design;
  Selection copies;  // copy by copy in the order of the selection: what to select next
};
Copied copied(const design::Design& design, const Selection& selection, Vec2 by);
// Columns x rows, the original being one of them. Throws array_size where there would be none, or
// more than kMostCopies new objects.
Copied arrayed(const design::Design& design, const Selection& selection, int columns, int rows,
               Vec2 column_step, Vec2 row_step);
// As many as fit along a line at a pitch, the original standing for the first; each turned with the
// line about its own place if `turning`.
Copied arrayedAlong(const design::Design& design, const Selection& selection,
                    const std::vector<Vec2>& path, double pitch_m, bool turning);
inline constexpr int kMostCopies = 10'000;

// The middle of a selection's extent: to turn about.
Vec2 middleOf(const design::Design& design, const Selection& selection);

}  // namespace belvedere::edit
