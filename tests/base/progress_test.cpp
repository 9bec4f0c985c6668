// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/progress.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace belvedere {
namespace {

// Closed form: the second half of the third of four steps ends at three quarters.
TEST(Progress, AStepOfAStepIsSaidAsItsShareOfTheWhole) {
  Progress whole;
  std::vector<double> said;
  whole.report = [&](double share, std::string_view) { said.push_back(share); };
  const Progress third = partOf(whole, std::size_t{2}, std::size_t{4});
  const Progress half = partOf(third, 0.5, 1.0);
  third.say(0, "a");
  half.say(0, "b");
  half.say(1, "b");
  half.say(7, "c");  // never past its own end
  EXPECT_EQ(said, (std::vector<double>{0.5, 0.625, 0.75, 0.75}));
}

// Property: whoever cancels the whole cancels its steps.
TEST(Progress, AStepIsCancelledWithTheWhole) {
  Progress whole;
  const Progress step = partOf(whole, 0.0, 1.0);
  EXPECT_NO_THROW(step.throwIfCancelled());
  whole.cancel.store(true);
  EXPECT_THROW(step.throwIfCancelled(), Cancelled);
}

}  // namespace
}  // namespace belvedere
