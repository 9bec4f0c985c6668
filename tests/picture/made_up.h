// SPDX-License-Identifier: GPL-3.0-or-later
//
// Scenes and views for the room's tests.
#pragma once

#include <initializer_list>

#include "picture/renderer.h"

namespace belvedere::picture {

inline std::uint32_t addSource(scene::Scene& scene, const char* id, double light = 0) {
  scene.sources.push_back({id, light, 0});
  return static_cast<std::uint32_t>(scene.sources.size() - 1);
}

inline void addBox(scene::Scene& scene, Vec3 low, Vec3 high, std::uint32_t source) {
  scene::addPrism(scene, {{low.x, low.y}, {high.x, low.y}, {high.x, high.y}, {low.x, high.y}},
                  {low.z, low.z, low.z, low.z}, {high.z, high.z, high.z, high.z}, source);
}

// 6 x 4 x 3 m inside, floor at 0, from (0, 0): walls reach into floor and ceiling, and each other.
inline scene::Scene closedRoom() {
  scene::Scene scene;
  addBox(scene, {-0.2, -0.2, -0.3}, {6.2, 4.2, 0}, addSource(scene, "floor"));
  addBox(scene, {-0.2, -0.2, 3}, {6.2, 4.2, 3.3}, addSource(scene, "ceiling"));
  addBox(scene, {-0.2, -0.2, -0.001}, {6.2, 0, 3.001}, addSource(scene, "south"));
  addBox(scene, {-0.2, 4, -0.001}, {6.2, 4.2, 3.001}, addSource(scene, "north"));
  addBox(scene, {-0.2, -0.001, -0.001}, {0, 4.001, 3.001}, addSource(scene, "west"));
  addBox(scene, {6, -0.001, -0.001}, {6.2, 4.001, 3.001}, addSource(scene, "east"));
  return scene;
}

// Looks level to the north; f_px, principal point in the middle.
inline View level(Vec3 eye, double f_px, double k, Size pixels, double pan_deg = 0,
                  double tilt_deg = 0) {
  const Vec2 whole{static_cast<double>(pixels[0]), static_cast<double>(pixels[1])};
  const optics::RadialLens lens{f_px, k, whole * 0.5};
  return {eye, design::imagerFromSite(pan_deg, tilt_deg, 0), lens, pixels, {}, {0, 0}, whole};
}

inline Options plain() {
  Options options;
  options.lines = options.smooth = options.contact_shade = false;
  options.ground_m.reset();
  return options;
}

}  // namespace belvedere::picture
