// SPDX-License-Identifier: GPL-3.0-or-later
#include <libnova/dynamical_time.h>
#include <libnova/nutation.h>
#include <libnova/precession.h>
#include <libnova/sidereal_time.h>
#include <libnova/solar.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/check.h"
#include "base/units.h"
#include "light/sun.h"
#include "light/time_zone.h"

namespace belvedere::light {
namespace {

struct Equatorial {
  double ascension_deg = 0, declination_deg = 0;
};

struct Ecliptic {
  double longitude_deg = 0, latitude_deg = 0;
};
Equatorial equatorOf(const Ecliptic& e, double obliquity_deg) {
  const double l = degToRad(e.longitude_deg), b = degToRad(e.latitude_deg), o = degToRad(obliquity_deg);
  return {radToDeg(std::atan2(std::sin(l) * std::cos(o) - std::tan(b) * std::sin(o), std::cos(l))),
          radToDeg(std::asin(std::sin(b) * std::cos(o) + std::cos(b) * std::sin(o) * std::sin(l)))};
}
Ecliptic eclipticOf(const Equatorial& e, double obliquity_deg) {
  const double a = degToRad(e.ascension_deg), d = degToRad(e.declination_deg), o = degToRad(obliquity_deg);
  return {radToDeg(std::atan2(std::sin(a) * std::cos(o) + std::tan(d) * std::sin(o), std::cos(a))),
          radToDeg(std::asin(std::sin(d) * std::cos(o) - std::cos(d) * std::sin(o) * std::sin(a)))};
}

// Apparent place, equator and equinox of date. The library's series are those of the ecliptic of
// 2000, and its own "apparent" coordinates leave them there: a third of a degree off by 2026. So the
// geometric place is taken, and brought to the date with the library's precession and nutation.
Equatorial apparent(double julian_day) {
  const double day = ln_get_jde(julian_day);
  ln_helio_posn geometric{};
  ln_get_solar_geom_coords(day, &geometric);
  constexpr double kObliquity2000Deg = 23.4392911;
  const Equatorial in_2000 = equatorOf({geometric.L, geometric.B}, kObliquity2000Deg);
  ln_equ_posn mean_2000{in_2000.ascension_deg, in_2000.declination_deg}, mean{};
  ln_get_equ_prec(&mean_2000, day, &mean);
  ln_nutation nutation{};
  ln_get_nutation(day, &nutation);
  Ecliptic of_date = eclipticOf({mean.ra, mean.dec}, nutation.ecliptic);
  constexpr double kAberrationDeg = 20.4955 / 3600;
  of_date.longitude_deg += nutation.longitude - kAberrationDeg / geometric.R;
  return equatorOf(of_date, nutation.ecliptic + nutation.obliquity);
}

// Sæmundsson's formula as the NREL report has it (equation 42).
double refractionDeg(double elevation_deg, double pressure_hpa, double temperature_c) {
  if (elevation_deg < -0.8333) return 0;
  return pressure_hpa / 1010 * 283 / (273 + temperature_c) * 1.02 /
         (60 * std::tan(degToRad(elevation_deg + 10.3 / (elevation_deg + 5.11))));
}

SunPosition horizontal(const Equatorial& sun, double sidereal_deg, double lat_deg, double lon_deg,
                       double pressure_hpa, double temperature_c) {
  const double hour = degToRad(sidereal_deg + lon_deg - sun.ascension_deg);
  const double lat = degToRad(lat_deg), dec = degToRad(sun.declination_deg);
  const double up = std::sin(lat) * std::sin(dec) + std::cos(lat) * std::cos(dec) * std::cos(hour);
  const double north = std::cos(lat) * std::sin(dec) - std::sin(lat) * std::cos(dec) * std::cos(hour);
  const double east = -std::cos(dec) * std::sin(hour);
  SunPosition out;
  out.azimuth_deg = wrap360(radToDeg(std::atan2(east, north)));
  const double geocentric = radToDeg(std::atan2(up, std::hypot(north, east)));
  // Parallax: 8.794 arc seconds on the horizon.
  out.true_elevation_deg = geocentric - 8.794 / 3600 * std::cos(degToRad(geocentric));
  out.elevation_deg = out.true_elevation_deg +
                      refractionDeg(out.true_elevation_deg, pressure_hpa, temperature_c);
  return out;
}

double siderealDeg(double julian_day) { return 15 * ln_get_apparent_sidereal_time(julian_day); }

}  // namespace

double julianDay(int year, int month, int day, double hour_utc) {
  // Fliegel and Van Flandern (1968), integer arithmetic.
  const int a = (month - 14) / 12;
  const int noon = (1461 * (year + 4800 + a)) / 4 + (367 * (month - 2 - 12 * a)) / 12 -
                   (3 * ((year + 4900 + a) / 100)) / 4 + day - 32075;
  return noon - 0.5 + hour_utc / 24;
}

SunPosition sunAt(double julian_day, double lat_deg, double lon_deg, double pressure_hpa,
                  double temperature_c) {
  return horizontal(apparent(julian_day), siderealDeg(julian_day), lat_deg, lon_deg, pressure_hpa,
                    temperature_c);
}

Vec3 sunDirection(const SunPosition& sun, double north_deg) {
  const double bearing = degToRad(sun.azimuth_deg + north_deg), e = degToRad(sun.elevation_deg);
  return {std::cos(e) * std::sin(bearing), std::cos(e) * std::cos(bearing), std::sin(e)};
}

SunYear sunYear(const design::Place& place, int year, int steps_per_day,
                std::optional<double> utc_offset_h) {
  BELVEDERE_CHECK(steps_per_day > 0, "a day has steps");
  SunYear out;
  out.year = year;
  out.steps_per_day = steps_per_day;
  out.utc_offset_h = utc_offset_h.value_or(
      standardOffsetH(place.time_zone, year).value_or(std::round(place.lon_deg / 15)));
  const double start = julianDay(year, 1, 1, -out.utc_offset_h);
  out.days = static_cast<int>(std::lround(julianDay(year + 1, 1, 1, 0) - julianDay(year, 1, 1, 0)));
  // The library takes long for one position; over days the sun's own way is so even that four of
  // them (Lagrange) give any moment between the middle two to 1e-5 deg.
  std::vector<Equatorial> daily;
  for (int d = -1; d <= out.days + 2; ++d) {
    Equatorial sun = apparent(start + d);
    if (!daily.empty())  // unwrapped
      sun.ascension_deg += 360 * std::round((daily.back().ascension_deg - sun.ascension_deg) / 360);
    daily.push_back(sun);
  }
  std::vector<double> sidereal;
  for (int d = 0; d <= out.days; ++d) sidereal.push_back(siderealDeg(start + d));
  const std::size_t count = static_cast<std::size_t>(out.days) * static_cast<std::size_t>(steps_per_day);
  out.direction.reserve(count);
  out.elevation_deg.reserve(count);
  for (int d = 0; d < out.days; ++d) {
    const auto day = static_cast<std::size_t>(d);
    const double turn = 360 + wrap180(sidereal[day + 1] - sidereal[day]);  // in a day
    for (int s = 0; s < steps_per_day; ++s) {
      const double t = (s + 0.5) / steps_per_day;
      const std::array<double, 4> weight{-t * (t - 1) * (t - 2) / 6, (t + 1) * (t - 1) * (t - 2) / 2,
                                         -(t + 1) * t * (t - 2) / 2, (t + 1) * t * (t - 1) / 6};
      Equatorial sun;
      for (std::size_t k = 0; k < 4; ++k) {
        sun.ascension_deg += weight[k] * daily[day + k].ascension_deg;
        sun.declination_deg += weight[k] * daily[day + k].declination_deg;
      }
      const SunPosition position =
          horizontal(sun, sidereal[day] + t * turn, place.lat_deg, place.lon_deg, 1010, 10);
      out.direction.push_back(sunDirection(position, place.north_deg));
      out.elevation_deg.push_back(static_cast<float>(position.elevation_deg));
    }
  }
  return out;
}

}  // namespace belvedere::light
