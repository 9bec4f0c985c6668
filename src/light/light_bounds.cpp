// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/light_bounds.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

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
  for (const Vec3& c : corners) seen.far_m = std::max(seen.far_m, norm(c - point));
  if (!(length > 0)) return seen;
  seen.axis = to_middle / length;
  double near_m = kEndless, half_rad = 0;
  for (const Vec3& c : corners) {
    near_m = std::min(near_m, dot(seen.axis, c - point));
    half_rad = std::max(half_rad, angleBetween(seen.axis, c - point));
  }
  // A cone of less than a right angle is convex: it holds the hull of what it holds.
  if (near_m <= 0 || half_rad + kAngleSlackRad >= 0.5 * kPi) return seen;
  seen.near_m = near_m;
  seen.half_rad = half_rad + kAngleSlackRad;
  return seen;
}

Normals normalsInPlan(const Vec3& lens_m, std::span<const Vec3> corners) {
  std::vector<Vec3> level;
  for (const Vec3& c : corners) level.push_back({c.x, c.y, lens_m.z});
  const SeenBox seen = seenFrom(lens_m, level);
  return {-seen.axis, seen.half_rad};
}

Normals normalsToward(const Vec3& lens_m, std::span<const Vec3> corners) {
  const SeenBox seen = seenFrom(lens_m, corners);
  return {-seen.axis, seen.half_rad};
}

Interval illuminanceOver(const Luminaire& luminaire, std::span<const Vec3> corners,
                         const Normals& normals) {
  const SeenBox seen = seenFrom(luminaire.at_m, corners);
  const Interval candela =
      candelaWithin(*luminaire.photometry, luminaire.luminaire_from_site * seen.axis, seen.half_rad);
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

Interval passesOver(const Solids& solids, const Vec3& from, const scene::Prism& prism,
                    scene::Band band, const std::vector<std::uint32_t>* among,
                    std::vector<std::uint32_t>* met) {
  if (!solids.scene) return 1;
  const scene::Scene& scene = *solids.scene;
  const scene::Shaft shaft = scene::makeShaft(from, prism);
  std::vector<std::uint32_t> bodies;
  if (among) scene::bodiesIn(scene, *among, shaft, bodies);
  else scene::bodiesIn(scene, *solids.tree, shaft, band, bodies);
  // Of each thing met: does one of its bodies surely stand in every ray?
  std::map<std::uint32_t, bool> things;
  for (const std::uint32_t index : bodies) {
    const scene::Body& body = scene.bodies[index];
    bool& surely = things[body.source];
    surely = surely || scene::hidesAll(scene, body, from, prism.corners());
  }
  if (met) *met = std::move(bodies);
  Interval passes(1);
  for (const auto& [source, surely] : things) {
    const double share = shareOf(scene.sources[source], band);
    passes.low *= share;
    if (surely) passes.high *= share;
  }
  return passes;
}

}  // namespace belvedere::light
