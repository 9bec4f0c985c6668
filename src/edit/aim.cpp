// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/aim.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/problem.h"
#include "base/units.h"
#include "edit/aim_stops.h"
#include "edit/lengths.h"

namespace belvedere::edit {
namespace {

// The aim stopped where its neighbours on the ring begin.
design::Aim onRing(const ImagerParts& parts, const std::string& name, design::Aim aim,
                   std::string* stop) {
  const std::vector<Neighbour> neighbours = neighboursOf(parts);
  const design::PanTilt to = inHousing(parts, aim);
  if (neighbours.empty() || !hasPan(to)) return aim;
  const design::PanTilt now = inHousing(parts, *parts.aim);
  const double from = intoArc(now.pan_deg, parts.imager->pan_deg);
  const Way way = wayFrom(parts, neighbours, from);
  const double turn = wrap180(to.pan_deg - from);
  for (const double way_round : {turn, turn - kTurnDeg, turn + kTurnDeg})
    if (way_round >= -way.back_deg - kSlackDeg && way_round <= way.on_deg + kSlackDeg) return aim;
  const double back = from - way.back_deg, on = from + way.on_deg;
  bool goes_on = std::abs(wrap180(to.pan_deg - on)) <= std::abs(wrap180(to.pan_deg - back));
  double held = goes_on ? on : back;
  if (way.back_deg + way.on_deg < 0) held = 0.5 * (back + on);  // no room: midway
  const int slot = goes_on ? way.on_slot : way.back_slot;
  if (slot != 0)
    say(stop, fmt::format("{} cannot pass imager {} on their ring", name, slot));
  else
    say(stop, fmt::format("{} is at its pan stop", name));
  return fromHousing(parts, aim, {held, to.tilt_deg});
}

// ---- changing a design --------------------------------------------------------------------------

design::Housing* housingIn(design::Design& design, const design::HousingId& id) {
  for (design::Housing& housing : design.housings)
    if (housing.id == id) return &housing;
  return nullptr;
}
void setAim(design::Design& design, const ImagerRef& ref, const design::Aim& aim) {
  if (design::Housing* housing = housingIn(design, ref.housing))
    for (design::HousingImager& imager : housing->imagers)
      if (imager.slot == ref.slot && ref.aim < imager.aims.size()) imager.aims[ref.aim] = aim;
}
Aimed notThere(const design::Design& design, const std::string& name) {
  return {design, true, fmt::format("there is no {}", name)};
}

// One ring's members pushed apart; those of `turned` move.
void pushApart(design::Design& design, const design::HousingId& id, const design::Shared& shared,
               const std::set<int>& turned, std::string* stop) {
  struct Member {
    int slot;
    design::PanTilt at;
  };
  std::vector<Member> ring;
  const design::Housing* housing = design::findHousing(design, id);
  for (const design::HousingImager& imager : housing->imagers) {
    if (!shares(shared, imager.slot) || imager.aims.size() != 1) continue;
    const auto at = design::housingFromSite(housing->mount,
                                            {imager.aims[0].pan_deg, imager.aims[0].tilt_deg});
    if (hasPan(at)) ring.push_back({imager.slot, at});
  }
  if (ring.size() < 2) return;
  for (Member& member : ring) member.at.pan_deg = wrap360(member.at.pan_deg);
  std::stable_sort(ring.begin(), ring.end(),
                   [](const Member& a, const Member& b) { return a.at.pan_deg < b.at.pan_deg; });
  const double apart = *shared.value;
  const auto gap = [&](std::size_t i) {
    const Member &a = ring[i], &b = ring[(i + 1) % ring.size()];
    return b.at.pan_deg - a.at.pan_deg + (i + 1 == ring.size() ? kTurnDeg : 0);
  };
  bool moved = false, settled = false;
  constexpr int kPasses = 500;
  for (int pass = 0; pass < kPasses && !settled; ++pass) {
    settled = true;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const double lacks = apart - gap(i);
      if (lacks <= kSlackDeg) continue;
      Member &a = ring[i], &b = ring[(i + 1) % ring.size()];
      const bool a_moves = turned.contains(a.slot), b_moves = turned.contains(b.slot);
      if (!a_moves && !b_moves) continue;
      settled = false;
      moved = true;
      const auto stopped = [&](Member& member, double by) {
        const auto parts = partsOf(design, {id, member.slot, 0});
        const double pan = member.at.pan_deg + by;  // not brought into a turn: order stays
        member.at.pan_deg = pan + wrap180(intoArc(pan, parts->imager->pan_deg) - pan);
      };
      if (a_moves) stopped(a, b_moves ? -0.5 * lacks : -lacks);
      if (b_moves) stopped(b, a_moves ? 0.5 * lacks : lacks);
    }
  }
  if (!moved) return;
  for (const Member& member : ring) {
    const ImagerRef ref{id, member.slot, 0};
    const auto parts = partsOf(design, ref);
    setAim(design, ref, fromHousing(*parts, *parts->aim, member.at));
  }
  say(stop, fmt::format("imagers of {} were kept {:.1f} deg apart on their ring", id.text, apart));
}

}  // namespace

