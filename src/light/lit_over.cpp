// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <iterator>

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
// Slabs need not be thinner than so many times the column's width: smaller columns say more.
constexpr double kThin = 2;
// A cut along the edge of light is worth making where it settles this share of the column; where it settles so much,
// thinner slabs need not be asked.
constexpr double kWorthCut = 0.15, kWorthNoMore = 0.5;

}  // namespace

LitSum::LitSum(const ImagerLight& imager, const Solids& solids, const scene::Prism& column, Shades& shades)
    : imager_(imager), solids_(solids), column_(column), shades_(shades),
      ambient_(imager.light->ambient_lux / *imager.needed.lux) {
  const std::vector<Luminaire>& luminaires = imager.light->luminaires;
  for (std::size_t i = 0; i < luminaires.size(); ++i)
    parts_.push_back({luminaires[i].at_m, scene::Band::light, i, i, nullptr});
  for (std::size_t i = 0; imager.lamps && i < imager.lamps->size(); ++i) {
    const Lamp& lamp = (*imager.lamps)[i];
    if (imager.burns[i] && !(imager.mode == Mode::colour && lamp.infrared()))
      parts_.push_back({lamp.at_m, lamp.band(), luminaires.size() + i,
                        luminaires.size() + (lamp.moved > 0 ? imager.lamps->size() + lamp.moved - 1 : i), nullptr});
  }
  Box3 box;
  for (const Vec3& c : column.lower()) box.add(c);
  const Vec3 size = box.high - box.low;
  level_ = size.z == 0;
  side_m_ = std::max(size.x, size.y);
  if (!imager.level) normals_ = normalsInPlan(imager.lens_m, column.lower());
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
    // What hides all of a larger column hides this one.
    if (!shades_.isDark(parts_[i].number)) open[i] = openOver(parts_[i], slab, casts[i]);
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
  if (!part.shade) part.shade = &shades_.of(part.number, solids_, part.from, part.band, column_);
  if (!comesBack(part) || back_) return;
  const std::size_t lights =
      imager_.light->luminaires.size() + (imager_.lamps ? imager_.lamps->size() + imager_.moved_lamps : 0);
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

LitLook LitSum::look(const LitPending& pending, bool whole) {
  const LitSlab slab = slabOver(pending.heights_m);
  LitOpen lights = pending.larger ? *pending.larger : brightestFirst(slab);
  std::vector<Interval>& open = lights.open;
  static thread_local std::vector<Interval> still;
  still.assign(parts_.size() + 1, {});
  for (std::size_t i = parts_.size(); i-- > 0;) {
    // What is known well enough of a larger slab need not be asked again.
    if (pending.larger && open[i].high - open[i].low > kWellKnown)
      open[i] = openOver(parts_[i], slab, lights.casts[i]);
    still[i] = still[i + 1] + open[i];
  }
  // All that is still to be asked for may be there or not: from nothing to the whole sum.
  Interval known(ambient_);
  double vague = 0;  // how far apart the bounds of what is known are in any case
  std::size_t asked = 0;
  for (;; ++asked) {
    if (surelyDark(known + still[asked])) return {Lit::none};
    if (surelyLit(known)) return {Lit::all};
    if (asked == parts_.size() || still[asked].high < std::clamp(kFaintBeside * vague, kFaint, kFaintMost)) break;
    vague += open[asked].high - open[asked].low;
    if (open[asked].high <= 0) continue;
    ask(parts_[asked]);
    known = known + passing(open[asked], passesOver(parts_[asked], pending.heights_m));
  }
  const double rest_high = still[asked].high;
  LitSteps steps = stepsOver(pending.heights_m, lights, asked, rest_high);
  const auto isDark = [](const LitStep& step) { return surelyDark(step.sum); };
  if (whole && std::ranges::any_of(steps.all, isDark)) return {Lit::none};
  bySlopes(steps, slab, lights, rest_high);
  if (whole ? std::ranges::any_of(steps.all, isDark) : std::ranges::all_of(steps.all, isDark)) return {Lit::none};
  LitLook found;
  if (whole && level_) found.cut = shadowCut(steps, open);
  for (LitStep& step : steps.all)
    if (!surelyLit(step.sum)) found.unknown.push_back({slab.middle, std::move(step)});
  if (found.unknown.empty()) found.lit = Lit::all;
  found.thinner = pending.heights_m.high - pending.heights_m.low > kThin * side_m_;
  if (found.thinner) found.lights = std::make_shared<LitOpen>(std::move(lights));
  return found;
}

namespace {

// What is not known of a slab, in two halves, or at once where that is little.
void halve(const LitLook& found, const LitPending& slab, std::vector<LitPending>& into) {
  Interval unknown = found.unknown.front().step.heights_m;
  for (const LitUnknown& one : found.unknown) unknown = hull(unknown, one.step.heights_m);
  if (unknown.radius() <= 0.5 * slab.heights_m.radius()) {
    into.push_back({unknown, found.lights});
    return;
  }
  into.push_back({{unknown.low, unknown.mid()}, found.lights});
  into.push_back({{unknown.mid(), unknown.high}, found.lights});
}

}  // namespace

Lit LitSum::over(const Interval& heights_m, bool whole, std::optional<LitCut>* cut) {
  if (!whole) return look({heights_m, nullptr}, whole).lit;
  // What was found of a larger column holds for this one.
  const Interval dim = shades_.dimHeights(imager_.number);
  const Interval asked{std::max(heights_m.low, dim.low), std::min(heights_m.high, dim.high)};
  if (asked.low > asked.high) return Lit::all;
  // Slabs of one thickness after another, of those heights that are not known, until a cut settles enough.
  std::vector<LitPending> pending{{asked, nullptr}};
  std::vector<LitUnknown> leaves;  // slabs than which none thinner are asked for
  std::optional<LitCut> along, settled;
  Interval dim_left{1, -1};
  while (!pending.empty()) {
    std::vector<LitPending> thinner;
    std::vector<LitUnknown> coarse;  // known better by the next thickness
    for (const LitPending& slab : pending) {
      LitLook found = look(slab, whole);
      if (found.lit == Lit::none) return Lit::none;
      if (found.lit == Lit::all) continue;
      if (found.cut && (!along || (found.cut->proven && !along->proven))) along = found.cut;
      if (found.thinner) halve(found, slab, thinner);
      std::vector<LitUnknown>& to = found.thinner ? coarse : leaves;
      std::move(found.unknown.begin(), found.unknown.end(), std::back_inserter(to));
      // The edge between light and dark surely runs across: nothing more need be known.
      if (along && along->proven) break;
    }
    dim_left = {1, -1};
    std::vector<const LitUnknown*> unknown;
    for (const std::vector<LitUnknown>* some : {&leaves, &coarse})
      for (const LitUnknown& one : *some) {
        unknown.push_back(&one);
        dim_left = dim_left.low > dim_left.high ? one.step.heights_m : hull(dim_left, one.step.heights_m);
      }
    if (along && along->proven) {
      dim_left = asked;
      break;
    }
    if (level_ && !unknown.empty()) settled = contourCut(unknown, thinner.empty() ? kWorthCut : kWorthNoMore);
    if (settled) break;
    pending = std::move(thinner);
  }
  shades_.setDimHeights(imager_.number, dim_left);
  if (dim_left.low > dim_left.high) return Lit::all;
  if (!cut || !level_) return Lit::some;
  // Where a shadow's edge runs across, light ends there as far as one can tell: that is not proven.
  if (along) along->proven = false;
  *cut = settled ? settled : along;
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
