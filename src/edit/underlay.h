// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where a drawing under the plan lies on the site. A picture's own units: x right, y down, from its
// upper left corner.
#pragma once

#include "design/design.h"

namespace belvedere::edit {

// Of an affine map: the site's place of the corner, and what one unit right and one down are.
struct PictureFrame {
  Vec2 corner_m, right_m, down_m;
  Vec2 siteOf(Vec2 picture) const { return corner_m + right_m * picture.x + down_m * picture.y; }
  Vec2 pictureOf(Vec2 site_m) const;
};
// Turned and scaled alike in both ways, by the pins (least squares where there are more than two).
// Without pins it is not scaled yet: upright, kUnscaledWidthM wide, about the site's zero.
inline constexpr double kUnscaledWidthM = 20;
PictureFrame pictureFrame(const design::Underlay& underlay, double width, double height);

// Pins for a picture of which two places are known by their distance: the first stays where it is
// shown, the second keeps its bearing. Throws InputError (zero_length).
std::vector<design::Pin> pinsByDistance(const PictureFrame& frame, Vec2 a_in_picture,
                                        Vec2 b_in_picture, double distance_m);

}  // namespace belvedere::edit
