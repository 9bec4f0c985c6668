// SPDX-License-Identifier: GPL-3.0-or-later
//
// The frame of a round lens that is not rectilinear over a slab: what lies beyond an edge is a
// convex cone (optics/edge_cone.h), so that the slab's corners tell whether all of it lies beyond,
// and a plane that touches the cone whether all of it lies inside.
#include <algorithm>
#include <cmath>

#include "optics/edge_cone.h"
#include "proof/box_tests.h"

namespace belvedere::proof {
namespace {

constexpr double kRoundingShare = 1e-11;
// The strip between chord and touching line is this much wider on the inner side: a part of a cell
// looks for a touching plane of its own, which is not quite the same.
constexpr double kInnerSlack = 0.35;

// The slab's corners before the lens, lower face first, and how far each is inside of an edge.
struct Corners {
  std::size_t sides = 0;
  std::array<Vec3, 2 * scene::kOutlineMost> p;  // imager frame
  std::array<double, 2 * scene::kOutlineMost> inside{};
  double deepest(std::size_t face) const {
    return *std::min_element(inside.begin() + static_cast<std::ptrdiff_t>(face * sides),
                             inside.begin() + static_cast<std::ptrdiff_t>((face + 1) * sides));
  }
  double shallowest(std::size_t face) const {
    return *std::max_element(inside.begin() + static_cast<std::ptrdiff_t>(face * sides),
                             inside.begin() + static_cast<std::ptrdiff_t>((face + 1) * sides));
  }
  bool insideOf(const Vec3& inward, double guard) const {
    return std::all_of(p.begin(), p.begin() + static_cast<std::ptrdiff_t>(2 * sides),
                       [&](const Vec3& q) { return dot(inward, q) >= guard; });
  }
};

// Where an edge crosses a face: the plan lines of its chord and of a plane that touches it.
std::optional<Cut> cutAt(const optics::EdgeCone& edge, const Corners& corners, std::size_t face,
                         const design::PosedImager& view, const Slab& slab) {
  const std::size_t first = face * corners.sides;
  std::array<Vec3, 2> imager;   // the crossings, a little beyond the edge
  std::array<Vec2, 2> plan;
  std::size_t found = 0;
  for (std::size_t i = 0; i < corners.sides; ++i) {
    std::size_t a = first + i, b = first + (i + 1) % corners.sides;
    if ((corners.inside[a] < 0) == (corners.inside[b] < 0)) continue;
    if (found == 2) return {};
    if (corners.inside[a] >= 0) std::swap(a, b);
    // From beyond (0) to inside (1): false position, kept beyond.
    double out = 0, in = 1, at_out = corners.inside[a], at_in = corners.inside[b];
    const Vec3 step = corners.p[b] - corners.p[a];
    for (int round = 0; round < 6; ++round) {
      const double t = out + (in - out) * at_out / (at_out - at_in);
      const double value = edge.inside(corners.p[a] + step * t);
      if (value < 0) {
        out = t;
        at_out = value;
      } else {
        in = t;
        at_in = value;
        at_out *= 0.5;  // else one end would stay for ever
      }
    }
    imager[found] = corners.p[a] + step * out;
    const Vec3 &from = slab.prism.corner[a], &to = slab.prism.corner[b];
    plan[found++] = from.xy() + (to.xy() - from.xy()) * out;
  }
  if (found != 2) return {};
  const Vec3 n = transposed(view.imager_from_site) * edge.touching((imager[0] + imager[1]) * 0.5);
  const double size = norm(n.xy());
  if (!(size > 0)) return {};
  const Vec2 normal = n.xy() / size;
  const double touching = (dot(n, view.lens_m) - n.z * slab.prism.corner[first].z) / size;
  const double chord = std::min({touching, dot(normal, plan[0]), dot(normal, plan[1])});
  return Cut{normal, {chord - kCutHalfM, touching + kInnerSlack * (touching - chord) + kCutHalfM}};
}

}  // namespace

std::optional<Framed> frameByCones(const design::PosedImager& view, const Slab& slab, bool whole) {
  const auto* lens = std::get_if<optics::RadialLens>(&view.lens);
  if (!lens) return {};
  std::array<std::optional<optics::EdgeCone>, 4> edges{
      optics::edgeCone(*lens, 0, 1, view.frame_high_px.x), optics::edgeCone(*lens, 0, -1, view.frame_low_px.x),
      optics::edgeCone(*lens, 1, 1, view.frame_high_px.y), optics::edgeCone(*lens, 1, -1, view.frame_low_px.y)};
  if (!edges[0] || !edges[1] || !edges[2] || !edges[3]) return {};
  // Where the picture ends before 90 degrees from the axis, nothing beside or behind the lens is in it.
  const double corner_px = std::hypot(std::max(edges[0]->limit_px, edges[1]->limit_px),
                                      std::max(edges[2]->limit_px, edges[3]->limit_px));
  const bool before_only = corner_px < (1 - kRoundingShare) * optics::radiusAt90Px(*lens);
  const Vec3& forward = view.imager_from_site.row[2];
  if (before_only) {
    double most = -1e300;
    for (const Vec3& p : slab.prism.corners()) most = std::max(most, dot(forward, p - view.lens_m));
    if (most <= 0) return Framed{Over::none, {}};
  }
  Corners corners;
  corners.sides = slab.prism.sides;
  Vec3 middle;
  double far2 = 0, rho2 = 0;
  for (std::size_t i = 0; i < 2 * corners.sides; ++i) {
    const Vec3 p = view.imager_from_site * (slab.prism.corner[i] - view.lens_m);
    constexpr double kBeforeShare = 1e-3;
    const double d2 = dot(p, p);
    if (!(p.z > 0) || p.z * p.z < kBeforeShare * kBeforeShare * d2) return {};
    corners.p[i] = p;
    middle = middle + p;
    far2 = std::max(far2, d2);
    rho2 = std::max(rho2, (p.x * p.x + p.y * p.y) / (p.z * p.z));
  }
  // Rounding, and what project may err by, which the judge of points asks.
  const double rho = std::sqrt(rho2);
  const double guard = std::sqrt(far2) * (2 * optics::kProjectErrorPx * lens->f_px *
                                              edges[0]->tangentPerPx(rho) + kRoundingShare * 4 *
                                              (lens->f_px + norm(view.frame_high_px - view.frame_low_px) * (1 + rho)));
  Framed framed{Over::all, {}};
  double deepest = 0;
  for (const auto& edge : edges) {
    const Vec3 inward = edge->touching(middle);
    if (corners.insideOf(inward, guard)) continue;
    for (std::size_t i = 0; i < 2 * corners.sides; ++i) corners.inside[i] = edge->inside(corners.p[i]);
    const std::array<double, 2> shallow{corners.shallowest(0), corners.shallowest(1)};
    const double clear = whole ? std::min(shallow[0], shallow[1]) : std::max(shallow[0], shallow[1]);
    if (clear <= -guard) return Framed{Over::none, {}};
    const std::array<double, 2> deep{corners.deepest(0), corners.deepest(1)};
    // The end of the band where this edge cuts off more (less, where any height is enough).
    const std::size_t face = (deep[0] <= deep[1]) == whole ? 0 : 1;
    if (std::min(deep[0], deep[1]) >= guard) {
      // All corners are inside. A plane that touches next to the two nearest ones may clear all.
      const std::size_t first = deep[0] <= deep[1] ? 0 : corners.sides;
      std::size_t one = first, two = first + 1;
      if (corners.inside[two] < corners.inside[one]) std::swap(one, two);
      for (std::size_t i = first + 2; i < first + corners.sides; ++i) {
        if (corners.inside[i] < corners.inside[one]) {
          two = one;
          one = i;
        } else if (corners.inside[i] < corners.inside[two]) {
          two = i;
        }
      }
      if (corners.insideOf(edge->touching((corners.p[one] + corners.p[two]) * 0.5), guard)) continue;
    }
    framed.over = Over::mixed;
    if (slab.half[0].z != 0 || slab.half[1].z != 0) continue;
    const double depth = -deep[face];
    if (depth <= deepest) continue;
    if (auto cut = cutAt(*edge, corners, face, view, slab)) {
      deepest = depth;
      framed.cut = cut;
    }
  }
  return framed;
}

}  // namespace belvedere::proof
