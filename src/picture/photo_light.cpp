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

// Directions about a normal of (0, 0, 1), as many in one as its cosine asks for (Hammersley's points, moved
// round), and those of a room's lamps, overhead. Turns below kCellTurns are the parts of one set so many
// times as large, each a quarter of a step from the next; others are moved at random.
constexpr std::size_t kMostFeelers = 64;
static_assert(kCellTurns == 4);
struct Feelers {
  std::array<Vec3, kMostFeelers> around;
  std::array<Vec3, kPacketRays> overhead;
  Feelers(std::size_t count, std::uint32_t turn) {
    constexpr std::array<double, kCellTurns> kSteps{0.125, 0.625, 0.875, 0.375};
    const bool of_cell = turn < kCellTurns;
    const auto n = static_cast<double>(count);
    const double first_turn = of_cell ? turn / (kCellTurns * n) : shareOf(mixed(turn, 31));
    const double first_share = of_cell ? kSteps[turn] : shareOf(mixed(turn, 57));
    for (std::size_t i = 0; i < count; ++i) {
      double round = first_turn, half = 0.5;
      for (std::size_t digits = i; digits != 0; digits >>= 1, half *= 0.5)
        if ((digits & 1) != 0) round += half;
      const double share = (static_cast<double>(i) + first_share) / n;
      const double rho = std::sqrt(share), angle = 2 * kPi * round;
      around[i] = {rho * std::cos(angle), rho * std::sin(angle), std::sqrt(1 - share)};
    }
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const double lean = 0.75 * std::sqrt((static_cast<double>(k) + first_share) / kPacketRays);
      const double golden = of_cell ? static_cast<double>(kCellTurns * k + turn) : static_cast<double>(k);
      const double round = 2 * kPi * ((of_cell ? 0 : first_turn) + golden * 0.6180339887);
      overhead[k] = normalized(Vec3{lean * std::cos(round), lean * std::sin(round), 1});
    }
  }
};
// Those of the cells, which are asked for again and again.
template <std::size_t count>
const Feelers& cellFeelers(std::uint32_t turn) {
  static const std::vector<Feelers> all = [] {
    std::vector<Feelers> made;
    for (std::uint32_t t = 0; t < kCellTurns; ++t) made.emplace_back(count, t);
    return made;
  }();
  return all[turn];
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

double Photographing::luxOn(const PointLight& light, const Vec3& at_m, const Vec3& normal) const {
  const Vec3 toward = light.at_m - at_m;
  const double cosine = dot(toward, normal) / std::max(1e-9, norm(toward));
  return cosine > 0 ? cosine * light.luxAt(at_m) : 0;
}

void Photographing::findShade(std::uint32_t moment, scene::Band band,
                              const std::array<scene::Segment, kPacketRays>& way,
                              const std::array<bool, kPacketRays>& asked,
                              std::array<double, kPacketRays>& passing) const {
  // Those that are asked for, one after another.
  std::array<scene::Segment, kPacketRays> ways;
  std::array<std::size_t, kPacketRays> lane{};
  std::size_t n = 0;
  const auto take = [&](const auto& wanted) {
    std::size_t some = 0;
    for (std::size_t k = 0; k < kPacketRays; ++k)
      if (wanted(k)) {
        ways[some] = way[k];
        lane[some++] = k;
      }
    return some;
  };
  std::array<std::uint8_t, kPacketRays> hidden{};
  const auto hides = [&](const scene::RayCaster& caster, scene::Blocking blocking) {
    caster.hidden(std::span(ways).first(n), blocking, band, std::span(hidden).first(n));
  };
  std::array<bool, kPacketRays> weakened{};
  n = take([&](std::size_t k) { return asked[k]; });
  for (std::size_t i = 0; i < n; ++i) passing[lane[i]] = 1;
  // What stops some light stops all that is stopped: where nothing does, one question is enough.
  hides(subject.caster(), tree ? scene::Blocking::see : scene::Blocking::withhold);
  for (std::size_t i = 0; i < n; ++i)
    if (hidden[i] != 0) {
      passing[lane[i]] = 0;
      weakened[lane[i]] = tree.has_value();
    }
  if (tree) {
    n = take([&](std::size_t k) { return weakened[k]; });
    if (n > 0) hides(subject.caster(), scene::Blocking::withhold);
    for (std::size_t i = 0; i < n; ++i)
      if (hidden[i] == 0)
        passing[lane[i]] =
            scene::passingShare(subject.scene(), *tree, ways[i].from, ways[i].to, band);
  }
  const Stage& stage = stageOf(moment);
  if (stage.scene->bodies.empty()) return;
  n = take([&](std::size_t k) { return asked[k] && passing[k] > 0; });
  if (n > 0) hides(*stage.caster, scene::Blocking::withhold);
  for (std::size_t i = 0; i < n; ++i)
    if (hidden[i] != 0) passing[lane[i]] = 0;
}

void Photographing::shine(std::uint32_t moment, const Vec3& eye, std::array<Lit, kPacketRays>& lit,
                          const std::array<float, kPacketRays>& passes, const KnownLight* known,
                          std::array<LightBits, kPacketRays>* found,
                          std::array<Colour, kPacketRays>& light) const {
  const Lighting& lighting = options.lighting;
  std::array<Vec3, kPacketRays> from;
  std::array<bool, kPacketRays> met{}, same{};
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const Lit& of = lit[k];
    met[k] = of.surface < kNoSurface || of.surface == kPlainSurface;
    same[k] = known && met[k] && known->surface[k] == of.surface;
    from[k] =
        of.at_m + of.normal * (1e-3 + 2e-5 * static_cast<double>(std::min(of.distance_m, 1e5f)));
  }
  if (found) found->fill({});
  std::array<scene::Segment, kPacketRays> way;
  // Of light number `bit`, what comes to the points, of those where its lux is more than faint.
  const auto passingOf = [&](std::size_t bit, scene::Band band,
                             const std::array<double, kPacketRays>& lux, const auto& toward,
                             std::array<double, kPacketRays>& passing) {
    const std::uint32_t mask = bit < kLightBits ? 1u << bit : 0;
    std::array<bool, kPacketRays> asked{};
    bool any = false, any_asked = false;
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      passing[k] = 0;
      if (!met[k]) continue;
      const bool matters = lux[k] > kFaintLux;
      if (found && !matters) (*found)[k] = {(*found)[k].lit | mask, (*found)[k].dark | mask};
      if (!matters) continue;
      any = true;
      if (same[k] && (known->bits[k].lit & mask) != 0) {
        passing[k] = 1;
      } else if (!(same[k] && (known->bits[k].dark & mask) != 0)) {
        way[k] = {from[k], toward(k)};
        asked[k] = any_asked = true;
      }
    }
    if (any_asked) findShade(moment, band, way, asked, passing);
    for (std::size_t k = 0; k < kPacketRays && found; ++k)
      if (asked[k] && (swept.empty() || !isSwept(way[k].from, way[k].to))) {
        if (passing[k] >= 1) (*found)[k].lit |= mask;
        if (passing[k] <= 0) (*found)[k].dark |= mask;
      }
    return any;
  };
  std::array<Colour, kPacketRays> on{};
  std::array<double, kPacketRays> infrared{}, lux{}, passing{};
  for (std::size_t k = 0; k < kPacketRays; ++k) on[k] = lit[k].ambient;
  if (lighting.sun_lux > 0) {
    for (std::size_t k = 0; k < kPacketRays; ++k)
      lux[k] = lighting.sun_lux * dot(lit[k].normal, lighting.toward_sun);
    passingOf(0, scene::Band::light, lux,
              [&](std::size_t k) { return from[k] + lighting.toward_sun * reach_m; }, passing);
    for (std::size_t k = 0; k < kPacketRays; ++k)
      if (passing[k] > 0) on[k] = on[k] + scaled({1.06f, 1.0f, 0.88f}, lux[k] * passing[k]);
  }
  for (std::size_t i = 0; i < options.lights.size(); ++i) {
    const PointLight& light_of = options.lights[i];
    for (std::size_t k = 0; k < kPacketRays; ++k)
      lux[k] = same[k] ? known->lux[i][k]
               : met[k] ? luxOn(light_of, lit[k].at_m, lit[k].normal)
                        : 0;
    if (!passingOf(i + 1, light_of.band, lux, [&](std::size_t) { return light_of.at_m; }, passing))
      continue;
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      if (!(passing[k] > 0)) continue;
      if (light_of.band == scene::Band::infrared) {
        infrared[k] += lux[k] * passing[k];
      } else {
        on[k] = on[k] + scaled({1.03f, 1.0f, 0.93f}, lux[k] * passing[k]);
      }
    }
  }
  // Coated glass takes its share on the way back, too.
  for (std::size_t k = 0; k < kPacketRays && tree; ++k)
    if (infrared[k] > 0 && passes[k] < 1)
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
  const bool of_cell = (feelers == kMostFeelers || feelers == kPacketRays) && turn < kCellTurns;
  std::optional<Feelers> own;
  if (!of_cell) own.emplace(feelers, turn);
  const Feelers& of = !of_cell                  ? *own
                      : feelers == kMostFeelers ? cellFeelers<kMostFeelers>(turn)
                                                : cellFeelers<kPacketRays>(turn);
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
      const Vec3& feeler = of.around[first + k];
      const Vec3 ray = side * feeler.x + other * feeler.y + normal * feeler.z;
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
      const Vec3& ray = of.overhead[k];
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