std::optional<ImagerParts> partsOf(const design::Design& design, const ImagerRef& ref) {
  ImagerParts parts;
  parts.housing = design::findHousing(design, ref.housing);
  if (!parts.housing) return {};
  for (const design::HousingImager& imager : parts.housing->imagers)
    if (imager.slot == ref.slot) parts.written = &imager;
  if (!parts.written || ref.aim >= parts.written->aims.size()) return {};
  parts.aim = &parts.written->aims[ref.aim];
  parts.model = design::findModel(design, parts.housing->model);
  parts.imager = parts.model ? design::findImager(*parts.model, ref.slot) : nullptr;
  if (!parts.imager) return {};
  if (!parts.housing->mount.model.empty())
    parts.mount_model = design::findModel(design, parts.housing->mount.model);
  return parts;
}

std::string nameOf(const ImagerRef& imager) {
  return fmt::format("{}.{}", imager.housing.text, imager.slot);
}

std::optional<design::PosedImager> posedOf(const design::Design& design, const ImagerRef& ref,
                                           design::JudgedOn judged_on) {
  const auto parts = partsOf(design, ref);
  if (!parts) return {};
  design::Housing alone = *parts->housing;
  alone.imagers = {*parts->written};
  try {
    for (design::PosedImager& posed : design::posedImagersOf(design, alone, judged_on))
      if (posed.aim == ref.aim) return std::move(posed);
  } catch (const InputError&) {
  }
  return {};
}

design::Aim roundedAim(design::Aim aim) {
  const auto rounded = [](double value) { return std::round(value / kDragStep) * kDragStep; };
  // Divided, not multiplied: 43.2184 is written as such.
  const auto tidy = [&](double value) { return std::round(rounded(value) * 1e4) / 1e4; };
  aim.pan_deg = bearing(tidy(bearing(aim.pan_deg)));
  aim.tilt_deg = std::clamp(tidy(aim.tilt_deg), -90.0, 90.0) + 0.0;
  aim.roll_deg = tidy(aim.roll_deg) + 0.0;
  if (aim.hfov_deg) aim.hfov_deg = tidy(*aim.hfov_deg);
  if (aim.focal_mm) aim.focal_mm = tidy(*aim.focal_mm);
  return aim;
}

design::Aim atZoomShare(const design::ModelImager& imager, const optics::Zoom& zoom,
                        design::Aim aim, double share) {
  const auto hfov =
      optics::fieldsOfView(optics::lensAtShare(zoom, share), imager.pixels).hfov_deg;
  const auto focal = optics::focalAtShare(zoom, share);
  const bool by_focal = focal && (!hfov || aim.focal_mm ||
                                  (!aim.hfov_deg && imager.lens.hfov_deg.size() != 2));
  aim.hfov_deg.reset();
  aim.focal_mm.reset();
  if (by_focal) aim.focal_mm = focal;
  else aim.hfov_deg = hfov;
  return aim;
}

Aimed withAim(const design::Design& design, const ImagerRef& ref, const design::Aim& aim) {
  const auto parts = partsOf(design, ref);
  if (!parts) return notThere(design, nameOf(ref));
  Aimed result{design, false, {}};
  const std::string name = nameOf(ref);
  const design::Aim held = withinStops(*parts, name, aim, &result.stop);
  setAim(result.design, ref, onRing(*parts, name, held, &result.stop));
  result.at_stop = !result.stop.empty();
  return result;
}

