// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/recording.h"

#include <gtest/gtest.h>

#include "made_up.h"

namespace belvedere::services {
namespace {

Design streamsOf(int count, double mbps, double days, const Disks& disks, double disk_tb) {
  Design design;
  design.catalogue.models = {
      housingModel("m"), part("nvr", ModelKind::recorder, {.channels = 64, .bays = 8}),
      part("hdd", ModelKind::disk,
           {.size_tb = disk_tb, .write_mb_per_s = 200, .workload_tb_per_year = 180})};
  design.services.devices = {device("R", "nvr")};
  design.services.devices[0].disks = disks;
  design.services.devices[0].disks->model = {"hdd"};
  design.housings.push_back(housing("C1", "m", {}));
  for (int i = 0; i < count; ++i) {
    Stream s = stream("s" + std::to_string(i), 1);
    s.rate = Rate{"constant", mbps};
    design.housings[0].streams.push_back(s);
    Recording r;
    r.id = {"r" + std::to_string(i)};
    r.stream = s.id;
    r.device = {"R"};
    r.days = days;
    design.services.recording.push_back(r);
  }
  return design;
}
RecordingSizes sizes(const Design& design) { return recordingOf(design, streamRates(design)); }

// Closed form: 12 streams of 4 Mbit/s for 31 days are 16.07 TB = 14.62 TiB; four of 6 are 8.04 TB =
// 7.31 TiB; one of 4 for 30 days at half the time 0.648 TB.
TEST(Storage, TerabytesAndTebibytesOfStreamsAndDays) {
  const Disks disks{.count = 8, .raid = "6"};
  const double tb = sizes(streamsOf(12, 4, 31, disks, 16)).stores.at(0).needed_tb.high;
  EXPECT_NEAR(tb, 16.07, 0.005);
  EXPECT_NEAR(tibFromTb(tb), 14.62, 0.005);
  const double ferry = sizes(streamsOf(4, 6, 31, disks, 16)).stores.at(0).needed_tb.high;
  EXPECT_NEAR(ferry, 8.04, 0.005);
  EXPECT_NEAR(tibFromTb(ferry), 7.31, 0.005);
  EXPECT_NEAR(tbPerDay(4, 0.5) * 30, 0.648, 1e-9);
}

// Closed form: an estimate of 1920 x 1080 at 10 frames a second, H.265 at medium activity, is 0.024 to
// 0.07 bits a pixel by day [common practice, no source], so that its storage is a range; a stated rate
// gives one figure.
TEST(Storage, IsARangeWhereTheRateIsEstimatedAndOneFigureWhereItIsStated) {
  Design design = streamsOf(12, 4, 31, {.count = 8, .raid = "6"}, 16);
  const Spread stated = sizes(design).stores.at(0).needed_tb;
  EXPECT_EQ(stated.low, stated.high);
  for (Stream& s : design.housings[0].streams) s.rate.reset();
  const Spread estimated = sizes(design).stores.at(0).needed_tb;
  const double px_per_s = 1920.0 * 1080 * 10, days_s = 31 * 86'400.0;
  EXPECT_NEAR(estimated.low, 12 * px_per_s * 0.024 * 1.5 / 8 * days_s / 1e12, 1e-9);  // night doubles both
  EXPECT_NEAR(estimated.high, 12 * px_per_s * 0.07 * 1.5 / 8 * days_s / 1e12, 1e-9);
}

// Closed form: 64 streams of 4 Mbit/s, raid 6 of eight disks of 16 TB, a tenth kept free: 86.4 TB,
// 31.25 days, 168.2 TB a year on each disk, 32 MB/s.
TEST(Recording, SolvedBackwardsFromDisks) {
  const Store store =
      sizes(streamsOf(64, 4, 30, {.count = 8, .raid = "6", .reserve = 0.1}, 16)).stores.at(0);
  EXPECT_NEAR(store.usable_tb, 86.4, 1e-9);
  EXPECT_NEAR(store.days_held.low, 31.25, 1e-6);
  EXPECT_NEAR(*store.workload_tb_per_year, 168.192, 1e-3);
  EXPECT_NEAR(store.ingest_mb_per_s, 32, 1e-9);
  EXPECT_EQ(store.guaranteed_failures, 2);
  EXPECT_EQ(store.disks_needed, 8);
}

// Closed form, levels as in the SNIA disk data format (handbook 12): six disks of 4 TB less one, two
// and half of them are 20, 16 and 12 TB.
TEST(Recording, RaidCapacityMatchesAPrintedTable) {
  EXPECT_EQ(4 * dataDisks("5", 6, 1), 20);
  EXPECT_EQ(4 * dataDisks("6", 6, 1), 16);
  EXPECT_EQ(4 * dataDisks("10", 6, 1), 12);
  EXPECT_EQ(dataDisks("50", 6, 2), 4);
  EXPECT_EQ(dataDisks("60", 8, 2), 4);
  EXPECT_EQ(dataDisks("1", 2, 1), 1);
  EXPECT_EQ(dataDisks("jbod", 3, 1), 3);
}

// Property: one disk fewer than proposed does not hold it, and hot spares hold nothing.
TEST(Recording, DisksNeededAreTheFewest) {
  for (const char* raid : {"5", "6", "10", "50"})
    for (int streams = 1; streams < 80; streams += 13) {
      const Disks disks{.count = 12, .raid = raid, .groups = 2, .spares = 1, .reserve = 0.1};
      const Store store = sizes(streamsOf(streams, 4, 31, disks, 4)).stores.at(0);
      const int working = store.disks_needed - 1;
      EXPECT_GE(dataDisks(raid, working, 2) * 4 * 0.9, store.needed_tb.high) << raid << streams;
      const int step = std::string(raid) == "10" || std::string(raid) == "50" ? 2 : 1;
      const int least = std::string(raid) == "5" ? 3 : std::string(raid) == "50" ? 6 : 4;
      if (working > least) {
        EXPECT_LT(dataDisks(raid, working - step, 2) * 4 * 0.9, store.needed_tb.high)
            << raid << streams;
      }
    }
}

TEST(Recording, SchedulesAreSharesOfTheDay) {
  EXPECT_EQ(recordedShare("always", {}), 1);
  EXPECT_EQ(recordedShare("", {}), 1);
  EXPECT_EQ(recordedShare("07:00-19:00", {}), 0.5);
  EXPECT_EQ(recordedShare("19:00-07:00", {}), 0.5);
  EXPECT_EQ(recordedShare("07:00-19:00", 0.5), 0.25);
  EXPECT_EQ(recordedShare("always", 0.1), 1);
  EXPECT_EQ(recordedShare("", 0.1), 1);
  EXPECT_EQ(recordedShare("activity", 0.2), 0.2);
  EXPECT_EQ(recordedShare("activity", {}), kActiveShareAssumed);
}

// Closed form: a card of 0.256 TB shared by four imagers of 6 Mbit/s: 256e9 / 3e6 s = 23.7 h.
TEST(Recording, ASharedCardBridgesSoManyHours) {
  Design design = streamsOf(1, 6, 30, {.count = 1}, 4);
  design.catalogue.models.push_back(part("sd", ModelKind::card, {.size_tb = 0.256}));
  design.catalogue.models[0] = housingModel("m", 4);
  design.housings[0] = housing("C1", "m", {}, 4);
  design.housings[0].card = {"sd"};
  for (int slot = 1; slot <= 4; ++slot) {
    Stream s = stream("q" + std::to_string(slot), slot);
    s.rate = Rate{"constant", 6};
    design.housings[0].streams.push_back(s);
  }
  const Bridge bridge = sizes(design).bridges.at(0);
  EXPECT_EQ(bridge.imagers, 4);
  EXPECT_NEAR(bridge.hours.low, 256e9 / 3e6 / 3600, 1e-9);
}

// Closed form: four streams of 6 Mbit/s on a card of 0.256 TB fill it in 23.7 h: 0.988 days of 60.
TEST(Recording, ACardKeepsWhatItHolds) {
  Design design = streamsOf(4, 6, 60, {.count = 1}, 4);
  for (Recording& r : design.services.recording) r.device = {};
  Requirement r;
  r.id = {"R1"};
  r.keep_days = 60;
  design.brief.push_back(r);
  RecordingSizes without = sizes(design);
  ASSERT_EQ(without.cards.size(), 1u);
  EXPECT_FALSE(without.cards[0].there);
  EXPECT_EQ(without.retention.at(0).kept_days, 0);
  design.catalogue.models.push_back(part("sd", ModelKind::card, {.size_tb = 0.256}));
  design.housings[0].card = {"sd"};
  const RecordingSizes held = sizes(design);
  const double days = 0.256e12 / (4 * 6e6 / 8) / 86'400;
  EXPECT_NEAR(held.cards.at(0).days_held.low, days, 1e-9);
  EXPECT_NEAR(*held.retention.at(0).kept_days, days, 1e-9);
  design.catalogue.models.back().capacity->size_tb = 20;
  EXPECT_EQ(sizes(design).retention.at(0).kept_days, 60);
  design.catalogue.models.back().capacity->size_tb.reset();  // not known: as asked for
  EXPECT_EQ(sizes(design).retention.at(0).kept_days, 60);
}

// Property: of several copies and streams of an imager the longest kept counts, of the imagers that
// serve a requirement the shortest kept.
TEST(Recording, RetentionIsTheLongestOfAnImagerAndTheShortestOfImagers) {
  Design design = streamsOf(2, 4, 31, {.count = 1}, 4);
  design.services.recording[1].days = 14;  // another stream of the same imager
  Requirement r;
  r.id = {"R1"};
  r.keep_days = 31;
  design.brief.push_back(r);
  EXPECT_EQ(sizes(design).retention.at(0).kept_days, 31);
  EXPECT_EQ(sizes(design).retention.at(0).streams.size(), 2u);
  Recording copy = design.services.recording[0];  // a copy of a week elsewhere shortens nothing
  copy.id = {"copy"};
  copy.days = 7;
  design.services.recording.push_back(copy);
  EXPECT_EQ(sizes(design).retention.at(0).kept_days, 31);
  EXPECT_EQ(sizes(design).retention.at(0).streams.size(), 2u);
  design.housings.push_back(housing("C2", "m", {}));
  Stream other = stream("o", 1);
  other.rate = Rate{"constant", 4};
  design.housings[1].streams.push_back(other);
  copy.id = {"of_c2"};
  copy.stream = other.id;
  copy.days = 10;
  design.services.recording.push_back(copy);
  EXPECT_EQ(sizes(design).retention.at(0).kept_days, 10);
  const auto both = recordingOf(design, streamRates(design), {{{"R1"}, {"C1.1", "C2.1"}}});
  EXPECT_EQ(both.retention.at(0).kept_days, 10);
  const auto first = recordingOf(design, streamRates(design), {{{"R1"}, {"C1.1"}}});
  EXPECT_EQ(first.retention.at(0).kept_days, 31);
  design.housings.pop_back();
  const auto served = recordingOf(design, streamRates(design), {{{"R1"}, {"C2.1"}}});
  EXPECT_FALSE(served.retention.at(0).kept_days);
}

// Property (handbook 10 and 12): a recorder takes a stream once, and what is kept for 30 days is kept
// for 14 of them; on another recorder it is a copy.
TEST(Recording, AStreamKeptTwiceTakesRoomOnce) {
  Design design = streamsOf(2, 4, 30, {.count = 4, .raid = "5"}, 4);
  const Store once = sizes(design).stores.at(0);
  Recording again = design.services.recording[0];
  again.id = {"again"};
  again.days = 14;
  design.services.recording.insert(design.services.recording.begin(), again);
  const RecordingSizes twice = sizes(design);
  EXPECT_EQ(twice.stores.at(0).streams, 2);
  EXPECT_EQ(twice.stores.at(0).needed_tb, once.needed_tb);
  EXPECT_EQ(twice.stores.at(0).ingest_mb_per_s, once.ingest_mb_per_s);
  EXPECT_EQ(twice.stores.at(0).workload_tb_per_year, once.workload_tb_per_year);
  EXPECT_TRUE(twice.kept.at(0).within_longer);
  EXPECT_FALSE(twice.kept.at(1).within_longer);
  // Of two alike one counts.
  design.services.recording[0].days = 30;
  EXPECT_EQ(sizes(design).stores.at(0).needed_tb, once.needed_tb);
  // The longer records less of the day: what it misses is kept besides. Closed form: 14 whole days
  // and 30 of half a day.
  design.services.recording[0].days = 14;
  design.services.recording[1].schedule = "07:00-19:00";
  EXPECT_NEAR(sizes(design).stores.at(0).needed_tb.high,
              tbPerDay(4, 1) * 14 + tbPerDay(4, 0.5) * 30 + tbPerDay(4, 1) * 30, 1e-9);
  // As long a share at other hours is no copy.
  design.services.recording[0].schedule = "19:00-07:00";
  EXPECT_NEAR(sizes(design).stores.at(0).needed_tb.high, tbPerDay(4, 0.5) * 44 + tbPerDay(4, 1) * 30,
              1e-9);
  design.services.recording[1].schedule = design.services.recording[0].schedule = "";
  design.services.devices.push_back(device("R2", "nvr"));
  design.services.recording[0].device = {"R2"};
  EXPECT_NEAR(sizes(design).stores.at(1).needed_tb.high, tbPerDay(4, 1) * 14, 1e-9);
  EXPECT_EQ(sizes(design).stores.at(1).streams, 1);
}

// Closed form: 64 streams asked for 60 days on disks that hold 31.25: held 31.25, and never more than
// is asked for.
TEST(Recording, DaysHeldStandBesideDaysAsked) {
  Design design = streamsOf(64, 4, 60, {.count = 8, .raid = "6", .reserve = 0.1}, 16);
  Requirement r;
  r.id = {"R1"};
  r.keep_days = 60;
  design.brief.push_back(r);
  EXPECT_NEAR(sizes(design).kept.at(0).held_days->low, 31.25, 1e-6);
  EXPECT_NEAR(sizes(design).retention.at(0).held_days->low, 31.25, 1e-6);
  EXPECT_EQ(sizes(design).retention.at(0).kept_days, 60);
  EXPECT_EQ(sizes(design).stores.at(0).longest_days, 60);
  EXPECT_EQ(heldFor(*sizes(design).kept.at(0).held_days, 60), HeldFor::too_short);
  EXPECT_EQ(heldFor({20, 40, 60}, 60), HeldFor::perhaps);
  EXPECT_EQ(heldFor({60, 80, 90}, 60), HeldFor::as_asked);
  for (Recording& line : design.services.recording) line.days = 5;
  EXPECT_EQ(sizes(design).kept.at(0).held_days->low, 5);
  design.services.devices[0].disks.reset();
  EXPECT_FALSE(sizes(design).kept.at(0).held_days);
}

// Closed form: a mirror of 4 TB disks cannot hold 12 x 4 Mbit/s for 31 days, 16.07 TB, whatever their
// number: disks of 16.07 / 0.9 = 17.86 TB do, or six of 4 TB at level 5 (5 x 3.6 = 18 TB).
TEST(Recording, WhereNoNumberOfDisksDoesSizeAndLevelAreNamed) {
  const Store store = sizes(streamsOf(12, 4, 31, {.count = 2, .raid = "1"}, 4)).stores.at(0);
  EXPECT_EQ(store.disks_needed, 0);
  EXPECT_NEAR(store.disk_tb_needed, 12 * tbPerDay(4, 1) * 31 / 0.9, 1e-9);
  EXPECT_EQ(store.other_raid, "5");
  EXPECT_EQ(store.other_disks, 6);
}

}  // namespace
}  // namespace belvedere::services
