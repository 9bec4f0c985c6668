// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/aim_group.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "design/task_table.h"
#include "edit/aim_drag.h"
#include "optics/density.h"
#include "scene/scene.h"

namespace belvedere::edit {
bool mayTurn(const ImagerParts& parts) {
  return !parts.written->locked && parts.written->aims.size() == 1;
}

namespace {

constexpr double kTurnDeg = 360;

// Those that may be turned; of the others it is said why not.
std::vector<ImagerRef> turnable(const design::Design& design, const std::vector<ImagerRef>& imagers,
                                std::vector<std::string>& says) {
  std::vector<ImagerRef> kept;
  for (const ImagerRef& ref : imagers) {
    const auto parts = partsOf(design, ref);
    if (parts && mayTurn(*parts)) kept.push_back(ref);
    else if (!parts) says.push_back(fmt::format("there is no {}", nameOf(ref)));
    else
      says.push_back(fmt::format("{} stays: it {}", nameOf(ref),
                                 parts->written->locked ? "is locked" : "has several aims"));
  }
  return kept;
}

}  // namespace

// ---- holding points -----------------------------------------------------------------------------

namespace {

struct Hold {
  const design::Design& design;
  ImagerRef ref;
  ImagerParts parts;
  const std::vector<Vec3>& points;

  // The picture of an aim and the box of the points in it; nothing where one is not mapped.
  struct Seen {
    design::PosedImager view;
    Box2 box;
    bool fits = false;
  };
  std::optional<Seen> seen(const design::Aim& aim) const {
    design::Housing alone = *parts.housing;
    alone.imagers = {*parts.written};
    alone.imagers[0].aims = {aim};
    Seen result;
    try {
      const auto views = design::posedImagersOf(design, alone, design::JudgedOn::captured);
      result.view = views.front();
    } catch (const InputError&) {
      return {};
    }
    for (const Vec3& point : points) {
      const auto at = optics::project(result.view.lens,
                                      result.view.imager_from_site * (point - result.view.lens_m));
      if (!at) return {};
      result.box.add(*at);
    }
    const Vec2 low = result.view.frame_low_px, high = result.view.frame_high_px;
    result.fits = result.box.low.x >= low.x + kFitPx && result.box.low.y >= low.y + kFitPx &&
                  result.box.high.x <= high.x - kFitPx && result.box.high.y <= high.y - kFitPx;
    return result;
  }

