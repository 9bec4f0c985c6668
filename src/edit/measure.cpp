// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/measure.h"

#include <cmath>

#include "base/units.h"
#include "design/resolve.h"
#include "geometry/polygon.h"
#include "optics/trig.h"

namespace belvedere::edit {

double bearingDeg(Vec2 from, Vec2 to) {
  const Vec2 d = to - from;
  if (d == Vec2{}) return 0;
  const double deg = radToDeg(optics::trig::angleOf(std::abs(d.x), d.y));
  return d.x < 0 ? wrap360(360 - deg) : deg;
}

Vec2 placeAt(Vec2 from, double bearing_deg, double distance_m) {
  return from + design::imagerFromSite(bearing_deg, 0, 0).row[2].xy() * distance_m;
}

Vec2 squareFrom(Vec2 from, Vec2 to, const std::vector<double>& axes_deg) {
  const Vec2 way = to - from;
  Vec2 best = from;
  for (const double axis_deg : axes_deg)
    for (const double turn_deg : {0.0, 90.0}) {
      const Vec2 along = placeAt({}, axis_deg + turn_deg, 1);
      const Vec2 foot = from + along * dot(way, along);
      if (norm(foot - to) < norm(best - to)) best = foot;
    }
  return best;
}

double tidyLength(double m) { return std::round(m * 1000) / 1000; }

double lengthOf(const std::vector<Vec2>& line) {
  double length_m = 0;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) length_m += norm(line[i + 1] - line[i]);
  return length_m;
}

Measured measured(const std::vector<Vec2>& points) {
  Measured m;
  if (points.empty()) return m;
  m.distance_m = norm(points.back() - points.front());
  if (m.distance_m > 0) m.bearing_deg = bearingDeg(points.front(), points.back());
  m.along_m = lengthOf(points);
  m.perimeter_m = m.along_m + m.distance_m;
  if (points.size() > 2 && !selfCrossing(points)) m.area_m2 = std::abs(signedArea(points));
  return m;
}

}  // namespace belvedere::edit
