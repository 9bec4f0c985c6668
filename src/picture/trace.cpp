// SPDX-License-Identifier: GPL-3.0-or-later
//
// From rays to colours, sixteen at a time.
#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

#include "base/any_width.h"
#include "picture/work.h"
#include "scene/sightline.h"

namespace belvedere::picture {
namespace {

using scene::HitPacket;
using scene::kNoTriangle;
using scene::kPacketRays;
using scene::RayPacket;
using scene::StopsAt;

constexpr float kForeverM = std::numeric_limits<float>::infinity();
constexpr float kLeastTint = 0.1f;   // of what lets all light through: one sees that it is there
constexpr int kMostSteps = 8;        // behind hits that do not count

float behind(float distance_m) { return distance_m * 1.000002f + 1e-4f; }

bool strictlyInside(const scene::Scene& scene, const scene::Body& body, const Vec3& p) {
  for (std::uint32_t i = body.first_plane; i < body.first_plane + body.plane_count; ++i)
    if (dot(scene.planes[i].normal, p) - scene.planes[i].offset >= -scene::kTouchM) return false;
  return true;
}

// Share of a pixel that a line at every whole metre covers; `at` and the pixel's extent in metres.
float lineShare(float at_m, float extent_m) {
  const float off = std::abs(at_m - std::round(at_m));
  return std::clamp(1.25f - off / extent_m, 0.0f, 1.0f) *
         std::clamp((0.42f - extent_m) * 4.0f, 0.0f, 1.0f);
}

// Surfaces, bodies and colours of triangles that are all the subject's, or none; those of none are
// the sky's. And of all colours together.
std::uint32_t lookUp(const std::uint32_t* __restrict triangle, const Subject::Seen* __restrict of,
                     const std::uint32_t* __restrict palette, Seen16& out) {
  std::uint32_t all = ~0u;
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const bool open = triangle[k] == kNoTriangle;
    const Subject::Seen seen = of[open ? 0 : triangle[k]];
    const std::uint32_t argb = palette[seen.surface];
    out.surface[k] = open ? kSkySurface : seen.surface;
    out.body[k] = open ? kSky : seen.body;
    out.argb[k] = open ? 0xff000000u : argb;
    all &= out.argb[k];
  }
  return all;
}

// The sky's lanes turned into what is there: the sky, or the plain below. over_m: of the eye over the
// plain; where there is none, zero. up: the rays' z.
BELVEDERE_ANY_WIDTH
void paintOpen(const Paint& with, float over_m, const float* __restrict up,
               float* __restrict distance_m, std::uint32_t* __restrict surface,
               std::int32_t* __restrict body, std::uint32_t* __restrict argb) {
  const Paint paint = with;
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const bool open = surface[k] == kSkySurface;
    const bool below = up[k] < 0;
    const bool plain = open & below & (over_m > 0);
    const float plain_m = over_m / -up[k];
    const std::uint32_t sky_argb = argbOf(paint.skyAt(up[k]));
    const std::uint32_t below_argb = argbOf(over_m > 0 ? paint.plainAt(plain_m) : paint.paper);
    argb[k] = open ? below ? below_argb : sky_argb : argb[k];
    distance_m[k] = open ? plain ? plain_m : kForeverM : distance_m[k];
    surface[k] = plain ? kPlainSurface : surface[k];
    body[k] = plain ? kGround : body[k];
  }
}

struct Places {
  std::array<std::uint8_t, kTilePixels> u, v, all;
  constexpr Places() : u{}, v{}, all{} {
    for (std::size_t i = 0; i < kTilePixels; ++i) {
      u[i] = static_cast<std::uint8_t>(tileU(i));
      v[i] = static_cast<std::uint8_t>(tileV(i));
      all[i] = static_cast<std::uint8_t>(i);
    }
  }
};
constexpr Places kPlaces;

}  // namespace

