// SPDX-License-Identifier: GPL-3.0-or-later
//
// A situation's light told: what each imager has to see by, which lamps burn, where each imager is sharp,
// how even zones are lit.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "design/design.h"
#include "design/resolve.h"
#include "light/lighting.h"
#include "proof/conditions.h"

namespace belvedere::proof {

struct ImagerSees {
  design::PosedImager view;
  light::ImagerState state;
  light::NeededLight needed;         // of a situation that names lights
  std::optional<FocusChoice> focus;
};
struct ZoneLight {
  std::string zone;
  light::Evenness evenness;          // on the floor
};
struct LitSituation {
  std::string id;
  bool stated = false;               // it names lights
  double ambient_lux = 0;
  std::size_t luminaires = 0;
  std::vector<ImagerSees> imagers;   // as posedImagers lists them: one that stores several aims several times
  std::vector<light::Lamp> lamps;
  std::vector<bool> burns;           // per lamp
  std::vector<ZoneLight> zones;      // none where no luminaire burns
};
// Throws InputError for photometry that cannot be read, Cancelled.
LitSituation litSituation(const design::Design& design, const design::Situation& situation,
                          const std::filesystem::path& folder, const Progress& progress);

}  // namespace belvedere::proof
