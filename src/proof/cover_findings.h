// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the cover of a housing (dome, bubble) does to a lamp beneath it: findings about mirror places
// that light/side_effects.h computes, with the least turn that keeps them out of the picture.
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "base/progress.h"
#include "design/design.h"
#include "design/resolve.h"
#include "light/lamps.h"
#include "proof/least_turn.h"

namespace belvedere::proof {

// Code cover_veil: of every model with a lamp in use beneath its cover, once.
std::vector<Finding> coverVeils(const design::Design& design);

// Code lamp_in_cover: of the lamps given (those that burn), as the views given see them: every aim of an
// imager by itself. Of a turn neither the situation nor which lamp is asked about decides, but what burns
// in the housing and where the view looks.
std::vector<Finding> mirroredInCovers(const design::Design& design,
                                      const design::Situation& situation,
                                      const std::vector<light::Lamp>& lamps,
                                      const std::vector<design::PosedImager>& seen_by,
                                      LeastTurns& turns, const Progress& progress);

}  // namespace belvedere::proof
