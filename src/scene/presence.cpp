// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/presence.h"

#include <cmath>
#include <limits>

#include "base/units.h"

namespace belvedere::scene {

Presence::Presence(const design::Design& design, const design::Situation& situation) {
  for (const design::Situation& any : design.situations)
    for (const design::AnyId& id : any.present) named_.insert(id.text);
  for (const design::AnyId& id : situation.present) present_.insert(id.text);
  for (const design::AnyId& id : situation.absent) absent_.insert(id.text);
}

bool onFloor(const design::Zone& zone) {
  return (zone.use.empty() || zone.use == "floor") && zone.surface.empty();
}

double floorUnder(const design::Design& design, const design::Solid& solid) {
  const design::Storey* storey = solid.storey.empty() ? nullptr : findStorey(design, solid.storey);
  return storey ? storey->floor_m : 0;
}

Ring onSite(const design::Building& building, const Ring& outline) {
  Ring ring;
  for (const Vec2 p : outline) ring.push_back(siteFromBuilding(building, p));
  return anticlockwise(std::move(ring));
}

Region slabOf(const design::Building& building, const design::Storey& storey) {
  if (storey.outline.size() < 3) return {};
  const Region whole{{onSite(building, storey.outline), {}}};
  if (storey.voids.empty()) return whole;
  std::vector<Ring> voids;
  for (const Ring& hole : storey.voids) voids.push_back(onSite(building, hole));
  return differenceOf(whole, unionOf(voids));
}

Top topOf(const design::Solid& solid) {
  Top top{solid.top_m, {}, {}};
  if (!solid.outline.empty()) top.from = solid.outline.front();
  if (!solid.slope || solid.outline.empty()) return top;
  const double bearing = degToRad(solid.slope->toward_deg);
  const Vec2 toward{std::sin(bearing), std::cos(bearing)};
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Vec2 p : solid.outline) {
    const double along = dot(toward, p);
    high = std::max(high, along);
    if (along < low) {
      low = along;
      top.from = p;
    }
  }
  if (high > low) top.gradient = toward * (solid.slope->rise_m / (high - low));
  return top;
}

}  // namespace belvedere::scene
