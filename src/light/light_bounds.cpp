// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/light_bounds.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/units.h"

namespace belvedere::light {
namespace {

constexpr double kEndless = std::numeric_limits<double>::infinity();
constexpr double kAngleSlackRad = 1e-12;

Interval widened(const Interval& i) {
  return {i.low - kLightGuard * std::fabs(i.low), i.high + kLightGuard * std::fabs(i.high)};
}

double angleBetween(const Vec3& a, const Vec3& b) {
  return std::atan2(norm(cross(a, b)), dot(a, b));
}

Vec3 middleOf(std::span<const Vec3> corners) {
  Vec3 sum;
  for (const Vec3& c : corners) sum = sum + c;
  return sum / static_cast<double>(corners.size());
}

}  // namespace

SeenBox seenFrom(const Vec3& point, std::span<const Vec3> corners) {
  SeenBox seen;
  const Vec3 to_middle = middleOf(corners) - point;
  const double length = norm(to_middle);
  seen.half_rad = kPi;
  double far2 = 0;
  for (const Vec3& c : corners) far2 = std::max(far2, dot(c - point, c - point));
  seen.far_m = std::sqrt(far2);
  if (!(length > 0)) return seen;
  seen.axis = to_middle / length;
  double near_m = kEndless, tangent2 = 0;
  for (const Vec3& c : corners) {
    const double ahead = dot(seen.axis, c - point);
    near_m = std::min(near_m, ahead);
    if (ahead <= 0) return seen;
    const Vec3 aside = cross(seen.axis, c - point);
    tangent2 = std::max(tangent2, dot(aside, aside) / (ahead * ahead));
  }
  // A cone of less than a right angle is convex: it holds the hull of what it holds.
  const double half_rad = std::atan(std::sqrt(tangent2));
  if (half_rad + kAngleSlackRad >= 0.5 * kPi) return seen;
  seen.near_m = near_m;
  seen.half_rad = half_rad + kAngleSlackRad;
  return seen;
}

Normals normalsInPlan(const Vec3& lens_m, std::span<const Vec3> corners) {
  std::array<Vec3, 2 * scene::kOutlineMost> level;
  const std::size_t count = std::min(corners.size(), level.size());
  for (std::size_t i = 0; i < count; ++i) level[i] = {corners[i].x, corners[i].y, lens_m.z};
  const SeenBox seen = seenFrom(lens_m, {level.data(), count});
  return {-seen.axis, seen.half_rad, seen.near_m, seen.far_m};
}

Normals normalsToward(const Vec3& lens_m, std::span<const Vec3> corners) {
  const SeenBox seen = seenFrom(lens_m, corners);
  return {-seen.axis, seen.half_rad, seen.near_m, seen.far_m};
}

Cast castOver(const Luminaire& luminaire, std::span<const Vec3> corners) {
  const SeenBox seen = seenFrom(luminaire.at_m, corners);
  return {seen, candelaWithin(*luminaire.photometry, luminaire.luminaire_from_site * seen.axis,
                              seen.half_rad)};
}

Interval illuminanceOver(const Luminaire& luminaire, const Cast& cast, std::span<const Vec3> corners,
                         const Normals& normals) {
  const auto& [seen, candela] = cast;
  // Of the normal in the middle, the height over the plane is linear; turning it by so much moves
  // the cosine by the chord at most.
  Interval height{kEndless, -kEndless};
  for (const Vec3& c : corners) {
    const double h = dot(normals.middle, luminaire.at_m - c);
    height = {std::min(height.low, h), std::max(height.high, h)};
  }
  const double chord = normals.half_rad > 0 ? 2 * std::sin(0.5 * std::min(normals.half_rad, kPi)) : 0;
  const auto over = [](double a, double b) { return b > 0 ? a / b : a > 0 ? kEndless : 0; };
  Interval cosine;
  cosine.high = std::clamp(over(std::max(0.0, height.high), seen.near_m) + chord, 0.0, 1.0);
  cosine.low = std::max(0.0, over(std::max(0.0, height.low), seen.far_m) - chord);
  const double near2 = seen.near_m * seen.near_m, far2 = seen.far_m * seen.far_m;
  const double most = luminaire.factor * candela.high * cosine.high;
  const double least = luminaire.factor * candela.low * cosine.low;
  return widened({least > 0 ? least / far2 : 0, over(most, near2)});
}

namespace {

// Angles off an axis over the hull of some corners seen from the axis' origin.
Interval anglesOff(const Vec3& axis, const Vec3& from, std::span<const Vec3> corners,
                   const SeenBox& seen) {
  const double middle = angleBetween(axis, seen.axis);
  Interval off{std::max(0.0, middle - seen.half_rad), std::min(kPi, middle + seen.half_rad)};
  const bool ahead = std::all_of(corners.begin(), corners.end(),
                                 [&](const Vec3& c) { return dot(axis, c - from) > 0; });
  if (!ahead || seen.half_rad >= kPi) return off;
  // A cone of less than a right angle about the axis is convex: the greatest angle is a corner's.
  double most = 0;
  for (const Vec3& c : corners) most = std::max(most, angleBetween(axis, c - from));
  off.high = std::min(off.high, most + kAngleSlackRad);
  // The angle in the plane through the axis and the box's middle is least at a corner, and no
  // greater than the angle itself.
  const Vec3 beside = seen.axis - axis * dot(axis, seen.axis);
  if (const double size = norm(beside); size > 1e-9) {
    const Vec3 side = beside / size;
    double least = kPi;
    for (const Vec3& c : corners)
      least = std::min(least, std::atan2(dot(side, c - from), dot(axis, c - from)));
    off.low = std::max(off.low, least - kAngleSlackRad);
  }
  return off;
}

}  // namespace

Interval shareOver(const Lamp& lamp, std::span<const Vec3> corners) {
  const SeenBox seen = seenFrom(lamp.at_m, corners);
  const Interval off = anglesOff(lamp.axis, lamp.at_m, corners, seen);
  const double range2 = lamp.range_m * lamp.range_m;
  const double most = range2 * beamShare(off.low, lamp.half_beam_rad);
  const double least = range2 * beamShare(off.high, lamp.half_beam_rad);
  const double near2 = seen.near_m * seen.near_m, far2 = seen.far_m * seen.far_m;
  return widened({far2 > 0 ? least / far2 : kEndless,
                  near2 > 0 ? most / near2 : most > 0 ? kEndless : 0});
}

namespace {

using Vector = std::array<Interval, 3>;

Vector operator*(const Vector& v, const Interval& s) { return {v[0] * s, v[1] * s, v[2] * s}; }
Vector operator+(const Vector& a, const Vector& b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
Interval along(const Vec3& row, const Vector& v) {
  return v[0] * Interval(row.x) + v[1] * Interval(row.y) + v[2] * Interval(row.z);
}
Interval rootOf(const Interval& i) { return {std::sqrt(i.low), std::sqrt(i.high)}; }

// The way from a point to a box: its parts along the axes, and its length.
struct Way {
  Vector ray;
  Interval length;
};
Way wayTo(const Vec3& from, std::span<const Vec3> corners, const SeenBox& seen) {
  Way way;
  way.ray.fill({kEndless, -kEndless});
  for (const Vec3& c : corners) {
    const Vec3 d = c - from;
    way.ray = {hull(way.ray[0], d.x), hull(way.ray[1], d.y), hull(way.ray[2], d.z)};
  }
  const Interval squared = square(way.ray[0]) + square(way.ray[1]) + square(way.ray[2]);
  way.length = {std::max(seen.near_m, std::sqrt(squared.low)), seen.far_m};
  return way;
}

Slopes widened(double value, const Vector& slope) {
  constexpr double kGuard = 1e-9;  // a hundred operations, some of which take nearly equal numbers from another
  Slopes out{value, slope, {}};
  for (Interval& i : out.slope) i = i + Interval{-kGuard * i.magnitude(), kGuard * i.magnitude()};
  return out;
}

}  // namespace

// E = factor I h / d^3 with h the height of the luminaire over the plane; its slopes by the rule for products. Where
// h is small beside how it changes, by far the most hangs on it.
std::optional<Slopes> illuminanceSlopes(const Luminaire& luminaire, const Cast& cast,
                                        std::span<const Vec3> corners, const Normals& normals,
                                        const Vec3& at_m, const Vec3& normal) {
  const auto& [seen, candela] = cast;
  if (seen.near_m <= 0 || normals.near_m <= 0) return {};
  const Way way = wayTo(luminaire.at_m, corners, seen);
  // A normal turns in plan, about what it is turned to, by one over the distance.
  const double chord = normals.half_rad > 0 ? 2 * std::sin(0.5 * normals.half_rad) : 0;
  const Interval turn{-chord, chord}, nz(normals.middle.z);
  const Interval nx = Interval(normals.middle.x) + turn, ny = Interval(normals.middle.y) + turn;
  const Interval across = (way.ray[1] * nx - way.ray[0] * ny) / Interval{normals.near_m, normals.far_m};
  const Interval height = -(way.ray[0] * nx + way.ray[1] * ny + way.ray[2] * nz);
  const Vector height_slope{-nx - ny * across, -ny + nx * across, -nz};
  if (height.high <= 0) return Slopes{};
  const Interval d = way.length, per_d2 = Interval(1.0) / square(d);
  const Interval weight = Interval(luminaire.factor) * per_d2 / d;
  constexpr double kGrazes = 0.5;
  if (height.low < kGrazes * height.high) {
    Slopes out = widened(dot(luminaire.at_m - at_m, normal), height_slope);
    out.per_height = weight * candela;
    return out;
  }
  const auto slopes = candelaSlopesWithin(
      *luminaire.photometry, luminaire.luminaire_from_site * seen.axis, seen.half_rad);
  if (!slopes) return {};
  // The angle from the axis grows along (z x, z y, -r^2) / (r d), that about it along (-y, x, 0) / r.
  const Mat3& m = luminaire.luminaire_from_site;
  const Interval x = along(m.row[0], way.ray), y = along(m.row[1], way.ray), z = along(m.row[2], way.ray);
  const Interval r = rootOf(square(x) + square(y));
  const Interval down = slopes->along_per_rad * per_d2;
  Vector inside{0.0, 0.0, -r * down};
  if (r.low > 0) {
    const Interval about = slopes->across_per_rad / square(r);
    inside[0] = z * x / r * down - y * about;
    inside[1] = z * y / r * down + x * about;
  } else if (slopes->across_per_rad.low == 0 && slopes->across_per_rad.high == 0) {
    // About the axis, away from it in any direction.
    const double most = (down * d).magnitude();
    inside[0] = inside[1] = {-most, most};
  } else {
    return {};
  }
  const Mat3 back = transposed(m);
  const Vector candela_slope{along(back.row[0], inside), along(back.row[1], inside),
                             along(back.row[2], inside)};
  return widened(illuminanceFrom(luminaire, at_m, normal),
                 (candela_slope * height + height_slope * candela +
                  way.ray * (Interval(-3.0) * candela * height * per_d2)) * weight);
}

// s = R^2 b / d^2 with b = 2^-(t/half)^2: t times the slope of t is (t / sin t) (cos t ray/d - axis) / d.
std::optional<Slopes> shareSlopes(const Lamp& lamp, std::span<const Vec3> corners, const Vec3& at_m) {
  const SeenBox seen = seenFrom(lamp.at_m, corners);
  constexpr double kMostOffRad = 2.5;
  if (seen.near_m <= 0) return {};
  const Interval off = anglesOff(lamp.axis, lamp.at_m, corners, seen);
  if (off.high > kMostOffRad) return {};
  const Way way = wayTo(lamp.at_m, corners, seen);
  const Interval per_d = Interval(1.0) / way.length;
  const Vector ray = way.ray * per_d;
  const auto overSine = [](double t) { return t > 1e-4 ? t / std::sin(t) : 1 + t * t / 6; };
  const Interval ratio{overSine(off.low) * (1 - 1e-12), overSine(off.high) * (1 + 1e-12)};
  const Interval cosine{std::cos(off.high), std::cos(off.low)};
  const Interval share{beamShare(off.high, lamp.half_beam_rad), beamShare(off.low, lamp.half_beam_rad)};
  const double fall = 2 * std::log(2.0) / (lamp.half_beam_rad * lamp.half_beam_rad);
  const Vector away = ray * cosine + Vector{-lamp.axis.x, -lamp.axis.y, -lamp.axis.z};
  const Interval weight = Interval(lamp.range_m * lamp.range_m) * share * per_d * per_d * per_d;
  return widened(shareFrom(lamp, at_m),
                 (away * (ratio * Interval(-fall)) + ray * Interval(-2.0)) * weight);
}

}  // namespace belvedere::light
