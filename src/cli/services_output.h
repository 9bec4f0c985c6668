// SPDX-License-Identifier: GPL-3.0-or-later
//
// What `belvedere services` prints: text within the page, and the JSON object belvedere.services.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "services/size.h"

namespace belvedere::cli {

// proven: coverage was proven, so that `seen.served` says who serves what.
std::string servicesText(const Loaded& loaded, const services::Sizes& sizes,
                         const services::Seen& seen, const std::vector<Finding>& findings,
                         bool proven);
Json servicesJson(const Loaded& loaded, const services::Sizes& sizes, const services::Seen& seen,
                  const std::vector<Finding>& findings);

}  // namespace belvedere::cli
