// SPDX-License-Identifier: GPL-3.0-or-later
//
// From a design and its proof to a sheet that shows all that it can: what each zone of the storey
// shows, spots as fine as the paper, outlines of the imagers, blind zones.
#pragma once

#include <memory>
#include <vector>

#include "base/progress.h"
#include "drawing/sheet.h"
#include "proof/judge.h"

namespace belvedere::drawing {

// What each zone of the sheet's storey shows in its situation: the selected requirement, or the
// first that asks to see. Pointers into sheet.design.
std::vector<const design::Requirement*> shownOn(const Sheet& sheet);

// Of those shown, the one for whose target light is counted: the selected, or that of the largest zone.
// Null where none is shown.
const design::Requirement* lightCountsFor(const design::Design& design,
                                          const std::vector<const design::Requirement*>& shown,
                                          const design::RequirementId& selected);

// Fills maps, outlines, blind zones and the night of the sheet, whose design, imagers, proof, storey, situation
// and selection are set, for that paper. `place`: of the situation. Throws Cancelled.
void takeSpots(Sheet& sheet, const std::shared_ptr<const proof::Place>& place,
               const Progress& progress, double width_mm = kA3WidthMm,
               double height_mm = kA3HeightMm);

}  // namespace belvedere::drawing
