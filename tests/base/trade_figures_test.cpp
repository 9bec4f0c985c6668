// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/trade_figures.h"

#include <gtest/gtest.h>

namespace belvedere {
namespace {

// Closed form: two digits that count.
TEST(TradeFigures, FNumbersAreSaidWithTwoDigits) {
  EXPECT_EQ(fNumberText(1.68554), "f/1.7");
  EXPECT_EQ(fNumberText(2), "f/2");
  EXPECT_EQ(fNumberText(11.31), "f/11");
}

TEST(TradeFigures, ExposuresAreSharesOfASecond) {
  EXPECT_EQ(exposureText(0.02), "1/50 s");
  EXPECT_EQ(exposureText(0.01143), "1/87 s");
  EXPECT_EQ(exposureText(0.286), "286 ms");
  EXPECT_EQ(exposureText(0.6), "0.6 s");
  EXPECT_EQ(exposureText(2), "2 s");
}

// Property: the longest exposure that is allowed is never said longer than it is.
TEST(TradeFigures, ALimitIsSaidNoLongerThanItIs) {
  EXPECT_EQ(exposureText(1 / 87.5, Rounded::down), "1/88 s");
  EXPECT_EQ(exposureText(1.0 / 125, Rounded::down), "1/125 s");
  EXPECT_EQ(exposureText(0.2869, Rounded::down), "286 ms");
}

TEST(TradeFigures, HoursAreClockTimes) {
  EXPECT_EQ(clockText(7.5), "07:30");
  EXPECT_EQ(clockText(16.999), "17:00");
}

}  // namespace
}  // namespace belvedere
