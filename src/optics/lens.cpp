// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/lens.h"

#include <cstddef>
#include <limits>
#include <vector>

#include "base/check.h"
#include "base/units.h"
#include "optics/trig.h"

namespace belvedere::optics {
namespace {

using trig::Pack;

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
// Rounding may carry the angle of the outermost ray past the limit by a few last places.
constexpr double kAngleSlackRad = 1e-12;

// ---- one kernel a model: (x, y, z) to the picture, NaN where it ends; T: double or Pack ---------

enum class Shape { rectilinear, tangent, linear, sine };

Shape shapeOf(const RadialLens& lens) {
  if (lens.k == 1) return Shape::rectilinear;
  if (lens.k > kEquidistantBelow) return Shape::tangent;
  return lens.k < -kEquidistantBelow ? Shape::sine : Shape::linear;
}

double largestOf(const RadialLens& lens) {
  const double turn = lens.k > kEquidistantBelow    ? trig::kHalfPiHigh / lens.k - kPoleGapRad
                      : lens.k < -kEquidistantBelow ? trig::kHalfPiHigh / -lens.k
                                                    : kPi;
  return turn < kPi ? turn : kPi;
}

// radius / rho; on the axis its limit, slope / z; straight behind NaN. One division for both.
template <class T>
inline T overRho(const T& radius, const T& slope, const T& rho, const T& z) {
  const auto off_axis = rho > 0.0;
  return (off_axis ? radius : slope) / (off_axis ? rho : (z > 0.0 ? z : trig::constant<T>(kNaN)));
}

struct RadialKernel {
  Shape shape;
  double f_px, k, centre_x, centre_y, limit_rad;
};

template <Shape shape, class T>
inline void radial(const RadialKernel& lens, const T& x, const T& y, const T& z, T& u, T& v) {
  const T rho2 = x * x + y * y;
  T scale;  // picture radius over rho
  if constexpr (shape == Shape::rectilinear) {
    const T nearest = trig::squareRoot(rho2) * kPoleGapRad;
    scale = z > nearest ? lens.f_px / z : trig::constant<T>(kNaN);
  } else {
    const T rho = trig::squareRoot(rho2);
    const T theta = trig::angleOf(rho, z);
    T radius;
    if constexpr (shape == Shape::linear) {
      radius = lens.f_px * theta;
    } else if constexpr (shape == Shape::tangent) {
      radius = (lens.f_px / lens.k) * trig::tangent<T>(lens.k * theta);
    } else {
      T sine, cosine;
      trig::sineCosine<T>(-lens.k * theta, sine, cosine);
      radius = (lens.f_px / -lens.k) * sine;
    }
    scale = overRho(theta <= lens.limit_rad ? radius : trig::constant<T>(kNaN),
                    trig::constant<T>(lens.f_px), rho, z);
  }
  u = lens.centre_x + scale * x;
  v = lens.centre_y + scale * y;
}

struct BrownConradyKernel {
  BrownConradyLens lens;
  double limit_r2;  // square of the tangent of the largest angle
};

template <class T>
inline void brownConrady(const BrownConradyKernel& kernel, const T& x, const T& y, const T& z, T& u,
                         T& v) {
  const BrownConradyLens& lens = kernel.lens;
  const auto& [k1, k2, p1, p2, k3] = lens.coefficients;
  const T inverse = z > 0.0 ? 1.0 / z : trig::constant<T>(kNaN);
  const T a = x * inverse, b = y * inverse;
  const T r2 = a * a + b * b;
  const T gain = 1.0 + r2 * (k1 + r2 * (k2 + r2 * k3));
  const T ab2 = 2.0 * a * b;
  const T valid = r2 <= kernel.limit_r2 ? T{} : trig::constant<T>(kNaN);
  u = lens.centre_px.x + valid + lens.f_px.x * (a * gain + p1 * ab2 + p2 * (r2 + 2.0 * a * a));
  v = lens.centre_px.y + valid + lens.f_px.y * (b * gain + p2 * ab2 + p1 * (r2 + 2.0 * b * b));
}

template <class T>
inline T kannalaBrandtRadius(const std::array<double, 4>& k, const T& theta) {
  const T t2 = theta * theta;
  return theta * (1.0 + t2 * ((k[0] + t2 * k[1]) + t2 * t2 * (k[2] + t2 * k[3])));
}

template <class T>
inline void kannalaBrandt(const KannalaBrandtLens& lens, const T& x, const T& y, const T& z, T& u,
                          T& v) {
  const T rho = trig::squareRoot(x * x + y * y);
  const T theta = trig::angleOf(rho, z);
  const T radius = theta <= lens.largest_angle_rad + kAngleSlackRad
                       ? kannalaBrandtRadius(lens.coefficients, theta)
                       : trig::constant<T>(kNaN);
  const T scale = overRho(radius, trig::constant<T>(1), rho, z);
  u = lens.centre_px.x + lens.f_px.x * (scale * x);
  v = lens.centre_px.y + lens.f_px.y * (scale * y);
}

// ---- dispatch: body(kernel), where kernel(x, y, z, u, v) works on doubles and on Packs ----------

template <class Body>
auto withKernel(const RadialLens& lens, Body body) {
  const RadialKernel kernel{shapeOf(lens),    lens.f_px,        lens.k,
                            lens.centre_px.x, lens.centre_px.y, largestOf(lens) + kAngleSlackRad};
  switch (kernel.shape) {
    case Shape::rectilinear:
      return body([kernel](const auto& x, const auto& y, const auto& z, auto& u, auto& v) {
        radial<Shape::rectilinear>(kernel, x, y, z, u, v);
      });
    case Shape::tangent:
      return body([kernel](const auto& x, const auto& y, const auto& z, auto& u, auto& v) {
        radial<Shape::tangent>(kernel, x, y, z, u, v);
      });
    case Shape::linear:
      return body([kernel](const auto& x, const auto& y, const auto& z, auto& u, auto& v) {
        radial<Shape::linear>(kernel, x, y, z, u, v);
      });
    case Shape::sine:
      break;
  }
  return body([kernel](const auto& x, const auto& y, const auto& z, auto& u, auto& v) {
    radial<Shape::sine>(kernel, x, y, z, u, v);
  });
}

template <class Body>
auto withKernel(const BrownConradyLens& lens, Body body) {
  const double limit = trig::tangent(lens.largest_angle_rad) * (1 + kAngleSlackRad);
  const BrownConradyKernel kernel{lens, limit * limit};
  return body([kernel](const auto& x, const auto& y, const auto& z, auto& u, auto& v) {
    brownConrady(kernel, x, y, z, u, v);
  });
}

template <class Body>
auto withKernel(const KannalaBrandtLens& lens, Body body) {
  return body([lens](const auto& x, const auto& y, const auto& z, auto& u, auto& v) {
    kannalaBrandt(lens, x, y, z, u, v);
  });
}

// ---- inverses -----------------------------------------------------------------------------------

// The least root in (0, upper] of the polynomial c[0] + c[1] u + c[2] u^2 + ..., c[0] > 0, or
// nothing: between two neighbouring roots of its derivative it is monotone, so bisection finds all.
double valueAt(const std::vector<double>& c, double u) {
  double v = 0;
  for (std::size_t i = c.size(); i-- > 0;) v = v * u + c[i];
  return v;
}
std::vector<double> rootsWithin(const std::vector<double>& c, double upper) {
  if (c.size() < 2) return {};
  std::vector<double> slope;
  for (std::size_t i = 1; i < c.size(); ++i) slope.push_back(static_cast<double>(i) * c[i]);
  std::vector<double> ends = rootsWithin(slope, upper), roots;
  ends.insert(ends.begin(), 0.0);
  ends.push_back(upper);
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    double low = ends[i], high = ends[i + 1];
    const bool rising = valueAt(c, low) < 0;
    if (rising == (valueAt(c, high) < 0)) continue;
    for (int step = 0; step < 200; ++step) {
      const double mid = 0.5 * (low + high);
      if (mid <= low || mid >= high) break;
      ((valueAt(c, mid) < 0) == rising ? low : high) = mid;
    }
    roots.push_back(low);
  }
  return roots;
}
std::optional<double> leastRoot(const std::vector<double>& c, double upper) {
  const std::vector<double> roots = rootsWithin(c, upper);
  if (roots.empty()) return std::nullopt;
  return roots.front();
}

// The x in [0, upper] at which a function that grows from f(0) = 0 takes the value y, by Newton's
// method kept inside a shrinking bracket; `upper` when y is beyond it.
template <class Function, class Slope>
double solveGrowing(const Function& f, const Slope& slope, double y, double upper) {
  double low = 0, high = upper, x = y < upper ? y : 0.5 * upper;
  for (int step = 0; step < 100; ++step) {
    const double miss = f(x) - y;
    if (miss == 0) return x;
    (miss < 0 ? low : high) = x;
    double next = x - miss / slope(x);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (next == x || high <= low) return next;
    x = next;
  }
  return x;
}

// A direction at angle theta from the axis, towards e (a unit vector) in the picture.
Vec3 directionAt(double theta, Vec2 e) {
  double sine, cosine;
  const bool behind = theta > trig::kHalfPiHigh;
  trig::sineCosine(behind ? (2 * trig::kHalfPiHigh - theta) + 2 * trig::kHalfPiLow : theta, sine,
                   cosine);
  return {sine * e.x, sine * e.y, behind ? -cosine : cosine};
}

std::optional<Vec3> unprojectWith(const RadialLens& lens, Vec2 p_px) {
  const Vec2 offset = (p_px - lens.centre_px) / lens.f_px;
  if (lens.k == 1) {
    const Vec3 d{offset.x, offset.y, 1};
    const Vec3 unit = normalized(d);
    if (unit.z > kPoleGapRad) return unit;
    return std::nullopt;
  }
  const double radius = norm(offset);
  if (radius == 0) return Vec3{0, 0, 1};
  double theta = radius;
  switch (shapeOf(lens)) {
    case Shape::tangent:
      theta = trig::angleOf(lens.k * radius, 1.0) / lens.k;
      break;
    case Shape::sine: {
      const double s = -lens.k * radius;
      if (!(s <= 1 + kAngleSlackRad)) return std::nullopt;
      const double cosine = s < 1 ? std::sqrt((1 - s) * (1 + s)) : 0;
      theta = trig::angleOf(s, cosine) / -lens.k;
      break;
    }
    default:
      break;
  }
  const double largest = largestOf(lens);
  if (!(theta <= largest + kAngleSlackRad)) return std::nullopt;
  return directionAt(theta < largest ? theta : largest, offset / radius);
}

std::optional<Vec3> unprojectWith(const BrownConradyLens& lens, Vec2 p_px) {
  const auto& [k1, k2, p1, p2, k3] = lens.coefficients;
  const Vec2 wanted{(p_px.x - lens.centre_px.x) / lens.f_px.x,
                    (p_px.y - lens.centre_px.y) / lens.f_px.y};
  const double limit = trig::tangent(lens.largest_angle_rad);
  const double radius = norm(wanted);
  const auto gain = [&, k1 = k1, k2 = k2, k3 = k3](double r2) {
    return 1 + r2 * (k1 + r2 * (k2 + r2 * k3));
  };
  const auto slope = [&, k1 = k1, k2 = k2, k3 = k3](double r2) {
    return 1 + r2 * (3 * k1 + r2 * (5 * k2 + r2 * 7 * k3));
  };
  // The radial part alone first; then the whole, by Newton's method in the plane.
  const double start = solveGrowing([&](double r) { return r * gain(r * r); },
                                    [&](double r) { return slope(r * r); }, radius, limit);
  Vec2 at = radius > 0 ? wanted * (start / radius) : Vec2{};
  const auto miss = [&, p1 = p1, p2 = p2](Vec2 q) {
    const double r2 = dot(q, q), g = gain(r2), xy2 = 2 * q.x * q.y;
    return Vec2{q.x * g + p1 * xy2 + p2 * (r2 + 2 * q.x * q.x) - wanted.x,
                q.y * g + p2 * xy2 + p1 * (r2 + 2 * q.y * q.y) - wanted.y};
  };
  Vec2 m = miss(at);
  for (int step = 0; step < 50 && (m.x != 0 || m.y != 0); ++step) {
    const double r2 = dot(at, at), g = gain(r2);
    const double dg = 2 * (k1 + r2 * (2 * k2 + r2 * 3 * k3));
    const double xx = g + at.x * at.x * dg + 2 * p1 * at.y + 6 * p2 * at.x;
    const double xy = at.x * at.y * dg + 2 * p1 * at.x + 2 * p2 * at.y;
    const double yy = g + at.y * at.y * dg + 2 * p2 * at.x + 6 * p1 * at.y;
    const double det = xx * yy - xy * xy;
    if (det == 0) break;
    const Vec2 move{(xy * m.y - yy * m.x) / det, (xy * m.x - xx * m.y) / det};
    double share = 1;
    Vec2 next = at + move, next_miss = miss(next);
    while (share > 1e-4 && !(norm(next_miss) < norm(m))) {
      share *= 0.5;
      next = at + move * share;
      next_miss = miss(next);
    }
    if (!(norm(next_miss) < norm(m))) break;
    at = next;
    m = next_miss;
  }
  const double miss_px = norm(Vec2{m.x * lens.f_px.x, m.y * lens.f_px.y});
  if (!(miss_px <= kProjectErrorPx) || !(norm(at) <= limit * (1 + kAngleSlackRad)))
    return std::nullopt;
  return normalized(Vec3{at.x, at.y, 1});
}

std::optional<Vec3> unprojectWith(const KannalaBrandtLens& lens, Vec2 p_px) {
  const Vec2 offset{(p_px.x - lens.centre_px.x) / lens.f_px.x,
                    (p_px.y - lens.centre_px.y) / lens.f_px.y};
  const double radius = norm(offset);
  if (radius == 0) return Vec3{0, 0, 1};
  const auto& k = lens.coefficients;
  const double largest = lens.largest_angle_rad;
  const auto value = [&](double t) { return kannalaBrandtRadius(k, t); };
  if (!(radius <= value(largest) * (1 + kAngleSlackRad))) return std::nullopt;
  const auto slope = [&](double t) {
    const double t2 = t * t;
    return 1 + t2 * (3 * k[0] + t2 * (5 * k[1] + t2 * (7 * k[2] + t2 * 9 * k[3])));
  };
  return directionAt(solveGrowing(value, slope, radius, largest), offset / radius);
}

// ---- derivatives --------------------------------------------------------------------------------

// Of r(theta) * e, in units of the focal length, from r's value and slope.
Projected radialJacobian(Vec2 f_px, Vec2 centre_px, const Vec3& p, double radius, double slope,
                         double rho) {
  const double d2 = dot(p, p);
  const Vec2 e = rho > 0 ? Vec2{p.x / rho, p.y / rho} : Vec2{1, 0};
  const double along = slope * p.z / d2;                       // radius per metre outwards
  const double across = rho > 0 ? radius / rho : slope / p.z;  // and sideways
  const double inwards = -slope * rho / d2;                    // and along the axis
  const double xx = along * e.x * e.x + across * e.y * e.y;
  const double xy = (along - across) * e.x * e.y;
  const double yy = along * e.y * e.y + across * e.x * e.x;
  return {{centre_px.x + f_px.x * radius * e.x, centre_px.y + f_px.y * radius * e.y},
          {Vec3{xx, xy, inwards * e.x} * f_px.x, Vec3{xy, yy, inwards * e.y} * f_px.y}};
}

std::optional<Projected> jacobianWith(const RadialLens& lens, const Vec3& p) {
  const double rho = std::sqrt(p.x * p.x + p.y * p.y);
  const Vec2 f{lens.f_px, lens.f_px};
  if (lens.k == 1) {
    if (!(p.z > rho * kPoleGapRad)) return std::nullopt;
    const double s = lens.f_px / p.z, a = p.x / p.z, b = p.y / p.z;
    return Projected{{lens.centre_px.x + s * p.x, lens.centre_px.y + s * p.y},
                     {Vec3{s, 0, -s * a}, Vec3{0, s, -s * b}}};
  }
  const double theta = trig::angleOf(rho, p.z);
  if (!(theta <= largestOf(lens) + kAngleSlackRad) || (rho == 0 && !(p.z > 0))) return std::nullopt;
  double radius = theta, slope = 1, sine, cosine;
  switch (shapeOf(lens)) {
    case Shape::tangent:
      trig::sineCosine(lens.k * theta, sine, cosine);
      radius = sine / cosine / lens.k;
      slope = 1 / (cosine * cosine);
      break;
    case Shape::sine:
      trig::sineCosine(-lens.k * theta, sine, cosine);
      radius = sine / -lens.k;
      slope = cosine;
      break;
    default:
      break;
  }
  return radialJacobian(f, lens.centre_px, p, radius, slope, rho);
}

std::optional<Projected> jacobianWith(const BrownConradyLens& lens, const Vec3& p) {
  const std::optional<Vec2> at = project(lens, p);
  if (!at) return std::nullopt;
  const auto& [k1, k2, p1, p2, k3] = lens.coefficients;
  const double a = p.x / p.z, b = p.y / p.z, r2 = a * a + b * b;
  const double g = 1 + r2 * (k1 + r2 * (k2 + r2 * k3));
  const double dg = 2 * (k1 + r2 * (2 * k2 + r2 * 3 * k3));
  const double xx = g + a * a * dg + 2 * p1 * b + 6 * p2 * a;
  const double xy = a * b * dg + 2 * p1 * a + 2 * p2 * b;
  const double yy = g + b * b * dg + 2 * p2 * a + 6 * p1 * b;
  const auto row = [&](double da, double db, double f) {
    return Vec3{da, db, -(da * a + db * b)} * (f / p.z);
  };
  return Projected{*at, {row(xx, xy, lens.f_px.x), row(xy, yy, lens.f_px.y)}};
}

std::optional<Projected> jacobianWith(const KannalaBrandtLens& lens, const Vec3& p) {
  const double rho = std::sqrt(p.x * p.x + p.y * p.y);
  const double theta = trig::angleOf(rho, p.z);
  if (!(theta <= lens.largest_angle_rad + kAngleSlackRad) || (rho == 0 && !(p.z > 0)))
    return std::nullopt;
  const auto& k = lens.coefficients;
  const double t2 = theta * theta;
  const double slope = 1 + t2 * (3 * k[0] + t2 * (5 * k[1] + t2 * (7 * k[2] + t2 * 9 * k[3])));
  return radialJacobian(lens.f_px, lens.centre_px, p, kannalaBrandtRadius(k, theta), slope, rho);
}

}  // namespace