void Renderer::Work::setRange(RayPacket& rays) const {
  const auto cut = options.cut_m;
  if (!cut) {
    rays.near_m.fill(kNearM);
    rays.far_m.fill(kForeverM);
    return;
  }
  const auto over = static_cast<float>(view.eye_m.z - *cut);
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const float reach = -over / rays.z[k];  // where the ray meets the cut; behind the eye: < 0
    rays.near_m[k] = over > 0 ? std::max(kNearM, reach) : kNearM;
    rays.far_m[k] = over <= 0 && rays.z[k] > 0 ? reach : kForeverM;
    if (over > 0 && !(rays.z[k] < 0)) rays.traced[k] = 0;
  }
}

// How high the eye is over the plain; zero where there is none to be seen.
float Renderer::Work::overPlainM() const {
  const auto ground = options.ground_m;
  if (!ground || (options.cut_m && *ground > *options.cut_m)) return 0;
  return std::max(0.0f, static_cast<float>(view.eye_m.z - *ground));
}

// The nearer of what the scene's and the figures' rays hit.
void Renderer::Work::hits(const Vec3& eye, const RayPacket& rays, StopsAt stops,
                          HitPacket& out) const {
  subject->caster().nearest(eye, rays, stops, out);
  if (!figure_caster) return;
  RayPacket shorter = rays;
  shorter.far_m = out.distance_m;
  HitPacket figure;
  figure_caster->nearest(eye, shorter, stops, figure);
  const auto first = static_cast<std::uint32_t>(subject->triangles().size());
  for (std::size_t k = 0; k < kPacketRays; ++k)
    if (figure.triangle[k] != kNoTriangle) {
      out.distance_m[k] = figure.distance_m[k];
      out.triangle[k] = first + figure.triangle[k];
      out.leaves[k] = figure.leaves[k];
    }
}

Subject::Seen Renderer::Work::seen(std::uint32_t triangle) const {
  const auto triangles = subject->triangles();
  if (triangle < triangles.size()) [[likely]]
    return triangles[triangle];
  Subject::Seen of = figure_subject->triangles()[triangle - triangles.size()];
  of.surface += static_cast<std::uint32_t>(subject->surfaces().size());
  of.body += static_cast<std::int32_t>(subject->scene().bodies.size());
  return of;
}

