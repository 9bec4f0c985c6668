// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/inks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace belvedere::drawing {
namespace {

// Published: WCAG 2.1, "relative luminance" and "contrast ratio" (W3C, 2018); from memory.
double luminance(Rgb c) {
  const auto linear = [](std::uint8_t value) {
    const double v = value / 255.0;
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
}
double contrast(Rgb a, Rgb b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}
// CIE 1976 lightness.
double lightness(Rgb c) { return 116 * std::cbrt(luminance(c)) - 16; }

// Published: WCAG 2.1, success criterion 1.4.3: text needs 4.5 to 1.
TEST(Inks, WordsReadOnPaper) {
  for (const Inks& inks : {Inks::light(), Inks::dark()}) {
    EXPECT_GE(contrast(inks.ink, inks.paper), 4.5);
    EXPECT_GE(contrast(inks.quiet, inks.paper), 4.5);
    EXPECT_GE(contrast(inks.accent, inks.paper), 4.5);
  }
}

// Published: the same, for figures in contour lines and words over the wash and over solids.
TEST(Inks, WordsReadOnEveryWash) {
  for (const Inks& inks : {Inks::light(), Inks::dark()}) {
    for (double margin = 1; margin <= 16; margin *= 1.1)
      EXPECT_GE(contrast(inks.ink, inks.washAt(margin)), 4.5) << margin;
    EXPECT_GE(contrast(inks.ink, inks.solid), 4.5);
  }
}

// Property: the wash runs by lightness in even steps, so it reads in grey; ample lies farthest
// from paper; a mask's grey is no wash.
TEST(Inks, WashRunsEvenlyByLightness) {
  for (const Inks& inks : {Inks::light(), Inks::dark()}) {
    const double step = lightness(inks.wash[1]) - lightness(inks.wash[0]);
    EXPECT_GE(std::abs(step), 6);
    for (std::size_t i = 1; i < 3; ++i)
      EXPECT_NEAR(lightness(inks.wash[i + 1]) - lightness(inks.wash[i]), step, 1);
    EXPECT_GT(std::abs(lightness(inks.masked) - lightness(inks.paper)),
              std::abs(lightness(inks.wash[3]) - lightness(inks.paper)) + 5);
  }
  const Inks inks = Inks::light();
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(inks.washAt(kWashMargins[i]), inks.wash[i]);
  EXPECT_EQ(inks.washAt(100), inks.wash[3]);
}

}  // namespace
}  // namespace belvedere::drawing
