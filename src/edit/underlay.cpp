// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/underlay.h"

#include "base/problem.h"
#include "edit/measure.h"

namespace belvedere::edit {

Vec2 PictureFrame::pictureOf(Vec2 site_m) const {
  const Vec2 d = site_m - corner_m;
  const double turn = cross(right_m, down_m);
  return {cross(d, down_m) / turn, cross(right_m, d) / turn};
}

// With places of the picture as complex numbers z = x - iy and of the site as w, w = c + m z: m is
// the sum of conj(dz) dw over that of |dz|^2, d from the means.
PictureFrame pictureFrame(const design::Underlay& underlay, double width, double height) {
  const auto n = static_cast<double>(underlay.pins.size());
  Vec2 z_mean, w_mean;
  for (const design::Pin& pin : underlay.pins) {
    z_mean = z_mean + Vec2{pin.picture.x, -pin.picture.y} / n;
    w_mean = w_mean + pin.site_m / n;
  }
  double square = 0;
  Vec2 m;
  for (const design::Pin& pin : underlay.pins) {
    const Vec2 z = Vec2{pin.picture.x, -pin.picture.y} - z_mean, w = pin.site_m - w_mean;
    square += dot(z, z);
    m = m + Vec2{dot(z, w), cross(z, w)};
  }
  if (square <= 0 || m == Vec2{}) {
    const double unit_m = kUnscaledWidthM / width;
    return {{-0.5 * kUnscaledWidthM, 0.5 * height * unit_m}, {unit_m, 0}, {0, -unit_m}};
  }
  m = m / square;
  const Vec2 moved{m.x * z_mean.x - m.y * z_mean.y, m.x * z_mean.y + m.y * z_mean.x};
  return {w_mean - moved, m, {m.y, -m.x}};
}

std::vector<design::Pin> pinsByDistance(const PictureFrame& frame, Vec2 a, Vec2 b,
                                        double distance_m) {
  const Vec2 a_m = frame.siteOf(a), b_m = frame.siteOf(b);
  if (!(distance_m > 0) || norm(b_m - a_m) == 0)
    throw InputError({{"zero_length", "", "two places that are apart scale a drawing",
                       "click two places whose distance you know, and type it"}});
  const Vec2 to = a_m + (b_m - a_m) * (distance_m / norm(b_m - a_m));
  const auto tidy = [](Vec2 p) { return Vec2{tidyLength(p.x), tidyLength(p.y)}; };
  // The first place is rounded, and the second from there, so that the distance is the one typed.
  const Vec2 first = tidy(a_m);
  return {{a, first}, {b, first + (to - a_m)}};
}

}  // namespace belvedere::edit
