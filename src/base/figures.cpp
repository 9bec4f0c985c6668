// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace belvedere {

namespace {
// To so many decimals. What lies a billionth of a step beside one is on it, so that bounds that are
// round stay so.
double roundedTo(double value, int decimals, Rounded rounded) {
  const double steps = std::pow(10, decimals);
  const double result = rounded == Rounded::down ? std::floor(value * steps + 1e-9) / steps
                        : rounded == Rounded::up ? std::ceil(value * steps - 1e-9) / steps
                                                 : std::round(value * steps) / steps;
  return result + 0.0;  // no minus zero
}
}  // namespace

std::string figureBeside(double found, double limit, int decimals, Rounded rounded) {
  constexpr int kMore = 6;
  if (!std::isfinite(found)) return fmt::format("{}", found);
  const bool equal = std::abs(found - limit) <= 1e-9 * std::max(1.0, std::abs(limit));
  const int most = equal ? decimals : decimals + kMore;
  double value = roundedTo(found, decimals, rounded);
  while (decimals < most && std::abs(value - limit) <= 1e-9 * std::max(1.0, std::abs(limit)))
    value = roundedTo(found, ++decimals, rounded);
  return fmt::format("{:.{}f}", value, decimals);
}

}  // namespace belvedere
