// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/coats.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace belvedere::picture {
namespace {

Colour grey(float v) { return {v, v, v}; }
Colour times(Colour a, double s) { return a * static_cast<float>(s); }

constexpr std::array<Colour, 6> kCarPaint{{{0.55f, 0.56f, 0.57f},
                                           {0.06f, 0.065f, 0.075f},
                                           {0.62f, 0.63f, 0.62f},
                                           {0.09f, 0.16f, 0.30f},
                                           {0.33f, 0.05f, 0.045f},
                                           {0.22f, 0.235f, 0.24f}}};

Colour albedoOf(Finish finish, std::uint32_t seed) {
  switch (finish) {
    case Finish::slab:
      return {0.42f, 0.41f, 0.39f};
    case Finish::wall:
      return {0.68f, 0.66f, 0.62f};
    case Finish::glass:
      return {0.35f, 0.42f, 0.44f};
    case Finish::door:
      return {0.22f, 0.27f, 0.31f};
    case Finish::cartons:
      return {0.47f, 0.35f, 0.23f};
    case Finish::column:
      return {0.52f, 0.51f, 0.49f};
    case Finish::counter:
      return {0.42f, 0.27f, 0.16f};
    case Finish::shelf:
      return {0.45f, 0.42f, 0.38f};
    case Finish::steps:
      return {0.36f, 0.355f, 0.345f};
    case Finish::beam:
      return {0.47f, 0.47f, 0.46f};
    case Finish::canopy:
      return {0.45f, 0.47f, 0.49f};
    case Finish::vehicle:
      return kCarPaint[seed % kCarPaint.size()];
    case Finish::foliage:
      return {0.09f, 0.17f, 0.045f};
    case Finish::sign:
      return {0.06f, 0.19f, 0.42f};
    case Finish::ground:
      return {0.25f, 0.25f, 0.22f};
    case Finish::other:
      break;
  }
  return {0.40f, 0.42f, 0.45f};
}

Finish finishOf(const design::Solid& solid) {
  using design::SolidKind;
  switch (solid.kind) {
    case SolidKind::stock:
      return Finish::cartons;
    case SolidKind::column:
      return Finish::column;
    case SolidKind::counter:
      return Finish::counter;
    case SolidKind::furniture:
      return solid.top_m - solid.base_m > 1.2 ? Finish::shelf : Finish::counter;
    case SolidKind::ramp:
      return Finish::slab;
    case SolidKind::stair:
      return Finish::steps;
    case SolidKind::beam:
      return Finish::beam;
    case SolidKind::canopy:
      return Finish::canopy;
    case SolidKind::vehicle:
      return Finish::vehicle;
    case SolidKind::foliage:
      return Finish::foliage;
    case SolidKind::sign:
      return Finish::sign;
    case SolidKind::mesh:
    case SolidKind::other:
      break;
  }
  return Finish::other;
}

void takeFrame(Coat& coat, const std::vector<Vec2>& outline, const Box3& box) {
  coat.base_m = box.low.z;
  coat.top_m = box.high.z;
  coat.middle = (box.low.xy() + box.high.xy()) * 0.5;
  coat.half_m = (box.high.xy() - box.low.xy()) * 0.5;
  double longest = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 side = outline[(i + 1) % outline.size()] - outline[i];
    if (norm(side) <= longest) continue;
    longest = norm(side);
    coat.along = side / longest;
  }
  if (longest <= 0) return;
  const Vec2 across{-coat.along.y, coat.along.x};
  Vec2 low{1e18, 1e18}, high{-1e18, -1e18};
  for (const Vec2& p : outline) {
    const Vec2 at{dot(p, coat.along), dot(p, across)};
    low = {std::min(low.x, at.x), std::min(low.y, at.y)};
    high = {std::max(high.x, at.x), std::max(high.y, at.y)};
  }
  const Vec2 middle = (low + high) * 0.5;
  coat.middle = coat.along * middle.x + across * middle.y;
  coat.half_m = (high - low) * 0.5;
}

