// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/history.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <random>
#include <type_traits>

#include "design/read.h"

namespace belvedere::edit {
namespace {

using design::Design;

Design example(const char* name) {
  return design::readDesign(std::filesystem::path(BELVEDERE_SOURCE_DIR) / "examples" / name).design;
}

// Something else in the n-th member of what is changed. The bindings name every member: a new one
// does not compile until it is here.
template <class Member>
void other(Member& member) {
  if constexpr (std::is_arithmetic_v<Member>) member += 1;
  else if constexpr (std::is_same_v<Member, std::string>) member += "x";
  else if constexpr (requires { member.text; }) member.text += "x";
  else if constexpr (requires { member.reset(); }) member ? member.reset() : (void)member.emplace();
  else if constexpr (requires { member.emplace_back(); }) member.emplace_back();
  else static_assert(std::is_arithmetic_v<Member>, "this member needs a change of its own");
}
template <class... Member>
void changeNth(std::size_t n, Member&... member) {
  std::size_t i = 0;
  ((i++ == n ? other(member) : void()), ...);
}
void changeOf(design::Storey& storey, std::size_t n) {
  auto& [id, title, floor_m, slab_m, height_m, roof_m, outline, voids, walls, surroundings] = storey;
  changeNth(n, id, title, floor_m, slab_m, height_m, roof_m, outline, voids, walls, surroundings);
}
void changeOf(design::Building& building, std::size_t n) {
  auto& [id, title, origin_m, turn_deg, storeys] = building;
  changeNth(n, id, title, origin_m.x, turn_deg, storeys);
}
void changeOf(design::Site& site, std::size_t n) {
  auto& [place, buildings, solids, terrain, materials, lights, mains_hz, zones, mounting, containment,
         underlays] = site;
  changeNth(n, place, buildings, solids, terrain, materials, lights, mains_hz, zones, mounting, containment,
            underlays);
}
void changeOf(Design& design, std::size_t n) {
  auto& [title, task_table, money, people, revisions, site, situations, brief, catalogue, library,
         housings, services, tolerances, tests, evidence, accepted, alternatives] = design;
  changeNth(n, title, task_table.title, money, people, revisions, site.lights, situations, brief,
            catalogue.models, library, housings, services.links, tolerances, tests, evidence,
            accepted, alternatives);
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
  switch (random() % 10) {
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
    case 8:
      if (!buildings.empty() && !buildings[0].storeys.empty())
        changeOf(buildings[0].storeys[pick(buildings[0].storeys.size())], random() % 10);
      break;
    case 9: changeOf(design, random() % 17); break;
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

// Property: no member of the document, a site, a building or a storey changes unnoticed, alone or
// beside a wall: what is taken over from a file would be lost at the next save.
TEST(History, AnyMemberThatDiffersIsAChange) {
  const auto check = [](const char* of, std::size_t members, auto change) {
    for (std::size_t n = 0; n < members; ++n)
      for (const bool beside_a_wall : {false, true}) {
        History history(example("shop/design.json"));
        const Design before = history.now();
        Design after = before;
        change(after, n);
        if (beside_a_wall) after.site.buildings[0].storeys[0].walls.emplace_back();
        EXPECT_TRUE(history.apply("change", after)) << of << " " << n;
        if (!history.canUndo()) continue;
        history.undo();
        EXPECT_TRUE(history.now() == before) << of << " " << n << " undone";
        history.redo();
        EXPECT_TRUE(history.now() == after) << of << " " << n << " done again";
      }
  };
  check("design", 17, [](Design& design, std::size_t n) { changeOf(design, n); });
  check("site", 10, [](Design& design, std::size_t n) { changeOf(design.site, n); });
  check("building", 4, [](Design& design, std::size_t n) { changeOf(design.site.buildings[0], n); });
  check("storey", 10,
        [](Design& design, std::size_t n) { changeOf(design.site.buildings[0].storeys[0], n); });
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
