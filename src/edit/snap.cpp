// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/snap.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "edit/measure.h"
#include "edit/plan_objects.h"
#include "scene/presence.h"

namespace belvedere::edit {
namespace {

using design::Design;

// Edges beyond these, at one place, are too many to cross with one another.
constexpr std::size_t kMostCrossed = 64;
// Directions nearer to each other than this do not cross where a hand could tell.
constexpr double kParallel = 1e-6;

struct Builder {
  SnapSet set;

  void edge(Vec2 a, Vec2 b, bool face) {
    set.edges.push_back({a, b, static_cast<std::uint32_t>(set.objects.size() - 1), face});
  }
  void line(const std::vector<Vec2>& points, bool closed, bool face) {
    for (std::size_t i = 0; i + 1 < points.size(); ++i) edge(points[i], points[i + 1], face);
    if (closed && points.size() > 2) edge(points.back(), points.front(), face);
  }
  void object(const PlanObject& object) {
    set.objects.push_back(object.ref);
    const Trace& trace = object.trace;
    for (const Ring& ring : trace.rings) line(ring, true, false);
    for (const auto& path : trace.lines) {
      line(path, false, false);
      if (trace.half_width_m == 0) continue;
      const auto faces = facesOf(path, 2 * trace.half_width_m);
      for (const auto& face : faces) line(face, false, true);
      if (faces.size() == 2) {  // the wall's two ends
        edge(faces[0].front(), faces[1].front(), true);
        edge(faces[0].back(), faces[1].back(), true);
      }
    }
    for (const Vec2 p : trace.points) edge(p, p, false);
  }

  // Calls `body` with each cell that the edge's box touches, row by row only as far as the edge is
  // there.
  template <class F>
  void cellsOf(const SnapEdge& e, F body) const {
    const auto cell = [&](double v, double low, std::size_t many) {
      return std::min(many - 1, static_cast<std::size_t>(std::max(0.0, (v - low) / set.cell_m)));
    };
    const Vec2 lower = e.a.y <= e.b.y ? e.a : e.b, upper = e.a.y <= e.b.y ? e.b : e.a;
    const std::size_t from = cell(lower.y, set.low.y, set.rows),
                      to = cell(upper.y, set.low.y, set.rows);
    for (std::size_t row = from; row <= to; ++row) {
      double x0 = lower.x, x1 = upper.x;
      if (from != to) {
        const double slope = (upper.x - lower.x) / (upper.y - lower.y);
        const double y0 = set.low.y + static_cast<double>(row) * set.cell_m;
        x0 = lower.x + slope * (std::clamp(y0, lower.y, upper.y) - lower.y);
        x1 = lower.x + slope * (std::clamp(y0 + set.cell_m, lower.y, upper.y) - lower.y);
      }
      const std::size_t first = cell(std::min(x0, x1), set.low.x, set.columns),
                        last = cell(std::max(x0, x1), set.low.x, set.columns);
      for (std::size_t column = first; column <= last; ++column) body(row * set.columns + column);
    }
  }

