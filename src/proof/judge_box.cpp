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

// All tests but sight, over one slab.
Over testsOver(const Question& q, const design::PosedImager& view, const Cell& cell,
               const Slab& slab, int facing) {
  const optics::PictureBounds picture = pictureOf(view, slab);
  Over over = frameOver(view, picture);
  if (over == Over::none) return over;
  const auto density = densityOver(view, cell, picture);
  if (!density) {
    over = Over::mixed;
  } else if (density->high < q.needed_px_per_m) {
    return Over::none;
  } else if (density->low < q.needed_px_per_m) {
    over = Over::mixed;
  }
  if (facing >= 0) {
    const design::Facing& f = q.facings[static_cast<std::size_t>(facing)];
    over = both(over, elevationOver(view, cell, slab, f.elevation_max_deg));
    over = both(over, yawOver(view, cell, f));
    if (over == Over::none) return over;
  }
  return both(over, maskOver(view, picture));
}

// The same where the whole band must pass: served when every slab passes, not served when some
// slab, or some level slice of one, fails over the whole cell.
Over wholeBandTests(const Question& q, const design::PosedImager& view, const Cell& cell,
                    double low_m, double high_m, int facing, int slabs) {
  const Over band = testsOver(q, view, cell, slabOf(q.floor, cell, low_m, high_m), facing);
  if (band != Over::mixed || high_m <= low_m) return band;
  if (slabs > 1) {
    const double middle_m = 0.5 * (low_m + high_m);
    const Over lower = wholeBandTests(q, view, cell, low_m, middle_m, facing, slabs / 2);
    if (lower == Over::none) return lower;
    return both(lower, wholeBandTests(q, view, cell, middle_m, high_m, facing, slabs / 2));
  }
  for (const double height_m : {low_m, high_m})
    if (testsOver(q, view, cell, slabOf(q.floor, cell, height_m, height_m), facing) == Over::none)
      return Over::none;
  return Over::mixed;
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
    for (const std::uint32_t index : bodies) {
      const scene::Body& body = scene.bodies[index];
      if (scene::hides(scene, body, lens_m, slice.centre) &&
          scene::hidesAll(scene, body, lens_m, std::span(slice.corner).first(4)))
        return true;
    }
  }
  return false;
}

// Which bodies may stand between: of those that a larger cell met, or of the whole scene.
void gatherBodies(const Question& q, const design::PosedImager& view, const Cell& cell,
                  ViewState& state) {
  if (state.clear) return;
  const scene::Scene& scene = q.place->scene;
  const Slab band = slabOf(q.floor, cell, q.low_m, q.high_m);
  const scene::Shaft shaft = scene::makeShaft(view.lens_m, band.corner);
  std::vector<std::uint32_t> bodies;
  if (state.bodies_known)
    scene::bodiesIn(scene, state.bodies, shaft, bodies);
  else
    scene::bodiesIn(scene, q.place->tree, shaft, q.blocking, bodies);
  state.bodies = std::move(bodies);
  state.bodies_known = true;
  state.clear = state.bodies.empty();
}

// Sight over the whole band: `all` when nothing is in the shaft, `none` when a slice is hidden.
Over sightOver(const Question& q, const design::PosedImager& view, const Cell& cell,
               ViewState& state, int slabs) {
  if (state.clear) return Over::all;
  const scene::Scene& scene = q.place->scene;
  if (!state.bodies_known) {
    // One ray to the middle often finds a wall that hides it all, without gathering the shaft.
    for (const double height_m : {q.low_m, q.high_m}) {
      const Vec3 middle = slabOf(q.floor, cell, height_m, height_m).centre;
      const auto body =
          scene::blockerOf(scene, q.place->tree, view.lens_m, middle, q.blocking);
      if (body && sliceHidden(q, view.lens_m, cell, std::span(&*body, 1), q.low_m, q.high_m, 1))
        return Over::none;
    }
  }
  gatherBodies(q, view, cell, state);
  if (state.clear) return Over::all;
  return sliceHidden(q, view.lens_m, cell, state.bodies, q.low_m, q.high_m, slabs) ? Over::none
                                                                                   : Over::mixed;
}

// Where a share of the band is enough: the heights that surely pass and those that may.
Over shareOfBand(const Question& q, const design::PosedImager& view, const Cell& cell,
                 ViewState& state, int facing, int slabs) {
  gatherBodies(q, view, cell, state);
  const scene::Scene& scene = q.place->scene;
  const double step_m = (q.high_m - q.low_m) / slabs;
  int surely = 0, perhaps = 0;
  std::vector<std::uint32_t> bodies;
  for (int i = 0; i < slabs; ++i) {
    const double low_m = q.low_m + step_m * i;
    const Slab slab = slabOf(q.floor, cell, low_m, low_m + step_m);
    Over over = testsOver(q, view, cell, slab, facing);
    if (over == Over::none) continue;
    if (!state.clear) {
      scene::bodiesIn(scene, state.bodies, scene::makeShaft(view.lens_m, slab.corner), bodies);
      const bool hidden = std::any_of(bodies.begin(), bodies.end(), [&](std::uint32_t index) {
        return scene::hidesAll(scene, scene.bodies[index], view.lens_m, slab.corner);
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

Over judgeCell(const Question& q, const Cell& cell, ViewState& state, int facing, int slabs) {
  const design::PosedImager& view = q.views[state.view];
  if (q.height_share < 1 && q.high_m > q.low_m)
    return shareOfBand(q, view, cell, state, facing, std::max(8, 4 * slabs));
  const Over tests = wholeBandTests(q, view, cell, q.low_m, q.high_m, facing, slabs);
  if (tests == Over::none) return tests;
  return both(tests, sightOver(q, view, cell, state, slabs));
}

}  // namespace belvedere::proof
