// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/history.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <random>

#include "design/read.h"

namespace belvedere::edit {
namespace {

using design::Design;

Design example(const char* name) {
  return design::readDesign(std::filesystem::path(BELVEDERE_SOURCE_DIR) / "examples" / name).design;
}

// A change of some kind somewhere, no matter whether it makes sense.
void change(Design& design, std::mt19937& random) {
  const auto pick = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  const auto of = [&](auto& list, auto make) {
    if (list.empty() || random() % 3 == 0) {
      list.insert(list.begin() + static_cast<long>(pick(list.size() + 1)), make());
    } else if (random() % 2 == 0) {
      list.erase(list.begin() + static_cast<long>(pick(list.size())));
    } else {
      list[pick(list.size())].title += "x";
    }
  };
  auto& buildings = design.site.buildings;
  switch (random() % 8) {
    case 0: of(design.site.solids, [] { return design::Solid{}; }); break;
    case 1: of(design.site.zones, [] { return design::Zone{}; }); break;
    case 2: of(design.housings, [] { return design::Housing{}; }); break;
    case 3: design.title += "t"; break;
    case 4:
      if (!buildings.empty() && !buildings[0].storeys.empty())
        of(buildings[0].storeys[pick(buildings[0].storeys.size())].walls,
           [] { return design::Wall{}; });
      break;
    case 5: of(buildings, [] { return design::Building{}; }); break;
    case 6: design.services.devices.push_back({}); break;
    case 7: design.site.place = design::Place{static_cast<double>(random() % 90), 0, {}, {}, 0, {}};
  }
}

// Property: undo goes back through every design to the first, redo forward to the last.
TEST(History, UndoAndRedoGiveTheVeryDesigns) {
  std::mt19937 random(7);
  History history(example("shop/design.json"));
  std::vector<Design> designs{history.now()};
  for (int i = 0; i < 300; ++i) {
    Design next = history.now();
    change(next, random);
    if (history.apply("step " + std::to_string(i), next)) designs.push_back(history.now());
  }
  ASSERT_GT(designs.size(), 200u);
  for (std::size_t i = designs.size() - 1; i > 0; --i) {
    history.undo();
    ASSERT_TRUE(history.now() == designs[i - 1]) << i;
  }
  EXPECT_FALSE(history.canUndo());
  EXPECT_TRUE(history.isSaved());
  for (std::size_t i = 1; i < designs.size(); ++i) {
    history.redo();
    ASSERT_TRUE(history.now() == designs[i]) << i;
  }
  EXPECT_FALSE(history.canRedo());
}

// Property: a gesture is one step, with the name it ended with; a new edit forgets what was undone.
TEST(History, AGestureIsOneStep) {
  Design start;
  History history(start);
  for (int i = 1; i <= 5; ++i) {
    Design next = history.now();
    next.title = std::string(static_cast<std::size_t>(i), 'a');
    EXPECT_TRUE(history.apply("type " + std::to_string(i), next, "title"));
  }
  EXPECT_EQ(history.undoName(), "type 5");
  history.undo();
  EXPECT_EQ(history.now().title, "");
  EXPECT_FALSE(history.canUndo());
  EXPECT_EQ(history.redoName(), "type 5");
  Design other = history.now();
  other.money = "EUR";
  history.apply("money", other);
  EXPECT_FALSE(history.canRedo());
  EXPECT_FALSE(history.apply("nothing", history.now()));
}

// Property: dragged there and back is no step at all; saved is known again after undo.
TEST(History, ThereAndBackIsNothingAndSavedIsRemembered) {
  Design start;
  History history(start);
  Design next = start;
  next.title = "b";
  history.apply("there", next, "drag");
  history.apply("back", start, "drag");
  EXPECT_FALSE(history.canUndo());
  history.endGesture();
  history.apply("there", next, "drag");
  history.markSaved();
  EXPECT_TRUE(history.isSaved());
  Design third = next;
  third.title = "c";
  history.apply("more", third, "drag");
  EXPECT_FALSE(history.isSaved());
  history.undo();
  EXPECT_TRUE(history.isSaved());
  EXPECT_EQ(history.now().title, "b");
}

// Regression: what changed nothing, between two steps of a gesture, made the first of them lost.
TEST(History, NothingBetweenStepsOfAGestureLosesNone) {
  History history;
  Design next;
  next.title = "b";
  history.apply("one", next, "drag");
  history.apply("nothing", next);
  next.money = "EUR";
  history.apply("two", next, "drag");
  while (history.canUndo()) history.undo();
  EXPECT_EQ(history.now(), Design{});
}

}  // namespace
}  // namespace belvedere::edit
