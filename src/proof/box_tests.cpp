// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/box_tests.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "optics/density.h"

namespace belvedere::proof {
namespace {

std::array<Vec2, 4> cornersOf(const Cell& cell) {
  return {cell.centre - cell.half_x - cell.half_y, cell.centre + cell.half_x - cell.half_y,
          cell.centre + cell.half_x + cell.half_y, cell.centre - cell.half_x + cell.half_y};
}

double distanceToSegment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 d = b - a;
  const double length2 = dot(d, d);
  const double t = length2 > 0 ? std::clamp(dot(p - a, d) / length2, 0.0, 1.0) : 0;
  return norm(p - (a + d * t));
}

// Is p inside or on the cell?
bool within(const Cell& cell, Vec2 p) {
  const Vec2 d = p - cell.centre;
  const double area = cross(cell.half_x, cell.half_y);
  if (area == 0) return false;
  return std::fabs(cross(d, cell.half_y)) <= std::fabs(area) &&
         std::fabs(cross(cell.half_x, d)) <= std::fabs(area);
}

// The directions from a point to all of a cell: the unit one to its centre, and how far to either
// side the others lie. Nothing when the point is in the cell or the cell surrounds it.
struct Fan {
  Vec2 middle;
  double left_rad = 0, right_rad = 0;
};
std::optional<Fan> fanOf(const Cell& cell, Vec2 from) {
  const Vec2 to_centre = cell.centre - from;
  const double d = norm(to_centre);
  if (d == 0 || within(cell, from)) return {};
  Fan fan{to_centre / d, 0, 0};
  for (const Vec2& c : cornersOf(cell)) {
    const Vec2 to = c - from;
    const double forward = dot(fan.middle, to), aside = cross(fan.middle, to);
    if (forward <= 0) return {};
    const double angle = std::atan2(aside, forward);
    fan.left_rad = std::max(fan.left_rad, angle);
    fan.right_rad = std::max(fan.right_rad, -angle);
  }
  return fan;
}

}  // namespace

Slab slabOf(const scene::Floor& floor, const Cell& cell, double low_m, double high_m) {
  Slab slab;
  slab.half = {withZ(cell.half_x, dot(floor.slope, cell.half_x)),
               withZ(cell.half_y, dot(floor.slope, cell.half_y)), Vec3{0, 0, 0.5 * (high_m - low_m)}};
  slab.centre = withZ(cell.centre, floor.at(cell.centre) + 0.5 * (low_m + high_m));
  for (std::size_t i = 0; i < 8; ++i)
    slab.corner[i] = slab.centre + slab.half[0] * (i & 1 ? 1.0 : -1.0) +
                     slab.half[1] * (i & 2 ? 1.0 : -1.0) + slab.half[2] * (i & 4 ? 1.0 : -1.0);
  return slab;
}

optics::PictureBounds pictureOf(const design::PosedImager& view, const Slab& slab) {
  const Mat3& r = view.imager_from_site;
  return optics::pictureBounds(view.lens, {r * (slab.centre - view.lens_m),
                                           {r * slab.half[0], r * slab.half[1], r * slab.half[2]}});
}

Over frameOver(const design::PosedImager& view, const optics::PictureBounds& picture) {
  if (picture.maps == optics::Maps::nowhere) return Over::none;
  if (picture.maps == optics::Maps::unknown) return Over::mixed;
  const Vec2 low = view.frame_low_px, high = view.frame_high_px;
  const double x_low = picture.x_px.low(), x_high = picture.x_px.high();
  const double y_low = picture.y_px.low(), y_high = picture.y_px.high();
  if (x_low > high.x || x_high < low.x || y_low > high.y || y_high < low.y) return Over::none;
  if (x_low >= low.x && x_high <= high.x && y_low >= low.y && y_high <= high.y) return Over::all;
  return Over::mixed;
}

std::optional<Interval> densityOver(const design::PosedImager& view, const Cell& cell,
                                    const optics::PictureBounds& picture) {
  if (picture.maps != optics::Maps::everywhere) return {};
  const auto fan = fanOf(cell, view.lens_m.xy());
  if (!fan) return {};
  // The horizontal tangent swings with the bearing of the sightline.
  const Vec2 m = fan->middle;
  const Vec3 tangent = view.imager_from_site * Vec3{-m.y, m.x, 0};
  const Vec3 sight = view.imager_from_site * Vec3{m.x, m.y, 0};
  const double swing = std::max(fan->left_rad, fan->right_rad);
  Interval density = optics::densityBounds(picture, tangent, sight, std::cos(swing), std::sin(swing),
                                           view.scale_x, view.scale_y);
  if (view.delivered.centre != 1 || view.delivered.corner != 1) {
    const Vec2 middle{0.5 * view.pixels[0], 0.5 * view.pixels[1]};
    const auto off = [](double low, double high, double mid) {
      const double a = low - mid, b = high - mid;
      return Interval{a <= 0 && b >= 0 ? 0.0 : std::min(std::fabs(a), std::fabs(b)),
                      std::max(std::fabs(a), std::fabs(b))};
    };
    const Interval x = off(picture.x_px.low(), picture.x_px.high(), middle.x);
    const Interval y = off(picture.y_px.low(), picture.y_px.high(), middle.y);
    const double near = optics::deliveredFactor(view.delivered.centre, view.delivered.corner,
                                                view.pixels, middle + Vec2{x.low, y.low});
    const double far = optics::deliveredFactor(view.delivered.centre, view.delivered.corner,
                                               view.pixels, middle + Vec2{x.high, y.high});
    density = density * Interval{std::min(near, far), std::max(near, far)};
  }
  if (view.px_per_rad) {
    const auto [near, far] = planDistances(cell, view.lens_m.xy());
    density = {std::min(density.low, optics::unrolledDensity(*view.px_per_rad, far)),
               std::min(density.high, near > 0 ? optics::unrolledDensity(*view.px_per_rad, near)
                                               : 1e300)};
  }
  return density;
}

