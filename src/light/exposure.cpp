// SPDX-License-Identifier: GPL-3.0-or-later
#include "light/exposure.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace belvedere::light {

NeededLight neededLight(const std::optional<design::LeastLight>& stated, const Exposure& wanted) {
  NeededLight out;
  if (!stated || stated->lux <= 0) {
    out.unknown = Unknown::statement;
    return out;
  }
  if (!stated->f_number || !stated->exposure_s) {
    out.unknown = stated->f_number ? Unknown::exposure_s : Unknown::f_number;
    return out;
  }
  out.stated_f_number = *stated->f_number;
  out.stated_exposure_s = *stated->exposure_s;
  out.f_number = wanted.f_number.value_or(out.stated_f_number);
  out.exposure_s = wanted.exposure_s.value_or(out.stated_exposure_s);
  double lux = stated->lux / lampWeight(out);
  if (wanted.reflectance) {
    out.reflectance_assumed = !stated->reflectance;
    if (stated->reflectance) lux *= *stated->reflectance / *wanted.reflectance;
  }
  if (wanted.contrast) {
    out.contrast_assumed = !stated->contrast || *stated->contrast <= 0;
    lux *= *wanted.contrast / (out.contrast_assumed ? kStatedContrast : *stated->contrast);
  }
  out.lux = lux;
  return out;
}

double lampWeight(const NeededLight& needed) {
  const double aperture = needed.stated_f_number / needed.f_number;
  return needed.exposure_s / needed.stated_exposure_s * aperture * aperture;
}

double litShare(const NeededLight& needed, double lux, double lamp_light) {
  if (!needed.lux) return 0;
  return lux / *needed.lux + lamp_light * lampWeight(needed);
}

double flickerLeft(double mains_hz, double exposure_s) {
  const double x = 2 * kPi * mains_hz * exposure_s;
  return x < 1e-8 ? 1 : std::fabs(std::sin(x) / x);
}

std::optional<double> steadyExposureS(double mains_hz, double longest_s) {
  const double pulses = std::floor(longest_s * 2 * mains_hz * (1 + 1e-9));
  if (pulses < 1) return {};
  return pulses / (2 * mains_hz);
}

double flickerBeatHz(double mains_hz, double frames_per_s) {
  const double pulses_hz = 2 * mains_hz;
  return std::fabs(pulses_hz - frames_per_s * std::round(pulses_hz / frames_per_s));
}

}  // namespace belvedere::light
