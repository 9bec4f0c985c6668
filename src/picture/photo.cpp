// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/photo.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/check.h"
#include "base/units.h"
#include "picture/photo_work.h"
#include "scene/body_tree.h"

namespace belvedere::picture {
namespace {

using scene::kPacketRays;
using scene::RayPacket;

constexpr std::size_t kFeelers = 64, kFeelersOfOne = 16;
// Of the direct light on a cell: less from everywhere else is worth few rays.
constexpr double kLittleLight = 0.03;
// Tiles of a band, so many at least where the picture has them: work for many threads between two waits.
constexpr int kBandTiles = 512;
// Rows of tiles about a band: one before, three after.
constexpr int kRowsAround = 4;

double extentOf(const scene::Scene& scene, const View& view, const Stage& stage) {
  Box3 box;
  box.add(view.eye_m);
  for (const scene::Body& body : scene.bodies) box.add(body.box);
  for (const scene::Body& body : stage.scene->bodies) box.add(body.box);
  return norm(box.high - box.low) + 1;
}

std::vector<Stage> stagesOf(const PhotoOptions& options) {
  const auto moves = [](const auto& of) { return of.moves_mps != Vec2{}; };
  const bool any = options.exposure_s > 0 &&
                   (std::any_of(options.figures.begin(), options.figures.end(), moves) ||
                    std::any_of(options.boards.begin(), options.boards.end(), moves));
  std::vector<Stage> stages;
  const std::uint32_t moments = any ? kMoments : 1;
  for (std::uint32_t m = 0; m < moments; ++m)
    stages.emplace_back(options.figures, options.boards,
                        options.exposure_s * ((m + 0.5) / moments - 0.5));
  return stages;
}

bool insideSomething(const scene::Scene& scene, const Vec3& eye) {
  return std::any_of(scene.bodies.begin(), scene.bodies.end(), [&](const scene::Body& body) {
    if (body.triangle() || scene.sources[body.source].light > 0) return false;
    for (std::uint32_t i = body.first_plane; i < body.first_plane + body.plane_count; ++i)
      if (dot(scene.planes[i].normal, eye) - scene.planes[i].offset >= -1e-6) return false;
    return true;
  });
}

}  // namespace

Size wholeOf(const View& view, const PhotoOptions& options) {
  return {options.size[0] > 0 ? options.size[0] : view.pixels[0],
          options.size[1] > 0 ? options.size[1] : view.pixels[1]};
}
Size sizeOf(const View& view, const PhotoOptions& options) {
  const Size whole = wholeOf(view, options);
  return {options.part[0] > 0 ? options.part[0] : whole[0],
          options.part[1] > 0 ? options.part[1] : whole[1]};
}

Lighting plausibleLighting(std::optional<double> ambient_lux, double sun_bearing_deg,
                           double sun_elevation_deg) {
  const double bearing = degToRad(sun_bearing_deg), up = degToRad(sun_elevation_deg);
  Lighting light;
  light.toward_sun = {std::sin(bearing) * std::cos(up), std::cos(bearing) * std::cos(up),
                      std::sin(up)};
  const double ambient = ambient_lux.value_or(200);
  if (ambient < kDarkBelowLux) {
    light.fill_lux = ambient;
    light.sky_lux = 0.4 * ambient;
  } else if (ambient < 1000) {
    // A room's light. Outside it is brighter, by no more than a camera of wide dynamic range takes.
    light.fill_lux = ambient;
    light.sky_lux = 2.2 * ambient;
    light.sun_lux = 3.5 * ambient;
  } else {
    light.fill_lux = 0.05 * ambient;
    light.sky_lux = 0.3 * ambient;
    light.sun_lux = 0.7 * ambient / std::max(0.1, light.toward_sun.z);
  }
  return light;
}

Photographing::Photographing(const Subject& s, std::span<const Coat> c, View v,
                             const PhotoOptions& o)
    : subject(s),
      coats(c),
      view(std::move(v)),
      options(o),
      whole(wholeOf(view, o)),
      part(sizeOf(view, o)),
      grid(view, whole, o.part_at, part),
      stages(stagesOf(o)),
      stage_first(static_cast<std::uint32_t>(s.surfaces().size())),
      reach_m(extentOf(s.scene(), view, stages.front())),
      eye_is_inside(insideSomething(s.scene(), view.eye_m)) {
  BELVEDERE_CHECK(coats.size() == s.scene().sources.size(), "a coat for each source");
  const auto weakens = [](const scene::Source& source) {
    return (source.light > 0 && source.light < 1) || (source.infrared > 0 && source.infrared < 1);
  };
  if ((!o.lights.empty() || o.lighting.sun_lux > 0) &&
      std::any_of(s.scene().sources.begin(), s.scene().sources.end(), weakens))
    tree = scene::buildTree(s.scene());
  {
    const auto a = rayOf(view, whole, {0.5 * whole[0], 0.5 * whole[1]});
    const auto b = rayOf(view, whole, {0.5 * whole[0] + 1, 0.5 * whole[1]});
    if (a && b) middle_pixel_rad = norm(*b - *a);
  }
  cell = part[0] > 1600 ? 8 : part[0] > 500 ? 4 : 2;
  cells_across = (part[0] + cell - 1) / cell;
  band_rows = std::clamp(kBandTiles / grid.across(), 1, grid.down());
  strip.width = part[0];
  strip.rows = std::min(band_rows + kRowsAround, grid.down()) * kTile;
  const std::size_t pixels = static_cast<std::size_t>(strip.width) * static_cast<std::size_t>(strip.rows);
  strip.light.resize(pixels);
  strip.surface.resize(pixels);
  strip.distance_m.resize(pixels);
  strip.look_again.resize(pixels);
  strip.bits.resize(pixels);
  strip.ambient.resize(static_cast<std::size_t>(cells_across) *
                       static_cast<std::size_t>(strip.rows / cell));
  if (stages.size() > 1) takeSwept();
}

// Boxes about what moves, over the exposure, and as much about them as a pixel and the blur reach.
void Photographing::takeSwept() {
  const std::size_t figures = options.figures.size();
  std::vector<Box3> boxes(figures + options.boards.size());
  for (const Stage& stage : stages)
    for (const scene::Body& body : stage.scene->bodies) boxes[body.source].add(body.box);
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Vec2 moves = i < figures ? options.figures[i].moves_mps : options.boards[i - figures].moves_mps;
    if (moves == Vec2{} || boxes[i].empty()) continue;
    const double far = norm((boxes[i].low + boxes[i].high) * 0.5 - view.eye_m) +
                       norm(boxes[i].high - boxes[i].low);
    const double more = 2 * middle_pixel_rad * far +
                        options.aperture_m * (1 + far / std::abs(options.focus_m));
    swept.push_back({boxes[i].low - Vec3{more, more, more}, boxes[i].high + Vec3{more, more, more}});
  }
}

