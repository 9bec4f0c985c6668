// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/outline_grips.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/units.h"
#include "optics/lens.h"

namespace belvedere::edit {
namespace {

constexpr double kOutlinePlaces = 240;  // about so many places of an outline are looked at
constexpr double kAtEdgeShare = 0.02;  // of the picture: nearer to the frame's edge is on it

// The outline as seen from the lens: away from it and to the right of the axis; in plan metres
// where the foot lies inside it, else in metres and degrees.
struct SeenFrom {
  Vec2 foot, heading;
  bool around = false;  // the foot lies inside
  // x: to the right, y: away
  Vec2 of(Vec2 p) const {
    const Vec2 way = p - foot;
    const double ahead = dot(heading, way), right = -cross(heading, way);
    if (around) return {right, ahead};
    return {radToDeg(std::atan2(right, ahead)), norm(way)};
  }
};

SeenFrom seenFrom(const design::PosedImager& view, const Region& served) {
  SeenFrom seen;
  seen.foot = view.lens_m.xy();
  Vec2 towards = view.imager_from_site.row[2].xy();
  if (norm(towards) < 1e-9) towards = -view.imager_from_site.row[1].xy();
  seen.heading = towards / norm(towards);
  seen.around = contains(served, seen.foot);
  return seen;
}

double zOf(const OutlinePlane& plane, Vec2 p, double height_m) {
  return plane.floor.at(p) + height_m;
}
double middleOf(const OutlinePlane& plane) { return 0.5 * (plane.band_m[0] + plane.band_m[1]); }

// How far the outline reaches each way.
struct Reach {
  Vec2 low{1e300, 1e300}, high{-1e300, -1e300};
};
Reach reachOf(const SeenFrom& seen, const Region& served) {
  Reach reach;
  for (const Polygon& polygon : served)
    for (const Vec2 p : polygon.outer) {
      const Vec2 s = seen.of(p);
      reach.low = {std::min(reach.low.x, s.x), std::min(reach.low.y, s.y)};
      reach.high = {std::max(reach.high.x, s.x), std::max(reach.high.y, s.y)};
    }
  return reach;
}
// Where a place lies in that reach: x to the right, y away, each -1/2 to 1/2.
Vec2 shareOf(const SeenFrom& seen, const Reach& reach, Vec2 p) {
  const Vec2 s = seen.of(p), size = reach.high - reach.low;
  return {(s.x - 0.5 * (reach.low.x + reach.high.x)) / std::max(size.x, 1e-9),
          (s.y - 0.5 * (reach.low.y + reach.high.y)) / std::max(size.y, 1e-9)};
}
Edge edgeAt(Vec2 share) {
  if (std::abs(share.x) > std::abs(share.y)) return share.x < 0 ? Edge::left : Edge::right;
  return share.y < 0 ? Edge::near : Edge::far;
}

// Places along the outline, ends of its lines and between.
std::vector<Vec2> along(const Region& served) {
  double length = 0;
  const auto lines = [&](auto visit) {
    for (const Polygon& polygon : served)
      for (std::size_t i = 0; i < polygon.outer.size(); ++i)
        visit(polygon.outer[i], polygon.outer[(i + 1) % polygon.outer.size()]);
  };
  lines([&](Vec2 a, Vec2 b) { length += norm(b - a); });
  std::vector<Vec2> places;
  lines([&](Vec2 a, Vec2 b) {
    const int pieces = 1 + static_cast<int>(kOutlinePlaces * norm(b - a) / std::max(length, 1e-9));
    for (int i = 0; i < pieces; ++i)
      places.push_back(a + (b - a) * (i / static_cast<double>(pieces)));
  });
  return places;
}

// The point of the frame's edge that a hand at a place of the outline holds.
OutlineGrip held(const design::PosedImager& view, double roll_deg, const OutlinePlane& plane,
                 Edge edge, Vec2 at) {
  OutlineGrip grip{edge, at, withZ(at, zOf(plane, at, middleOf(plane))), true};
  const FrameEdge frame = frameEdgeOf(view, edge, roll_deg);
  const double size = frame.across ? view.frame_high_px.x - view.frame_low_px.x
                                   : view.frame_high_px.y - view.frame_low_px.y;
  const double heights[] = {plane.band_m[0], plane.band_m[1], middleOf(plane)};
  std::optional<Vec2> seen;  // in the picture, nearest to the edge
  double least = 1e300;
  for (const double height_m : heights) {
    const Vec3 point = withZ(at, zOf(plane, at, height_m));
    const auto px = optics::project(view.lens, view.imager_from_site * (point - view.lens_m));
    if (!px) continue;
    const double off = std::abs((frame.across ? px->x : px->y) - frame.at_px);
    if (off >= least) continue;
    least = off;
    seen = px;
    grip.held = point;
  }
  if (!seen) return grip;
  if (least <= kAtEdgeShare * size) {
    grip.follows_body = false;
    return grip;
  }
  (frame.across ? seen->x : seen->y) = frame.at_px;
  const auto ray = optics::unproject(view.lens, *seen);
  if (!ray) return grip;
  const Vec3 way = transposed(view.imager_from_site) * *ray;
  const double z = zOf(plane, at, heights[edge == Edge::near ? 0 : edge == Edge::far ? 1 : 2]);
  if (std::abs(way.z) < 1e-6) return grip;
  const double along = (z - view.lens_m.z) / way.z;
  if (along <= 0) return grip;
  grip.held = view.lens_m + way * along;
  grip.follows_body = false;
  return grip;
}

constexpr int kFramePlaces = 24;  // along each side of the frame

}  // namespace

Region inFrame(const design::PosedImager& view, const OutlinePlane& plane, double far_m) {
  if (!view.showsAnything()) return {};
  const Vec2 low = view.frame_low_px, high = view.frame_high_px, foot = view.lens_m.xy();
  const std::array<Vec2, 5> corners{low, Vec2{high.x, low.y}, high, Vec2{low.x, high.y}, low};
  Ring ring;
  bool meets_floor = false;
  for (std::size_t side = 0; side + 1 < corners.size(); ++side)
    for (int i = 0; i < kFramePlaces; ++i) {
      const Vec2 px = corners[side] + (corners[side + 1] - corners[side]) * (1.0 * i / kFramePlaces);
      const auto ray = optics::unproject(view.lens, px);
      if (!ray) continue;
      const Vec3 way = transposed(view.imager_from_site) * *ray;
      const double level = norm(way.xy());
      const Vec2 ahead = level > 1e-9 ? way.xy() / level : Vec2{};
      Vec2 at = foot + ahead * far_m;
      for (int round = 0; round < 2; ++round) {  // a floor may slope
        const double along = (zOf(plane, at, middleOf(plane)) - view.lens_m.z) / way.z;
        const bool meets = std::isfinite(along) && along > 0 && along * level < far_m;
        at = foot + ahead * (meets ? along * level : far_m);
        meets_floor = meets_floor || meets;
      }
      ring.push_back(at);
    }
  if (!meets_floor) ring.push_back(foot);  // over everybody's head: the bearings that it sees
  return ring.size() < 3 ? Region{} : unionOf({ring});
}

std::vector<OutlineGrip> outlineGrips(const design::Design& design, const ImagerRef& imager,
                                      const Region& served, const OutlinePlane& plane) {
  const auto view = posedOf(design, imager, plane.judged_on);
  const auto parts = partsOf(design, imager);
  if (!view || !parts || served.empty()) return {};
  const SeenFrom seen = seenFrom(*view, served);
  const Reach reach = reachOf(seen, served);
  // The middle of a side lies far out that way, and not to the sides of it.
  std::array<Vec2, 4> best{};
  std::array<double, 4> most{-1, -1, -1, -1};
  for (const Vec2 p : along(served)) {
    const Vec2 share = shareOf(seen, reach, p);
    const auto edge = static_cast<std::size_t>(edgeAt(share));
    const double middle = std::abs(std::abs(share.x) - std::abs(share.y));
    if (middle > most[edge]) {
      most[edge] = middle;
      best[edge] = p;
    }
  }
  std::vector<OutlineGrip> grips;
  for (const Edge edge : {Edge::left, Edge::right, Edge::near, Edge::far})
    if (const auto i = static_cast<std::size_t>(edge); most[i] >= 0)
      grips.push_back(held(*view, parts->aim->roll_deg, plane, edge, best[i]));
  return grips;
}

std::optional<OutlineGrip> gripAt(const design::Design& design, const ImagerRef& imager,
                                  const Region& served, const OutlinePlane& plane, Vec2 at,
                                  double within_m) {
  const auto view = posedOf(design, imager, plane.judged_on);
  const auto parts = partsOf(design, imager);
  if (!view || !parts || served.empty()) return std::nullopt;
  const double roll_deg = parts->aim->roll_deg;
  const SeenFrom seen = seenFrom(*view, served);
  const Reach reach = reachOf(seen, served);
  for (const Polygon& polygon : served)
    if (distanceToOutline(polygon.outer, at) <= within_m)
      return held(*view, roll_deg, plane, edgeAt(shareOf(seen, reach, at)), at);
  if (!contains(served, at)) return std::nullopt;
  return OutlineGrip{std::nullopt, at, withZ(at, zOf(plane, at, middleOf(plane))), true};
}

Aimed gripDragged(const design::Design& design, const ImagerRef& imager, const OutlineGrip& grip,
                  const OutlinePlane& plane, Vec2 way_m, bool pan) {
  const Vec2 to = grip.held.xy() + way_m;
  const double rises = plane.floor.at(to) - plane.floor.at(grip.held.xy());
  const Vec3 point = withZ(to, grip.held.z + rises);
  if (!grip.edge) return bodyFollows(design, imager, grip.held, point);
  const bool side = *grip.edge == Edge::left || *grip.edge == Edge::right;
  if (grip.follows_body) {
    const Aimed body = bodyFollows(design, imager, grip.held, point);
    const auto parts = partsOf(body.design, imager);
    if (!parts) return body;
    return side ? withPan(design, imager, parts->aim->pan_deg)
                : withTilt(design, imager, parts->aim->tilt_deg);
  }
  const EdgeBy by = !side ? EdgeBy::tilt : pan ? EdgeBy::pan : EdgeBy::zoom;
  return edgeThrough(design, imager, *grip.edge, by, point, plane.judged_on);
}

}  // namespace belvedere::edit
