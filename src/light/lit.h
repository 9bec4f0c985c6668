// SPDX-License-Identifier: GPL-3.0-or-later
//
// Is it light enough for an imager: handbook 9's one scale, at a point and over a box. What the judge
// asks for `too_dark`. Lit at 1 and above.
//
// The plane on which light is counted: level for a target on the floor; for all that stands, upright
// and turned to the camera in plan. Lamps count on a face turned to them, as their range does; an
// infrared lamp's light is weakened by glass on its way to the target and on its way back to the lens.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "light/exposure.h"
#include "light/lamps.h"
#include "light/shades.h"

namespace belvedere::light {

// All that one imager has to see by in a situation. What it points to outlives it.
struct ImagerLight {
  Vec3 lens_m;
  Mode mode = Mode::colour;
  NeededLight needed;                     // with lux: otherwise nobody can tell, ask nothing here
  const SituationLight* light = nullptr;
  const std::vector<Lamp>* lamps = nullptr;
  std::size_t moved_lamps = 0;            // the greatest Lamp::moved that any imager of theirs has
  std::vector<bool> burns;                // per lamp
  bool level = false;                     // the target lies on the floor
  bool coated_glass = true;               // false: nothing there passes all light but not all infrared
  std::size_t number = 0;                 // tells those apart that share the shades of their lights
};

struct LitParts {
  double lux = 0;         // on the plane that counts
  double lamp_light = 0;  // lampLightAt, infrared less what is lost on the way back
  double lit = 0;         // litShare of both
};
LitParts litAt(const ImagerLight& imager, const Solids& solids, const Vec3& at_m);
// Its `lamp_light` alone; whether its `lit` is 1 or more, asking for no more shadows than that takes.
double lampLightFor(const ImagerLight& imager, const Solids& solids, const Vec3& at_m);
bool enoughAt(const ImagerLight& imager, const Solids& solids, const Vec3& at_m);

enum class Lit : std::uint8_t { none, some, all };
// A plan line along which a column that is lit in part is best cut: dot(normal, p) = at, the strip beside it, to
// `half_m` on either side, left to itself.
struct LitCut {
  Vec2 normal;
  double at = 0, half_m = 0;
  bool proven = false;  // beyond the strip all is lit, before it something at every place is dark
};
// Over the heights of a column (over its lower face): lit nowhere, not known, everywhere. Asks for shadows only
// of the lights on whose shadow the answer hangs, the brightest first.
//   whole   every height must be lit: `none` also where at every place some height is not
//   shades  of this column
//   cut     if given, may be set where whole and not known
Lit litOver(const ImagerLight& imager, const Solids& solids, const scene::Prism& column,
            const Interval& heights_m, bool whole, Shades& shades,
            std::optional<LitCut>* cut = nullptr);

}  // namespace belvedere::light
