// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/shadow.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "scene/sightline.h"

namespace belvedere::scene {
namespace {

constexpr double kFarM = 1e12;    // stands for infinity while the hull is sought
constexpr double kLevelM = 1e-9;  // nearer to the lens's height than this casts to infinity
constexpr double kSameM = 1e-9;   // corners nearer than this are one
constexpr double kDistantM = 1e6; // so far out, corners are too coarse in doubles to place a side

struct Cast {
  Vec2 at;
  bool far = false;
};

// Points whose hull is the outline: what of the body is in the band, and what its corners and the
// places where its edges enter the band or pass the lens's height cast onto the band's ends.
void castPoints(const Scene& scene, const Body& body, const Vec3& lens_m, double low_z,
                double high_z, std::vector<Cast>& out) {
  const Vec2 foot = lens_m.xy();
  const auto far = [&](Vec2 towards) {
    const double length = norm(towards);
    if (length > 0) out.push_back({foot + towards * (kFarM / length), true});
  };
  const auto castTo = [&](const Vec3& v, double z) {
    out.push_back({foot + (v.xy() - foot) * ((lens_m.z - z) / (lens_m.z - v.z)), false});
  };
  for (std::uint32_t i = 0; i < body.vertex_count; ++i) {
    const Vec3& v = scene.vertices[body.first_vertex + i];
    if (v.z < low_z || v.z > lens_m.z + kLevelM) continue;
    if (v.z > lens_m.z - kLevelM) {
      far(v.xy() - foot);
      continue;
    }
    castTo(v, low_z);
    if (v.z >= high_z) castTo(v, high_z);
    else out.push_back({v.xy(), false});
  }
  for (std::uint32_t i = body.first_edge; i < body.first_edge + body.edge_count; ++i) {
    Vec3 a = scene.vertices[scene.edges[i].a], b = scene.vertices[scene.edges[i].b];
    if (a.z > b.z) std::swap(a, b);
    const auto at = [&](double z) { return a.xy() + (b.xy() - a.xy()) * ((z - a.z) / (b.z - a.z)); };
    for (const double z : {low_z, high_z})
      if (a.z < z && b.z > z) out.push_back({at(z), false});
    if (a.z <= lens_m.z - kLevelM && b.z >= lens_m.z + kLevelM) far(at(lens_m.z) - foot);
  }
}

// Convex hull, anticlockwise (Andrew, 1979).
void toHull(std::vector<Cast>& points, std::vector<Cast>& hull) {
  std::sort(points.begin(), points.end(), [](const Cast& a, const Cast& b) {
    return a.at.x < b.at.x || (a.at.x == b.at.x && a.at.y < b.at.y);
  });
  hull.clear();
  const auto add = [&](const Cast& p, std::size_t least) {
    while (hull.size() > least) {
      const Vec2 a = hull[hull.size() - 2].at, b = hull.back().at;
      if (cross(b - a, p.at - b) > 0 && norm(b - a) > kSameM) break;
      hull.pop_back();
    }
    hull.push_back(p);
  };
  for (const Cast& p : points) add(p, 1);
  const std::size_t lower = hull.size();
  for (std::size_t i = points.size() - 1; i-- > 0;) add(points[i], lower);
  hull.pop_back();
}

}  // namespace

void addShadow(const Scene& scene, const Body& body, const Vec3& lens_m, double low_z,
               double high_z, Shadows& out) {
  if (body.box.high.z <= low_z || body.box.low.z >= lens_m.z) return;
  thread_local std::vector<Cast> points, hull;
  points.clear();
  castPoints(scene, body, lens_m, low_z, high_z, points);
  if (points.size() < 3) return;
  toHull(points, hull);
  if (hull.size() < 3) return;
  const auto distant = [&](const Cast& p) {
    return std::max(std::fabs(p.at.x - lens_m.x), std::fabs(p.at.y - lens_m.y)) > kDistantM;
  };
  if (std::all_of(hull.begin(), hull.end(), distant)) {
    // All around a lens in the body, or nowhere that matters.
    for (std::size_t i = 0; i < hull.size(); ++i)
      if (!(cross(hull[(i + 1) % hull.size()].at - hull[i].at, lens_m.xy() - hull[i].at) > 0)) return;
  }

  Shadow shadow;
  shadow.first_side = static_cast<std::uint32_t>(out.sides.size());
  shadow.first_corner = static_cast<std::uint32_t>(out.corners.size());
  for (const Cast& p : hull) {
    shadow.box.add(p.at);
    const Vec2 away = p.at - lens_m.xy();
    out.corners.push_back({p.far ? away / norm(away) : p.at, p.far});
  }
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const Cast &a = hull[i], &b = hull[(i + 1) % hull.size()];
    if (distant(a) && distant(b)) continue;
    const Vec2 along = b.at - a.at;
    const Vec2 normal = -perpLeft(along) / norm(along);
    // Supporting whatever rounding did to the direction of a short side.
    double offset = -1e300;
    for (const Cast& p : hull)
      if (!distant(p)) offset = std::max(offset, dot(normal, p.at));
    out.sides.push_back({normal, offset});
  }
  shadow.side_count = static_cast<std::uint32_t>(out.sides.size()) - shadow.first_side;
  shadow.corner_count = static_cast<std::uint32_t>(out.corners.size()) - shadow.first_corner;
  out.all.push_back(shadow);
}

Lies liesOver(const Shadows& shadows, const Shadow& shadow, std::span<const Vec2> ring,
              const Box2& box) {
  if (shadow.box.low.x >= box.high.x - kTouchM || box.low.x >= shadow.box.high.x - kTouchM ||
      shadow.box.low.y >= box.high.y - kTouchM || box.low.y >= shadow.box.high.y - kTouchM)
    return Lies::apart;
  bool covers = true;
  for (std::uint32_t i = 0; i < shadow.side_count; ++i) {
    const ShadowSide& side = shadows.sides[shadow.first_side + i];
    double low = 1e300, high = -1e300;
    for (const Vec2 p : ring) {
      const double d = dot(side.normal, p);
      low = std::min(low, d);
      high = std::max(high, d);
    }
    if (low >= side.offset - kTouchM) return Lies::apart;
    covers = covers && high <= side.offset - kShadowGuardM;
  }
  if (covers) return Lies::covers;
  const std::span corners(shadows.corners.data() + shadow.first_corner, shadow.corner_count);
  constexpr double kParallel = 1e-14;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec2 a = ring[i], along = ring[(i + 1) % ring.size()] - a;
    const double length = norm(along);
    if (!(length > kSameM)) continue;
    const Vec2 outward = -perpLeft(along) / length;
    const double offset = dot(outward, a);
    if (std::all_of(corners.begin(), corners.end(), [&](const ShadowCorner& c) {
          const double d = dot(outward, c.at);
          if (c.far) return d >= -kParallel;
          return d - kParallel * (std::fabs(c.at.x) + std::fabs(c.at.y)) >= offset - kTouchM;
        }))
      return Lies::apart;
  }
  return Lies::across;
}

}  // namespace belvedere::scene
