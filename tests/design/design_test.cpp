// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/design.h"

#include <gtest/gtest.h>

#include <cmath>

namespace belvedere::design {
namespace {

TEST(Situations, DayAndNightExistUnlessTheDesignSaysOtherwise) {
  Design design;
  const std::vector<Situation> both = situationsOf(design);
  ASSERT_EQ(both.size(), 2u);
  EXPECT_EQ(both[0].id.text, "day");
  EXPECT_EQ(both[1].id.text, "night");
  design.situations.resize(1);
  design.situations[0].id.text = "market";
  ASSERT_EQ(situationsOf(design).size(), 1u);
  EXPECT_EQ(situationsOf(design)[0].id.text, "market");
}

TEST(Situations, ARequirementHoldsInThoseItNamesOrInAll) {
  Requirement requirement;
  EXPECT_EQ(situationsOf(Design{}, requirement).size(), 2u);
  requirement.situations = {{"night"}};
  ASSERT_EQ(situationsOf(Design{}, requirement).size(), 1u);
  EXPECT_EQ(situationsOf(Design{}, requirement)[0].id.text, "night");
}

// Common practice, no source but for handbook 5, which names each band.
TEST(Band, EachTargetHasItsOwnUnlessOneIsStated) {
  Target target{.kind = TargetKind::face, .band_m = {}, .height_share = {}, .speed_mps = {}};
  EXPECT_EQ(bandOf(target), (Range{1.45, 1.85}));
  target.kind = TargetKind::floor;
  EXPECT_EQ(bandOf(target), (Range{0, 0.1}));
  target.band_m = Range{1, 2};
  EXPECT_EQ(bandOf(target), (Range{1, 2}));
}

// Closed form: a building turned by 90 degrees clockwise has its +y (north) pointing to +x (east).
TEST(SiteFromBuilding, TurnsClockwiseSeenFromAbove) {
  Building building;
  building.origin_m = {10, 20};
  building.turn_deg = 90;
  const Vec2 north = siteFromBuilding(building, {0, 5});
  EXPECT_EQ(north, (Vec2{15, 20}));
  building.turn_deg = 30;
  EXPECT_NEAR(siteFromBuilding(building, {2, 0}).x, 10 + std::sqrt(3), 1e-12);
  EXPECT_NEAR(siteFromBuilding(building, {2, 0}).y, 19, 1e-12);
  building.turn_deg = 0;
  EXPECT_EQ(siteFromBuilding(building, {0.1, 0.3}), (Vec2{10.1, 20.3}));
}

TEST(FindModel, TheDesignsOwnModelGoesBeforeTheLibrarys) {
  Design design;
  design.library.resize(1);
  design.library[0].id.text = "m";
  design.library[0].title = "library";
  EXPECT_EQ(findModel(design, {"m"})->title, "library");
  design.catalogue.models.resize(1);
  design.catalogue.models[0].id.text = "m";
  design.catalogue.models[0].title = "own";
  EXPECT_EQ(findModel(design, {"m"})->title, "own");
  EXPECT_EQ(findModel(design, {"n"}), nullptr);
}

}  // namespace
}  // namespace belvedere::design
