// SPDX-License-Identifier: GPL-3.0-or-later
#include "optics/density.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace belvedere::optics {
namespace {

// Below this share of the distance, the sightline is taken to be vertical: its bearing is noise.
constexpr double kVerticalShare = 1e-12;

}  // namespace

Vec3 horizontalTangent(const Mat3& imager_from_site, const Vec3& sight) {
  const double across = norm(sight.xy());
  if (across <= kVerticalShare * std::abs(sight.z)) {
    // Of a rolled picture, the right is not level; right and down are not both upright.
    const Vec2 right = imager_from_site.row[0].xy(), down = imager_from_site.row[1].xy();
    const Vec2 level = norm(right) >= norm(down) ? right : down;
    return withZ(level / norm(level), 0);
  }
  return {sight.y / across, -sight.x / across, 0};
}

std::optional<Density> densityAt(const Lens& lens, const Mat3& imager_from_site, const Vec3& lens_m,
                                 const Vec3& target_m, Vec2 scale) {
  const Vec3 sight = target_m - lens_m;
  const auto at = projectWithJacobian(lens, imager_from_site * sight);
  if (!at) return std::nullopt;
  const auto along = [&](const Vec3& tangent_in_site) {
    const Vec3 t = imager_from_site * tangent_in_site;
    return norm(Vec2{scale.x * dot(at->px_per_m[0], t), scale.y * dot(at->px_per_m[1], t)});
  };
  return Density{at->at_px, along(horizontalTangent(imager_from_site, sight)), along({0, 0, 1})};
}

double deliveredFactor(double centre, double corner, std::array<int, 2> pixels, Vec2 at_px) {
  const Vec2 half{0.5 * pixels[0], 0.5 * pixels[1]};
  return centre + (corner - centre) * std::min(1.0, norm(at_px - half) / norm(half));
}

double unrolledDensity(double px_per_rad, double horizontal_distance_m) {
  return px_per_rad / horizontal_distance_m;
}

double equidistantReachM(double width_px, double hfov_deg, double px_per_m) {
  return width_px / (degToRad(hfov_deg) * px_per_m);
}

double rectilinearReachM(double width_px, double hfov_deg, double px_per_m) {
  if (hfov_deg >= 180) return 0;
  return width_px / (2 * std::tan(degToRad(hfov_deg) / 2) * px_per_m);
}

double pictureWidthArcM(double hfov_deg, double distance_m) {
  return degToRad(hfov_deg) * distance_m;
}

std::optional<double> pictureWidthFlatM(double hfov_deg, double distance_m) {
  if (hfov_deg >= 180) return std::nullopt;
  return 2 * distance_m * std::tan(degToRad(hfov_deg) / 2);
}

}  // namespace belvedere::optics
