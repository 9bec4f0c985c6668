// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/lamp_light.h"

#include <algorithm>

namespace belvedere::picture {
namespace {

constexpr double kNearestM = 0.05;  // light of a lamp nearer than its own size is as there

}  // namespace

double PointLight::luxAt(const Vec3& to_m) const {
  const Vec3 way = at_m - to_m;
  const double far = norm(way);
  if (!(far > 0)) return 0;
  if (luminaire) return light::illuminanceFrom(*luminaire, to_m, way / far);
  const Vec3 at = far < kNearestM ? at_m - way * (kNearestM / far) : to_m;
  return light::shareFrom(*lamp, at) * lux_per_share;
}

std::vector<PointLight> pointLights(const light::ImagerLight& imager) {
  std::vector<PointLight> lights;
  if (imager.light)
    for (const light::Luminaire& luminaire : imager.light->luminaires)
      lights.push_back({luminaire.at_m, scene::Band::light, &luminaire, nullptr, 0});
  if (!imager.lamps || !imager.needed.lux) return lights;
  const double lux = *imager.needed.lux * light::lampWeight(imager.needed);
  for (std::size_t i = 0; i < imager.lamps->size(); ++i) {
    const light::Lamp& lamp = (*imager.lamps)[i];
    if (i >= imager.burns.size() || !imager.burns[i]) continue;
    if (lamp.infrared() && imager.mode == light::Mode::colour) continue;
    lights.push_back({lamp.at_m, lamp.band(), nullptr, &lamp, lux});
  }
  return lights;
}

}  // namespace belvedere::picture