std::array<double, 2> planDistances(const Cell& cell, Vec2 from) {
  const auto corner = cornersOf(cell);
  double near = within(cell, from) ? 0 : 1e300, far = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    near = std::min(near, distanceToSegment(from, corner[i], corner[(i + 1) % 4]));
    far = std::max(far, norm(corner[i] - from));
  }
  return {near, far};
}

Over elevationOver(const design::PosedImager& view, const Cell& cell, const Slab& slab,
                   double elevation_max_deg) {
  if (elevation_max_deg >= 90) return Over::all;
  double low = 1e300, high = -1e300;  // of the height of the lens over the slab's points
  for (const Vec3& c : slab.corner) {
    low = std::min(low, view.lens_m.z - c.z);
    high = std::max(high, view.lens_m.z - c.z);
  }
  const double least = low <= 0 && high >= 0 ? 0 : std::min(std::fabs(low), std::fabs(high));
  const double most = std::max(std::fabs(low), std::fabs(high));
  const double limit = std::tan(degToRad(elevation_max_deg));
  const auto [near, far] = planDistances(cell, view.lens_m.xy());
  if (most <= limit * near) return Over::all;
  if (least > limit * far) return Over::none;
  return Over::mixed;
}

Over yawOver(const design::PosedImager& view, const Cell& cell, const design::Facing& facing) {
  if (facing.yaw_max_deg >= 180) return Over::all;
  const auto fan = fanOf(cell, view.lens_m.xy());
  if (!fan) return Over::mixed;
  // Bearing from the target to the camera, clockwise; the fan is seen from the camera.
  const double bearing = radToDeg(std::atan2(-fan->middle.x, -fan->middle.y));
  const double off = wrap180(bearing - facing.bearing_deg);
  // A fan swung left seen from the camera turns the bearing anticlockwise.
  const double low = off - radToDeg(fan->left_rad), high = off + radToDeg(fan->right_rad);
  const double limit = facing.yaw_max_deg;
  if (low >= -limit && high <= limit) return Over::all;
  // Beyond the limit on either side; off may wrap, so distances from the opposite are compared.
  const auto turnedAway = [&](double from, double to) {
    return (from > limit && to < 360 - limit) || (to < -limit && from > limit - 360);
  };
  if (turnedAway(low, high)) return Over::none;
  return Over::mixed;
}

Over rectangleIn(const Ring& ring, Vec2 low, Vec2 high) {
  Box2 box = bounds(ring);
  if (box.low.x > high.x || box.high.x < low.x || box.low.y > high.y || box.high.y < low.y)
    return Over::none;
  // Any edge of the ring that enters the rectangle leaves it undecided.
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], d = ring[(i + 1) % ring.size()] - a;
    double t0 = 0, t1 = 1;
    bool apart = false;
    const auto cut = [&](double from, double along, double least, double most) {
      if (along == 0) {
        apart = apart || from < least || from > most;
        return;
      }
      double near = (least - from) / along, far = (most - from) / along;
      if (near > far) std::swap(near, far);
      t0 = std::max(t0, near);
      t1 = std::min(t1, far);
    };
    cut(a.x, d.x, low.x, high.x);
    cut(a.y, d.y, low.y, high.y);
    if (!apart && t0 <= t1) return Over::mixed;
  }
  return contains(ring, (low + high) * 0.5) ? Over::all : Over::none;
}

Over maskOver(const design::PosedImager& view, const optics::PictureBounds& picture) {
  if (view.masks_px.empty()) return Over::all;
  if (picture.maps != optics::Maps::everywhere) return Over::mixed;
  const Vec2 low{picture.x_px.low(), picture.y_px.low()};
  const Vec2 high{picture.x_px.high(), picture.y_px.high()};
  Over open = Over::all;
  for (const Ring& mask : view.masks_px) {
    const Over in = rectangleIn(mask, low, high);
    if (in == Over::all) return Over::none;
    if (in == Over::mixed) open = Over::mixed;
  }
  return open;
}

}  // namespace belvedere::proof
