// SPDX-License-Identifier: GPL-3.0-or-later
//
// What photograph() holds while it works; shared by photo.cpp (passes), photo_see.cpp (what rays
// meet), photo_light.cpp (light) and photo_again.cpp (pixels of sixteen rays).
#pragma once

#include <array>
#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "picture/photo.h"
#include "picture/work.h"
#include "scene/body_tree.h"

namespace belvedere::picture {

// Figures and boards, with what finds and shades them. Bodies: the figures', then the boards'.
struct Stage {
  // Moved on by so much of what they do in a second.
  Stage(std::span<const Figure> figures, std::span<const Board> boards, double seconds = 0);
  std::vector<Figure> figures;
  std::vector<Board> boards;
  std::unique_ptr<scene::Scene> scene;  // stays where it is when the stage moves: the caster holds it
  std::unique_ptr<scene::RayCaster> caster;
  std::unique_ptr<Subject> subject;
};

// What sixteen rays bring.
struct Light16 {
  std::array<Colour, scene::kPacketRays> light;
  std::array<std::uint32_t, scene::kPacketRays> surface;
  std::array<float, scene::kPacketRays> distance_m;
};

// A point that sends light to the eye.
struct Lit {
  Vec3 at_m, normal;  // turned to the eye
  std::uint32_t surface = 0;
  float distance_m = 0;
  Colour albedo;
  Colour ambient;  // lux
  bool is_figure = false;
};

inline constexpr std::uint32_t kMoments = 16;
inline constexpr double kHazeM = 2500;  // of a clear day; the horizon is that far
inline constexpr float kForeverM = std::numeric_limits<float>::infinity();

inline Vec3 rayOfLane(const scene::RayPacket& rays, std::size_t k) {
  return {static_cast<double>(rays.x[k]), static_cast<double>(rays.y[k]),
          static_cast<double>(rays.z[k])};
}
inline Colour scaled(Colour c, double s) { return c * static_cast<float>(s); }

// The rays of sixteen pixels of a tile, in squares of four by four, moved by a part of a pixel.
struct Block {
  scene::RayPacket rays;
  std::array<std::int32_t, scene::kPacketRays> x, y;
  double pixel_rad = 0;
  bool any = false;
};

struct Photographing {
  Photographing(const Subject& subject, std::span<const Coat> coats, View view,
                const PhotoOptions& options);

  const Subject& subject;
  std::span<const Coat> coats;
  View view;
  const PhotoOptions& options;
  Size whole, part;
  RayGrid grid;
  Coat ground = groundCoat();
  // At kMoments moments of the exposure where anything moves, else at one.
  std::vector<Stage> stages;
  std::uint32_t stage_first;       // surfaces from here up are the stage's
  std::optional<scene::BodyTree> tree;  // where something takes a share of the light of lamps or sun
  double reach_m;                  // from one end of everything to the other
  double middle_pixel_rad = 1e-3;  // in the middle of the whole picture
  bool eye_is_inside = false;      // of something that hides: nothing is seen
  int cell = 4;                    // pixels from one spot of ambient light to the next
  int cells_across = 0;
  std::vector<Colour> ambient;           // lux on the surface there
  std::vector<std::uint8_t> look_again;  // pixels that take sixteen rays
  Photo photo;

  // ---- photo_see.cpp
  // moment: any number; the stage of that moment.
  void hits(std::uint32_t moment, const Vec3& from, const scene::RayPacket& rays,
            scene::StopsAt stops, scene::HitPacket& out) const;
  const Stage& stageOf(std::uint32_t moment) const { return stages[moment % stages.size()]; }
  // Sees through windows and foliage to what stops the ray, and takes the light of all of it. Fills
  // in lit[k].surface, a k...Surface where nothing was met.
  void see(std::uint32_t moment, const Vec3& eye, const scene::RayPacket& rays, double pixel_rad,
           std::array<Lit, scene::kPacketRays>& lit, std::array<Colour, scene::kPacketRays>& veil,
           std::array<float, scene::kPacketRays>& passes) const;

  // ---- photo_light.cpp
  Colour skyAt(const Vec3& dir, bool clouds) const;
  // Of the light on the points (ambient known), what is thrown back to the eye.
  void shine(std::uint32_t moment, const Vec3& eye, std::array<Lit, scene::kPacketRays>& lit,
             std::array<Colour, scene::kPacketRays>& light) const;
  // Light from everywhere on a point, by rays over the hemisphere. turn: any number, tells one set
  // of rays from the next.
  Colour gathered(std::uint32_t moment, const Vec3& at_m, const Vec3& normal, double distance_m,
                  std::size_t feelers, std::uint32_t turn) const;

  // ---- photo.cpp
  void takeBlock(const TileRays& tile, int tile_x, int tile_y, std::size_t first, double move_x,
                 double move_y, Block& out) const;
  void firstLook(int tile_x, int tile_y);
  void gatherTile(int tile_x, int tile_y);
  Colour ambientAt(int x, int y, const Lit& lit, std::uint32_t moment, std::uint32_t turn) const;
  void lightOf(const Vec3& eye, scene::RayPacket& rays, double pixel_rad,
               const std::array<std::int32_t, scene::kPacketRays>& pixel_x,
               const std::array<std::int32_t, scene::kPacketRays>& pixel_y, std::uint32_t moment,
               std::uint32_t turn, Light16& out) const;
  void lightTile(int tile_x, int tile_y);
  bool maskedAt(double x, double y) const;

  // ---- photo_again.cpp
  Vec3 throughAperture(std::uint32_t sample, std::uint32_t turn, scene::RayPacket& rays) const;
  bool blurredNear(int tile_x, int tile_y) const;
  void markTile(int tile_x, int tile_y);
  void lookAgainTile(int tile_x, int tile_y);
};

}  // namespace belvedere::picture
