// SPDX-License-Identifier: GPL-3.0-or-later
//
// Aiming by dragging: on the plan, in the section, in the picture. Each takes the design as it was
// when the hand went down, and what the hand has done since; so a drag never adds up errors. All
// go through the lens as it is, and through withAim: limits hold. Angles come rounded to kDragStep.
#pragma once

#include "edit/aim.h"

namespace belvedere::edit {

// The four edges of what an imager serves, as they lie on the plan: near is the frame's lower edge
// while the picture stands upright, right the side to the right of one who looks along the axis. A
// picture that is rolled by a quarter turn or more gives the edge that lies there instead.
enum class Edge { left, right, near, far };

// The body: what was under the hand at `from` is under it at `to` (site; in plan withZ(p, plane)).
// Pan and tilt move, and the lens with them; where tilt is at a stop, pan still follows. A point
// that the lens does not map turns pan alone, by the difference of bearings.
Aimed bodyFollows(const design::Design& design, const ImagerRef& imager, const Vec3& from,
                  const Vec3& to);

// An edge is laid through a point: by tilt or by pan (the rest of the aim stays), or by zoom about
// the axis. Of several solutions the one nearest to the present aim. Where none is within the
// limits, as near as they let it come, at a stop.
enum class EdgeBy { tilt, pan, zoom };
Aimed edgeThrough(const design::Design& design, const ImagerRef& imager, Edge edge, EdgeBy by,
                  const Vec3& point, design::JudgedOn judged_on = design::JudgedOn::captured);

// In the picture (captured pixels): the direction that was at from_px is at to_px. Pixels that the
// lens does not map leave the design as it was.
Aimed pictureFollows(const design::Design& design, const ImagerRef& imager, Vec2 from_px,
                     Vec2 to_px);

// The picture's middle on a point of the site.
Aimed looksAt(const design::Design& design, const ImagerRef& imager, const Vec3& point);

// ---- what they share --------------------------------------------------------------------

// An edge of the frame: the coordinate of the picture that it fixes, and where.
struct FrameEdge {
  bool across = false;  // x, else y
  double at_px = 0;
};
FrameEdge frameEdgeOf(const design::PosedImager& view, Edge edge, double roll_deg);

// The pan and tilt (roll as given) at which a site direction lies on an imager's ray: in closed
// form. Of two, the one nearer to `present` within -90 to 90 of tilt. Nothing when no tilt brings
// the ray that high or low; then `nearest`, if not null, has the tilt that comes nearest.
std::optional<design::PanTilt> aimOnto(const Vec3& direction_in_site, const Vec3& ray_in_imager,
                                       double roll_deg, design::PanTilt present,
                                       design::PanTilt* nearest = nullptr);

}  // namespace belvedere::edit