Aimed withAims(const design::Design& design,
               const std::vector<std::pair<ImagerRef, design::Aim>>& aims) {
  Aimed result{design, false, {}};
  std::vector<std::pair<design::HousingId, std::set<int>>> turned;
  for (const auto& [ref, aim] : aims) {
    const auto parts = partsOf(design, ref);
    if (!parts) {
      say(&result.stop, fmt::format("there is no {}", nameOf(ref)));
      continue;
    }
    setAim(result.design, ref, withinStops(*parts, nameOf(ref), aim, &result.stop));
    auto at = std::ranges::find(turned, ref.housing, &decltype(turned)::value_type::first);
    if (at == turned.end()) at = turned.insert(at, {ref.housing, {}});
    at->second.insert(ref.slot);
  }
  for (const auto& [housing, slots] : turned)
    if (const design::Model* model =
            design::findModel(design, design::findHousing(design, housing)->model))
      for (const design::Shared& shared : model->shared)
        if (shared.rule == "apart_deg" && shared.value)
          pushApart(result.design, housing, shared, slots, &result.stop);
  result.at_stop = !result.stop.empty();
  return result;
}

namespace {
template <class Change>
Aimed withChangedAim(const design::Design& design, const ImagerRef& ref, Change change) {
  const auto parts = partsOf(design, ref);
  if (!parts) return notThere(design, nameOf(ref));
  design::Aim aim = *parts->aim;
  change(aim);
  return withAim(design, ref, aim);
}
template <class Change>
Aimed withChangedBase(const design::Design& design, const design::HousingId& id, Aims aims,
                      Change change) {
  Aimed result{design, false, {}};
  design::Housing* housing = housingIn(result.design, id);
  if (!housing) return notThere(design, id.text);
  const design::Mount before = housing->mount;
  change(housing->mount);
  for (design::HousingImager& imager : housing->imagers)
    for (std::size_t i = 0; i < imager.aims.size(); ++i) {
      design::Aim& aim = imager.aims[i];
      if (aims == Aims::turn_along) {
        const auto at = design::siteFromHousing(
            housing->mount, design::housingFromSite(before, {aim.pan_deg, aim.tilt_deg}));
        aim.pan_deg = bearing(at.pan_deg);
        aim.tilt_deg = at.tilt_deg;
      }
      const ImagerRef ref{id, imager.slot, i};
      if (const auto parts = partsOf(result.design, ref))
        aim = withinStops(*parts, nameOf(ref), aim, &result.stop);
    }
  result.at_stop = !result.stop.empty();
  return result;
}
}  // namespace

Aimed withPan(const design::Design& design, const ImagerRef& imager, double pan_deg) {
  return withChangedAim(design, imager, [&](design::Aim& aim) { aim.pan_deg = pan_deg; });
}
Aimed withTilt(const design::Design& design, const ImagerRef& imager, double tilt_deg) {
  return withChangedAim(design, imager, [&](design::Aim& aim) { aim.tilt_deg = tilt_deg; });
}
Aimed withRoll(const design::Design& design, const ImagerRef& imager, double roll_deg) {
  return withChangedAim(design, imager, [&](design::Aim& aim) { aim.roll_deg = roll_deg; });
}
Aimed withHfov(const design::Design& design, const ImagerRef& imager, double hfov_deg) {
  return withChangedAim(design, imager, [&](design::Aim& aim) {
    aim.hfov_deg = hfov_deg;
    aim.focal_mm.reset();
  });
}
Aimed withFocal(const design::Design& design, const ImagerRef& imager, double focal_mm) {
  return withChangedAim(design, imager, [&](design::Aim& aim) {
    aim.focal_mm = focal_mm;
    aim.hfov_deg.reset();
  });
}

namespace {
// "C1.2: f/1.6 to f/64 can be set"
std::string outOfReach(const ImagerRef& ref, const std::string& least, const std::string& most) {
  return fmt::format("{}: {} to {} can be set", nameOf(ref), least, most);
}

// A setting of the imager itself, brought within [least, most], which `said` says.
Aimed withSetting(const design::Design& design, const ImagerRef& ref,
                  std::optional<double> design::HousingImager::*setting,
                  std::optional<double> value, double least, double most,
                  std::string (*said)(double)) {
  Aimed result{design, false, {}};
  design::Housing* housing = housingIn(result.design, ref.housing);
  if (!housing) return notThere(design, nameOf(ref));
  for (design::HousingImager& imager : housing->imagers) {
    if (imager.slot != ref.slot) continue;
    if (value && (*value < least || *value > most)) {
      value = std::clamp(*value, least, most);
      result.at_stop = true;
      result.stop = outOfReach(ref, said(least), said(most));
    }
    imager.*setting = value;
    return result;
  }
  return notThere(design, nameOf(ref));
}
}  // namespace

