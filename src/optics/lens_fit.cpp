// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/lens_fit.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/units.h"
#include "optics/trig.h"

namespace belvedere::optics {
namespace {

constexpr std::string_view kFamilyWords[] = {"rectilinear", "stereographic", "equidistant",
                                             "equisolid", "orthographic"};
constexpr double kFamilyK[] = {1, 0.5, 0, -0.5, -1};

Vec2 middle(std::array<int, 2> pixels) { return {0.5 * pixels[0], 0.5 * pixels[1]}; }

// Image radius at a half angle, in focal lengths; nothing where the family ends before it.
std::optional<double> radiusAt(double k, double theta_rad) {
  if (!(theta_rad <= largestAngleRad(RadialLens{1, k, {}}))) return std::nullopt;
  if (std::abs(k) <= kEquidistantBelow) return theta_rad;
  double sine, cosine;
  trig::sineCosine(std::abs(k) * theta_rad, sine, cosine);
  return k > 0 ? sine / cosine / k : sine / -k;
}

// The half angle at an image radius in focal lengths. Past the rim of a sine family it goes on
// growing from the rim's angle, so that a search has a slope to follow.
double angleAt(double k, double radius) {
  if (k > kEquidistantBelow) return trig::angleOf(k * radius, 1.0) / k;
  if (k >= -kEquidistantBelow) return radius;
  const double s = -k * radius;
  if (s >= 1) return (trig::kHalfPiHigh + (s - 1)) / -k;
  return trig::angleOf(s, std::sqrt((1 - s) * (1 + s))) / -k;
}

// d angle / d ln(radius), for the inner Newton step.
double angleSlope(double k, double radius) {
  if (k > kEquidistantBelow) return radius / (1 + k * radius * k * radius);
  if (k >= -kEquidistantBelow) return radius;
  const double s = -k * radius;
  return s >= 1 - 1e-6 ? radius / 1.4e-3 : radius / std::sqrt((1 - s) * (1 + s));
}

struct Stated {
  double half_rad, radius_px;
};
std::vector<Stated> statedFields(std::array<int, 2> pixels, const FieldOfView& stated) {
  const Vec2 half = middle(pixels);
  std::vector<Stated> fields;
  if (stated.hfov_deg) fields.push_back({degToRad(*stated.hfov_deg) / 2, half.x});
  if (stated.vfov_deg) fields.push_back({degToRad(*stated.vfov_deg) / 2, half.y});
  if (stated.dfov_deg) fields.push_back({degToRad(*stated.dfov_deg) / 2, norm(half)});
  return fields;
}

LensFit withResiduals(std::array<int, 2> pixels, const FieldOfView& stated, double f_px, double k) {
  const Vec2 half = middle(pixels);
  const auto residual = [&](const std::optional<double>& field, double radius_px) {
    return field ? std::optional(radToDeg(2 * angleAt(k, radius_px / f_px)) - *field) : field;
  };
  return {{f_px, k, half},
          {residual(stated.hfov_deg, half.x), residual(stated.vfov_deg, half.y),
           residual(stated.dfov_deg, norm(half))}};
}

double signedRoot(double q) { return q < 0 ? -std::sqrt(-q) : std::sqrt(q); }

// The best F for a k, and the sum of squared misses (radians) that it leaves.
struct Focal {
  double f_px, misses;
};
Focal bestFocal(const std::vector<Stated>& fields, double k) {
  const auto misses = [&](double f_px) {
    double sum = 0;
    for (const Stated& s : fields) {
      const double miss = angleAt(k, s.radius_px / f_px) - s.half_rad;
      sum += miss * miss;
    }
    return sum;
  };
  double f_px = fields[0].radius_px / radiusAt(k, fields[0].half_rad).value_or(1e6);
  double best = misses(f_px);
  for (int step = 0; step < 40; ++step) {
    double top = 0, bottom = 0;
    for (const Stated& s : fields) {
      const double radius = s.radius_px / f_px;
      const double slope = -angleSlope(k, radius);  // d angle / d ln F
      top += slope * (angleAt(k, radius) - s.half_rad);
      bottom += slope * slope;
    }
    double move = -top / bottom, next = best;
    double to = f_px;
    for (int halving = 0; halving < 30; ++halving, move *= 0.5) {
      to = f_px * (1 + std::clamp(move, -0.5, 1.0));
      next = misses(to);
      if (next < best) break;
    }
    if (!(next < best)) break;
    f_px = to;
    best = next;
  }
  return {f_px, best};
}

}  // namespace

double LensFit::largest_residual_deg() const {
  return std::max({std::abs(residual_deg.hfov_deg.value_or(0)),
                   std::abs(residual_deg.vfov_deg.value_or(0)),
                   std::abs(residual_deg.dfov_deg.value_or(0))});
}

std::optional<double> familyK(std::string_view family) {
  for (std::size_t i = 0; i < std::size(kFamilyWords); ++i)
    if (kFamilyWords[i] == family) return kFamilyK[i];
  return std::nullopt;
}
std::span<const std::string_view> familyWords() { return kFamilyWords; }

std::optional<LensFit> fitFocal(std::array<int, 2> pixels, const FieldOfView& stated, double k) {
  const std::vector<Stated> fields = statedFields(pixels, stated);
  if (fields.empty() || !(fields[0].half_rad > 0) || !(fields[0].radius_px > 0))
    return std::nullopt;
  const auto radius = radiusAt(k, fields[0].half_rad);
  if (!radius || !(*radius > 0)) return std::nullopt;
  return withResiduals(pixels, stated, fields[0].radius_px / *radius, k);
}

std::optional<LensFit> fitFocalAndK(std::array<int, 2> pixels, const FieldOfView& stated) {
  const std::vector<Stated> fields = statedFields(pixels, stated);
  if (fields.size() < 2) return std::nullopt;
  double widest = 0;
  for (const Stated& s : fields) {
    if (!(s.half_rad > 0 && s.half_rad < kPi && s.radius_px > 0)) return std::nullopt;
    widest = std::max(widest, s.half_rad);
  }
  // k|k| for which every stated angle lies within the family.
  const double reach = (kPi / 2) / (widest + 2 * kPoleGapRad);
  double low = -std::min(1.0, reach * reach), high = std::min(1.0, reach * reach);
  // Golden section; the misses have one valley in k|k|. 100 steps: past the last digit.
  constexpr double kGolden = 0.6180339887498949;
  double a = high - kGolden * (high - low), b = low + kGolden * (high - low);
  double at_a = bestFocal(fields, signedRoot(a)).misses;
  double at_b = bestFocal(fields, signedRoot(b)).misses;
  const double ends[] = {low, high};
  for (int step = 0; step < 100 && b > a; ++step) {
    if (at_a <= at_b) {
      high = b;
      b = a;
      at_b = at_a;
      a = high - kGolden * (high - low);
      at_a = bestFocal(fields, signedRoot(a)).misses;
    } else {
      low = a;
      a = b;
      at_a = at_b;
      b = low + kGolden * (high - low);
      at_b = bestFocal(fields, signedRoot(b)).misses;
    }
  }
  // The named families are tried as they stand: a sheet written from one gives it back exactly.
  double best_q = at_a <= at_b ? a : b;
  Focal best = bestFocal(fields, signedRoot(best_q));
  const auto offer = [&](double q) {
    const Focal focal = bestFocal(fields, signedRoot(q));
    if (focal.misses <= best.misses) {
      best = focal;
      best_q = q;
    }
  };
  for (const double end : ends) offer(end);
  for (const double k : kFamilyK)
    if (k * std::abs(k) >= ends[0] && k * std::abs(k) <= ends[1]) offer(k * std::abs(k));
  return withResiduals(pixels, stated, best.f_px, signedRoot(best_q));
}

RadialLens lensAtShare(const Zoom& zoom, double share) {
  if (share <= 0) return zoom.wide;
  if (share >= 1) return zoom.tele;
  const RadialLens &w = zoom.wide, &t = zoom.tele;
  return {w.f_px + (t.f_px - w.f_px) * share, w.k + (t.k - w.k) * share,
          w.centre_px + (t.centre_px - w.centre_px) * share};
}

std::optional<double> focalAtShare(const Zoom& zoom, double share) {
  if (!zoom.focal_mm) return std::nullopt;
  const auto& [wide, tele] = *zoom.focal_mm;
  return wide + (tele - wide) * std::clamp(share, 0.0, 1.0);
}

std::optional<double> shareAtFocal(const Zoom& zoom, double focal_mm) {
  if (!zoom.focal_mm) return std::nullopt;
  const auto& [wide, tele] = *zoom.focal_mm;
  if (!(tele > wide)) return std::nullopt;
  const double share = (focal_mm - wide) / (tele - wide);
  if (!(share >= -kZoomSlack && share <= 1 + kZoomSlack)) return std::nullopt;
  return std::clamp(share, 0.0, 1.0);
}

std::optional<double> shareAtHfov(const Zoom& zoom, int width_px, double hfov_deg) {
  const auto hfovAt = [&](double share) {
    const RadialLens lens = lensAtShare(zoom, share);
    return radToDeg(2 * angleAt(lens.k, 0.5 * width_px / lens.f_px));
  };
  const double wide = hfovAt(0), tele = hfovAt(1), slack = kZoomSlack * (wide - tele);
  if (!(hfov_deg <= wide + slack && hfov_deg >= tele - slack)) return std::nullopt;
  constexpr double kSameDeg = 1e-9;  // the end itself, but for rounding
  if (hfov_deg >= wide - kSameDeg) return 0;
  if (hfov_deg <= tele + kSameDeg) return 1;
  double low = 0, high = 1;
  for (int step = 0; step < 100; ++step) {
    const double mid = 0.5 * (low + high);
    if (mid <= low || mid >= high) break;
    (hfovAt(mid) > hfov_deg ? low : high) = mid;
  }
  return high;
}

FieldOfView fieldsOfView(const Lens& lens, std::array<int, 2> pixels) {
  const Vec2 half = middle(pixels);
  const auto centre = unproject(lens, half);
  const auto across = [&](Vec2 offset) -> std::optional<double> {
    const auto a = unproject(lens, half - offset), b = unproject(lens, half + offset);
    if (!a || !b || !centre) return std::nullopt;
    const auto between = [&](const Vec3& d) {
      return trig::angleOf(norm(cross(*centre, d)), dot(*centre, d));
    };
    return radToDeg(between(*a) + between(*b));
  };
  return {across({half.x, 0}), across({0, half.y}), across(half)};
}

}  // namespace belvedere::optics
