// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sun: where it stands, and when in a year it stands in or beside an imager's frame or behind a
// face. Positions by libnova (VSOP87), topocentric and with refraction: within kSunErrorDeg of the
// NREL algorithm. A year is laid out once for a site; each imager is then a matter of looking.
//
// Azimuth from true north, clockwise. Times are UTC; a year is laid out in hours of a fixed offset
// to it, by default that of the site's longitude: clocks may differ, summer time is not kept.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "design/design.h"
#include "design/resolve.h"
#include "light/illuminance.h"

namespace belvedere::light {

inline constexpr double kSunErrorDeg = 0.0005;

// Julian day of a date of the Gregorian calendar, UTC; hour may have a part and lie beyond 24.
double julianDay(int year, int month, int day, double hour_utc);

struct SunPosition {
  double azimuth_deg = 0;
  double elevation_deg = 0;       // with refraction
  double true_elevation_deg = 0;  // without
};
// Refraction as for 1010 hPa and 10 C unless said otherwise; none below the horizon.
SunPosition sunAt(double julian_day, double lat_deg, double lon_deg, double pressure_hpa = 1010,
                  double temperature_c = 10);
// Towards the sun (unit, site); north_deg is the bearing on the drawing of true north.
Vec3 sunDirection(const SunPosition& sun, double north_deg);

// Illuminance of a level plane by day and in twilight, lux, under the open sky, by the sun's true
// elevation. By day the IES curves (sun and sky; RP-21, from memory); from 5 deg down straight lines
// in the logarithm through 400 lx (overcast 40) at the horizon, 3.4 (0.34) at -6 deg and 0.002
// (0.0001) from -18 deg on, the public tables' figures.
enum class Sky { clear, overcast };
double skyLux(double true_elevation_deg, Sky sky);

// ---- a year -------------------------------------------------------------------------------------
struct SunYear {
  int year = 0, days = 0, steps_per_day = 0;
  double utc_offset_h = 0;               // of the hours it is laid out in
  std::vector<Vec3> direction;           // [day * steps_per_day + step], site, unit
  std::vector<float> elevation_deg;      // with refraction; the sun is up above 0
  double hoursPerStep() const { return 24.0 / steps_per_day; }
  double hourOf(int step) const { return (step + 0.5) * hoursPerStep(); }  // middle of the step
  std::size_t at(int day, int step) const {
    return static_cast<std::size_t>(day) * static_cast<std::size_t>(steps_per_day) +
           static_cast<std::size_t>(step);
  }
};
inline constexpr int kSunStepsPerDay = 288;  // five minutes
// In hours of `utc_offset_h`, else of the place's time zone without summer time, else (none stated, or
// none that is known here) of the zone that its longitude suggests.
SunYear sunYear(const design::Place& place, int year, int steps_per_day = kSunStepsPerDay,
                std::optional<double> utc_offset_h = {});
// Of a day (from 0) in the year: "2026-03-31".
std::string dateOf(const SunYear& year, int day);

enum class SunState : std::uint8_t {
  down,      // below the horizon
  elsewhere, // up, and harmless
  hidden,    // would be in or near the frame, but for what stands between
  near,      // within kSunNearDeg of the frame
  in_frame
};
inline constexpr double kSunNearDeg = 10;  // handbook 9

// Days on end on which the sun does so, and between which hours of the day (of any of them).
struct SunSpell {
  SunState state = SunState::near;
  int first_day = 0, last_day = 0;
  double from_h = 0, to_h = 0;
  bool operator==(const SunSpell&) const = default;
};
struct SunChart {
  std::vector<SunState> state;           // as SunYear::direction
  double in_frame_h = 0, near_h = 0, hidden_h = 0, up_h = 0;  // in the year
  std::vector<SunSpell> spells;          // of near or in_frame together; in_frame where ever in it
};
// Against the whole captured picture; rays from the lens, through all that lets some light pass.
SunChart sunChart(const SunYear& year, const design::PosedImager& imager, const Solids& solids);

// Does light from there (unit, site) reach the place, through all that lets some pass?
bool sunReaches(const Solids& solids, const Vec3& from, const Vec3& direction);

// Angle between a direction (site) and the nearest one that the imager's picture shows, deg; 0 in it.
class FrameOnSky {
 public:
  explicit FrameOnSky(const design::PosedImager& imager);
  double degreesOff(const Vec3& direction) const;

 private:
  const design::PosedImager* imager_;
  std::vector<Vec3> edge_;  // directions round the picture's edge, site
  double farthest_deg_ = 0; // of the edge from the axis
};

// When low sun lights a target from behind, as a camera sees it: the sun is up to low_deg high,
// within beside_deg (in plan) of the line from lens to target carried on, and shines on the target.
// Common practice, no source.
struct Backlight {
  double low_deg = 20, beside_deg = 45;
};
SunChart backlightChart(const SunYear& year, const Vec3& lens_m, const Vec3& target_m,
                        const Solids& solids, const Backlight& limits = {});

}  // namespace belvedere::light
