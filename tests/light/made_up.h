// SPDX-License-Identifier: GPL-3.0-or-later
//
// Scenes and luminaires built without a file.
#pragma once

#include <memory>

#include "light/illuminance.h"
#include "light/lamps.h"

namespace belvedere::light {

struct MadeUpSolids {
  scene::Scene scene;
  scene::BodyTree tree;
  Solids solids() const { return {&scene, &tree}; }
};

// One upright box of a material that passes these shares.
inline void addBox(scene::Scene& scene, Vec3 low, Vec3 high, double light = 0, double infrared = 0) {
  scene.sources.push_back({"box", light, infrared});
  const Ring outline{{low.x, low.y}, {high.x, low.y}, {high.x, high.y}, {low.x, high.y}};
  scene::addPrism(scene, outline, std::vector<double>(4, low.z), std::vector<double>(4, high.z),
                  static_cast<std::uint32_t>(scene.sources.size() - 1));
}
inline MadeUpSolids madeUp(scene::Scene scene) {
  MadeUpSolids made{std::move(scene), {}};
  made.tree = scene::buildTree(made.scene);
  return made;
}

// Hanging straight down unless said otherwise.
inline Luminaire luminaire(const Photometry& photometry, Vec3 at_m, double pan_deg = 0,
                           double tilt_deg = 90) {
  return {"L", at_m, luminaireFromSite(pan_deg, tilt_deg, photometry.planes),
          std::make_shared<const Photometry>(photometry), 1};
}

inline Lamp lamp(Vec3 at_m, Vec3 axis, double range_m, double beam_deg, double wave_nm = 850) {
  Lamp out;
  out.housing = {"C1"};
  out.name = "C1 lamp 1";
  out.at_m = at_m;
  out.axis = normalized(axis);
  out.half_beam_rad = 0.5 * beam_deg * 3.14159265358979323846 / 180;
  out.range_m = range_m;
  out.wave_nm = wave_nm;
  return out;
}

}  // namespace belvedere::light
