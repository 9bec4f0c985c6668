// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "edit/aim_stops.h"

namespace belvedere::edit {

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
  constexpr double kAlongAxisDeg = 0.01;  // as the reader has it
  return std::abs(std::abs(in_housing.tilt_deg) - 90) >= kAlongAxisDeg;
}

// ---- rings --------------------------------------------------------------------------------------

bool shares(const design::Shared& shared, int slot) {
  return shared.rule == "apart_deg" && shared.value &&
         (shared.slots.empty() || std::ranges::find(shared.slots, slot) != shared.slots.end());
}
std::vector<Neighbour> neighboursOf(const ImagerParts& parts) {
  std::vector<Neighbour> found;
  if (parts.written->aims.size() != 1) return found;
  for (const design::Shared& shared : parts.model->shared) {
    if (!shares(shared, parts.written->slot)) continue;
    for (const design::HousingImager& other : parts.housing->imagers) {
      if (other.slot == parts.written->slot || other.aims.size() != 1) continue;
      if (!shares(shared, other.slot)) continue;
      const auto at = design::housingFromSite(parts.housing->mount,
                                              {other.aims[0].pan_deg, other.aims[0].tilt_deg});
      if (hasPan(at)) found.push_back({other.slot, at.pan_deg, *shared.value});
    }
  }
  return found;
}

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

namespace {

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

}  // namespace

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
    const auto same = [](const std::optional<double>& stated, const std::vector<double>& of_lens) {
      return stated && !of_lens.empty() && *stated == of_lens[0];
    };
    const bool own = same(aim.hfov_deg, lens.hfov_deg) || same(aim.focal_mm, lens.focal_mm);
    if (own) return aim;
    aim.hfov_deg.reset();
    aim.focal_mm.reset();
    say(stop, fmt::format("{} has a fixed lens", name));
    return aim;
  }
  const auto clampZoom = [&](std::optional<double>& value,
                             const std::optional<design::Range>& range, const char* unit) {
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

}  // namespace belvedere::edit
