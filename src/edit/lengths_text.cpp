// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include "base/units.h"
#include "edit/lengths.h"

namespace belvedere::edit {
namespace {

constexpr double kFeetM = feetToM(1), kInchM = kFeetM / 12;

// A number with `decimals` digits, trailing zeros dropped down to `least` digits. No "-0".
std::string trimmed(double value, int decimals, int least) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  std::size_t drop = static_cast<std::size_t>(decimals - least);
  while (drop-- > 0 && text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

// Three digits that count, at least: 76.2, 250, 1234.
std::string threeDigits(double value) {
  const double size = std::abs(value);
  return trimmed(value, size < 10 ? 2 : size < 100 ? 1 : 0, 0);
}

std::string feetText(double m) {
  constexpr long long kPerFoot = 12 * 16;
  const long long sixteenths = std::llround(std::abs(m) / kInchM * 16);
  const long long feet = sixteenths / kPerFoot, inches = sixteenths % kPerFoot / 16;
  long long over = sixteenths % 16, under = 16;
  while (over > 0 && over % 2 == 0) over /= 2, under /= 2;
  std::string text = m < 0 && sixteenths > 0 ? "-" : "";
  text += fmt::format("{}' {}", feet, inches);
  if (over > 0) text += fmt::format(" {}/{}", over, under);
  return text + "\"";
}

}  // namespace

std::string lengthText(double m, Units units) {
  return units == Units::metric ? trimmed(m, 3, 2) + " m" : feetText(m);
}
std::string areaText(double m2, Units units) {
  if (units == Units::metric) return fmt::format("{:.2f} m\u00b2", m2);
  return fmt::format("{:.0f} ft\u00b2", m2 / (kFeetM * kFeetM));
}
std::string densityText(double px_per_m, Units units) {
  return units == Units::metric ? threeDigits(px_per_m) + " px/m"
                                : threeDigits(px_per_m * kFeetM) + " px/ft";
}
std::string placeText(Vec2 at_m, Units units) {
  if (units == Units::imperial) return feetText(at_m.x) + "; " + feetText(at_m.y);
  return trimmed(at_m.x, 3, 2) + "; " + trimmed(at_m.y, 3, 2) + " m";
}
std::string angleText(double deg) { return trimmed(deg, 2, 0) + "\u00b0"; }

std::string apertureText(double f_number) { return "f/" + trimmed(f_number, 2, 0); }

std::string exposureText(double s) {
  const double parts = 1 / s;
  if (s < 0.5 && std::abs(parts - std::round(parts)) < 0.01 * parts)
    return fmt::format("1/{:.0f} s", std::round(parts));
  return trimmed(s, s < 0.5 ? 5 : 2, 0) + " s";
}

}  // namespace belvedere::edit
