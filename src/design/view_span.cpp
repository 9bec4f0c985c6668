// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/view_span.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "design/degrees.h"

namespace belvedere::design {

bool ViewSpan::holdsBearing(Vec2 sight) const {
  if (allRound()) return true;
  const bool left = dot(inward[0], sight) >= 0, right = dot(inward[1], sight) >= 0;
  return wide() ? left || right : left && right;
}

bool ViewSpan::holdsDepression(const Vec3& sight) const {
  const double plan_m = norm(sight.xy());
  for (const std::size_t end : {0U, 1U})
    if (limits(end) && withinDepression(end, -sight.z, plan_m) < 0) return false;
  return true;
}

ViewSpan viewSpan(double bearing_deg, double middle_depression_deg, std::array<double, 2> span_deg) {
  ViewSpan span;
  span.bearing_deg = wrap180(bearing_deg);
  span.half_width_deg = std::min(180.0, 0.5 * span_deg[0]);
  const double tall_deg = std::min(180.0, span_deg[1]);
  const double least = std::clamp(middle_depression_deg - 0.5 * tall_deg, -90.0, 90.0 - tall_deg);
  span.depression_deg = {least, least + tall_deg};
  const SineCosine left = sineCosine(bearing_deg - span.half_width_deg),
                   right = sineCosine(bearing_deg + span.half_width_deg);
  span.inward = {Vec2{left.cosine, -left.sine}, Vec2{-right.cosine, right.sine}};
  for (const std::size_t end : {0U, 1U}) {
    const SineCosine d = sineCosine(span.depression_deg[end]);
    span.depression_cos_sin[end] = {d.cosine, d.sine};
  }
  return span;
}

double middleBearingDeg(std::vector<double> bearings_deg) {
  for (double& bearing : bearings_deg) bearing = wrap360(bearing);
  std::sort(bearings_deg.begin(), bearings_deg.end());
  double from = 0, gap = -1;
  for (std::size_t i = 0; i < bearings_deg.size(); ++i) {
    const double before = i == 0 ? bearings_deg.back() - 360 : bearings_deg[i - 1];
    if (bearings_deg[i] - before <= gap) continue;
    gap = bearings_deg[i] - before;
    from = bearings_deg[i];
  }
  return wrap180(from + 0.5 * (360 - gap));
}

}  // namespace belvedere::design
