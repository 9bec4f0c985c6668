// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "light/lit_sum.h"

namespace belvedere::light {
namespace {

// What lights that come to less than this share of what is needed, all together, add or not: it is left open.
constexpr double kFaint = 1e-4;
// A little more is, too, where it is less than this share of how far the bounds of the others lie apart in any case.
constexpr double kFaintBeside = 0.01, kFaintMost = 0.02;
// A light whose bounds lie as near as this, as a share of what is needed.
constexpr double kWellKnown = 0.02;
// A cut along the edge of light is worth making where it settles this share of the column; where it settles so much,
// thinner slabs need not be asked.
constexpr double kWorthCut = 0.15, kWorthNoMore = 0.6;

Interval times(const Interval& open, const Interval& passes) {
  return {passes.low > 0 ? open.low * passes.low : 0, passes.high > 0 ? open.high * passes.high : 0};
}

double at(const std::array<Interval, 3>& slope, const Vec3& way) {
  return slope[0].mid() * way.x + slope[1].mid() * way.y + slope[2].mid() * way.z;
}

}  // namespace

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

LitSum::LitSum(const ImagerLight& imager, const Solids& solids, const scene::Prism& column, Shades& shades)
    : imager_(imager), solids_(solids), column_(column), shades_(shades),
      ambient_(imager.light->ambient_lux / *imager.needed.lux) {
  const std::vector<Luminaire>& luminaires = imager.light->luminaires;
  for (std::size_t i = 0; i < luminaires.size(); ++i)
    parts_.push_back({luminaires[i].at_m, scene::Band::light, i, nullptr});
  for (std::size_t i = 0; imager.lamps && i < imager.lamps->size(); ++i) {
    const Lamp& lamp = (*imager.lamps)[i];
    if (imager.burns[i] && !(imager.mode == Mode::colour && lamp.infrared()))
      parts_.push_back({lamp.at_m, lamp.band(), luminaires.size() + i, nullptr});
  }
  Box3 box;
  for (const Vec3& c : column.lower()) box.add(c);
  const Vec3 size = box.high - box.low;
  level_ = size.z == 0;
  side_m_ = std::max(size.x, size.y);
  if (!imager.level) normals_ = normalsInPlan(imager.lens_m, column.lower());
}

double LitSum::partAt(std::size_t index, const Vec3& at_m, const Vec3& normal) const {
  const std::vector<Luminaire>& luminaires = imager_.light->luminaires;
  if (index < luminaires.size())
    return illuminanceFrom(luminaires[index], at_m, normal) / *imager_.needed.lux;
  return shareFrom((*imager_.lamps)[index - luminaires.size()], at_m) * lampWeight(imager_.needed);
}

Vec3 LitSum::normalAt(const Vec3& at_m) const {
  return imager_.level ? kUp : facingInPlan(at_m, imager_.lens_m);
}

LitSlab LitSum::slabOver(const Interval& heights_m) const {
  LitSlab slab;
  slab.prism = prismOver(heights_m);
  slab.normals = normals_;
  slab.middle = middleOf(heights_m);
  return slab;
}

Interval LitSum::openOver(const LitPart& part, const LitSlab& slab, Cast& cast) const {
  const std::vector<Luminaire>& luminaires = imager_.light->luminaires;
  const auto corners = slab.prism.corners();
  if (part.index < luminaires.size()) {
    const Luminaire& luminaire = luminaires[part.index];
    cast = castOver(luminaire, corners);
    const Interval lux = illuminanceOver(luminaire, cast, corners, slab.normals);
    return {lux.low / *imager_.needed.lux, lux.high / *imager_.needed.lux};
  }
  const Interval share = shareOver((*imager_.lamps)[part.index - luminaires.size()], corners);
  return {share.low * lampWeight(imager_.needed), share.high * lampWeight(imager_.needed)};
}

LitOpen LitSum::brightestFirst(const LitSlab& slab) {
  const std::size_t count = parts_.size();
  std::vector<Interval> open(count);
  std::vector<Cast> casts(count);
  std::vector<std::size_t> order(count);
  for (std::size_t i = 0; i < count; ++i) {
    open[i] = openOver(parts_[i], slab, casts[i]);
    order[i] = i;
  }
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const double x = open[a].low + open[a].high, y = open[b].low + open[b].high;
    return x != y ? x > y : a < b;
  });
  LitOpen sorted;
  std::vector<LitPart> parts;
  for (const std::size_t i : order) {
    sorted.open.push_back(open[i]);
    sorted.casts.push_back(casts[i]);
    parts.push_back(parts_[i]);
  }
  parts_ = std::move(parts);
  return sorted;
}

bool LitSum::comesBack(const LitPart& part) const {
  return part.band == scene::Band::infrared && imager_.coated_glass;
}

