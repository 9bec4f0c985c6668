// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pieces of a zone that proofs cut smaller and smaller: convex rings in the zone's own turned
// frame, with exact areas.
#pragma once

#include <vector>

#include "geometry/polygon.h"
#include "proof/judge.h"

namespace belvedere::proof {

// The zone's own axes: along its longest edge, so that cells follow its walls.
struct ZoneFrame {
  Vec2 x{1, 0}, y{0, 1};
  Vec2 into(Vec2 p) const { return {dot(p, x), dot(p, y)}; }
  Vec2 out(Vec2 p) const { return x * p.x + y * p.y; }
};

ZoneFrame zoneFrame(const Region& region);

// The region as convex pieces of at most kCornersMost corners, in the frame.
inline constexpr std::size_t kCornersMost = 12;  // cutting may add four: scene::kOutlineMost
std::vector<Ring> convexPiecesIn(const ZoneFrame& frame, const Region& region);
Box2 boundsOf(const std::vector<Ring>& pieces);
double areaOf(const std::vector<Ring>& pieces);
// The box, in the frame, as a cell on the site.
Cell cellOf(const ZoneFrame& frame, const Box2& box);
// A convex ring on the site with the box along its longest edge: thin strips get thin boxes.
Cell cellOf(Ring convex);
// A cell's ring in halves across the longer side of its box, in quarters when the sides are alike.
std::vector<Ring> halves(const Cell& cell);
// Halves along the longer side of their box, quarters when the sides are alike. Empty parts are
// left out.
std::vector<std::vector<Ring>> split(const std::vector<Ring>& pieces, const Box2& box);
// The parts of a convex ring below, between and above two parallel lines (one line: two parts);
// empty parts are left out.
std::vector<Ring> cutAlong(const Ring& convex, Vec2 normal, double low, double high);

}  // namespace belvedere::proof
