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
// Blur below this needs no rays of its own.
constexpr double kSharpPx = 0.6;

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

// Whether anything in this tile or in one of its neighbours is out of focus.
bool Photographing::blurredNear(int tile_x, int tile_y) const {
  if (!(options.aperture_m > 0)) return false;
  const double most_rad = kSharpPx * middle_pixel_rad;
  const int y1 = std::min(part[1], (tile_y + 2) * kTile),
            x1 = std::min(part[0], (tile_x + 2) * kTile);
  for (int y = std::max(0, (tile_y - 1) * kTile); y < y1; ++y)
    for (int x = std::max(0, (tile_x - 1) * kTile); x < x1; ++x) {
      const auto far = static_cast<double>(photo.distance_m[photo.at(x, y)]);
      if (2 * options.aperture_m * std::abs(1 / far - 1 / options.focus_m) > most_rad) return true;
    }
  return false;
}

void Photographing::markTile(int tile_x, int tile_y) {
  // What is blurred takes its light from farther away than the next pixel.
  const bool all = stages.size() > 1 || blurredNear(tile_x, tile_y);
  for (int v = 0; v < kTile; ++v)
    for (int u = 0; u < kTile; ++u) {
      const int x = tile_x * kTile + u, y = tile_y * kTile + v;
      if (x >= part[0] || y >= part[1]) continue;
      const std::size_t pixel = photo.at(x, y);
      const std::uint32_t own = photo.surface[pixel];
      bool again = all || (own >= stage_first && own < kNoSurface);
      const float own_light = brightness(photo.light[pixel]);
      for (int dy = -1; dy <= 1 && !again; ++dy)
        for (int dx = -1; dx <= 1 && !again; ++dx) {
          const int nx = x + dx, ny = y + dy;
          if (nx < 0 || ny < 0 || nx >= part[0] || ny >= part[1]) continue;
          const std::size_t next = photo.at(nx, ny);
          const std::uint32_t other = photo.surface[next];
          const float light = brightness(photo.light[next]);
          again = (other >= stage_first && other < kNoSurface) ||
                  std::abs(light - own_light) > kDiffers * (light + own_light) ||
                  (other != own && (other >= kNoSurface) != (own >= kNoSurface));
        }
      look_again[pixel] = again ? 1 : 0;
    }
}

void Photographing::lookAgainTile(int tile_x, int tile_y) {
  TileRays tile;
  grid.rays(tile_x, tile_y, tile);
  Block block;
  Light16 seen;
  for (std::size_t first = 0; first < kTilePixels; first += kPacketRays) {
    bool any = false;
    std::array<bool, kPacketRays> wanted{};
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      const int x = tile_x * kTile + tileU(first + k), y = tile_y * kTile + tileV(first + k);
      wanted[k] = x < part[0] && y < part[1] && look_again[photo.at(x, y)] != 0;
      any |= wanted[k];
    }
    if (!any) continue;
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
      lightOf(eye, block.rays, block.pixel_rad, block.x, block.y, s * 7 % kMoments, 1 + s, seen);
      for (std::size_t k = 0; k < kPacketRays; ++k)
        if (block.rays.traced[k] != 0) sum[k] = sum[k] + seen.light[k];
    }
    for (std::size_t k = 0; k < kPacketRays; ++k)
      if (wanted[k]) photo.light[photo.at(block.x[k], block.y[k])] = sum[k] * (1.0f / 16);
  }
}

}  // namespace belvedere::picture