  void grid() {
    Box2 box;
    for (const SnapEdge& e : set.edges) box.add(e.a), box.add(e.b);
    if (box.empty()) return;
    set.low = box.low;
    const Vec2 size = box.high - box.low;
    // About as many cells as edges, none smaller than a hand's width.
    const auto many = static_cast<double>(set.edges.size() + 1);
    set.cell_m =
        std::max({0.25, std::sqrt(size.x * size.y / many), std::max(size.x, size.y) / 1024});
    set.columns = static_cast<std::size_t>(size.x / set.cell_m) + 1;
    set.rows = static_cast<std::size_t>(size.y / set.cell_m) + 1;
    set.first.assign(set.columns * set.rows + 1, 0);
    for (const SnapEdge& e : set.edges) cellsOf(e, [&](std::size_t c) { ++set.first[c + 1]; });
    for (std::size_t c = 1; c < set.first.size(); ++c) set.first[c] += set.first[c - 1];
    set.in_cells.resize(set.first.back());
    std::vector<std::uint32_t> next(set.first.begin(), set.first.end() - 1);
    for (std::size_t i = 0; i < set.edges.size(); ++i)
      cellsOf(set.edges[i],
              [&](std::size_t c) { set.in_cells[next[c]++] = static_cast<std::uint32_t>(i); });
  }
};

Vec2 nearestOn(const SnapEdge& e, Vec2 p) {
  const Vec2 d = e.b - e.a;
  const double length2 = dot(d, d);
  return length2 > 0 ? e.a + d * std::clamp(dot(p - e.a, d) / length2, 0.0, 1.0) : e.a;
}

// Edges whose boxes' cells lie within reach of a place, each once, in order.
std::vector<std::uint32_t> around(const SnapSet& set, Vec2 at, double within_m) {
  std::vector<std::uint32_t> found;
  if (set.columns == 0) return found;
  const auto cell = [&](double v, double low, std::size_t many) {
    const double c = std::floor((v - low) / set.cell_m);
    return static_cast<std::size_t>(std::clamp(c, 0.0, static_cast<double>(many - 1)));
  };
  const std::size_t c0 = cell(at.x - within_m, set.low.x, set.columns),
                    c1 = cell(at.x + within_m, set.low.x, set.columns),
                    r0 = cell(at.y - within_m, set.low.y, set.rows),
                    r1 = cell(at.y + within_m, set.low.y, set.rows);
  for (std::size_t row = r0; row <= r1; ++row)
    for (std::size_t column = c0; column <= c1; ++column) {
      const std::size_t c = row * set.columns + column;
      found.insert(found.end(), set.in_cells.begin() + set.first[c],
                   set.in_cells.begin() + set.first[c + 1]);
    }
  std::ranges::sort(found);
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

struct Asker {
  const SnapSet& set;
  Vec2 at;
  const SnapAsk& ask;
  Snap best;
  double best_m = 1e300;
  std::vector<char> excepted = {};

  void offer(Vec2 p, SnapKind kind, const auto& says) {
    const double distance_m = norm(p - at);
    if (distance_m > ask.within_m) return;
    if (kind > best.kind || (kind == best.kind && distance_m >= best_m)) return;
    best = {p, kind, says()};
    best_m = distance_m;
  }
  void offer(Vec2 p, SnapKind kind, const SnapEdge& e) {
    offer(p, kind, [&] {
      const ObjectRef& ref = set.objects[e.object];
      return fmt::format("{} {}", word(kind), ref.slot ? fmt::format("{}.{}", ref.id, ref.slot)
                                                       : ref.id);
    });
  }
  bool takes(const SnapEdge& e) const { return excepted.empty() || !excepted[e.object]; }

  void crossings(const std::vector<const SnapEdge*>& near) {
    for (std::size_t i = 0; i < near.size(); ++i)
      for (std::size_t k = 0; k < i; ++k) {
        const SnapEdge &e = *near[k], &f = *near[i];
        const Vec2 d = e.b - e.a, g = f.b - f.a;
        const double turn = cross(d, g);
        if (std::abs(turn) <= kParallel * norm(d) * norm(g)) continue;
        const double t = cross(f.a - e.a, g) / turn, u = cross(f.a - e.a, d) / turn;
        if (t < 0 || t > 1 || u < 0 || u > 1) continue;
        offer(e.a + d * t, SnapKind::intersection, [&] {
          return fmt::format("{} {} and {}", word(SnapKind::intersection), set.objects[e.object].id,
                             set.objects[f.object].id);
        });
      }
  }

  void fromStart(const std::vector<const SnapEdge*>& near) {
    if (!ask.start) return;
    const Vec2 start = *ask.start;
    for (const SnapEdge* e : near) {
      const Vec2 d = e->b - e->a;
      if (dot(d, d) == 0) continue;
      const double t = dot(start - e->a, d) / dot(d, d);
      if (t >= 0 && t <= 1) offer(e->a + d * t, SnapKind::perpendicular, *e);
    }
    if (norm(at - start) <= ask.within_m) return;  // every direction would do
    for (const double axis_deg : set.axes_deg) {
      const Vec2 u = placeAt({}, axis_deg, 1);
      const Vec2 foot = start + u * dot(at - start, u);
      offer(foot, SnapKind::right_angle, [] { return std::string(word(SnapKind::right_angle)); });
      if (norm(foot - at) > ask.within_m) continue;
      for (const SnapEdge* e : near) {
        const Vec2 d = e->b - e->a;
        const double turn = cross(u, d);
        if (std::abs(turn) <= kParallel * norm(d)) continue;
        if (std::abs(dot(u, d)) <= kParallel * norm(d)) continue;  // the foot of the perpendicular
        const double t = cross(u, start - e->a) / turn;
        if (t < 0 || t > 1) continue;
        offer(e->a + d * t, SnapKind::intersection, [&] {
          return fmt::format("{} to {}", word(SnapKind::right_angle), set.objects[e->object].id);
        });
      }
    }
  }

  // In line with an edge beyond its ends: looked for among all, since edges are anywhere.
  void extensions() {
    const double reach_m = kExtensionReach * ask.within_m;
    for (const SnapEdge& e : set.edges) {
      const Vec2 d = e.b - e.a, p = at - e.a;
      const double length2 = dot(d, d), side = cross(d, p);
      if (length2 == 0 || side * side > ask.within_m * ask.within_m * length2) continue;
      const double t = dot(p, d) / length2, length = std::sqrt(length2);
      const double beyond_m = (t < 0 ? -t : t - 1) * length;
      if (beyond_m <= 0 || beyond_m > reach_m || !takes(e)) continue;
      offer(e.a + d * t, SnapKind::extension, e);
    }
  }
};

}  // namespace

const char* word(SnapKind kind) {
  switch (kind) {
    case SnapKind::end: return "end of";
    case SnapKind::intersection: return "crossing of";
    case SnapKind::middle: return "middle of";
    case SnapKind::perpendicular: return "square to";
    case SnapKind::on_line: return "on";
    case SnapKind::on_face: return "on the face of";
    case SnapKind::right_angle: return "right angle";
    case SnapKind::extension: return "in line with";
    case SnapKind::grid: return "grid";
    case SnapKind::free: break;
  }
  return "";
}

SnapSet snapSetOf(const Design& design, const design::StoreyId& storey,
                  const design::SituationId& situation) {
  std::optional<scene::Presence> presence;
  for (const design::Situation& one : situationsOf(design))
    if (one.id == situation) presence.emplace(design, one);
  Builder builder;
  for (const PlanObject& object : planObjects(design, storey)) {
    const ObjectKind kind = object.ref.kind;
    const bool of_situation = kind == ObjectKind::solid || kind == ObjectKind::zone;
    if (kind == ObjectKind::building || kind == ObjectKind::link || object.ref.slot != 0) continue;
    if (of_situation && presence && !presence->holds(object.ref.id)) continue;
    builder.object(object);
  }
  SnapSet& set = builder.set;
  set.axes_deg = {0, 90};
  if (const design::Building* building = findBuildingOf(design, storey))
    if (std::fmod(building->turn_deg, 90) != 0) {
      set.axes_deg.push_back(building->turn_deg);
      set.axes_deg.push_back(building->turn_deg + 90);
    }
  builder.grid();
  return std::move(builder.set);
}

Snap snapped(const SnapSet& set, Vec2 at, const SnapAsk& ask) {
  Asker asker{set, at, ask, {at, SnapKind::free, {}}};
  if (!ask.on) return asker.best;
  if (!ask.except.empty()) {
    asker.excepted.resize(set.objects.size());
    for (std::size_t i = 0; i < set.objects.size(); ++i)
      asker.excepted[i] = std::ranges::find(ask.except, set.objects[i]) != ask.except.end();
  }
  std::vector<const SnapEdge*> near;
  for (const std::uint32_t i : around(set, at, ask.within_m)) {
    const SnapEdge& e = set.edges[i];
    if (!asker.takes(e)) continue;
    const Vec2 foot = nearestOn(e, at);
    if (norm(foot - at) > ask.within_m) continue;
    asker.offer(e.a, SnapKind::end, e);
    asker.offer(e.b, SnapKind::end, e);
    if (e.a == e.b) continue;
    asker.offer((e.a + e.b) / 2, SnapKind::middle, e);
    asker.offer(foot, e.face ? SnapKind::on_face : SnapKind::on_line, e);
    if (near.size() < kMostCrossed) near.push_back(&e);
  }
  asker.crossings(near);
  asker.fromStart(near);
  if (asker.best.kind >= SnapKind::extension) asker.extensions();
  if (asker.best.kind == SnapKind::free && ask.grid_m > 0) {
    const auto step = [&](double v) { return std::round(v / ask.grid_m) * ask.grid_m; };
    asker.offer({step(at.x), step(at.y)}, SnapKind::grid,
                [&] { return fmt::format("{} {:g} m", word(SnapKind::grid), ask.grid_m); });
  }
  return asker.best;
}

}  // namespace belvedere::edit
