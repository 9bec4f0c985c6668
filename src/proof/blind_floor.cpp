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

std::vector<Slab> slabsOf(const design::Design& design) {
  std::vector<Slab> slabs;
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      if (storey.outline.size() < 3) continue;
      Region outline = scene::slabOutline(design, storey.id);
      const Box2 box = bounds(outline);
      slabs.push_back({&storey, std::move(outline), box});
    }
  return slabs;
}

const design::Storey* storeyUnder(const std::vector<Slab>& slabs, const Vec3& lens_m) {
  const Vec2 foot = lens_m.xy();
  const design::Storey *under = nullptr, *roofed = nullptr;
  const auto higher = [](const design::Storey& storey, const design::Storey* than) {
    return !than || storey.floor_m > than->floor_m;
  };
  for (const Slab& slab : slabs) {
    const design::Storey& storey = *slab.storey;
    if (storey.floor_m > lens_m.z + kTouchM) continue;
    if (foot.x < slab.box.low.x - kTouchM || foot.x > slab.box.high.x + kTouchM ||
        foot.y < slab.box.low.y - kTouchM || foot.y > slab.box.high.y + kTouchM)
      continue;
    if (higher(storey, under) && contains(slab.outline, foot)) under = &storey;
    const bool over_roof =
        storey.roof_m > 0 && lens_m.z > storey.floor_m + storey.height_m + kTouchM;
    if (over_roof && higher(storey, roofed) &&
        std::any_of(slab.outline.begin(), slab.outline.end(),
                    [&](const Polygon& polygon) { return contains(polygon.outer, foot); }))
      roofed = &storey;
  }
  return under && roofed && roofed->floor_m >= under->floor_m ? nullptr : under;
}

FloorUnder floorOf(const design::Design& design, const design::Situation& situation,
                   const design::Storey& storey) {
  const Region slab = scene::slabOutline(design, storey.id);
  const Region standing = scene::standingFootprints(design, storey.id, situation);
  return {storey.floor_m, standing.empty() ? slab : differenceOf(slab, standing)};
}

FloorUnder openGround(const design::Design& design, const design::Situation& situation,
                      const std::vector<Slab>& slabs, Vec2 foot) {
  const Ring around = disc(foot, kOpenFloorM);
  const Box2 box = bounds(around);
  const auto apart = [&](const Box2& other) {
    return other.low.x > box.high.x || other.high.x < box.low.x || other.low.y > box.high.y ||
           other.high.y < box.low.y;
  };
  std::vector<Ring> standing;
  for (const Slab& slab : slabs) {
    if (std::fabs(slab.storey->floor_m) > kGroundStoreyM || apart(slab.box)) continue;
    for (const Polygon& polygon : slab.outline) standing.push_back(polygon.outer);
    // Walls reach over the slab's edge by half their thickness.
    for (const Polygon& polygon :
         scene::standingFootprints(design, slab.storey->id, situation))
      standing.push_back(polygon.outer);
  }
  const scene::Presence presence(design, situation);
  for (const design::Solid& solid : design.site.solids)
    if (solid.storey.empty() && solid.outline.size() >= 3 && presence.holds(solid.id.text) &&
        solid.base_m < scene::kStandsBelowM && solid.top_m > 0 && !apart(bounds(solid.outline)))
      standing.push_back(solid.outline);
  const Region open{{around, {}}};
  return {0, standing.empty() ? open : differenceOf(open, unionOf(standing))};
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
