// SPDX-License-Identifier: GPL-3.0-or-later
//
// The one place that knows GEOS: its C API, with a handle per thread (the C++ API is not stable).
#define GEOS_USE_ONLY_R_API
#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <cstdarg>
#include <cstdio>
#include <iterator>
#include <map>
#include <memory>
#include <numeric>
#include <stdexcept>
#include <string>

#include "geometry/polygon.h"

namespace belvedere {
namespace {

struct Handle {
  GEOSContextHandle_t geos = GEOS_init_r();
  std::string message;

  Handle() {
    GEOSContext_setErrorMessageHandler_r(
        geos, [](const char* text, void* self) { static_cast<Handle*>(self)->message = text; },
        this);
  }
  ~Handle() { GEOS_finish_r(geos); }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
};
Handle& handle() {
  thread_local Handle own;
  return own;
}
GEOSContextHandle_t geos() { return handle().geos; }

struct Destroy {
  void operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(geos(), g); }
};
using Geometry = std::unique_ptr<GEOSGeometry, Destroy>;

// Null means that GEOS gave up: with mended input that is our mistake, not the caller's.
Geometry own(GEOSGeometry* g) {
  if (!g) throw std::logic_error("our mistake: polygon operation failed: " + handle().message);
  return Geometry(g);
}

GEOSGeometry* linearRing(const Ring& ring) {
  const auto n = static_cast<unsigned>(ring.size());
  GEOSCoordSequence* points = GEOSCoordSeq_create_r(geos(), n + 1, 2);
  for (unsigned i = 0; i <= n; ++i)
    GEOSCoordSeq_setXY_r(geos(), points, i, ring[i % n].x, ring[i % n].y);
  GEOSGeometry* made = GEOSGeom_createLinearRing_r(geos(), points);
  if (!made) throw std::logic_error("our mistake: polygon ring failed: " + handle().message);
  return made;
}

Geometry nothing() { return own(GEOSGeom_createEmptyCollection_r(geos(), GEOS_MULTIPOLYGON)); }

Geometry mended(Geometry g) {
  return GEOSisValid_r(geos(), g.get()) == 1 ? std::move(g) : own(GEOSMakeValid_r(geos(), g.get()));
}

Geometry toGeos(const Polygon& polygon) {
  if (polygon.outer.size() < 3) return nothing();
  std::vector<GEOSGeometry*> holes;
  for (const Ring& hole : polygon.holes)
    if (hole.size() >= 3) holes.push_back(linearRing(hole));
  return mended(own(GEOSGeom_createPolygon_r(geos(), linearRing(polygon.outer), holes.data(),
                                             static_cast<unsigned>(holes.size()))));
}

Geometry unionAll(std::vector<Geometry> parts) {
  if (parts.size() == 1) return std::move(parts.front());
  std::vector<GEOSGeometry*> released;
  for (Geometry& part : parts) released.push_back(part.release());
  const Geometry all = own(
      GEOSGeom_createCollection_r(geos(), GEOS_GEOMETRYCOLLECTION, released.data(),
                                  static_cast<unsigned>(released.size())));
  return own(GEOSUnaryUnionPrec_r(geos(), all.get(), kBooleanGridM));
}

// A region that is sound as it stands, as most are, needs no union: unions snap, which costs more
// than the operation that follows.
Geometry toGeos(const Region& region) {
  if (region.empty()) return nothing();
  std::vector<Geometry> parts;
  for (const Polygon& polygon : region) parts.push_back(toGeos(polygon));
  if (parts.size() == 1) return std::move(parts.front());
  const bool plain = std::all_of(parts.begin(), parts.end(), [](const Geometry& part) {
    return GEOSGeomTypeId_r(geos(), part.get()) == GEOS_POLYGON;
  });
  if (!plain) return unionAll(std::move(parts));
  std::vector<GEOSGeometry*> copies;
  for (const Geometry& part : parts) copies.push_back(GEOSGeom_clone_r(geos(), part.get()));
  Geometry all = own(GEOSGeom_createCollection_r(geos(), GEOS_MULTIPOLYGON, copies.data(),
                                                 static_cast<unsigned>(copies.size())));
  return GEOSisValid_r(geos(), all.get()) == 1 ? std::move(all) : unionAll(std::move(parts));
}

Ring toRing(const GEOSGeometry* linear_ring, bool anticlockwise_wanted) {
  const GEOSCoordSequence* points = GEOSGeom_getCoordSeq_r(geos(), linear_ring);
  unsigned n = 0;
  GEOSCoordSeq_getSize_r(geos(), points, &n);
  Ring ring;
  for (unsigned i = 0; i + 1 < n; ++i) {
    Vec2 p;
    GEOSCoordSeq_getXY_r(geos(), points, i, &p.x, &p.y);
    ring.push_back(p);
  }
  return (signedArea(ring) > 0) == anticlockwise_wanted ? ring : reversed(std::move(ring));
}

// The areas of a result; points and lines, which touching shapes leave behind, are dropped.
void collect(const GEOSGeometry* g, Region& region) {
  const int type = GEOSGeomTypeId_r(geos(), g);
  if (type == GEOS_POLYGON) {
    if (GEOSisEmpty_r(geos(), g) == 1) return;
    Polygon polygon{toRing(GEOSGetExteriorRing_r(geos(), g), true), {}};
    const int holes = GEOSGetNumInteriorRings_r(geos(), g);
    for (int i = 0; i < holes; ++i)
      polygon.holes.push_back(toRing(GEOSGetInteriorRingN_r(geos(), g, i), false));
    region.push_back(std::move(polygon));
  } else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION) {
    const int parts = GEOSGetNumGeometries_r(geos(), g);
    for (int i = 0; i < parts; ++i) collect(GEOSGetGeometryN_r(geos(), g, i), region);
  }
}

