// SPDX-License-Identifier: GPL-3.0-or-later
//
// A photograph: the light that reaches each pixel of an imager, through its own lens, from surfaces
// with plausible tones. photograph() gives light, develop.h makes a picture of it as a camera does.
// Flat drawings in paper and ink are renderer.h's.
//
//   const Subject subject(caster);
//   PhotoOptions options;
//   options.lighting = daylight(300);
//   const Photo photo = photograph(subject, coatsOf(design, scene), viewOf(imager), options, progress);
//   writePng(develop(photo, {}));   // drawing/picture_page.h
//
// An estimate for the eye, in single precision: what decides is proof's.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "base/progress.h"
#include "picture/boards.h"
#include "picture/coats.h"
#include "picture/figures.h"
#include "picture/lamp_light.h"
#include "picture/renderer.h"

namespace belvedere::picture {

// Light from everywhere. What lamps and luminaires add stands in lamp_light.h.
struct Lighting {
  double fill_lux = 200;  // of a room's lighting, on a level floor in the open
  double sky_lux = 0;     // of the whole sky, on level ground
  double sun_lux = 0;     // square to its rays
  Vec3 toward_sun{0, 0, 1};
  bool operator==(const Lighting&) const = default;
};
// A plausible day (or night, under kDarkBelowLux) for a place whose stated ambient light is so much.
// Not computed: what is stated is the ambient light alone.
inline constexpr double kDarkBelowLux = 30;  // practice
Lighting plausibleLighting(std::optional<double> ambient_lux, double sun_bearing_deg = 215,
                           double sun_elevation_deg = 38);

struct PhotoOptions {
  Size size{0, 0};  // of the whole picture; a zero: the view's own
  // A part of it alone: its top left corner in places of the whole, and its pixels. Zero: all.
  Vec2 part_at;
  Size part{0, 0};
  Lighting lighting{};
  std::vector<Figure> figures{};
  std::vector<Board> boards{};
  std::vector<double> grid_m{};        // heights (site) of floors that show lines at whole metres
  std::optional<double> ground_m = 0;  // an endless plain where rays down hit nothing else
  bool masks = true;
  std::vector<PointLight> lights{};
  bool mono = false;  // grey, and infrared light counts
  // Out of focus: sharp at focus_m along the axis (negative: beyond infinity, optics/sharpness.h), by
  // an aperture of that radius; 0: sharp all over.
  double aperture_m = 0, focus_m = 5;
  double exposure_s = 0;  // what moves (Figure, Board) smears over it
};

// Of the whole picture, and of what is asked for of it.
Size wholeOf(const View& view, const PhotoOptions& options);
Size sizeOf(const View& view, const PhotoOptions& options);

// Row by row from the top left.
struct Photo {
  int width = 0, height = 0;
  std::vector<Colour> light;  // lux times the share thrown back, each pixel's mean
  std::vector<std::uint32_t>
      surface;                    // of its middle: Renderer::surface, or a k...Surface of work.h
  std::vector<float> distance_m;  // likewise; infinity where nothing is hit
  std::size_t at(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
           static_cast<std::size_t>(x);
  }
};

// A row of a photo's pixels. light may be changed in place.
struct PhotoRow {
  int y = 0;
  std::span<Colour> light;
  std::span<const std::uint32_t> surface;
  std::span<const float> distance_m;
};
inline PhotoRow rowOf(Photo& photo, int y) {
  const std::size_t at = photo.at(0, y), n = static_cast<std::size_t>(photo.width);
  return {y, std::span(photo.light).subspan(at, n),
          std::span<const std::uint32_t>(photo.surface).subspan(at, n),
          std::span<const float>(photo.distance_m).subspan(at, n)};
}
// Asked once for each row, by several threads at once, in no order; the row is there until it returns.
using TakeRow = std::function<void(const PhotoRow&)>;

// Row by row, for pictures that need not be held as light: holds a few rows of tiles at a time, whatever
// the picture's height. Otherwise as photograph().
void photographRows(const Subject& subject, std::span<const Coat> coats, const View& view,
                    const PhotoOptions& options, const Progress& progress, const TakeRow& take);

// Sixteen rays a pixel wherever its neighbours differ, one elsewhere. The same arguments give the
// same bytes at any number of threads. Throws Cancelled within 50 ms of progress.cancel.
//   coats  one for each of the scene's sources
Photo photograph(const Subject& subject, std::span<const Coat> coats, const View& view,
                 const PhotoOptions& options, const Progress& progress);

}  // namespace belvedere::picture
