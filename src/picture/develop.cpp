// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/develop.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "picture/work.h"

namespace belvedere::picture {
namespace {

constexpr double kMiddle = 0.36;     // where the middle tone comes out, linear
constexpr double kLightsMost = 1.5;  // where nine tenths of the picture stay under


// A little deeper in the shades, rolled off from a half so that five times the white is the most.
float rolledOff(float linear) {
  constexpr float kKnee = 0.5f, kMost = 5;
  const float v = linear * (linear + 0.10f) / (linear + 0.13f) * 1.05f;
  if (v <= kKnee) return v;
  const float over = (v - kKnee) / (1 - kKnee), most = (kMost - kKnee) / (1 - kKnee);
  // over (1 + over / most^2) / (1 + over): one at `most`, slope one at the knee.
  return kKnee + (1 - kKnee) * std::min(1.0f, over * (1 + over / (most * most)) / (1 + over));
}

}  // namespace

float encoded(float linear) {
  const float v = std::clamp(linear, 0.0f, 1.0f);
  return 255 * (v <= 0.0031308f ? 12.92f * v : 1.055f * std::pow(v, 1 / 2.4f) - 0.055f);
}

double exposureOf(const Photo& photo) {
  // Every so many pixels, in the order of the picture.
  const std::size_t step = std::max<std::size_t>(1, photo.light.size() / 40000);
  std::vector<float> tones;
  for (std::size_t i = 0; i < photo.light.size(); i += step) {
    if (photo.surface[i] == kOutsideSurface || photo.surface[i] == kMaskedSurface) continue;
    tones.push_back(brightness(photo.light[i]));
  }
  if (tones.empty()) return 1;
  std::sort(tones.begin(), tones.end());
  const auto at = [&](double share) {
    return static_cast<double>(
        tones[static_cast<std::size_t>(share * static_cast<double>(tones.size() - 1))]);
  };
  const double middle = at(0.5), lights = at(0.9);
  if (!(lights > 0)) return 1;
  return std::min(kMiddle / std::max(middle, 1e-4 * lights),
                  std::max(kLightsMost / lights, 0.5 * kMiddle / std::max(middle, 1e-4 * lights)));
}

void develop(std::span<const Colour> light, std::span<const std::uint32_t> surface, double exposure,
             const Tones& tones, std::uint32_t* argb) {
  const auto scale = static_cast<float>(exposure);
  const std::uint32_t masked = argbOf(colourOf(tones.masked)),
                      outside = argbOf(colourOf(tones.ink));
  for (std::size_t i = 0; i < light.size(); ++i) {
    if (surface[i] == kMaskedSurface || surface[i] == kOutsideSurface) {
      argb[i] = surface[i] == kMaskedSurface ? masked : outside;
      continue;
    }
    const Colour c = light[i] * scale;
    const float bright = brightness(c), rolled = rolledOff(bright);
    // Colours keep their hue as they are rolled off, and pale where they would burn out.
    Colour shown = bright > 0 ? c * (rolled / bright) : c;
    const float most = std::max({shown.red, shown.green, shown.blue});
    if (most > 1)
      shown = mix(shown, Colour{rolled, rolled, rolled},
                  std::min(1.0f, (most - 1) / (most - rolled + 1e-6f)));
    const float red = encoded(shown.red);
    argb[i] = shown.green == shown.red && shown.blue == shown.red
                  ? argbOf({red, red, red})
                  : argbOf({red, encoded(shown.green), encoded(shown.blue)});
  }
}

Developed develop(const Photo& photo, double exposure, const Tones& tones) {
  Developed made;
  made.width = photo.width;
  made.height = photo.height;
  made.argb.resize(photo.light.size());
  tbb::parallel_for(0, photo.height, [&](int y) {
    const std::size_t at = photo.at(0, y), n = static_cast<std::size_t>(photo.width);
    develop(std::span(photo.light).subspan(at, n), std::span(photo.surface).subspan(at, n), exposure,
            tones, &made.argb[at]);
  });
  return made;
}

}  // namespace belvedere::picture
