// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/aim_drag.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/problem.h"
#include "base/units.h"
#include "optics/lens.h"

namespace belvedere::edit {
namespace {

Aimed unchanged(const design::Design& design, std::string why) {
  return {design, true, std::move(why)};
}

double bearingOf(const Vec3& direction) { return radToDeg(std::atan2(direction.x, direction.y)); }

// A direction of the imager's frame with its roll undone: right, down and ahead of an upright one.
Vec3 upright(const Vec3& ray, double roll_deg) {
  const Mat3 rolled_from_upright = design::imagerFromSite(0, 0, roll_deg);
  const Vec3 site = transposed(rolled_from_upright) * ray;  // at pan and tilt 0: x right, y ahead
  return {site.x, -site.z, site.y};
}
// The pan at which a ray lies on a direction's bearing, at a tilt.
double panOnto(const Vec3& direction, const Vec3& upright_ray, double tilt_deg) {
  const double tilt = degToRad(tilt_deg);
  const double ahead = upright_ray.z * std::cos(tilt) - upright_ray.y * std::sin(tilt);
  return bearingOf(direction) - radToDeg(std::atan2(upright_ray.x, ahead));
}

// The lens point of an aim.
Vec3 lensAtAim(const ImagerParts& parts, const design::Aim& aim) {
  return design::lensPoint(
      parts.housing->mount, parts.mount_model, *parts.imager,
      design::housingFromSite(parts.housing->mount, {aim.pan_deg, aim.tilt_deg}));
}

// The aim at which a point lies on a ray of the imager: pan and tilt, within the stops; where tilt
// is held, pan alone. The lens moves with the aim, by far less than the point is away: repeated
// until it stands.
std::optional<design::Aim> pointOnto(const ImagerParts& parts, const std::string& name,
                                     const Vec3& point, const Vec3& ray, std::string& stop) {
  constexpr int kRounds = 60;
  constexpr double kStandsM = 1e-10;
  const Vec3 flat = upright(ray, parts.aim->roll_deg);
  design::Aim aim = *parts.aim, held = aim;
  Vec3 lens = lensAtAim(parts, aim);
  bool reached = true;
  for (int round = 0; round < kRounds; ++round) {
    const Vec3 sight = point - lens;
    if (norm(sight) < 1e-6) return {};
    design::PanTilt nearest;
    const auto solved = aimOnto(sight, ray, aim.roll_deg,
                                {parts.aim->pan_deg, parts.aim->tilt_deg}, &nearest);
    reached = solved.has_value();
    const design::PanTilt to = solved.value_or(nearest);
    aim.pan_deg = to.pan_deg;
    aim.tilt_deg = to.tilt_deg;
    std::string at_stop;
    held = withinStops(parts, name, aim, &at_stop);
    stop = reached ? "" : name + ": no tilt brings that point there";
    if (std::abs(held.tilt_deg - aim.tilt_deg) > 1e-9) {
      stop = at_stop;
      aim.tilt_deg = held.tilt_deg;
      aim.pan_deg = panOnto(sight, flat, held.tilt_deg);
      held = withinStops(parts, name, aim, nullptr);
    }
    const Vec3 moved = lensAtAim(parts, held);
    const bool stands = norm(moved - lens) < kStandsM;
    lens = moved;
    if (stands) break;
  }
  return aim;
}

// Pan and tilt as solved, rounded and held; a stop of the solution is said with those of withAim.
Aimed turned(const design::Design& design, const ImagerRef& ref, const design::Aim& aim,
             const std::string& stop) {
  Aimed result = withAim(design, ref, roundedAim(aim));
  if (!stop.empty()) {
    result.stop = result.stop.empty() || result.stop == stop ? stop : stop + "; " + result.stop;
    result.at_stop = true;
  }
  return result;
}

// ---- edges --------------------------------------------------------------------------------------

// How far a point is past an edge in the picture, px; nothing where the lens does not map it.
std::optional<double> pastEdge(const optics::Lens& lens, const Mat3& imager_from_site,
                               const Vec3& sight, const FrameEdge& edge) {
  const auto at = optics::project(lens, imager_from_site * sight);
  if (!at) return {};
  return (edge.across ? at->x : at->y) - edge.at_px;
}

// The zero of a function that may be undefined, nearest to `now` within [low, high]; else where it
// is nearest to zero, with `exact` false. Nothing where it is defined nowhere.
struct Solved {
  double at = 0;
  bool exact = false;
};
template <class F>
std::optional<Solved> nearestZero(double low, double high, double now, double step, F f) {
  std::optional<Solved> best;
  double least = 1e300;
  const auto consider = [&](double at, const std::optional<double>& value) {
    if (!value) return;
    if (std::abs(*value) < least) {
      least = std::abs(*value);
      best = Solved{at, false};
    }
  };
  double up = std::clamp(now, low, high), down = up;
  std::optional<double> at_up = f(up), at_down = at_up;
  consider(up, at_up);
  const auto bisected = [&](double a, double fa, double b) {
    for (int i = 0; i < 100; ++i) {
      const double middle = 0.5 * (a + b);
      if (middle == a || middle == b) break;
      const auto value = f(middle);
      if (value && (*value > 0) == (fa > 0)) a = middle;
      else b = middle;
    }
    return Solved{0.5 * (a + b), true};
  };
  while (up < high || down > low) {
    std::optional<Solved> found;
    if (up < high) {
      const double next = std::min(up + step, high);
      const auto value = f(next);
      if (at_up && value && (*at_up > 0) != (*value > 0)) found = bisected(up, *at_up, next);
      consider(next, value);
      up = next;
      at_up = value;
    }
    if (down > low) {
      const double next = std::max(down - step, low);
      const auto value = f(next);
      if (at_down && value && (*at_down > 0) != (*value > 0)) {
        const Solved other = bisected(down, *at_down, next);
        if (!found || std::abs(other.at - now) < std::abs(found->at - now)) found = other;
      }
      consider(next, value);
      down = next;
      at_down = value;
    }
    if (found) return found;
  }
  return best;
}

}  // namespace

FrameEdge frameEdgeOf(const design::PosedImager& view, Edge edge, double roll_deg) {
  // Quarter turns of the picture: site down lies at (sin roll, cos roll) in it.
  const int quarter = static_cast<int>(std::lround(wrap360(roll_deg) / 90)) % 4;
  constexpr Edge kRound[] = {Edge::near, Edge::left, Edge::far, Edge::right};
  int place = 0;
  while (kRound[place] != edge) ++place;
  // Unrolled, the edges from the lower one on clockwise are near, left, far, right; a picture that
  // is rolled clockwise shows the site's down further anticlockwise, at its right for a quarter.
  switch ((place + 4 - quarter) % 4) {
    case 0: return {false, view.frame_high_px.y};
    case 1: return {true, view.frame_low_px.x};
    case 2: return {false, view.frame_low_px.y};
    default: return {true, view.frame_high_px.x};
  }
}

std::optional<design::PanTilt> aimOnto(const Vec3& direction, const Vec3& ray, double roll_deg,
                                       design::PanTilt present, design::PanTilt* nearest) {
  // Upright, the ray (x, y, z) at a tilt t has the site height -(y cos t + z sin t).
  const Vec3 flat = upright(normalized(ray), roll_deg);
  const Vec3 sight = normalized(direction);
  const double reach = std::hypot(flat.y, flat.z);
  if (reach < 1e-12) return {};
  const double sine = -sight.z / reach;
  const double angle = radToDeg(std::asin(std::clamp(sine, -1.0, 1.0)));
  const double turn = radToDeg(std::atan2(flat.y, flat.z));
  std::optional<design::PanTilt> best;
  double least = 1e300;
  for (const double tilt : {wrap180(angle - turn), wrap180(180 - angle - turn)}) {
    if (std::abs(tilt) > 90 + 1e-9) continue;
    const double clamped = std::clamp(tilt, -90.0, 90.0);
    const double pan = panOnto(sight, flat, clamped);
    const double away = std::hypot(clamped - present.tilt_deg, wrap180(pan - present.pan_deg));
    if (away < least) {
      least = away;
      best = design::PanTilt{wrap360(pan), clamped};
    }
  }
  if (best && std::abs(sine) <= 1 + 1e-12) return best;
  if (nearest) {
    const double tilt = std::clamp(wrap180(angle - turn), -90.0, 90.0);
    *nearest = best.value_or(design::PanTilt{wrap360(panOnto(sight, flat, tilt)), tilt});
  }
  return {};
}

Aimed bodyFollows(const design::Design& design, const ImagerRef& ref, const Vec3& from,
                  const Vec3& to) {
  const auto parts = partsOf(design, ref);
  const auto view = posedOf(design, ref, design::JudgedOn::captured);
  if (!parts || !view) return withAim(design, ref, {});
  const auto pixel = optics::project(view->lens, view->imager_from_site * (from - view->lens_m));
  const auto ray = pixel ? optics::unproject(view->lens, *pixel) : std::nullopt;
  design::Aim aim = *parts->aim;
  if (!ray) {
    aim.pan_deg += bearingOf(to - view->lens_m) - bearingOf(from - view->lens_m);
    return turned(design, ref, aim, {});
  }
  std::string stop;
  const auto solved = pointOnto(*parts, nameOf(ref), to, *ray, stop);
  if (!solved) return unchanged(design, "the point is at the lens");
  return turned(design, ref, *solved, stop);
}

Aimed looksAt(const design::Design& design, const ImagerRef& ref, const Vec3& point) {
  const auto parts = partsOf(design, ref);
  const auto view = posedOf(design, ref, design::JudgedOn::captured);
  if (!parts || !view) return withAim(design, ref, {});
  const auto ray =
      optics::unproject(view->lens, {0.5 * view->pixels[0], 0.5 * view->pixels[1]});
  std::string stop;
  const auto solved =
      pointOnto(*parts, nameOf(ref), point, ray.value_or(Vec3{0, 0, 1}), stop);
  if (!solved) return unchanged(design, "the point is at the lens");
  return turned(design, ref, *solved, stop);
}

Aimed pictureFollows(const design::Design& design, const ImagerRef& ref, Vec2 from_px,
                     Vec2 to_px) {
  const auto parts = partsOf(design, ref);
  const auto view = posedOf(design, ref, design::JudgedOn::captured);
  if (!parts || !view) return withAim(design, ref, {});
  const auto from = optics::unproject(view->lens, from_px);
  const auto ray = optics::unproject(view->lens, to_px);
  if (!from || !ray) return unchanged(design, "the lens shows nothing there");
  const Vec3 direction = transposed(view->imager_from_site) * *from;
  const design::PanTilt present{parts->aim->pan_deg, parts->aim->tilt_deg};
  design::PanTilt nearest = present;
  const auto solved = aimOnto(direction, *ray, parts->aim->roll_deg, present, &nearest);
  design::Aim aim = *parts->aim;
  aim.pan_deg = solved.value_or(nearest).pan_deg;
  aim.tilt_deg = solved.value_or(nearest).tilt_deg;
  const design::Aim held = withinStops(*parts, "", aim, nullptr);
  const bool tilt_held = std::abs(held.tilt_deg - aim.tilt_deg) > 1e-9;
  Aimed result = turned(design, ref, aim,
                        solved ? "" : nameOf(ref) + ": no tilt brings that direction there");
  if (!tilt_held) return result;
  aim.tilt_deg = held.tilt_deg;
  aim.pan_deg = panOnto(direction, upright(*ray, aim.roll_deg), aim.tilt_deg);
  Aimed by_pan = withAim(design, ref, roundedAim(aim));
  by_pan.at_stop = true;
  by_pan.stop = result.stop;
  return by_pan;
}

Aimed edgeThrough(const design::Design& design, const ImagerRef& ref, Edge edge, EdgeBy by,
                  const Vec3& point, design::JudgedOn judged_on) {
  const auto parts = partsOf(design, ref);
  const auto view = posedOf(design, ref, judged_on);
  if (!parts || !view) return withAim(design, ref, {});
  const std::string name = nameOf(ref);
  const design::Aim now = *parts->aim;
  const FrameEdge line = frameEdgeOf(*view, edge, now.roll_deg);
  design::Aim aim = now;
  std::optional<Solved> solved;
  if (by == EdgeBy::zoom) {
    std::optional<optics::Zoom> zoom;
    try {
      zoom = design::zoomOf(*parts->imager);
    } catch (const InputError&) {
    }
    if (!zoom) return unchanged(design, name + " has a fixed lens");
    double share = 0;
    if (now.hfov_deg)
      share = optics::shareAtHfov(*zoom, parts->imager->pixels[0], *now.hfov_deg).value_or(0);
    else if (now.focal_mm)
      share = optics::shareAtFocal(*zoom, *now.focal_mm).value_or(0);
    const Vec3 sight = point - view->lens_m;
    solved = nearestZero(0, 1, share, 1.0 / 64, [&](double s) {
      return pastEdge(optics::lensAtShare(*zoom, s), view->imager_from_site, sight, line);
    });
    if (solved) aim = atZoomShare(*parts->imager, *zoom, now, solved->at);
  } else {
    const auto varied = [&](double deg) {
      design::Aim other = now;
      (by == EdgeBy::tilt ? other.tilt_deg : other.pan_deg) = deg;
      return other;
    };
    const double from = by == EdgeBy::tilt ? now.tilt_deg : now.pan_deg;
    const double low = by == EdgeBy::tilt ? -90 : from - 180;
    const double high = by == EdgeBy::tilt ? 90 : from + 180;
    solved = nearestZero(low, high, from, 0.5, [&](double deg) {
      const design::Aim other = varied(deg);
      return pastEdge(view->lens,
                      design::imagerFromSite(other.pan_deg, other.tilt_deg, other.roll_deg),
                      point - lensAtAim(*parts, other), line);
    });
    if (solved) aim = varied(solved->at);
  }
  if (!solved) return unchanged(design, name + " does not see that point");
  std::string stop;
  if (!solved->exact)
    stop = fmt::format("{}: the edge comes no nearer by {}", name,
                       by == EdgeBy::zoom ? "zoom" : by == EdgeBy::tilt ? "tilt" : "pan");
  return turned(design, ref, aim, stop);
}

}  // namespace belvedere::edit