  // The aim turned until the points' box is centred in the frame; starts from an aim at which all
  // points are mapped.
  design::Aim centred(design::Aim aim) const {
    constexpr int kRounds = 40;
    design::Aim best = aim;
    double least = 1e300;
    for (int round = 0; round < kRounds; ++round) {
      const auto now = seen(aim);
      const double off = now ? offCentre(*now) : 1e300;
      if (off >= least) {  // too far: half way back
        aim.pan_deg = best.pan_deg + 0.5 * wrap180(aim.pan_deg - best.pan_deg);
        aim.tilt_deg = 0.5 * (aim.tilt_deg + best.tilt_deg);
        continue;
      }
      if (!now) return aim;
      best = aim;
      least = off;
      const Vec2 box = (now->box.low + now->box.high) * 0.5;
      const Vec2 frame = (now->view.frame_low_px + now->view.frame_high_px) * 0.5;
      const auto from = optics::unproject(now->view.lens, box);
      const auto to = optics::unproject(now->view.lens, frame);
      if (off < 0.01 || !from || !to) return best;
      design::PanTilt nearest{aim.pan_deg, aim.tilt_deg};
      const auto turned = aimOnto(transposed(now->view.imager_from_site) * *from, *to,
                                  aim.roll_deg, {aim.pan_deg, aim.tilt_deg}, &nearest);
      design::Aim next = aim;
      next.pan_deg = turned.value_or(nearest).pan_deg;
      next.tilt_deg = turned.value_or(nearest).tilt_deg;
      next = withinStops(parts, "", next, nullptr);
      if (std::abs(wrap180(next.pan_deg - aim.pan_deg)) < 1e-7 &&
          std::abs(next.tilt_deg - aim.tilt_deg) < 1e-7)
        return best;
      aim = next;
    }
    return best;
  }
  static double offCentre(const Seen& seen) {
    return norm((seen.box.low + seen.box.high) * 0.5 -
                (seen.view.frame_low_px + seen.view.frame_high_px) * 0.5);
  }
};

}  // namespace

std::pair<design::Aim, bool> aimToHold(const design::Design& design, const ImagerRef& ref,
                                       const std::vector<Vec3>& points) {
  const auto parts = partsOf(design, ref);
  if (!parts || points.empty()) return {parts ? *parts->aim : design::Aim{}, false};
  Hold hold{design, ref, *parts, points};
  // First the middle of their directions, at the wide end.
  const auto view = posedOf(design, ref, design::JudgedOn::captured);
  if (!view) return {*parts->aim, false};
  Vec3 mean{};
  for (const Vec3& point : points) {
    const Vec3 sight = point - view->lens_m;
    if (norm(sight) > 1e-9) mean = mean + normalized(sight);
  }
  design::Aim aim = *parts->aim;
  if (norm(mean) > 1e-9) {
    design::PanTilt nearest{aim.pan_deg, aim.tilt_deg};
    const auto turned = aimOnto(mean, {0, 0, 1}, 0, {aim.pan_deg, aim.tilt_deg}, &nearest);
    aim.pan_deg = turned.value_or(nearest).pan_deg;
    aim.tilt_deg = turned.value_or(nearest).tilt_deg;
  }
  std::optional<optics::Zoom> zoom;
  try {
    zoom = design::zoomOf(*parts->imager);
  } catch (const InputError&) {
  }
  const auto atShare = [&](design::Aim at, double share) {
    return zoom ? atZoomShare(*parts->imager, *zoom, at, share) : at;
  };
  design::Aim best = hold.centred(withinStops(*parts, "", atShare(aim, 0), nullptr));
  const auto fits = [&](const design::Aim& at) {
    const auto seen = hold.seen(at);
    return seen && seen->fits;
  };
  if (!fits(best))  // the middle of all directions is as near as it comes
    return {roundedAim(withinStops(*parts, "", atShare(aim, 0), nullptr)), false};
  if (zoom) {
    double held = 0, lost = 1;
    const auto tried = [&](double share) {
      const design::Aim at = hold.centred(atShare(best, share));
      if (!fits(at)) return false;
      best = at;
      return true;
    };
    if (!tried(1))
      for (int i = 0; i < 24; ++i) {
        const double middle = 0.5 * (held + lost);
        (tried(middle) ? held : lost) = middle;
      }
  }
  return {roundedAim(best), true};
}

namespace {

Spread aimedAll(const design::Design& design, std::vector<std::string> says,
                const std::vector<std::pair<ImagerRef, design::Aim>>& aims) {
  Aimed aimed = withAims(design, aims);
  if (aimed.at_stop) says.push_back(aimed.stop);
  return {std::move(aimed.design), 0, std::move(says)};
}

// Where along a path, as a share of its length.
std::vector<Vec2> partOf(const std::vector<Vec2>& path, double from, double to) {
  double length = 0;
  for (std::size_t i = 1; i < path.size(); ++i) length += norm(path[i] - path[i - 1]);
  std::vector<Vec2> part;
  double done = 0;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const Vec2 a = path[i - 1], b = path[i];
    const double piece = norm(b - a);
    const double low = (from * length - done) / std::max(piece, 1e-12);
    const double high = (to * length - done) / std::max(piece, 1e-12);
    if (low <= 1 && high >= 0) {
      part.push_back(a + (b - a) * std::clamp(low, 0.0, 1.0));
      part.push_back(a + (b - a) * std::clamp(high, 0.0, 1.0));
    }
    done += piece;
  }
  return part;
}
// Points along an outline, at most a share of its length apart: a lens bends what is straight.
std::vector<Vec2> densified(const std::vector<Vec2>& points, bool closed) {
  constexpr int kBetween = 8;
  std::vector<Vec2> dense;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i + 1 == points.size() && !closed) {
      dense.push_back(points[i]);
      break;
    }
    const Vec2 a = points[i], b = points[(i + 1) % points.size()];
    for (int k = 0; k < kBetween; ++k) dense.push_back(a + (b - a) * (double(k) / kBetween));
  }
  return dense;
}
Vec3 lensOf(const design::Design& design, const ImagerRef& ref) {
  const auto view = posedOf(design, ref, design::JudgedOn::captured);
  return view ? view->lens_m : Vec3{};
}
double bearingTo(Vec2 from, Vec2 to) {
  return radToDeg(std::atan2(to.x - from.x, to.y - from.y));
}

}  // namespace

Spread followWall(const design::Design& design, const std::vector<ImagerRef>& imagers,
                  const std::vector<Vec2>& path, double low_m, double high_m) {
  std::vector<std::string> says;
  const std::vector<ImagerRef> turned = turnable(design, imagers, says);
  if (turned.empty() || path.size() < 2) return {design, 0, std::move(says)};
  struct Try {
    std::vector<std::pair<ImagerRef, design::Aim>> aims;
    std::vector<std::string> says;
    double turns_deg = 0;
  };
  const auto tried = [&](const std::vector<Vec2>& along) {
    Try attempt;
    const double count = static_cast<double>(turned.size());
    for (std::size_t i = 0; i < turned.size(); ++i) {
      const double at = static_cast<double>(i);
      std::vector<Vec3> points;
      for (const Vec2 p : densified(partOf(along, at / count, (at + 1) / count), false))
        for (const double z : {low_m, high_m}) points.push_back(withZ(p, z));
      const auto [aim, fits] = aimToHold(design, turned[i], points);
      const design::Aim& before = *partsOf(design, turned[i])->aim;
      attempt.turns_deg += std::abs(wrap180(aim.pan_deg - before.pan_deg));
      attempt.aims.push_back({turned[i], aim});
      if (!fits)
        attempt.says.push_back(
            fmt::format("{} does not hold its part of the wall", nameOf(turned[i])));
    }
    return attempt;
  };
  const Try forward = tried(path);
  const Try backward = tried({path.rbegin(), path.rend()});
  const Try& best = backward.turns_deg < forward.turns_deg ? backward : forward;
  says.insert(says.end(), best.says.begin(), best.says.end());
  return aimedAll(design, std::move(says), best.aims);
}