Region toRegion(Geometry g) {
  GEOSNormalize_r(geos(), g.get());  // one order of rings and points, however it was reached
  Region region;
  collect(g.get(), region);
  return region;
}

}  // namespace

namespace {

// The outline, less the points on its straight stretches, of a polygon that has no hole and whose
// few corners turn left, once round; nothing of any other.
std::optional<Ring> plainlyConvex(const Polygon& polygon) {
  constexpr double kStraightM = 0.1 * kBooleanGridM;
  constexpr std::size_t kCornersMost = 24;
  if (!polygon.holes.empty() || polygon.outer.size() > kCornersMost) return {};
  Ring ring;  // each place once
  for (const Vec2 p : polygon.outer)
    if (ring.empty() || norm(p - ring.back()) > kStraightM) ring.push_back(p);
  while (ring.size() > 1 && norm(ring.front() - ring.back()) <= kStraightM) ring.pop_back();
  if (ring.size() < 3) return {};
  Ring corners;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 before = corners.empty() ? ring.back() : corners.back();
    const Vec2 in = ring[i] - before, chord = ring[(i + 1) % ring.size()] - before;
    if (std::fabs(cross(in, chord)) > kStraightM * norm(chord)) corners.push_back(ring[i]);
  }
  if (corners.size() < 3) return {};
  double turned = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Vec2 b = corners[(i + 1) % corners.size()];
    const Vec2 in = b - corners[i], out = corners[(i + 2) % corners.size()] - b;
    if (cross(in, out) <= 0) return {};
    turned += std::atan2(cross(in, out), dot(in, out));
  }
  if (turned > 7) return {};  // 2 pi
  // Points left out one after another must not add up.
  const Box2 box = bounds(corners);
  const double outline_m = 2 * (box.high.x - box.low.x + box.high.y - box.low.y);
  if (std::fabs(signedArea(corners) - signedArea(ring)) > kBooleanGridM * outline_m) return {};
  return corners;
}

bool insideConvex(const Ring& convex, const Ring& ring) {
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vec2 a = convex[i], along = convex[(i + 1) % convex.size()] - a;
    for (const Vec2 p : ring)
      if (cross(along, p - a) < -kBooleanGridM * norm(along)) return false;
  }
  return true;
}

bool meet(const Box2& a, const Box2& b) {
  return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}

