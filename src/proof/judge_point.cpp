// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "optics/density.h"
#include "proof/judge.h"
#include "scene/sightline.h"

namespace belvedere::proof {
namespace {

// What one view finds at one height over a spot.
struct At {
  double height_m = 0;
  Vec3 target;
  bool alive = true;
  std::optional<optics::Density> density;
  double px_per_m = 0;
};

double judgedDensity(const design::PosedImager& view, const optics::Density& density,
                     const Vec3& target) {
  double px_per_m = density.across_px_per_m *
                    optics::deliveredFactor(view.delivered.centre, view.delivered.corner,
                                            view.pixels, density.at_px);
  if (view.px_per_rad)
    px_per_m = std::min(px_per_m, optics::unrolledDensity(*view.px_per_rad,
                                                          norm((target - view.lens_m).xy())));
  return px_per_m;
}

bool inPicture(const design::PosedImager& view, const std::optional<optics::Density>& density) {
  if (!density || !view.showsAnything()) return false;
  const Vec2 p = density->at_px;
  return p.x >= view.frame_low_px.x && p.x <= view.frame_high_px.x && p.y >= view.frame_low_px.y &&
         p.y <= view.frame_high_px.y;
}

// In the picture, and of an unrolled or stitched view within its span.
bool inFrame(const design::PosedImager& view, const std::optional<optics::Density>& density,
             const Vec3& target) {
  if (!inPicture(view, density)) return false;
  const Vec3 sight = target - view.lens_m;
  return !view.span || (view.span->holdsBearing(sight.xy()) && view.span->holdsDepression(sight));
}

Measure atMost(double found, double limit, const char* unit) {
  return {found, limit, unit, found > 0 ? limit / found : 1e9};
}

// How far a place is from the middle of the frame over how far its edge is, along the worse axis;
// of what is in the picture, from the middle of the span in degrees.
Measure frameMeasure(const design::PosedImager& view, const std::optional<optics::Density>& density,
                     const Vec3& target) {
  if (!density || !view.showsAnything()) return {0, 0, "px", 0};
  if (inPicture(view, density) && view.span) {
    const Vec3 sight = target - view.lens_m;
    if (!view.span->holdsBearing(sight.xy())) {
      const double bearing = radToDeg(std::atan2(sight.x, sight.y));
      return atMost(std::fabs(wrap180(bearing - view.span->bearing_deg)), view.span->half_width_deg,
                    "deg");
    }
    const auto [least, most] = view.span->depression_deg;
    const double depression = radToDeg(std::atan2(-sight.z, norm(sight.xy())));
    return atMost(std::fabs(depression - 0.5 * (least + most)), 0.5 * (most - least), "deg");
  }
  const Vec2 middle = (view.frame_low_px + view.frame_high_px) * 0.5;
  const Vec2 half = (view.frame_high_px - view.frame_low_px) * 0.5;
  const Vec2 off{std::fabs(density->at_px.x - middle.x), std::fabs(density->at_px.y - middle.y)};
  const bool across = off.x * half.y >= off.y * half.x;
  const double found = across ? off.x : off.y, needed = across ? half.x : half.y;
  return atMost(found, needed, "px");
}

// Outside the sharp stretch along the axis: how near or far, over the end that it passes.
std::optional<Measure> unsharp(const optics::SharpStretch& sharp, double depth_m) {
  if (depth_m < sharp.near_m) return Measure{depth_m, sharp.near_m, "m", depth_m / sharp.near_m};
  if (sharp.far_m && depth_m > *sharp.far_m) return atMost(depth_m, *sharp.far_m, "m");
  return {};
}

// In lux where lamps add nothing and so much is known to be needed, else as a share of the light that is enough.
std::optional<Measure> tooDark(const Conditions& conditions, const light::Solids& solids,
                               const Vec3& target) {
  if (light::enoughAt(*conditions.light, solids, target)) return {};
  const light::LitParts parts = light::litAt(*conditions.light, solids, target);
  if (parts.lamp_light <= 0 && parts.lux > 0 && !conditions.by_lamps_alone)
    return Measure{parts.lux, *conditions.light->needed.lux, "lx", parts.lit};
  return Measure{100 * parts.lit, 100, "% of enough light", parts.lit};
}

bool masked(const design::PosedImager& view, Vec2 at_px) {
  return std::any_of(view.masks_px.begin(), view.masks_px.end(),
                     [&](const Ring& mask) { return contains(mask, at_px); });
}

// Runs one test over the heights still alive. `test` returns whether a height passes and, when it
// does not, its measure. Returns true when enough of the band is left; otherwise fills the answer.
template <class Test>
bool survives(std::vector<At>& heights, double share, Reason reason, Answer& answer, Test test) {
  std::size_t left = 0;
  double least = 1e300;
  for (At& h : heights) {
    if (!h.alive) continue;
    const std::optional<Measure> failure = test(h);
    if (!failure) {
      ++left;
      continue;
    }
    h.alive = false;
    if (failure->margin < least) {
      least = failure->margin;
      answer.measure = *failure;
      answer.height_m = h.height_m;
    }
  }
  if (static_cast<double>(left) >= share * static_cast<double>(heights.size()) - 1e-9) return true;
  answer.reason = reason;
  return false;
}

Answer judge(const Question& q, std::size_t index, Vec2 spot, std::vector<At> heights, int facing,
             bool seen_already, const Answer& before) {
  const design::PosedImager& view = q.views[index];
  Answer answer = before;
  if (!seen_already) return answer;
  if (facing >= 0) {
    const design::Facing& f = q.facings[static_cast<std::size_t>(facing)];
    const Vec2 to_camera = view.lens_m.xy() - spot;
    const double plan_m = norm(to_camera);
    const bool steep_ok =
        survives(heights, q.height_share, Reason::too_steep, answer,
                 [&](const At& h) -> std::optional<Measure> {
                   const double elevation =
                       radToDeg(std::atan2(std::fabs(view.lens_m.z - h.target.z), plan_m));
                   if (elevation <= f.elevation_max_deg) return {};
                   return atMost(elevation, f.elevation_max_deg, "deg");
                 });
    if (!steep_ok) return answer;
    const double bearing = radToDeg(std::atan2(to_camera.x, to_camera.y));
    const double yaw = plan_m > 0 ? std::fabs(wrap180(bearing - f.bearing_deg)) : 0;
    const bool turned_ok = survives(heights, q.height_share, Reason::turned_away, answer,
                                    [&](const At&) -> std::optional<Measure> {
                                      if (yaw <= f.yaw_max_deg) return {};
                                      return atMost(yaw, f.yaw_max_deg, "deg");
                                    });
    if (!turned_ok) return answer;
  }
  const Conditions* conditions = q.conditions.empty() ? nullptr : &q.conditions[index];
  if (conditions && conditions->sharp) {
    const bool sharp = survives(heights, q.height_share, Reason::unsharp, answer, [&](const At& h) {
      return unsharp(*conditions->sharp,
                     dot(view.imager_from_site.row[2], h.target - view.lens_m));
    });
    if (!sharp) return answer;
  }
  if (conditions && conditions->light) {
    const bool lit = survives(heights, q.height_share, Reason::too_dark, answer, [&](const At& h) {
      return tooDark(*conditions, q.solids(), h.target);
    });
    if (!lit) return answer;
  }
  if (!view.masks_px.empty()) {
    const bool open = survives(heights, q.height_share, Reason::masked, answer,
                               [&](const At& h) -> std::optional<Measure> {
                                 if (!masked(view, h.density->at_px)) return {};
                                 return Measure{0, 0, "", 0};
                               });
    if (!open) return answer;
  }
  answer.reason = Reason::served;
  double least = 1e300;
  for (const At& h : heights)
    if (h.alive && h.px_per_m < least) {
      least = h.px_per_m;
      answer.height_m = h.height_m;
    }
  answer.measure = {least, q.needed_px_per_m, "px/m", least / q.needed_px_per_m};
  return answer;
}

}  // namespace

bool better(const Answer& a, const Answer& b) {
  const auto rank = [](Reason r) { return r == Reason::served ? kReasonCount : static_cast<int>(r); };
  if (rank(a.reason) != rank(b.reason)) return rank(a.reason) > rank(b.reason);
  return a.measure.margin > b.measure.margin;
}

Answer answerOf(const Question& q, std::size_t index, Vec2 spot, int count, int facing) {
  const design::PosedImager& view = q.views[index];
  const double floor_m = q.floor.at(spot);
  std::vector<At> heights(static_cast<std::size_t>(q.high_m > q.low_m ? std::max(count, 2) : 1));
  Answer answer;
  answer.view = static_cast<int>(index);
  answer.px_per_m = 1e300;
  for (std::size_t i = 0; i < heights.size(); ++i) {
    At& h = heights[i];
    const double share = heights.size() > 1
                             ? static_cast<double>(i) / static_cast<double>(heights.size() - 1) : 0;
    h.height_m = q.low_m + share * (q.high_m - q.low_m);
    h.target = withZ(spot, floor_m + h.height_m);
    h.density = optics::densityAt(view.lens, view.imager_from_site, view.lens_m, h.target,
                                  {view.scale_x, view.scale_y});
    h.px_per_m = h.density ? judgedDensity(view, *h.density, h.target) : 0;
    answer.px_per_m = std::min(answer.px_per_m, h.px_per_m);
  }
  const bool framed = survives(heights, q.height_share, Reason::out_of_frame, answer,
                               [&](const At& h) -> std::optional<Measure> {
                                 if (inFrame(view, h.density, h.target)) return {};
                                 return frameMeasure(view, h.density, h.target);
                               });
  const bool dense =
      framed && survives(heights, q.height_share, Reason::too_coarse, answer,
                         [&](const At& h) -> std::optional<Measure> {
                           if (h.px_per_m >= q.needed_px_per_m) return {};
                           return Measure{h.px_per_m, q.needed_px_per_m, "px/m",
                                          h.px_per_m / q.needed_px_per_m};
                         });
  const bool open = dense && survives(heights, q.height_share, Reason::hidden, answer,
                                      [&](const At& h) -> std::optional<Measure> {
                                        const auto body = scene::blockerOf(
                                            q.place->scene, q.place->tree, view.lens_m, h.target,
                                            q.blocking, answer.hidden_by);
                                        if (!body) return {};
                                        answer.hidden_by = body;
                                        return Measure{0, 0, "", 0};
                                      });
  if (open) answer.hidden_by.reset();
  if (facing >= 0 || q.facings.empty()) return judge(q, index, spot, heights, facing, open, answer);
  std::optional<Answer> best;
  for (std::size_t f = 0; f < q.facings.size(); ++f) {
    const Answer one = judge(q, index, spot, heights, static_cast<int>(f), open, answer);
    if (!best || better(one, *best)) best = one;
  }
  return *best;
}

Answer answerAt(const Question& q, Vec2 spot, int heights, std::vector<Answer>* all) {
  const auto bestOfImagers = [&](int facing) {
    std::vector<Answer> best(q.imagers.size());
    for (std::size_t v = 0; v < q.views.size(); ++v) {
      const Answer one = answerOf(q, v, spot, heights, facing);
      Answer& kept = best[static_cast<std::size_t>(q.imager_of[v])];
      if (kept.view < 0 || better(one, kept)) kept = one;
    }
    return best;
  };
  const auto nth = [&](const std::vector<Answer>& answers) {
    const auto needed = static_cast<std::size_t>(q.imagers_needed);
    if (answers.size() < needed) return Answer{};  // too few imagers in the design
    if (needed == 1) return *std::min_element(answers.begin(), answers.end(), better);
    std::vector<const Answer*> order;
    for (const Answer& one : answers) order.push_back(&one);
    std::stable_sort(order.begin(), order.end(),
                     [](const Answer* a, const Answer* b) { return better(*a, *b); });
    return *order[needed - 1];
  };
  std::vector<Answer> best = bestOfImagers(kBestFacing);
  if (all) *all = best;
  if (!q.every_facing) return nth(best);
  std::optional<Answer> worst;
  for (std::size_t f = 0; f < q.facings.size(); ++f) {
    const Answer one = nth(bestOfImagers(static_cast<int>(f)));
    if (!worst || better(*worst, one)) worst = one;
  }
  return *worst;
}

}  // namespace belvedere::proof
