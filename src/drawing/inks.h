// SPDX-License-Identifier: GPL-3.0-or-later
//
// The inks of everything that is drawn, light and dark: paper, ink and one accent. Margin of
// density is one blue that runs by lightness (even steps of CIE L*), light enough everywhere that
// words in ink read over it (contrast at least 4.5, WCAG 2) and that it prints in grey.
#pragma once

#include <array>
#include <cstdint>

namespace belvedere::drawing {

struct Rgb {
  std::uint8_t red = 0, green = 0, blue = 0;
  bool operator==(const Rgb&) const = default;
};

// Margins at which the wash's stops lie; the legend names them.
inline constexpr std::array<double, 4> kWashMargins{1, 2, 4, 8};

struct Inks {
  Rgb paper, ink, quiet, rules, accent;
  Rgb solid;                 // fill of what stands in the room, looked down upon
  Rgb masked;                // grey of what a mask covers: farther from paper than any wash
  std::array<Rgb, 4> wash;   // at kWashMargins
  // The wash of a margin >= 1: between stops by the logarithm, the last one above 8.
  Rgb washAt(double margin) const;

  static Inks light();
  static Inks dark();
};

}  // namespace belvedere::drawing
