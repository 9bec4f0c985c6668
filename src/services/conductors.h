// SPDX-License-Identifier: GPL-3.0-or-later
//
// Copper conductors: resistance by size and temperature (handbook 11).
#pragma once

#include <span>

namespace belvedere::services {

// Highest resistance at 20 C of one plain copper conductor [IEC 60228:2004, Conductors of insulated
// cables, tables 1, 2 and 3].
struct CopperSize {
  double area_mm2;
  double solid_or_stranded_ohm_per_km;  // classes 1 and 2
  double flexible_ohm_per_km;           // class 5
};
std::span<const CopperSize> copperSizes();  // 0.5 to 16 mm2, smallest first

// Solid annealed copper at 20 C [US National Bureau of Standards, Copper wire tables (1966); ASTM B258].
struct WireGauge {
  int awg;
  double area_mm2;
  double ohm_per_km;
};
std::span<const WireGauge> wireGauges();  // 24 to 10, thinnest first

// Of annealed copper at 20 C [IEC 60028:1925, International standard of resistance for copper; from
// memory].
inline constexpr double kCopperAlphaPerK = 0.00393;

// The resistance at a temperature of what has `ohm_20c` at 20 C: exact rule (234.5 + t) / 254.5.
constexpr double ohmAt(double ohm_20c, double temperature_c) {
  return ohm_20c * (1 + kCopperAlphaPerK * (temperature_c - 20));
}

}  // namespace belvedere::services
