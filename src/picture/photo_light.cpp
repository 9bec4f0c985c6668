// SPDX-License-Identifier: GPL-3.0-or-later
//
// How much light falls on what the rays met, and what of it comes back.
#include <algorithm>
#include <cmath>
#include <limits>

#include "base/units.h"
#include "picture/photo_work.h"
#include "scene/sightline.h"

namespace belvedere::picture {
namespace {

using scene::HitPacket;
using scene::kNoTriangle;
using scene::kPacketRays;
using scene::RayPacket;
using scene::StopsAt;

constexpr double kFaintLux = 1e-6;  // less of a lamp is nothing
constexpr float kOverheadM = 2.6f;  // lamps hang that high over what they light
constexpr double kOverheadShare = 0.6;
constexpr double kContactM = 0.9;  // walls nearer than this to each other keep light away

Colour both(Colour a, Colour b) { return {a.red * b.red, a.green * b.green, a.blue * b.blue}; }

// Dyes let near infrared through and leaves throw it back: what is dark or coloured by day is paler
// there. Common practice, no source.
float infraredAlbedo(Colour c) {
  if (c.green > 1.25f * c.red && c.green > 1.5f * c.blue) return 0.5f;
  return 0.12f + 0.75f * brightness(c);
}

}  // namespace

Colour Photographing::skyAt(const Vec3& dir, bool clouds) const {
  const Lighting& light = options.lighting;
  const double up = std::max(0.0, dir.z);
  // Pale at the horizon, deeper overhead; the mean over the sky, weighted as a level floor takes
  // it, is about one.
  const double t = std::sqrt(up);
  Colour c = mix(Colour{1.06f, 1.07f, 1.09f}, Colour{0.48f, 0.69f, 1.12f}, static_cast<float>(t));
  const double sun = dot(dir, light.toward_sun);
  if (light.sun_lux > 0 && sun > 0)
    c = c + scaled({1.0f, 0.9f, 0.7f}, 0.7 * std::pow(sun, 24) + 0.5 * std::pow(sun, 400));
  if (clouds && dir.z > 0.01 && light.sun_lux > 0) {
    const double far = 1.6 / (dir.z + 0.12);
    const double x = dir.x * far, y = dir.y * far;
    const double puff = 0.55 * noiseAt(x, y, 3) + 0.28 * noiseAt(2.3 * x, 2.3 * y, 9) +
                        0.17 * noiseAt(5.1 * x, 5.1 * y, 21);
    const double cover =
        std::clamp((puff - 0.47) / 0.25, 0.0, 1.0) * std::clamp(6 * dir.z, 0.0, 1.0);
    c = mix(c, Colour{1.5f, 1.5f, 1.52f}, static_cast<float>(0.75 * cover));
  }
  return scaled(c, light.sky_lux);
}

void Photographing::shine(std::uint32_t moment, const Vec3& eye, std::array<Lit, kPacketRays>& lit,
                          std::array<Colour, kPacketRays>& light) const {
  const Lighting& lighting = options.lighting;
  const Stage& stage = stageOf(moment);
  std::array<Vec3, kPacketRays> from;
  std::array<bool, kPacketRays> met{};
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const Lit& of = lit[k];
    met[k] = of.surface < kNoSurface || of.surface == kPlainSurface;
    from[k] =
        of.at_m + of.normal * (1e-3 + 2e-5 * static_cast<double>(std::min(of.distance_m, 1e5f)));
  }
  std::array<scene::Segment, kPacketRays> way;
  std::array<double, kPacketRays> passing{};  // the share of it that comes along the way
  const auto findShade = [&](scene::Band band) {
    std::array<std::uint8_t, kPacketRays> shaded{}, weakened{}, by_stage{};
    subject.caster().hidden(way, scene::Blocking::withhold, band, shaded);
    if (!stage.scene->bodies.empty())
      stage.caster->hidden(way, scene::Blocking::withhold, band, by_stage);
    if (tree) subject.caster().hidden(way, scene::Blocking::see, band, weakened);
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      passing[k] = shaded[k] != 0 || by_stage[k] != 0 ? 0 : 1;
      if (passing[k] > 0 && weakened[k] != 0)
        passing[k] = scene::passingShare(subject.scene(), *tree, way[k].from, way[k].to, band);
    }
  };
  std::array<Colour, kPacketRays> on{};
  std::array<double, kPacketRays> infrared{};
  for (std::size_t k = 0; k < kPacketRays; ++k) on[k] = lit[k].ambient;
  if (lighting.sun_lux > 0) {
    for (std::size_t k = 0; k < kPacketRays; ++k)
      way[k] = {from[k], from[k] + lighting.toward_sun * reach_m};
    findShade(scene::Band::light);
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const double toward = dot(lit[k].normal, lighting.toward_sun);
      if (toward > 0)
        on[k] = on[k] + scaled({1.06f, 1.0f, 0.88f}, lighting.sun_lux * toward * passing[k]);
    }
  }
  for (const PointLight& light_of : options.lights) {
    std::array<double, kPacketRays> lux{};
    bool any = false;
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      if (!met[k]) continue;
      const Vec3 toward = light_of.at_m - lit[k].at_m;
      const double cosine = dot(toward, lit[k].normal) / std::max(1e-9, norm(toward));
      if (cosine > 0) lux[k] = cosine * light_of.luxAt(lit[k].at_m);
      any |= lux[k] > kFaintLux;
      way[k] = {from[k], light_of.at_m};
    }
    if (!any) continue;
    findShade(light_of.band);
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      if (light_of.band == scene::Band::infrared) {
        infrared[k] += lux[k] * passing[k];
      } else {
        on[k] = on[k] + scaled({1.03f, 1.0f, 0.93f}, lux[k] * passing[k]);
      }
    }
  }
  // Coated glass takes its share on the way back, too.
  for (std::size_t k = 0; k < kPacketRays && tree; ++k)
    if (infrared[k] > 0)
      infrared[k] *= scene::passingShare(subject.scene(), *tree, eye, from[k],
                                         scene::Band::infrared_behind_clear);
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const Lit& of = lit[k];
    if (!met[k]) {
      light[k] = {};
      continue;
    }
    light[k] = both(on[k], of.albedo);
    if (options.mono) {
      const float more = infraredAlbedo(of.albedo) * static_cast<float>(infrared[k]);
      light[k] = light[k] + Colour{more, more, more};
    }
    if (of.surface == kPlainSurface) {
      const double haze = 1 - std::exp(-static_cast<double>(of.distance_m) / kHazeM);
      light[k] =
          mix(light[k], scaled({1.0f, 1.03f, 1.1f}, lighting.sky_lux), static_cast<float>(haze));
    }
  }
}

