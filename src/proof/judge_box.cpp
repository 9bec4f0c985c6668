// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "proof/sight.h"

namespace belvedere::proof {
namespace {

Over both(Over a, Over b) {
  if (a == Over::none || b == Over::none) return Over::none;
  return a == Over::all && b == Over::all ? Over::all : Over::mixed;
}

Over overOf(optics::Sharp sharp) {
  return sharp == optics::Sharp::none  ? Over::none
         : sharp == optics::Sharp::all ? Over::all
                                       : Over::mixed;
}

Over sharpOver(const Question& q, std::uint32_t index, const Slab& slab) {
  if (!q.conditions[index].sharp) return Over::all;
  const design::PosedImager& view = q.views[index];
  return overOf(optics::sharpOver(
      *q.conditions[index].sharp,
      optics::depthOver(view.imager_from_site.row[2], view.lens_m, slab.prism.corners())));
}

Over sharpOverBand(const Question& q, const Cell& cell, std::uint32_t index, const Slab& band, int slabs) {
  const Over sharp = sharpOver(q, index, band);
  if (sharp != Over::mixed || q.high_m <= q.low_m) return sharp;
  const auto partOf = [&](double low_m, double high_m) {
    return sharpOver(q, index, slabOf(q.floor, cell, low_m, high_m));
  };
  for (const double height_m : {q.low_m, q.high_m})
    if (partOf(height_m, height_m) == Over::none) return Over::none;
  const double step_m = (q.high_m - q.low_m) / slabs;
  for (int i = 0; i < slabs; ++i)
    if (slabs == 1 || partOf(q.low_m + i * step_m, q.low_m + (i + 1) * step_m) != Over::all)
      return Over::mixed;
  return Over::all;
}

// Light over heights above the low end of the band. `beside` goes with a cut.
Over litOver(const Question& q, std::uint32_t index, const Slab& band, const Interval& heights_m, bool whole,
             light::Shades& shades, std::optional<Cut>* cut, Beside* beside) {
  if (!q.conditions[index].light) return Over::all;
  std::optional<light::LitCut> proposed;
  const light::Lit lit = light::litOver(*q.conditions[index].light, q.solids(), band.prism, heights_m,
                                        whole, shades, cut ? &proposed : nullptr);
  if (proposed) {
    *cut = Cut{proposed->normal, {proposed->at - proposed->half_m, proposed->at + proposed->half_m}};
    if (proposed->proven) *beside = {Over::none, Over::all};
  }
  return lit == light::Lit::none ? Over::none : lit == light::Lit::all ? Over::all : Over::mixed;
}

// All tests but sight, over one slab. `framed`: the frame's test where it is exact.
Over testsOver(const Question& q, const design::PosedImager& view, const Cell& cell,
               const Slab& slab, const std::optional<Framed>& framed, int facing, bool whole,
               std::optional<Cut>* cut) {
  if (framed && framed->over == Over::none) return Over::none;
  std::optional<Cut> span_cut;
  const Over span = spanOver(view, cell, slab, whole, span_cut);
  if (span == Over::none) return Over::none;
  if (cut && span_cut) *cut = span_cut;
  Over frame = framed ? framed->over : Over::mixed, rest = span;
  const bool dense = surelyDense(view, slab, q.needed_px_per_m);
  if (!framed || !dense || !view.masks_px.empty()) {
    const optics::PictureBounds picture = pictureOf(view, slab);
    if (!framed) frame = frameOver(view, cell, picture, whole);
    if (frame == Over::none) return Over::none;
    const auto density = dense ? std::nullopt : densityOver(view, cell, picture);
    if (density && density->high < q.needed_px_per_m) return Over::none;
    if (!dense && !(density && density->low >= q.needed_px_per_m)) rest = Over::mixed;
    rest = both(rest, maskOver(view, cell, picture));
    if (cut && frame == Over::mixed && !(framed && framed->cut))
      if (const auto along = frameCut(view, cell, picture)) *cut = along;
  }
  if (cut && framed && framed->cut) *cut = framed->cut;
  if (facing >= 0) {
    const design::Facing& f = q.facings[static_cast<std::size_t>(facing)];
    rest = both(rest, elevationOver(view, cell, slab, f.elevation_max_deg, whole));
    rest = both(rest, yawOver(view, cell, f));
  }
  return both(frame, rest);
}

// The same where the whole band must pass: served when every slab of it passes, not served when
// the band or a level slice at one of its ends fails over the whole cell.
Over wholeBandTests(const Question& q, const design::PosedImager& view, const Cell& cell,
                    const Slab& whole, const std::optional<Framed>& framed, int facing, int slabs,
                    std::optional<Cut>& cut) {
  const double low_m = q.low_m, high_m = q.high_m;
  const Over band = testsOver(q, view, cell, whole, framed, facing, true, &cut);
  if (band != Over::mixed || high_m <= low_m) return band;
  if (framed && framed->cut) return band;  // its parts will know
  // Near the lens the band is too tall for its bounds to say much, and the slices at its ends, of
  // which mostly one is the worst, say more: also where the frame's edge lies.
  Over ends = Over::all;
  for (const double height_m : {low_m, high_m}) {
    const Slab slice = slabOf(q.floor, cell, height_m, height_m);
    const Over end = testsOver(q, view, cell, slice, frameByPlanes(view, slice, true), facing, true,
                               cut ? nullptr : &cut);
    ends = both(ends, end);
    if (end == Over::none) return end;
  }
  if (ends != Over::all || slabs <= 1) return Over::mixed;
  const double step_m = (high_m - low_m) / slabs;
  for (int i = 0; i < slabs; ++i) {
    const Slab slab = slabOf(q.floor, cell, low_m + i * step_m, low_m + (i + 1) * step_m);
    if (testsOver(q, view, cell, slab, frameByPlanes(view, slab, true), facing, true, nullptr) !=
        Over::all)
      return Over::mixed;
  }
  return Over::all;
}

// Where a share of the band is enough: the heights that surely pass and those that may.
Over shareOfBand(const Question& q, const design::PosedImager& view, const Cell& cell,
                 const Slab& band, ViewState& state, int facing, int slabs, light::Shades& shades) {
  gatherBodies(q, view, band, state);
  const scene::Scene& scene = q.place->scene;
  const double step_m = (q.high_m - q.low_m) / slabs;
  int surely = 0, perhaps = 0;
  std::vector<std::uint32_t> bodies;
  for (int i = 0; i < slabs; ++i) {
    const double low_m = q.low_m + step_m * i;
    const Slab slab = slabOf(q.floor, cell, low_m, low_m + step_m);
    Over over = testsOver(q, view, cell, slab, frameByPlanes(view, slab, false), facing, false, nullptr);
    if (over != Over::none && !q.conditions.empty()) {
      over = both(over, sharpOver(q, state.view, slab));
      if (over != Over::none)
        over = both(over, litOver(q, state.view, band, {step_m * i, step_m * (i + 1)}, false, shades, nullptr,
                                  nullptr));
    }
    if (over == Over::none) continue;
    if (!state.clear) {
      scene::bodiesIn(scene, *state.bodies, scene::makeShaft(view.lens_m, slab.prism), bodies);
      const bool hidden = std::any_of(bodies.begin(), bodies.end(), [&](std::uint32_t index) {
        return scene::hidesAll(scene, scene.bodies[index], view.lens_m, slab.prism.corners());
      });
      if (hidden) continue;
      if (!bodies.empty()) over = Over::mixed;
    }
    ++perhaps;
    if (over == Over::all) ++surely;
  }
  const double needed = q.height_share * slabs;
  if (surely >= needed - 1e-9) return Over::all;
  return perhaps < needed - 1e-9 ? Over::none : Over::mixed;
}

}  // namespace

Cell boxCell(Vec2 centre, Vec2 half_x, Vec2 half_y) {
  return {{centre - half_x - half_y, centre + half_x - half_y, centre + half_x + half_y,
           centre - half_x + half_y}, centre, half_x, half_y};
}

Over judgeCell(const Question& q, const Cell& cell, ViewState& state, int facing, int slabs,
               std::optional<Cut>& cut) {
  light::Shades shades;
  Beside beside;
  return judgeCell(q, cell, slabOf(q.floor, cell, q.low_m, q.high_m), state, facing, slabs, shades, cut, beside);
}

Over judgeCell(const Question& q, const Cell& cell, const Slab& band, ViewState& state, int facing,
               int slabs, light::Shades& shades, std::optional<Cut>& cut, Beside& beside) {
  const design::PosedImager& view = q.views[state.view];
  if (q.height_share < 1 && q.high_m > q.low_m)
    return shareOfBand(q, view, cell, band, state, facing, std::max(8, 4 * slabs), shades);
  const bool asked_before = state.clear || state.bodies;
  const std::optional<Framed> framed = frameByPlanes(view, band, true);
  if (framed && framed->over == Over::none) return Over::none;
  if (!asked_before && hiddenAtAGlance(q, view, cell, band)) return Over::none;
  Over over = wholeBandTests(q, view, cell, band, framed, facing, slabs, cut);
  if (over == Over::none) return over;
  // Gathering what stands between is left to the parts where the view is undecided anyway.
  if (over == Over::mixed && !asked_before && cut) return over;
  if (!q.conditions.empty()) over = both(over, sharpOverBand(q, cell, state.view, band, slabs));
  if (over == Over::none) return over;
  over = both(over, sightOver(q, view, cell, band, state, slabs, cut));
  if (over == Over::none) return over;
  // Light is asked for last, for it costs most; where the cell is cut anyway, of its parts.
  if (!q.conditions.empty() && !(over == Over::mixed && cut)) {
    const Interval heights_m{0, q.high_m - q.low_m};
    const Over rest = over;
    over = both(over, litOver(q, state.view, band, heights_m, true, shades, cut ? nullptr : &cut, &beside));
    if (beside.beyond == Over::all) beside.beyond = rest;
  }
  if (over != Over::mixed) cut.reset();  // and what is beside it goes for nothing
  return over;
}

}  // namespace belvedere::proof
