// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands on a storey's floor, in plan, and what targets stand on.
#include <algorithm>

#include "scene/presence.h"
#include "scene/scene.h"
#include "scene/wall_pieces.h"

namespace belvedere::scene {

bool sameSolids(const design::Design& design, const design::Situation& a,
                const design::Situation& b) {
  const Presence in_a(design, a), in_b(design, b);
  const auto same = [&](const std::string& id) { return in_a.holds(id) == in_b.holds(id); };
  const design::Site& site = design.site;
  for (const design::Building& building : site.buildings)
    for (const design::Storey& storey : building.storeys)
      for (const design::Wall& wall : storey.walls) {
        if (!same(wall.id.text)) return false;
        for (const design::Opening& opening : wall.openings)
          if (!opening.material.empty() && !same(opening.id.text)) return false;
      }
  for (const design::Solid& solid : site.solids)
    if (!same(solid.id.text)) return false;
  return !site.terrain || same(site.terrain->id.text);
}

Region standingFootprints(const design::Design& design, const design::StoreyId& id,
                          const design::Situation& situation, const Scene* scene,
                          const std::optional<Box2>& within) {
  const design::Storey* storey = findStorey(design, id);
  const design::Building* building = findBuildingOf(design, id);
  if (!storey || !building) return {};
  const Presence presence(design, situation);
  Region standing;  // may overlap
  const auto add = [&](Polygon polygon) {
    const Box2 box = bounds(polygon.outer);
    if (within && (box.low.x > within->high.x || box.high.x < within->low.x ||
                   box.low.y > within->high.y || box.high.y < within->low.y))
      return;
    standing.push_back(std::move(polygon));
  };
  for (const design::Wall& wall : storey->walls) {
    if (!presence.holds(wall.id.text)) continue;
    for (WallPiece& piece : wallPieces(*building, *storey, wall)) {
      if (piece.bottom_m >= kStandsBelowM || piece.top_m <= 0) continue;
      if (piece.filling && !presence.holds(piece.filling->id.text)) continue;
      add({std::move(piece.outline), {}});
    }
  }
  for (const design::Solid& solid : design.site.solids) {
    if (solid.file || solid.outline.size() < 3 || !presence.holds(solid.id.text)) continue;
    // Solids that count from the site's zero, or from another floor, stand here if they reach here.
    const double lift_m = floorUnder(design, solid) - storey->floor_m;
    if (solid.storey != id && !solid.storey.empty() && lift_m > -kSeamOverlapM) continue;
    const double rise_m = solid.slope ? std::max(0.0, solid.slope->rise_m) : 0.0;
    if (solid.base_m + lift_m < kStandsBelowM && solid.top_m + rise_m + lift_m > kSeamOverlapM)
      add({solid.outline, {}});
  }
  if (scene)
    for (const MeshFootprint& mesh : scene->mesh_footprints)
      if (mesh.storey == id.text)
        for (const Polygon& polygon : mesh.region) add(polygon);
  return merged(standing);
}

Region slabOutline(const design::Design& design, const design::StoreyId& id) {
  const design::Storey* storey = findStorey(design, id);
  const design::Building* building = findBuildingOf(design, id);
  return storey && building ? slabOf(*building, *storey) : Region{};
}

Floor floorOf(const design::Design& design, const design::Zone& zone, const Scene* scene) {
  if (scene)
    for (const MeshTop& mesh : scene->mesh_tops)
      if (mesh.zone == zone.id.text) return mesh.floor;
  if (!zone.surface.empty())
    if (const design::Solid* solid = findSolid(design, zone.surface)) {
      const Top top = topOf(*solid);
      return {floorUnder(design, *solid) + top.low_m, top.from, top.gradient};
    }
  const design::Storey* storey = findStorey(design, zone.storey);
  return {storey ? storey->floor_m : 0, {}, {}};
}

}  // namespace belvedere::scene
