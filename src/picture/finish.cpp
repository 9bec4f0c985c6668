// SPDX-License-Identifier: GPL-3.0-or-later
//
// The last pass: shade where surfaces come near each other, smooth edges, ink lines, the frame.
#include <tbb/blocked_range2d.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/units.h"
#include "picture/work.h"

namespace belvedere::picture {
namespace {

using scene::HitPacket;
using scene::kNoTriangle;
using scene::kPacketRays;
using scene::RayPacket;

// Rays by which a spot feels what stands near: as many in a direction as its cosine asks for
// (Hammersley's points).
constexpr std::size_t kFeelers = 2 * kPacketRays;
struct Feelers {
  std::array<Vec3, kFeelers> at;
  Feelers() {
    for (std::size_t i = 0; i < kFeelers; ++i) {
      double turn = 0, half = 0.5;
      for (std::size_t bits = i; bits != 0; bits >>= 1, half *= 0.5)
        if ((bits & 1) != 0) turn += half;
      const double share = (static_cast<double>(i) + 0.5) / kFeelers, rho = std::sqrt(share);
      at[i] = {rho * std::cos(2 * kPi * turn), rho * std::sin(2 * kPi * turn),
               std::sqrt(1 - share)};
    }
  }
};

constexpr float kLineInk = 0.62f;
constexpr float kSmoothCosine = 0.766f;  // faces of one thing that meet within 40 degrees: no line

bool isSurface(std::uint32_t surface) { return surface < kNoSurface; }

Colour darkened(const Paint& paint, Colour colour, float shade) {
  const bool dark = paint.paper.green < paint.ink.green;
  return dark ? mix(colour, paint.paper * 0.4f, 0.7f * shade)
              : mix(colour, paint.ink, 0.5f * shade);
}

}  // namespace

void Renderer::Work::shadeContacts(const Progress& progress) {
  static const Feelers feelers;
  const int across = (size[0] + kContactStep - 1) / kContactStep;
  const int down = (size[1] + kContactStep - 1) / kContactStep;
  contact.assign(static_cast<std::size_t>(across) * static_cast<std::size_t>(down), 0.0f);
  constexpr int kCells = kTile / kContactStep;
  tbb::parallel_for(
      tbb::blocked_range2d<int>(0, grid->down(), 1, 0, grid->across(), 4), [&](const auto& range) {
        TileRays rays;
        alignas(64) RayPacket packet;
        HitPacket hit;
        for (int ty = range.rows().begin(); ty < range.rows().end(); ++ty)
          for (int tx = range.cols().begin(); tx < range.cols().end(); ++tx) {
            progress.throwIfCancelled();
            grid->rays(tx, ty, rays);
            for (int cell = 0; cell < kCells * kCells; ++cell) {
              const int u = cell % kCells * kContactStep + kContactStep / 2;
              const int v = cell / kCells * kContactStep + kContactStep / 2;
              const int x = tx * kTile + u, y = ty * kTile + v;
              if (x >= size[0] || y >= size[1]) continue;
              const std::size_t pixel = picture.at(x, y);
              const std::uint32_t surface = picture.surface[pixel];
              if (!isSurface(surface) && surface != kPlainSurface) continue;
              const std::size_t i = tileIndex(u, v);
              const auto far = static_cast<double>(picture.distance_m[pixel]);
              const Vec3 d{static_cast<double>(rays.x[i]), static_cast<double>(rays.y[i]),
                           static_cast<double>(rays.z[i])};
              Vec3 normal = isSurface(surface) ? surfaceOf(surface).normal : Vec3{0, 0, 1};
              if (dot(normal, d) > 0) normal = -normal;
              const double reach = std::clamp(0.06 * far, 0.5, 2.5);
              const Vec3 from = view.eye_m + d * far + normal * (1e-3 + 2e-5 * far);
              const Vec3 side = normalized(std::abs(normal.z) < 0.9 ? cross({0, 0, 1}, normal)
                                                                    : cross({0, 1, 0}, normal));
              const Vec3 other = cross(normal, side);
              packet.near_m.fill(0);
              packet.far_m.fill(static_cast<float>(reach));
              packet.traced.fill(-1);
              float near = 0;
              for (std::size_t first = 0; first < kFeelers; first += kPacketRays) {
                for (std::size_t k = 0; k < kPacketRays; ++k) {
                  const Vec3& f = feelers.at[first + k];
                  const Vec3 ray = side * f.x + other * f.y + normal * f.z;
                  packet.x[k] = static_cast<float>(ray.x);
                  packet.y[k] = static_cast<float>(ray.y);
                  packet.z[k] = static_cast<float>(ray.z);
                }
                hits(from, packet, scene::StopsAt::opaque, hit);
                for (std::size_t k = 0; k < kPacketRays; ++k)
                  if (hit.triangle[k] != kNoTriangle)
                    near += 1 - hit.distance_m[k] / static_cast<float>(reach);
              }
              contact[static_cast<std::size_t>(y / kContactStep * across + x / kContactStep)] =
                  near / kFeelers;
            }
          }
      });
}

// Between the four cells around, those of the same surface.
float Renderer::Work::contactAt(int x, int y) const {
  const int across = (size[0] + kContactStep - 1) / kContactStep;
  const int down = (size[1] + kContactStep - 1) / kContactStep;
  const std::uint32_t surface = picture.surface[picture.at(x, y)];
  if (!isSurface(surface) && surface != kPlainSurface) return 0;
  constexpr int kHalf = kContactStep / 2;
  const int i0 = (x + kHalf) / kContactStep - 1, j0 = (y + kHalf) / kContactStep - 1;
  float sum = 0, weights = 0;
  for (int j = j0; j <= j0 + 1; ++j)
    for (int i = i0; i <= i0 + 1; ++i) {
      const int cx = i * kContactStep + kHalf, cy = j * kContactStep + kHalf;
      if (i < 0 || j < 0 || i >= across || j >= down || cx >= size[0] || cy >= size[1]) continue;
      const float wx = 1 - static_cast<float>(std::abs(x - cx)) / kContactStep;
      const float wy = 1 - static_cast<float>(std::abs(y - cy)) / kContactStep;
      const bool same = picture.surface[picture.at(cx, cy)] == surface;
      const float w = (wx * wy + 1e-3f) * (same ? 1 : 1e-3f);
      sum += w * contact[static_cast<std::size_t>(j * across + i)];
      weights += w;
    }
  return weights > 0 ? sum / weights : 0;
}

// How strong a line is drawn between two neighbouring pixels.
float Renderer::Work::edge(std::uint32_t a, float a_m, std::uint32_t b, float b_m) const {
  if (a == b) return 0;
  if (!isSurface(a) || !isSurface(b)) {
    const auto quiet = [](std::uint32_t s) {
      return s == kSkySurface || s == kPlainSurface || s == kOutsideSurface || s == kMaskedSurface;
    };
    return quiet(a) && quiet(b) ? 0 : a == kOutsideSurface || b == kOutsideSurface ||
                                          a == kMaskedSurface || b == kMaskedSurface ? 0 : 0.9f;
  }
  const float near_m = std::min(a_m, b_m);
  const float fade = 30 / (30 + near_m);
  const Surface one = surfaceOf(a), two = surfaceOf(b);
  const auto count = static_cast<std::uint32_t>(subject->surfaces().size());
  const bool same_thing = one.source == two.source && (a < count) == (b < count);
  const bool jump = std::abs(a_m - b_m) > 0.1f + 0.06f * near_m;
  const auto cosine = static_cast<float>(dot(one.normal, two.normal));
  if (same_thing && !jump)
    return cosine > kSmoothCosine ? 0 : 0.6f * (0.4f + 0.6f * fade);
  if (!same_thing && cosine > 0.9999f && std::abs(one.offset - two.offset) < 1e-3)
    return 0.35f * (0.4f + 0.6f * fade);
  return (jump ? 1.0f : 0.75f) * (0.4f + 0.6f * fade);
}

void Renderer::Work::finishTile(int tile_x, int tile_y) {
  const int x0 = tile_x * kTile, y0 = tile_y * kTile;
  const int columns = std::min(kTile, size[0] - x0), rows = std::min(kTile, size[1] - y0);
  TileRays rays;
  bool have_rays = false;
  float pixel_rad = 0;
  const bool shade = options.contact_shade;
  const bool lines_or_smooth = options.lines || options.smooth;
  alignas(64) RayPacket packet;
  Seen16 around;
  for (int v = 0; v < rows; ++v)
    for (int u = 0; u < columns; ++u) {
      const int x = x0 + u, y = y0 + v;
      const std::size_t pixel = picture.at(x, y);
      const std::uint32_t own = picture.surface[pixel];
      const float own_m = picture.distance_m[pixel];
      bool mixed = false, outside = false;
      float line = 0;
      for (int dy = -1; dy <= 1 && lines_or_smooth; ++dy)
        for (int dx = -1; dx <= 1; ++dx) {
          const int nx = x + dx, ny = y + dy;
          if (nx < 0 || ny < 0 || nx >= size[0] || ny >= size[1]) continue;
          const std::size_t next = picture.at(nx, ny);
          const std::uint32_t other = picture.surface[next];
          if (other == own) continue;
          mixed = true;
          outside |= other == kOutsideSurface || own == kOutsideSurface;
          if (!options.smooth && dx + dy == 1 && dx * dy == 0)
            line = std::max(line, edge(own, own_m, other, picture.distance_m[next]));
        }
      Colour colour = colourOf(base[pixel]);
      if (mixed && options.smooth) {
        if (!have_rays) {
          grid->rays(tile_x, tile_y, rays);
          const float ax = rays.x[1] - rays.x[0], ay = rays.y[1] - rays.y[0],
                      az = rays.z[1] - rays.z[0];
          pixel_rad = std::sqrt(ax * ax + ay * ay + az * az);
          have_rays = true;
        }
        // Sixteen rays over the pixel and half of its neighbours.
        const std::size_t i = tileIndex(u, v);
        const std::size_t right = tileIndex(u < kTile - 1 ? u + 1 : u - 1, v);
        const std::size_t below = tileIndex(u, v < kTile - 1 ? v + 1 : v - 1);
        const float along = u < kTile - 1 ? 1.0f : -1.0f, down = v < kTile - 1 ? 1.0f : -1.0f;
        const bool exact = outside || !rays.all;
        std::array<std::uint32_t, kPacketRays> special{};
        for (std::size_t k = 0; k < kPacketRays; ++k) {
          const float ox = 0.5f * static_cast<float>(k % 4) - 0.75f;
          const float oy = 0.5f * static_cast<float>(k / 4) - 0.75f;
          packet.traced[k] = -1;
          const Vec2 place{x + 0.5 + static_cast<double>(ox), y + 0.5 + static_cast<double>(oy)};
          if (options.masks && !view.masks_px.empty() && maskedAt(place))
            special[k] = kMaskedSurface;
          if (exact) {
            const auto ray = rayOf(view, size, place);
            if (!ray) special[k] = kOutsideSurface;
            const Vec3 d = ray.value_or(Vec3{0, 0, 1});
            packet.x[k] = static_cast<float>(d.x);
            packet.y[k] = static_cast<float>(d.y);
            packet.z[k] = static_cast<float>(d.z);
          } else {
            const float sx = ox * along, sy = oy * down;
            packet.x[k] = rays.x[i] + sx * (rays.x[right] - rays.x[i]) +
                          sy * (rays.x[below] - rays.x[i]);
            packet.y[k] = rays.y[i] + sx * (rays.y[right] - rays.y[i]) +
                          sy * (rays.y[below] - rays.y[i]);
            packet.z[k] = rays.z[i] + sx * (rays.z[right] - rays.z[i]) +
                          sy * (rays.z[below] - rays.z[i]);
          }
          if (special[k] != 0) packet.traced[k] = 0;
        }
        setRange(packet);
        see(packet, around, pixel_rad);
        Colour sum;
        float others = 0, strongest = 0;
        for (std::size_t k = 0; k < kPacketRays; ++k) {
          std::uint32_t surface = around.surface[k];
          Colour c = colourOf(around.argb[k]);
          if (special[k] != 0) {
            surface = special[k];
            c = surface == kMaskedSurface ? paint.masked : paint.paper;
          }
          const auto tent = [](std::size_t n) { return n == 0 || n == 3 ? 0.25f : 0.75f; };
          sum = sum + c * (tent(k % 4) * tent(k / 4));
          const float strength = edge(own, own_m, surface, around.distance_m[k]);
          if (strength > 0) others += 1;
          strongest = std::max(strongest, strength);
        }
        colour = sum * 0.25f;
        const float share = others / kPacketRays;
        line = strongest * 2 * std::min(share, 1 - share);
      }
      if (shade) colour = darkened(paint, colour, contactAt(x, y));
      if (options.lines && line > 0) colour = mix(colour, paint.ink, kLineInk * line);
      picture.argb[pixel] = argbOf(colour);
    }
}

// The judged part outlined, what lies outside it paler.
void Renderer::Work::drawFrame() {
  const Vec2 low = picturePlace(view, size, view.frame_low_px);
  const Vec2 high = picturePlace(view, size, view.frame_high_px);
  for (int y = 0; y < size[1]; ++y)
    for (int x = 0; x < size[0]; ++x) {
      const double inside = std::min(std::min(x + 0.5 - low.x, high.x - x - 0.5),
                                     std::min(y + 0.5 - low.y, high.y - y - 0.5));
      if (inside > 2) continue;
      std::uint32_t& argb = picture.argb[picture.at(x, y)];
      const auto pale = static_cast<float>(std::clamp(0.5 - inside, 0.0, 1.0));
      const auto line = static_cast<float>(std::clamp(1.25 - std::abs(inside - 0.75), 0.0, 1.0));
      argb = argbOf(mix(mix(colourOf(argb), paint.paper, 0.5f * pale), paint.accent, line));
    }
}

}  // namespace belvedere::picture
