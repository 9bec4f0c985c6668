// SPDX-License-Identifier: GPL-3.0-or-later
//
// The way from an older version to the current one, tried on a version 0 that never was: in it a
// storey's height was "storey_height_mm", in millimetres.
#include "design/migrate.h"

#include <gtest/gtest.h>

#include "design/fields.h"
#include "sample.h"

namespace belvedere::design {
namespace {

void fromMadeUpVersion0(Json& root) {
  Json* buildings = root.find("site")->find("buildings");
  for (Json& building : *buildings->list())
    for (Json& storey : *building.find("storeys")->list())
      for (JsonMember& member : *storey.object())
        if (member.key == "storey_height_mm")
          member = {"height_m", Json(*member.value.number() / 1000)};
}
constexpr MigrationStep kMadeUp{0, "storey_height_mm becomes height_m", fromMadeUpVersion0};

TEST(Migrate, AMadeUpVersion0BecomesVersion1) {
  std::string text = with(kSmall, "\"version\": 1", "\"version\": 0");
  text = with(text, "\"height_m\": 3", "\"storey_height_mm\": 3000");
  std::vector<Problem> problems;
  Json tree = parseJson(text, problems);
  ASSERT_TRUE(problems.empty());
  ASSERT_TRUE(migrate(tree, 0, 1, {&kMadeUp, 1}));
  EXPECT_EQ(printJson(tree), kSmall);
}

TEST(Migrate, AMissingStepChangesNothing) {
  std::vector<Problem> problems;
  Json tree = parseJson(kSmall, problems);
  const Json before = tree;
  EXPECT_FALSE(migrate(tree, -1, 1, {&kMadeUp, 1}));
  EXPECT_FALSE(migrate(tree, 0, 2, {&kMadeUp, 1}));
  EXPECT_TRUE(tree == before);
}

// Every version from the first on has its step, so that no file is left behind.
TEST(Migrate, EveryVersionHasItsStep) {
  EXPECT_EQ(designSteps().size(), static_cast<std::size_t>(kDesignVersion - 1));
}

}  // namespace
}  // namespace belvedere::design
