// SPDX-License-Identifier: GPL-3.0-or-later
//
// A cable's own way, drawn and bent by hand.
#include <gtest/gtest.h>

#include <algorithm>

#include "base/problem.h"
#include "edit/erase.h"
#include "edit/handles.h"
#include "edit/pick.h"
#include "edit/plan_objects.h"
#include "edit/shapes.h"
#include "edit/trace.h"
#include "edit/transform.h"
#include "edit_sample.h"

namespace belvedere::edit {
namespace {

const std::filesystem::path kYard = kRoot / "examples/winter_yard/design.json";

design::DesignFile yard() { return design::readDesign(kYard); }
const design::Link& linkOf(const design::Design& design, const std::string& id) {
  return *std::ranges::find(design.services.links, id, [](const auto& l) { return l.id.text; });
}
// Its first link with two ends that have a place.
std::string placedLink(const design::Design& design) {
  for (const design::Link& link : design.services.links)
    if (design::placeOf(design, link.from) && design::placeOf(design, link.to)) return link.id.text;
  return {};
}

// Property: the way is written and read back; without places the cable has none again.
TEST(Way, IsDrawnAndTakenAway) {
  const design::DesignFile file = yard();
  const std::string id = placedLink(file.design);
  ASSERT_FALSE(id.empty());
  const std::vector<Vec3> path{{3, 4, 3}, {8, 4, 3}};
  const design::Design with = withWay(file.design, {id}, path);
  EXPECT_EQ(linkOf(with, id).path, path);
  readBack(with, kYard.parent_path());
  EXPECT_EQ(withWay(with, {id}, {}), file.design);
  EXPECT_THROW(withWay(file.design, {"nothing"}, path), InputError);
  EXPECT_THROW(withWay(file.design, {id}, {{1e9, 0, 3}}), InputError);
}

// Property: its handles are its own places and the middles of its stretches, those to the ends too; a
// place is pulled, put in (at the height of its neighbours) and taken out; with the last one the way
// goes.
TEST(Way, IsBentByItsHandles) {
  const design::DesignFile file = yard();
  const std::string id = placedLink(file.design);
  const ObjectRef ref{ObjectKind::link, id, 0};
  design::Design with = withWay(file.design, {id}, {{3, 4, 3}, {8, 4, 2}});
  const std::vector<Handle> handles = handlesOf(with, ref);
  std::vector<Handle> points, edges;
  for (const Handle& handle : handles)
    (handle.kind == HandleKind::vertex ? points : edges).push_back(handle);
  ASSERT_EQ(points.size(), 2u);
  ASSERT_EQ(edges.size(), 3u);
  EXPECT_EQ(points[0].at_m, (Vec2{3, 4}));

  const design::Design pulled = withHandleAt(with, ref, points[1], {9, 6});
  EXPECT_EQ(linkOf(pulled, id).path, (std::vector<Vec3>{{3, 4, 3}, {9, 6, 2}}));
  const design::Design between = withHandleAt(with, ref, edges[1], {5.5, 5});
  EXPECT_EQ(linkOf(between, id).path, (std::vector<Vec3>{{3, 4, 3}, {5.5, 5, 2.5}, {8, 4, 2}}));
  const design::Design before = withHandleAt(with, ref, edges[0], {2, 2});
  EXPECT_EQ(linkOf(before, id).path, (std::vector<Vec3>{{2, 2, 3}, {3, 4, 3}, {8, 4, 2}}));
  const design::Design behind = withHandleAt(with, ref, edges[2], {9, 9});
  EXPECT_EQ(linkOf(behind, id).path, (std::vector<Vec3>{{3, 4, 3}, {8, 4, 2}, {9, 9, 2}}));

  with = withoutVertex(with, ref, points[0]);
  EXPECT_EQ(linkOf(with, id).path, (std::vector<Vec3>{{8, 4, 2}}));
  with = withoutVertex(with, ref, handlesOf(with, ref).front());
  EXPECT_EQ(with, file.design);
}

// Property: a plan of a storey shows of a way what runs on it: its points there, the stretches between
// them and to an end, and the line in as many parts; all of it lies on the whole.
TEST(Way, IsShownOnEachStoreyAsFarAsItRunsThere) {
  const design::DesignFile file = design::readDesign(kRoot / "examples/footbridge/design.json");
  const auto& storeys = file.design.site.buildings.front().storeys;
  ASSERT_EQ(storeys.size(), 2u);
  const auto& low = storeys[0].floor_m < storeys[1].floor_m ? storeys[0] : storeys[1];
  const auto& high = storeys[0].floor_m < storeys[1].floor_m ? storeys[1] : storeys[0];
  ASSERT_GT(high.floor_m - low.floor_m, 3);
  const std::string id = placedLink(file.design);
  const ObjectRef ref{ObjectKind::link, id, 0};
  const double down_m = low.floor_m + 1, up_m = high.floor_m + 2;
  const design::Design with =
      withWay(file.design, {id}, {{1, 1, down_m}, {2, 1, down_m}, {2, 2, up_m}, {3, 2, up_m}, {3, 3, up_m}});
  const auto points = [&](const design::StoreyId& storey) {
    std::vector<std::size_t> own;
    for (const Handle& handle : handlesOn(with, ref, storey))
      if (handle.kind == HandleKind::vertex) own.push_back(handle.index);
    return own;
  };
  EXPECT_EQ(points(low.id), (std::vector<std::size_t>{1, 2}));  // the end at the part comes first
  EXPECT_EQ(points(high.id), (std::vector<std::size_t>{3, 4, 5}));
  EXPECT_EQ(points({}).size(), 5u);
  EXPECT_EQ(handlesOn(with, ref, {}), handlesOf(with, ref));
  for (const Handle& handle : handlesOn(with, ref, low.id)) {
    EXPECT_NE(handle.index, 2u + (handle.kind == HandleKind::vertex)) << "between the storeys";
  }
  for (const design::StoreyId& storey : {low.id, high.id}) {
    std::size_t shown = 0;
    for (const auto& line : traceOf(with, ref, storey).lines) shown += line.size();
    EXPECT_GE(shown, points(storey).size());
    EXPECT_LT(shown, wayOf(with, *std::ranges::find(with.services.links, id, [](const auto& l) {
                             return l.id.text;
                           })).size());
  }
}

// Property: it is picked where it runs, moved by its places while its ends stay, and erased with what
// it joins.
TEST(Way, IsPickedMovedAndErased) {
  const design::DesignFile file = yard();
  const std::string id = placedLink(file.design);
  const ObjectRef ref{ObjectKind::link, id, 0};
  const design::Design with = withWay(file.design, {id}, {{3, 4, 3}, {8, 4, 3}});
  const design::StoreyId storey = file.design.site.buildings.front().storeys.front().id;
  const auto there = objectsAt(with, storey, {}, {5.5, 4.02}, 0.05);
  EXPECT_NE(std::ranges::find(there, ref), there.end());
  EXPECT_EQ(std::ranges::count(objectsAt(file.design, storey, {}, {5.5, 4.02}, 0.05), ref), 0);
  const design::Design moved_by = moved(with, {ref}, {1, -1});
  EXPECT_EQ(linkOf(moved_by, id).path, (std::vector<Vec3>{{4, 3, 3}, {9, 3, 3}}));
  EXPECT_EQ(moved_by.housings, with.housings);
  const std::size_t links = with.services.links.size();
  EXPECT_EQ(erased(with, {ref}).design.services.links.size(), links - 1);
}

}  // namespace
}  // namespace belvedere::edit