// Share of a pixel that a line every `pitch` metres, `wide` metres wide, takes; faded away where a
// pixel covers half the pitch.
double joints(double at, double pitch, double wide, double pixel_m) {
  const double off = std::abs(at / pitch - std::round(at / pitch)) * pitch;
  const double cover =
      std::clamp((0.5 * (wide + pixel_m) - off) / std::min(wide, pixel_m), 0.0, 1.0) *
      std::min(1.0, wide / pixel_m);
  return cover * std::clamp(2 - 4 * pixel_m / pitch, 0.0, 1.0);
}
std::uint32_t cell(double at, double pitch) {
  return static_cast<std::uint32_t>(static_cast<std::int64_t>(std::floor(at / pitch)));
}
double smooth(double low, double high, double v) {
  const double t = std::clamp((v - low) / (high - low), 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

double mottle(const Vec3& p, double size_m, double amount, double pixel_m) {
  const double seen = std::clamp(2 - 2 * pixel_m / size_m, 0.0, 1.0);
  return 1 + amount * seen * (noiseAt(p.x / size_m, p.y / size_m, p.z / size_m) - 0.5) +
         0.6 * amount *
             (noiseAt(p.x / (5 * size_m) + 7, p.y / (5 * size_m), p.z / (5 * size_m)) - 0.5);
}

Colour slabAt(const Coat& coat, const Vec3& p, const Vec3& normal, double pixel_m) {
  if (normal.z < -0.9)  // a ceiling
    return times({0.74f, 0.74f, 0.72f}, 1 - 0.16 * std::max(joints(p.x, 1.2, 0.012, pixel_m),
                                                            joints(p.y, 1.2, 0.012, pixel_m)));
  const double joint = std::max(joints(p.x, 0.6, 0.006, pixel_m), joints(p.y, 0.6, 0.006, pixel_m));
  const double tile = std::clamp(2 - 4 * pixel_m / 0.6, 0.0, 1.0) *
                      (shareOf(mixed(cell(p.x, 0.6), cell(p.y, 0.6), 5)) - 0.5);
  return times(coat.albedo, mottle(p, 0.16, 0.10, pixel_m) * (1 + 0.07 * tile) * (1 - 0.3 * joint));
}

// Boxes in rows, each of its own tone, with tape and gaps between; those of a row are set off.
Colour cartonsAt(const Coat& coat, const Vec3& p, double u, double v, double pixel_m) {
  constexpr double kWide = 0.6, kHigh = 0.4;
  const std::uint32_t row = cell(v, kHigh);
  const double shift = 0.6 * shareOf(mixed(row, coat.seed, 2));
  const double seen = std::clamp(2 - 4 * pixel_m / kWide, 0.0, 1.0);
  const double tone = shareOf(mixed(cell(u + shift, kWide), row, coat.seed)) - 0.5;
  const double gap =
      std::max(joints(u + shift, kWide, 0.014, pixel_m), joints(v, kHigh, 0.014, pixel_m));
  const double tape = joints(u + shift + 0.5 * kWide, kWide, 0.05, pixel_m);
  Colour c = times(coat.albedo, (1 + 0.34 * seen * tone) * mottle(p, 0.3, 0.06, pixel_m));
  c = mix(c, Colour{0.58f, 0.47f, 0.33f}, static_cast<float>(0.5 * tape));
  return times(c, 1 - 0.8 * gap);
}

// Goods on boards, 0.36 m apart.
Colour shelfAt(const Coat& coat, double u, double v, double pixel_m) {
  constexpr double kBoard = 0.36, kGood = 0.12;
  const double over = v - kBoard * std::floor(v / kBoard);
  const std::uint32_t row = cell(v, kBoard);
  const std::uint32_t good = mixed(cell(u, kGood), row, coat.seed);
  const double seen = std::clamp(2 - 4 * pixel_m / kGood, 0.0, 1.0);
  // A family of goods over half a metre, single packs a shade apart.
  const std::uint32_t family = mixed(cell(u, 4 * kGood), row, coat.seed + 9);
  const double turn = 6.2831853 * shareOf(family);
  const auto wave = [&](double phase) {
    return static_cast<float>(0.30 + 0.12 * std::cos(turn + phase));
  };
  Colour c{wave(0), wave(2.1), wave(4.2)};
  c = times(c, 1 + 0.4 * seen * (shareOf(good) - 0.5));
  const double top = 0.22 + 0.08 * shareOf(mixed(good, 3));
  const double gap = joints(u, kGood, 0.008, pixel_m);
  c = times(c, 1 - 0.75 * gap);
  c = mix(c, grey(0.10f), static_cast<float>(seen * smooth(top, top + 0.01, over)));
  const double board = smooth(0.335, 0.337, over) + 1 - smooth(0.02, 0.022, over);
  return mix(c, coat.albedo, static_cast<float>(std::clamp(board, 0.0, 1.0)));
}

// A car drawn on the sides of its box: wheels, windows with posts, lamps.
Colour vehicleAt(const Coat& coat, const Vec3& p, const Vec3& normal, double pixel_m) {
  const Vec2 across{-coat.along.y, coat.along.x};
  const Vec2 from = p.xy() - coat.middle;
  const double u = dot(from, coat.along), w = dot(from, across);
  const double tall = coat.top_m - coat.base_m, v = (p.z - coat.base_m) / tall;
  const double edge = std::max(0.006, 0.7 * pixel_m);
  const Colour dark{0.018f, 0.02f, 0.024f};
  Colour c = coat.albedo;
  const auto in = [&](double d) { return static_cast<float>(smooth(-edge, edge, d)); };
  if (std::abs(normal.z) > 0.7) {
    // From above: windscreens and the roof between.
    const double long_m = coat.half_m.x, side = coat.half_m.y;
    const double screen = std::min(
        {std::abs(u) - 0.30 * long_m, 0.58 * long_m - std::abs(u), side - 0.14 - std::abs(w)});
    return mix(c, dark, 0.92f * in(screen));
  }
  const bool side = std::abs(dot(normal.xy(), across)) > 0.7;
  const double at = side ? u : w, half = side ? coat.half_m.x : coat.half_m.y;
  const double z = p.z - coat.base_m;
  const double lean = side ? 0.42 * (v - 0.58) : 0.10 * (v - 0.58);
  double window = std::min(
      {z - 0.60 * tall, 0.93 * tall - z, (side ? 0.72 : 0.84) * half - lean * half - std::abs(at)});
  if (side) window = std::min(window, std::abs(at + 0.06 * half) - 0.045);
  c = mix(c, dark, 0.95f * in(window));
  if (side) {
    for (const double wheel : {-0.6, 0.6}) {
      const double r = std::hypot(at - wheel * half, z - 0.30);
      c = mix(c, grey(0.012f), in(0.335 - r));
      c = mix(c, grey(0.33f), in(0.19 - r) * 0.8f);
    }
    c = mix(c, grey(0.02f), in(std::min(0.16 - z, 0.45 * half - std::abs(at))));
    c = times(c, 1 - 0.5 * joints(at + 0.06 * half, 1.9 * half, 0.012, pixel_m));
  } else {
    const bool front = dot(normal.xy(), coat.along) > 0;
    const double lamp =
        std::min(0.07 - std::abs(z - 0.45 * tall), 0.14 - std::abs(std::abs(at) - 0.72 * half));
    c = mix(c, front ? Colour{0.8f, 0.8f, 0.76f} : Colour{0.45f, 0.02f, 0.02f}, in(lamp));
    c = mix(c, front ? Colour{0.7f, 0.7f, 0.68f} : Colour{0.7f, 0.62f, 0.2f},
            in(std::min(0.055 - std::abs(z - 0.30 * tall), 0.26 - std::abs(at))));
    c = mix(c, grey(0.02f), in(0.19 - z));
  }
  return c;
}

}  // namespace

std::uint32_t mixed(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
  std::uint32_t h =
      a * 0x9E3779B1u ^ (b + 0x7F4A7C15u) * 0x85EBCA77u ^ (c + 0x165667B1u) * 0xC2B2AE3Du;
  h ^= h >> 15;
  h *= 0x2C1B3C6Du;
  h ^= h >> 12;
  h *= 0x297A2D39u;
  return h ^ (h >> 15);
}
double shareOf(std::uint32_t hash) { return hash * (1.0 / 4294967296.0); }

double noiseAt(double x, double y, double z) {
  const double fx = std::floor(x), fy = std::floor(y), fz = std::floor(z);
  const auto whole = [](double v) {
    return static_cast<std::uint32_t>(static_cast<std::int64_t>(v));
  };
  const std::uint32_t ix = whole(fx), iy = whole(fy), iz = whole(fz);
  const auto ease = [](double t) { return t * t * (3 - 2 * t); };
  const double u = ease(x - fx), v = ease(y - fy), w = ease(z - fz);
  const auto at = [&](std::uint32_t i, std::uint32_t j, std::uint32_t k) {
    return shareOf(mixed(ix + i, iy + j, iz + k));
  };
  const auto lerp = [](double a, double b, double t) { return a + (b - a) * t; };
  return lerp(lerp(lerp(at(0, 0, 0), at(1, 0, 0), u), lerp(at(0, 1, 0), at(1, 1, 0), u), v),
              lerp(lerp(at(0, 0, 1), at(1, 0, 1), u), lerp(at(0, 1, 1), at(1, 1, 1), u), v), w);
}

Coat groundCoat() {
  Coat coat;
  coat.finish = Finish::ground;
  coat.albedo = albedoOf(Finish::ground, 0);
  return coat;
}

std::vector<Coat> coatsOf(const design::Design& design, const scene::Scene& scene) {
  std::unordered_map<std::string, Finish> finish;
  std::unordered_map<std::string, const design::Solid*> solids;
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      finish[storey.id.text] = Finish::slab;
      for (const design::Wall& wall : storey.walls) {
        finish[wall.id.text] = Finish::wall;
        for (const design::Opening& opening : wall.openings) finish[opening.id.text] = Finish::door;
      }
    }
  for (const design::Solid& solid : design.site.solids) {
    finish[solid.id.text] = finishOf(solid);
    solids[solid.id.text] = &solid;
  }
  if (design.site.terrain) finish[design.site.terrain->id.text] = Finish::ground;
  std::vector<Box3> boxes(scene.sources.size());
  for (const scene::Body& body : scene.bodies) {
    boxes[body.source].add(body.box.low);
    boxes[body.source].add(body.box.high);
  }
  std::vector<Coat> coats;
  for (std::size_t i = 0; i < scene.sources.size(); ++i) {
    const scene::Source& source = scene.sources[i];
    Coat coat;
    const auto known = finish.find(source.id);
    coat.finish = known == finish.end() ? Finish::other : known->second;
    if (source.light > 0 && coat.finish != Finish::foliage) coat.finish = Finish::glass;
    coat.seed = mixed(static_cast<std::uint32_t>(i), 77);
    coat.albedo = albedoOf(coat.finish, coat.seed >> 8);
    const auto solid = solids.find(source.id);
    takeFrame(coat, solid == solids.end() ? std::vector<Vec2>{} : solid->second->outline, boxes[i]);
    coats.push_back(coat);
  }
  return coats;
}

