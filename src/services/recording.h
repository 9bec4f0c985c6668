// SPDX-License-Identifier: GPL-3.0-or-later
//
// Recording: bytes a day, disks, days, and how long cards bridge (handbook 12).
// TB are decimal (10^12 bytes), as disks are sold; TiB binary (2^40), as systems show them
// [IEC 80000-13].
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/design.h"
#include "services/services.h"
#include "services/streams.h"

namespace belvedere::services {

constexpr double tibFromTb(double tb) { return tb * 1e12 / 1099511627776.0; }

// Bytes of a stream: rate / 8 times 86 400 s, times the share that is recorded, in TB a day.
constexpr double tbPerDay(double mbps, double recorded_share) {
  return mbps / 8 * 86'400 * recorded_share * 1e-6;
}

// Share of the day that a schedule records: "always" or none (1, whatever the active share),
// "activity" (active_share, or kActiveShareAssumed), or hours such as "07:00-19:00" (past midnight
// where the second is the earlier), of which the active share where one is given.
inline constexpr double kActiveShareAssumed = 0.3;  // practice, no source
double recordedShare(std::string_view schedule, std::optional<double> active_share);

// Disks that hold data, of so many that work (hot spares left out): single 1, jbod and 0 all,
// 1: one, 5: all but one, 6: all but two, 10: half, 50: less one a group, 60: less two a group
// [levels as in the SNIA disk data format; 50 and 60 by composition, from memory].
double dataDisks(std::string_view raid, int working, int groups);
// Disks of one group that may fail without loss, wherever they fail.
int guaranteedFailures(std::string_view raid, int working);

// Of the disks' own share: share of the rated ingest to plan for, yearly hours [practice].
inline constexpr double kIngestShare = 0.8;

// Days held against days asked for: at the high end of the rates too, at their low end alone, or not
// even then.
enum class HeldFor { as_asked, perhaps, too_short };
HeldFor heldFor(const Spread& held_days, double asked_days);

struct Kept {                       // one line of the recording
  design::AnyId recording;
  design::StreamId stream;
  design::DeviceId device;          // empty: the housing's card
  double share = 0;                 // of the day
  double days = 0;                  // asked for
  double kept_days = 0;             // the same, less where its card holds fewer
  // What its disks or its card hold of them, the low end at the high end of the rates; none: how
  // much they hold is not stated.
  std::optional<Spread> held_days;
  Spread mbps;
  Spread tb;                        // over those days, of its own: none within a longer line
  // Another line of the same stream on the same device holds it: kept at least as long, and always
  // or by the same schedule and share.
  bool within_longer = false;
  bool from_estimate = false;
  bool known = true;
};

struct Store {                      // of one recorder
  design::DeviceId device;
  int streams = 0;                  // each once, however many lines keep it
  std::optional<int> channels;
  Spread needed_tb;                 // data, before reserve
  double usable_tb = 0;             // of its disks, less parity, spares and reserve; 0: no disks
  double raw_tb = 0;
  double longest_days = 0;          // asked for
  Spread days_held;                 // of the longest kept: usable over the bytes a day; low end of
                                    // days is the high end of the rate
  int disks_needed = 0;             // of the same model and level, for the high end; 0: unknown
  // Where no number of the model would do at this level: the size of disk that would, and another
  // level with as much redundancy, with how many of the same model. 0, empty: none.
  double disk_tb_needed = 0;
  std::string other_raid;
  int other_disks = 0;
  int disks = 0, bays = 0;
  double ingest_mb_per_s = 0;       // high end
  std::optional<double> ingest_most_mb_per_s;
  std::optional<double> disks_write_most_mb_per_s;
  std::optional<double> workload_tb_per_year, workload_most_tb_per_year;  // of one disk
  int guaranteed_failures = 0;
  bool from_estimate = false;
};

struct CardStore {                  // what is recorded on the card of a housing and nowhere else
  design::HousingId housing;
  bool there = false;               // the housing has a card
  std::optional<double> size_tb;
  Spread needed_tb;
  double longest_days = 0;          // asked for
  Spread days_held;                 // of the longest kept, all shortened alike, at most what is asked
};

struct Bridge {                     // a card in a housing
  design::HousingId housing;
  double size_tb = 0;
  int imagers = 0;                  // that share it
  Spread mbps;                      // of the streams that are recorded
  Spread hours;                     // low end of hours is the high end of the rate
};

struct Retention {                  // of a requirement with keep_days
  design::RequirementId requirement;
  double asked_days = 0;
  std::vector<design::StreamId> streams;  // recorded ones of the imagers that serve it
  // Of each imager its stream that is kept longest, of a stream its longest copy; of these the least.
  std::optional<double> kept_days;  // none: nothing is recorded
  std::optional<Spread> held_days;  // the same, of what disks and cards hold (Kept::held_days)
  bool served = true;               // false: it is known that no imager serves it
};

struct RecordingSizes {
  std::vector<Kept> kept;
  std::vector<Store> stores;        // of each recorder, in the order of the devices
  std::vector<CardStore> cards;     // of each housing that is recorded on its card
  std::vector<Bridge> bridges;
  std::vector<Retention> retention;
};

bool isRecorded(const design::StreamId& stream, const RecordingSizes& recording);

// Which imagers serve a requirement: from a proof, as plain values ("C1.2").
struct ServedBy {
  design::RequirementId requirement;
  std::vector<std::string> imagers;
};

// `served`: where a requirement is not in it, every recorded imager must be kept as long.
RecordingSizes recordingOf(const design::Design& design, const std::vector<StreamRate>& rates,
                           const std::vector<ServedBy>& served = {});

}  // namespace belvedere::services
