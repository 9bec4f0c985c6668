// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/lens_bounds.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace belvedere::optics {
namespace {

// Scales of a lens over a range of angles, pixels per radian for a focal length of one pixel
// (Kannala-Brandt) or in pixels (radial): along the radius times cos(theta), across it, along it
// times sin(theta).
struct Scales {
  Interval along_cos, across, along_sin;
};

Interval ends(double a, double b) { return a <= b ? Interval{a, b} : Interval{b, a}; }

// sin and cos over [low, high] within [0, pi].
Interval sinOver(double sin_low, double sin_high, double low, double high) {
  Interval s = ends(sin_low, sin_high);
  if (low <= kPi / 2 && high >= kPi / 2) s.high = 1;
  return s;
}

Scales scalesOf(const RadialLens& lens, double low, double high) {
  const double sin_low = std::sin(low), cos_low = std::cos(low);
  const double sin_high = std::sin(high), cos_high = std::cos(high);
  const Interval cosine = ends(cos_low, cos_high);
  const Interval sine = sinOver(sin_low, sin_high, low, high);
  double r_low, r_high, slope_low, slope_high;
  const double f = lens.f_px, k = lens.k;
  if (k > kEquidistantBelow) {
    const double tan_low = std::tan(k * low), tan_high = std::tan(k * high);
    r_low = f / k * tan_low;
    r_high = f / k * tan_high;
    slope_low = f * (1 + tan_low * tan_low);
    slope_high = f * (1 + tan_high * tan_high);
  } else if (k < -kEquidistantBelow) {
    r_low = f / -k * std::sin(-k * low);
    r_high = f / -k * std::sin(-k * high);
    slope_low = f * std::cos(-k * low);
    slope_high = f * std::cos(-k * high);
  } else {
    r_low = f * low;
    r_high = f * high;
    slope_low = slope_high = f;
  }
  // r / sin(theta) grows with theta for the whole family (it is constant for k = -1).
  const double across_low = sin_low > 1e-9 ? r_low / sin_low : f;
  const double across_high = sin_high > 1e-9 ? r_high / sin_high : (high < 1 ? f : 1e18);
  const Interval slope = ends(slope_low, slope_high);
  return {slope * cosine, ends(across_low, across_high), slope * sine};
}

Scales scalesOf(const KannalaBrandtLens& lens, double low, double high) {
  const double sin_low = std::sin(low), cos_low = std::cos(low);
  const double sin_high = std::sin(high), cos_high = std::cos(high);
  const Interval q{low * low, high * high};
  const auto& c = lens.coefficients;
  const Interval q2 = square(q), q3 = q2 * q, q4 = square(q2);
  const Interval factor = Interval(1) + Interval(c[0]) * q + Interval(c[1]) * q2 +
                          Interval(c[2]) * q3 + Interval(c[3]) * q4;
  const Interval slope = Interval(1) + Interval(3 * c[0]) * q + Interval(5 * c[1]) * q2 +
                         Interval(7 * c[2]) * q3 + Interval(9 * c[3]) * q4;
  const Interval angle_over_sine{sin_low > 1e-9 ? low / sin_low : 1.0,
                                 sin_high > 1e-9 ? high / sin_high : (high < 1 ? 1.0 : 1e18)};
  return {slope * ends(cos_low, cos_high), factor * angle_over_sine,
          slope * sinOver(sin_low, sin_high, low, high)};
}

struct Corners {
  std::array<Vec3, 8> p;
  double z_low = 1e300, z_high = -1e300;
};
Corners cornersOf(const BoxInImager& box) {
  Corners c;
  for (std::size_t i = 0; i < 8; ++i) {
    c.p[i] = box.centre + box.half[0] * (i & 1 ? 1.0 : -1.0) + box.half[1] * (i & 2 ? 1.0 : -1.0) +
             box.half[2] * (i & 4 ? 1.0 : -1.0);
    c.z_low = std::min(c.z_low, c.p[i].z);
    c.z_high = std::max(c.z_high, c.p[i].z);
  }
  return c;
}

// value at the centre and gradient enclosure -> linear form over the box.
LinearBound linear(double value, const std::array<Interval, 3>& gradient,
                   const std::array<Vec3, 3>& half) {
  LinearBound bound;
  bound.value = value;
  const Vec3 mid{gradient[0].mid(), gradient[1].mid(), gradient[2].mid()};
  const Vec3 radius{gradient[0].radius(), gradient[1].radius(), gradient[2].radius()};
  double size = std::fabs(value);
  for (std::size_t i = 0; i < 3; ++i) {
    bound.slope[i] = dot(mid, half[i]);
    bound.error += radius.x * std::fabs(half[i].x) + radius.y * std::fabs(half[i].y) +
                   radius.z * std::fabs(half[i].z);
    size += std::fabs(bound.slope[i]);
  }
  bound.error += 1e-9 + kIntervalGuard * size;
  return bound;
}

Vec2 valueAtCentre(const Lens& lens, const Vec3& centre, bool& maps) {
  const auto p = project(lens, centre);
  maps = p.has_value();
  return p.value_or(Vec2{});
}

// The lenses that are round about their axis. `f` scales x and y apart (1, 1 for the radial family).
template <class Round>
PictureBounds roundBounds(const Round& lens, Vec2 f, Vec2 centre_px, double largest,
                          const BoxInImager& box, const Lens& whole) {
  PictureBounds out;
  const Vec3 c = box.centre;
  const double d_c = norm(c), rho_c = std::sqrt(c.x * c.x + c.y * c.y);
  if (d_c == 0) return out;
  const Vec2 u = rho_c > 1e-12 * d_c ? Vec2{c.x / rho_c, c.y / rho_c} : Vec2{1, 0};
  out.turn = u;
  std::array<Vec3, 3> half;  // in the turned frame
  double along = 0, sight = 0;
  const Vec3 n = c / d_c;
  for (std::size_t i = 0; i < 3; ++i) {
    const Vec3& e = box.half[i];
    half[i] = {u.x * e.x + u.y * e.y, u.x * e.y - u.y * e.x, e.z};
    along += std::fabs(half[i].x);
    sight += std::fabs(dot(n, e));
  }
  const Corners corners = cornersOf(box);
  const double rho_low = std::max(0.0, rho_c - along);
  double reach2 = 0, d_high2 = 0, tan2_high = 0, swing = 0;
  for (const Vec3& p : corners.p) {
    const Vec3 from_centre = p - c;
    reach2 = std::max(reach2, dot(from_centre, from_centre));
    d_high2 = std::max(d_high2, dot(p, p));
    if (corners.z_low > 0) tan2_high = std::max(tan2_high, (p.x * p.x + p.y * p.y) / (p.z * p.z));
    if (rho_low > 0) {
      const double forward = u.x * p.x + u.y * p.y, aside = u.x * p.y - u.y * p.x;
      swing = std::max(swing, std::fabs(aside) / forward);
    }
  }
  const double theta_c = std::atan2(rho_c, c.z);
  const double reach = std::sqrt(reach2);
  const double spread = reach < d_c ? std::asin(reach / d_c) : kPi;
  double high = corners.z_low > 0 ? std::atan(std::sqrt(tan2_high)) : std::min(kPi, theta_c + spread);
  double low = std::max(0.0, theta_c - spread);
  if (corners.z_high > 0) low = std::max(low, std::atan2(rho_low, corners.z_high));
  low *= 1 - kIntervalGuard;
  high *= 1 + kIntervalGuard;
  if (low > largest) {
    out.maps = Maps::nowhere;
    return out;
  }
  const double d_low = std::max(d_c - reach, d_c - sight);
  if (high >= largest || d_low <= 0) return out;
  bool maps = false;
  const Vec2 at = valueAtCentre(whole, c, maps);
  if (!maps) return out;
  out.maps = Maps::everywhere;

  const Scales scale = scalesOf(lens, low, high);
  Interval cosine{-1, 1}, sine{-1, 1};
  if (rho_low > 0) {
    const double c_most = 1 / std::sqrt(1 + swing * swing);
    cosine = {c_most * (1 - kIntervalGuard), 1};
    sine = {-swing * c_most, swing * c_most};
  }
  const Interval per_m{1 / std::sqrt(d_high2), 1 / d_low};
  const Interval across = scale.across * per_m;
  const Interval excess = (scale.along_cos - scale.across) * per_m;
  const Interval forward = -(scale.along_sin * per_m);
  const Interval both = excess * cosine * sine;
  out.px_per_m[0] = {across + excess * square(cosine), both, forward * cosine};
  out.px_per_m[1] = {both, across + excess * square(sine), forward * sine};

  const Vec2 turned{(u.x * (at.x - centre_px.x) / f.x + u.y * (at.y - centre_px.y) / f.y),
                    (u.x * (at.y - centre_px.y) / f.y - u.y * (at.x - centre_px.x) / f.x)};
  const LinearBound a = linear(turned.x, out.px_per_m[0], half);
  const LinearBound b = linear(turned.y, out.px_per_m[1], half);
  out.x_px.value = at.x;
  out.y_px.value = at.y;
  for (std::size_t i = 0; i < 3; ++i) {
    out.x_px.slope[i] = f.x * (u.x * a.slope[i] - u.y * b.slope[i]);
    out.y_px.slope[i] = f.y * (u.y * a.slope[i] + u.x * b.slope[i]);
  }
  out.x_px.error = f.x * (std::fabs(u.x) * a.error + std::fabs(u.y) * b.error);
  out.y_px.error = f.y * (std::fabs(u.y) * a.error + std::fabs(u.x) * b.error);
  return out;
}

}  // namespace