bool Photographing::isSwept(const Vec3& from, const Vec3& to) const {
  const Vec3 way = to - from;
  return std::any_of(swept.begin(), swept.end(), [&](const Box3& box) {
    double begin = 0, end = 1;
    const auto cut = [&](double at, double along, double low, double high) {
      if (along == 0) {
        if (at < low || at > high) begin = 2;
        return;
      }
      const double a = (low - at) / along, b = (high - at) / along;
      begin = std::max(begin, std::min(a, b));
      end = std::min(end, std::max(a, b));
    };
    cut(from.x, way.x, box.low.x, box.high.x);
    cut(from.y, way.y, box.low.y, box.high.y);
    cut(from.z, way.z, box.low.z, box.high.z);
    return begin <= end;
  });
}

bool Photographing::maskedAt(double x, double y) const {
  if (!options.masks || view.masks_px.empty()) return false;
  const Vec2 at = lensPlace(view, whole, options.part_at + Vec2{x, y});
  return std::any_of(view.masks_px.begin(), view.masks_px.end(),
                     [&](const Ring& mask) { return contains(mask, at); });
}

void Photographing::takeBlock(const TileRays& tile, int tile_x, int tile_y, std::size_t first,
                              double move_x, double move_y, Block& out) const {
  out.any = false;
  out.rays.near_m.fill(kNearM);
  out.rays.far_m.fill(kForeverM);
  const bool moved = move_x != 0 || move_y != 0;
  {
    const float dx = tile.x[first + 1] - tile.x[first], dy = tile.y[first + 1] - tile.y[first],
                dz = tile.z[first + 1] - tile.z[first];
    out.pixel_rad = static_cast<double>(std::sqrt(dx * dx + dy * dy + dz * dz));
  }
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const std::size_t i = first + k;
    const int u = tileU(i), v = tileV(i);
    out.x[k] = tile_x * kTile + u;
    out.y[k] = tile_y * kTile + v;
    const bool in = out.x[k] < part[0] && out.y[k] < part[1];
    bool traced = in && (tile.all || tile.inside[i] != 0);
    float x = tile.x[i], y = tile.y[i], z = tile.z[i];
    if (in && moved && !tile.all) {
      const auto ray =
          rayOf(view, whole,
                options.part_at + Vec2{out.x[k] + 0.5 + move_x, out.y[k] + 0.5 + move_y});
      traced = ray.has_value();
      if (ray) {
        x = static_cast<float>(ray->x);
        y = static_cast<float>(ray->y);
        z = static_cast<float>(ray->z);
      }
    } else if (moved) {
      const std::size_t right = tileIndex(u < kTile - 1 ? u + 1 : u - 1, v);
      const std::size_t below = tileIndex(u, v < kTile - 1 ? v + 1 : v - 1);
      const auto a = static_cast<float>(u < kTile - 1 ? move_x : -move_x);
      const auto b = static_cast<float>(v < kTile - 1 ? move_y : -move_y);
      const float px = x, py = y, pz = z;
      x += a * (tile.x[right] - px) + b * (tile.x[below] - px);
      y += a * (tile.y[right] - py) + b * (tile.y[below] - py);
      z += a * (tile.z[right] - pz) + b * (tile.z[below] - pz);
      const float length = std::sqrt(x * x + y * y + z * z);
      x /= length;
      y /= length;
      z /= length;
    }
    if (traced && maskedAt(out.x[k] + 0.5 + move_x, out.y[k] + 0.5 + move_y)) traced = false;
    out.rays.x[k] = x;
    out.rays.y[k] = y;
    out.rays.z[k] = z;
    out.rays.traced[k] = traced ? -1 : 0;
    out.any |= traced;
  }
}