Aimed withFocus(const design::Design& design, const ImagerRef& imager,
                std::optional<double> focus_m) {
  constexpr double kLeastM = 0.05, kMostM = 1e5;
  Aimed focused = withChangedAim(design, imager, [&](design::Aim& aim) {
    aim.focus_m = focus_m ? std::optional(std::clamp(*focus_m, kLeastM, kMostM)) : std::nullopt;
  });
  if (focus_m && (*focus_m < kLeastM || *focus_m > kMostM)) {
    focused.at_stop = true;
    focused.stop = outOfReach(imager, lengthText(kLeastM, Units::metric), lengthText(kMostM, Units::metric));
  }
  return focused;
}
Aimed withExposure(const design::Design& design, const ImagerRef& imager,
                   std::optional<double> exposure_s) {
  return withSetting(design, imager, &design::HousingImager::exposure_s, exposure_s, 1e-6, 60,
                     exposureText);
}
Aimed withAperture(const design::Design& design, const ImagerRef& imager,
                   std::optional<double> f_number) {
  const auto posed = posedOf(design, imager, design::JudgedOn::captured);
  const double widest = posed ? posed->widest_f_number.value_or(0.5) : 0.5;
  return withSetting(design, imager, &design::HousingImager::f_number, f_number, widest, 64,
                     apertureText);
}

namespace {
template <class Change>
Aimed withChangedAims(const design::Design& design, const ImagerRef& ref, Change change) {
  Aimed result{design, false, {}};
  if (design::Housing* housing = housingIn(result.design, ref.housing))
    for (design::HousingImager& imager : housing->imagers)
      if (imager.slot == ref.slot && ref.aim < imager.aims.size()) {
        change(imager.aims, static_cast<std::ptrdiff_t>(ref.aim), result.stop);
        result.at_stop = !result.stop.empty();
        return result;
      }
  return notThere(design, nameOf(ref));
}
}  // namespace

Aimed withAnotherAim(const design::Design& design, const ImagerRef& ref) {
  return withChangedAims(design, ref, [](auto& aims, std::ptrdiff_t at, std::string&) {
    design::Aim& now = aims[static_cast<std::size_t>(at)];
    now.time_share *= 0.5;
    const design::Aim another = now;
    aims.insert(aims.begin() + at + 1, another);
  });
}
Aimed withoutAim(const design::Design& design, const ImagerRef& ref) {
  Aimed result = withChangedAims(design, ref, [&](auto& aims, std::ptrdiff_t at, std::string& stop) {
    if (aims.size() == 1) {
      stop = fmt::format("{} has one aim, which stays", nameOf(ref));
      return;
    }
    aims[static_cast<std::size_t>(at > 0 ? at - 1 : 1)].time_share +=
        aims[static_cast<std::size_t>(at)].time_share;
    aims.erase(aims.begin() + at);
  });
  // With one aim it is on its ring again.
  const ImagerRef first{ref.housing, ref.slot, 0};
  const auto parts = partsOf(result.design, first);
  if (result.at_stop || !parts || parts->written->aims.size() != 1) return result;
  return withAims(result.design, {{first, *parts->aim}});
}

Aimed withBaseBearing(const design::Design& design, const design::HousingId& housing,
                      double bearing_deg, Aims aims) {
  return withChangedBase(design, housing, aims, [&](design::Mount& mount) {
    mount.base_bearing_deg = bearing(bearing_deg);
  });
}
Aimed withBaseTilt(const design::Design& design, const design::HousingId& housing, double tilt_deg,
                   Aims aims) {
  return withChangedBase(design, housing, aims, [&](design::Mount& mount) {
    mount.base_tilt_deg = std::clamp(tilt_deg, -180.0, 180.0);
  });
}

}  // namespace belvedere::edit
