// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/sight.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "scene/shadow.h"
#include "scene/sightline.h"

namespace belvedere::proof {
namespace {

// Is some level slice of the cell hidden as a whole by one of these bodies?
bool sliceHidden(const Question& q, const Vec3& lens_m, const Cell& cell,
                 std::span<const std::uint32_t> bodies, double low_m, double high_m, int slabs) {
  const scene::Scene& scene = q.place->scene;
  const int slices = high_m > low_m ? slabs + 1 : 1;
  // Ends first: what stands on the floor hides feet, what hangs hides heads.
  for (int i = 0; i < slices; ++i) {
    const int order = i == 0 ? 0 : i == 1 ? slices - 1 : i - 1;
    const double height_m =
        slices > 1 ? low_m + (high_m - low_m) * order / (slices - 1) : low_m;
    const Slab slice = slabOf(q.floor, cell, height_m, height_m);
    for (const std::uint32_t index : bodies)
      if (scene::hidesAll(scene, scene.bodies[index], lens_m, slice.prism.lower())) return true;
  }
  return false;
}

// The plan line of a body's silhouette, seen from the lens, that passes nearest to the middle of
// the cell: the plane through the lens and an edge with the whole body on one side of it, at the
// low or the high end of the band. On the far side of it that end is in the body's shadow no more.
constexpr std::size_t kBodiesForCut = 8;  // more: halving sorts them out sooner
std::optional<Cut> shadowCut(const Question& q, const Vec3& lens_m, const Cell& cell,
                             std::span<const std::uint32_t> bodies) {
  if (q.floor.slope != Vec2{}) return {};
  const scene::Scene& scene = q.place->scene;
  std::optional<Cut> best;
  double nearest = 1e300;
  for (const std::uint32_t index : bodies) {
    const scene::Body& body = scene.bodies[index];
    for (std::uint32_t e = body.first_edge; e < body.first_edge + body.edge_count; ++e) {
      const Vec3 normal = cross(scene.vertices[scene.edges[e].a] - lens_m,
                                scene.vertices[scene.edges[e].b] - lens_m);
      const Vec2 plan = normal.xy();
      const double size = norm(plan);
      if (!(size > 1e-9 * norm(normal)) || size == 0) continue;
      double low = 0, high = 0;  // of the body's vertices from the plane
      for (std::uint32_t v = body.first_vertex; v < body.first_vertex + body.vertex_count; ++v) {
        const double d = dot(normal, scene.vertices[v] - lens_m);
        low = std::min(low, d);
        high = std::max(high, d);
      }
      const double touch = scene::kTouchM * norm(normal);
      if (low < -touch && high > touch) continue;  // not on the silhouette
      for (const double height_m : {q.low_m, q.high_m}) {
        const double at = dot(normal, lens_m) - normal.z * (q.floor.z0 + height_m);
        double below = 0, above = 0;  // how far the cell's corners reach to either side
        for (const Vec2 p : cell.corners) {
          const double d = (dot(plan, p) - at) / size;
          below = std::max(below, -d);
          above = std::max(above, d);
        }
        const double least = std::min(below, above), most = std::max(below, above);
        if (least < 1e-7) continue;
        if (most / least < nearest) {
          nearest = most / least;
          best = Cut{plan / size, {at / size - kCutHalfM, at / size + kCutHalfM}};
        }
        if (q.high_m <= q.low_m) break;
      }
    }
  }
  return best;
}

// Of the shadows across the cell that which covers most of it, and of its sides that which cuts off
// most.
constexpr std::size_t kShadowsForCut = 40;
std::optional<Cut> shadowCut(const scene::Shadows& shadows, std::span<const std::uint32_t> across,
                             const Cell& cell) {
  std::optional<Cut> best;
  double best_covers = -1;
  for (const std::uint32_t index : across) {
    const scene::Shadow& shadow = shadows.all[index];
    std::optional<Cut> cut;
    double covers = 1;  // about the share of the cell that lies in this shadow
    for (std::uint32_t i = 0; i < shadow.side_count; ++i) {
      const scene::ShadowSide& side = shadows.sides[shadow.first_side + i];
      double low = 1e300, high = -1e300;
      for (const Vec2 p : cell.corners) {
        const double d = dot(side.normal, p);
        low = std::min(low, d);
        high = std::max(high, d);
      }
      const double within = (side.offset - low) / (high - low);
      if (within >= covers || high <= side.offset + kCutHalfM || low >= side.offset - kCutHalfM)
        continue;
      covers = within;
      cut = Cut{side.normal, {side.offset - kCutHalfM, side.offset + kCutHalfM}};
    }
    if (cut && covers > best_covers) {
      best_covers = covers;
      best = cut;
    }
  }
  return best;
}

// Do shadows on the floor say all about sight? Where every height must pass, on a level floor well
// below the lens.
//
// A lens in or on a body (a camera flush on its wall) sees that body edge-on: its shadow in plan
// would hang on rounding, so such a view is judged in space.
bool touchesBody(const scene::Scene& scene, const scene::BodyTree& tree, const Vec3& p) {
  constexpr double kFlushM = 1e-6;
  if (tree.nodes.empty()) return false;
  const auto near = [&](const Box3& b) {
    return p.x >= b.low.x - kFlushM && p.x <= b.high.x + kFlushM && p.y >= b.low.y - kFlushM &&
           p.y <= b.high.y + kFlushM && p.z >= b.low.z - kFlushM && p.z <= b.high.z + kFlushM;
  };
  std::array<std::uint32_t, 128> stack;
  std::size_t depth = 0;
  stack[depth++] = 0;
  while (depth > 0) {
    const scene::TreeNode& node = tree.nodes[stack[--depth]];
    if (!near(node.box)) continue;
    if (node.count == 0) {
      stack[depth++] = node.first + 1;
      stack[depth++] = node.first;
      continue;
    }
    for (std::uint32_t i = node.first; i < node.first + node.count; ++i) {
      const scene::Body& body = scene.bodies[tree.order[i]];
      if (!near(body.box)) continue;
      bool on = true;
      for (std::uint32_t k = 0; k < body.plane_count && on; ++k) {
        const scene::Plane& plane = scene.planes[body.first_plane + k];
        on = dot(plane.normal, p) <= plane.offset + kFlushM;
      }
      if (on) return true;
    }
  }
  return false;
}

bool castsShadows(const Question& q, const design::PosedImager& view) {
  return q.floor.slope == Vec2{} && view.lens_m.z >= q.floor.z0 + q.high_m + scene::kLensAboveM &&
         !touchesBody(q.place->scene, q.place->tree, view.lens_m);
}

// The first look at a view: shadows of all bodies that may stand between, but for those that lie
// apart from the cell. Says whether one covers all of it, when none is needed any more.
bool gatherShadows(const Question& q, const design::PosedImager& view, const Cell& cell,
                   const Slab& band, const Box2& box, ViewState& state) {
  const scene::Scene& scene = q.place->scene;
  thread_local std::vector<std::uint32_t> bodies;
  scene::bodiesNear(scene, q.place->tree, scene::makeShaft(view.lens_m, band.prism), q.blocking,
                    bodies);
  auto shadows = std::make_shared<scene::Shadows>();
  for (const std::uint32_t index : bodies) {
    const std::size_t told = shadows->all.size();
    scene::addShadow(scene, scene.bodies[index], view.lens_m, q.floor.z0 + q.low_m,
                     q.floor.z0 + q.high_m, *shadows);
    if (shadows->all.size() == told) continue;
    const scene::Shadow& shadow = shadows->all.back();
    const scene::Lies lies = scene::liesOver(*shadows, shadow, cell.corners, box);
    if (lies == scene::Lies::covers) return true;
    if (lies == scene::Lies::across) continue;
    shadows->sides.resize(shadow.first_side);
    shadows->corners.resize(shadow.first_corner);
    shadows->all.pop_back();
  }
  auto across = std::make_shared<std::vector<std::uint32_t>>(shadows->all.size());
  std::iota(across->begin(), across->end(), 0u);
  state.bodies = std::move(across);
  state.shadows = std::move(shadows);
  return false;
}

Over sightByShadows(const Question& q, const design::PosedImager& view, const Cell& cell,
                    const Slab& band, ViewState& state, std::optional<Cut>& cut) {
  if (state.clear) return Over::all;
  const Box2 box = bounds(cell.corners);
  if (!state.shadows) {
    if (gatherShadows(q, view, cell, band, box, state)) return Over::none;
  } else {
    auto across = std::make_shared<std::vector<std::uint32_t>>();
    across->reserve(state.bodies->size());
    for (const std::uint32_t index : *state.bodies) {
      const scene::Lies lies =
          scene::liesOver(*state.shadows, state.shadows->all[index], cell.corners, box);
      if (lies == scene::Lies::covers) return Over::none;
      if (lies == scene::Lies::across) across->push_back(index);
    }
    state.bodies = std::move(across);
  }
  state.clear = state.bodies->empty();
  if (state.clear) return Over::all;
  if (!cut && state.bodies->size() <= kShadowsForCut)
    cut = shadowCut(*state.shadows, *state.bodies, cell);
  return Over::mixed;
}

// A body that hides the low or the high end of the band at a place.
std::optional<std::uint32_t> blockerAt(const Question& q, const design::PosedImager& view, Vec2 place) {
  const double floor_m = q.floor.at(place);
  for (const double height_m : {q.low_m, q.high_m}) {
    const auto body = scene::blockerOf(q.place->scene, q.place->tree, view.lens_m,
                                       withZ(place, floor_m + height_m), q.blocking);
    if (body || q.high_m <= q.low_m) return body;
  }
  return {};
}

// A convex piece of a cell, without allocation.
struct Piece {
  static constexpr std::size_t kCorners = 24;
  std::array<Vec2, kCorners> corner;
  std::size_t count = 0;
  Vec2 middle() const {
    Vec2 sum;
    for (std::size_t i = 0; i < count; ++i) sum = sum + corner[i];
    return sum / static_cast<double>(count);
  }
};
// The part where dot(normal, p) <= limit. False where that has too many corners.
bool clip(const Piece& piece, Vec2 normal, double limit, Piece& out) {
  out.count = 0;
  for (std::size_t i = 0; i < piece.count; ++i) {
    const Vec2 a = piece.corner[i], b = piece.corner[i + 1 == piece.count ? 0 : i + 1];
    const double da = dot(normal, a) - limit, db = dot(normal, b) - limit;
    if (out.count + 2 > Piece::kCorners) return false;
    if (da <= 0) out.corner[out.count++] = a;
    if ((da < 0 && db > 0) || (da > 0 && db < 0)) out.corner[out.count++] = a + (b - a) * (da / (da - db));
  }
  return true;
}

bool glanceByShadows(const Question& q, const design::PosedImager& view, const Cell& cell,
                     const Slab& band) {
  constexpr int kRaysMost = 10;
  constexpr double kWithinM = 4 * scene::kShadowGuardM;  // parts overlap by more than rounding
  const scene::Scene& scene = q.place->scene;
  thread_local std::array<Piece, 4 * kRaysMost> left;
  std::size_t count = 1;
  left[0].count = std::min(cell.corners.size(), Piece::kCorners);
  std::copy_n(cell.corners.begin(), left[0].count, left[0].corner.begin());
  thread_local scene::Shadows shadows;
  for (int rays = 0; count > 0; ++rays) {
    if (rays == kRaysMost) return false;
    Piece piece = left[--count];
    const auto body = blockerAt(q, view, piece.middle());
    if (!body) return false;
    // Mostly a wall hides all of it, and its shadow need not be told.
    if (rays == 0 &&
        scene::hidesAll(scene, scene.bodies[*body], view.lens_m, band.prism.lower()))
      return true;
    shadows.sides.clear();
    shadows.corners.clear();
    shadows.all.clear();
    scene::addShadow(scene, scene.bodies[*body], view.lens_m, q.floor.z0 + q.low_m,
                     q.floor.z0 + q.high_m, shadows);
    if (shadows.all.empty()) return false;
    // What of the piece lies beyond some side of the shadow is left to others.
    for (const scene::ShadowSide& side : shadows.sides) {
      const double limit = side.offset - kWithinM;
      if (count == left.size() || !clip(piece, -side.normal, -limit, left[count])) return false;
      if (left[count].count < 3) continue;
      ++count;
      Piece within;
      if (!clip(piece, side.normal, limit, within)) return false;
      piece = within;
      if (piece.count < 3) break;
    }
  }
  return true;
}

// The same in space: by one body, at one end of the band.
bool glanceInSpace(const Question& q, const design::PosedImager& view, const Cell& cell,
                   const Slab& band) {
  const scene::Scene& scene = q.place->scene;
  const auto body = blockerAt(q, view, cell.centre);
  if (!body) return false;
  for (const std::span<const Vec3> face : {band.prism.lower(), band.prism.upper()})
    if (scene::hidesAll(scene, scene.bodies[*body], view.lens_m, face)) return true;
  return false;
}

}  // namespace

bool hiddenAtAGlance(const Question& q, const design::PosedImager& view, const Cell& cell,
                     const Slab& band) {
  return castsShadows(q, view) ? glanceByShadows(q, view, cell, band)
                               : glanceInSpace(q, view, cell, band);
}

void gatherBodies(const Question& q, const design::PosedImager& view, const Slab& band,
                  ViewState& state) {
  if (state.clear) return;
  const scene::Scene& scene = q.place->scene;
  const scene::Shaft shaft = scene::makeShaft(view.lens_m, band.prism);
  auto bodies = std::make_shared<std::vector<std::uint32_t>>();
  if (state.bodies)
    scene::bodiesIn(scene, *state.bodies, shaft, *bodies);
  else
    scene::bodiesIn(scene, q.place->tree, shaft, q.blocking, *bodies);
  state.clear = bodies->empty();
  state.bodies = std::move(bodies);
}

Over sightOver(const Question& q, const design::PosedImager& view, const Cell& cell,
               const Slab& band, ViewState& state, int slabs, std::optional<Cut>& cut) {
  if (castsShadows(q, view)) return sightByShadows(q, view, cell, band, state, cut);
  gatherBodies(q, view, band, state);
  if (state.clear) return Over::all;
  if (sliceHidden(q, view.lens_m, cell, *state.bodies, q.low_m, q.high_m, slabs)) return Over::none;
  if (!cut && state.bodies->size() <= kBodiesForCut)
    cut = shadowCut(q, view.lens_m, cell, *state.bodies);
  return Over::mixed;
}

}  // namespace belvedere::proof
