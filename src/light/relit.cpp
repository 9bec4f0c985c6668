// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/relit.h"

#include <algorithm>
#include <utility>

namespace belvedere::light {

Lighting relit(const Lighting& lighting, const design::Design& changed,
               const DayNightSwitch& levels) {
  Lighting out = lighting;
  for (const design::Housing& housing : changed.housings) {
    const std::vector<Lamp> own = lampsOf(changed, housing);
    out.lamps = withLampsOf(std::move(out.lamps), housing.id, own);
    std::erase_if(out.in_aims, [&](const LampsInAim& in) { return in.housing == housing.id; });
    for (LampsInAim& in : out.in_aims) in.lamps = withLampsOf(std::move(in.lamps), housing.id, own);
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
  for (LampsInAim& in : lampsInAims(changed, changed.housings, out.lamps)) out.in_aims.push_back(std::move(in));
  numberMoved(out);
  out.burns = burning(out.lamps, out.states, out.light.ambient_lux, levels);
  return out;
}

}  // namespace belvedere::light
