// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/aim.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/problem.h"
#include "base/units.h"

namespace belvedere::edit {
namespace {

constexpr double kSlackDeg = 1e-9;     // beyond a stop by less than this is at it
constexpr double kAlongAxisDeg = 0.01; // so near to the base's axis an imager has no pan
constexpr double kTurnDeg = 360;

double bearing(double deg) {
  const double turned = wrap360(deg);
  return turned >= kTurnDeg ? 0 : turned;  // what is a hair below 0 rounds up to a whole turn
}
bool level(const design::Mount& mount) { return mount.base_tilt_deg == 0; }
bool allRound(const design::Range& limits) { return limits[1] - limits[0] >= kTurnDeg; }

// The angle itself within an arc, else its nearer end.
double intoArc(double deg, const design::Range& arc) {
  const double width = arc[1] - arc[0];
  if (width >= kTurnDeg) return deg;
  const double past = wrap360(deg - arc[0]);
  if (past <= width + kSlackDeg || past >= kTurnDeg - kSlackDeg) return deg;
  return past - width <= kTurnDeg - past ? arc[1] : arc[0];
}
bool inArc(double deg, const design::Range& arc) { return intoArc(deg, arc) == deg; }

void say(std::string* stop, const std::string& sentence) {
  if (!stop) return;
  if (!stop->empty()) *stop += "; ";
  *stop += sentence;
}

design::PanTilt inHousing(const ImagerParts& parts, const design::Aim& aim) {
  return design::housingFromSite(parts.housing->mount, {aim.pan_deg, aim.tilt_deg});
}
design::Aim fromHousing(const ImagerParts& parts, design::Aim aim, design::PanTilt in_housing) {
  const design::PanTilt site = design::siteFromHousing(parts.housing->mount, in_housing);
  aim.pan_deg = bearing(site.pan_deg);
  aim.tilt_deg = site.tilt_deg;
  return aim;
}
bool hasPan(const design::PanTilt& in_housing) {
  return std::abs(std::abs(in_housing.tilt_deg) - 90) >= kAlongAxisDeg;
}

// ---- rings --------------------------------------------------------------------------------------

struct Neighbour {
  int slot = 0;
  double pan_deg = 0, apart_deg = 0;
};
bool shares(const design::Shared& shared, int slot) {
  return shared.rule == "apart_deg" && shared.value &&
         (shared.slots.empty() || std::ranges::find(shared.slots, slot) != shared.slots.end());
}
// Those that an imager may not come near to; none for one with several aims.
std::vector<Neighbour> neighboursOf(const ImagerParts& parts) {
  std::vector<Neighbour> found;
  if (parts.written->aims.size() != 1) return found;
  for (const design::Shared& shared : parts.model->shared) {
    if (!shares(shared, parts.written->slot)) continue;
    for (const design::HousingImager& other : parts.housing->imagers) {
      if (other.slot == parts.written->slot || other.aims.size() != 1 || !shares(shared, other.slot))
        continue;
      const auto at = design::housingFromSite(parts.housing->mount,
                                              {other.aims[0].pan_deg, other.aims[0].tilt_deg});
      if (hasPan(at)) found.push_back({other.slot, at.pan_deg, *shared.value});
    }
  }
  return found;
}

// How far an imager can turn either way from a pan of the housing's frame before a stop or a
// neighbour; negative where it stands too near already.
struct Way {
  double back_deg = kTurnDeg, on_deg = kTurnDeg;
  int back_slot = 0, on_slot = 0;  // the neighbour that bounds it; 0: none
};
Way wayFrom(const ImagerParts& parts, const std::vector<Neighbour>& neighbours, double pan_deg) {
  Way way;
  const design::Range& limits = parts.imager->pan_deg;
  if (!allRound(limits)) {
    way.back_deg = wrap360(pan_deg - limits[0]);
    if (way.back_deg > kTurnDeg - kSlackDeg) way.back_deg = 0;
    way.on_deg = limits[1] - limits[0] - way.back_deg;
  }
  for (const Neighbour& n : neighbours) {
    const double on = wrap360(n.pan_deg - pan_deg) - n.apart_deg;
    const double back = wrap360(pan_deg - n.pan_deg) - n.apart_deg;
    if (on < way.on_deg) {
      way.on_deg = on;
      way.on_slot = n.slot;
    }
    if (back < way.back_deg) {
      way.back_deg = back;
      way.back_slot = n.slot;
    }
  }
  return way;
}

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

// ---- limits as arcs -----------------------------------------------------------------------------

// Where a condition holds between low and high: scanned, then bisected.
template <class Holds>
std::vector<design::Range> where(double low, double high, Holds holds) {
  constexpr double kStepDeg = 0.25;
  const int steps = static_cast<int>(std::ceil((high - low) / kStepDeg));
  const auto at = [&](int i) { return i == steps ? high : low + kStepDeg * i; };
  const auto end = [&](double inside, double outside) {
    while (std::abs(inside - outside) > 0.1 * kLimitDeg) {
      const double middle = 0.5 * (inside + outside);
      (holds(middle) ? inside : outside) = middle;
    }
    return inside;
  };
  std::vector<design::Range> found;
  bool open = false;
  for (int i = 0; i <= steps; ++i) {
    const bool inside = holds(at(i));
    if (inside && !open) found.push_back({i == 0 ? low : end(at(i), at(i - 1)), at(i)});
    if (!inside && open) found.back()[1] = end(at(i - 1), at(i));
    open = inside;
  }
  if (open) found.back()[1] = high;
  return found;
}
// The same all the way round: what meets at north is one arc.
template <class Holds>
std::vector<design::Range> whereRound(Holds holds) {
  std::vector<design::Range> arcs = where(0, kTurnDeg, holds);
  if (arcs.size() > 1 && arcs.front()[0] == 0 && arcs.back()[1] == kTurnDeg) {
    arcs.back()[1] += arcs.front()[1];
    arcs.erase(arcs.begin());
  }
  return arcs;
}

std::optional<optics::Zoom> zoomOfImager(const design::ModelImager& imager) {
  try {
    return design::zoomOf(imager);
  } catch (const InputError&) {
    return {};
  }
}
std::optional<design::Range> rangeOf(const std::vector<double>& ends) {
  if (ends.size() != 2) return {};
  return design::Range{std::min(ends[0], ends[1]), std::max(ends[0], ends[1])};
}
std::optional<design::Range> hfovRange(const design::ModelImager& imager,
                                       const optics::Zoom& zoom) {
  if (const auto stated = rangeOf(imager.lens.hfov_deg)) return stated;
  const auto wide = optics::fieldsOfView(zoom.wide, imager.pixels).hfov_deg;
  const auto tele = optics::fieldsOfView(zoom.tele, imager.pixels).hfov_deg;
  if (!wide || !tele) return {};
  return design::Range{*tele, *wide};
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

design::Aim withinStops(const ImagerParts& parts, const std::string& name, design::Aim aim,
                        std::string* stop) {
  const design::ModelImager& imager = *parts.imager;
  if (std::abs(aim.tilt_deg) > 90) {
    aim.tilt_deg = std::copysign(90.0, aim.tilt_deg);
    say(stop, fmt::format("{} tilts no further than straight {}", name,
                          aim.tilt_deg > 0 ? "down" : "up"));
  }
  aim.pan_deg = bearing(aim.pan_deg);
  design::PanTilt at = inHousing(parts, aim);
  bool held = false;
  if (hasPan(at) && !inArc(at.pan_deg, imager.pan_deg)) {
    at.pan_deg = intoArc(at.pan_deg, imager.pan_deg);
    held = true;
    say(stop, level(parts.housing->mount)
                  ? fmt::format("{} is at its pan stop, {:.1f} deg", name,
                                bearing(at.pan_deg + parts.housing->mount.base_bearing_deg))
                  : fmt::format("{} is at its pan stop", name));
  }
  const double tilt = std::clamp(at.tilt_deg, imager.tilt_deg[0], imager.tilt_deg[1]);
  if (std::abs(tilt - at.tilt_deg) > kSlackDeg) {
    at.tilt_deg = tilt;
    held = true;
    say(stop, level(parts.housing->mount)
                  ? fmt::format("{} is at its tilt stop, {:.1f} deg", name, tilt)
                  : fmt::format("{} is at its tilt stop", name));
  }
  if (held) aim = fromHousing(parts, aim, at);
  if (level(parts.housing->mount) && !inArc(aim.roll_deg, imager.roll_deg)) {
    aim.roll_deg = intoArc(aim.roll_deg, imager.roll_deg);
    say(stop, fmt::format("{} is at its roll stop, {:.1f} deg", name, aim.roll_deg));
  }
  if (!aim.hfov_deg && !aim.focal_mm) return aim;
  const auto zoom = zoomOfImager(imager);
  if (!zoom) {
    const auto& lens = imager.lens;
    const bool own = (aim.hfov_deg && !lens.hfov_deg.empty() && *aim.hfov_deg == lens.hfov_deg[0]) ||
                     (aim.focal_mm && !lens.focal_mm.empty() && *aim.focal_mm == lens.focal_mm[0]);
    if (own) return aim;
    aim.hfov_deg.reset();
    aim.focal_mm.reset();
    say(stop, fmt::format("{} has a fixed lens", name));
    return aim;
  }
  const auto clampZoom = [&](std::optional<double>& value, const std::optional<design::Range>& range,
                             const char* unit) {
    if (!value) return;
    const double clamped = range ? std::clamp(*value, (*range)[0], (*range)[1]) : *value;
    if (range && std::abs(clamped - *value) <= 1e-9 * clamped) return;
    value = range ? std::optional(clamped) : std::nullopt;
    say(stop, range ? fmt::format("{} is at the end of its zoom, {:.2f} {}", name, clamped, unit)
                    : fmt::format("{} states no such zoom", name));
  };
  clampZoom(aim.hfov_deg, hfovRange(imager, *zoom), "deg across");
  clampZoom(aim.focal_mm, rangeOf(imager.lens.focal_mm), "mm");
  return aim;
}

std::optional<AimLimits> limitsOf(const design::Design& design, const ImagerRef& ref) {
  const auto parts = partsOf(design, ref);
  if (!parts) return {};
  const design::ModelImager& imager = *parts->imager;
  const design::Mount& mount = parts->housing->mount;
  AimLimits limits;
  limits.roll_deg = imager.roll_deg;
  const design::PanTilt now = inHousing(*parts, *parts->aim);
  const std::vector<Neighbour> neighbours = neighboursOf(*parts);
  if (level(mount)) {
    const double from = bearing(imager.pan_deg[0] + mount.base_bearing_deg);
    limits.pan_deg = {allRound(imager.pan_deg)
                          ? design::Range{0, kTurnDeg}
                          : design::Range{from, from + imager.pan_deg[1] - imager.pan_deg[0]}};
    limits.tilt_deg = {{std::max(imager.tilt_deg[0], -90.0), std::min(imager.tilt_deg[1], 90.0)}};
    if (!neighbours.empty() && hasPan(now)) {
      const Way way = wayFrom(*parts, neighbours, now.pan_deg);
      const double first = bearing(parts->aim->pan_deg - way.back_deg);
      limits.ring_deg = design::Range{first, first + std::max(0.0, way.back_deg + way.on_deg)};
    }
  } else {
    const auto within = [&](double pan_deg, double tilt_deg) {
      const auto at = design::housingFromSite(mount, {pan_deg, tilt_deg});
      return at.tilt_deg >= imager.tilt_deg[0] - kSlackDeg &&
             at.tilt_deg <= imager.tilt_deg[1] + kSlackDeg &&
             (!hasPan(at) || inArc(at.pan_deg, imager.pan_deg));
    };
    const double tilt = parts->aim->tilt_deg;
    limits.pan_deg = whereRound([&](double pan) { return within(pan, tilt); });
    limits.tilt_deg = where(-90, 90, [&](double t) { return within(parts->aim->pan_deg, t); });
    if (!neighbours.empty() && hasPan(now)) {
      const auto free = [&](double pan) {
        const auto at = design::housingFromSite(mount, {pan, tilt});
        return within(pan, tilt) && std::ranges::all_of(neighbours, [&](const Neighbour& n) {
                 return std::abs(wrap180(at.pan_deg - n.pan_deg)) >= n.apart_deg - kSlackDeg;
               });
      };
      for (const design::Range& arc : whereRound(free))
        if (inArc(parts->aim->pan_deg, arc)) limits.ring_deg = arc;
    }
  }
  if (const auto zoom = zoomOfImager(imager)) {
    limits.hfov_deg = hfovRange(imager, *zoom);
    limits.focal_mm = rangeOf(imager.lens.focal_mm);
  }
  return limits;
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
