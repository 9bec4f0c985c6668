// SPDX-License-Identifier: GPL-3.0-or-later
//
// light: what there is to see by. Luminaires and their photometry, infrared and white lamps,
// illuminance at a point and over a box, the exposure that it is enough for, the sun, and what a
// lamp does to its own camera. Knows the design and its solids; knows nothing of requirements:
// the judge asks this room and decides.
//
// This file: the light distribution of a luminaire, read from LM-63 (1986, 1991, 1995, 2002, 2019;
// types A, B and C; TILT=NONE and TILT=INCLUDE) or EULUMDAT text. Both give one value: symmetry
// unfolded, all of the file's factors taken in, candela of the luminaire as a whole.
//
// Luminaire frame: z along its axis (type C: gamma = 0), x in the half-plane C = 0, y in C = 90.
// Sources: ANSI/IES LM-63-19 and its forerunners; CIE 121 for the three systems of planes; the
// EULUMDAT description of 1990. All three from memory.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "geometry/interval.h"
#include "geometry/vec.h"

namespace belvedere::light {

// Which planes the two angles of a table belong to.
enum class Planes {
  c,  // planes through the axis: C = atan2(y, x), gamma from the axis
  b,  // planes through x:        V = atan2(y, z), H = asin(x)   (floodlights)
  a   // planes through y:        H = atan2(x, z), V = asin(y)   (vehicle lamps)
};

// Lamp output against how far the luminaire is tilted from hanging straight down.
struct TiltFactor {
  std::vector<double> angles_deg;  // ascending
  std::vector<double> factors;
  bool operator==(const TiltFactor&) const = default;
};

struct Photometry {
  Planes planes = Planes::c;
  std::vector<double> across_deg;  // ascending. c: from 0 to 360, both there; a, b: horizontal
  std::vector<double> along_deg;   // ascending. c: gamma, within 0 to 180; a, b: vertical
  std::vector<double> candela;     // [across * along_deg.size() + along]; no light beyond the angles
  std::optional<double> lamp_lumens;  // of all its lamps together; nothing for absolute photometry
  std::optional<double> input_w;
  TiltFactor tilt;                 // empty: none
  double opening_m = 0;            // largest extent of the luminous opening, 0: a point or not said
  std::string title;               // UTF-8, may be empty
  std::string format;              // "LM-63-1995", "EULUMDAT"
  std::vector<std::string> notes;  // what was odd in the file, and how it was read
  bool operator==(const Photometry&) const = default;
};

inline constexpr std::size_t kMostPhotometryBytes = 16u << 20;

// Reads either format, told apart by their first lines (LM-63 has a line TILT=).
//   text    the file's bytes: any line ends; UTF-8, or else taken for Latin-1
//   throws  InputError: photometry_unusable, all that was found, each with `where` "line 12"
Photometry readPhotometry(std::string_view text);

// Luminous intensity towards a direction in the luminaire frame (any length but zero), cd:
// bilinear in the table's two angles.
double candelaToward(const Photometry& photometry, const Vec3& dir_in_luminaire);

// All the values candelaToward takes over directions that lie within `half_angle_rad` of one.
Interval candelaWithin(const Photometry& photometry, const Vec3& dir_in_luminaire,
                       double half_angle_rad);

// How fast it changes with each of the two angles over those directions, per radian. Nothing where it jumps (at
// the table's end, unless it has come to nothing there; at the axis, unless its planes agree), and for tables of
// types A and B.
struct CandelaSlopes {
  Interval across_per_rad, along_per_rad;
};
std::optional<CandelaSlopes> candelaSlopesWithin(const Photometry& photometry,
                                                 const Vec3& dir_in_luminaire,
                                                 double half_angle_rad);

// Flux of the luminaire, lm: the exact integral of candelaToward over the sphere.
double lumensOf(const Photometry& photometry);

// What a lamp gives in a luminaire tilted so far, over what it gives in one that hangs straight
// down; linear between the angles of the file, 1 where it has none.
double tiltFactorAt(const Photometry& photometry, double tilted_by_deg);

// A source of equal intensity in every direction; of a flat one, intensity falls with the cosine.
Photometry pointSource(double candela);
Photometry flatSource(double candela_on_axis);

}  // namespace belvedere::light
