// SPDX-License-Identifier: GPL-3.0-or-later
//
// The span of an unrolled or stitched view over a slab.
#include <algorithm>
#include <cmath>

#include "proof/box_tests.h"

namespace belvedere::proof {
namespace {

constexpr double kRoundingShare = 1e-11;  // of the distance; what the judge of points may err by

// Upright planes: the cell's corners say all.
Over bearingOver(const design::ViewSpan& span, const Cell& cell, Vec2 lens, std::optional<Cut>& cut) {
  std::array<Over, 2> side{Over::mixed, Over::mixed};
  for (const std::size_t i : {0U, 1U}) {
    double low = 1e300, high = -1e300, far = 0;
    for (const Vec2 p : cell.corners) {
      const double d = dot(span.inward[i], p - lens);
      low = std::min(low, d);
      high = std::max(high, d);
      far = std::max(far, norm(p - lens));
    }
    const double guard = kRoundingShare * far;
    side[i] = low >= guard ? Over::all : high <= -guard ? Over::none : Over::mixed;
    if (side[i] != Over::mixed || low > -kCutHalfM || high < kCutHalfM || cut) continue;
    const double at = dot(span.inward[i], lens);
    cut = Cut{span.inward[i], {at - kCutHalfM, at + kCutHalfM}};
  }
  return span.wide() ? std::max(side[0], side[1]) : std::min(side[0], side[1]);
}

}  // namespace

Over spanOver(const design::PosedImager& view, const Cell& cell, const Slab& slab, bool whole,
              std::optional<Cut>& cut) {
  if (!view.span) return Over::all;
  const design::ViewSpan& span = *view.span;
  Over over = Over::all;
  if (!span.allRound()) over = bearingOver(span, cell, view.lens_m.xy(), cut);
  if (over == Over::none || !(span.limits(0) || span.limits(1))) return over;
  Interval foot{1e300, -1e300}, head = foot;  // how far both ends of the band lie below the lens
  for (const Vec3& p : slab.prism.lower())
    foot = {std::min(foot.low, view.lens_m.z - p.z), std::max(foot.high, view.lens_m.z - p.z)};
  for (const Vec3& p : slab.prism.upper())
    head = {std::min(head.low, view.lens_m.z - p.z), std::max(head.high, view.lens_m.z - p.z)};
  const auto [near, far] = planDistances(cell, view.lens_m.xy());
  const double guard =
      kRoundingShare * (far + std::max(std::fabs(foot.high), std::fabs(head.low)));
  for (const std::size_t end : {0U, 1U}) {
    if (!span.limits(end)) continue;
    // The higher end of the band is the flatter one. What is worst of all heights fails first.
    const double worst = end == 0 ? head.low : foot.high, best = end == 0 ? foot.high : head.low;
    const double worst_anywhere = end == 0 ? head.high : foot.low;  // at its best place
    const auto low = [&](double below) {
      return std::min(span.withinDepression(end, below, near), span.withinDepression(end, below, far));
    };
    const auto high = [&](double below) {
      return std::max(span.withinDepression(end, below, near), span.withinDepression(end, below, far));
    };
    if (high(whole ? worst_anywhere : best) < -guard) return Over::none;
    if (low(worst) < guard) over = std::min(over, Over::mixed);
  }
  return over;
}

}  // namespace belvedere::proof
