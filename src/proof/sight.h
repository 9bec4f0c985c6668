// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands between a lens and a cell of the floor: the judge's last test over a cell. On a level
// floor under the lens, where the whole band must be seen, bodies' shadows in plan decide; else
// shafts and bodies in space.
#pragma once

#include "proof/box_tests.h"

namespace belvedere::proof {

// A first look by rays, without gathering what stands between: true when the shadows of the bodies
// that a few rays hit cover all of the cell together, so that some height of every place is hidden.
bool hiddenAtAGlance(const Question& question, const design::PosedImager& view, const Cell& cell,
                     const Slab& band);

// Sight over the whole band: `all` when nothing stands between, `none` when one body hides some
// height of every point. May propose a cut where mixed.
Over sightOver(const Question& question, const design::PosedImager& view, const Cell& cell,
               const Slab& band, ViewState& state, int slabs, std::optional<Cut>& cut);

// Proven of the view that proposes a cut: before it and beyond.
struct Beside {
  Over before = Over::mixed, beyond = Over::mixed;
};
// judgeCell of judge.h with what all views share: the slab of the whole band, the shadows of the lights.
Over judgeCell(const Question& question, const Cell& cell, const Slab& band, ViewState& state, int facing,
               int slabs, light::Shades& shades, std::optional<Cut>& cut, Beside& beside);

// Which bodies may stand between: of those that a larger cell met, or of the whole scene.
void gatherBodies(const Question& question, const design::PosedImager& view, const Slab& band,
                  ViewState& state);

}  // namespace belvedere::proof
