// SPDX-License-Identifier: GPL-3.0-or-later
//
// Exposure (handbook 8 and 9): how much light an imager needs at an aperture and an exposure time,
// what lamps and luminaires come to on one scale, and what exposure time does to movement and to
// light that flickers with the mains.
#pragma once

#include <optional>

#include "design/design.h"
#include "optics/sharpness.h"

namespace belvedere::light {

// ---- needed light -------------------------------------------------------------------------------
// What is wanted of the statement; what is absent is taken as the statement has it.
struct Exposure {
  std::optional<double> f_number{}, exposure_s{}, reflectance{}, contrast{};
};
enum class Unknown { nothing, statement, f_number, exposure_s };
struct NeededLight {
  std::optional<double> lux;            // nothing: see `unknown`
  Unknown unknown = Unknown::nothing;   // what the data sheet leaves out
  double f_number = 0, exposure_s = 0;  // at which lux holds
  double stated_f_number = 0, stated_exposure_s = 0;
  // What had to be assumed: the statement's contrast or reflectance is not given though one is
  // wanted; 30 % contrast (IEC 62676-5, clause 4.2.3), the same reflectance.
  bool contrast_assumed = false, reflectance_assumed = false;
};
// E N^2 / (t rho) is held constant: needed = stated (N/N0)^2 (t0/t) (rho0/rho) (c/c0), the last for
// the contrast wanted (signal over a noise that does not change with it). Refuses to compare a
// statement without F-number or exposure time, or of 0 lx (which is "with the lamps on").
NeededLight neededLight(const std::optional<design::LeastLight>& stated, const Exposure& wanted);
inline constexpr double kStatedContrast = 0.3;

// Lit at 1 and above: E / E_needed + lamps (t / t_ref) (N_ref / N)^2. `lamp_light`: what lampLightAt
// gives for the imager's mode, which holds at the statement's F-number and exposure time.
double litShare(const NeededLight& needed, double lux, double lamp_light);
// What one unit of lampLightAt comes to in that sum.
double lampWeight(const NeededLight& needed);

// ---- movement -----------------------------------------------------------------------------------
inline constexpr double kBlurFacePx = 1, kBlurPlatePx = 0.5;  // at most: common practice, no source
constexpr double motionBlurPx(double px_per_m, double speed_mps, double exposure_s) {
  return px_per_m * speed_mps * exposure_s;
}
// The longest exposure that smears so much at most. speed and density above 0.
constexpr double longestExposureS(double px_per_m, double speed_mps, double blur_px) {
  return blur_px / (px_per_m * speed_mps);
}
// Pictures taken of a target on its way of so many metres.
constexpr double framesInZone(double frames_per_s, double path_m, double speed_mps) {
  return frames_per_s * path_m / speed_mps;
}

// ---- flicker ------------------------------------------------------------------------------------
// Lamps on the mains pulse at twice its frequency. The share of a sinusoidal ripple that is left in
// pictures (or rows of a picture) exposed for so long: |sin(x)/x|, x = 2 pi f t; 0 where the time is
// a whole number of pulses.
double flickerLeft(double mains_hz, double exposure_s);
// The longest exposure of whole pulses within so long (1/100 s, 1/50 s, ... at 50 Hz); nothing
// below one pulse: a shorter exposure always shows the ripple.
std::optional<double> steadyExposureS(double mains_hz, double longest_s);
// How often a second the brightness of pictures swings when so many are taken a second: the pulse
// frequency's distance to the nearest multiple of the frame rate.
double flickerBeatHz(double mains_hz, double frames_per_s);

}  // namespace belvedere::light
