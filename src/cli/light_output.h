// SPDX-License-Identifier: GPL-3.0-or-later
//
// The answer of `belvedere light`, as text and as JSON (docs/json.md).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "light/sun.h"
#include "proof/lamp_pairing.h"
#include "proof/lit_situation.h"
#include "proof/sun_findings.h"

namespace belvedere::cli {

struct LitAnswer : proof::LitSituation {
  std::vector<proof::LampPairing> pairings;
};
struct Sun {
  light::SunYear year;
  design::Situation situation;  // whose solids throw shadows
  std::vector<proof::SunOfImager> of;
  std::vector<proof::BacklightOf> backlights;
  bool chart = false;
};
struct LightAnswer {
  std::vector<LitAnswer> situations;
  std::optional<Sun> sun;
  std::vector<Finding> findings;
};

std::string lightText(const Loaded& loaded, const LightAnswer& answer);
Json lightJson(const Loaded& loaded, const LightAnswer& answer);

}  // namespace belvedere::cli
