// SPDX-License-Identifier: GPL-3.0-or-later
//
// For those who ask many questions in one situation: what all of them share is made once. (Imagers meter the
// light of luminaires by rays, which takes as long as many a proof.)
#pragma once

#include <memory>

#include "proof/judge.h"

namespace belvedere::proof {

// makeQuestion of judge.h, of kind see.
//   lighting  makeLighting of this design and situation, in this place
Question makeQuestion(const design::Design& design, const design::Requirement& requirement,
                      const design::Situation& situation, std::shared_ptr<const Place> place,
                      std::shared_ptr<const Lighting> lighting);

}  // namespace belvedere::proof
