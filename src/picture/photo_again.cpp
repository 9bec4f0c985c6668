// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pixels that take sixteen rays: along edges, out of focus, where something moves.
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "picture/photo_work.h"

namespace belvedere::picture {
namespace {

using scene::kPacketRays;
using scene::RayPacket;

// Pixels that differ from a neighbour by this share of what both send take sixteen rays.
constexpr float kDiffers = 0.06f;
// Blur less wide than this needs no rays of its own.
constexpr double kSharpPx = 0.6;
// Where all that a blurred pixel is made of differs by no more than this share, its middle will do: it is
// off by much less, as what lies about it evens out.
constexpr float kAlike = 0.02f;
constexpr int kBlock = 4;  // pixels, along each side, that are looked at together

}  // namespace

// Moves the eye to a place of the aperture and the rays to where they were in focus.
Vec3 Photographing::throughAperture(std::uint32_t sample, std::uint32_t turn,
                                    RayPacket& rays) const {
  if (!(options.aperture_m > 0)) return view.eye_m;
  // Sixteen places of a disc of equal area each, turned from block to block.
  const double r = options.aperture_m * std::sqrt((sample * 5 % 16 + 0.5) / 16);
  const double angle = 2 * kPi * (sample * 0.6180339887 + shareOf(turn));
  const Vec3 &right = view.view_from_site.row[0], &down = view.view_from_site.row[1],
             &forward = view.view_from_site.row[2];
  const Vec3 moved = right * (r * std::cos(angle)) + down * (r * std::sin(angle));
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const Vec3 d{static_cast<double>(rays.x[k]), static_cast<double>(rays.y[k]),
                 static_cast<double>(rays.z[k])};
    const double ahead = dot(d, forward);
    if (!(ahead > 0.02)) continue;  // no plane of focus there
    const Vec3 to = normalized(d * (1 / ahead) - moved * (1 / options.focus_m));
    rays.x[k] = static_cast<float>(to.x);
    rays.y[k] = static_cast<float>(to.y);
    rays.z[k] = static_cast<float>(to.z);
  }
  return view.eye_m + moved;
}

// How far, at most, light of this tile or of one of its neighbours is spread to either side, in pixels;
// 0 where that is not worth rays. With the pixel beside it no more than a tile.
double Photographing::blurPx(int tile_x, int tile_y) const {
  if (!(options.aperture_m > 0)) return 0;
  double least = std::numeric_limits<double>::infinity(), most = -least;  // of 1 / distance
  const int y1 = std::min(part[1], (tile_y + 2) * kTile),
            x1 = std::min(part[0], (tile_x + 2) * kTile);
  for (int y = std::max(0, (tile_y - 1) * kTile); y < y1; ++y)
    for (int x = std::max(0, (tile_x - 1) * kTile); x < x1; ++x) {
      const double near = 1 / static_cast<double>(strip.distance_m[strip.at(x, y)]);
      least = std::min(least, near);
      most = std::max(most, near);
    }
  const double in_focus = 1 / options.focus_m;
  const double spread_px = options.aperture_m *
                           std::max(std::abs(least - in_focus), std::abs(most - in_focus)) /
                           middle_pixel_rad;
  return 2 * spread_px > kSharpPx ? std::min(spread_px, kTile - 1.0) : 0;
}

// Whether light differs between a block of pixels and those around it, so far.
bool Photographing::variesNear(int block_x, int block_y, int reach_px) const {
  const int x0 = std::max(0, block_x - reach_px), y0 = std::max(0, block_y - reach_px);
  const int x1 = std::min(part[0], block_x + kBlock + reach_px),
            y1 = std::min(part[1], block_y + kBlock + reach_px);
  Colour least = strip.light[strip.at(x0, y0)], most = least;
  for (int y = y0; y < y1; ++y) {
    const Colour* row = &strip.light[strip.at(x0, y)];
    for (int x = 0; x < x1 - x0; ++x) {
      const Colour c = row[x];
      least = {std::min(least.red, c.red), std::min(least.green, c.green),
               std::min(least.blue, c.blue)};
      most = {std::max(most.red, c.red), std::max(most.green, c.green),
              std::max(most.blue, c.blue)};
    }
    const float allowed = kAlike * (brightness(most) + brightness(least));
    if (std::max({most.red - least.red, most.green - least.green, most.blue - least.blue}) > allowed)
      return true;
  }
  return false;
}

