// SPDX-License-Identifier: GPL-3.0-or-later
//
// A sensor by little light: how far gain and exposure time carry, and the noise that is left.
//
// What ties it to the data sheet is the least illuminance there: at it, a surface of the stated
// reflectance comes out at the stated contrast, 30 % of full (IEC 62676-5, from memory), with the
// gain at its most. More light is taken by less gain first, then by a shorter exposure; less light
// leaves the picture darker. Noise: that of the light itself and of reading out, with
// kElectronsAtNeeded electrons at the needed light. Common practice, no source: real cameras differ
// by a factor of two or three, and smooth noise over.
#pragma once

#include <cstdint>

#include "picture/develop.h"

namespace belvedere::picture {

inline constexpr double kElectronsAtNeeded = 14, kReadElectrons = 2.5;
inline constexpr double kMostGain = 200;            // 46 dB between the least and the most gain
inline constexpr double kStatedReflectance = 0.75;  // where the data sheet says none

struct Sensor {
  double needed_lux = 0;  // at the exposure as set (light/exposure.h)
  double contrast = 0.3;  // of full, at the needed light
  double reflectance = kStatedReflectance;
  double exposure_s = 0.04;         // at which that is needed; the longest taken
  double pixels_over_captured = 1;  // of the picture, along each axis: fewer, less noise
  bool mono = false;
  std::uint32_t seed = 1;
};

// How the camera exposes.
struct Exposed {
  double exposure = 1;        // by which light is multiplied (develop.h)
  double exposure_s = 0.04;   // shortened where there is light enough
  bool gain_at_most = false;  // there is not: the picture is darker than it should be
};
Exposed exposeFor(const Photo& photo, const Sensor& sensor);

// Adds the noise of one picture. The same arguments give the same bytes.
void addNoise(Photo& photo, const Sensor& sensor);
void addNoise(const PhotoRow& row, const Sensor& sensor);

}  // namespace belvedere::picture
