// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/relit.h"

#include <algorithm>

namespace belvedere::light {

Lighting relit(const Lighting& lighting, const design::Design& changed,
               const DayNightSwitch& levels) {
  Lighting out = lighting;
  for (const design::Housing& housing : changed.housings) {
    const std::vector<Lamp> own = lampsOf(changed, housing);
    const auto is_own = [&](const Lamp& lamp) { return lamp.housing == housing.id; };
    const auto at = std::find_if(out.lamps.begin(), out.lamps.end(), is_own) - out.lamps.begin();
    std::erase_if(out.lamps, is_own);
    out.lamps.insert(out.lamps.begin() + at, own.begin(), own.end());
    // States come in the order of the imagers, as those of the housing alone do.
    design::Design alone;
    alone.housings = {housing};
    std::vector<double> lux;
    for (const ImagerState& state : out.states)
      if (state.housing == housing.id) lux.push_back(state.lux);
    if (lux.empty()) continue;
    const std::vector<ImagerState> anew = imagerStates(alone, lux, levels);
    std::size_t next = 0;
    for (ImagerState& state : out.states)
      if (state.housing == housing.id && next < anew.size()) state = anew[next++];
  }
  out.burns = burning(out.lamps, out.states, out.light.ambient_lux, levels);
  return out;
}

}  // namespace belvedere::light