// fn(i, j) for the pairs of boxes that meet, each once, by a sweep.
template <typename Fn>
void forPairsThatMeet(const std::vector<Box2>& boxes, const Fn& fn) {
  std::vector<std::size_t> order(boxes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return boxes[a].low.x < boxes[b].low.x;
  });
  for (std::size_t i = 0; i < order.size(); ++i)
    for (std::size_t j = i + 1;
         j < order.size() && boxes[order[j]].low.x <= boxes[order[i]].high.x; ++j)
      if (meet(boxes[order[i]], boxes[order[j]])) fn(order[i], order[j]);
}

// Which boxes meet no other.
std::vector<char> alone(const std::vector<Box2>& boxes) {
  std::vector<char> is_alone(boxes.size(), 1);
  forPairsThatMeet(boxes, [&](std::size_t i, std::size_t j) { is_alone[i] = is_alone[j] = 0; });
  return is_alone;
}

// Of each box the first of those that it hangs together with, over others that meet.
std::vector<std::size_t> clusters(const std::vector<Box2>& boxes) {
  std::vector<std::size_t> first(boxes.size());
  std::iota(first.begin(), first.end(), std::size_t{0});
  const auto root = [&](std::size_t i) {
    while (first[i] != i) i = first[i] = first[first[i]];
    return i;
  };
  forPairsThatMeet(boxes, [&](std::size_t i, std::size_t j) {
    const std::size_t a = root(i), b = root(j);
    first[std::max(a, b)] = std::min(a, b);
  });
  for (std::size_t i = 0; i < boxes.size(); ++i) first[i] = root(i);
  return first;
}

std::vector<Box2> boxesOf(const Region& region) {
  std::vector<Box2> boxes;
  for (const Polygon& polygon : region) boxes.push_back(bounds(polygon.outer));
  return boxes;
}

// How near to an outline a ring may be and still be left out of an operation, m: far more than
// snapping moves a corner.
constexpr double kClearM = 1e-6;

bool crosses(const Ring& ring, const Box2& box) {
  if (ring.empty() || !meet(bounds(ring), box)) return false;
  const Vec2 middle = (box.low + box.high) * 0.5, half = (box.high - box.low) * 0.5;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], b = ring[(i + 1) % ring.size()];
    if (std::max(a.x, b.x) < box.low.x || std::min(a.x, b.x) > box.high.x ||
        std::max(a.y, b.y) < box.low.y || std::min(a.y, b.y) > box.high.y)
      continue;
    const Vec2 along = b - a;
    if (std::fabs(cross(along, a - middle)) <=
        std::fabs(along.y) * half.x + std::fabs(along.x) * half.y)
      return true;
  }
  return false;
}

// No outline of the region passes through the box, or a hair beside it.
bool clearOf(const Region& region, const Box2& box) {
  const Vec2 hair{kClearM, kClearM};
  const Box2 wide{box.low - hair, box.high + hair};
  for (const Polygon& polygon : region) {
    if (crosses(polygon.outer, wide)) return false;
    for (const Ring& hole : polygon.holes)
      if (crosses(hole, wide)) return false;
  }
  return true;
}

// Takes out of a's polygons the holes that b's outlines keep clear of, which no operation changes:
// those outside b come back to be put in again, those inside b leave as `inside` says.
std::vector<Ring> takeClearHoles(Region& a, const Region& b, bool keep_inside) {
  std::vector<Ring> kept;
  for (Polygon& polygon : a) {
    std::vector<Box2> boxes;
    for (const Ring& hole : polygon.holes) boxes.push_back(bounds(hole));
    const std::vector<char> is_alone = alone(boxes);
    std::vector<Ring> left;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      Ring& hole = polygon.holes[i];
      if (hole.size() < 3 || !is_alone[i] || crosses(polygon.outer, boxes[i]) ||
          !clearOf(b, boxes[i])) {
        left.push_back(std::move(hole));
      } else if (contains(b, hole.front()) == keep_inside) {
        kept.push_back(std::move(hole));
      }
    }
    polygon.holes = std::move(left);
  }
  return kept;
}

void putHoles(Region& region, std::vector<Ring> holes) {
  for (Ring& hole : holes)
    for (Polygon& polygon : region)
      if (contains(polygon, hole.front())) {
        polygon.holes.push_back(signedArea(hole) < 0 ? std::move(hole) : reversed(std::move(hole)));
        break;
      }
}

}  // namespace

