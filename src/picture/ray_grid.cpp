// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/ray_grid.h"

#include <tbb/parallel_for.h>

#include <cmath>
#include <cstring>
#include <limits>

#include "base/any_width.h"

namespace belvedere::picture {
namespace {

// Weight of node n (-1, 0, 1, 2) at t in [0, 1].
constexpr double weight(int n, double t) {
  double w = 1;
  for (int m = -1; m <= 2; ++m)
    if (m != n) w *= (t - m) / (n - m);
  return w;
}
struct Weights {
  alignas(64) float at[4][kTile]{};
  constexpr Weights() {
    for (int n = 0; n < 4; ++n)
      for (int k = 0; k < kTile; ++k)
        at[n][k] = static_cast<float>(weight(n - 1, (k + 0.5) / kTile));
  }
};
constexpr Weights kWeights;

// A tile of one coordinate, row by row, from its four by four nodes.
BELVEDERE_ANY_WIDTH
void interpolate(const float* __restrict nodes, std::size_t stride, const float (*w)[kTile],
                 float* __restrict out) {
  for (std::size_t v = 0; v < kTile; ++v) {
    float c[4];
    for (std::size_t j = 0; j < 4; ++j)
      c[j] = w[0][v] * nodes[j] + w[1][v] * nodes[stride + j] + w[2][v] * nodes[2 * stride + j] +
             w[3][v] * nodes[3 * stride + j];
    for (std::size_t u = 0; u < kTile; ++u)
      out[v * kTile + u] = w[0][u] * c[0] + w[1][u] * c[1] + w[2][u] * c[2] + w[3][u] * c[3];
  }
}

void inSquares(const float* rows, float* out) {
  for (std::size_t i = 0; i < kTilePixels; i += 4)
    std::memcpy(out + i, rows + tileV(i) * kTile + tileU(i), 4 * sizeof(float));
}

}  // namespace

RayGrid::RayGrid(const View& view, Size whole, Vec2 origin, Size part)
    : view_(view),
      size_(whole),
      origin_(origin),
      across_((part[0] + kTile - 1) / kTile),
      down_((part[1] + kTile - 1) / kTile) {
  const auto columns = static_cast<std::size_t>(across_ + 3);
  const auto rows = static_cast<std::size_t>(down_ + 3);
  const auto tiles_across = static_cast<std::size_t>(across_);
  x_.resize(columns * rows);
  y_.resize(columns * rows);
  z_.resize(columns * rows);
  tbb::parallel_for(std::size_t{0}, rows, [&](std::size_t row) {
    for (std::size_t column = 0; column < columns; ++column) {
      const auto ray = rayAt(kTile * (static_cast<double>(column) - 1),
                             kTile * (static_cast<double>(row) - 1));
      const std::size_t at = row * columns + column;
      const float none = std::numeric_limits<float>::quiet_NaN();
      x_[at] = ray ? static_cast<float>(ray->x) : none;
      y_[at] = ray ? static_cast<float>(ray->y) : none;
      z_[at] = ray ? static_cast<float>(ray->z) : none;
    }
  });
  smooth_.resize(tiles_across * static_cast<std::size_t>(down_));
  std::array<double, 4> middle;
  for (int n = 0; n < 4; ++n) middle[static_cast<std::size_t>(n)] = weight(n - 1, 0.5);
  tbb::parallel_for(0, down_, [&](int tile_y) {
    for (int tile_x = 0; tile_x < across_; ++tile_x) {
      const std::size_t first =
          static_cast<std::size_t>(tile_y) * columns + static_cast<std::size_t>(tile_x);
      Vec3 guess;
      for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t j = 0; j < 4; ++j) {
          const std::size_t at = first + i * columns + j;
          guess = guess + Vec3{static_cast<double>(x_[at]), static_cast<double>(y_[at]),
                               static_cast<double>(z_[at])} *
                              (middle[i] * middle[j]);
        }
      // Two neighbouring nodes are a tile's width apart; NaN passes no test.
      const std::size_t a = first + columns + 1, b = a + 1;
      const double spacing = norm(Vec3{static_cast<double>(x_[b] - x_[a]),
                                       static_cast<double>(y_[b] - y_[a]),
                                       static_cast<double>(z_[b] - z_[a])}) / kTile;
      bool smooth = false;
      if (std::isfinite(guess.x))
        if (const auto exact = rayAt(kTile * (tile_x + 0.5), kTile * (tile_y + 0.5)))
          smooth = norm(guess - *exact) < kGridErrorPx * spacing + 2e-7;
      smooth_[static_cast<std::size_t>(tile_y) * tiles_across + static_cast<std::size_t>(tile_x)] =
          smooth ? 1 : 0;
    }
  });
}

void RayGrid::rays(int tile_x, int tile_y, TileRays& out) const {
  out.all = true;
  const std::size_t columns = static_cast<std::size_t>(across_ + 3);
  const std::size_t first =
      static_cast<std::size_t>(tile_y) * columns + static_cast<std::size_t>(tile_x);
  if (smooth_[static_cast<std::size_t>(tile_y) * static_cast<std::size_t>(across_) +
              static_cast<std::size_t>(tile_x)] != 0) {
    alignas(64) std::array<float, kTilePixels> rows;
    interpolate(&x_[first], columns, kWeights.at, rows.data());
    inSquares(rows.data(), out.x.data());
    interpolate(&y_[first], columns, kWeights.at, rows.data());
    inSquares(rows.data(), out.y.data());
    interpolate(&z_[first], columns, kWeights.at, rows.data());
    inSquares(rows.data(), out.z.data());
    return;
  }
  for (std::size_t i = 0; i < kTilePixels; ++i) {
    const auto ray =
        rayAt(tile_x * kTile + tileU(i) + 0.5, tile_y * kTile + tileV(i) + 0.5);
    const Vec3 d = ray.value_or(Vec3{0, 0, 1});
    out.x[i] = static_cast<float>(d.x);
    out.y[i] = static_cast<float>(d.y);
    out.z[i] = static_cast<float>(d.z);
    out.inside[i] = ray ? 1 : 0;
    if (!ray) out.all = false;
  }
}

}  // namespace belvedere::picture