// What the middle of each pixel sees.
void Photographing::firstLook(int tile_x, int tile_y) {
  TileRays tile;
  grid.rays(tile_x, tile_y, tile);
  Block block;
  std::array<Lit, kPacketRays> lit;
  std::array<Colour, kPacketRays> veil;
  std::array<float, kPacketRays> passes;
  for (std::size_t first = 0; first < kTilePixels; first += kPacketRays) {
    takeBlock(tile, tile_x, tile_y, first, 0, 0, block);
    if (block.any)
      see(kMoments / 2, view.eye_m, block.rays, block.pixel_rad, false, lit, veil, passes);
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      if (block.x[k] >= part[0] || block.y[k] >= part[1]) continue;
      const std::size_t to = strip.at(block.x[k], block.y[k]);
      const std::size_t i = first + k;
      // What was there of rows before.
      strip.light[to] = {};
      strip.bits[to] = {};
      strip.look_again[to] = 0;
      const bool outside = !tile.all && tile.inside[i] == 0;
      strip.surface[to] = outside                     ? kOutsideSurface
                          : block.rays.traced[k] == 0 ? kMaskedSurface
                                                      : lit[k].surface;
      strip.distance_m[to] =
          block.rays.traced[k] == 0 ? kForeverM : lit[k].distance_m;
      if (swept.empty() || block.rays.traced[k] == 0) continue;
      const double far = std::min(static_cast<double>(lit[k].distance_m), reach_m);
      strip.look_again[to] = isSwept(view.eye_m, view.eye_m + rayOfLane(block.rays, k) * far) 
                                 ? kMoving
                                 : 0;
    }
  }
}