Region unionOf(const std::vector<Ring>& rings) {
  Region region;
  for (const Ring& ring : rings) region.push_back({ring, {}});
  return merged(region);
}

// What lies within a convex one adds nothing; what lies apart from all others needs no union, and what
// hangs together is joined by itself: a union snaps all that it is given, again at each of its levels.
Region merged(const Region& overlapping) {
  const std::vector<Box2> boxes = boxesOf(overlapping);
  std::vector<std::optional<Ring>> convex;
  for (const Polygon& polygon : overlapping) convex.push_back(plainlyConvex(polygon));
  std::vector<char> swallowed(overlapping.size(), 0);
  const auto swallow = [&](std::size_t by, std::size_t what) {
    if (convex[by] && !swallowed[by] && !swallowed[what] &&
        insideConvex(*convex[by], overlapping[what].outer))
      swallowed[what] = 1;
  };
  forPairsThatMeet(boxes, [&](std::size_t i, std::size_t j) {
    swallow(i, j);
    swallow(j, i);
  });
  std::vector<std::size_t> rest;
  std::vector<Box2> rest_boxes;
  for (std::size_t i = 0; i < overlapping.size(); ++i)
    if (!swallowed[i]) {
      rest.push_back(i);
      rest_boxes.push_back(boxes[i]);
    }
  const std::vector<std::size_t> cluster = clusters(rest_boxes);
  std::map<std::size_t, std::vector<std::size_t>> members;
  for (std::size_t i = 0; i < rest.size(); ++i) members[cluster[i]].push_back(rest[i]);
  Region region;
  for (const auto& [first, of_cluster] : members) {
    if (of_cluster.size() == 1 && convex[of_cluster[0]]) {
      region.push_back({std::move(*convex[of_cluster[0]]), {}});
      continue;
    }
    std::vector<Geometry> parts;
    for (const std::size_t i : of_cluster) parts.push_back(toGeos(overlapping[i]));
    Region joined = toRegion(unionAll(std::move(parts)));
    std::move(joined.begin(), joined.end(), std::back_inserter(region));
  }
  return region;
}

Region unionOf(const Region& a, const Region& b) {
  return toRegion(own(GEOSUnionPrec_r(geos(), toGeos(a).get(), toGeos(b).get(), kBooleanGridM)));
}

Region intersectionOf(const Region& a, const Region& b) {
  Region first = a;
  std::vector<Ring> holes = takeClearHoles(first, b, true);
  Region both = toRegion(
      own(GEOSIntersectionPrec_r(geos(), toGeos(first).get(), toGeos(b).get(), kBooleanGridM)));
  putHoles(both, std::move(holes));
  return both;
}

Region differenceOf(const Region& a, const Region& b) {
  Region first = a;
  std::vector<Ring> holes = takeClearHoles(first, b, false);
  // Convex pieces of b that lie clear within a, or clear of it, are holes to be, or nothing.
  const std::vector<Box2> boxes = boxesOf(b);
  const std::vector<char> is_alone = alone(boxes);
  Region second;
  for (std::size_t i = 0; i < b.size(); ++i) {
    if (!is_alone[i] || !plainlyConvex(b[i]) || !clearOf(a, boxes[i])) second.push_back(b[i]);
    else if (contains(a, b[i].outer.front())) holes.push_back(b[i].outer);
  }
  Region rest = toRegion(own(
      GEOSDifferencePrec_r(geos(), toGeos(first).get(), toGeos(second).get(), kBooleanGridM)));
  putHoles(rest, std::move(holes));
  return rest;
}

Region grown(const Region& region, double distance_m) {
  constexpr int kQuarterSteps = 8;      // of round corners, of which mitred ones have none
  constexpr double kMitreLimit = 5;     // sharper corners are cut off
  return toRegion(own(GEOSBufferWithStyle_r(geos(), toGeos(region).get(), distance_m, kQuarterSteps,
                                            GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, kMitreLimit)));
}

bool covers(const Region& a, const Region& b, double tolerance_m) {
  const Geometry all = toGeos(tolerance_m > 0 ? grown(a, tolerance_m) : a);
  return GEOSCovers_r(geos(), all.get(), toGeos(b).get()) == 1;
}

}  // namespace belvedere
