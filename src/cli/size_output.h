// SPDX-License-Identifier: GPL-3.0-or-later
//
// What `belvedere size` prints (failures_output.h aside): text within the page, and the JSON object belvedere.size.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "services/size.h"

namespace belvedere::cli {

// proven: coverage was proven, so that `seen.served` says who serves what.
std::string sizeText(const Loaded& loaded, const services::Sizes& sizes,
                         const services::Seen& seen, const std::vector<Finding>& findings,
                         bool proven);
// What goes at the end of every such text.
std::string cautionText();
Json sizeJson(const Loaded& loaded, const services::Sizes& sizes, const services::Seen& seen,
                  const std::vector<Finding>& findings);

}  // namespace belvedere::cli