Spread lookAtZone(const design::Design& design, const std::vector<ImagerRef>& imagers,
                  const design::ZoneId& zone_id, const design::RequirementId& requirement_id) {
  std::vector<std::string> says;
  const design::Zone* zone = design::findZone(design, zone_id);
  const design::Requirement* requirement = design::findRequirement(design, requirement_id);
  std::vector<ImagerRef> turned = turnable(design, imagers, says);
  if (!zone || !requirement || zone->outline.size() < 3) {
    says.push_back(fmt::format("there is no {}", zone ? requirement_id.text : zone_id.text));
    return {design, 0, std::move(says)};
  }
  if (turned.empty()) return {design, 0, std::move(says)};
  Vec2 eye{};
  for (const ImagerRef& ref : turned) eye = eye + lensOf(design, ref).xy();
  eye = eye / static_cast<double>(turned.size());
  // The bearings under which the zone lies, from its widest gap round.
  const Ring outline = anticlockwise(zone->outline);
  double from = 0, span = kTurnDeg;
  if (!contains(outline, eye)) {
    // Unrolled along the outline, which does not go round the eye.
    const std::vector<Vec2> dense = densified(outline, true);
    const double first = bearingTo(eye, dense[0]);
    double at = first, low = first, high = first;
    for (const Vec2 p : dense) {
      at += wrap180(bearingTo(eye, p) - at);
      low = std::min(low, at);
      high = std::max(high, at);
    }
    from = low;
    span = high - low;
  } else {
    // All round: cut where the first imager's share begins.
    const double count = static_cast<double>(turned.size());
    from = partsOf(design, turned[0])->aim->pan_deg - 0.5 * kTurnDeg / count;
  }
  const double middle = from + 0.5 * span;
  std::stable_sort(turned.begin(), turned.end(), [&](const ImagerRef& a, const ImagerRef& b) {
    const auto away = [&](const ImagerRef& ref) {
      return wrap180(partsOf(design, ref)->aim->pan_deg - middle);
    };
    return away(a) < away(b);
  });
  const design::Range band = design::bandOf(requirement->target);
  const scene::Floor floor = scene::floorOf(design, *zone);
  const auto needed = design::statedDensity(design, *requirement);
  std::vector<std::pair<ImagerRef, design::Aim>> aims;
  const double share = span / static_cast<double>(turned.size());
  for (std::size_t i = 0; i < turned.size(); ++i) {
    Ring part = outline;
    if (share < 180) {
      // Right of the wedge's left side, left of its right side; bearings run clockwise.
      const auto side = [&](double bearing_deg) {
        const double b = degToRad(bearing_deg);
        return perpLeft(Vec2{std::sin(b), std::cos(b)});
      };
      const double start = from + share * static_cast<double>(i);
      const Vec2 left = side(start), right = -side(start + share);
      part = clipHalfPlane(part, left, dot(left, eye));
      part = clipHalfPlane(part, right, dot(right, eye));
    }
    const std::string name = nameOf(turned[i]);
    if (part.size() < 3) {
      says.push_back(fmt::format("{} finds nothing of the zone in its share", name));
      continue;
    }
    std::vector<Vec3> points;
    for (const Vec2 p : densified(part, true))
      for (const double height : band)
        points.push_back(withZ(p, floor.at(p) + zone->base_m + height));
    const auto [aim, fits] = aimToHold(design, turned[i], points);
    aims.push_back({turned[i], aim});
    if (!fits)
      says.push_back(fmt::format("{} does not hold its share of the zone at its widest", name));
  }
  Spread spread = aimedAll(design, std::move(says), aims);
  // What the zone's farthest corner gets; whether it is served is for the proof to say.
  if (needed)
    for (const ImagerRef& ref : turned) {
      const auto view = posedOf(spread.design, ref, requirement->judged_on);
      if (!view) continue;
      double least = 1e300;
      for (const Vec2 p : outline) {
        const auto density = optics::densityAt(
            view->lens, view->imager_from_site, view->lens_m,
            withZ(p, floor.at(p) + zone->base_m + band[0]), {view->scale_x, view->scale_y});
        const bool framed = density && density->at_px.x >= view->frame_low_px.x &&
                            density->at_px.x <= view->frame_high_px.x &&
                            density->at_px.y >= view->frame_low_px.y &&
                            density->at_px.y <= view->frame_high_px.y;
        if (framed) least = std::min(least, density->across_px_per_m);
      }
      if (least < *needed)
        spread.says.push_back(fmt::format("{} gives {:.0f} px/m at its farthest corner, {:.0f} are "
                                          "asked for",
                                          nameOf(ref), least, *needed));
    }
  return spread;
}

}  // namespace belvedere::edit
