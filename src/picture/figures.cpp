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

// Shares of the height. Each part is convex and has one proportion of its half widths along and
// across the way it looks, so that its faces are planes. Proportions of a standing adult as drawing
// manuals have them: the head an eighth.
struct Course {
  double height, across;
};
struct Part {
  double along_over_across;
  std::vector<Course> courses;
};
const std::vector<Part> kParts{
    {0.62, {{0, 0.055}, {0.05, 0.062}, {0.44, 0.088}, {0.49, 0.088}}},                  // legs
    {0.56, {{0.46, 0.092}, {0.53, 0.1}, {0.79, 0.126}, {0.825, 0.108}, {0.845, 0.054}}},  // trunk
    {1.0, {{0.82, 0.031}, {0.9, 0.031}}},                                               // neck
    {1.2,
     {{0.868, 0.024}, {0.885, 0.038}, {0.92, 0.047}, {0.95, 0.048}, {0.98, 0.037}, {1, 0.016}}},
};

void addPart(scene::Scene& made, const Figure& figure, const Part& part,
             std::uint32_t source) {
  const std::vector<Course>& courses = part.courses;
  const double turn = degToRad(figure.facing_deg), s = std::sin(turn), c = std::cos(turn);
  const Vec3 ahead{s, c, 0}, right{c, -s, 0};
  scene::Hull hull;
  for (const Course& course : courses)
    for (std::size_t i = 0; i < kSides; ++i) {
      const double angle = 2 * kPi * (static_cast<double>(i) + 0.5) / kSides;
      // Anticlockwise seen from above.
      const double across = course.across * std::cos(angle);
      const double along = course.across * part.along_over_across * std::sin(angle);
      hull.vertices.push_back(figure.at_m + (right * across + ahead * along +
                                             Vec3{0, 0, course.height}) * figure.height_m);
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
    for (const Part& part : kParts) addPart(made, figures[i], part, static_cast<std::uint32_t>(i));
  }
  return made;
}

}  // namespace belvedere::picture
