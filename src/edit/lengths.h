// SPDX-License-Identifier: GPL-3.0-or-later
//
// Typed lengths, angles and places, and how they are shown. Inside, everything is metres and
// degrees; units are of the text only.
//
// A length: a number with or without a unit (m, cm, mm, km, ft, in, ', "), point or comma before
// the decimals; 12'6, 12' 6 1/2", 12'-6" (without spaces: twelve feet and six inches); sums,
// differences, products, quotients and brackets of them, 2*(1.2 + 40 cm). A plain number beside a
// length, or alone, is in the units' own: metres or feet.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "geometry/vec.h"

namespace belvedere::edit {

enum class Units { metric, imperial };

// Metres. Throws InputError (bad_length), which says at which character and what is wrong.
double lengthFrom(std::string_view text, Units units);
// Degrees: a number or a calculation of numbers, "deg" after it allowed. Throws likewise
// (bad_angle).
double angleFrom(std::string_view text);
// A place on the site: "4.5;3" from the site's zero, "@2;1" from `from`, "@5<90" so far from
// `from` in a bearing, clockwise from north. Throws likewise (bad_place), also for @ without
// `from`.
Vec2 placeFrom(std::string_view text, Units units, std::optional<Vec2> from);

// "3.20 m", "3.205 m" (to the millimetre); 12' 6 1/2" (to the sixteenth of an inch).
std::string lengthText(double m, Units units);
// "12.35 m²", "133 ft²".
std::string areaText(double m2, Units units);
// "250 px/m", "76.2 px/ft".
std::string densityText(double px_per_m, Units units);
// "4.50; 3.00 m", "14' 9 1/8"; 9' 10 1/8"".
std::string placeText(Vec2 at_m, Units units);
// "92.5°".
std::string angleText(double deg);

// Exposure times, s: "1/25", "1/25 s", "0.04", "40 ms". Throws InputError (bad_exposure).
double exposureFrom(std::string_view text);
// "1/25 s", "2 s".
std::string exposureText(double s);
// Apertures: "f/4", "4", "1:2.8". Throws InputError (bad_aperture).
double apertureFrom(std::string_view text);
// "f/5.6".
std::string apertureText(double f_number);

}  // namespace belvedere::edit
