// SPDX-License-Identifier: GPL-3.0-or-later
//
// Lamps and luminaires in a photograph, from what the room `light` says of them: so much light on a
// plane square to the way there, shadows by rays.
#pragma once

#include <vector>

#include "light/lit.h"
#include "scene/ray_caster.h"

namespace belvedere::picture {

// Of which each point gets some light where nothing stands between.
struct PointLight {
  Vec3 at_m;
  scene::Band band = scene::Band::light;
  // One of the two.
  const light::Luminaire* luminaire = nullptr;  // lux
  const light::Lamp* lamp = nullptr;            // its share (light/lamps.h), times:
  double lux_per_share = 0;
  // On a plane square to the way from there, lux; nothing between considered.
  double luxAt(const Vec3& at_m) const;
};

// What burns for an imager. An infrared lamp is left out for one in colour. Lamps count as lux in
// proportion to what the imager needs: at its range a lamp is worth the needed light. What they point
// to outlives them.
std::vector<PointLight> pointLights(const light::ImagerLight& imager);

}  // namespace belvedere::picture