double LinearBound::low() const {
  return value - std::fabs(slope[0]) - std::fabs(slope[1]) - std::fabs(slope[2]) - error;
}
double LinearBound::high() const {
  return value + std::fabs(slope[0]) + std::fabs(slope[1]) + std::fabs(slope[2]) + error;
}
double LinearBound::lowAt(double side) const {
  return value + side * slope[2] - std::fabs(slope[0]) - std::fabs(slope[1]) - error;
}
double LinearBound::highAt(double side) const {
  return value + side * slope[2] + std::fabs(slope[0]) + std::fabs(slope[1]) + error;
}

namespace {
PictureBounds boundsOf(const RadialLens& lens, const BoxInImager& box, const Lens& whole) {
  return roundBounds(lens, {1, 1}, lens.centre_px, largestAngleRad(whole), box, whole);
}
PictureBounds boundsOf(const KannalaBrandtLens& lens, const BoxInImager& box, const Lens& whole) {
  PictureBounds b =
      roundBounds(lens, lens.f_px, lens.centre_px, lens.largest_angle_rad, box, whole);
  // The turned frame does not commute with f_x != f_y: give the Jacobian untwisted.
  if (b.maps == Maps::everywhere) {
    const Vec2 u = b.turn;
    const auto g = b.px_per_m;
    for (std::size_t row = 0; row < 2; ++row) {
      std::array<Interval, 3> turned;
      for (std::size_t j = 0; j < 3; ++j)
        turned[j] = row == 0 ? Interval(u.x) * g[0][j] - Interval(u.y) * g[1][j]
                             : Interval(u.y) * g[0][j] + Interval(u.x) * g[1][j];
      const Interval f(row == 0 ? lens.f_px.x : lens.f_px.y);
      b.px_per_m[row] = {f * (Interval(u.x) * turned[0] - Interval(u.y) * turned[1]),
                         f * (Interval(u.y) * turned[0] + Interval(u.x) * turned[1]), f * turned[2]};
    }
    b.turn = {1, 0};
  }
  return b;
}

PictureBounds boundsOf(const BrownConradyLens& lens, const BoxInImager& box, const Lens& whole) {
  PictureBounds out;
  const Corners corners = cornersOf(box);
  if (corners.z_high <= 0) {
    out.maps = Maps::nowhere;
    return out;
  }
  if (corners.z_low <= 0) return out;
  // x/z and y/z take their extremes over a convex box at its corners.
  Interval x{1e300, -1e300}, y{1e300, -1e300};
  double tan2_high = 0;
  for (const Vec3& p : corners.p) {
    const double px = p.x / p.z, py = p.y / p.z;
    x = {std::min(x.low, px), std::max(x.high, px)};
    y = {std::min(y.low, py), std::max(y.high, py)};
    tan2_high = std::max(tan2_high, px * px + py * py);
  }
  const double limit = std::tan(lens.largest_angle_rad);
  const Interval r2 = square(x) + square(y);
  if (r2.low > limit * limit * (1 + kIntervalGuard)) {
    out.maps = Maps::nowhere;
    return out;
  }
  bool maps = false;
  const Vec2 at = valueAtCentre(whole, box.centre, maps);
  if (!maps || tan2_high >= limit * limit) return out;
  out.maps = Maps::everywhere;
  const auto& [k1, k2, p1, p2, k3] = lens.coefficients;
  const Interval r4 = square(r2);
  const Interval radial = Interval(1) + Interval(k1) * r2 + Interval(k2) * r4 + Interval(k3) * r4 * r2;
  const Interval slope = Interval(k1) + Interval(2 * k2) * r2 + Interval(3 * k3) * r4;
  const Interval xx = square(x), yy = square(y), xy = x * y;
  const Interval fx(lens.f_px.x), fy(lens.f_px.y);
  const Interval xdx = fx * (radial + Interval(2) * xx * slope + Interval(2 * p1) * y + Interval(6 * p2) * x);
  const Interval xdy = fx * (Interval(2) * xy * slope + Interval(2 * p1) * x + Interval(2 * p2) * y);
  const Interval ydx = fy * (Interval(2) * xy * slope + Interval(2 * p1) * x + Interval(2 * p2) * y);
  const Interval ydy = fy * (radial + Interval(2) * yy * slope + Interval(6 * p1) * y + Interval(2 * p2) * x);
  const Interval per_z{1 / corners.z_high, 1 / corners.z_low};
  out.px_per_m[0] = {xdx * per_z, xdy * per_z, -((xdx * x + xdy * y) * per_z)};
  out.px_per_m[1] = {ydx * per_z, ydy * per_z, -((ydx * x + ydy * y) * per_z)};
  out.x_px = linear(at.x, out.px_per_m[0], box.half);
  out.y_px = linear(at.y, out.px_per_m[1], box.half);
  return out;
}
}  // namespace

