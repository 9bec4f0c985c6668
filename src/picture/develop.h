// SPDX-License-Identifier: GPL-3.0-or-later
//
// From light to a picture: what a camera makes of it.
#pragma once

#include <cstdint>
#include <vector>

#include "picture/photo.h"

namespace belvedere::picture {

// Opaque pixels, 0xffRRGGBB in a word, row by row from the top left.
struct Developed {
  int width = 0, height = 0;
  std::vector<std::uint32_t> argb;
};

// By what the light of a photo is multiplied so that its middle tones come out in the middle and
// little of it is burnt out: the camera's automatic exposure with all the light it wants.
double exposureOf(const Photo& photo);

// Light times exposure through a curve that rolls off in the lights, then sRGB (IEC 61966-2-1).
// Masks in their tone of `tones`, what lies outside the image circle in ink.
Developed develop(const Photo& photo, double exposure, const Tones& tones = {});
// argb: as many as the row has pixels.
void develop(std::span<const Colour> light, std::span<const std::uint32_t> surface, double exposure,
             const Tones& tones, std::uint32_t* argb);

// The sRGB value, 0 to 255, of a linear share.
float encoded(float linear);

}  // namespace belvedere::picture
