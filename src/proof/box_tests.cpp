// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/box_tests.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "base/units.h"
#include "optics/density.h"

namespace belvedere::proof {
namespace {

double distanceToSegment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 d = b - a;
  const double length2 = dot(d, d);
  const double t = length2 > 0 ? std::clamp(dot(p - a, d) / length2, 0.0, 1.0) : 0;
  return norm(p - (a + d * t));
}

// Is p inside or on the cell?
bool within(const Cell& cell, Vec2 p) {
  const Ring& ring = cell.corners;
  for (std::size_t i = 0; i < ring.size(); ++i)
    if (cross(ring[(i + 1) % ring.size()] - ring[i], p - ring[i]) < 0) return false;
  return true;
}

// A corner's place in the cell's box.
Vec2 shareOf(const Cell& cell, Vec2 p) {
  const Vec2 d = p - cell.centre;
  const double xx = dot(cell.half_x, cell.half_x), yy = dot(cell.half_y, cell.half_y);
  return {xx > 0 ? dot(d, cell.half_x) / xx : 0, yy > 0 ? dot(d, cell.half_y) / yy : 0};
}

// The directions from a point to all of a cell: the unit one to its centre, and how far to either
// side the others lie. Nothing when the point is in the cell or the cell surrounds it.
struct Fan {
  Vec2 middle;
  double left_tan = 0, right_tan = 0;
};
std::optional<Fan> fanOf(const Cell& cell, Vec2 from) {
  const Vec2 to_centre = cell.centre - from;
  const double d = norm(to_centre);
  if (d == 0) return {};
  Fan fan{to_centre / d, 0, 0};
  for (const Vec2& c : cell.corners) {
    const Vec2 to = c - from;
    const double forward = dot(fan.middle, to), aside = cross(fan.middle, to);
    if (forward <= 0) return {};  // also where the cell surrounds the point
    fan.left_tan = std::max(fan.left_tan, aside / forward);
    fan.right_tan = std::max(fan.right_tan, -aside / forward);
  }
  return fan;
}

}  // namespace

Slab slabOf(const scene::Floor& floor, const Cell& cell, double low_m, double high_m) {
  Slab slab;
  slab.half = {withZ(cell.half_x, dot(floor.slope, cell.half_x)),
               withZ(cell.half_y, dot(floor.slope, cell.half_y)), Vec3{0, 0, 0.5 * (high_m - low_m)}};
  const double floor_m = floor.at(cell.centre);
  slab.centre = withZ(cell.centre, floor_m + 0.5 * (low_m + high_m));
  BELVEDERE_CHECK(cell.corners.size() <= scene::kOutlineMost, "a prism has room for a cell's corners");
  slab.prism.sides = cell.corners.size();
  for (std::size_t i = 0; i < slab.prism.sides; ++i) {
    const double z = floor.at(cell.corners[i]);
    slab.prism.corner[i] = withZ(cell.corners[i], z + low_m);
    slab.prism.corner[slab.prism.sides + i] = withZ(cell.corners[i], z + high_m);
  }
  return slab;
}

std::optional<Framed> frameByPlanes(const design::PosedImager& view, const Slab& slab, bool whole) {
  const auto* lens = std::get_if<optics::RadialLens>(&view.lens);
  if (!lens) return {};
  // Planes whose sides are swapped would meet again behind the lens.
  if (!view.showsAnything()) return Framed{Over::none, {}};
  if (lens->k != 1) return frameByCones(view, slab, whole);
  // f x / z + centre <= high becomes (high - centre) z - f x >= 0: pixels times metres.
  const Mat3& r = view.imager_from_site;
  const Vec2 high = view.frame_high_px - lens->centre_px, low = view.frame_low_px - lens->centre_px;
  const std::array<Vec3, 4> inward{r.row[2] * high.x - r.row[0] * lens->f_px,
                                   r.row[0] * lens->f_px - r.row[2] * low.x,
                                   r.row[2] * high.y - r.row[1] * lens->f_px,
                                   r.row[1] * lens->f_px - r.row[2] * low.y};
  const std::span<const Vec3> corners = slab.prism.lower();
  const double tall_m = slab.prism.corner[slab.prism.sides].z - slab.prism.corner[0].z;
  const Vec3 to_centre = slab.centre - view.lens_m;
  const double distance = std::fabs(to_centre.x) + std::fabs(to_centre.y) + std::fabs(to_centre.z) +
                          2 * (norm(slab.half[0]) + norm(slab.half[1])) + tall_m;
  Framed framed{Over::all, {}};
  double deepest = 0;
  for (const Vec3& n : inward) {
    Interval lower{1e300, -1e300};  // over the lower face; the upper face's is `rise` more
    for (const Vec3& p : corners) {
      const double d = dot(n, p - view.lens_m);
      lower = {std::min(lower.low, d), std::max(lower.high, d)};
    }
    const double rise = n.z * tall_m;
    // Rounding, and what project may err by, which the judge of points asks.
    constexpr double kRoundingShare = 1e-11;
    const double guard = (kRoundingShare * norm(n) + 2 * optics::kProjectErrorPx) * distance;
    const double nearer = std::max(0.0, rise), farther = std::min(0.0, rise);
    if (lower.high + (whole ? farther : nearer) <= -guard) return Framed{Over::none, {}};
    if (lower.low + farther >= guard) continue;
    framed.over = Over::mixed;
    // The end of the band where this edge cuts off more.
    const double off = whole ? farther : nearer;
    const Vec3& foot = corners[0];
    const Vec3 slope{slab.half[0].z, slab.half[1].z, 0};
    if (slope.x != 0 || slope.y != 0) continue;
    const double size = norm(n.xy());
    const double depth = -(lower.low + off) / size;
    if (!(size > 0) || !(depth > deepest) || lower.high + off <= 0) continue;
    deepest = depth;
    const double at = (dot(n, view.lens_m) - n.z * foot.z - off) / size;
    framed.cut = Cut{n.xy() / size, {at - kCutHalfM, at + kCutHalfM}};
  }
  return framed;
}

