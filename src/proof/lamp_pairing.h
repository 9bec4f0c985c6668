// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which lamp of a housing is to follow which of its imagers, so that the brief holds in a situation:
// every pairing is tried on the brief itself (light/pairing.h), by previews on one lattice. What it
// proposes is a proposal: prove the design with it.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "design/design.h"

namespace belvedere::proof {

struct LampPairing {
  design::HousingId housing;
  design::SituationId situation;
  std::vector<design::HousingLamp> lamps;        // as they had best be set
  std::vector<int> without;                      // imager slots that no lamp follows
  std::vector<design::RequirementId> held, short_of;  // of those that the situation asks for
  std::size_t held_as_written = 0;               // how many hold with the lamps as they are set
  std::size_t tried = 0;                         // pairings
  bool model_runs_together = false;              // the model says so of its lamps: ask the maker first
};
// Most requirements held first, then the greatest sum of their shares (each counted up to what is
// asked), then the lamps whose beams fill the pictures of those they follow best. Nothing where the
// housing has no lamps or no imager in mono there, or where there are more than kPairingsMost pairings.
std::optional<LampPairing> bestLamps(const design::Design& design, const design::Housing& housing,
                                     const design::Situation& situation,
                                     const std::filesystem::path& folder, const Progress& progress);
inline constexpr double kPairingsMost = 2000;

}  // namespace belvedere::proof
