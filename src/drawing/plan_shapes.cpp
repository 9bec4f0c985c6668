// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/plan_shapes.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "drawing/hatch.h"

namespace belvedere::drawing {
namespace {

using design::Design;
using design::Situation;
using design::Storey;

// Place and direction on a path at a length from its start.
struct OnPath {
  Vec2 at, along;
};
OnPath onPath(const std::vector<Vec2>& path, double from_m) {
  OnPath place{path.front(), {1, 0}};
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const Vec2 d = path[i + 1] - path[i];
    const double length = norm(d);
    if (length == 0) continue;
    place = {path[i] + d * (std::min(from_m, length) / length), d / length};
    if (from_m <= length) break;
    from_m -= length;
  }
  return place;
}

Vec2 directionOf(Vec2 d) {
  const double length = norm(d);
  return length > 0 ? d / length : Vec2{1, 0};
}

Ring strip(Vec2 a, Vec2 b, double half_m, double longer_m) {
  const Vec2 d = b - a;
  const double length = norm(d);
  if (length == 0) return {};
  const Vec2 along = d / length, side = perpLeft(along) * half_m;
  const Vec2 p = a - along * longer_m, q = b + along * longer_m;
  return {p - side, q - side, q + side, p + side};
}

void addWall(const Design& design, const design::Building& building, const Storey& storey,
             const design::Wall& wall, const Situation& situation, PlanShapes& shapes) {
  if (wall.path.size() < 2 || !standsIn(design, wall.id.text, situation)) return;
  std::vector<Vec2> path;
  for (const Vec2 p : wall.path) path.push_back(design::siteFromBuilding(building, p));
  const double top_m = wall.base_m + wall.height_m.value_or(storey.height_m - wall.base_m);
  PlanShape shape{wall.id.text, wall.title, Look::cut, wallBody(path, wall.thickness_m)};
  if (wall.base_m >= kCutM) shape.look = Look::overhead;
  if (top_m <= kCutM) shape.look = Look::low;
  if (shape.look == Look::cut)
    for (const design::Opening& opening : wall.openings) {
      const OnPath a = onPath(path, opening.from_m),
                   b = onPath(path, opening.from_m + opening.width_m);
      const Ring cut = strip(a.at, b.at, wall.thickness_m, 0);
      if (cut.empty()) continue;
      shape.area = differenceOf(shape.area, Region{{cut, {}}});
      shapes.openings.push_back({opening.id.text, a.at, b.at, wall.thickness_m,
                                 !opening.material.empty() &&
                                     standsIn(design, opening.id.text, situation),
                                 opening.sill_m < 0.05});
    }
  shapes.walls.push_back(std::move(shape));
}

bool solidOn(const Design& design, const design::Solid& solid, const Storey& storey) {
  if (!solid.storey.empty()) return solid.storey == storey.id;
  return design.site.buildings.empty() ||
         (solid.base_m < storey.floor_m + storey.height_m && solid.top_m > storey.floor_m);
}

void addSolid(const design::Solid& solid, const Storey& storey, PlanShapes& shapes) {
  if (solid.outline.size() < 3) return;  // a mesh file: its triangles are the scene's
  const double floor_m = solid.storey.empty() ? storey.floor_m : 0;
  const double base_m = solid.base_m - floor_m, top_m = solid.top_m - floor_m;
  Look look = Look::low;
  if (solid.kind == design::SolidKind::column && top_m > kCutM) look = Look::cut;
  if (base_m >= kCutM || solid.kind == design::SolidKind::foliage) look = Look::overhead;
  shapes.solids.push_back(
      {solid.id.text, solid.title, look, Region{{anticlockwise(solid.outline), {}}}});
  if (!solid.slope) return;
  const double bearing = degToRad(solid.slope->toward_deg);
  const Vec2 up{std::sin(bearing), std::cos(bearing)};
  Vec2 middle;
  double low = 1e300, high = -1e300;
  for (const Vec2 p : solid.outline) {
    middle = middle + p / static_cast<double>(solid.outline.size());
    low = std::min(low, dot(p, up));
    high = std::max(high, dot(p, up));
  }
  const double centre = dot(middle, up);
  const Line whole{{middle + up * (low - centre), middle + up * (high - centre)}, false};
  for (const std::vector<Vec2>& part : partsInside(whole, shapes.solids.back().area)) {
    const Vec2 inwards = up * (0.1 * norm(part.back() - part.front()));
    const Vec2 a = part.front() + inwards, b = part.back() - inwards;
    shapes.rises.push_back(solid.slope->rise_m >= 0 ? RiseArrow{a, b} : RiseArrow{b, a});
  }
}

}  // namespace

