// SPDX-License-Identifier: GPL-3.0-or-later
//
// Spots: the judge asked at lattice points, exactly, in doubles. For reasons, contributions,
// worst spots and drawings; a lattice proves nothing about the ground between its points.
// preview.h is the fast one for whoever is dragging.
#pragma once

#include "base/progress.h"
#include "proof/judge.h"
#include "proof/proof.h"

namespace belvedere::proof {

// `cell_m`: spacing; made wider where the zone would have more than `spots_most` spots.
SpotMap spotMap(const Question& question, double cell_m, std::size_t spots_most,
                const Progress& progress);

// Fills reasons, contributions and worst spot of a requirement's proof from its spots.
void summariseSpots(const Question& question, double cell_m, std::size_t spots_most,
                    RequirementProof& into, const Progress& progress);

}  // namespace belvedere::proof
