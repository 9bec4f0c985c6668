// SPDX-License-Identifier: GPL-3.0-or-later
//
// Blind zones and rings, as prove and blind both print them.
#pragma once

#include <string>
#include <vector>

#include "cli/answer.h"
#include "proof/proof.h"

namespace belvedere::cli {

// One row an imager or housing, one column a target height.
std::string blindTable(const std::vector<proof::BlindZone>& zones);
// A row an imager: how far from the point below its lens, along its axis on a level floor, a target
// of each height comes into the frame at its middle column; walls are not asked.
std::string blindDistances(const design::Design& design, const std::vector<std::string>& cameras,
                           const std::vector<double>& heights_m);
Json blindJson(const std::vector<proof::BlindZone>& zones);

// A line a housing: gaps at the least depression, at the greatest at which it sees anything, and from
// where on it sees nothing all round.
std::string ringSummary(const std::vector<proof::RingAt>& rings);
// A line a housing and depression, overlaps too.
std::string ringText(const std::vector<proof::RingAt>& rings);
// Of housings with one imager: what it sees.
std::string singlesText(const std::vector<proof::RingAt>& rings);
Json ringJson(const std::vector<proof::RingAt>& rings);

}  // namespace belvedere::cli