// Light from everywhere, at the middle of each cell: by few rays where it is little beside that of lamps
// and sun.
void Photographing::gatherTile(int tile_x, int tile_y) {
  TileRays tile;
  grid.rays(tile_x, tile_y, tile);
  const Lighting& lighting = options.lighting;
  const bool any_direct = !options.lights.empty() || lighting.sun_lux > 0;
  const double most_lux = 1.5 * lighting.fill_lux + 1.6 * lighting.sky_lux + 0.5 * lighting.sun_lux;
  std::array<Lit, kPacketRays> lit;
  std::array<Colour, kPacketRays> direct{};
  std::array<float, kPacketRays> passes;
  passes.fill(1);
  const int across = kTile / cell, cells = across * across;
  for (int begin = 0; begin < cells; begin += kPacketRays) {
    const auto count = static_cast<std::size_t>(std::min<int>(kPacketRays, cells - begin));
    std::array<std::size_t, kPacketRays> to{};
    std::array<std::uint32_t, kPacketRays> turn{};
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      lit[k] = {};
      lit[k].surface = kSkySurface;
      if (k >= count) continue;
      const int c = begin + static_cast<int>(k);
      const int u = c % across * cell + cell / 2, v = c / across * cell + cell / 2;
      const int x = tile_x * kTile + u, y = tile_y * kTile + v;
      if (x >= part[0] || y >= part[1]) continue;
      const std::size_t pixel = strip.at(x, y);
      const std::uint32_t surface = strip.surface[pixel];
      const bool plain = surface == kPlainSurface;
      if (surface >= stage_first && !plain) continue;
      const std::size_t i = tileIndex(u, v);
      const Vec3 dir{static_cast<double>(tile.x[i]), static_cast<double>(tile.y[i]),
                     static_cast<double>(tile.z[i])};
      Lit& of = lit[k];
      of.surface = surface;
      of.distance_m = strip.distance_m[pixel];
      of.at_m = view.eye_m + dir * static_cast<double>(of.distance_m);
      of.normal = plain ? Vec3{0, 0, 1} : subject.surfaces()[surface].normal;
      if (dot(of.normal, dir) > 0) of.normal = -of.normal;
      of.albedo = {1, 1, 1};
      to[k] = cellAt(x / cell, y / cell);
      turn[k] = static_cast<std::uint32_t>((x / cell & 1) * 2 + (y / cell & 1));
    }
    if (any_direct) shine(kMoments / 2, view.eye_m, lit, passes, nullptr, nullptr, direct);
    for (std::size_t k = 0; k < count; ++k) {
      if (lit[k].surface == kSkySurface) continue;
      const bool little = most_lux < kLittleLight * static_cast<double>(brightness(direct[k]));
      strip.ambient[to[k]] =
          gathered(kMoments / 2, lit[k].at_m, lit[k].normal, static_cast<double>(lit[k].distance_m),
                   little ? kFeelersOfOne : kFeelers, turn[k]);
    }
  }
}

// From the cells around that see the same surface, over a field that evens out their four sets of
// rays. Nothing where there are none, and on what stands on the stage.
std::optional<Colour> Photographing::ambientOfCells(int x, int y, std::uint32_t surface) const {
  if (surface >= stage_first && surface != kPlainSurface) return {};
  const int half = cell / 2;
  const double at_x = static_cast<double>(x - half) / cell,
               at_y = static_cast<double>(y - half) / cell;
  const int i0 = static_cast<int>(std::floor(at_x)), j0 = static_cast<int>(std::floor(at_y));
  Colour sum{};
  float weights = 0;
  for (int j = j0 - 1; j <= j0 + 2; ++j)
    for (int i = i0 - 1; i <= i0 + 2; ++i) {
      const int cx = i * cell + half, cy = j * cell + half;
      if (i < 0 || j < 0 || cx >= part[0] || cy >= part[1]) continue;
      if (strip.surface[strip.at(cx, cy)] != surface) continue;
      // A tent four cells wide, under which every second cell weighs as much as those between.
      const auto w = static_cast<float>(std::max(0.0, 2 - std::abs(i - at_x)) *
                                        std::max(0.0, 2 - std::abs(j - at_y)));
      sum = sum + strip.ambient[cellAt(i, j)] * w;
      weights += w;
    }
  if (weights > 0.05f) return sum * (1 / weights);
  return {};
}

