// SPDX-License-Identifier: GPL-3.0-or-later
//
// Light that is enough and still shows nobody: zones of which one end is far lighter than the other, and
// people with the light behind them. Findings of prove; each code has its entry in docs/findings.md.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "base/finding.h"
#include "base/progress.h"
#include "design/design.h"
#include "light/illuminance.h"
#include "proof/judge.h"

namespace belvedere::proof {

// How evenly luminaires and surroundings light a zone's floor (horizontal): least and most of a lattice, of the
// zone's edge and of what lies straight below the luminaires; the mean of the lattice. Nothing for an empty region.
struct ZoneEvenness : light::Evenness {
  Vec2 least_at, most_at;  // site
};
std::optional<ZoneEvenness> evennessOver(const Region& region, const scene::Floor& floor,
                                            const light::SituationLight& light,
                                            const light::Solids& solids);

// Codes light_uneven (over 8:1, UFC 4-021-02NF table 4-3, on the floor of a zone where something has to be seen)
// and lit_from_behind (what lights an upright target's far side is over 8 times what lights the side to the lens,
// at spots that the imager serves; lamps that burn for it count on the side to the lens as the lux that would do as
// much).
std::vector<Finding> unevenFindings(const design::Design& design, const design::Situation& situation,
                                    std::shared_ptr<const Place> place, std::shared_ptr<const Lighting> lighting,
                                    const Progress& progress);

}  // namespace belvedere::proof
