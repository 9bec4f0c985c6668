// SPDX-License-Identifier: GPL-3.0-or-later
//
// People to stand in a picture: a few convex bodies each, as tall as stated to the millimetre.
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
  bool operator==(const Figure&) const = default;
};

// A scene of figures alone. Source i is figure i.
scene::Scene figureScene(std::span<const Figure> figures);

}  // namespace belvedere::picture
