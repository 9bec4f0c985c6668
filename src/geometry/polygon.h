// SPDX-License-Identifier: GPL-3.0-or-later
//
// Polygons in plan, metres. A Ring is a closed outline without its first point repeated, either
// way round. A Region is a set of non-overlapping polygons with holes, as boolean operations give
// it: outer rings anticlockwise, holes clockwise. Booleans are GEOS's (one .cpp knows it).
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "geometry/vec.h"

namespace belvedere {

using Ring = std::vector<Vec2>;

struct Polygon {
  Ring outer;
  std::vector<Ring> holes;
  bool operator==(const Polygon&) const = default;
};
using Region = std::vector<Polygon>;

struct Box2 {
  Vec2 low{1e300, 1e300}, high{-1e300, -1e300};
  bool operator==(const Box2&) const = default;
  bool empty() const { return low.x > high.x; }
  void add(Vec2 p);
};

// Signed area of a ring, positive when anticlockwise; m2.
double signedArea(const Ring& ring);
double area(const Polygon& polygon);
double area(const Region& region);
Box2 bounds(const Ring& ring);
Box2 bounds(const Region& region);
Ring reversed(Ring ring);
// The ring turned anticlockwise.
Ring anticlockwise(Ring ring);

// Where two edges of the ring cross or touch that should not: indices of the two edges (edge i
// joins point i to point i + 1) and the place. Nothing when the ring is simple. A point that is
// written twice in a row is no crossing; an edge that folds back onto the one before it is.
struct Crossing {
  std::size_t edge_a = 0, edge_b = 0;
  Vec2 at;
};
std::optional<Crossing> selfCrossing(const Ring& ring);

// Closer than this counts as touching, m: a point on an outline, two edges that meet.
inline constexpr double kOutlineTouchM = 1e-9;

// Inside or on the edge (within kOutlineTouchM).
bool contains(const Ring& ring, Vec2 p);
bool contains(const Polygon& polygon, Vec2 p);
bool contains(const Region& region, Vec2 p);
// Distance from p to the nearest point of the outline, m.
double distanceToOutline(const Ring& ring, Vec2 p);

// The part of a ring on the side where dot(normal, p) <= limit (Sutherland and Hodgman, 1974).
// For a ring that is not convex, pieces may be joined by edges of no width: its area is right.
Ring clipHalfPlane(const Ring& ring, Vec2 normal, double limit);

// Boolean operations (GEOS OverlayNG). Inputs may overlap or be slightly invalid: mended first.
// Corners of results lie on a grid of this step, m: snapping is what makes an overlay robust (in
// full doubles, outlines that nearly coincide were seen to give a difference equal to its first
// operand). So areas are right to about this times the outlines' length.
inline constexpr double kBooleanGridM = 1e-9;
Region unionOf(const std::vector<Ring>& rings);
Region unionOf(const Region& a, const Region& b);
// Of polygons that may overlap; far quicker than one after another.
Region merged(const Region& overlapping);
Region intersectionOf(const Region& a, const Region& b);
Region differenceOf(const Region& a, const Region& b);
// Grown by distance_m (shrunk when negative), mitred corners.
Region grown(const Region& region, double distance_m);
// true when b lies inside a, edges allowed, within tolerance_m.
bool covers(const Region& a, const Region& b, double tolerance_m);

// Convex pieces whose union is the polygon and which overlap nowhere but on their seams.
// Pieces are anticlockwise. Few, not fewest (ear clipping, then Hertel and Mehlhorn, 1983).
std::vector<Ring> convexPieces(const Polygon& polygon);
// The same pieces, each reaching overlap_m over its seams into its neighbours, and nowhere past the
// polygon's outline: no line that passes through the polygon slips between two of them. Where
// neither of two neighbours can reach over (both go on in a line past the seam), a strip of twice
// that width lies on the seam.
std::vector<Ring> overlappingPieces(const Polygon& polygon, double overlap_m);
// A convex ring grown by distance_m on all sides; corners are mitred, sharp ones cut off at four
// times that distance.
Ring grownConvex(const Ring& convex, double distance_m);
// Triangles of the polygon, anticlockwise. Of an outline that crosses itself something comes back
// too, but nothing is promised about it; so for convexPieces.
std::vector<std::array<Vec2, 3>> triangles(const Polygon& polygon);
// Convex hull, anticlockwise, no three points on a line.
Ring convexHull(std::vector<Vec2> points);

}  // namespace belvedere
