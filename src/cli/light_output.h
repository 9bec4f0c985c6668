// SPDX-License-Identifier: GPL-3.0-or-later
//
// The answer of `belvedere light`, as text and as JSON (docs/json.md).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "light/lighting.h"
#include "light/sun.h"
#include "proof/conditions.h"
#include "proof/lamp_pairing.h"
#include "proof/sun_findings.h"

namespace belvedere::cli {

struct ImagerSees {
  design::PosedImager view;
  light::ImagerState state;
  light::NeededLight needed;
  std::optional<proof::FocusChoice> focus;
};
struct ZoneLight {
  std::string zone;
  light::Evenness evenness;  // on the floor
};
struct LitSituation {
  std::string id;
  bool stated = false;
  double ambient_lux = 0;
  std::size_t luminaires = 0;
  std::vector<ImagerSees> imagers;
  std::vector<light::Lamp> lamps;
  std::vector<bool> burns;
  std::vector<ZoneLight> zones;
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
  std::vector<LitSituation> situations;
  std::optional<Sun> sun;
  std::vector<Finding> findings;
};

std::string lightText(const Loaded& loaded, const LightAnswer& answer);
Json lightJson(const Loaded& loaded, const LightAnswer& answer);

}  // namespace belvedere::cli
