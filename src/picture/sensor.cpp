// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/sensor.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "picture/coats.h"
#include "picture/work.h"

namespace belvedere::picture {
namespace {

constexpr double kMonoDarker = 0.6;  // by night a picture is kept darker; practice

// Normal deviates by Box and Muller.
struct Deviates {
  std::uint32_t state;
  double next() {
    const double a = shareOf(state = mixed(state, 11)), b = shareOf(state = mixed(state, 23));
    return std::sqrt(-2 * std::log(1 - a)) * std::cos(2 * kPi * b);
  }
};

}  // namespace

Exposed exposeFor(const Photo& photo, const Sensor& sensor) {
  Exposed exposed;
  exposed.exposure = exposureOf(photo) * (sensor.mono ? kMonoDarker : 1);
  exposed.exposure_s = sensor.exposure_s;
  if (!(sensor.needed_lux > 0)) return exposed;
  // With the gain at its most, the needed light on the stated reflectance comes to the contrast.
  const double most = sensor.contrast / (sensor.needed_lux * sensor.reflectance);
  if (exposed.exposure >= most) {
    exposed.exposure = most;
    exposed.gain_at_most = true;
    return exposed;
  }
  exposed.exposure_s *= std::min(1.0, kMostGain * exposed.exposure / most);
  exposed.exposure_s = std::max(exposed.exposure_s, 1e-5);
  return exposed;
}

void addNoise(const PhotoRow& row, const Sensor& sensor) {
  if (!(sensor.needed_lux > 0)) return;
  // Electrons for each lux thrown back: of a pixel of the picture, which may be several captured.
  const double captured = 1 / (sensor.pixels_over_captured * sensor.pixels_over_captured);
  const double per_lux = kElectronsAtNeeded / (sensor.needed_lux * sensor.reflectance);
  for (std::size_t x = 0; x < row.light.size(); ++x) {
    if (row.surface[x] == kMaskedSurface || row.surface[x] == kOutsideSurface) continue;
    Deviates deviates{
        mixed(static_cast<std::uint32_t>(x), static_cast<std::uint32_t>(row.y), sensor.seed)};
    Colour& c = row.light[x];
    const auto bright = static_cast<double>(brightness(c));
    const double electrons = std::max(0.0, bright) * per_lux;
    const double sigma =
        std::sqrt((electrons + kReadElectrons * kReadElectrons) / captured) / per_lux;
    const auto all = static_cast<float>(sigma * deviates.next());
    c = {c.red + all, c.green + all, c.blue + all};
    if (!sensor.mono) {
      // Each colour has fewer pixels of its own.
      const auto apart = [&] { return static_cast<float>(0.7 * sigma * deviates.next()); };
      c = {c.red + apart(), c.green + 0.7f * apart(), c.blue + 1.2f * apart()};
    }
    c = {std::max(0.0f, c.red), std::max(0.0f, c.green), std::max(0.0f, c.blue)};
  }
}

void addNoise(Photo& photo, const Sensor& sensor) {
  tbb::parallel_for(0, photo.height, [&](int y) { addNoise(rowOf(photo, y), sensor); });
}

}  // namespace belvedere::picture