bool surelyDense(const design::PosedImager& view, const Slab& slab, double needed_px_per_m) {
  // The target's horizontal tangent stands square on the sightline: the picture's scale along it
  // lies between those along and across the radius, of which neither is under the focal length
  // where k >= 0.
  const auto* lens = std::get_if<optics::RadialLens>(&view.lens);
  if (!lens || lens->k < 0) return false;
  double least = lens->f_px * std::min(view.scale_x, view.scale_y) *
                 std::min(view.delivered.centre, view.delivered.corner);
  double far2 = 0;
  for (const Vec3& p : slab.prism.corners()) {
    const Vec3 d = p - view.lens_m;
    far2 = std::max(far2, dot(d, d));
  }
  if (view.px_per_rad) least = std::min(least, *view.px_per_rad);
  return least * (1 - 1e-9) >= needed_px_per_m * std::sqrt(far2);
}

optics::PictureBounds pictureOf(const design::PosedImager& view, const Slab& slab) {
  const Mat3& r = view.imager_from_site;
  return optics::pictureBounds(view.lens, {r * (slab.centre - view.lens_m),
                                           {r * slab.half[0], r * slab.half[1], r * slab.half[2]}});
}

namespace {
// At the slab's middle height, over the cell's corners, without the error.
Interval middleRange(const optics::LinearBound& bound, const Cell& cell) {
  Interval range{1e300, -1e300};
  for (const Vec2 p : cell.corners) {
    const Vec2 s = shareOf(cell, p);
    const double at = bound.value + bound.slope[0] * s.x + bound.slope[1] * s.y;
    range = {std::min(range.low, at), std::max(range.high, at)};
  }
  return range;
}

Over between(const optics::LinearBound& bound, const Cell& cell, double low, double high, bool whole) {
  const Interval middle = middleRange(bound, cell);
  const double tall = std::fabs(bound.slope[2]), error = bound.error;
  // Over all heights the coordinate swings by `tall` to either side of the middle height's.
  if (middle.high + tall + error <= high && middle.low - tall - error >= low) return Over::all;
  const double farther = whole ? tall : -tall;
  if (middle.low + farther - error > high || middle.high - farther + error < low) return Over::none;
  return Over::mixed;
}
}  // namespace

Interval rangeOver(const optics::LinearBound& bound, const Cell& cell) {
  const Interval middle = middleRange(bound, cell);
  const double rest = std::fabs(bound.slope[2]) + bound.error;
  return {middle.low - rest, middle.high + rest};
}

Over frameOver(const design::PosedImager& view, const Cell& cell,
               const optics::PictureBounds& picture, bool whole) {
  if (picture.maps == optics::Maps::nowhere || !view.showsAnything()) return Over::none;
  if (picture.maps == optics::Maps::unknown) return Over::mixed;
  const Over x = between(picture.x_px, cell, view.frame_low_px.x, view.frame_high_px.x, whole);
  if (x == Over::none) return x;
  const Over y = between(picture.y_px, cell, view.frame_low_px.y, view.frame_high_px.y, whole);
  return x == Over::all ? y : std::min(x, y);
}

