// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "light/lit_sum.h"

namespace belvedere::light {
namespace {

double at(const std::array<Interval, 3>& slope, const Vec3& way) {
  return slope[0].mid() * way.x + slope[1].mid() * way.y + slope[2].mid() * way.z;
}

}  // namespace

Interval passing(const Interval& open, const Interval& passes) {
  return {passes.low > 0 ? open.low * passes.low : 0, passes.high > 0 ? open.high * passes.high : 0};
}

void LitLinear::add(const Slopes& slopes, double times) {
  if (slopes.per_height) {
    grazing.push_back(slopes);
    grazing.back().per_height = *slopes.per_height * Interval(times);
    return;
  }
  value += times * slopes.value;
  for (std::size_t k = 0; k < 3; ++k) slope[k] = slope[k] + slopes.slope[k] * Interval(times);
}

Interval LitLinear::over(const Vec3& middle, std::span<const Vec3> corners) const {
  // What grazes is never less than nothing, nor than the least of it times the height, where that goes on below zero;
  // nor more than the most of it times the height. Least values are concave and greatest ones convex, errors of slopes
  // included: both have their extremes at corners.
  double low = 1e300, low_too = 1e300, high = -1e300;
  for (const Vec3& c : corners) {
    const Vec3 way = c - middle;
    const auto error = [&](const std::array<Interval, 3>& of) {
      return of[0].radius() * std::fabs(way.x) + of[1].radius() * std::fabs(way.y) + of[2].radius() * std::fabs(way.z);
    };
    const double here = value + at(slope, way), off = error(slope);
    double with = here - off, most_here = here + off;
    for (const Slopes& one : grazing) {
      const double height = one.value + at(one.slope, way), height_off = error(one.slope);
      with += one.per_height->low * (height - height_off);
      most_here += one.per_height->high * std::max(0.0, height + height_off);
    }
    low = std::min(low, here - off);
    low_too = std::min(low_too, with);
    high = std::max(high, most_here);
  }
  return {std::max(low, low_too), high};
}

Vec3 LitLinear::steepest() const {
  Vec3 sum{slope[0].mid(), slope[1].mid(), slope[2].mid()};
  for (const Slopes& one : grazing)
    if (one.value > 0)
      sum = sum + Vec3{one.slope[0].mid(), one.slope[1].mid(), one.slope[2].mid()} * one.per_height->mid();
  return sum;
}

Vec3 LitSum::normalAt(const Vec3& at_m) const {
  return imager_.level ? kUp : facingInPlan(at_m, imager_.lens_m);
}

std::optional<Slopes> LitSum::slopesOver(const LitPart& part, const LitSlab& slab, const Cast& cast) const {
  const std::vector<Luminaire>& luminaires = imager_.light->luminaires;
  const auto corners = slab.prism.corners();
  const bool luminaire = part.index < luminaires.size();
  std::optional<Slopes> slopes =
      luminaire ? illuminanceSlopes(luminaires[part.index], cast, corners, slab.normals, slab.middle,
                                    normalAt(slab.middle))
                : shareSlopes((*imager_.lamps)[part.index - luminaires.size()], corners, slab.middle);
  const double per_unit = luminaire ? 1 / *imager_.needed.lux : lampWeight(imager_.needed);
  if (slopes && slopes->per_height) {
    slopes->per_height = *slopes->per_height * Interval(per_unit);
  } else if (slopes) {
    slopes->value *= per_unit;
    for (Interval& i : slopes->slope) i = i * Interval(per_unit);
  }
  return slopes;
}

LitSteps LitSum::stepsOver(const Interval& heights_m, const LitOpen& lights, std::size_t asked,
                           double rest_high) const {
  static thread_local std::vector<double> at;
  at.assign({heights_m.low, heights_m.high});
  const auto addOf = [&](const Shade& shade) {
    for (const Shade::Body& body : shade.bodies)
      for (const double height_m : {body.perhaps.low, body.perhaps.high, body.surely.low, body.surely.high})
        if (height_m > heights_m.low && height_m < heights_m.high) at.push_back(height_m);
  };
  LitSteps steps;
  steps.steady.resize(asked);
  Interval steady{ambient_, ambient_ + rest_high};
  bool back = false;
  for (std::size_t i = 0; i < asked; ++i) {
    const LitPart& part = parts_[i];
    if (!part.shade) continue;
    const Interval passes = passesOver(part, heights_m);
    if (passes.low == passes.high) {
      steps.steady[i] = passes;
      steady = steady + passing(lights.open[i], passes);
      continue;
    }
    steps.varies.push_back(i);
    addOf(*part.shade);
    back = back || comesBack(part);
  }
  if (back) addOf(*back_);
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  const std::size_t count = std::max<std::size_t>(1, at.size() - 1);
  steps.all.resize(count);
  for (std::size_t s = 0; s < count; ++s) {
    LitStep& step = steps.all[s];
    step.heights_m = {at[s], at[std::min(s + 1, at.size() - 1)]};
    step.sum = steady;
    step.passes.reserve(steps.varies.size());
    for (const std::size_t i : steps.varies) {
      step.passes.push_back(passesAt(parts_[i], step.heights_m.mid()));
      step.sum = step.sum + passing(lights.open[i], step.passes.back());
    }
  }
  return steps;
}

// Bounds by slopes where those by size leave a step unknown: nearer for small columns, where the lights that reach
// it are known.
void LitSum::bySlopes(LitSteps& steps, const LitSlab& slab, const LitOpen& lights, double rest_high) const {
  const auto isKnown = [](const LitStep& step) { return surelyLit(step.sum) || surelyDark(step.sum); };
  if (std::ranges::all_of(steps.all, isKnown)) return;
  LitLinear steady;
  steady.value = ambient_;
  Interval steady_rest{0, rest_high};
  const auto add = [&](std::size_t i, const std::optional<Slopes>& slopes, const Interval& passes, LitLinear& linear,
                       Interval& rest) {
    if (passes.low == passes.high && slopes) linear.add(*slopes, passes.low);
    else rest = rest + passing(lights.open[i], passes);
  };
  for (std::size_t i = 0; i < steps.steady.size(); ++i)
    if (steps.steady[i].high > 0)
      add(i, slopesOver(parts_[i], slab, lights.casts[i]), steps.steady[i], steady, steady_rest);
  std::vector<std::optional<Slopes>> slopes(steps.varies.size());
  std::vector<bool> looked(steps.varies.size());
  for (LitStep& step : steps.all) {
    if (isKnown(step)) continue;
    step.linear = steady;
    step.rest = steady_rest;
    for (std::size_t k = 0; k < steps.varies.size(); ++k) {
      const std::size_t i = steps.varies[k];
      const Interval& passes = step.passes[k];
      if (passes.high <= 0) continue;
      if (passes.low == passes.high && !looked[k]) {
        slopes[k] = slopesOver(parts_[i], slab, lights.casts[i]);
        looked[k] = true;
      }
      add(i, slopes[k], passes, step.linear, step.rest);
    }
    const Interval sum = step.linear.over(slab.middle, prismOver(step.heights_m).corners()) + step.rest;
    step.sum = {std::max(step.sum.low, sum.low), std::min(step.sum.high, sum.high)};
  }
}

}  // namespace belvedere::light
