// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/range.h"

#include <algorithm>
#include <cmath>
#include <unordered_set>

namespace belvedere::proof {

std::optional<double> densestPxPerRad(const design::PosedImager& view) {
  const auto* lens = std::get_if<optics::RadialLens>(&view.lens);
  if (!lens) return {};
  // Both local scales change one way only from the axis outwards, so that the corner farthest from
  // the axis, or the axis itself, is densest.
  double farthest = 0;
  for (const double x : {view.frame_low_px.x, view.frame_high_px.x})
    for (const double y : {view.frame_low_px.y, view.frame_high_px.y}) {
      const auto ray = optics::unproject(view.lens, {x, y});
      if (!ray) return {};
      farthest = std::max(farthest, std::atan2(std::hypot(ray->x, ray->y), ray->z));
    }
  const double k = lens->k;
  double along = lens->f_px;
  if (k > 0) along = lens->f_px / (std::cos(k * farthest) * std::cos(k * farthest));
  const auto projected =
      optics::project(view.lens, {std::sin(farthest), 0, std::cos(farthest)});
  const double radius = projected ? projected->x - lens->centre_px.x : 0;
  const double across = farthest > 1e-6 ? radius / std::sin(farthest) : lens->f_px;
  const double scale = std::max(view.scale_x, view.scale_y) *
                       std::max(view.delivered.centre, view.delivered.corner);
  return std::max({along, across, lens->f_px}) * scale * (1 + 1e-9);
}

bool framesPlace(const design::PosedImager& view, const Vec3& at_m) {
  const auto px = optics::project(view.lens, view.imager_from_site * (at_m - view.lens_m));
  return px && px->x >= view.frame_low_px.x && px->x <= view.frame_high_px.x && px->y >= view.frame_low_px.y &&
         px->y <= view.frame_high_px.y;
}

std::vector<std::uint32_t> viewsInRange(const Question& q, double slack) {
  const Box2 plan = bounds(q.region);
  double low = 1e300, high = -1e300;
  for (const Vec2 p : {plan.low, Vec2{plan.high.x, plan.low.y}, plan.high, Vec2{plan.low.x, plan.high.y}}) {
    low = std::min(low, q.floor.at(p) + q.low_m);
    high = std::max(high, q.floor.at(p) + q.high_m);
  }
  std::vector<std::uint32_t> near;
  for (std::uint32_t i = 0; i < q.views.size(); ++i) {
    const design::PosedImager& view = q.views[i];
    const auto off = [](double x, double least, double most) {
      return std::max({0.0, least - x, x - most});
    };
    const Vec3 gap{off(view.lens_m.x, plan.low.x, plan.high.x),
                   off(view.lens_m.y, plan.low.y, plan.high.y), off(view.lens_m.z, low, high)};
    const auto densest = densestPxPerRad(view);
    if (!densest || *densest >= q.needed_px_per_m / slack * norm(gap)) near.push_back(i);
  }
  return near;
}

Question nearQuestion(const Question& question) {
  std::unordered_set<int> imagers;
  for (const std::uint32_t view : viewsInRange(question)) imagers.insert(question.imager_of[view]);
  std::vector<design::PosedImager> views;
  for (std::size_t i = 0; i < question.views.size(); ++i)
    if (imagers.contains(question.imager_of[i])) views.push_back(question.views[i]);
  Question near = question;
  replaceViews(near, std::move(views));
  return near;
}

}  // namespace belvedere::proof
