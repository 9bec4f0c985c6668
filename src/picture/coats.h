// SPDX-License-Identifier: GPL-3.0-or-later
//
// What surfaces are made of, as far as a photograph shows it: how much of each colour they throw
// back, with joints, boards and cartons that give an eye the scale. A design states none of this:
// it is read from what kind of thing a body belongs to, and is plausible, nothing more.
#pragma once

#include <cstdint>
#include <vector>

#include "design/design.h"
#include "geometry/vec.h"
#include "picture/paint.h"
#include "scene/scene.h"

namespace belvedere::picture {

enum class Finish : std::uint8_t {
  other,
  slab,
  wall,
  glass,
  door,
  cartons,
  column,
  counter,
  shelf,
  steps,
  beam,
  canopy,
  vehicle,
  foliage,
  sign,
  ground
};

struct Coat {
  Finish finish = Finish::other;
  Colour albedo{0.5f, 0.5f, 0.5f};  // mean share of the light thrown back: linear red, green, blue
  std::uint32_t seed = 0;           // tells one carton, car or bush from the next
  // Plan frame of a solid: its middle, the unit direction of its longest side, its half lengths.
  Vec2 middle, along{1, 0}, half_m{1, 1};
  double base_m = 0, top_m = 0;  // site
};

// One for each of the scene's sources.
std::vector<Coat> coatsOf(const design::Design& design, const scene::Scene& scene);
// Of the endless plain.
Coat groundCoat();

// Linear share of the light that is thrown back at a point. pixel_m: what a pixel covers there;
// what is finer is left out, so that it does not shimmer.
Colour albedoAt(const Coat& coat, const Vec3& point_m, const Vec3& normal, double pixel_m);

// Smooth noise in [0, 1] with features of size 1; the same everywhere.
double noiseAt(double x, double y, double z);
std::uint32_t mixed(std::uint32_t a, std::uint32_t b = 0, std::uint32_t c = 0);  // a hash
double shareOf(std::uint32_t hash);                                              // of it, in [0, 1)

}  // namespace belvedere::picture
