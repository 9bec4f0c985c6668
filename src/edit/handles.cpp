// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/handles.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/problem.h"
#include "edit/find.h"
#include "edit/measure.h"
#include "edit/plan_objects.h"
#include "edit/trace.h"
#include "edit/transform.h"
#include "edit/usable.h"

namespace belvedere::edit {
namespace {

using design::Design;
using Offset = std::ptrdiff_t;

[[noreturn]] void fail(std::string code, std::string what, std::string hint) {
  throw InputError({{std::move(code), "", std::move(what), std::move(hint)}});
}

// The points of an object as one can pull them, and how to put them back. `points` are site metres.
struct Line {
  std::vector<Vec2> points;
  bool closed = false;  // an outline
  bool joined = false;  // a line whose last point is its first
  // Of a cable's way: ends that are where its parts are, and no points of its own.
  std::size_t held_first = 0, held_last = 0;
  std::size_t edges() const { return closed ? points.size() : points.size() - 1; }
  bool isOwn(std::size_t point) const {
    return point >= held_first && point + held_last < points.size();
  }
};

// Every outline or line of an object, ring by ring; empty for objects with places alone.
std::vector<Line> linesOf(const Design& design, const ObjectRef& ref) {
  if (ref.kind == ObjectKind::building || ref.kind == ObjectKind::opening || ref.slot != 0)
    return {};
  const Trace trace = traceOf(design, ref);
  std::vector<Line> lines;
  for (const Ring& ring : trace.rings) lines.push_back({ring, true, false});
  const design::Link* link =
      ref.kind == ObjectKind::link ? withId(design.services.links, ref.id) : nullptr;
  for (const auto& path : trace.lines)
    if (link)
      lines.push_back({path, false, false, placeOf(design, link->from) ? 1u : 0u,
                       placeOf(design, link->to) ? 1u : 0u});
    else
      lines.push_back({path, false, path.size() > 3 && path.front() == path.back()});
  if (ref.kind == ObjectKind::mounting && trace.lines.empty() && !trace.points.empty())
    lines.push_back({trace.points, false, false});
  return lines;
}

// The places of objects that have no lines.
std::vector<Vec2> placesOf(const Design& design, const ObjectRef& ref) {
  if (ref.slot != 0) return {};
  if (ref.kind == ObjectKind::building) {
    const design::Building* building = withId(design.site.buildings, ref.id);
    return building ? std::vector{building->origin_m} : std::vector<Vec2>{};
  }
  std::vector<Vec2> points = traceOf(design, ref).points;
  if (ref.kind == ObjectKind::mounting) return {};
  if (ref.kind == ObjectKind::housing && points.size() > 1) points.resize(1);  // the fixing point
  return points;
}

// Stretches of a wall's path, so that openings stay where they are when it changes.
struct Stretches {
  std::vector<double> start_m;  // of each edge, and the whole length

