// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/blind_floor.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/presence.h"
#include "scene/scene.h"

namespace belvedere::proof {
namespace {

constexpr double kTouchM = 1e-6;
// A storey this little above or below open ground stands on it.
constexpr double kGroundStoreyM = 1;

Region openGround(const design::Design& design, const design::Situation& situation, Vec2 foot) {
  Region standing;
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      if (std::fabs(storey.floor_m) > kGroundStoreyM) continue;
      Region outer = scene::slabOutline(design, storey.id);
      for (Polygon& polygon : outer) polygon.holes.clear();
      standing = unionOf(unionOf(standing, outer),
                         scene::standingFootprints(design, storey.id, situation));
    }
  const scene::Presence presence(design, situation);
  std::vector<Ring> solids;
  for (const design::Solid& solid : design.site.solids)
    if (solid.storey.empty() && solid.outline.size() >= 3 && presence.holds(solid.id.text) &&
        solid.base_m < scene::kStandsBelowM && solid.top_m > 0)
      solids.push_back(solid.outline);
  if (!solids.empty()) standing = unionOf(standing, unionOf(solids));
  const Region open{{disc(foot, kOpenFloorM), {}}};
  return standing.empty() ? open : differenceOf(open, standing);
}

Vec2 nearestOn(const Ring& ring, Vec2 p) {
  Vec2 best = ring.front();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], along = ring[(i + 1) % ring.size()] - a;
    const double length2 = dot(along, along);
    const double t = length2 > 0 ? std::clamp(dot(p - a, along) / length2, 0.0, 1.0) : 0;
    const Vec2 on = a + along * t;
    if (norm(on - p) < norm(best - p)) best = on;
  }
  return best;
}

}  // namespace

Ring disc(Vec2 centre, double radius_m) {
  constexpr int kCorners = 1024;  // area short by (2 pi / n)^2 / 6
  Ring ring;
  for (int i = 0; i < kCorners; ++i) {
    const double turn = 2 * kPi * i / kCorners;
    ring.push_back(centre + Vec2{std::cos(turn), std::sin(turn)} * radius_m);
  }
  return ring;
}

FloorUnder floorUnder(const design::Design& design, const design::Situation& situation,
                      const Vec3& lens_m) {
  const design::Storey* under = nullptr;
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      if (storey.outline.size() < 3 || storey.floor_m > lens_m.z + kTouchM) continue;
      if (under && under->floor_m >= storey.floor_m) continue;
      if (storey.roof_m > 0 && lens_m.z > storey.floor_m + storey.height_m + kTouchM) continue;
      if (contains(scene::slabOutline(design, storey.id), lens_m.xy())) under = &storey;
    }
  if (!under) return {0, openGround(design, situation, lens_m.xy())};
  const Region slab = scene::slabOutline(design, under->id);
  const Region standing = scene::standingFootprints(design, under->id, situation);
  return {under->floor_m, standing.empty() ? slab : differenceOf(slab, standing)};
}

std::optional<Vec2> footOn(const Region& floor, Vec2 foot, Vec2 heading) {
  if (floor.empty()) return std::nullopt;
  if (contains(floor, foot)) return foot;
  constexpr double kStepM = 0.01, kFarthestM = 2;
  if (const double length = norm(heading); length > 0)
    for (double ahead_m = kStepM; ahead_m <= kFarthestM; ahead_m += kStepM)
      if (const Vec2 p = foot + heading * (ahead_m / length); contains(floor, p)) return p;
  Vec2 best{1e300, 1e300};
  for (const Polygon& polygon : floor) {
    const auto offer = [&](const Ring& ring) {
      if (const Vec2 p = nearestOn(ring, foot); norm(p - foot) < norm(best - foot)) best = p;
    };
    offer(polygon.outer);
    for (const Ring& hole : polygon.holes) offer(hole);
  }
  return best;
}

}  // namespace belvedere::proof