std::optional<Cut> frameCut(const design::PosedImager& view, const Cell& cell,
                            const optics::PictureBounds& picture) {
  if (picture.maps != optics::Maps::everywhere) return {};
  std::optional<Cut> best;
  double best_middle = 1e300;
  // bound <= limit over the whole height (side 1), or bound >= limit (side -1).
  const auto consider = [&](const optics::LinearBound& bound, double limit, double side) {
    const double swing = std::fabs(bound.slope[0]) + std::fabs(bound.slope[1]);
    if (!(swing > 0) || bound.error > 0.25 * swing) return;
    // In the box's own coordinates: side * (value + slope . s) + |slope2| +- error <= side * limit.
    const double rest = side * (limit - bound.value) - std::fabs(bound.slope[2]);
    if (std::fabs(rest) >= swing + bound.error) return;  // does not cross the box
    const double xx = dot(cell.half_x, cell.half_x), yy = dot(cell.half_y, cell.half_y);
    const Vec2 normal = (cell.half_x * (xx > 0 ? bound.slope[0] / xx : 0) +
                         cell.half_y * (yy > 0 ? bound.slope[1] / yy : 0)) * side;
    const double centre = dot(normal, cell.centre);
    if (std::fabs(rest) / swing < best_middle) {
      best_middle = std::fabs(rest) / swing;
      // Twice the error: judged by itself, each side must come out clear by a bound of its own, and
      // that of the smaller part is better.
      best = Cut{normal, {centre + rest - 2 * bound.error, centre + rest + 2 * bound.error}};
    }
  };
  consider(picture.x_px, view.frame_high_px.x, 1);
  consider(picture.x_px, view.frame_low_px.x, -1);
  consider(picture.y_px, view.frame_high_px.y, 1);
  consider(picture.y_px, view.frame_low_px.y, -1);
  return best;
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
  const double swing = std::max(fan->left_tan, fan->right_tan);
  const double cosine = 1 / std::sqrt(1 + swing * swing);
  Interval density = optics::densityBounds(picture, tangent, sight, cosine * (1 - kIntervalGuard),
                                           swing * cosine, view.scale_x, view.scale_y);
  if (view.delivered.centre != 1 || view.delivered.corner != 1) {
    const Vec2 middle{0.5 * view.pixels[0], 0.5 * view.pixels[1]};
    const auto off = [](double low, double high, double mid) {
      const double a = low - mid, b = high - mid;
      return Interval{a <= 0 && b >= 0 ? 0.0 : std::min(std::fabs(a), std::fabs(b)),
                      std::max(std::fabs(a), std::fabs(b))};
    };
    const Interval x = off(rangeOver(picture.x_px, cell).low, rangeOver(picture.x_px, cell).high, middle.x);
    const Interval y = off(rangeOver(picture.y_px, cell).low, rangeOver(picture.y_px, cell).high, middle.y);
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
  const Ring& corner = cell.corners;
  double near = within(cell, from) ? 0 : 1e300, far = 0;
  for (std::size_t i = 0; i < corner.size(); ++i) {
    near = std::min(near, distanceToSegment(from, corner[i], corner[(i + 1) % corner.size()]));
    far = std::max(far, norm(corner[i] - from));
  }
  return {near, far};
}

Over elevationOver(const design::PosedImager& view, const Cell& cell, const Slab& slab,
                   double elevation_max_deg, bool whole) {
  if (elevation_max_deg >= 90) return Over::all;
  double low = 1e300, high = -1e300;  // of the height of the lens over the slab's points
  for (const Vec3& c : slab.prism.corners()) {
    low = std::min(low, view.lens_m.z - c.z);
    high = std::max(high, view.lens_m.z - c.z);
  }
  const double least = low <= 0 && high >= 0 ? 0 : std::min(std::fabs(low), std::fabs(high));
  const double most = std::max(std::fabs(low), std::fabs(high));
  const double limit = std::tan(degToRad(elevation_max_deg));
  const auto [near, far] = planDistances(cell, view.lens_m.xy());
  if (most <= limit * near) return Over::all;
  if (least > limit * far) return Over::none;
  // On a level floor the steepest height is the same all over the cell.
  if (whole && slab.half[0].z == 0 && slab.half[1].z == 0 && most > limit * far) return Over::none;
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
  const double low = off - radToDeg(std::atan(fan->left_tan)), high = off + radToDeg(std::atan(fan->right_tan));
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

Over maskOver(const design::PosedImager& view, const Cell& cell,
              const optics::PictureBounds& picture) {
  if (view.masks_px.empty()) return Over::all;
  if (picture.maps != optics::Maps::everywhere) return Over::mixed;
  const Interval x = rangeOver(picture.x_px, cell), y = rangeOver(picture.y_px, cell);
  const Vec2 low{x.low, y.low}, high{x.high, y.high};
  Over open = Over::all;
  for (const Ring& mask : view.masks_px) {
    const Over in = rectangleIn(mask, low, high);
    if (in == Over::all) return Over::none;
    if (in == Over::mixed) open = Over::mixed;
  }
  return open;
}

}  // namespace belvedere::proof
