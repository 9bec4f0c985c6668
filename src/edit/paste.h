// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pasting: objects of one design (or of an earlier state of this one) put into another.
#pragma once

#include "edit/transform.h"

namespace belvedere::edit {

// Copies of a selection of `from`, moved by site metres, in `into` under ids of its own. What names
// a storey that is not copied along goes to `storey`, at the same height above its floor; walls
// too. Openings need their wall, a storey its building, in `into`. Models that `into` lacks come
// along into its own catalogue, materials likewise; what else is missing is unlinked. Throws
// InputError where what comes out could not be read back (see shapes.h), or there is no place for
// it (no_place_to_paste).
Copied pasted(const design::Design& into, const design::StoreyId& storey,
              const design::Design& from, const Selection& selection, Vec2 by);

}  // namespace belvedere::edit
