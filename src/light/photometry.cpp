// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/photometry.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/units.h"

namespace belvedere::light {
namespace {

struct Angles {
  double across_deg = 0, along_deg = 0;
};

double asinDeg(double s) { return radToDeg(std::asin(std::clamp(s, -1.0, 1.0))); }

Angles anglesOf(Planes planes, const Vec3& dir) {
  const Vec3 d = normalized(dir);
  switch (planes) {
    case Planes::c:
      return {wrap360(radToDeg(std::atan2(d.y, d.x))),
              radToDeg(std::atan2(std::hypot(d.x, d.y), d.z))};
    case Planes::b: return {asinDeg(d.x), radToDeg(std::atan2(d.y, d.z))};
    case Planes::a: return {radToDeg(std::atan2(d.x, d.z)), asinDeg(d.y)};
  }
  return {};
}

// The index i with angles[i] <= value <= angles[i + 1]; nothing beyond the ends.
std::optional<std::size_t> stepAt(const std::vector<double>& angles, double value) {
  if (!(value >= angles.front() && value <= angles.back())) return {};
  const auto above = std::upper_bound(angles.begin(), angles.end(), value);
  const auto i = static_cast<std::size_t>(above - angles.begin());
  return std::min(i, angles.size() - 1) - 1;
}

double at(const Photometry& p, std::size_t i, std::size_t j, double across_deg, double along_deg) {
  const auto share = [](const std::vector<double>& angles, std::size_t k, double value) {
    return (value - angles[k]) / (angles[k + 1] - angles[k]);
  };
  const double s = share(p.across_deg, i, across_deg), t = share(p.along_deg, j, along_deg);
  const std::size_t row = p.along_deg.size(), k = i * row + j;
  return (1 - s) * ((1 - t) * p.candela[k] + t * p.candela[k + 1]) +
         s * ((1 - t) * p.candela[k + row] + t * p.candela[k + row + 1]);
}

// The part of step i of the angles that lies within [low, high].
Interval partOf(const std::vector<double>& angles, std::size_t i, double low, double high) {
  return {std::max(angles[i], low), std::min(angles[i + 1], high)};
}

// Extends `out` by all values over a rectangle of the two angles: over a part of one step of both,
// bilinear interpolation has its extremes at that part's corners.
void include(const Photometry& p, const Interval& across, const Interval& along, bool& any,
             Interval& out) {
  const auto add = [&](double value) {
    out = any ? hull(out, value) : Interval(value);
    any = true;
  };
  const auto covers = [](const std::vector<double>& angles, const Interval& range) {
    return range.low >= angles.front() && range.high <= angles.back();
  };
  if (!covers(p.across_deg, across) || !covers(p.along_deg, along)) add(0);
  if (across.high < p.across_deg.front() || along.high < p.along_deg.front()) return;
  const auto i0 = stepAt(p.across_deg, std::max(across.low, p.across_deg.front()));
  const auto j0 = stepAt(p.along_deg, std::max(along.low, p.along_deg.front()));
  if (!i0 || !j0) return;
  for (std::size_t i = *i0; i + 1 < p.across_deg.size() && p.across_deg[i] <= across.high; ++i) {
    const Interval x = partOf(p.across_deg, i, across.low, across.high);
    for (std::size_t j = *j0; j + 1 < p.along_deg.size() && p.along_deg[j] <= along.high; ++j) {
      const Interval y = partOf(p.along_deg, j, along.low, along.high);
      for (const double u : {x.low, x.high})
        for (const double v : {y.low, y.high}) add(at(p, i, j, u, v));
    }
  }
}

// Beyond what rounding can turn a direction by.
constexpr double kAngleSlackDeg = 1e-9;

// A cone of half angle h about a direction at angle e from the pole spans asin(sin h / sin e) of the
// planes through the pole to either side, and all of them where it holds the pole.
double planesInCone(double from_pole_deg, double half_deg) {
  if (half_deg >= 90 || from_pole_deg <= half_deg || 180 - from_pole_deg <= half_deg) return 180.0;
  const double ratio = std::sin(degToRad(half_deg)) / std::sin(degToRad(from_pole_deg));
  return ratio >= 1 ? 180.0 : radToDeg(std::asin(ratio)) + kAngleSlackDeg;
}

// Type C with one plane to all sides: the angle about the axis does not matter, or is bounded by all of them.
bool isRound(const Photometry& p) { return p.planes == Planes::c && p.across_deg.size() == 2; }
double alongDeg(const Vec3& d) { return radToDeg(std::atan2(std::sqrt(d.x * d.x + d.y * d.y), d.z)); }

}  // namespace

double candelaToward(const Photometry& p, const Vec3& dir) {
  if (isRound(p)) {
    const double along = alongDeg(dir);
    const auto j = stepAt(p.along_deg, along);
    if (!j) return 0;
    const double* c = &p.candela[*j];
    const std::size_t row = p.along_deg.size();
    if (c[0] == c[row] && c[1] == c[row + 1]) {
      const double t = (along - p.along_deg[*j]) / (p.along_deg[*j + 1] - p.along_deg[*j]);
      return (1 - t) * c[0] + t * c[1];
    }
  }
  const Angles angles = anglesOf(p.planes, dir);
  const auto i = stepAt(p.across_deg, angles.across_deg), j = stepAt(p.along_deg, angles.along_deg);
  if (!i || !j) return 0;
  return at(p, *i, *j, angles.across_deg, angles.along_deg);
}

Interval candelaWithin(const Photometry& p, const Vec3& dir, double half_angle_rad) {
  const double half = radToDeg(half_angle_rad) + kAngleSlackDeg;
  bool any = false;
  Interval out;
  if (isRound(p)) {
    const double along = alongDeg(dir);
    include(p, {0, 360}, {std::max(0.0, along - half), std::min(180.0, along + half)}, any, out);
    return out;
  }
  const Angles middle = anglesOf(p.planes, dir);
  const auto planesWithin = [&](double from_pole_deg) { return planesInCone(from_pole_deg, half); };
  if (p.planes == Planes::c) {
    const double low = std::max(0.0, middle.along_deg - half), high = std::min(180.0, middle.along_deg + half);
    const double turn = planesWithin(middle.along_deg);
    if (turn >= 180) {
      include(p, {0, 360}, {low, high}, any, out);
      return out;
    }
    const double from = middle.across_deg - turn, to = middle.across_deg + turn;
    include(p, {std::max(0.0, from), std::min(360.0, to)}, {low, high}, any, out);
    if (from < 0) include(p, {from + 360, 360}, {low, high}, any, out);
    if (to > 360) include(p, {0, to - 360}, {low, high}, any, out);
    return out;
  }
  const bool b = p.planes == Planes::b;
  const double off_pole = b ? middle.across_deg : middle.along_deg;  // asin: latitude
  const double around = b ? middle.along_deg : middle.across_deg;    // atan2: plane, -180 to 180
  const double turn = planesWithin(90 - std::fabs(off_pole));
  const double from = around - turn, to = around + turn;
  const double low = std::max(-90.0, off_pole - half), high = std::min(90.0, off_pole + half);
  const auto part = [&](double plane_from, double plane_to) {
    if (b) include(p, {low, high}, {plane_from, plane_to}, any, out);
    else include(p, {plane_from, plane_to}, {low, high}, any, out);
  };
  if (turn >= 180) {
    part(-180, 180);
    return out;
  }
  part(std::max(from, -180.0), std::min(to, 180.0));
  if (from < -180) part(from + 360, 180);
  if (to > 180) part(-180, to - 360);
  return out;
}

std::optional<CandelaSlopes> candelaSlopesWithin(const Photometry& p, const Vec3& dir,
                                                 double half_angle_rad) {
  if (p.planes != Planes::c) return {};
  const Angles middle = isRound(p) ? Angles{0, alongDeg(dir)} : anglesOf(p.planes, dir);
  const double half = radToDeg(half_angle_rad) + kAngleSlackDeg;
  const double turn = isRound(p) ? 180 : planesInCone(middle.along_deg, half);
  const double low = std::max(0.0, middle.along_deg - half), high = std::min(180.0, middle.along_deg + half);
  if (low < p.along_deg.front()) return {};
  bool any = false;
  CandelaSlopes out;
  const auto add = [&](double across, double along) {
    out = any ? CandelaSlopes{hull(out.across_per_rad, across), hull(out.along_per_rad, along)}
              : CandelaSlopes{across, along};
    any = true;
  };
  const bool beyond = high > p.along_deg.back();
  if (beyond) add(0, 0);
  if (low > p.along_deg.back()) return out;
  const std::size_t row = p.along_deg.size(), j0 = *stepAt(p.along_deg, low);
  // Planes from one angle to another, both within the table's.
  const auto include = [&](double from, double to) {
    for (std::size_t i = *stepAt(p.across_deg, from);
         i + 1 < p.across_deg.size() && p.across_deg[i] <= to; ++i)
      for (std::size_t j = j0; j + 1 < row && p.along_deg[j] <= high; ++j) {
        const double* c = &p.candela[i * row + j];
        const double across = degToRad(p.across_deg[i + 1] - p.across_deg[i]);
        const double along = degToRad(p.along_deg[j + 1] - p.along_deg[j]);
        add((c[row] - c[0]) / across, (c[1] - c[0]) / along);
        add((c[row + 1] - c[1]) / across, (c[row + 1] - c[row]) / along);
        if (beyond && j + 2 == row && (c[1] != 0 || c[row + 1] != 0)) return false;
      }
    return true;
  };
  if (turn >= 180) {  // all planes, which must agree
    if (!include(0, 360) || out.across_per_rad.low != 0 || out.across_per_rad.high != 0) return {};
    return out;
  }
  const double from = middle.across_deg - turn, to = middle.across_deg + turn;
  if (!include(std::max(0.0, from), std::min(360.0, to))) return {};
  if (from > 0 && to < 360) return out;
  // Across 0: smooth where the table begins as it ends.
  for (std::size_t j = 0; j < row; ++j)
    if (p.candela[j] != p.candela[p.candela.size() - row + j]) return {};
  if (from < 0 && !include(from + 360, 360)) return {};
  if (to > 360 && !include(0, to - 360)) return {};
  return out;
}

double lumensOf(const Photometry& p) {
  // Over a step of the angle from the pole the intensity is a + b x: its integral with the sine
  // (c) or cosine (a, b) of that angle is exact; across the planes it is the trapezium.
  const bool by_c = p.planes == Planes::c, by_b = p.planes == Planes::b;
  const std::vector<double>& wide = by_b ? p.along_deg : p.across_deg;   // dihedral angle
  const std::vector<double>& deep = by_b ? p.across_deg : p.along_deg;   // angle within a plane
  const std::size_t row = p.along_deg.size();
  const auto at = [&](std::size_t w, std::size_t d) {
    return by_b ? p.candela[d * row + w] : p.candela[w * row + d];
  };
  double lumens = 0;
  for (std::size_t d = 0; d + 1 < deep.size(); ++d) {
    // Half steps about the middle keep the closed form's digits for small steps.
    const double x0 = degToRad(deep[d]), x1 = degToRad(deep[d + 1]);
    const double middle = 0.5 * (x0 + x1), half = 0.5 * (x1 - x0);
    const double weight = by_c ? std::sin(middle) : std::cos(middle);
    const double slant = by_c ? std::cos(middle) : -std::sin(middle);
    // integral of (m + g u) (weight cos u + slant sin u) du over |u| <= half
    const double even = 2 * weight * std::sin(half);
    const double odd = 2 * slant * (std::sin(half) - half * std::cos(half)) / half;
    for (std::size_t w = 0; w + 1 < wide.size(); ++w) {
      const double width = degToRad(wide[w + 1] - wide[w]);
      const double low = 0.5 * (at(w, d) + at(w + 1, d)), high = 0.5 * (at(w, d + 1) + at(w + 1, d + 1));
      lumens += width * (0.5 * (low + high) * even + 0.5 * (high - low) * odd);
    }
  }
  return lumens;
}

double tiltFactorAt(const Photometry& p, double tilted_by_deg) {
  const TiltFactor& tilt = p.tilt;
  if (tilt.angles_deg.empty()) return 1;
  if (tilted_by_deg <= tilt.angles_deg.front()) return tilt.factors.front();
  if (tilted_by_deg >= tilt.angles_deg.back()) return tilt.factors.back();
  const std::size_t i = *stepAt(tilt.angles_deg, tilted_by_deg);
  const double t = (tilted_by_deg - tilt.angles_deg[i]) / (tilt.angles_deg[i + 1] - tilt.angles_deg[i]);
  return (1 - t) * tilt.factors[i] + t * tilt.factors[i + 1];
}

Photometry pointSource(double candela) {
  Photometry p;
  p.across_deg = {0, 360};
  p.along_deg = {0, 180};
  p.candela.assign(4, candela);
  return p;
}

Photometry flatSource(double candela_on_axis) {
  Photometry p;
  p.across_deg = {0, 360};
  for (int i = 0; i <= 360; ++i) p.along_deg.push_back(0.25 * i);
  for (int c = 0; c < 2; ++c)
    for (const double gamma : p.along_deg)
      p.candela.push_back(gamma >= 90 ? 0 : candela_on_axis * std::cos(degToRad(gamma)));
  return p;
}

}  // namespace belvedere::light
