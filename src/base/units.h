// SPDX-License-Identifier: GPL-3.0-or-later
//
// Conversions by name. Inside: SI and radians where a function says so; at the edges the trade's
// units, with the unit in the name.
#pragma once

#include <cmath>
#include <numbers>

namespace belvedere {

inline constexpr double kPi = std::numbers::pi;
constexpr double degToRad(double deg) { return deg * (kPi / 180.0); }
constexpr double radToDeg(double rad) { return rad * (180.0 / kPi); }
constexpr double mmToM(double mm) { return mm * 1e-3; }
constexpr double umToM(double um) { return um * 1e-6; }
constexpr double feetToM(double feet) { return feet * 0.3048; }

// bearing_deg brought into [0, 360).
inline double wrap360(double deg) {
  const double r = std::fmod(deg, 360.0);
  return r < 0 ? r + 360.0 : r;
}
// an angle brought into (-180, 180].
inline double wrap180(double deg) {
  const double r = wrap360(deg);
  return r > 180.0 ? r - 360.0 : r;
}

}  // namespace belvedere
