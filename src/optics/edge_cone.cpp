// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/edge_cone.h"

#include <cmath>

#include "base/units.h"

namespace belvedere::optics {
namespace {

constexpr double kOnAxis = 1e-3;  // nearer to the axis, u's slope is lost in rounding

struct Radius {
  double px = 0, slope_px = 0;  // r and its derivative by theta
};
Radius radiusAt(double f_px, double k, double theta) {
  if (k > kEquidistantBelow) {
    const double t = std::tan(k * theta);
    return {f_px / k * t, f_px * (1 + t * t)};
  }
  if (k < -kEquidistantBelow) return {f_px / k * std::sin(k * theta), f_px * std::cos(k * theta)};
  return {f_px * theta, f_px};
}

}  // namespace

double EdgeCone::tangentPerPx(double rho) const {
  if (rho < 1e-9) return 1 / f_px;
  if (k == 0.5) return 0.5 * (1 + std::sqrt(1 + rho * rho)) / f_px;
  return rho / radiusAt(f_px, k, std::atan(rho)).px;
}

double EdgeCone::inside(const Vec3& p) const {
  const double out = side * (axis == 0 ? p.x : p.y);
  return f_px * (limit_px * tangentPerPx(std::hypot(p.x, p.y) / p.z) * p.z - out);
}

Vec3 EdgeCone::touching(const Vec3& near) const {
  const double along = (axis == 0 ? near.y : near.x) / near.z;
  double out = side * (axis == 0 ? near.x : near.y) / near.z;
  // Wherever it is taken, u's tangent lies below u; it is best taken on the edge.
  for (int i = 0; i < 3; ++i) out = limit_px * tangentPerPx(std::hypot(out, along));
  const double rho = std::hypot(out, along);
  double n_out = -f_px, n_along = 0, n_z = limit_px;
  if (rho > kOnAxis) {
    const double u = tangentPerPx(rho);
    double slope;
    if (k == 0.5) {
      slope = 0.5 * rho / std::sqrt(1 + rho * rho) / f_px;
    } else {
      const Radius r = radiusAt(f_px, k, std::atan(rho));
      slope = (r.px - rho / (1 + rho * rho) * r.slope_px) / (r.px * r.px);
    }
    n_out = f_px * (limit_px * slope * out / rho - 1);
    n_along = f_px * limit_px * slope * along / rho;
    n_z = f_px * limit_px * (u - slope * rho);
  }
  return axis == 0 ? Vec3{side * n_out, n_along, n_z} : Vec3{n_along, side * n_out, n_z};
}

double radiusAt90Px(const RadialLens& lens) { return radiusAt(lens.f_px, lens.k, kPi / 2).px; }

std::optional<EdgeCone> edgeCone(const RadialLens& lens, int axis, double side, double edge_px) {
  if (lens.k < -1 || lens.k >= 1) return {};
  const double limit_px = side * (edge_px - (axis == 0 ? lens.centre_px.x : lens.centre_px.y));
  if (!(limit_px > 0)) return {};
  return EdgeCone{lens.f_px, lens.k, axis, side, limit_px};
}

}  // namespace belvedere::optics
