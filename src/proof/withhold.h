// SPDX-License-Identifier: GPL-3.0-or-later
//
// Must not see: the densest picture of a zone that can be had (captured pixels, any height of the
// band, every aim and zoom that can be set from afar, ignoring light, focus and facing; handbook 5
// and 19), proven from above by bounds over boxes and reached from below at a spot; and what would
// keep it: a mask, or how far to turn away.
#pragma once

#include "base/progress.h"
#include "proof/judge.h"
#include "proof/proof.h"

namespace belvedere::proof {

struct Densest {
  Bounds px_per_m;          // {reached at `at`, proven for everywhere}
  std::string imager;
  std::optional<Vec3> at;   // site, where the lower bound is reached
  std::size_t boxes = 0;
  bool ended_at_most = false;  // of some imager: at the most boxes that are judged
};
// closeness: stop when high <= low * (1 + closeness), or when the verdict stands and little is won.
Densest densest(const Question& question, double closeness, const Progress& progress);

// What keeps a withheld zone below its limit, for one imager: the mask (a rectangle in shares of
// the picture, in the imager's present aim) that covers all of the zone it sees too densely, and
// the least turn of pan, degrees, that does the same: tried in steps of half a degree, said in
// tenths, within the limits of its model as mounted; nothing when no turn within 90 does. An imager
// that can be turned from afar has neither.
struct Keep {
  std::string imager;
  std::array<double, 4> mask{};   // x0 y0 x1 y1
  std::optional<double> turn_deg;
  // requirements that are met now and would fall with the turn, "R2 (day)"; nothing: not asked
  std::optional<std::vector<std::string>> turn_falls;
};
std::vector<Keep> whatKeeps(const design::Design& design, const Question& question,
                            const Progress& progress);

}  // namespace belvedere::proof