void LitSum::ask(LitPart& part) {
  if (!part.shade) part.shade = &shades_.of(part.index, solids_, part.from, part.band, column_);
  if (!comesBack(part) || back_) return;
  const std::size_t lights =
      imager_.light->luminaires.size() + (imager_.lamps ? imager_.lamps->size() : 0);
  back_ = &shades_.of(lights + imager_.number, solids_, imager_.lens_m,
                      scene::Band::infrared_behind_clear, column_);
}

Interval LitSum::passesOver(const LitPart& part, const Interval& heights_m) const {
  const Interval there = part.shade->over(heights_m);
  return comesBack(part) ? there * back_->over(heights_m) : there;
}
Interval LitSum::passesAt(const LitPart& part, double height_m) const {
  const Interval there = part.shade->at(height_m);
  return comesBack(part) ? there * back_->at(height_m) : there;
}

scene::Prism LitSum::prismOver(const Interval& heights_m) const {
  scene::Prism prism;
  prism.sides = column_.sides;
  for (std::size_t i = 0; i < prism.sides; ++i) {
    const Vec3& c = column_.corner[i];
    prism.corner[i] = {c.x, c.y, c.z + heights_m.low};
    prism.corner[prism.sides + i] = {c.x, c.y, c.z + heights_m.high};
  }
  return prism;
}

