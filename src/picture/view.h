// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where one looks from and through which lens: an imager of the design, or an eye of one's own.
// Both are one type, so that every picture is made, picked in and drawn over in the same way.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "design/resolve.h"
#include "geometry/polygon.h"
#include "geometry/vec.h"
#include "optics/lens.h"

namespace belvedere::picture {

struct View {
  Vec3 eye_m;                        // site
  Mat3 view_from_site;               // rows: right, down, forward
  optics::Lens lens;
  std::array<int, 2> pixels{0, 0};   // that the lens speaks of; a picture may have more or fewer
  std::vector<Ring> masks_px;        // privacy masks, in those pixels
  Vec2 frame_low_px, frame_high_px;  // the part that is judged, in those pixels
};

View viewOf(const design::PosedImager& imager);
// Through a rectilinear lens. look_at must differ from eye_m; straight down has north on top.
View viewFrom(const Vec3& eye_m, const Vec3& look_at_m, double vfov_deg, std::array<int, 2> pixels);

// Places in a picture of `size` pixels: (0, 0) is the outer edge of its top left pixel, as in a
// lens's own pixels; a picture of the view's own size has the lens's places.
using Size = std::array<int, 2>;
Vec2 lensPlace(const View& view, Size size, Vec2 place);      // picture to the lens's pixels
Vec2 picturePlace(const View& view, Size size, Vec2 place_px);  // and back

// The unit direction (site) that lands there, by the lens's exact inverse; nothing outside the
// image circle.
std::optional<Vec3> rayOf(const View& view, Size size, Vec2 place);
// Where a point of the site lands, in frame or not at all; whether something stands before it is
// not asked.
std::optional<Vec2> placeOf(const View& view, Size size, const Vec3& point_m);

}  // namespace belvedere::picture
