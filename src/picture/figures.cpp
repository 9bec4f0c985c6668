// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/bodies.h"

namespace belvedere::picture {
namespace {

// Proportions of a standing adult as drawing manuals have them, the head an eighth; practice.
std::vector<FigureBody> makeBodies() {
  std::vector<FigureBody> bodies;
  for (const double side : {-1.0, 1.0}) {
    const double leg = 0.047 * side, arm = side;
    bodies.push_back({Limb::shoe, 2.3, 12,
                      {{0, 0.029, leg, 0.022}, {0.022, 0.029, leg, 0.022}, {0.04, 0.02, leg, 0.012}}});
    bodies.push_back({Limb::leg, 1.15, 12, {{0.03, 0.029, leg}, {0.285, 0.037, leg}}});
    bodies.push_back({Limb::leg, 1.15, 12, {{0.28, 0.037, leg}, {0.5, 0.05, leg}}});
    bodies.push_back({Limb::arm, 1.2, 16,
                      {{0.62, 0.026, 0.136 * arm},
                       {0.785, 0.031, 0.112 * arm},
                       {0.808, 0.027, 0.106 * arm},
                       {0.822, 0.017, 0.101 * arm},
                       {0.827, 0.007, 0.098 * arm}}});
    bodies.push_back(
        {Limb::arm, 1.1, 12, {{0.475, 0.02, 0.143 * arm, 0.022}, {0.628, 0.026, 0.136 * arm}}});
    bodies.push_back({Limb::hand, 1.7, 12,
                      {{0.405, 0.011, 0.143 * arm, 0.03},
                       {0.44, 0.016, 0.143 * arm, 0.027},
                       {0.48, 0.016, 0.143 * arm, 0.022}}});
  }
  bodies.push_back({Limb::trunk, 0.58, 20,
                    {{0.455, 0.09}, {0.53, 0.098}, {0.77, 0.118}, {0.8, 0.114}, {0.825, 0.094},
                     {0.845, 0.045}}});
  bodies.push_back({Limb::neck, 1.05, 12, {{0.82, 0.032}, {0.9, 0.029}}});
  FigureBody head{Limb::head, 1.24, 24, {}};
  for (const auto& [height, across] :
       {std::pair{0.868, 0.020}, {0.875, 0.029}, {0.885, 0.0365}, {0.9, 0.0425}, {0.92, 0.0468},
        {0.94, 0.0485}, {0.957, 0.0475}, {0.972, 0.043}, {0.985, 0.0345}, {0.994, 0.024},
        {1.0, 0.01}})
    head.rings.push_back({height, 0.94 * across, 0, 0});
  bodies.push_back(head);
  bodies.push_back(
      {Limb::nose, 1.4, 12, {{0.904, 0.0085, 0, 0.0505}, {0.936, 0.004, 0, 0.0515}}});
  for (const double side : {-1.0, 1.0})
    bodies.push_back({Limb::ear, 2.6, 12,
                      {{0.909, 0.0032, 0.0425 * side, -0.004}, {0.94, 0.0052, 0.0455 * side, -0.006}}});
  return bodies;
}

void addBody(scene::Scene& made, const Figure& figure, const FigureBody& body,
             std::uint32_t source) {
  const std::vector<FigureBody::Ring>& rings = body.rings;
  scene::Hull hull;
  for (const FigureBody::Ring& ring : rings)
    for (std::size_t i = 0; i < body.sides; ++i) {
      const double angle =
          2 * kPi * (static_cast<double>(i) + 0.5) / static_cast<double>(body.sides);
      // Anticlockwise seen from above.
      const Vec3 at{ring.aside + ring.across * std::cos(angle),
                    ring.ahead + ring.across * body.along_over_across * std::sin(angle),
                    ring.height};
      hull.vertices.push_back(figure.at_m + fromFigure(figure, at) * figure.height_m);
    }
  const auto corner = [&](std::size_t ring, std::size_t i) {
    return static_cast<std::uint32_t>(ring * body.sides + i % body.sides);
  };
  const std::size_t last = rings.size() - 1;
  hull.planes.push_back({{0, 0, -1}, -hull.vertices[0].z});
  hull.planes.push_back({{0, 0, 1}, hull.vertices[corner(last, 0)].z});
  for (std::size_t k = 0; k <= last; ++k)
    for (std::size_t i = 0; i < body.sides; ++i) {
      hull.edges.push_back({corner(k, i), corner(k, i + 1)});
      if (k == last) continue;
      hull.edges.push_back({corner(k, i), corner(k + 1, i)});
      // Two rings' sides are parallel: four corners in one plane.
      const Vec3& a = hull.vertices[corner(k, i)];
      const Vec3 normal = normalized(cross(hull.vertices[corner(k, i + 1)] - a,
                                           hull.vertices[corner(k + 1, i)] - a));
      hull.planes.push_back({normal, dot(normal, a)});
    }
  scene::addHull(made, hull, source);
}

}  // namespace

std::span<const FigureBody> figureBodies() {
  static const std::vector<FigureBody> bodies = makeBodies();
  return bodies;
}

Vec3 fromFigure(const Figure& figure, const Vec3& dir_in_figure) {
  const double turn = degToRad(figure.facing_deg), s = std::sin(turn), c = std::cos(turn);
  return Vec3{c, -s, 0} * dir_in_figure.x + Vec3{s, c, 0} * dir_in_figure.y +
         Vec3{0, 0, dir_in_figure.z};
}

Vec3 inFigure(const Figure& figure, const Vec3& point_m) {
  const double turn = degToRad(figure.facing_deg), s = std::sin(turn), c = std::cos(turn);
  const Vec3 d = (point_m - figure.at_m) / figure.height_m;
  return {c * d.x - s * d.y, s * d.x + c * d.y, d.z};
}

Vec3 roundNormal(const Figure& figure, const FigureBody& body, const Vec3& point_m,
                 const Vec3& normal) {
  if (std::abs(normal.z) > 0.98) return normal;
  const Vec3 at = inFigure(figure, point_m);
  std::size_t k = 1;
  while (k + 1 < body.rings.size() && at.z > body.rings[k].height) ++k;
  const FigureBody::Ring &a = body.rings[k - 1], &b = body.rings[k];
  const double t = std::clamp((at.z - a.height) / (b.height - a.height), 0.0, 1.0);
  const double x = at.x - (a.aside + t * (b.aside - a.aside));
  const double y = at.y - (a.ahead + t * (b.ahead - a.ahead));
  const double square = body.along_over_across * body.along_over_across;
  const double length = std::hypot(x, y / square);
  if (!(length > 1e-9)) return normal;
  // How far it leans: between the slopes of this stretch and of its neighbours.
  const auto slope = [&](std::size_t i) {
    const FigureBody::Ring &low = body.rings[i - 1], &high = body.rings[i];
    return (low.across - high.across) / (high.height - low.height);
  };
  const double own = slope(k), before = k > 1 ? slope(k - 1) : own,
               after = k + 1 < body.rings.size() ? slope(k + 1) : own;
  const double lean = t < 0.5 ? own + (before - own) * (0.5 - t) : own + (after - own) * (t - 0.5);
  const double level = std::max(0.05, std::hypot(x, y / body.along_over_across) / length);
  return normalized(fromFigure(figure, {x / length, y / square / length, lean * level}));
}

scene::Scene figureScene(std::span<const Figure> figures) {
  scene::Scene made;
  for (std::size_t i = 0; i < figures.size(); ++i) {
    made.sources.push_back({fmt::format("figure {}", i + 1), 0, 0});
    for (const FigureBody& body : figureBodies())
      addBody(made, figures[i], body, static_cast<std::uint32_t>(i));
  }
  return made;
}

}  // namespace belvedere::picture
