// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/problem.h"

#include <gtest/gtest.h>

namespace belvedere {
namespace {

TEST(NearestWord, FindsATypingSlip) {
  EXPECT_EQ(nearestWord("heigth_m", {"height_m", "width_m"}), "height_m");
}

TEST(NearestWord, CountsTwoSwappedLettersAsOneSlip) {
  EXPECT_EQ(nearestWord("nigth", {"day", "night"}), "night");
}

TEST(NearestWord, SaysNothingWhenNothingIsNear) {
  EXPECT_EQ(nearestWord("zebra", {"height_m", "width_m"}), "");
}

TEST(InputError, CarriesEveryProblem) {
  const InputError error({{"unknown_key", "/a", "one", ""}, {"unknown_key", "/b", "two", "do"}}, "f");
  EXPECT_EQ(error.problems().size(), 2u);
  EXPECT_STREQ(error.what(), "/a: one\n/b: two (do)");
}

}  // namespace
}  // namespace belvedere