  explicit Stretches(const std::vector<Vec2>& path) {
    start_m.push_back(0);
    for (std::size_t i = 0; i + 1 < path.size(); ++i)
      start_m.push_back(start_m.back() + norm(path[i + 1] - path[i]));
  }
  std::size_t edgeOf(double from_m) const {
    std::size_t edge = 0;
    while (edge + 2 < start_m.size() && start_m[edge + 1] <= from_m) ++edge;
    return edge;
  }
};

double tidy(double value) { return std::round(value * 1e9) / 1e9; }

// Where an opening of a changed wall goes: it keeps its distance from the end of its edge where the
// edge's start was pulled, else from the start.
//   became  the edge that an edge of the old path has become
void keepOpenings(design::Wall& wall, const std::vector<Vec2>& old_path,
                  const std::vector<Vec2>& new_path, auto became, auto from_end) {
  const Stretches before(old_path), after(new_path);
  for (design::Opening& o : wall.openings) {
    const std::size_t edge = before.edgeOf(o.from_m), now = became(edge);
    o.from_m = from_end(edge)
                   ? after.start_m[now + 1] - (before.start_m[edge + 1] - o.from_m)
                   : after.start_m[now] + (o.from_m - before.start_m[edge]);
    o.from_m = tidy(o.from_m);
    if (o.from_m < 0)
      fail("opening_outside_wall",
           fmt::format("the opening \"{}\" would begin {:.3f} m before its wall", o.id.text,
                       -o.from_m),
           "move or erase it first");
  }
}

// How the points of a line change.
struct Pull {
  enum class Kind { moved, inserted, removed, followed } kind = Kind::moved;
  std::size_t index = 0;  // of the point; of the edge for inserted; of the last that stays
                          // for followed
};

void putHeights(std::vector<Vec3>& path, const std::vector<Vec2>& points, const Pull& pull) {
  std::vector<double> z;
  for (const Vec3& p : path) z.push_back(p.z);
  const auto at = static_cast<Offset>(pull.index);
  if (pull.kind == Pull::Kind::inserted) {
    // Where the foot on the old edge is.
    const Vec2 a = path[pull.index].xy(), d = path[pull.index + 1].xy() - a;
    const double t = dot(d, d) > 0 ? dot(points[pull.index + 1] - a, d) / dot(d, d) : 0.5;
    const double s = std::clamp(t, 0.0, 1.0);
    z.insert(z.begin() + at + 1, tidy(z[pull.index] * (1 - s) + z[pull.index + 1] * s));
  } else if (pull.kind == Pull::Kind::removed) {
    z.erase(z.begin() + at);
  }
  path.clear();
  for (std::size_t i = 0; i < points.size(); ++i) path.push_back(withZ(points[i], z[i]));
}

// `points` with the held ends. A stretch to an end takes up its drop there, so a point that is put into
// it lies as high as the way's own next one.
void putWay(const Design& design, design::Link& link, const std::vector<Vec2>& points,
            const Pull& pull) {
  const bool first = placeOf(design, link.from).has_value(), last = placeOf(design, link.to).has_value();
  std::vector<Vec3> path = link.path;
  if (first) path.insert(path.begin(), withZ(points.front(), link.path.front().z));
  if (last) path.push_back(withZ(points.back(), link.path.back().z));
  putHeights(path, points, pull);
  link.path.assign(path.begin() + (first ? 1 : 0), path.end() - (last ? 1 : 0));
}

// Of points that did not move, the very numbers stay.
void putInBuilding(const design::Building& building, std::vector<Vec2>& stored,
                   const std::vector<Vec2>& points) {
  std::vector<Vec2> put;
  for (const Vec2 p : points) {
    const auto same = std::ranges::find_if(
        stored, [&](Vec2 old) { return siteFromBuilding(building, old) == p; });
    if (same != stored.end()) {
      put.push_back(*same);
      continue;
    }
    const Vec2 q = buildingFromSite(building, p);
    put.push_back({tidy(q.x), tidy(q.y)});
  }
  stored = std::move(put);
}

void putWall(Design& design, const std::string& id, const std::vector<Vec2>& points,
             const Pull& pull) {
  const auto at = placeOfWall(design, id);
  design::Wall& wall = wallAt(design, *at);
  const std::vector<Vec2> old_path = wall.path;
  putInBuilding(design.site.buildings[at->building], wall.path, points);
  const std::size_t k = pull.index, last_edge = wall.path.size() - 2;
  const auto same = [&](std::size_t edge) { return std::min(edge, last_edge); };
  const auto never = [](std::size_t) { return false; };
  switch (pull.kind) {
    case Pull::Kind::moved:  // the edge that begins there keeps its openings by its other end
      return keepOpenings(wall, old_path, wall.path, same,
                          [&](std::size_t edge) { return edge == k; });
    case Pull::Kind::followed:
      return keepOpenings(wall, old_path, wall.path, same, never);
    case Pull::Kind::inserted: {
      const double first_m = norm(wall.path[k + 1] - wall.path[k]);
      const Stretches before(old_path);
      const std::vector<design::Opening> old = wall.openings;
      keepOpenings(wall, old_path, wall.path,
                   [&](std::size_t edge) { return edge > k ? edge + 1 : edge; }, never);
      // On the split edge, what lies nearer to its end keeps its distance from there.
      const Stretches after(wall.path);
      for (std::size_t i = 0; i < old.size(); ++i)
        if (before.edgeOf(old[i].from_m) == k &&
            old[i].from_m - before.start_m[k] >= first_m - 1e-9)
          wall.openings[i].from_m =
              tidy(after.start_m[k + 2] - (before.start_m[k + 1] - old[i].from_m));
      return;
    }
    case Pull::Kind::removed:
      if (k == 0 || k > last_edge + 1) {  // an end: the edge beyond it is gone
        const Stretches before(old_path);
        for (const design::Opening& o : wall.openings)
          if (before.edgeOf(o.from_m) == (k == 0 ? 0 : k - 1))
            fail("opening_outside_wall",
                 fmt::format("the opening \"{}\" is in the stretch of wall that would go",
                             o.id.text),
                 "erase it first");
      }
      return keepOpenings(
          wall, old_path, wall.path,
          [&](std::size_t edge) { return same(edge >= k && edge > 0 ? edge - 1 : edge); },
          [&](std::size_t edge) { return edge == k && k > 0; });
  }
}

// Puts changed points back; checks; returns the design.
Design withLine(const Design& design, const ObjectRef& ref, std::size_t ring,
                const std::vector<Vec2>& points, const Pull& pull) {
  Design after = design;
  const auto ringOf = [&](auto& outline, auto& holes) -> std::vector<Vec2>& {
    return ring == 0 ? outline : holes[ring - 1];
  };
  switch (ref.kind) {
    case ObjectKind::wall: putWall(after, ref.id, points, pull); break;
    case ObjectKind::storey: {
      const auto at = placeOfStorey(after, ref.id);
      design::Storey& storey = storeyAt(after, *at);
      putInBuilding(after.site.buildings[at->building], ringOf(storey.outline, storey.voids),
                    points);
      break;
    }
    case ObjectKind::solid: withId(after.site.solids, ref.id)->outline = points; break;
    case ObjectKind::zone: {
      design::Zone& zone = *withId(after.site.zones, ref.id);
      ringOf(zone.outline, zone.holes) = points;
      break;
    }
    case ObjectKind::mounting: withId(after.site.mounting, ref.id)->path = points; break;
    case ObjectKind::containment:
      putHeights(withId(after.site.containment, ref.id)->path, points, pull);
      break;
    case ObjectKind::link:
      putWay(design, *withId(after.services.links, ref.id), points, pull);
      break;
    default: return design;
  }
  requireUsable(after, {ref.id});
  return after;
}

Design withPlaceAt(const Design& design, const ObjectRef& ref, std::size_t index, Vec2 at) {
  Design after = design;
  const auto put = [&](Vec3& p) { p = withZ(at, p.z); };
  switch (ref.kind) {
    case ObjectKind::building:  // with all that stands in it
      return moved(design, {ref}, at - withId(design.site.buildings, ref.id)->origin_m);
    case ObjectKind::solid: put(*withId(after.site.solids, ref.id)->place_m); break;
    case ObjectKind::light: put(*withId(after.site.lights, ref.id)->at_m); break;
    case ObjectKind::device: put(*withId(after.services.devices, ref.id)->at_m); break;
    case ObjectKind::housing: put(withId(after.housings, ref.id)->mount.fixing_m); break;
    case ObjectKind::underlay:
      withId(after.site.underlays, ref.id)->pins.at(index).site_m = at;
      break;
    default: return design;
  }
  requireUsable(after, {ref.id});
  return after;
}

Design withOpeningEnd(const Design& design, const ObjectRef& ref, HandleKind end, Vec2 at) {
  const auto place = placeOfOpening(design, ref.id);
  if (!place) return design;
  Design after = design;
  design::Wall& wall = wallAt(after, *place);
  std::vector<Vec2> path;
  for (const Vec2 p : wall.path)
    path.push_back(siteFromBuilding(after.site.buildings[place->building], p));
  design::Opening& o = wall.openings[place->opening];
  const double to_m = o.from_m + o.width_m, pulled_m = tidy(nearLine(path, at).from_m);
  const double from_m = end == HandleKind::start ? pulled_m : o.from_m;
  const double until_m = end == HandleKind::start ? to_m : pulled_m;
  if (until_m - from_m <= 0)
    fail("top_below_base", fmt::format("the opening \"{}\" would have no width", ref.id),
         "pull the other end, or erase it");
  o.from_m = from_m;
  o.width_m = tidy(until_m - from_m);
  requireUsable(after, {ref.id});
  return after;
}

const Line* lineOf(const std::vector<Line>& lines, const Handle& handle) {
  if (handle.ring >= lines.size()) return nullptr;
  const Line& line = lines[handle.ring];
  const std::size_t many =
      handle.kind == HandleKind::vertex ? line.points.size() : line.edges();
  if (handle.kind == HandleKind::vertex && !line.isOwn(handle.index)) return nullptr;
  return handle.index < many ? &line : nullptr;
}

}  // namespace

std::vector<Handle> handlesOf(const Design& design, const ObjectRef& ref) {
  std::vector<Handle> handles;
  if (ref.kind == ObjectKind::opening) {
    const Trace trace = traceOf(design, ref);
    if (trace.lines.empty()) return {};
    return {{HandleKind::start, 0, 0, trace.lines.front().front()},
            {HandleKind::end, 0, 0, trace.lines.front().back()}};
  }
  const std::vector<Line> lines = linesOf(design, ref);
  for (std::size_t r = 0; r < lines.size(); ++r) {
    const std::vector<Vec2>& points = lines[r].points;
    for (std::size_t i = 0; i + (lines[r].joined ? 1 : 0) < points.size(); ++i)
      if (lines[r].isOwn(i)) handles.push_back({HandleKind::vertex, r, i, points[i]});
    for (std::size_t i = 0; i < lines[r].edges(); ++i)
      handles.push_back(
          {HandleKind::edge, r, i, (points[i] + points[(i + 1) % points.size()]) / 2});
  }
  const std::vector<Vec2> places = placesOf(design, ref);
  for (std::size_t i = 0; i < places.size(); ++i)
    handles.push_back({HandleKind::place, 0, i, places[i]});
  return handles;
}

std::vector<Handle> handlesOn(const Design& design, const ObjectRef& ref,
                              const design::StoreyId& storey) {
  std::vector<Handle> handles = handlesOf(design, ref);
  const design::Link* link =
      ref.kind == ObjectKind::link ? withId(design.services.links, ref.id) : nullptr;
  const design::Storey* shown = findStorey(design, storey);
  if (!link || link->path.empty() || !shown) return handles;
  const auto last = static_cast<Offset>(link->path.size()) - 1;
  const Offset held = placeOf(design, link->from) ? 1 : 0;
  const auto on = [&](std::size_t point) {
    const Offset own = std::clamp(static_cast<Offset>(point) - held, Offset{0}, last);
    return showsCableAt(*shown, link->path[static_cast<std::size_t>(own)].z);
  };
  std::erase_if(handles, [&](const Handle& handle) {
    return !on(handle.index) || (handle.kind == HandleKind::edge && !on(handle.index + 1));
  });
  return handles;
}

Design withHandleAt(const Design& design, const ObjectRef& ref, const Handle& handle, Vec2 at) {
  if (handle.kind == HandleKind::start || handle.kind == HandleKind::end)
    return withOpeningEnd(design, ref, handle.kind, at);
  if (handle.kind == HandleKind::place) {
    if (handle.index >= placesOf(design, ref).size()) return design;
    return withPlaceAt(design, ref, handle.index, at);
  }
  const std::vector<Line> lines = linesOf(design, ref);
  const Line* line = lineOf(lines, handle);
  if (!line) return design;
  std::vector<Vec2> points = line->points;
  if (handle.kind == HandleKind::edge) {
    points.insert(points.begin() + static_cast<Offset>(handle.index) + 1, at);
    return withLine(design, ref, handle.ring, points, {Pull::Kind::inserted, handle.index});
  }
  points[handle.index] = at;
  if (line->joined && (handle.index == 0 || handle.index + 1 == points.size()))
    points.front() = points.back() = at;
  return withLine(design, ref, handle.ring, points, {Pull::Kind::moved, handle.index});
}

Design withoutVertex(const Design& design, const ObjectRef& ref, const Handle& vertex) {
  if (ref.kind == ObjectKind::underlay && vertex.kind == HandleKind::place) {
    Design after = design;
    design::Underlay* underlay = withId(after.site.underlays, ref.id);
    if (!underlay || vertex.index >= underlay->pins.size()) return design;
    if (underlay->pins.size() == 2) underlay->pins.clear();  // one alone scales nothing
    else underlay->pins.erase(underlay->pins.begin() + static_cast<Offset>(vertex.index));
    return after;
  }
  const std::vector<Line> lines = linesOf(design, ref);
  const Line* line = vertex.kind == HandleKind::vertex ? lineOf(lines, vertex) : nullptr;
  if (!line) return design;
  std::vector<Vec2> points = line->points;
  const std::size_t least = ref.kind == ObjectKind::link ? 0 : line->closed ? 3 : 2;
  if (points.size() <= least) {
    if (!line->closed || vertex.ring == 0)
      fail("too_few_points",
           fmt::format("the {} \"{}\" has {} points, {}", word(ref.kind), ref.id, points.size(),
                       line->closed ? "an outline takes three" : "a line takes two"),
           "erase it instead");
    Design after = design;
    const auto hole = static_cast<Offset>(vertex.ring) - 1;
    if (ref.kind == ObjectKind::zone) {
      auto& holes = withId(after.site.zones, ref.id)->holes;
      holes.erase(holes.begin() + hole);
    } else {
      auto& voids = storeyAt(after, *placeOfStorey(after, ref.id)).voids;
      voids.erase(voids.begin() + hole);
    }
    requireUsable(after, {ref.id});
    return after;
  }
  points.erase(points.begin() + static_cast<Offset>(vertex.index));
  if (line->joined && vertex.index == 0) points.back() = points.front();
  return withLine(design, ref, vertex.ring, points, {Pull::Kind::removed, vertex.index});
}

Design withEdgeLength(const Design& design, const ObjectRef& ref, const Handle& edge,
                      double length_m) {
  const std::vector<Line> lines = linesOf(design, ref);
  const Line* line = edge.kind == HandleKind::edge ? lineOf(lines, edge) : nullptr;
  if (!line) return design;
  if (!(length_m > 0))
    fail("bad_length", "an edge has a length above zero", "remove its end instead");
  std::vector<Vec2> points = line->points;
  if (line->joined) points.pop_back();
  const bool round = line->closed || line->joined;
  const std::size_t n = points.size(), i = edge.index, end = (i + 1) % n;
  if (!line->isOwn(end))
    fail("bad_length", "the cable ends where that part is", "move the part, or the point before it");
  const Vec2 d = points[end] - points[i];
  if (norm(d) == 0) fail("zero_length", "the edge has no direction", "pull one of its ends");
  const Vec2 by = d * (length_m / norm(d) - 1);
  const auto put = [&](std::size_t k) {
    points[k] = points[k] + by;
    points[k] = {tidy(points[k].x), tidy(points[k].y)};
  };
  if (round) {
    put(end);
    const std::size_t next = (i + 2) % n, after = (i + 3) % n;
    const Vec2 opposite = line->points[after] - line->points[next];
    const bool parallel = std::abs(cross(d, opposite)) <= 1e-6 * norm(d) * norm(opposite);
    if (parallel && next != i) put(next);
    if (line->joined) points.push_back(points.front());
    return withLine(design, ref, edge.ring, points, {Pull::Kind::followed, i});
  }
  for (std::size_t k = i + 1; k < n; ++k) put(k);
  return withLine(design, ref, edge.ring, points, {Pull::Kind::followed, i});
}

}  // namespace belvedere::edit
