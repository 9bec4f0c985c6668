// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is done to whole housings: an aim pattern copied, a model swapped, a life set. `says` has a
// sentence for everything that could not stay or go over as it was, in the order of the file.
#pragma once

#include <string>
#include <vector>

#include "design/design.h"

namespace belvedere::edit {

struct Changed {
  design::Design design;
  std::vector<std::string> says;
};

// The aims of one housing given to others: pan, tilt and roll as they stand to the base (so that a
// housing on another wall looks as the first does from its own), zoom by field of view. Imagers go
// by slot; slots that a model lacks are said, and so is what a limit held. Imagers that the first
// does not use stay.
Changed copyPattern(const design::Design& design, const design::HousingId& from,
                    const std::vector<design::HousingId>& to);

// Another model for every housing of one that is not removed, or for one housing. Imagers go by
// slot and keep their aims within the new limits, zoom by what they state. Imagers and lamps of
// slots that are gone go, and so does all that hangs on those imagers or speaks of them, as when they
// are erased (erase.h); evidence of an imager is then of its housing, which stays though it has no
// imager left. Streams larger than the new picture shrink in their own shape; margins too.
Changed swapModel(const design::Design& design, const design::ModelId& from,
                  const design::ModelId& to);
Changed swapModel(const design::Design& design, const design::HousingId& housing,
                  const design::ModelId& to);

design::Design withLife(const design::Design& design,
                        const std::vector<design::HousingId>& housings, design::Life life);

// What a lamp of a housing follows; the others stay as they are set. No such housing or lamp of its
// model: as it was.
design::Design withLamp(const design::Design& design, const design::HousingId& housing,
                        const design::HousingLamp& lamp);

}  // namespace belvedere::edit
