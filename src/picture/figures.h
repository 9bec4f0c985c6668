// SPDX-License-Identifier: GPL-3.0-or-later
//
// People to stand in a picture: convex bodies each, as tall as stated to the millimetre.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "geometry/vec.h"
#include "scene/scene.h"

namespace belvedere::picture {

struct Figure {
  Vec3 at_m;              // between the feet, site
  double height_m = 1.75;
  double facing_deg = 0;  // bearing in which it looks
  Vec2 moves_mps{};       // while a photograph is taken (photo.h); drawings show it at at_m
  bool operator==(const Figure&) const = default;
};

enum class Limb { shoe, leg, trunk, arm, hand, neck, head, nose, ear };

// One convex body of a figure: rings, each an ellipse of `across` to the sides and `across` times
// `along_over_across` to the front, about a middle that may lie aside (to the figure's right) and
// ahead. All in shares of the figure's height.
struct FigureBody {
  Limb limb = Limb::trunk;
  double along_over_across = 1;
  std::size_t sides = 12;
  struct Ring {
    double height = 0, across = 0, aside = 0, ahead = 0;
  };
  std::vector<Ring> rings;
};
std::span<const FigureBody> figureBodies();

// A scene of figures alone. Source i is figure i; its bodies are those of figureBodies(), in order.
scene::Scene figureScene(std::span<const Figure> figures);

// A point in a figure's own frame: to its right, ahead, up from its soles, in shares of its height.
Vec3 inFigure(const Figure& figure, const Vec3& point_m);
// The figure's right, ahead and up in the site.
Vec3 fromFigure(const Figure& figure, const Vec3& dir_in_figure);
// What is round about that body, of which a face has `normal`: unit, site.
Vec3 roundNormal(const Figure& figure, const FigureBody& body, const Vec3& point_m,
                 const Vec3& normal);

}  // namespace belvedere::picture
