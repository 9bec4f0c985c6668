// SPDX-License-Identifier: GPL-3.0-or-later
//
// What photographRows() holds while it works; shared by photo.cpp (passes), photo_see.cpp (what rays
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
inline constexpr std::uint32_t kCellTurns = 4;  // sets of rays that cells take by turns, two by two
// Of Strip::look_again. kMoving: something may move before the pixel, or before a light there.
inline constexpr std::uint8_t kAgain = 1, kMoving = 2;
inline constexpr double kHazeM = 2500;  // of a clear day; the horizon is that far
inline constexpr float kForeverM = std::numeric_limits<float>::infinity();

inline Vec3 rayOfLane(const scene::RayPacket& rays, std::size_t k) {
  return {static_cast<double>(rays.x[k]), static_cast<double>(rays.y[k]),
          static_cast<double>(rays.z[k])};
}
inline Colour scaled(Colour c, double s) { return c * static_cast<float>(s); }

// Which lights come to a point unhindered, and which not at all, a bit each: the sun first, then
// PhotoOptions::lights in their order, as many as there are bits. Neither: it must be asked. Both: it
// does not matter, the surface is turned away or the light is faint there.
struct LightBits {
  std::uint32_t lit = 0, dark = 0;
};
inline constexpr std::size_t kLightBits = 32;

// What the sixteen rays of each of sixteen pixels need not ask again, where they meet the surface that
// the pixel's middle sees.
struct KnownLight {
  std::array<std::uint32_t, scene::kPacketRays> surface;  // kSkySurface: nothing is known
  std::array<bool, scene::kPacketRays> has_ambient;
  std::array<Colour, scene::kPacketRays> ambient;
  std::array<LightBits, scene::kPacketRays> bits;
  // Of what else their rays meet, as soon as one has: the ambient light there.
  static constexpr std::size_t kMostOthers = 4;
  struct Other {
    std::uint32_t surface = 0;
    Colour ambient;
  };
  std::array<std::array<Other, kMostOthers>, scene::kPacketRays> others;
  std::array<std::size_t, scene::kPacketRays> other_count;
  // By light: lux times the cosine, nothing between considered. Over a plane surface both vary so
  // little between a pixel's rays that those of the middle are their mean.
  std::vector<std::array<double, scene::kPacketRays>> lux;
};

// The rays of sixteen pixels of a tile, in squares of four by four, moved by a part of a pixel.
struct Block {
  scene::RayPacket rays;
  std::array<std::int32_t, scene::kPacketRays> x, y;
  double pixel_rad = 0;
  bool any = false;
};

// What is held of a photograph at a time: a band of its rows of pixels and those about it, each where an
// earlier one stood that is finished with.
struct Strip {
  int width = 0, rows = 0;
  std::vector<Colour> light;
  std::vector<std::uint32_t> surface;
  std::vector<float> distance_m;
  std::vector<std::uint8_t> look_again;  // pixels that take sixteen rays: kAgain, kMoving
  std::vector<LightBits> bits;
  std::vector<Colour> ambient;  // by cell: lux on the surface there
  std::size_t at(int x, int y) const {
    return static_cast<std::size_t>(y % rows) * static_cast<std::size_t>(width) +
           static_cast<std::size_t>(x);
  }
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
  std::vector<Box3> swept;  // by what moves, in the exposure
  int band_rows = 1;        // of tiles, that are finished together
  Strip strip;
  std::size_t cellAt(int i, int j) const {
    return static_cast<std::size_t>(j % (strip.rows / cell) * cells_across + i);
  }

  // ---- photo_see.cpp
  // moment: any number; the stage of that moment.
  void hits(std::uint32_t moment, const Vec3& from, const scene::RayPacket& rays,
            scene::StopsAt stops, scene::HitPacket& out) const;
  const Stage& stageOf(std::uint32_t moment) const { return stages[moment % stages.size()]; }
  // Sees through windows and foliage to what stops the ray, and takes the light of all of it. Fills
  // in lit[k].surface, a k...Surface where nothing was met. Albedos and the veil only if asked for.
  void see(std::uint32_t moment, const Vec3& eye, const scene::RayPacket& rays, double pixel_rad,
           bool colours,
           std::array<Lit, scene::kPacketRays>& lit, std::array<Colour, scene::kPacketRays>& veil,
           std::array<float, scene::kPacketRays>& passes) const;

  // ---- photo_light.cpp
  Colour skyAt(const Vec3& dir, bool clouds) const;
  // Of the light on the points (ambient known), what is thrown back to the eye. passes: the share that
  // came through what the rays saw through. known: may be null. found: may be null, else is filled in.
  void shine(std::uint32_t moment, const Vec3& eye, std::array<Lit, scene::kPacketRays>& lit,
             const std::array<float, scene::kPacketRays>& passes, const KnownLight* known,
             std::array<LightBits, scene::kPacketRays>* found,
             std::array<Colour, scene::kPacketRays>& light) const;
  // passing[k]: the share of the band's light that comes along way[k], of those asked for.
  void findShade(std::uint32_t moment, scene::Band band,
                 const std::array<scene::Segment, scene::kPacketRays>& way,
                 const std::array<bool, scene::kPacketRays>& asked,
                 std::array<double, scene::kPacketRays>& passing) const;
  double luxOn(const PointLight& light, const Vec3& at_m, const Vec3& normal) const;
  // Light from everywhere on a point, by rays over the hemisphere. turn: any number, tells one set
  // of rays from the next.
  Colour gathered(std::uint32_t moment, const Vec3& at_m, const Vec3& normal, double distance_m,
                  std::size_t feelers, std::uint32_t turn) const;

  // ---- photo.cpp
  void takeBlock(const TileRays& tile, int tile_x, int tile_y, std::size_t first, double move_x,
                 double move_y, Block& out) const;
  void firstLook(int tile_x, int tile_y);
  void gatherTile(int tile_x, int tile_y);
  std::optional<Colour> ambientOfCells(int x, int y, std::uint32_t surface) const;
  Colour ambientOf(const Lit& lit, int x, int y, std::size_t lane, std::uint32_t moment,
                   std::uint32_t turn, KnownLight* known) const;
  void lightOf(const Vec3& eye, scene::RayPacket& rays, double pixel_rad,
               const std::array<std::int32_t, scene::kPacketRays>& pixel_x,
               const std::array<std::int32_t, scene::kPacketRays>& pixel_y, std::uint32_t moment,
               std::uint32_t turn, KnownLight* known,
               std::array<LightBits, scene::kPacketRays>* found, Light16& out) const;
  void lightTile(int tile_x, int tile_y);
  bool maskedAt(double x, double y) const;
  void takeSwept();
  bool isSwept(const Vec3& from, const Vec3& to) const;

  // ---- photo_again.cpp
  Vec3 throughAperture(std::uint32_t sample, std::uint32_t turn, scene::RayPacket& rays) const;
  double blurPx(int tile_x, int tile_y) const;
  bool variesNear(int block_x, int block_y, int reach_px) const;
  void know(const Block& middles, const std::array<bool, scene::kPacketRays>& wanted, int reach_px,
            KnownLight& known) const;
  void markTile(int tile_x, int tile_y);
  void lookAgainTile(int tile_x, int tile_y);
};

}  // namespace belvedere::picture
