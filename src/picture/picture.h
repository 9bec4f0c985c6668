// SPDX-License-Identifier: GPL-3.0-or-later
//
// picture: what an imager, or an eye that goes round the building, sees. Flat-shaded in paper and
// ink by rays in single precision, through the imager's own lens (no pinhole bent afterwards), at
// any size. A preview: what decides is proof's.
//
//   const Subject subject(caster);                        // once a scene
//   Renderer renderer(subject, viewOf(imager), {.size = {480, 270}});
//   renderer.pass(4, progress);  show(renderer.picture());  // at once
//   renderer.pass(1, progress);  show(renderer.picture());  // fine; starts from what is there
//   if (auto spot = spotAt(renderer, {x, y})) ...           // what was clicked
//
// view.h: imagers and eyes; renderer.h: passes; orbit.h: the eye that goes round; volume.h: view
// volumes and lines over a picture; figures.h: people to stand in it. Photographs, in light and
// colours instead of paper and ink: photo.h, and studio.h, which makes them of a design.
// This header: the picture itself and how it is asked for.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "geometry/vec.h"
#include "picture/figures.h"
#include "picture/view.h"

namespace belvedere::picture {

struct Rgb {
  std::uint8_t red = 0, green = 0, blue = 0;
  bool operator==(const Rgb&) const = default;
};
// What the picture is painted with; the caller hands over those of its sheet. Paper may be darker
// than ink.
struct Tones {
  Rgb paper{0xFB, 0xFA, 0xF6}, ink{0x23, 0x26, 0x2B};
  Rgb sky{0xDF, 0xE7, 0xF6};     // overhead; paper at the horizon
  Rgb masked{0x75, 0x77, 0x7A};  // privacy masks
  Rgb accent{0xB4, 0x53, 0x1A};  // the judged frame
};

struct Options {
  Size size{0, 0};               // pixels; a zero: the view's own
  Tones tones{};
  bool lines = true;             // thin ink where one surface ends and another begins
  bool smooth = true;            // sixteen rays a pixel where there is such an edge; last pass only
  bool contact_shade = true;     // darker where surfaces come near each other; last pass only
  std::vector<double> grid_m{};  // heights (site) of floors that show a faint grid of metres
  std::optional<double> ground_m = 0;  // an endless plain where rays down hit nothing else
  // Only what lies below this height (site) is drawn, and what it cuts shows in dark section: one
  // looks into a storey from above.
  std::optional<double> cut_m{};
  std::vector<Figure> figures{};
  bool masks = true;             // privacy masks cover
  bool judged_frame = false;     // outline of the part that is judged
};

// Values of Picture::body where no body is.
inline constexpr std::int32_t kSky = -1, kGround = -2, kOutside = -3 /* of the image circle */,
                              kMasked = -4;

// Row by row from the top left. All lists have width * height entries.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint32_t> argb;     // 0xffRRGGBB in a word (QImage::Format_RGB32)
  std::vector<float> distance_m;       // from the eye along the ray; infinity where nothing is hit
  std::vector<std::int32_t> body;      // index into the scene's bodies, then the figures'; or k...
  std::vector<std::uint32_t> surface;  // see Renderer::surface; from kNoSurface up: no surface
  int step = 0;  // of the last finished pass: each pixel traced stands for step x step
  std::size_t at(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
           static_cast<std::size_t>(x);
  }
};
inline constexpr std::uint32_t kNoSurface = 0xfffffff0u;

}  // namespace belvedere::picture
