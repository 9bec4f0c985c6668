// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rays of all pixels of a picture, tile by tile. The lens's exact inverse is asked at every
// sixteenth pixel and at the middles between; where cubics through those (Lagrange's, four by four)
// agree with the middle to kGridErrorPx, they give the pixels' rays, else the lens itself does.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "picture/view.h"

namespace belvedere::picture {

inline constexpr int kTile = 16;
inline constexpr std::size_t kTilePixels = kTile * kTile;
inline constexpr double kGridErrorPx = 0.01;

// Pixels of a tile in squares of four by four, so that sixteen in a row are neighbours.
constexpr std::size_t tileIndex(int u, int v) {
  return static_cast<std::size_t>(((v >> 2) * 4 + (u >> 2)) * 16 + (v & 3) * 4 + (u & 3));
}
constexpr int tileU(std::size_t i) { return static_cast<int>(((i >> 4) & 3) * 4 + (i & 3)); }
constexpr int tileV(std::size_t i) { return static_cast<int>((i >> 6) * 4 + ((i >> 2) & 3)); }

struct TileRays {
  alignas(64) std::array<float, kTilePixels> x, y, z;  // unit, site, through the pixels' middles
  bool all = true;                                     // no pixel lies outside the image circle
  std::array<std::uint8_t, kTilePixels> inside;        // set where `all` is false
};

class RayGrid {
 public:
  // Of a picture of `size`; or only of a part of it, whose top left corner lies at `origin`.
  RayGrid(const View& view, Size size) : RayGrid(view, size, {0, 0}, size) {}
  RayGrid(const View& view, Size whole, Vec2 origin, Size part);
  int across() const { return across_; }  // tiles
  int down() const { return down_; }
  void rays(int tile_x, int tile_y, TileRays& out) const;

 private:
  std::optional<Vec3> rayAt(double x, double y) const {
    return rayOf(view_, size_, {origin_.x + x, origin_.y + y});
  }

  const View view_;
  Size size_;    // of the whole picture
  Vec2 origin_;
  int across_ = 0, down_ = 0;
  std::vector<float> x_, y_, z_;       // nodes, one row and column more before, two after
  std::vector<std::uint8_t> smooth_;   // per tile
};

}  // namespace belvedere::picture
