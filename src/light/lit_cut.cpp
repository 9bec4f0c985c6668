// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "geometry/polygon.h"
#include "light/lit_sum.h"

namespace belvedere::light {
namespace {

// Beside the edge of a shadow, in space, there are rounding and a body's skin.
constexpr double kEdgeHalfM = 1e-7;

}  // namespace

// Along the edge of the shadow on which most hangs where the column is worst off: of the light whose
// shadow it is, at the end of those heights at which it is needed where most of the column is hidden.
std::optional<LitCut> LitSum::shadowCut(const LitSteps& steps, const std::vector<Interval>& open) const {
  const LitStep* worst = nullptr;
  for (const LitStep& step : steps.all)
    if (!surelyLit(step.sum) && (!worst || step.sum.mid() < worst->sum.mid())) worst = &step;
  if (!worst) return {};
  std::size_t which = steps.varies.size();
  double most = 0;
  for (std::size_t k = 0; k < steps.varies.size(); ++k) {
    const Interval& passes = worst->passes[k];
    const double hangs = open[steps.varies[k]].mid() * (passes.high - passes.low);
    if (hangs <= most) continue;
    most = hangs;
    which = k;
  }
  constexpr double kMostOfIt = 0.4;
  if (which == steps.varies.size() || most < kMostOfIt * (worst->sum.high - worst->sum.low)) return {};
  const std::size_t light = steps.varies[which];
  const auto needed = [&](const LitStep& step) {
    return !surelyLit(step.sum) && step.sum.high - open[light].high * step.passes[which].high < 1;
  };
  Interval heights = worst->heights_m;
  for (const LitStep* s = worst; s != &steps.all.front() && needed(*(s - 1)); --s) heights.low = (s - 1)->heights_m.low;
  for (const LitStep* s = worst; s != &steps.all.back() && needed(*(s + 1)); ++s) heights.high = (s + 1)->heights_m.high;
  std::optional<LitCut> cut = edgeAcross(*parts_[light].shade, heights, worst->heights_m.mid());
  // Lit with it and dark without, as far as the others are known: the edge between light and dark.
  const double others = worst->sum.mid() - open[light].mid() * worst->passes[which].mid();
  if (cut) cut->proven = others < 1 && others + open[light].low >= 1;
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

// All that is not known is bounded from below by concave functions of the place, from above by convex ones: what they
// settle, on the lit side and on the dark, is convex, and lines along the edge of light leave little between them.
std::optional<LitCut> LitSum::contourCut(const std::vector<const LitUnknown*>& unknown, double worth) const {
  const LitUnknown* worst = *std::ranges::min_element(
      unknown, {}, [](const LitUnknown* one) { return one->step.sum.mid(); });
  const Vec3 up = worst->step.linear.steepest();
  const double size = norm(up.xy());
  if (!(size > 0)) return {};
  const Vec2 normal = up.xy() / size;
  Ring whole;
  Interval across{1e300, -1e300};
  for (const Vec3& c : column_.lower()) {
    whole.push_back(c.xy());
    const double at = dot(normal, c.xy());
    across = {std::min(across.low, at), std::max(across.high, at)};
  }
  const double floor_m = column_.corner[0].z;
  std::vector<Vec3> corners;
  const auto sumOver = [&](const LitUnknown& one, const Ring& ring, const Interval& heights_m) {
    corners.clear();
    for (const Vec2 c : ring) {
      corners.push_back(withZ(c, floor_m + heights_m.low));
      if (heights_m.high > heights_m.low) corners.push_back(withZ(c, floor_m + heights_m.high));
    }
    return one.step.linear.over(one.middle, corners) + one.step.rest;
  };
  const auto litBeyond = [&](double at) {
    const Ring ring = clipHalfPlane(whole, -normal, -at);
    return ring.empty() || std::ranges::all_of(unknown, [&](const LitUnknown* one) {
      return surelyLit(sumOver(*one, ring, one->step.heights_m));
    });
  };
  // Of one height, where it is darkest as far as one can tell.
  const double darkest_m = up.z > 0 ? worst->step.heights_m.low : worst->step.heights_m.high;
  const auto darkBefore = [&](double at) {
    const Ring ring = clipHalfPlane(whole, normal, at);
    return ring.empty() || surelyDark(sumOver(*worst, ring, darkest_m));
  };
  const double area_m2 = std::fabs(signedArea(whole));
  const auto settledM2 = [&](double low, double high) {
    return std::fabs(signedArea(clipHalfPlane(whole, normal, low))) +
           std::fabs(signedArea(clipHalfPlane(whole, -normal, -high)));
  };
  // The least strip that leaves both sides settled, to a part of its place in the column.
  constexpr int kHalvings = 8, kLookAt = 3;
  double lit_from = across.high, lit_not = across.low;
  double dark_to = across.low, dark_not = across.high;
  for (int i = 0; i < kHalvings; ++i) {
    const double lit = 0.5 * (lit_from + lit_not), dark = 0.5 * (dark_to + dark_not);
    (litBeyond(lit) ? lit_from : lit_not) = lit;
    (darkBefore(dark) ? dark_to : dark_not) = dark;
    if (i == kLookAt && settledM2(std::min(dark_not, lit_not), lit_not) < worth * area_m2) return {};
  }
  constexpr double kRoundingM = 1e-9;
  const double low = std::min(dark_to, lit_from) - kRoundingM, high = lit_from + kRoundingM;
  if (settledM2(low, high) < worth * area_m2) return {};
  return LitCut{normal, 0.5 * (low + high), 0.5 * (high - low), true};
}

}  // namespace belvedere::light