// Of the cells, where they see that surface; else by rays of its own, which all of a pixel's rays share
// that meet the same surface.
Colour Photographing::ambientOf(const Lit& of, int x, int y, std::size_t lane, std::uint32_t moment,
                                std::uint32_t turn, KnownLight* known) const {
  if (known && known->has_ambient[lane] && known->surface[lane] == of.surface)
    return known->ambient[lane];
  if (known)
    for (std::size_t i = 0; i < known->other_count[lane]; ++i)
      if (known->others[lane][i].surface == of.surface) return known->others[lane][i].ambient;
  const auto of_cells = ambientOfCells(x, y, of.surface);
  const Colour ambient_there =
      of_cells ? *of_cells
               : gathered(moment, of.at_m, of.normal, static_cast<double>(of.distance_m),
                          known ? kFeelers : kFeelersOfOne,
                          kCellTurns + turn + mixed(static_cast<std::uint32_t>(x), static_cast<std::uint32_t>(y)));
  if (known && known->other_count[lane] < KnownLight::kMostOthers)
    known->others[lane][known->other_count[lane]++] = {of.surface, ambient_there};
  return ambient_there;
}

void Photographing::lightOf(const Vec3& eye, RayPacket& rays, double pixel_rad,
                            const std::array<std::int32_t, kPacketRays>& pixel_x,
                            const std::array<std::int32_t, kPacketRays>& pixel_y,
                            std::uint32_t moment, std::uint32_t turn, KnownLight* known,
                            std::array<LightBits, kPacketRays>* found, Light16& out) const {
  std::array<Lit, kPacketRays> lit;
  std::array<Colour, kPacketRays> veil;
  std::array<float, kPacketRays> passes;
  see(moment, eye, rays, pixel_rad, true, lit, veil, passes);
  for (std::size_t k = 0; k < kPacketRays; ++k)
    if (rays.traced[k] != 0 && (lit[k].surface < kNoSurface || lit[k].surface == kPlainSurface))
      lit[k].ambient = ambientOf(lit[k], pixel_x[k], pixel_y[k], k, moment, turn, known);
  shine(moment, eye, lit, passes, known, found, out.light);
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    out.light[k] = veil[k] + out.light[k] * passes[k];
    if (options.mono) {
      const float grey = brightness(out.light[k]);
      out.light[k] = {grey, grey, grey};
    }
    out.surface[k] = lit[k].surface;
    out.distance_m[k] = lit[k].distance_m;
  }
}

void Photographing::lightTile(int tile_x, int tile_y) {
  TileRays tile;
  grid.rays(tile_x, tile_y, tile);
  Block block;
  Light16 seen;
  std::array<LightBits, kPacketRays> found;
  for (std::size_t first = 0; first < kTilePixels; first += kPacketRays) {
    takeBlock(tile, tile_x, tile_y, first, 0, 0, block);
    if (!block.any) continue;
    lightOf(view.eye_m, block.rays, block.pixel_rad, block.x, block.y, kMoments / 2, 0, nullptr,
            &found, seen);
    for (std::size_t k = 0; k < kPacketRays; ++k)
      if (block.rays.traced[k] != 0) {
        const std::size_t to = strip.at(block.x[k], block.y[k]);
        strip.light[to] = seen.light[k];
        strip.bits[to] = found[k];
      }
  }
}

}  // namespace belvedere::picture
