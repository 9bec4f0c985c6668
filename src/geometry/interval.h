// SPDX-License-Identifier: GPL-3.0-or-later
//
// Interval: all the values a quantity may take over a box. Plain double arithmetic without
// directed rounding: whoever decides on an interval allows kIntervalGuard of slack (relative),
// thousands of times what the few operations of one test can lose.
#pragma once

#include <algorithm>

namespace belvedere {

inline constexpr double kIntervalGuard = 1e-12;

struct Interval {
  double low = 0, high = 0;
  constexpr Interval() = default;
  constexpr Interval(double v) : low(v), high(v) {}  // NOLINT: a number is a thin interval
  constexpr Interval(double l, double h) : low(l), high(h) {}
  constexpr double mid() const { return 0.5 * (low + high); }
  constexpr double radius() const { return 0.5 * (high - low); }
  constexpr double magnitude() const { return std::max(low < 0 ? -low : low, high < 0 ? -high : high); }
  constexpr bool has(double v) const { return low <= v && v <= high; }
};
constexpr Interval operator+(Interval a, Interval b) { return {a.low + b.low, a.high + b.high}; }
constexpr Interval operator-(Interval a, Interval b) { return {a.low - b.high, a.high - b.low}; }
constexpr Interval operator-(Interval a) { return {-a.high, -a.low}; }
constexpr Interval operator*(Interval a, Interval b) {
  const double p = a.low * b.low, q = a.low * b.high, r = a.high * b.low, s = a.high * b.high;
  return {std::min(std::min(p, q), std::min(r, s)), std::max(std::max(p, q), std::max(r, s))};
}
// b must not hold zero.
constexpr Interval operator/(Interval a, Interval b) {
  return a * Interval{1.0 / b.high, 1.0 / b.low};
}
constexpr Interval square(Interval a) {
  const double m = a.magnitude();
  if (a.has(0)) return {0, m * m};
  const double n = std::min(a.low < 0 ? -a.low : a.low, a.high < 0 ? -a.high : a.high);
  return {n * n, m * m};
}
constexpr Interval hull(Interval a, Interval b) {
  return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

}  // namespace belvedere
