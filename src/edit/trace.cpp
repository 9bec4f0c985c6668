// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/trace.h"

#include <algorithm>
#include <cmath>

#include "design/resolve.h"
#include "edit/measure.h"
#include "edit/plan_objects.h"

namespace belvedere::edit {

using design::Design;

Trace traceOf(const Design& design, const ObjectRef& ref, const design::StoreyId& storey) {
  for (PlanObject& object : planObjects(design, storey))
    if (object.ref == ref) return std::move(object.trace);
  return {};
}

Box2 extentOf(const Trace& trace) {
  Box2 box;
  for (const Ring& ring : trace.rings)
    for (const Vec2 p : ring) box.add(p);
  for (const Vec2 p : trace.points) box.add(p);
  for (const auto& line : trace.lines) {
    if (trace.half_width_m == 0 || lengthOf(line) == 0)
      for (const Vec2 p : line) box.add(p);
    else
      for (const auto& face : facesOf(line, 2 * trace.half_width_m))
        for (const Vec2 p : face) box.add(p);
  }
  return box;
}

std::vector<std::vector<Vec2>> facesOf(const std::vector<Vec2>& path, double thickness_m) {
  std::vector<Vec2> points;
  for (const Vec2 p : path)
    if (points.empty() || points.back() != p) points.push_back(p);
  if (points.size() < 2) return {};
  const bool closed = points.size() > 3 && points.front() == points.back();
  const std::size_t edges = points.size() - 1;
  const auto along = [&](std::size_t edge) {
    const Vec2 d = points[edge + 1] - points[edge];
    return d / norm(d);
  };
  std::vector<std::vector<Vec2>> faces;
  for (const double half : {0.5 * thickness_m, -0.5 * thickness_m}) {
    std::vector<Vec2> face;
    for (std::size_t i = 0; i <= edges; ++i) {
      const bool bend = closed || (i > 0 && i < edges);
      if (!bend) {
        face.push_back(points[i] + perpLeft(along(i == 0 ? 0 : edges - 1)) * half);
        continue;
      }
      const Vec2 a = along(i == 0 ? edges - 1 : i - 1), b = along(i == edges ? 0 : i);
      const double cosine = dot(a, b);
      if (cosine > -0.87) {
        face.push_back(points[i] + (perpLeft(a) + perpLeft(b)) * (half / (1 + cosine)));
      } else {
        face.push_back(points[i] + perpLeft(a) * half);
        face.push_back(points[i] + perpLeft(b) * half);
      }
    }
    faces.push_back(std::move(face));
  }
  return faces;
}

OnLine onLine(const std::vector<Vec2>& path, double from_m) {
  OnLine place{path.front(), {1, 0}};
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const Vec2 d = path[i + 1] - path[i];
    const double length = norm(d);
    if (length == 0) continue;
    place = {path[i] + d * (std::clamp(from_m, 0.0, length) / length), d / length};
    if (from_m <= length) break;
    from_m -= length;
  }
  return place;
}

NearLine nearLine(const std::vector<Vec2>& path, Vec2 p) {
  NearLine best{0, path.empty() ? 1e300 : norm(p - path.front()), path.empty() ? p : path.front()};
  double before_m = 0;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const Vec2 d = path[i + 1] - path[i];
    const double length = norm(d);
    if (length == 0) continue;
    const double along = std::clamp(dot(p - path[i], d) / length, 0.0, length);
    const Vec2 at = path[i] + d * (along / length);
    if (const double distance = norm(p - at); distance < best.distance_m)
      best = {before_m + along, distance, at};
    before_m += length;
  }
  return best;
}

std::vector<Vec2> partOf(const std::vector<Vec2>& path, double from_m, double to_m) {
  if (path.empty()) return {};
  std::vector<Vec2> part{onLine(path, from_m).at};
  double before_m = 0;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    before_m += norm(path[i + 1] - path[i]);
    if (before_m > from_m && before_m < to_m && i + 2 < path.size()) part.push_back(path[i + 1]);
  }
  part.push_back(onLine(path, to_m).at);
  return part;
}

Vec2 buildingFromSite(const design::Building& building, Vec2 p_in_site) {
  const Mat3 axes = design::imagerFromSite(building.turn_deg, 0, 0);
  const Vec2 d = p_in_site - building.origin_m;
  return {dot(axes.row[0].xy(), d), dot(axes.row[2].xy(), d)};
}

bool onStoreyByHeight(const Design& design, double z_m, const design::StoreyId& storey) {
  const design::Building* building = findBuildingOf(design, storey);
  if (!building) return false;
  const design::Storey* best = nullptr;
  for (const design::Storey& other : building->storeys)
    if (other.floor_m <= z_m && (!best || other.floor_m > best->floor_m)) best = &other;
  return best && best->id == storey;
}

bool shownOn(const Design& design, const ObjectRef& ref, const design::StoreyId& storey) {
  for (const PlanObject& object : planObjects(design, storey))
    if (object.ref == ref) return true;
  return false;
}

}  // namespace belvedere::edit
