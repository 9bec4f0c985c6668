// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/trade_figures.h"

#include <fmt/format.h>

#include <cmath>

namespace belvedere {

std::string fNumberText(double f_number) { return fmt::format("f/{:.2g}", f_number); }

std::string exposureText(double seconds, Rounded rounded) {
  constexpr double kHair = 1e-6, kSame = 0.02;
  const bool down = rounded == Rounded::down;
  if (seconds > 0 && seconds < 1) {
    const double exact = 1 / seconds;
    const double share = down ? std::ceil(exact * (1 - kHair)) : std::round(exact);
    if (share > 1 && std::abs(seconds * share - 1) < kSame) return fmt::format("1/{:.0f} s", share);
  }
  if (seconds > 0 && seconds < 0.5) {  // longer ones are said in seconds
    const double ms = 1e3 * seconds;
    const double digit = std::pow(10, std::floor(std::log10(ms)) - 2);  // three that count
    return fmt::format("{:g} ms", down ? std::floor(ms / digit * (1 + kHair)) * digit
                                       : std::round(ms / digit) * digit);
  }
  return fmt::format("{:.3g} s", seconds);
}

std::string clockText(double hours) {
  const int minutes = static_cast<int>(std::lround(hours * 60));
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

}  // namespace belvedere
