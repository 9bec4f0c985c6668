// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "proof/box_tests.h"
#include "proof/judge.h"

namespace belvedere::proof {
namespace {

Over both(Over a, Over b) {
  if (a == Over::none || b == Over::none) return Over::none;
  return a == Over::all && b == Over::all ? Over::all : Over::mixed;
}

// All tests but sight, over one slab. `framed`: the frame's test where it is exact.
Over testsOver(const Question& q, const design::PosedImager& view, const Cell& cell,
               const Slab& slab, const std::optional<Framed>& framed, int facing, bool whole,
               std::optional<Cut>* cut) {
  if (framed && framed->over == Over::none) return Over::none;
  Over frame = framed ? framed->over : Over::mixed, rest = Over::all;
  const bool dense = surelyDense(view, slab, q.needed_px_per_m);
  if (!framed || !dense || !view.masks_px.empty()) {
    const optics::PictureBounds picture = pictureOf(view, slab);
    if (!framed) frame = frameOver(view, cell, picture, whole);
    if (frame == Over::none) return Over::none;
    const auto density = dense ? std::nullopt : densityOver(view, cell, picture);
    if (density && density->high < q.needed_px_per_m) return Over::none;
    if (!dense && !(density && density->low >= q.needed_px_per_m)) rest = Over::mixed;
    rest = both(rest, maskOver(view, cell, picture));
    if (cut && frame == Over::mixed && !(framed && framed->cut)) *cut = frameCut(view, cell, picture);
  }
  if (cut && framed && framed->cut) *cut = framed->cut;
  if (facing >= 0) {
    const design::Facing& f = q.facings[static_cast<std::size_t>(facing)];
    rest = both(rest, elevationOver(view, cell, slab, f.elevation_max_deg, whole));
    rest = both(rest, yawOver(view, cell, f));
  }
  return both(frame, rest);
}

// The same where the whole band must pass: served when every slab of it passes, not served when
// the band or a level slice at one of its ends fails over the whole cell.
Over wholeBandTests(const Question& q, const design::PosedImager& view, const Cell& cell,
                    const Slab& whole, const std::optional<Framed>& framed, int facing, int slabs,
                    std::optional<Cut>& cut) {
  const double low_m = q.low_m, high_m = q.high_m;
  const Over band = testsOver(q, view, cell, whole, framed, facing, true, &cut);
  if (band != Over::mixed || high_m <= low_m) return band;
  if (framed && framed->cut) return band;  // its parts will know
  // Near the lens the band is too tall for its bounds to say much, and the slices at its ends, of
  // which mostly one is the worst, say more: also where the frame's edge lies.
  Over ends = Over::all;
  for (const double height_m : {low_m, high_m}) {
    const Slab slice = slabOf(q.floor, cell, height_m, height_m);
    const Over end = testsOver(q, view, cell, slice, frameByPlanes(view, slice, true), facing, true,
                               cut ? nullptr : &cut);
    ends = both(ends, end);
    if (end == Over::none) return end;
  }
  if (ends != Over::all || slabs <= 1) return Over::mixed;
  const double step_m = (high_m - low_m) / slabs;
  for (int i = 0; i < slabs; ++i) {
    const Slab slab = slabOf(q.floor, cell, low_m + i * step_m, low_m + (i + 1) * step_m);
    if (testsOver(q, view, cell, slab, frameByPlanes(view, slab, true), facing, true, nullptr) !=
        Over::all)
      return Over::mixed;
  }
  return Over::all;
}

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

// Which bodies may stand between: of those that a larger cell met, or of the whole scene.
void gatherBodies(const Question& q, const design::PosedImager& view, const Slab& band, ViewState& state) {
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

// One ray to the middle often finds a wall that hides it all, without gathering the shaft.
bool plainlyHidden(const Question& q, const design::PosedImager& view, const Cell& cell,
                   const Slab& band) {
  const scene::Scene& scene = q.place->scene;
  const double floor_m = q.floor.at(cell.centre);
  for (const bool low : {true, false}) {
    if (!low && q.high_m <= q.low_m) break;
    const auto body =
        scene::blockerOf(scene, q.place->tree, view.lens_m,
                         withZ(cell.centre, floor_m + (low ? q.low_m : q.high_m)), q.blocking);
    if (!body) continue;
    for (const std::span<const Vec3> face : {band.prism.lower(), band.prism.upper()})
      if (scene::hidesAll(scene, scene.bodies[*body], view.lens_m, face)) return true;
  }
  return false;
}

// Sight over the whole band: `all` when nothing is in the shaft, `none` when a slice is hidden.
Over sightOver(const Question& q, const design::PosedImager& view, const Cell& cell,
               const Slab& band, ViewState& state, int slabs, std::optional<Cut>& cut) {
  gatherBodies(q, view, band, state);
  if (state.clear) return Over::all;
  if (sliceHidden(q, view.lens_m, cell, *state.bodies, q.low_m, q.high_m, slabs)) return Over::none;
  if (!cut && state.bodies->size() <= kBodiesForCut)
    cut = shadowCut(q, view.lens_m, cell, *state.bodies);
  return Over::mixed;
}

// Where a share of the band is enough: the heights that surely pass and those that may.
Over shareOfBand(const Question& q, const design::PosedImager& view, const Cell& cell,
                 const Slab& band, ViewState& state, int facing, int slabs) {
  gatherBodies(q, view, band, state);
  const scene::Scene& scene = q.place->scene;
  const double step_m = (q.high_m - q.low_m) / slabs;
  int surely = 0, perhaps = 0;
  std::vector<std::uint32_t> bodies;
  for (int i = 0; i < slabs; ++i) {
    const double low_m = q.low_m + step_m * i;
    const Slab slab = slabOf(q.floor, cell, low_m, low_m + step_m);
    Over over = testsOver(q, view, cell, slab, frameByPlanes(view, slab, false), facing, false, nullptr);
    if (over == Over::none) continue;
    if (!state.clear) {
      scene::bodiesIn(scene, *state.bodies, scene::makeShaft(view.lens_m, slab.prism), bodies);
      const bool hidden = std::any_of(bodies.begin(), bodies.end(), [&](std::uint32_t index) {
        return scene::hidesAll(scene, scene.bodies[index], view.lens_m, slab.prism.corners());
      });
      if (hidden) continue;
      if (!bodies.empty()) over = Over::mixed;
    }
    ++perhaps;
    if (over == Over::all) ++surely;
  }
  const double needed = q.height_share * slabs;
  if (surely >= needed - 1e-9) return Over::all;
  return perhaps < needed - 1e-9 ? Over::none : Over::mixed;
}

}  // namespace

Cell boxCell(Vec2 centre, Vec2 half_x, Vec2 half_y) {
  return {{centre - half_x - half_y, centre + half_x - half_y, centre + half_x + half_y,
           centre - half_x + half_y}, centre, half_x, half_y};
}

Over judgeCell(const Question& q, const Cell& cell, ViewState& state, int facing, int slabs,
               std::optional<Cut>& cut) {
  return judgeCell(q, cell, slabOf(q.floor, cell, q.low_m, q.high_m), state, facing, slabs, cut);
}

Over judgeCell(const Question& q, const Cell& cell, const Slab& band, ViewState& state, int facing,
               int slabs, std::optional<Cut>& cut) {
  const design::PosedImager& view = q.views[state.view];
  if (q.height_share < 1 && q.high_m > q.low_m)
    return shareOfBand(q, view, cell, band, state, facing, std::max(8, 4 * slabs));
  const bool asked_before = state.clear || state.bodies;
  const std::optional<Framed> framed = frameByPlanes(view, band, true);
  if (framed && framed->over == Over::none) return Over::none;
  if (!asked_before && plainlyHidden(q, view, cell, band)) return Over::none;
  const Over tests = wholeBandTests(q, view, cell, band, framed, facing, slabs, cut);
  if (tests == Over::none) return tests;
  // Gathering the shaft of a view that is undecided anyway is left to its parts.
  if (tests == Over::mixed && !asked_before && cut) return tests;
  const Over over = both(tests, sightOver(q, view, cell, band, state, slabs, cut));
  if (over != Over::mixed) cut.reset();
  return over;
}

}  // namespace belvedere::proof