BrownConradyLens makeBrownConrady(Vec2 f_px, Vec2 centre_px, std::array<double, 5> coefficients) {
  BrownConradyLens lens{f_px, centre_px, coefficients, 0};
  const auto& [k1, k2, p1, p2, k3] = coefficients;
  const double widest = trig::kHalfPiHigh - kPoleGapRad;
  const double limit = trig::tangent(widest);
  // d/dr of r (1 + k1 r^2 + k2 r^4 + k3 r^6), in u = r^2.
  const auto turn = leastRoot({1, 3 * k1, 5 * k2, 7 * k3}, limit * limit);
  lens.largest_angle_rad = turn ? trig::angleOf(std::sqrt(*turn), 1.0) : widest;
  return lens;
}

KannalaBrandtLens makeKannalaBrandt(Vec2 f_px, Vec2 centre_px, std::array<double, 4> coefficients) {
  KannalaBrandtLens lens{f_px, centre_px, coefficients, 0};
  const auto& k = coefficients;
  const auto turn = leastRoot({1, 3 * k[0], 5 * k[1], 7 * k[2], 9 * k[3]}, kPi * kPi);
  lens.largest_angle_rad = turn ? std::sqrt(*turn) : kPi;
  return lens;
}

double largestAngleRad(const Lens& lens) {
  if (const auto* radial_lens = std::get_if<RadialLens>(&lens)) return largestOf(*radial_lens);
  if (const auto* brown = std::get_if<BrownConradyLens>(&lens)) return brown->largest_angle_rad;
  return std::get<KannalaBrandtLens>(lens).largest_angle_rad;
}

