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
TEST(Recording, BytesAreRateTimesTime) {
  const Disks disks{.count = 8, .raid = "6"};
  const double tb = sizes(streamsOf(12, 4, 31, disks, 16)).stores.at(0).needed_tb.high;
  EXPECT_NEAR(tb, 16.07, 0.005);
  EXPECT_NEAR(tibFromTb(tb), 14.62, 0.005);
  const double ferry = sizes(streamsOf(4, 6, 31, disks, 16)).stores.at(0).needed_tb.high;
  EXPECT_NEAR(ferry, 8.04, 0.005);
  EXPECT_NEAR(tibFromTb(ferry), 7.31, 0.005);
  EXPECT_NEAR(tbPerDay(4, 0.5) * 30, 0.648, 1e-9);
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

// Published: a teaching page on raid capacity: six disks of 4 TB give 20, 16 and 12 TB.
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

// Property: a requirement is kept as long as the shortest recording of the imagers that serve it.
TEST(Recording, RetentionIsTheShortestOfItsStreams) {
  Design design = streamsOf(2, 4, 31, {.count = 1}, 4);
  design.services.recording[1].days = 14;
  Requirement r;
  r.id = {"R1"};
  r.keep_days = 31;
  design.brief.push_back(r);
  EXPECT_EQ(sizes(design).retention.at(0).kept_days, 14);
  const auto served = recordingOf(design, streamRates(design), {{{"R1"}, {"C2.1"}}});
  EXPECT_FALSE(served.retention.at(0).kept_days);
}

}  // namespace
}  // namespace belvedere::services
