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

std::string ringText(const std::vector<proof::RingAt>& rings);
Json ringJson(const std::vector<proof::RingAt>& rings);

}  // namespace belvedere::cli
