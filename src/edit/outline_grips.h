// SPDX-License-Identifier: GPL-3.0-or-later
//
// The outline of what an imager serves, as the thing one drags on the plan: its body pans (and
// tilts), its near and far edges tilt, its sides zoom, or pan where that is asked for.
//
// An outline ends where the frame ends, but also where density, a wall or the zone does. So a grip
// holds a point of the frame's edge on the target's plane, as near to the hand as can be, and moves
// that point as the hand moves: no jump at the first pixel.
#pragma once

#include <optional>
#include <vector>

#include "edit/aim_drag.h"
#include "geometry/polygon.h"
#include "scene/scene.h"

namespace belvedere::edit {

// Where the outline lies: the target's band above a floor, and on which picture it is judged.
struct OutlinePlane {
  scene::Floor floor;
  design::Range band_m{0, 0};
  design::JudgedOn judged_on = design::JudgedOn::captured;
};

struct OutlineGrip {
  std::optional<Edge> edge;   // none: the body
  Vec2 at;                    // site: of the outline, or where the body is held
  Vec3 held;                  // site: the point that moves with the hand
  bool follows_body = false;  // the frame's edge meets no floor there: it moves as the body does
};

// What an imager has in its frame in the middle of that band, as far as far_m from its lens, as if
// nothing stood in the way: for the hand to hold where it serves nothing. Empty where its picture
// shows nothing.
Region inFrame(const design::PosedImager& view, const OutlinePlane& plane, double far_m);
// One grip for each edge, in the middle of the outline's near, far, left and right sides as seen
// from the lens. Empty where there is no outline, or no such imager.
std::vector<OutlineGrip> outlineGrips(const design::Design& design, const ImagerRef& imager,
                                      const Region& served, const OutlinePlane& plane);
// What a hand takes at a place: the outline within within_m, else the body inside it.
std::optional<OutlineGrip> gripAt(const design::Design& design, const ImagerRef& imager,
                                  const Region& served, const OutlinePlane& plane, Vec2 at,
                                  double within_m);
// The design as it was when the hand went down, and the hand's way since. `pan`: sides pan.
Aimed gripDragged(const design::Design& design, const ImagerRef& imager, const OutlineGrip& grip,
                  const OutlinePlane& plane, Vec2 way_m, bool pan);

}  // namespace belvedere::edit
