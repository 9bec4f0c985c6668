// SPDX-License-Identifier: GPL-3.0-or-later
//
// Closing the circle of a housing's imagers.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "edit/aim_group.h"
#include "edit/aim_stops.h"
#include "proof/blind.h"

namespace belvedere::edit {
namespace {

// What an imager covers of the circle at a depression, as offsets from its pan.
struct Arc {
  ImagerRef ref;
  double pan_deg = 0;
  double from_deg = 0, width_deg = 0;
  bool turns = false;
};

std::optional<Arc> arcOf(const design::Design& design, const design::Housing& housing,
                         const design::HousingImager& imager, double depression_deg) {
  design::Housing alone = housing;
  alone.imagers = {imager};
  const auto rings = proof::ringOf(design, alone, {depression_deg});
  Arc arc;
  arc.ref = {housing.id, imager.slot, 0};
  arc.pan_deg = imager.aims.front().pan_deg;
  for (const proof::RingArc& found : rings.front().arcs) {
    double width = found.to_deg - found.from_deg;
    if (width < 0) width += kTurnDeg;
    if (width <= arc.width_deg) continue;
    arc.width_deg = width;
    arc.from_deg = wrap180(found.from_deg - arc.pan_deg);
  }
  return arc.width_deg > 0 ? std::optional(arc) : std::nullopt;
}

}  // namespace

Spread closeTheCircle(const design::Design& design, const design::HousingId& id,
                      double depression_deg, double overlap_deg) {
  Spread spread{design, 0, {}};
  const design::Housing* housing = design::findHousing(design, id);
  if (!housing) {
    spread.says.push_back(fmt::format("there is no {}", id.text));
    return spread;
  }
  std::vector<Arc> arcs;
  for (const design::HousingImager& imager : housing->imagers) {
    if (imager.aims.empty()) continue;
    const auto arc = arcOf(design, *housing, imager, depression_deg);
    if (!arc) {
      spread.says.push_back(fmt::format("{} does not look {:.0f} deg below the horizon",
                                        nameOf({id, imager.slot, 0}), depression_deg));
      continue;
    }
    arcs.push_back(*arc);
    const auto parts = partsOf(design, arc->ref);
    arcs.back().turns = parts && mayTurn(*parts) && arc->width_deg < kTurnDeg;
    if (!arcs.back().turns && arc->width_deg < kTurnDeg)
      spread.says.push_back(fmt::format("{} stays: it {}", nameOf(arc->ref),
                                        imager.locked ? "is locked" : "has several aims"));
  }
  const bool all_round =
      std::ranges::any_of(arcs, [](const Arc& arc) { return arc.width_deg >= kTurnDeg; });
  if (arcs.empty() || all_round) return spread;  // nothing to close with, or closed
  const auto middle = [](const Arc& a) { return a.pan_deg + a.from_deg + 0.5 * a.width_deg; };
  std::stable_sort(arcs.begin(), arcs.end(), [&](const Arc& a, const Arc& b) {
    return wrap360(middle(a)) < wrap360(middle(b));
  });
  // From one that stays to the next, if any do.
  const auto fixed = std::ranges::find_if(arcs, [](const Arc& arc) { return !arc.turns; });
  const bool any_fixed = fixed != arcs.end();
  if (any_fixed) std::rotate(arcs.begin(), fixed, arcs.end());
  std::vector<std::pair<ImagerRef, design::Aim>> aims;
  const auto turnTo = [&](const Arc& arc, double start_deg) {
    design::Aim aim = *partsOf(design, arc.ref)->aim;
    aim.pan_deg = start_deg - arc.from_deg;
    aims.push_back({arc.ref, roundedAim(aim)});
  };
  const std::size_t count = arcs.size();
  if (!any_fixed) {
    double covered = 0;
    for (const Arc& arc : arcs) covered += arc.width_deg;
    const double joint = (covered - kTurnDeg) / static_cast<double>(count);
    spread.missing_deg = std::max(0.0, static_cast<double>(count) * (overlap_deg - joint));
    // Starts with the first where it is; then all are turned together so that their turns add up
    // to nothing.
    std::vector<double> starts;
    double at = arcs[0].pan_deg + arcs[0].from_deg, turned = 0;
    for (const Arc& arc : arcs) {
      starts.push_back(at);
      turned += wrap180(at - arc.pan_deg - arc.from_deg);
      at += arc.width_deg - joint;
    }
    for (std::size_t i = 0; i < count; ++i)
      turnTo(arcs[i], starts[i] - turned / static_cast<double>(count));
  } else {
    for (std::size_t i = 0; i < count;) {
      std::size_t next = i + 1;
      double covered = 0;
      while (next < count && arcs[next].turns) covered += arcs[next++].width_deg;
      const Arc& from = arcs[i];
      const Arc& to = arcs[next % count];
      const double end = from.pan_deg + from.from_deg + from.width_deg;
      double length = wrap360(to.pan_deg + to.from_deg - end);
      // Two that overlap already, with none between, leave nothing open.
      const bool lone = next == i + 1;
      if (lone && count > 1 && length > kTurnDeg - std::min(from.width_deg, to.width_deg))
        length -= kTurnDeg;
      if (lone && count == 1) length = kTurnDeg - from.width_deg;
      const double joints = static_cast<double>(next - i);
      const double joint = (covered - length) / joints;
      spread.missing_deg += std::max(0.0, joints * (overlap_deg - joint));
      double at = end - joint;
      for (std::size_t k = i + 1; k < next; ++k) {
        turnTo(arcs[k], at);
        at += arcs[k].width_deg - joint;
      }
      i = next;
    }
  }
  if (spread.missing_deg > 1e-6)
    spread.says.push_back(fmt::format("{:.1f} deg are missing for {:.1f} deg of overlap",
                                      spread.missing_deg, overlap_deg));
  else
    spread.missing_deg = 0;
  Aimed aimed = withAims(design, aims);
  spread.design = std::move(aimed.design);
  if (aimed.at_stop) spread.says.push_back(aimed.stop);
  return spread;
}

}  // namespace belvedere::edit
