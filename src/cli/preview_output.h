// SPDX-License-Identifier: GPL-3.0-or-later
//
// Previews as text for people and as the object "belvedere.preview" (docs/json.md). Both say that
// they are no proof.
#pragma once

#include <string>
#include <vector>

#include "cli/answer.h"
#include "proof/preview.h"

namespace belvedere::cli {

std::string previewText(const Loaded& loaded, const std::vector<proof::Preview>& previews,
                        double budget_ms);
// One line a requirement and situation.
std::string previewLines(const std::vector<proof::Preview>& previews);
Json previewJson(const Loaded& loaded, const std::vector<proof::Preview>& previews,
                 double budget_ms);

}  // namespace belvedere::cli