bool standsIn(const Design& design, const std::string& id, const Situation& situation) {
  const auto names = [&](const std::vector<design::AnyId>& list) {
    return std::any_of(list.begin(), list.end(),
                       [&](const design::AnyId& other) { return other.text == id; });
  };
  if (names(situation.absent)) return false;
  if (names(situation.present)) return true;
  return std::none_of(design.situations.begin(), design.situations.end(),
                      [&](const Situation& other) { return names(other.present); });
}

bool drawnOn(const Design& design, const design::Housing& housing, const Storey& storey) {
  if (!housing.storey.empty()) return housing.storey == storey.id;
  // The highest floor at or below the fixing point, of those the building has one above another.
  const design::Building* building = design::findBuildingOf(design, storey.id);
  if (!building) return false;
  const double z = housing.mount.fixing_m.z;
  const Storey* best = nullptr;
  for (const Storey& other : building->storeys)
    if (other.floor_m <= z && (!best || other.floor_m > best->floor_m)) best = &other;
  return best && best->id == storey.id;
}

Region wallBody(const std::vector<Vec2>& path, double thickness_m) {
  std::vector<Vec2> points;
  for (const Vec2 p : path)
    if (points.empty() || !(points.back() == p)) points.push_back(p);
  const bool closed = points.size() > 3 && points.front() == points.back();
  if (closed) points.pop_back();
  const double half = 0.5 * thickness_m;
  const std::size_t n = points.size();
  std::vector<Ring> parts;
  for (std::size_t i = 0; i + 1 < n + (closed ? 1 : 0); ++i)
    if (Ring part = strip(points[i], points[(i + 1) % n], half, 0); !part.empty())
      parts.push_back(std::move(part));
  for (std::size_t i = closed ? 0 : 1; i + (closed ? 0 : 1) < n; ++i) {
    const Vec2 p = points[i], a = directionOf(p - points[(i + n - 1) % n]),
               b = directionOf(points[(i + 1) % n] - p);
    const double turn = cross(a, b), cosine = dot(a, b);
    if (std::abs(turn) < 1e-9) continue;
    const double side = turn > 0 ? -half : half;  // the outer side of the bend
    const Vec2 from = p + perpLeft(a) * side, to = p + perpLeft(b) * side;
    Ring joint{p, from, to};
    if (cosine > -0.87) {  // sharper bends than 150 degrees are cut off
      const Vec2 mid = perpLeft(a) + perpLeft(b);
      joint = {p, from, p + mid * (side / (1 + cosine)), to};
    }
    parts.push_back(anticlockwise(joint));
  }
  return unionOf(parts);
}

PlanShapes planShapes(const Design& design, const Storey& storey, const Situation& situation) {
  PlanShapes shapes;
  if (const design::Building* building = design::findBuildingOf(design, storey.id)) {
    Ring outline;
    for (const Vec2 p : storey.outline) outline.push_back(siteFromBuilding(*building, p));
    if (outline.size() >= 3) shapes.slab = {{anticlockwise(outline), {}}};
    for (const std::vector<Vec2>& hole : storey.voids) {
      Ring ring;
      for (const Vec2 p : hole) ring.push_back(siteFromBuilding(*building, p));
      shapes.voids.push_back({{anticlockwise(ring), {}}});
      shapes.slab = differenceOf(shapes.slab, shapes.voids.back());
    }
    for (const design::Wall& wall : storey.walls)
      addWall(design, *building, storey, wall, situation, shapes);
  }
  for (const design::Solid& solid : design.site.solids)
    if (solidOn(design, solid, storey) && standsIn(design, solid.id.text, situation))
      addSolid(solid, storey, shapes);
  return shapes;
}

}  // namespace belvedere::drawing