Colour albedoAt(const Coat& coat, const Vec3& p, const Vec3& normal, double pixel_m) {
  // Along a wall or side, and up it.
  const double u =
      std::abs(normal.z) > 0.9 ? dot(p.xy(), coat.along) : -p.x * normal.y + p.y * normal.x;
  const double v = p.z - coat.base_m;
  switch (coat.finish) {
    case Finish::slab:
      return slabAt(coat, p, normal, pixel_m);
    case Finish::wall: {
      // A skirting board; plaster above.
      const double skirting =
          std::abs(normal.z) < 0.5 ? 1 - smooth(0.10 - 0.5 * pixel_m, 0.10 + 0.5 * pixel_m, v) : 0;
      return times(coat.albedo, mottle(p, 0.5, 0.035, pixel_m) * (1 - 0.45 * skirting));
    }
    case Finish::column:
      return times(coat.albedo, mottle(p, 0.12, 0.10, pixel_m));
    case Finish::cartons:
      return std::abs(normal.z) > 0.9
                 ? times(coat.albedo, mottle(p, 0.4, 0.1, pixel_m) *
                                          (1 - 0.6 * std::max(joints(p.x, 0.6, 0.014, pixel_m),
                                                              joints(p.y, 0.4, 0.014, pixel_m))))
                 : cartonsAt(coat, p, u, v, pixel_m);
    case Finish::shelf:
      return std::abs(normal.z) > 0.9 ? times(coat.albedo, mottle(p, 0.3, 0.05, pixel_m))
                                      : shelfAt(coat, u, v, pixel_m);
    case Finish::counter: {
      const double grain = noiseAt(p.z * 3 + 40 * dot(p.xy(), Vec2{-coat.along.y, coat.along.x}),
                                   dot(p.xy(), coat.along) * 2, 40 * p.z);
      const double seen = std::clamp(2 - pixel_m / 0.02, 0.0, 1.0);
      return times(coat.albedo,
                   1 + 0.16 * seen * (grain - 0.5) -
                       0.3 * (std::abs(normal.z) < 0.9 ? joints(u, 0.6, 0.006, pixel_m) : 0));
    }
    case Finish::steps:
      return times(coat.albedo, mottle(p, 0.12, 0.1, pixel_m) *
                                    (1 - 0.55 * (normal.z > 0.3 && normal.z < 0.99
                                                     ? joints(p.z, 0.17, 0.03, pixel_m)
                                                     : 0)));
    case Finish::vehicle:
      return vehicleAt(coat, p, normal, pixel_m);
    case Finish::foliage: {
      const double leaves =
          noiseAt(9 * p.x, 9 * p.y, 9 * p.z) * 0.6 + noiseAt(31 * p.x, 31 * p.y, 31 * p.z) * 0.4;
      return times(coat.albedo, 0.35 + 1.3 * leaves);
    }
    case Finish::ground:
      return times(mix(coat.albedo, Colour{0.17f, 0.21f, 0.10f},
                       static_cast<float>(smooth(0.42, 0.62, noiseAt(p.x / 23, p.y / 23, 0)))),
                   mottle(p, 0.7, 0.16, pixel_m) * mottle(p, 0.07, 0.10, pixel_m));
    case Finish::other:
    case Finish::beam:
    case Finish::canopy:
      return times(coat.albedo, mottle(p, 0.4, 0.06, pixel_m));
    case Finish::glass:
    case Finish::door:
    case Finish::sign:
      break;
  }
  return coat.albedo;
}

}  // namespace belvedere::picture
