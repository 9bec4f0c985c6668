// SPDX-License-Identifier: GPL-3.0-or-later
//
// Colours of surfaces, sky and plain.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "picture/picture.h"

namespace belvedere::picture {

struct Colour {
  float red = 0, green = 0, blue = 0;
};
inline Colour operator+(Colour a, Colour b) {
  return {a.red + b.red, a.green + b.green, a.blue + b.blue};
}
inline Colour operator*(Colour a, float s) { return {a.red * s, a.green * s, a.blue * s}; }
// Of linear light, by the weights of ITU-R BT.709.
inline float brightness(Colour c) {
  return 0.2126f * c.red + 0.7152f * c.green + 0.0722f * c.blue;
}
inline Colour mix(Colour a, Colour b, float share) { return a * (1 - share) + b * share; }
inline Colour colourOf(Rgb c) {
  return {static_cast<float>(c.red), static_cast<float>(c.green), static_cast<float>(c.blue)};
}
inline Colour colourOf(std::uint32_t argb) {
  return {static_cast<float>((argb >> 16) & 255), static_cast<float>((argb >> 8) & 255),
          static_cast<float>(argb & 255)};
}
inline std::uint32_t argbOf(Colour c) {
  const auto byte = [](float v) {  // by way of a signed number, which every processor has wide
    return static_cast<std::uint32_t>(
        static_cast<std::int32_t>(std::clamp(v, 0.0f, 255.0f) + 0.5f));
  };
  return 0xff000000u | byte(c.red) << 16 | byte(c.green) << 8 | byte(c.blue);
}

// Tones worked out once a picture.
class Paint {
 public:
  explicit Paint(const Tones& tones)
      : paper(colourOf(tones.paper)),
        ink(colourOf(tones.ink)),
        sky(colourOf(tones.sky)),
        masked(colourOf(tones.masked)),
        accent(colourOf(tones.accent)),
        dark_(paper.green < ink.green) {}

  Colour paper, ink, sky, masked, accent;

  // Lit softly from above and from the side, so that walls that meet differ. Between the lightest
  // and the darkest face lies a third of the way from paper to ink.
  Colour face(const Vec3& normal) const {
    const double light = 0.62 * normal.z + 0.22 * normal.x - 0.36 * normal.y;  // -0.75 to 0.75
    const auto lit = static_cast<float>(std::clamp(0.5 + 0.66 * light, 0.0, 1.0));
    return dark_ ? mix(paper, ink, 0.10f + 0.26f * lit) : mix(paper, ink, 0.40f - 0.37f * lit);
  }
  Colour figure(const Vec3& normal) const {
    return mix(mix(face(normal), ink, 0.26f), accent, 0.16f);
  }
  // Cut by the section.
  Colour section() const { return mix(paper, ink, dark_ ? 0.72f : 0.78f); }
  // up: the ray's z.
  Colour skyAt(float up) const {
    return mix(paper, sky, std::sqrt(std::clamp(up * 1.4f, 0.0f, 1.0f)));
  }
  // The endless plain fades into the horizon.
  Colour plainAt(float distance_m) const {
    const float near = 60 / (60 + distance_m);
    return mix(paper, ink, (dark_ ? 0.12f : 0.10f) * near);
  }
  Colour glass() const { return mix(sky, ink, 0.25f); }

 private:
  bool dark_;
};

}  // namespace belvedere::picture