PictureBounds pictureBounds(const Lens& lens, const BoxInImager& box) {
  return std::visit([&](const auto& one) { return boundsOf(one, box, lens); }, lens);
}

Interval densityBounds(const PictureBounds& bounds, const Vec3& t0, const Vec3& t1, double cos_most,
                       double sin_most, double scale_x, double scale_y) {
  const Vec2 u = bounds.turn;
  const auto turned = [&](const Vec3& v) {
    return Vec3{u.x * v.x + u.y * v.y, u.x * v.y - u.y * v.x, v.z};
  };
  const Vec3 a = turned(t0), b = turned(t1);
  const Interval cosine{cos_most, 1}, sine{-sin_most, sin_most};
  std::array<Interval, 2> along;
  for (std::size_t row = 0; row < 2; ++row) {
    const auto& g = bounds.px_per_m[row];
    const Interval ga = g[0] * Interval(a.x) + g[1] * Interval(a.y) + g[2] * Interval(a.z);
    const Interval gb = g[0] * Interval(b.x) + g[1] * Interval(b.y) + g[2] * Interval(b.z);
    along[row] = ga * cosine + gb * sine;
  }
  if (scale_x != scale_y) {
    const Interval x = Interval(u.x) * along[0] - Interval(u.y) * along[1];
    const Interval y = Interval(u.y) * along[0] + Interval(u.x) * along[1];
    along = {Interval(scale_x) * x, Interval(scale_y) * y};
  } else {
    along = {Interval(scale_x) * along[0], Interval(scale_x) * along[1]};
  }
  const Interval sum = square(along[0]) + square(along[1]);
  return {std::sqrt(sum.low) * (1 - kIntervalGuard), std::sqrt(sum.high) * (1 + kIntervalGuard)};
}

}  // namespace belvedere::optics
