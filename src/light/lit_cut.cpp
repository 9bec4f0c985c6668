// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "light/lit_sum.h"

namespace belvedere::light {
namespace {

// Beside the edge of a shadow, in space, there are rounding and a body's skin; beside the edge of light at least so
// much is left, on the floor.
constexpr double kEdgeHalfM = 1e-7, kContourHalfM = 1e-6;
// Of how far the place of the edge is uncertain: parts are smaller than what is cut, and know more.
constexpr double kOfError = 2;
// Less than this share of what is needed moves it by little.
constexpr double kFaint = 0.02;

}  // namespace

// Where a column that is lit in part is best cut: where it is worst off, along the edge of a shadow on which
// most hangs, or else where the light comes to what is needed.
std::optional<LitCut> LitSum::cutFor(const std::vector<LitStep>& steps, const std::vector<Interval>& open) const {
  std::size_t worst = steps.size();
  for (std::size_t s = 0; s < steps.size(); ++s)
    if (!surelyLit(steps[s].sum) &&
        (worst == steps.size() || steps[s].sum.mid() < steps[worst].sum.mid()))
      worst = s;
  if (worst == steps.size()) return {};
  if (const auto cut = shadowCut(steps, worst, open)) return cut;
  return contourCut(steps[worst]);
}

// Along the edge of the shadow on which most hangs where the column is worst off: of the light whose
// shadow it is, at the end of those heights at which it is needed where most of the column is hidden.
std::optional<LitCut> LitSum::shadowCut(const std::vector<LitStep>& steps, std::size_t worst,
                                        const std::vector<Interval>& open) const {
  const std::size_t asked = steps[worst].passes.size();
  const double at = steps[worst].heights_m.mid();
  std::size_t which = asked;
  double most = 0;
  for (std::size_t i = 0; i < asked; ++i) {
    const Interval& passes = steps[worst].passes[i];
    const double hangs = open[i].mid() * (passes.high - passes.low);
    if (hangs <= most) continue;
    most = hangs;
    which = i;
  }
  constexpr double kMostOfIt = 0.4;
  if (which == asked || most < kMostOfIt * (steps[worst].sum.high - steps[worst].sum.low)) return {};
  const auto needed = [&](const LitStep& step) {
    return !surelyLit(step.sum) && step.sum.high - open[which].high * step.passes[which].high < 1;
  };
  Interval heights = steps[worst].heights_m;
  for (std::size_t s = worst; s-- > 0 && needed(steps[s]);) heights.low = steps[s].heights_m.low;
  for (std::size_t s = worst + 1; s < steps.size() && needed(steps[s]); ++s)
    heights.high = steps[s].heights_m.high;
  std::optional<LitCut> cut = edgeAcross(*parts_[which].shade, heights, at);
  // Lit with it and dark without, as far as the others are known: the edge between light and dark.
  const double others = steps[worst].sum.mid() - open[which].mid() * steps[worst].passes[which].mid();
  if (cut) cut->runs_across = others < 1 && others + open[which].low >= 1;
  return cut;
}

std::optional<LitCut> LitSum::edgeAcross(const Shade& shade, const Interval& heights_m, double at_m) const {
  std::optional<LitCut> best;
  double best_covers = -1;
  for (const Shade::Body& body : shade.bodies) {
    if (!body.perhaps.has(at_m) || body.surely.has(at_m)) continue;
    std::optional<LitCut> cut;
    double covers = 1;  // about the share of the column that lies in this shadow
    const scene::Umbra& umbra = shade.umbras->all[body.umbra];
    for (std::uint32_t i = 0; i < umbra.side_count; ++i) {
      const scene::Plane& side = shade.umbras->sides[umbra.first_side + i];
      const double size = norm(side.normal.xy());
      if (!(size > 1e-4)) continue;
      const double height_m = side.normal.z > 0 ? heights_m.low : heights_m.high;
      const double at =
          (side.offset - side.normal.z * (column_.corner[0].z + height_m)) / size;
      const Vec2 normal = side.normal.xy() / size;
      double low = 1e300, high = -1e300;
      for (const Vec3& c : column_.lower()) {
        const double d = dot(normal, c.xy());
        low = std::min(low, d);
        high = std::max(high, d);
      }
      const double within = (at - low) / (high - low);
      const double half_m = kEdgeHalfM / size;
      if (within >= covers || at <= low + 2 * half_m || at >= high - 2 * half_m) continue;
      covers = within;
      cut = LitCut{normal, at, half_m, false};
    }
    if (cut && covers > best_covers) {
      best_covers = covers;
      best = cut;
    }
  }
  return best;
}

std::optional<LitCut> LitSum::contourCut(const LitStep& step) const {
  // The height at which the middle is worst off.
  double height_m = 0, least = 1e300;
  for (const double at : {step.heights_m.low, step.heights_m.mid(), step.heights_m.high}) {
    const Vec3 middle = middleOf(at);
    const Vec3 normal = normalAt(middle);
    double sum = 0;
    for (std::size_t i = 0; i < step.passes.size(); ++i)
      if (step.passes[i].high > 0) sum += step.passes[i].mid() * partAt(parts_[i].index, middle, normal);
    if (sum >= least) continue;
    least = sum;
    height_m = at;
  }
  const LitSlab slice = slabOver(height_m);
  Slopes linear{ambient_, {}, {}};
  bool all_known = true;
  for (std::size_t i = 0; i < step.passes.size(); ++i) {
    all_known = all_known && step.passes[i].low == step.passes[i].high;
    if (step.passes[i].high <= 0) continue;
    Cast cast;
    const Interval open = openOver(parts_[i], slice, cast);
    const auto slopes = slopesOver(parts_[i], slice, cast);
    if (!slopes && open.high < kFaint) continue;
    if (!slopes) return {};
    // Where light begins to be enough those that graze come from this side of the plane.
    const double times = step.passes[i].mid() * (slopes->per_height ? slopes->per_height->mid() : 1);
    linear.value += times * slopes->value;
    for (std::size_t k = 0; k < 3; ++k) linear.slope[k] = linear.slope[k] + slopes->slope[k] * Interval(times);
  }
  const Vec2 slope{linear.slope[0].mid(), linear.slope[1].mid()};
  const double size = norm(slope);
  if (!(size > 0)) return {};
  Vec3 most;
  Interval across{1e300, -1e300};
  for (const Vec3& c : slice.prism.lower()) {
    const Vec3 d = c - slice.middle;
    most = {std::max(most.x, std::fabs(d.x)), std::max(most.y, std::fabs(d.y)), 0};
    const double at = dot(slope, d.xy()) / size;
    across = {std::min(across.low, at), std::max(across.high, at)};
  }
  // Each side must come out clear by bounds of its own.
  const double half_m = std::max(
      kContourHalfM, kOfError * (linear.slope[0].radius() * most.x + linear.slope[1].radius() * most.y) / size);
  const double at = (1 - linear.value) / size;
  if (at + half_m <= across.low || at - half_m >= across.high) return {};
  const Vec2 normal = slope / size;
  return LitCut{normal, dot(normal, slice.middle.xy()) + at, half_m,
                all_known && at - half_m > across.low && at + half_m < across.high};
}

}  // namespace belvedere::light
