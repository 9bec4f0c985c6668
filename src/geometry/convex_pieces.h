// SPDX-License-Identifier: GPL-3.0-or-later
//
// How a polygon falls into convex pieces, with its seams: for overlapping_pieces.cpp. Everybody
// else takes convexPieces, overlappingPieces and triangles of polygon.h.
#pragma once

#include <cstdint>

#include "geometry/polygon.h"

namespace belvedere {

inline constexpr std::uint32_t kNoTwin = 0xffffffff;

// Points are the polygon's own, tidied: repeated points and points on a straight line dropped;
// outer ring anticlockwise, holes clockwise, so that the inside always lies to the left.
struct Pieces {
  std::vector<Vec2> points;
  std::vector<std::uint32_t> before, after;  // of each point, along its ring
  std::vector<std::array<std::uint32_t, 3>> triangles;

  // Edge e of the pieces runs from points[from[e]] to points[from[next[e]]], its piece to the left.
  // twin[e] is the same edge seen from the neighbour; kNoTwin: a part of the outline.
  std::vector<std::uint32_t> from, next, twin;
  std::vector<std::uint32_t> first;  // one edge of each piece
};
Pieces piecesOf(const Polygon& polygon);

// Too thin to be a piece: nobody sees it, and its normals mean nothing.
bool tooThin(const Ring& ring);

}  // namespace belvedere
