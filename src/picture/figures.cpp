// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/bodies.h"

namespace belvedere::picture {
namespace {

constexpr std::size_t kSides = 12;

// Shares of the height; half widths across and along the way it looks.
struct Course {
  double height, across, along;
};
using Courses = std::vector<Course>;

// Each part is convex and its courses have one proportion of across to along, so that its faces are
// planes. Proportions of a standing adult as drawing manuals have them: head an eighth.
const Courses kLegs{{0, 0.055, 0.035}, {0.06, 0.066, 0.042}, {0.45, 0.0943, 0.06}, {0.5, 0.0943, 0.06}};
const Courses kTrunk{{0.47, 0.09, 0.05}, {0.62, 0.108, 0.06}, {0.79, 0.126, 0.07},
                     {0.825, 0.108, 0.06}, {0.845, 0.054, 0.03}};
const Courses kNeck{{0.82, 0.031, 0.031}, {0.9, 0.031, 0.031}};
const Courses kHead{{0.868, 0.024, 0.0288}, {0.885, 0.038, 0.0456}, {0.92, 0.047, 0.0564},
                    {0.95, 0.048, 0.0576},  {0.98, 0.037, 0.0444},  {1, 0.016, 0.0192}};

void addPart(scene::Scene& made, const Figure& figure, const Courses& courses,
             std::uint32_t source) {
  const double turn = degToRad(figure.facing_deg), s = std::sin(turn), c = std::cos(turn);
  const Vec3 ahead{s, c, 0}, right{c, -s, 0};
  scene::Hull hull;
  for (const Course& course : courses)
    for (std::size_t i = 0; i < kSides; ++i) {
      const double angle = 2 * kPi * (static_cast<double>(i) + 0.5) / kSides;
      // Anticlockwise seen from above.
      hull.vertices.push_back(figure.at_m + (right * (course.across * std::cos(angle)) +
                                             ahead * (course.along * std::sin(angle)) +
                                             Vec3{0, 0, course.height}) *
                                                figure.height_m);
    }
  const auto corner = [&](std::size_t course, std::size_t i) {
    return static_cast<std::uint32_t>(course * kSides + i % kSides);
  };
  const std::size_t last = courses.size() - 1;
  hull.planes.push_back({{0, 0, -1}, -hull.vertices[0].z});
  hull.planes.push_back({{0, 0, 1}, hull.vertices[corner(last, 0)].z});
  for (std::size_t k = 0; k <= last; ++k)
    for (std::size_t i = 0; i < kSides; ++i) {
      hull.edges.push_back({corner(k, i), corner(k, i + 1)});
      if (k == last) continue;
      hull.edges.push_back({corner(k, i), corner(k + 1, i)});
      const Vec3& a = hull.vertices[corner(k, i)];
      const Vec3 normal = normalized(cross(hull.vertices[corner(k, i + 1)] - a,
                                           hull.vertices[corner(k + 1, i)] - a));
      hull.planes.push_back({normal, dot(normal, a)});
    }
  scene::addHull(made, hull, source);
}

}  // namespace

scene::Scene figureScene(std::span<const Figure> figures) {
  scene::Scene made;
  for (std::size_t i = 0; i < figures.size(); ++i) {
    made.sources.push_back({fmt::format("figure {}", i + 1), 0, 0});
    for (const Courses* courses : {&kLegs, &kTrunk, &kNeck, &kHead})
      addPart(made, figures[i], *courses, static_cast<std::uint32_t>(i));
  }
  return made;
}

}  // namespace belvedere::picture
