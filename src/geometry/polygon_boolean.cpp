// SPDX-License-Identifier: GPL-3.0-or-later
//
// The one place that knows GEOS: its C API, with a handle per thread (the C++ API is not stable).
#define GEOS_USE_ONLY_R_API
#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <cstdarg>
#include <cstdio>
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

Geometry toGeos(const Region& region) {
  if (region.empty()) return nothing();
  std::vector<Geometry> parts;
  for (const Polygon& polygon : region) parts.push_back(toGeos(polygon));
  return unionAll(std::move(parts));
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

Region unionOf(const std::vector<Ring>& rings) {
  std::vector<Geometry> parts;
  for (const Ring& ring : rings) parts.push_back(toGeos(Polygon{ring, {}}));
  return parts.empty() ? Region{} : toRegion(unionAll(std::move(parts)));
}

namespace {

// Anticlockwise, without a hole, turning left at every corner, once round.
bool plainlyConvex(const Polygon& polygon) {
  const Ring& ring = polygon.outer;
  if (!polygon.holes.empty() || ring.size() < 3 || ring.size() > 8) return false;
  double turned = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[(i + 1) % ring.size()] - ring[i];
    const Vec2 b = ring[(i + 2) % ring.size()] - ring[(i + 1) % ring.size()];
    if (cross(a, b) <= 0) return false;
    turned += std::atan2(cross(a, b), dot(a, b));
  }
  return turned < 7;  // 2 pi
}

}  // namespace

// Those that lie apart from all others, by their boxes, need no union.
Region merged(const Region& overlapping) {
  std::vector<std::size_t> order(overlapping.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<Box2> boxes;
  for (const Polygon& polygon : overlapping) boxes.push_back(bounds(polygon.outer));
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return boxes[a].low.x < boxes[b].low.x;
  });
  std::vector<char> meets(overlapping.size(), 0);
  for (std::size_t i = 0; i < order.size(); ++i)
    for (std::size_t j = i + 1;
         j < order.size() && boxes[order[j]].low.x <= boxes[order[i]].high.x; ++j)
      if (boxes[order[i]].low.y <= boxes[order[j]].high.y &&
          boxes[order[j]].low.y <= boxes[order[i]].high.y)
        meets[order[i]] = meets[order[j]] = 1;
  Region alone;
  std::vector<Geometry> parts;
  for (std::size_t i = 0; i < overlapping.size(); ++i) {
    if (!meets[i] && plainlyConvex(overlapping[i])) {
      alone.push_back(overlapping[i]);
    } else {
      parts.push_back(toGeos(overlapping[i]));
    }
  }
  Region region = parts.empty() ? Region{} : toRegion(unionAll(std::move(parts)));
  region.insert(region.end(), alone.begin(), alone.end());
  return region;
}

Region unionOf(const Region& a, const Region& b) {
  return toRegion(own(GEOSUnionPrec_r(geos(), toGeos(a).get(), toGeos(b).get(), kBooleanGridM)));
}

Region intersectionOf(const Region& a, const Region& b) {
  return toRegion(own(GEOSIntersectionPrec_r(geos(), toGeos(a).get(), toGeos(b).get(), kBooleanGridM)));
}

Region differenceOf(const Region& a, const Region& b) {
  return toRegion(own(GEOSDifferencePrec_r(geos(), toGeos(a).get(), toGeos(b).get(), kBooleanGridM)));
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
