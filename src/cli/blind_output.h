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
Json blindJson(const std::vector<proof::BlindZone>& zones);

// A line a housing: gaps at the least depression, at the greatest at which it sees anything, and from
// where on it sees nothing all round.
std::string ringSummary(const std::vector<proof::RingAt>& rings);
// A line a housing and depression, overlaps too.
std::string ringText(const std::vector<proof::RingAt>& rings);
Json ringJson(const std::vector<proof::RingAt>& rings);

}  // namespace belvedere::cli
