// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/inks.h"

#include <algorithm>
#include <cmath>

namespace belvedere::drawing {
namespace {

constexpr Rgb rgb(std::uint32_t hex) {
  return {static_cast<std::uint8_t>(hex >> 16), static_cast<std::uint8_t>(hex >> 8),
          static_cast<std::uint8_t>(hex)};
}

std::uint8_t between(std::uint8_t a, std::uint8_t b, double share) {
  return static_cast<std::uint8_t>(std::lround(a + (b - a) * share));
}

}  // namespace

Rgb Inks::washAt(double margin) const {
  const double octave = std::clamp(std::log2(margin), 0.0, 3.0);
  const std::size_t low = std::min<std::size_t>(static_cast<std::size_t>(octave), 2);
  const double share = octave - static_cast<double>(low);
  const Rgb a = wash[low], b = wash[low + 1];
  return {between(a.red, b.red, share), between(a.green, b.green, share),
          between(a.blue, b.blue, share)};
}

// Wash: CIE L* 91.5, 81, 70.5, 60 at hue 270, chroma 8 to 35.
Inks Inks::light() {
  return {rgb(0xFBFAF6), rgb(0x23262B), rgb(0x666B73), rgb(0xD9D6CE), rgb(0xB4531A),
          rgb(0xE9E6DD), rgb(0x75777A),
          {rgb(0xDFE7F6), rgb(0xB8CAE9), rgb(0x8FAFDB), rgb(0x6294CE)}};
}

// Wash: L* 21, 28, 35, 42 at the same hue.
Inks Inks::dark() {
  return {rgb(0x1B1E22), rgb(0xE6E4DE), rgb(0x8C9198), rgb(0x34383E), rgb(0xE08A4B),
          rgb(0x2A2D31), rgb(0x8A8C90),
          {rgb(0x2A3341), rgb(0x2F435E), rgb(0x31547C), rgb(0x336699)}};
}

}  // namespace belvedere::drawing