std::optional<Vec2> project(const Lens& lens, const Vec3& dir_in_imager) {
  const Vec2 at = std::visit(
      [&](const auto& model) {
        return withKernel(model, [&](const auto& kernel) {
          Vec2 out;
          kernel(dir_in_imager.x, dir_in_imager.y, dir_in_imager.z, out.x, out.y);
          return out;
        });
      },
      lens);
  if (std::isnan(at.x) || std::isnan(at.y)) return std::nullopt;
  return at;
}

void projectMany(const Lens& lens, std::span<const Vec3> dirs_in_imager, std::span<Vec2> out_px) {
  BELVEDERE_CHECK(dirs_in_imager.size() == out_px.size(), "a place for every direction");
  const std::size_t count = dirs_in_imager.size(), even = count & ~std::size_t{1};
  const Vec3* dirs = dirs_in_imager.data();
  Vec2* out = out_px.data();
  std::visit(
      [&](const auto& model) {
        withKernel(model, [&](const auto kernel) {  // a copy: out_px cannot alias it
          for (std::size_t i = 0; i < even; i += 2) {
            const Vec3 &a = dirs[i], &b = dirs[i + 1];
            Pack u, v;
            kernel(Pack{a.x, b.x}, Pack{a.y, b.y}, Pack{a.z, b.z}, u, v);
            out[i] = {u[0], v[0]};
            out[i + 1] = {u[1], v[1]};
          }
          if (even < count)
            kernel(dirs[even].x, dirs[even].y, dirs[even].z, out[even].x, out[even].y);
        });
      },
      lens);
}

std::optional<Vec3> unproject(const Lens& lens, const Vec2& p_px) {
  return std::visit([&](const auto& model) { return unprojectWith(model, p_px); }, lens);
}

std::optional<Projected> projectWithJacobian(const Lens& lens, const Vec3& p_in_imager) {
  return std::visit([&](const auto& model) { return jacobianWith(model, p_in_imager); }, lens);
}

}  // namespace belvedere::optics
