// SPDX-License-Identifier: GPL-3.0-or-later
//
// For sun_almanac_test.py: reads lines "julian_day lat_deg lon_deg", writes azimuth and both
// elevations of each.
#include <cstdio>

#include "light/sun.h"

int main() {
  double jd = 0, lat = 0, lon = 0;
  while (std::scanf("%lf %lf %lf", &jd, &lat, &lon) == 3) {
    const belvedere::light::SunPosition sun = belvedere::light::sunAt(jd, lat, lon);
    std::printf("%.9f %.9f %.9f\n", sun.azimuth_deg, sun.elevation_deg, sun.true_elevation_deg);
  }
  return 0;
}