void Renderer::Work::see(RayPacket& rays, Seen16& out, float pixel_rad) const {
  const Vec3& eye = view.eye_m;
  HitPacket hit;
  hits(eye, rays, StopsAt::all, hit);
  const std::size_t triangles = subject->triangles().size();
  bool of_figures = triangles == 0;
  std::int32_t any_leaves = 0, any_open = 0;
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const bool open = hit.triangle[k] == kNoTriangle;
    of_figures |= !open & (hit.triangle[k] >= triangles);
    any_open |= open;
    any_leaves |= hit.leaves[k];
  }
  std::uint32_t all_plain = 0xff;
  if (any_leaves == 0 && !of_figures) [[likely]] {
    all_plain = lookUp(hit.triangle.data(), subject->triangles().data(), palette.data(), out) >> 24;
    if (all_plain == 0xff) {
      out.distance_m = hit.distance_m;
      if (any_open != 0)
        paintOpen(paint, overPlainM(), rays.z.data(), out.distance_m.data(), out.surface.data(),
                  out.body.data(), out.argb.data());
      return;
    }
  }
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    out.distance_m[k] = hit.distance_m[k];
    if (hit.triangle[k] == kNoTriangle) {
      out.surface[k] = kSkySurface;
      out.body[k] = kSky;
      out.distance_m[k] = kForeverM;
      all_plain = 0;
      continue;
    }
    const Subject::Seen of = seen(hit.triangle[k]);
    out.surface[k] = of.surface;
    out.body[k] = of.body;
    out.argb[k] = palette[of.surface];
    all_plain &= out.argb[k] >> 24;
  }
  if (all_plain == 0xff && any_leaves == 0) return;

  const scene::Scene& scene = subject->scene();
  const auto figure_bodies = static_cast<std::int32_t>(scene.bodies.size());
  // Rays that begin inside a body, or on its surface.
  if (any_leaves != 0) {
    std::array<std::int32_t, kPacketRays> open = rays.traced;
    for (int step = 0; step < kMostSteps; ++step) {
      RayPacket again = rays;
      bool any = false;
      for (std::size_t k = 0; k < kPacketRays; ++k) {
        again.traced[k] = 0;
        if (open[k] == 0 || hit.leaves[k] == 0 || hit.triangle[k] == kNoTriangle) continue;
        const bool of_figure = out.body[k] >= figure_bodies;
        const scene::Scene& of = of_figure ? figures : scene;
        const std::int32_t index = of_figure ? out.body[k] - figure_bodies : out.body[k];
        const scene::Body& body = of.bodies[static_cast<std::size_t>(index)];
        if (body.triangle()) continue;
        const auto start = static_cast<double>(rays.near_m[k]);
        const Vec3 d{static_cast<double>(rays.x[k]), static_cast<double>(rays.y[k]),
                     static_cast<double>(rays.z[k])};
        const bool opaque = of.sources[body.source].light <= 0;
        if (opaque && step == 0 && strictlyInside(of, body, eye + d * start)) {
          out.surface[k] = kSectionSurface;
          out.distance_m[k] = rays.near_m[k];
          open[k] = 0;
          continue;
        }
        // Touched, or a pane that one stands in.
        again.traced[k] = -1;
        again.near_m[k] = behind(hit.distance_m[k]);
        any = true;
      }
      if (!any) break;
      HitPacket next;
      hits(eye, again, StopsAt::all, next);
      for (std::size_t k = 0; k < kPacketRays; ++k) {
        if (again.traced[k] == 0) continue;
        hit.distance_m[k] = out.distance_m[k] = next.distance_m[k];
        hit.triangle[k] = next.triangle[k];
        hit.leaves[k] = next.leaves[k];
        rays.near_m[k] = again.near_m[k];
        if (next.triangle[k] == kNoTriangle) {
          out.surface[k] = kSkySurface;
          out.body[k] = kSky;
          out.distance_m[k] = kForeverM;
          continue;
        }
        const Subject::Seen of_next = seen(next.triangle[k]);
        out.surface[k] = of_next.surface;
        out.body[k] = of_next.body;
      }
    }
  }

  // Windows and foliage: what stands behind them, and their tints from the nearest on.
  std::array<Colour, kPacketRays> veil{};
  std::array<float, kPacketRays> passes;
  passes.fill(1);
  RayPacket through = rays;
  bool any_through = false;
  for (std::size_t k = 0; k < kPacketRays; ++k) {
    const bool is = out.surface[k] < kNoSurface && palette[out.surface[k]] >> 24 == kSeenThrough;
    through.traced[k] = is ? rays.traced[k] : 0;
    any_through |= is;
  }
  if (any_through) {
    HitPacket end;
    hits(eye, through, StopsAt::opaque, end);
    std::array<std::uint32_t, kPacketRays> layer{};
    std::array<std::int32_t, kPacketRays> layers{};
    for (std::size_t k = 0; k < kPacketRays; ++k) {
      if (through.traced[k] == 0) continue;
      layer[k] = out.surface[k];
      through.near_m[k] = behind(hit.distance_m[k]);
      through.far_m[k] = end.distance_m[k];
      out.distance_m[k] = end.distance_m[k];
      out.surface[k] = kSkySurface;
      out.body[k] = kSky;
      if (end.triangle[k] == kNoTriangle) {
        out.distance_m[k] = kForeverM;
        continue;
      }
      const Subject::Seen of = seen(end.triangle[k]);
      out.surface[k] = of.surface;
      out.body[k] = of.body;
    }
    for (int step = 0; step < 2 * kMostLayers; ++step) {
      bool any = false;
      for (std::size_t k = 0; k < kPacketRays; ++k) {
        if (through.traced[k] == 0) continue;
        if (hit.leaves[k] == 0 || scene.bodies[static_cast<std::size_t>(
                                      seen(hit.triangle[k]).body)].triangle()) {
          const double light = scene.sources[subject->surfaces()[layer[k]].source].light;
          const float covers = std::max(kLeastTint, static_cast<float>(1 - light));
          const Colour tint =
              light >= 1 ? paint.glass() : colourOf(palette[layer[k]]);
          veil[k] = veil[k] + tint * (passes[k] * covers);
          passes[k] *= 1 - covers;
          if (++layers[k] == kMostLayers) through.traced[k] = 0;
        }
        if (!(through.near_m[k] < through.far_m[k])) through.traced[k] = 0;
        any |= through.traced[k] != 0;
      }
      if (!any) break;
      hits(eye, through, StopsAt::all, hit);
      for (std::size_t k = 0; k < kPacketRays; ++k) {
        if (through.traced[k] == 0) continue;
        if (hit.triangle[k] == kNoTriangle ||
            palette[seen(hit.triangle[k]).surface] >> 24 != kSeenThrough) {
          through.traced[k] = 0;
          continue;
        }
        layer[k] = seen(hit.triangle[k]).surface;
        through.near_m[k] = behind(hit.distance_m[k]);
      }
    }
  }

  for (std::size_t k = 0; k < kPacketRays; ++k) {
    if (out.surface[k] < kNoSurface && passes[k] == 1 && palette[out.surface[k]] >> 24 == 0xff) {
      out.argb[k] = palette[out.surface[k]];
      continue;
    }
    Colour colour;
    if (out.surface[k] == kSectionSurface) {
      colour = paint.section();
    } else if (out.surface[k] >= kNoSurface) {
      colour = paint.skyAt(rays.z[k]);
      if (const float over_m = overPlainM(); over_m > 0 && rays.z[k] < 0) {
        out.surface[k] = kPlainSurface;
        out.body[k] = kGround;
        out.distance_m[k] = over_m / -rays.z[k];
        colour = paint.plainAt(out.distance_m[k]);
      } else if (rays.z[k] < 0) {
        colour = paint.paper;
      }
    } else {
      const std::uint32_t argb = palette[out.surface[k]];
      colour = colourOf(argb);
      if (argb >> 24 == kTakesGrid) {
        const float t = out.distance_m[k];
        const auto x = static_cast<float>(eye.x + static_cast<double>(t * rays.x[k]));
        const auto y = static_cast<float>(eye.y + static_cast<double>(t * rays.y[k]));
        // A pixel's extent on the floor is stretched along the line of sight.
        const float across = t * pixel_rad;
        const float level = std::sqrt(rays.x[k] * rays.x[k] + rays.y[k] * rays.y[k]) + 1e-6f;
        const float along = across * (1 / std::max(1e-3f, std::abs(rays.z[k])) - 1);
        const float covered = std::max(lineShare(x, across + along * std::abs(rays.x[k]) / level),
                                       lineShare(y, across + along * std::abs(rays.y[k]) / level));
        colour = mix(colour, paint.ink, 0.17f * covered);
      }
    }
    out.argb[k] = argbOf(veil[k] + colour * passes[k]);
  }
}