void Photographing::markTile(int tile_x, int tile_y) {
  // What is blurred takes its light from farther away than the next pixel.
  const double blur_px = blurPx(tile_x, tile_y);
  const int reach_px = static_cast<int>(std::ceil(blur_px)) + 1;
  for (int v = 0; v < kTile; ++v)
    for (int u = 0; u < kTile; ++u) {
      const int x = tile_x * kTile + u, y = tile_y * kTile + v;
      if (x >= part[0] || y >= part[1]) continue;
      const std::size_t pixel = strip.at(x, y);
      const std::uint32_t own = strip.surface[pixel];
      const bool moving = (strip.look_again[pixel] & kMoving) != 0;
      bool again = moving || (own >= stage_first && own < kNoSurface);
      if (blur_px > 0 && u % kBlock == 0 && v % kBlock == 0 && variesNear(x, y, reach_px))
        for (int j = y; j < std::min(part[1], y + kBlock); ++j)
          for (int i = x; i < std::min(part[0], x + kBlock); ++i) strip.look_again[strip.at(i, j)] |= kAgain;
      const Colour own_light = strip.light[pixel];
      for (int dy = -1; dy <= 1 && !again; ++dy)
        for (int dx = -1; dx <= 1 && !again; ++dx) {
          const int nx = x + dx, ny = y + dy;
          if (nx < 0 || ny < 0 || nx >= part[0] || ny >= part[1]) continue;
          const std::size_t next = strip.at(nx, ny);
          const std::uint32_t other = strip.surface[next];
          const Colour light = strip.light[next];
          const float differs =
              std::max({std::abs(light.red - own_light.red), std::abs(light.green - own_light.green),
                        std::abs(light.blue - own_light.blue)});
          again = (other >= stage_first && other < kNoSurface) ||
                  differs > kDiffers * (brightness(light) + brightness(own_light)) ||
                  (other != own && (other >= kNoSurface) != (own >= kNoSurface));
        }
      if (again) strip.look_again[pixel] |= kAgain;
    }
}

// For the pixels' rays that meet what their middles see. reach_px: so far their rays are spread.
void Photographing::know(const Block& middles, const std::array<bool, kPacketRays>& wanted,
                         int reach_px, KnownLight& known) const {
  known.surface.fill(kSkySurface);
  known.has_ambient.fill(false);
  known.other_count.fill(0);
  known.lux.resize(options.lights.size());
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    if (!wanted[k]) continue;
    const int x = middles.x[k], y = middles.y[k];
    const std::uint32_t own = strip.surface[strip.at(x, y)];
    const bool plain = own == kPlainSurface;
    if (own >= stage_first && !plain) continue;
    known.surface[k] = own;
    if (const auto of_cells = ambientOfCells(x, y, own)) {
      known.ambient[k] = *of_cells;
      known.has_ambient[k] = true;
    }
    const Vec3 dir = rayOfLane(middles.rays, k);
    const Vec3 at_m = view.eye_m + dir * static_cast<double>(strip.distance_m[strip.at(x, y)]);
    Vec3 normal = plain ? Vec3{0, 0, 1} : subject.surfaces()[own].normal;
    if (dot(normal, dir) > 0) normal = -normal;
    for (std::size_t i = 0; i < options.lights.size(); ++i)
      known.lux[i][k] = luxOn(options.lights[i], at_m, normal);
    LightBits all{~0u, ~0u};
    for (int j = std::max(0, y - reach_px); j <= std::min(part[1] - 1, y + reach_px); ++j)
      for (int i = std::max(0, x - reach_px); i <= std::min(part[0] - 1, x + reach_px); ++i) {
        const std::size_t next = strip.at(i, j);
        if (strip.surface[next] != own) continue;
        all.lit &= strip.bits[next].lit;
        all.dark &= strip.bits[next].dark;
      }
    known.bits[k] = all;
  }
}

void Photographing::lookAgainTile(int tile_x, int tile_y) {
  TileRays tile;
  bool have_rays = false;
  Block block;
  Light16 seen;
  KnownLight known;
  int reach_px = 0;
  for (std::size_t first = 0; first < kTilePixels; first += kPacketRays) {
    bool any = false;
    std::array<bool, kPacketRays> wanted{};
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const int x = tile_x * kTile + tileU(first + k), y = tile_y * kTile + tileV(first + k);
      wanted[k] = x < part[0] && y < part[1] && (strip.look_again[strip.at(x, y)] & kAgain) != 0;
      any |= wanted[k];
    }
    if (!any) continue;
    if (!have_rays) {
      grid.rays(tile_x, tile_y, tile);
      reach_px = static_cast<int>(std::ceil(blurPx(tile_x, tile_y))) + 1;
      have_rays = true;
    }
    takeBlock(tile, tile_x, tile_y, first, 0, 0, block);
    know(block, wanted, reach_px, known);
    std::array<Colour, kPacketRays> sum{};
    for (std::uint32_t s = 0; s < 16; ++s) {
      const double move_x = (s % 4 + 0.5) / 4 - 0.5, move_y = (s / 4 + 0.5) / 4 - 0.5;
      takeBlock(tile, tile_x, tile_y, first, move_x, move_y, block);
      for (std::size_t k = 0; k < kPacketRays; ++k)
        if (!wanted[k]) block.rays.traced[k] = 0;
      const Vec3 eye = throughAperture(
          s, mixed(static_cast<std::uint32_t>(block.x[0]), static_cast<std::uint32_t>(block.y[0])),
          block.rays);
      // Moments in another order than places in the pixel.
      lightOf(eye, block.rays, block.pixel_rad, block.x, block.y, s * 7 % kMoments, 1 + s, &known,
              nullptr, seen);
      for (std::size_t k = 0; k < kPacketRays; ++k)
        if (block.rays.traced[k] != 0) sum[k] = sum[k] + seen.light[k];
    }
    for (std::size_t k = 0; k < kPacketRays; ++k)
      if (wanted[k]) strip.light[strip.at(block.x[k], block.y[k])] = sum[k] * (1.0f / 16);
  }
}

}  // namespace belvedere::picture
