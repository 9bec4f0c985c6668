// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/paste.h"

#include <gtest/gtest.h>

#include "base/problem.h"
#include "edit/brief.h"
#include "edit/erase.h"
#include "edit/properties.h"
#include "edit/shapes.h"
#include "edit/underlay.h"

namespace belvedere::edit {
namespace {

using design::Design;

// A floor with a wall that has a door, and a crate.
struct Room {
  Design design;
  design::StoreyId storey;
  ObjectRef wall, door, crate;
};
Room room(double floor_m = 0) {
  Room room;
  Added added = withBuilding({}, {{0, 0}, {10, 0}, {10, 8}, {0, 8}}, floor_m, 3);
  room.storey.text = added.ref.id;
  added = withWall(added.design, room.storey, {{1, 1}, {6, 1}}, 0.2, {});
  room.wall = added.ref;
  added = withOpening(added.design, design::WallId{room.wall.id}, {1, 1, 0, 2.1, {}});
  room.door = added.ref;
  added = withSolid(added.design, room.storey, design::SolidKind::stock,
                    {{2, 3}, {3, 3}, {3, 4}, {2, 4}}, 0, 1);
  room.crate = added.ref;
  room.design = added.design;
  return room;
}

// Property: what is pasted into another design stands there as it stood, under free ids.
TEST(Paste, PutsObjectsIntoAnotherDesign) {
  const Room from = room();
  const Added other = withBuilding({}, {{0, 0}, {20, 0}, {20, 20}, {0, 20}}, 4, 3);
  const Copied pasted = belvedere::edit::pasted(other.design, {other.ref.id}, from.design,
                                                {from.wall, from.crate}, {1, 2});
  ASSERT_EQ(pasted.copies.size(), 2u);
  const design::Wall& wall = pasted.design.site.buildings[0].storeys[0].walls.at(0);
  EXPECT_EQ(wall.path, (std::vector<Vec2>{{2, 3}, {7, 3}}));
  EXPECT_EQ(wall.openings.size(), 1u);
  ASSERT_EQ(pasted.design.site.solids.size(), 1u);
  EXPECT_EQ(pasted.design.site.solids[0].storey.text, other.ref.id);
  EXPECT_EQ(pasted.design.site.solids[0].outline[0], (Vec2{3, 5}));
}

// Property: what was erased since can still be pasted; twice gives two.
TEST(Paste, OfWhatWasCut) {
  const Room from = room();
  const Design without = erased(from.design, {from.wall, from.crate}).design;
  const Copied once = pasted(without, from.storey, from.design, {from.wall}, {0, 0});
  const Copied twice = pasted(once.design, from.storey, from.design, {from.wall}, {0, 3});
  EXPECT_EQ(twice.design.site.buildings[0].storeys[0].walls.size(), 2u);
  EXPECT_NE(once.copies.at(0).id, twice.copies.at(0).id);
}

// Property: an opening needs its wall.
TEST(Paste, OfAnOpeningAloneNeedsItsWall) {
  const Room from = room();
  const Design without = erased(from.design, {from.wall}).design;
  EXPECT_THROW(pasted(without, from.storey, from.design, {from.door}, {0.1, 0}), InputError);
  EXPECT_THROW(pasted({}, {}, from.design, {from.crate}, {0, 0}), InputError);
}

// Property: a value set is read back, for all that have the key and no others; an absent height is
// the storey's again.
TEST(Properties, AreReadBackAsSet) {
  const Room r = room();
  // The wall's door reaches down to the floor.
  EXPECT_THROW(withProperty(r.design, {r.wall, r.crate}, "base_m", 0.5), InputError);
  Design d = withProperty(r.design, {r.crate}, "base_m", 0.5);
  bool read_back = false;
  for (const Property& property : propertiesOf(d, r.crate))
    read_back = read_back ||
                (property.key == "base_m" && std::get<double>(property.value) == 0.5);
  EXPECT_TRUE(read_back);
  d = withProperty(d, {r.wall}, "height_m", 2.5);
  EXPECT_EQ(d.site.buildings[0].storeys[0].walls[0].height_m, 2.5);
  d = withProperty(d, {r.wall}, "height_m", std::monostate());
  EXPECT_FALSE(d.site.buildings[0].storeys[0].walls[0].height_m);
  EXPECT_EQ(withProperty(d, {r.crate}, "thickness_m", 0.3), d);
  EXPECT_THROW(withProperty(d, {r.wall}, "thickness_m", -1.0), InputError);
}

// Property: a rise makes a slope, none takes it away.
TEST(Properties, ARiseMakesASlope) {
  const Room r = room();
  Design d = withProperty(r.design, {r.crate}, "rise_m", 0.4);
  d = withProperty(d, {r.crate}, "toward_deg", 90.0);
  ASSERT_TRUE(d.site.solids[0].slope);
  EXPECT_EQ(d.site.solids[0].slope->toward_deg, 90);
  d = withProperty(d, {r.crate}, "rise_m", 0.0);
  EXPECT_FALSE(d.site.solids[0].slope);
}

// Closed form: two pins carry their places to theirs, lengths scale alike, and y goes down.
TEST(Underlay, PinsLayADrawing) {
  design::Underlay underlay;
  underlay.pins = {{{100, 500}, {0, 0}}, {{700, 500}, {0, 12}}};  // the picture's right is north
  const PictureFrame frame = pictureFrame(underlay, 800, 600);
  EXPECT_LT(norm(frame.siteOf({100, 500}) - Vec2{0, 0}), 1e-9);
  EXPECT_LT(norm(frame.siteOf({700, 500}) - Vec2{0, 12}), 1e-9);
  EXPECT_LT(norm(frame.siteOf({100, 450}) - Vec2{-1, 0}), 1e-9);  // up in the picture is west
  EXPECT_LT(norm(frame.pictureOf(frame.siteOf({321, 123})) - Vec2{321, 123}), 1e-9);
}

// Closed form: scaling by a distance keeps the first place and the bearing.
TEST(Underlay, IsScaledByADistance) {
  design::Underlay underlay;
  const PictureFrame before = pictureFrame(underlay, 800, 600);
  const Vec2 a{100, 100}, b{500, 400};
  underlay.pins = pinsByDistance(before, a, b, 10);
  const PictureFrame after = pictureFrame(underlay, 800, 600);
  EXPECT_NEAR(norm(after.siteOf(b) - after.siteOf(a)), 10, 1e-9);
  EXPECT_LT(norm(after.siteOf(a) - before.siteOf(a)), 1e-3);
  EXPECT_NEAR(norm(after.right_m), 10.0 / 500, 1e-12);
  EXPECT_NEAR(after.right_m.y, 0, 1e-9);
  EXPECT_THROW(pinsByDistance(before, a, a, 10), InputError);
  EXPECT_THROW(pinsByDistance(before, a, b, 0), InputError);
}

// Property: day and night, which a design without situations stands for, are kept beside a new one.
TEST(Brief, ANewSituationStandsBesideDayAndNight) {
  const Room r = room();
  const std::size_t before = design::situationsOf(r.design).size();
  const AddedSituation added = withSituation(r.design, "market day");
  EXPECT_EQ(added.design.situations.size(), before + 1);
  EXPECT_EQ(added.design.situations.back().title, "market day");
  const Design renamed = withSituationTitle(added.design, added.id, "fair");
  EXPECT_EQ(renamed.situations.back().title, "fair");
}

// Property: a requirement is taken as given, or refused whole.
TEST(Brief, ARequirementIsTakenAsGiven) {
  const Room r = room();
  const Added zone = withZone(r.design, r.storey, {{5, 5}, {7, 5}, {7, 7}, {5, 7}}, "till");
  AddedRequirement asked =
      withRequirement(zone.design, {zone.ref.id}, "observe", design::TargetKind::person);
  design::Requirement requirement = asked.design.brief.back();
  requirement.share = 0.7;
  EXPECT_EQ(withRequirementAs(asked.design, requirement).brief.back().share, 0.7);
  requirement.share = 7;
  EXPECT_THROW(withRequirementAs(asked.design, requirement), InputError);
}

}  // namespace
}  // namespace belvedere::edit
