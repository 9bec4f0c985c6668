// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/aim_group.h"

#include <gtest/gtest.h>

#include "aiming.h"
#include "proof/blind.h"

namespace belvedere::edit {
namespace {

proof::RingAt ringAt(const design::Design& design, double depression_deg) {
  return proof::ringOf(design, design.housings[0], {depression_deg}).front();
}
double sum(const std::vector<std::array<double, 2>>& arcs) {
  double total = 0;
  for (const auto& arc : arcs) total += wrap360(arc[1] - arc[0]);
  return total;
}
design::Design head(std::vector<double> pans_deg, double hfov_deg) {
  std::vector<design::ModelImager> imagers;
  std::vector<design::Aim> aims;
  for (std::size_t i = 0; i < pans_deg.size(); ++i) {
    imagers.push_back(zoomImager(static_cast<int>(i) + 1));
    aims.push_back(aimed(pans_deg[i], 20, 0, hfov_deg));
  }
  return headOf(imagers, aims);
}

// Property, by the ring of the proof: no gap, all overlaps alike.
TEST(CloseTheCircle, leaves_no_gap_where_the_fields_suffice) {
  const design::Design design = head({10, 50, 200, 300}, 98);
  ASSERT_FALSE(ringAt(design, 15).gaps_deg.empty());
  const Spread spread = closeTheCircle(design, {"H"}, 15, 3);
  EXPECT_EQ(spread.missing_deg, 0);
  EXPECT_TRUE(spread.says.empty());
  const auto ring = ringAt(spread.design, 15);
  EXPECT_TRUE(ring.gaps_deg.empty());
  ASSERT_EQ(ring.overlaps_deg.size(), 4u);
  for (const auto& overlap : ring.overlaps_deg)
    EXPECT_NEAR(wrap360(overlap[1] - overlap[0]), sum(ring.overlaps_deg) / 4, 1e-3);
  EXPECT_GE(sum(ring.overlaps_deg) / 4, 3);
}

// Property: what is missing is the gaps and the overlap asked for; gaps are alike.
TEST(CloseTheCircle, shares_out_what_is_missing) {
  const design::Design design = head({10, 50, 200}, 90);
  const Spread spread = closeTheCircle(design, {"H"}, 15, 4);
  const auto ring = ringAt(spread.design, 15);
  ASSERT_EQ(ring.gaps_deg.size(), 3u);
  for (const auto& gap : ring.gaps_deg)
    EXPECT_NEAR(wrap360(gap[1] - gap[0]), sum(ring.gaps_deg) / 3, 1e-3);
  EXPECT_NEAR(spread.missing_deg, sum(ring.gaps_deg) + 3 * 4, 1e-2);
  EXPECT_EQ(spread.says.size(), 1u);
  // On the whole nobody turns: what one turns right, others turn left.
  double turned = 0;
  for (int slot = 1; slot <= 3; ++slot)
    turned += wrap180(aimOf(spread.design, slot).pan_deg - aimOf(design, slot).pan_deg);
  EXPECT_NEAR(turned, 0, 1e-2);
}

TEST(CloseTheCircle, leaves_locked_imagers_and_closes_between_them) {
  design::Design design = head({0, 60, 120, 250}, 98);
  design.housings[0].imagers[0].locked = true;
  const Spread spread = closeTheCircle(design, {"H"}, 15, 0);
  EXPECT_EQ(aimOf(spread.design, 1), aimOf(design, 1));
  EXPECT_TRUE(ringAt(spread.design, 15).gaps_deg.empty());
  EXPECT_EQ(spread.missing_deg, 0);
  design.housings[0].imagers[1].locked = true;  // two that overlap by more than they need
  const Spread two = closeTheCircle(design, {"H"}, 15, 0);
  EXPECT_EQ(aimOf(two.design, 2), aimOf(design, 2));
  EXPECT_NEAR(two.missing_deg, sum(ringAt(two.design, 15).gaps_deg), 1e-2);
}

// Property: all points are in the frame, which a little more zoom would not hold.
TEST(AimToHold, takes_the_tightest_zoom) {
  for (const char* family : {"rectilinear", "equidistant"}) {
    design::Design design = headOf({zoomImager(1, family)}, {aimed(200, 10, 0, 60)});
    const std::vector<Vec3> points{{8, 3, 0}, {8, -3, 0}, {12, 3, 1.8}, {12, -3, 1.8}, {8, 3, 1.8}};
    const auto [aim, fits] = aimToHold(design, slotOf(1), points);
    ASSERT_TRUE(fits);
    const auto inside = [&](double hfov_deg) {
      design::Aim tried = aim;
      tried.hfov_deg = hfov_deg;
      const design::Design now = withAim(design, slotOf(1), tried).design;
      for (const Vec3& point : points) {
        const auto at = pixelOf(now, 1, point);
        if (!at || at->x < 0 || at->y < 0 || at->x > 1920 || at->y > 1080) return false;
      }
      return true;
    };
    EXPECT_TRUE(inside(*aim.hfov_deg));
    EXPECT_FALSE(inside(*aim.hfov_deg * 0.99));
  }
}

TEST(AimToHold, says_when_even_the_wide_end_does_not) {
  const design::Design design = headOf({zoomImager(1)}, {aimed(0, 10, 0, 60)});
  const auto [aim, fits] = aimToHold(design, slotOf(1), {{-9, 2, 1}, {9, 2, 1}});
  EXPECT_FALSE(fits);
  EXPECT_NEAR(wrap180(aim.pan_deg), 0, 1);
}

// Property: each part of the wall lies in its imager's frame, in order.
TEST(FollowWall, shares_the_length) {
  const design::Design design = head({80, 90, 100}, 60);
  const std::vector<Vec2> path{{10, -15}, {10, 15}};  // from the right end, as seen
  const Spread spread = followWall(design, {slotOf(1), slotOf(2), slotOf(3)}, path, 0, 2);
  EXPECT_TRUE(spread.says.empty()) << spread.says[0];
  for (int slot = 1; slot <= 3; ++slot)
    for (const double along : {0.0, 5.0, 10.0})
      for (const double z : {0.0, 2.0}) {
        const auto at = pixelOf(spread.design, slot, {10, 15 - 10.0 * (slot - 1) - along, z});
        ASSERT_TRUE(at);
        EXPECT_TRUE(at->x >= 0 && at->x <= 1920 && at->y >= 0 && at->y <= 1080) << slot;
      }
}

design::Design withZone(design::Design design, std::vector<Vec2> outline) {
  design.site.buildings.resize(1);
  design::Storey storey;
  storey.id.text = "g";
  storey.outline = {{-50, -50}, {50, -50}, {50, 50}, {-50, 50}};
  design.site.buildings[0].storeys = {storey};
  design::Zone zone;
  zone.id.text = "z";
  zone.storey.text = "g";
  zone.outline = std::move(outline);
  design.site.zones = {zone};
  design::Requirement requirement;
  requirement.id.text = "R1";
  requirement.zone.text = "z";
  requirement.target.kind = design::TargetKind::face;
  requirement.px_per_m = 125;
  requirement.judged_on = design::JudgedOn::captured;
  design.brief = {requirement};
  return design;
}

// Property: every place of the zone, over the target's band, is in some frame.
TEST(LookAtZone, holds_the_zone_between_the_imagers) {
  const design::Design design =
      withZone(head({300, 120, 20}, 60), {{-9, 8}, {9, 8}, {9, 14}, {-9, 14}});
  const Spread spread = lookAtZone(design, {slotOf(1), slotOf(2), slotOf(3)}, {"z"}, {"R1"});
  for (double x = -9; x <= 9; x += 0.75)
    for (double y = 8; y <= 14; y += 0.75) {
      bool whole = false;
      for (int slot = 1; slot <= 3; ++slot) {
        bool both = true;
        for (const double z : {1.45, 1.85}) {
          const auto at = pixelOf(spread.design, slot, {x, y, z});
          both = both && at && at->x >= 0 && at->x <= 1920 && at->y >= 0 && at->y <= 1080;
        }
        whole = whole || both;
      }
      EXPECT_TRUE(whole) << x << ' ' << y;
    }
  // Tighter than one alone, which must see all of it.
  const Spread alone = lookAtZone(design, {slotOf(1)}, {"z"}, {"R1"});
  EXPECT_GT(*aimOf(alone.design, 1).hfov_deg, 1.5 * *aimOf(spread.design, 3).hfov_deg);
}

TEST(LookAtZone, says_what_it_cannot_hold_and_what_is_too_coarse) {
  const design::Design around =
      withZone(head({0}, 60), {{-9, -9}, {9, -9}, {9, 9}, {-9, 9}});
  const Spread spread = lookAtZone(around, {slotOf(1)}, {"z"}, {"R1"});
  ASSERT_FALSE(spread.says.empty());
  EXPECT_NE(spread.says[0].find("H.1 does not hold"), std::string::npos);
  const design::Design far = withZone(head({0}, 60), {{-9, 30}, {9, 30}, {9, 40}, {-9, 40}});
  const Spread coarse = lookAtZone(far, {slotOf(1)}, {"z"}, {"R1"});
  ASSERT_EQ(coarse.says.size(), 1u);
  EXPECT_NE(coarse.says[0].find("125"), std::string::npos);
}

}  // namespace
}  // namespace belvedere::edit
