// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sine and cosine of whatever is written in degrees.
#pragma once

#include "base/units.h"
#include "optics/trig.h"

namespace belvedere::design {

// Exact at the quarter turns.
struct SineCosine {
  double sine, cosine;
};
inline SineCosine sineCosine(double deg) {
  const double turned = wrap360(deg);
  const int quarter = static_cast<int>(turned / 90) % 4;
  double s, c;
  optics::trig::sineCosine(degToRad(turned - 90.0 * quarter), s, c);
  switch (quarter) {
    case 0:
      return {s, c};
    case 1:
      return {c, -s};
    case 2:
      return {-s, -c};
    default:
      return {-c, s};
  }
}

}  // namespace belvedere::design