void Renderer::Work::traceTile(int tile_x, int tile_y, int step) {
  const std::size_t tile = static_cast<std::size_t>(tile_y) *
                               static_cast<std::size_t>(grid->across()) +
                           static_cast<std::size_t>(tile_x);
  const int had = traced[tile];
  if (had <= step) return;
  const int x0 = tile_x * kTile, y0 = tile_y * kTile;
  const int columns = std::min(kTile, size[0] - x0), rows = std::min(kTile, size[1] - y0);
  // What nothing is drawn over later goes straight into the picture.
  const bool drawn_over =
      options.lines || options.smooth || options.contact_shade || options.judged_frame;
  std::vector<std::uint32_t>& colours = drawn_over ? base : picture.argb;
  // Fetched for writing while rays are on their way: the picture is larger than most caches.
  for (int v = 0; v < rows; ++v) {
    const std::size_t row = picture.at(x0, y0 + v);
    __builtin_prefetch(&picture.distance_m[row], 1);
    __builtin_prefetch(&picture.surface[row], 1);
    __builtin_prefetch(&picture.body[row], 1);
    __builtin_prefetch(&colours[row], 1);
  }
  TileRays rays;
  grid->rays(tile_x, tile_y, rays);

  std::array<std::uint8_t, kTilePixels> some;
  const std::uint8_t* list = kPlaces.all.data();
  std::size_t count = kTilePixels;
  if (step > 1 || had < kUntraced || columns < kTile || rows < kTile) {
    count = 0;
    for (std::size_t i = 0; i < kTilePixels; ++i) {
      const int u = kPlaces.u[i], v = kPlaces.v[i];
      const bool asked = u < columns && v < rows && ((u | v) & (step - 1)) == 0;
      const bool has = ((u | v) & (had - 1)) == 0 && had < kUntraced;
      if (asked && !has) some[count++] = static_cast<std::uint8_t>(i);
    }
    list = some.data();
  }
  const float dx = rays.x[1] - rays.x[0], dy = rays.y[1] - rays.y[0], dz = rays.z[1] - rays.z[0];
  const float pixel_rad = std::sqrt(dx * dx + dy * dy + dz * dz);
  alignas(64) RayPacket packet;
  Seen16 see16;
  for (std::size_t at = 0; at < count; at += kPacketRays) {
    const std::size_t n = std::min(kPacketRays, count - at);
    if (count == kTilePixels) {
      std::memcpy(packet.x.data(), &rays.x[at], sizeof packet.x);
      std::memcpy(packet.y.data(), &rays.y[at], sizeof packet.y);
      std::memcpy(packet.z.data(), &rays.z[at], sizeof packet.z);
    } else {
      for (std::size_t k = 0; k < kPacketRays; ++k) {
        const std::size_t i = list[at + std::min(k, n - 1)];
        packet.x[k] = rays.x[i];
        packet.y[k] = rays.y[i];
        packet.z[k] = rays.z[i];
      }
    }
    for (std::size_t k = 0; k < kPacketRays; ++k)
      packet.traced[k] = k < n && (rays.all || rays.inside[list[at + k]] != 0) ? -1 : 0;
    setRange(packet);
    see(packet, see16, pixel_rad);
    if (count == kTilePixels) {
      // Four rows of four.
      for (std::size_t k = 0; k < kPacketRays; k += 4) {
        const std::size_t to = picture.at(x0 + kPlaces.u[at + k], y0 + kPlaces.v[at + k]);
        std::memcpy(&picture.distance_m[to], &see16.distance_m[k], 16);
        std::memcpy(&picture.surface[to], &see16.surface[k], 16);
        std::memcpy(&picture.body[to], &see16.body[k], 16);
        std::memcpy(&colours[to], &see16.argb[k], 16);
      }
      continue;
    }
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t i = list[at + k];
      const std::size_t to = picture.at(x0 + kPlaces.u[i], y0 + kPlaces.v[i]);
      picture.distance_m[to] = see16.distance_m[k];
      picture.surface[to] = see16.surface[k];
      picture.body[to] = see16.body[k];
      colours[to] = see16.argb[k];
    }
  }
  const bool masks = options.masks && !view.masks_px.empty();
  if (!rays.all || masks)
    for (std::size_t j = 0; j < count; ++j) {
      const std::size_t i = list[j];
      const int x = x0 + tileU(i), y = y0 + tileV(i);
      const bool outside = !rays.all && rays.inside[i] == 0;
      if (!outside && !(masks && maskedAt({x + 0.5, y + 0.5}))) continue;
      const std::size_t to = picture.at(x, y);
      picture.distance_m[to] = kForeverM;
      picture.surface[to] = outside ? kOutsideSurface : kMaskedSurface;
      picture.body[to] = outside ? kOutside : kMasked;
      colours[to] = argbOf(outside ? paint.paper : paint.masked);
    }
  // Each traced pixel stands for those right of it and below.
  if (step > 1)
    for (int v = 0; v < rows; ++v)
      for (int u = 0; u < columns; ++u) {
        const std::size_t from = picture.at(x0 + (u & -step), y0 + (v & -step));
        const std::size_t to = picture.at(x0 + u, y0 + v);
        if (from == to) continue;
        picture.distance_m[to] = picture.distance_m[from];
        picture.surface[to] = picture.surface[from];
        picture.body[to] = picture.body[from];
        colours[to] = colours[from];
      }
  for (int v = 0; v < rows && drawn_over; ++v)
    std::memcpy(&picture.argb[picture.at(x0, y0 + v)], &base[picture.at(x0, y0 + v)],
                static_cast<std::size_t>(columns) * 4);
  traced[tile] = static_cast<std::uint8_t>(step);
}

}  // namespace belvedere::picture
