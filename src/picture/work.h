// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a renderer holds; shared by the files that trace (trace.cpp), finish (finish.cpp) and pick
// (renderer.cpp).
#pragma once

#include <array>
#include <memory>
#include <vector>

#include "picture/paint.h"
#include "picture/ray_grid.h"
#include "picture/renderer.h"

namespace belvedere::picture {

// Nothing nearer to the eye than this is seen.
inline constexpr float kNearM = 1e-3f;
inline constexpr int kMostLayers = 4;          // of windows and foliage that a ray sees through
inline constexpr int kUntraced = 2 * kTile;    // of Work::traced

// Values of Picture::surface where there is none.
inline constexpr std::uint32_t kSkySurface = kNoSurface, kPlainSurface = kNoSurface + 1,
                               kSectionSurface = kNoSurface + 2, kOutsideSurface = kNoSurface + 3,
                               kMaskedSurface = kNoSurface + 4;

// What sixteen rays see.
struct Seen16 {
  std::array<float, scene::kPacketRays> distance_m;
  std::array<std::uint32_t, scene::kPacketRays> surface;
  std::array<std::int32_t, scene::kPacketRays> body;
  std::array<std::uint32_t, scene::kPacketRays> argb;
};

struct Renderer::Work {
  Work(const Subject& subject, View view, Options options);

  const Subject* subject;
  View view;
  Options options;
  Size size;
  Paint paint;
  scene::Scene figures;
  std::unique_ptr<scene::RayCaster> figure_caster;
  std::unique_ptr<Subject> figure_subject;
  // By surface, the subject's then the figures'. The top byte says what else a colour takes.
  std::vector<std::uint32_t> palette;
  std::unique_ptr<RayGrid> grid;
  std::vector<std::uint8_t> traced;   // per tile: the step up to which it is
  std::vector<std::uint32_t> base;    // colours before the last pass's finish
  std::vector<float> contact;         // shade by contact, 0 to 1, at every kContactStep-th pixel
  Picture picture;

  void begin(View from);
  std::uint32_t figureSurfaces() const;
  Surface surfaceOf(std::uint32_t index) const;
  bool maskedAt(Vec2 place) const;

  // trace.cpp. pixel_rad: from one pixel to the next, for the floor's grid.
  void setRange(scene::RayPacket& rays) const;
  float overPlainM() const;
  void hits(const Vec3& eye, const scene::RayPacket& rays, scene::StopsAt stops,
            scene::HitPacket& out) const;
  Subject::Seen seen(std::uint32_t triangle) const;
  void see(scene::RayPacket& rays, Seen16& out, float pixel_rad) const;
  void traceTile(int tile_x, int tile_y, int step);

  // finish.cpp
  void shadeContacts(const Progress& progress);
  void finishTile(int tile_x, int tile_y);
  void drawFrame();
  float contactAt(int x, int y) const;
  float edge(std::uint32_t a, float a_m, std::uint32_t b, float b_m) const;
};

inline constexpr std::uint32_t kTakesGrid = 0xfe, kSeenThrough = 0xfd;
inline constexpr int kContactStep = 4;

}  // namespace belvedere::picture
