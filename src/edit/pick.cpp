// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/pick.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "edit/plan_objects.h"
#include "scene/presence.h"

namespace belvedere::edit {
namespace {

using design::Design;
using design::StoreyId;

struct Hit {
  ObjectRef ref;
  int rank = 0;
  double distance_m = 0, area_m2 = 0;
};

double areaOf(const Trace& trace) {
  if (trace.rings.empty()) return 0;
  return area(Polygon{trace.rings.front(), {trace.rings.begin() + 1, trace.rings.end()}});
}

double toOutline(const Trace& trace, Vec2 at) {
  double distance_m = 1e300;
  for (const Ring& ring : trace.rings)
    if (!ring.empty()) distance_m = std::min(distance_m, distanceToOutline(ring, at));
  return distance_m;
}

bool inside(const Trace& trace, Vec2 at) {
  return !trace.rings.empty() && trace.rings.front().size() > 2 &&
         contains(Polygon{trace.rings.front(), {trace.rings.begin() + 1, trace.rings.end()}}, at);
}

// From lines (less their half width) and points.
double toLines(const Trace& trace, Vec2 at) {
  double distance_m = 1e300;
  for (const auto& line : trace.lines)
    distance_m = std::min(distance_m,
                          std::max(0.0, nearLine(line, at).distance_m - trace.half_width_m));
  for (const Vec2 p : trace.points) distance_m = std::min(distance_m, norm(at - p));
  return distance_m;
}

int rankOf(ObjectKind kind) {
  switch (kind) {
    case ObjectKind::housing: return 0;
    case ObjectKind::device:
    case ObjectKind::light: return 1;
    case ObjectKind::opening: return 2;
    case ObjectKind::wall: return 3;
    case ObjectKind::mounting: return 4;
    case ObjectKind::containment:
    case ObjectKind::link: return 5;
    case ObjectKind::zone: return 6;
    case ObjectKind::solid: return 7;
    case ObjectKind::storey: return 9;
    case ObjectKind::underlay: return 10;
    case ObjectKind::building: break;
  }
  return -1;  // picked by its storeys
}
constexpr int kInsideOfZone = 8;

}  // namespace

std::vector<ObjectRef> objectsAt(const Design& design, const StoreyId& storey,
                                 const design::SituationId& situation, Vec2 at, double within_m) {
  std::optional<scene::Presence> presence;
  for (const design::Situation& one : situationsOf(design))
    if (one.id == situation) presence.emplace(design, one);
  const auto imagersOf = [&](const std::string& id) {
    const design::Housing* housing = findHousing(design, {id});
    return housing ? housing->imagers.size() : 0;
  };
  std::vector<Hit> hits;
  for (const PlanObject& object : planObjects(design, storey)) {
    const ObjectKind kind = object.ref.kind;
    const int rank = rankOf(kind);
    if (rank < 0) continue;
    const bool filled = kind == ObjectKind::solid || kind == ObjectKind::zone;
    const double edge_m = std::min(toOutline(object.trace, at), toLines(object.trace, at));
    const bool in = filled && inside(object.trace, at);
    if (edge_m > within_m && !in) continue;
    if (filled && presence && !presence->holds(object.ref.id)) continue;
    if (object.ref.slot != 0 && imagersOf(object.ref.id) < 2) continue;
    const double size_m2 = filled ? areaOf(object.trace) : 0;
    if (kind == ObjectKind::solid)
      hits.push_back({object.ref, rank, in ? 0 : edge_m, size_m2});
    else
      hits.push_back({object.ref, edge_m <= within_m ? rank : kInsideOfZone,
                      edge_m <= within_m ? edge_m : 0, size_m2});
  }
  std::ranges::stable_sort(hits, [](const Hit& a, const Hit& b) {
    if (a.rank != b.rank) return a.rank < b.rank;
    if (a.distance_m != b.distance_m) return a.distance_m < b.distance_m;
    return a.area_m2 < b.area_m2;
  });
  std::vector<ObjectRef> refs;
  for (Hit& hit : hits) refs.push_back(std::move(hit.ref));
  return refs;
}

std::optional<ObjectRef> objectAt(const Design& design, const StoreyId& storey,
                                  const design::SituationId& situation, Vec2 at, double within_m) {
  std::vector<ObjectRef> refs = objectsAt(design, storey, situation, at, within_m);
  if (refs.empty()) return std::nullopt;
  return std::move(refs.front());
}

std::vector<ObjectRef> objectsIn(const Design& design, const StoreyId& storey, const Box2& box) {
  std::vector<ObjectRef> refs;
  bool wall_in = false;  // openings follow their wall
  for (const PlanObject& object : planObjects(design, storey)) {
    const ObjectKind kind = object.ref.kind;
    if (kind == ObjectKind::building || kind == ObjectKind::storey ||
        kind == ObjectKind::underlay || object.ref.slot != 0)
      continue;
    if (kind == ObjectKind::wall) wall_in = false;
    const Box2 extent = extentOf(object.trace);
    if (extent.empty() || extent.low.x < box.low.x || extent.low.y < box.low.y ||
        extent.high.x > box.high.x || extent.high.y > box.high.y)
      continue;
    if (kind == ObjectKind::wall) wall_in = true;
    if (kind != ObjectKind::opening || !wall_in) refs.push_back(object.ref);
  }
  return refs;
}

}  // namespace belvedere::edit
