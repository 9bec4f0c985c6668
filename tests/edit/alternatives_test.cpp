// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/alternatives.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "base/problem.h"
#include "design/alternatives.h"
#include "design/read.h"
#include "edit/rename.h"

namespace belvedere::edit {
namespace {

design::Design shop() {
  design::Design design =
      design::readDesign(std::filesystem::path(BELVEDERE_SOURCE_DIR) / "examples/shop/design.json")
          .design;
  design.alternatives.clear();
  return design;
}

design::Design turned(design::Design design, double by_deg) {
  design.housings.front().imagers.front().aims.front().pan_deg += by_deg;
  return design;
}

design::Design alone(design::Design design) {
  design.alternatives.clear();
  return design;
}

// Property: kept, an alternative makes of the base what was there.
TEST(HandAlternatives, KeptIsWhatWasThere) {
  const design::Design base = shop(), present = turned(base, 5);
  const design::Design kept = keptAsAlternative(base, present, "Turned");
  ASSERT_EQ(kept.alternatives.size(), 1U);
  EXPECT_EQ(alone(kept), alone(base));
  EXPECT_EQ(alone(design::applied(kept, kept.alternatives.front())), alone(present));
}

// Property: going over and back again gives the very designs, of all alternatives.
TEST(HandAlternatives, GoingOverAndBackLosesNothing) {
  const design::Design base = shop();
  design::Design kept = keptAsAlternative(base, turned(base, 5), "Five");
  design::Design second = turned(base, 9);
  second.alternatives = kept.alternatives;
  kept = keptAsAlternative(kept, second, "Nine");
  const design::Design over = goneOverTo(kept, kept.alternatives[0].id, "Base");
  EXPECT_EQ(alone(over), alone(turned(base, 5)));
  ASSERT_EQ(over.alternatives.size(), 2U);
  EXPECT_EQ(over.alternatives[0].name, "Base");
  EXPECT_EQ(alone(design::applied(over, over.alternatives[0])), alone(base));
  EXPECT_EQ(alone(design::applied(over, over.alternatives[1])), alone(turned(base, 9)));
  const design::Design back = goneOverTo(over, over.alternatives[0].id, "Five");
  EXPECT_EQ(alone(back), alone(base));
  EXPECT_EQ(alone(design::applied(back, back.alternatives[0])), alone(turned(base, 5)));
  const design::Design dropped = goneOverTo(kept, kept.alternatives[0].id, "");
  ASSERT_EQ(dropped.alternatives.size(), 1U);
  EXPECT_EQ(alone(design::applied(dropped, dropped.alternatives[0])), alone(turned(base, 9)));
}

// Property: an object that only one of them has is refused, by its name.
TEST(HandAlternatives, WhatCannotBeSaidIsRefused) {
  const design::Design base = shop();
  design::Design present = base;
  present.housings.pop_back();
  try {
    keptAsAlternative(base, present, "Fewer");
    FAIL() << "not refused";
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().front().code, "alternative_unsaid");
    EXPECT_NE(error.problems().front().what.find(base.housings.back().id.text), std::string::npos);
  }
  EXPECT_THROW(goneOverTo(base, design::AnyId{"nobody"}, ""), InputError);
}

// Property: renaming changes the title and nothing else; imagers have none.
TEST(Rename, TitlesChangeAndNothingElse) {
  const design::Design before = shop();
  int renamed_ones = 0;
  for (const ObjectLine& line : objectsOf(before, {})) {
    if (!hasTitle(line.ref)) {
      EXPECT_THROW(renamed(before, line.ref, "x"), InputError);
      continue;
    }
    const design::Design after = renamed(before, line.ref, "A new name");
    EXPECT_NE(after, before) << line.ref.id;
    bool told = false;
    for (const ObjectLine& now : objectsOf(after, {}))
      if (now.ref == line.ref) told = now.title == "A new name";
    EXPECT_TRUE(told) << line.ref.id;
    const std::string old = line.title == line.ref.id ? "" : line.title;
    EXPECT_EQ(renamed(after, line.ref, old), before) << line.ref.id;
    ++renamed_ones;
  }
  EXPECT_GT(renamed_ones, 5);
}

}  // namespace
}  // namespace belvedere::edit