Vec3 LitSum::middleOf(const Interval& heights_m) const {
  Vec3 sum;
  for (const Vec3& c : column_.lower()) sum = sum + c;
  sum = sum / static_cast<double>(column_.sides);
  return {sum.x, sum.y, sum.z + heights_m.mid()};
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

std::vector<LitStep> LitSum::stepsOver(const Interval& heights_m, const std::vector<Interval>& open,
                                       std::size_t asked, double rest_high) const {
  std::vector<double> at{heights_m.low, heights_m.high};
  const auto add = [&](double height_m) {
    if (height_m > heights_m.low && height_m < heights_m.high) at.push_back(height_m);
  };
  const auto addOf = [&](const Shade* shade) {
    if (!shade) return;
    for (const Shade::Body& body : shade->bodies)
      for (const Interval& i : {body.perhaps, body.surely}) {
        add(i.low);
        add(i.high);
      }
  };
  for (std::size_t i = 0; i < asked; ++i) addOf(parts_[i].shade);
  addOf(back_);
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  std::vector<LitStep> steps;
  const std::size_t count = std::max<std::size_t>(1, at.size() - 1);
  for (std::size_t s = 0; s < count; ++s) {
    const Interval between{at[s], at[std::min(s + 1, at.size() - 1)]};
    LitStep step{between, {ambient_, ambient_ + rest_high}, std::vector<Interval>(asked), {}, {}};
    for (std::size_t i = 0; i < asked; ++i) {
      if (!parts_[i].shade) continue;
      step.passes[i] = passesAt(parts_[i], between.mid());
      step.sum = step.sum + times(open[i], step.passes[i]);
    }
    steps.push_back(std::move(step));
  }
  return steps;
}

// Bounds by slopes where those by size leave a step unknown: nearer for small columns, where the lights that reach
// it are known.
void LitSum::bySlopes(std::vector<LitStep>& steps, const LitSlab& slab, const LitOpen& lights,
                      double rest_high) const {
  const std::size_t asked = steps.front().passes.size();
  std::vector<std::optional<Slopes>> slopes(asked);
  std::vector<bool> looked(asked);
  for (LitStep& step : steps) {
    if (surelyLit(step.sum) || surelyDark(step.sum)) continue;
    LitLinear& linear = step.linear;
    linear = {ambient_, {}, {}};
    Interval& rest = step.rest;
    rest = {0, rest_high};
    for (std::size_t i = 0; i < asked; ++i) {
      const Interval& passes = step.passes[i];
      if (passes.high <= 0) continue;
      if (passes.low == passes.high && !looked[i]) {
        slopes[i] = slopesOver(parts_[i], slab, lights.casts[i]);
        looked[i] = true;
      }
      if (passes.low == passes.high && slopes[i]) linear.add(*slopes[i], passes.low);
      else rest = rest + times(lights.open[i], passes);
    }
    const Interval sum = linear.over(slab.middle, prismOver(step.heights_m).corners()) + rest;
    step.sum = {std::max(step.sum.low, sum.low), std::min(step.sum.high, sum.high)};
  }
}

Lit LitSum::over(const Interval& heights_m, bool whole, std::optional<LitCut>* cut) {
  std::optional<LitCut> along;
  const Lit lit = overSlab(heights_m, whole, along, nullptr);
  if (!cut || lit != Lit::some || !whole || !level_) return lit;
  if (!settled_ && !(along && along->runs_across)) settled_ = contourCut(kWorthCut);
  // Where a shadow's edge runs across, light ends there as far as one can tell: that is not proven.
  if (along) along->runs_across = false;
  *cut = settled_ ? settled_ : along;
  return lit;
}

Lit LitSum::overSlab(const Interval& heights_m, bool whole, std::optional<LitCut>& cut, const LitOpen* larger) {
  const LitSlab slab = slabOver(heights_m);
  LitOpen lights = larger ? *larger : brightestFirst(slab);
  std::vector<Interval>& open = lights.open;
  std::vector<Interval> still(parts_.size() + 1);
  for (std::size_t i = parts_.size(); i-- > 0;) {
    // What is known well enough of a larger slab need not be asked again.
    if (larger && open[i].high - open[i].low > kWellKnown) open[i] = openOver(parts_[i], slab, lights.casts[i]);
    still[i] = still[i + 1] + open[i];
  }
  // All that is still to be asked for may be there or not: from nothing to the whole sum.
  Interval known(ambient_);
  double vague = 0;  // how far apart the bounds of what is known are in any case
  std::size_t asked = 0;
  for (;; ++asked) {
    if (surelyDark(known + still[asked])) return Lit::none;
    if (surelyLit(known)) return Lit::all;
    if (asked == parts_.size() || still[asked].high < std::clamp(kFaintBeside * vague, kFaint, kFaintMost)) break;
    vague += open[asked].high - open[asked].low;
    if (open[asked].high <= 0) continue;
    ask(parts_[asked]);
    known = known + times(open[asked], passesOver(parts_[asked], heights_m));
  }
  std::vector<LitStep> steps = stepsOver(heights_m, open, asked, still[asked].high);
  const auto anyDark = [&] {
    return std::any_of(steps.begin(), steps.end(), [](const LitStep& s) { return surelyDark(s.sum); });
  };
  if (whole && anyDark()) return Lit::none;
  bySlopes(steps, slab, lights, still[asked].high);
  if (whole && anyDark()) return Lit::none;
  bool all = true, none = true;
  Interval undecided{1, -1};
  for (const LitStep& step : steps) {
    none = none && surelyDark(step.sum);
    if (surelyLit(step.sum)) continue;
    all = false;
    undecided = undecided.low > undecided.high ? step.heights_m : hull(undecided, step.heights_m);
  }
  if (all) return Lit::all;
  if (!whole) return none ? Lit::none : Lit::some;
  // Where the edge between light and dark surely runs across, nothing more need be known.
  std::size_t worst = steps.size();
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (!surelyLit(steps[i].sum) && (worst == steps.size() || steps[i].sum.mid() < steps[worst].sum.mid())) worst = i;
  if (level_) cut = shadowCut(steps, worst, open);
  if (cut && cut->runs_across) return Lit::some;
  if (heights_m.high - heights_m.low > side_m_) {
    if (!larger && level_) {
      for (const LitStep& step : steps)
        if (!surelyLit(step.sum)) unknown_.push_back({slab.middle, step});
      settled_ = contourCut(kWorthNoMore);
      if (settled_) return Lit::some;
      unknown_.clear();
    }
    // Thinner slabs say more; of those heights alone that are not known.
    const double middle = heights_m.mid();
    all = true;
    for (const Interval& half : {Interval{heights_m.low, middle}, Interval{middle, heights_m.high}}) {
      if (undecided.high <= half.low || undecided.low >= half.high) continue;
      std::optional<LitCut> cut_of_half;
      const Lit lit = overSlab(half, true, cut_of_half, &lights);
      if (lit == Lit::none) return lit;
      all = all && lit == Lit::all;
      if (lit == Lit::some && cut_of_half && (!cut || cut_of_half->runs_across)) cut = cut_of_half;
      if (lit == Lit::some && cut && cut->runs_across) return lit;
    }
    return all ? Lit::all : Lit::some;
  }
  for (LitStep& step : steps)
    if (!surelyLit(step.sum)) unknown_.push_back({slab.middle, std::move(step)});
  return Lit::some;
}

Lit litOver(const ImagerLight& imager, const Solids& solids, const scene::Prism& column,
            const Interval& heights_m, bool whole, Shades& shades, std::optional<LitCut>* cut) {
  BELVEDERE_CHECK(imager.needed.lux, "asked only where the needed light is known");
  if (surelyLit(imager.light->ambient_lux / *imager.needed.lux)) return Lit::all;
  // Of the column's own heights, to the last bit.
  const double tall_m = column.corner[column.sides].z - column.corner[0].z;
  return LitSum(imager, solids, column, shades)
      .over({std::clamp(heights_m.low, 0.0, tall_m), std::clamp(heights_m.high, 0.0, tall_m)}, whole, cut);
}

}  // namespace belvedere::light
