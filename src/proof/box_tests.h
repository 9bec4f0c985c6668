// SPDX-License-Identifier: GPL-3.0-or-later
//
// The judge's tests over a slab: a cell of the floor between two heights. Each answers `all` when
// every point of the slab passes, `none` when every point fails, else `mixed`.
#pragma once

#include <array>

#include "optics/lens_bounds.h"
#include "proof/judge.h"
#include "scene/shaft.h"

namespace belvedere::proof {

struct Slab {
  scene::Prism prism;
  Vec3 centre;               // of the box around the cell
  std::array<Vec3, 3> half;  // half axes of that box
};
// Heights above the floor. The floor may slope: the slab is then sheared.
Slab slabOf(const scene::Floor& floor, const Cell& cell, double low_m, double high_m);

// The frame of a rectilinear view over a slab, exactly: its edges are planes through the lens, so
// that the slab's corners suffice. Where an edge crosses the slab, `cut` is the plan line of the one
// that cuts off most, at the end of the band where it counts. Nothing for other lenses.
struct Framed {
  Over over = Over::mixed;
  std::optional<Cut> cut;
};
std::optional<Framed> frameByPlanes(const design::PosedImager& view, const Slab& slab, bool whole);
// The same for the other round lenses, by corners and touching planes: nearly exact for small slabs.
// Nothing for other lenses, crops beside the axis, and slabs partly beside or behind the lens.
std::optional<Framed> frameByCones(const design::PosedImager& view, const Slab& slab, bool whole);
// Is density surely enough, by distance alone? Cheaper than densityOver, which may know more.
bool surelyDense(const design::PosedImager& view, const Slab& slab, double needed_px_per_m);

// A plan line by which a cell is cut is widened by this to either side: what lies beyond is then
// clear of rounding, and of a body's skin of kTouchM. The strip is left undecided.
inline constexpr double kCutHalfM = 1e-7;

optics::PictureBounds pictureOf(const design::PosedImager& view, const Slab& slab);

// Range of a picture coordinate over a slab's corners (the cell may be much less than its box).
Interval rangeOver(const optics::LinearBound& bound, const Cell& cell);
// `whole`: every height must pass, so that `none` also says that some height fails everywhere.
Over frameOver(const design::PosedImager& view, const Cell& cell,
               const optics::PictureBounds& picture, bool whole);
// What the stated span of an unrolled or stitched view shows; `cut`, unless there is one, along a
// side of it.
Over spanOver(const design::PosedImager& view, const Cell& cell, const Slab& slab, bool whole,
              std::optional<Cut>& cut);
// Where an edge of the frame crosses the cell: the plan lines within which the whole height of the
// slab is surely inside it, and beyond which some of it is surely outside. Nothing where the
// edge's place is too uncertain to be of use.
std::optional<Cut> frameCut(const design::PosedImager& view, const Cell& cell,
                            const optics::PictureBounds& picture);
// Density of the judged picture over the slab; nothing where it cannot be bounded.
std::optional<Interval> densityOver(const design::PosedImager& view, const Cell& cell,
                                    const optics::PictureBounds& picture);
Over elevationOver(const design::PosedImager& view, const Cell& cell, const Slab& slab,
                   double elevation_max_deg, bool whole);
Over yawOver(const design::PosedImager& view, const Cell& cell, const design::Facing& facing);
Over maskOver(const design::PosedImager& view, const Cell& cell,
              const optics::PictureBounds& picture);

// Least and greatest plan distance from a point to a cell.
std::array<double, 2> planDistances(const Cell& cell, Vec2 from);
// Does the plan rectangle [low, high] lie inside the ring (all), outside it (none), or across?
Over rectangleIn(const Ring& ring, Vec2 low, Vec2 high);

}  // namespace belvedere::proof
