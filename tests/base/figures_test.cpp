// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/figures.h"

#include <gtest/gtest.h>

#include <cmath>

namespace belvedere {
namespace {

// Closed form: the digits are those of the number itself.
TEST(Figures, RoundedAsAskedWhereThatTellsThemFromTheLimit) {
  EXPECT_EQ(figureBeside(239.84, 250, 1), "239.8");
  EXPECT_EQ(figureBeside(30.06, 30, 1), "30.1");
  EXPECT_EQ(figureBeside(70.77, 95, 1, Rounded::down), "70.7");
  EXPECT_EQ(figureBeside(70.71, 95, 1, Rounded::up), "70.8");
}

// Closed form: a digit more, and another, until the two differ.
TEST(Figures, MoreDigitsWhereTheyWouldReadLikeTheLimit) {
  EXPECT_EQ(figureBeside(30.04, 30, 1), "30.04");
  EXPECT_EQ(figureBeside(30.0004, 30, 1), "30.0004");
  EXPECT_EQ(figureBeside(94.996, 95, 1, Rounded::up), "94.996");
  EXPECT_EQ(figureBeside(95.004, 95, 1, Rounded::down), "95.004");
  EXPECT_EQ(figureBeside(12.499, 12.5, 2, Rounded::up), "12.499");
  EXPECT_EQ(figureBeside(1296.4, 1296, 0), "1296.4");
}

// Closed form: what is the limit is said as short as asked; no minus zero.
TEST(Figures, TheLimitItselfStaysShort) {
  EXPECT_EQ(figureBeside(30, 30, 1), "30.0");
  EXPECT_EQ(figureBeside(100 * 0.95, 95, 1, Rounded::down), "95.0");
  EXPECT_EQ(figureBeside(-1e-12, 95, 1, Rounded::up), "0.0");
}

// Property: a bound never says more than is proven.
TEST(Figures, BoundsAreSaidOutwards) {
  for (int i = 0; i < 2000; ++i) {
    const double value = 0.05 * i + 0.0137;
    EXPECT_LE(std::stod(figureBeside(value, 95, 1, Rounded::down)), value + 1e-9);
    EXPECT_GE(std::stod(figureBeside(value, 95, 1, Rounded::up)), value - 1e-9);
  }
}

}  // namespace
}  // namespace belvedere