Colour Photographing::gathered(std::uint32_t moment, const Vec3& at_m, const Vec3& normal,
                               double distance_m, std::size_t feelers, std::uint32_t turn) const {
  const Lighting& lighting = options.lighting;
  const Vec3 side =
      normalized(std::abs(normal.z) < 0.9 ? cross({0, 0, 1}, normal) : cross({0, 1, 0}, normal));
  const Vec3 other = cross(normal, side);
  const Vec3 from = at_m + normal * (1e-3 + 2e-5 * distance_m);
  const double first_turn = shareOf(mixed(turn, 31)), first_share = shareOf(mixed(turn, 57));
  RayPacket rays;
  HitPacket hit;
  rays.near_m.fill(0);
  rays.far_m.fill(kForeverM);
  rays.traced.fill(-1);
  Colour sky{}, fill{}, bounce{};
  double open = 0;
  const auto scene_triangles = static_cast<std::uint32_t>(subject.triangles().size());
  for (std::size_t first = 0; first < feelers; first += kPacketRays) {
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      // Hammersley's points, moved round by the turn; as many in a direction as its cosine asks for.
      const std::size_t i = first + k;
      double around = first_turn, half = 0.5;
      for (std::size_t bits = i; bits != 0; bits >>= 1, half *= 0.5)
        if ((bits & 1) != 0) around += half;
      const double share = (static_cast<double>(i) + first_share) / static_cast<double>(feelers);
      const double rho = std::sqrt(share), angle = 2 * kPi * around;
      const Vec3 ray = side * (rho * std::cos(angle)) + other * (rho * std::sin(angle)) +
                       normal * std::sqrt(1 - share);
      rays.x[k] = static_cast<float>(ray.x);
      rays.y[k] = static_cast<float>(ray.y);
      rays.z[k] = static_cast<float>(ray.z);
    }
    hits(moment, from, rays, StopsAt::opaque, hit);
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const Vec3 dir = rayOfLane(rays, k);
      if (hit.triangle[k] == kNoTriangle) {
        open += 1;
        if (dir.z < 0 && options.ground_m) {
          sky = sky + both(scaled({1, 1, 1}, 0.55 * lighting.sky_lux + 0.35 * lighting.sun_lux),
                           ground.albedo);
        } else {
          sky = sky + skyAt(dir, false);
        }
        continue;
      }
      Colour albedo{0.35f, 0.33f, 0.32f};
      double down = 0;
      if (hit.triangle[k] < scene_triangles) {
        const Surface& surface = subject.surfaces()[subject.triangles()[hit.triangle[k]].surface];
        albedo = coats[surface.source].albedo;
        if (coats[surface.source].finish == Finish::slab && dir.z > 0 && surface.normal.z < -0.5)
          down = 1;  // a ceiling: that is where the lamps are
      }
      const double near = std::clamp(static_cast<double>(hit.distance_m[k]) / kContactM, 0.0, 1.0);
      const double contact = 0.30 + 0.70 * near * (2 - near);
      fill = fill +
             (down > 0 ? scaled({1.16f, 1.14f, 1.09f}, contact) : scaled(albedo, 1.25 * contact));
      bounce = bounce + scaled(albedo, contact);
    }
  }
  const double n = static_cast<double>(feelers);
  open /= n;
  // A room's lamps hang overhead: what stands between keeps some of their light away.
  double overhead = 1;
  const double level = std::max(0.0, normal.z);
  if (level > 0.05 && lighting.fill_lux > 0) {
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const double lean = 0.75 * std::sqrt((static_cast<double>(k) + first_share) / kPacketRays);
      const double around = 2 * kPi * (first_turn + static_cast<double>(k) * 0.6180339887);
      const Vec3 ray = normalized(Vec3{lean * std::cos(around), lean * std::sin(around), 1});
      rays.x[k] = static_cast<float>(ray.x);
      rays.y[k] = static_cast<float>(ray.y);
      rays.z[k] = static_cast<float>(ray.z);
      rays.far_m[k] = kOverheadM;
    }
    hits(moment, from, rays, StopsAt::opaque, hit);
    double met = 0;
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      if (hit.triangle[k] == kNoTriangle) continue;
      if (hit.triangle[k] < scene_triangles) {
        const Surface& surface = subject.surfaces()[subject.triangles()[hit.triangle[k]].surface];
        const Finish finish = coats[surface.source].finish;
        if (finish == Finish::slab || finish == Finish::beam || finish == Finish::wall) continue;
      }
      met += 1;
    }
    overhead = 1 - met / kPacketRays;
  }
  const double share = kOverheadShare * level;
  return scaled(sky, 1 / n) +
         scaled(fill, (1 - share + share * overhead * overhead) * lighting.fill_lux / n) +
         scaled(bounce, open * (0.5 * lighting.sky_lux + 0.18 * lighting.sun_lux) / n);
}

}  // namespace belvedere::picture
