// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/recording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <unordered_map>
#include <unordered_set>

#include "services/stay.h"

namespace belvedere::services {

using design::Model;

HeldFor heldFor(const Spread& held_days, double asked_days) {
  constexpr double kHair = 1e-9;
  return held_days.low >= asked_days - kHair    ? HeldFor::as_asked
         : held_days.high >= asked_days - kHair ? HeldFor::perhaps
                                                : HeldFor::too_short;
}

double recordedShare(std::string_view schedule, std::optional<double> active_share) {
  if (schedule == "activity") return active_share.value_or(kActiveShareAssumed);
  if (schedule.size() == 11 && schedule[2] == ':') {  // checked by the reader: 07:00-19:00
    const auto minutes = [&](std::size_t at) {
      const auto digit = [&](std::size_t i) { return schedule[i] - '0'; };
      return (digit(at) * 10 + digit(at + 1)) * 60 + digit(at + 3) * 10 + digit(at + 4);
    };
    int span = minutes(6) - minutes(0);
    if (span <= 0) span += 24 * 60;
    return span / (24.0 * 60) * active_share.value_or(1);
  }
  return 1;
}

double dataDisks(std::string_view raid, int working, int groups) {
  if (raid == "single" || raid == "1") return 1;
  if (raid == "5") return working - 1;
  if (raid == "6") return working - 2;
  if (raid == "10") return working / 2.0;
  if (raid == "50") return working - groups;
  if (raid == "60") return working - 2.0 * groups;
  return working;  // jbod, 0
}

int guaranteedFailures(std::string_view raid, int working) {
  if (raid == "1") return working - 1;
  if (raid == "5" || raid == "50" || raid == "10") return 1;
  if (raid == "6" || raid == "60") return 2;
  return 0;
}

namespace {

Spread over(double whole, Spread by) {
  const auto one = [&](double d) {
    return d > 0 ? whole / d : std::numeric_limits<double>::infinity();
  };
  return {one(by.high), one(by.typical), one(by.low)};
}

Spread atMostAll(Spread share) {
  return {std::min(share.low, 1.0), std::min(share.typical, 1.0), std::min(share.high, 1.0)};
}

// Working disks of the level that hold so much, as few as the level allows, hot spares on top.
int disksFor(double tb, double disk_tb, const design::Disks& disks) {
  if (!(disk_tb > 0)) return 0;
  const int step = disks.raid == "10" ? 2
                   : disks.raid == "50" || disks.raid == "60" ? disks.groups
                                                              : 1;
  const int least = disks.raid == "5" ? 3
                    : disks.raid == "6" || disks.raid == "10" ? 4
                    : disks.raid == "50" ? 3 * disks.groups
                    : disks.raid == "60" ? 4 * disks.groups
                    : disks.raid == "0" || disks.raid == "1" ? 2
                                                             : 1;
  if ((disks.raid == "single" || disks.raid == "1"))
    return disk_tb * (1 - disks.reserve) >= tb ? least + disks.spares : 0;
  for (int working = least; working <= 100'000; working += step)
    if (dataDisks(disks.raid, working, disks.groups) * disk_tb * (1 - disks.reserve) >= tb)
      return working + disks.spares;
  return 0;
}

void sizeDisks(const design::Design& design, const design::Device& device, double tb_per_day,
               Store& store) {
  if (!device.disks) return;
  const design::Disks& disks = *device.disks;
  const Model* model = findModel(design, disks.model);
  if (!model || !model->capacity || !model->capacity->size_tb) return;
  const double size_tb = *model->capacity->size_tb;
  const int working = disks.count - disks.spares;
  const double data = dataDisks(disks.raid, working, disks.groups);
  store.disks = disks.count;
  store.raw_tb = size_tb * disks.count;
  store.usable_tb = data * size_tb * (1 - disks.reserve);
  store.guaranteed_failures = guaranteedFailures(disks.raid, working);
  store.disks_needed = disksFor(store.needed_tb.high, size_tb, disks);
  if (store.disks_needed == 0 && data > 0 && disks.reserve < 1) {
    store.disk_tb_needed = store.needed_tb.high / data / (1 - disks.reserve);
    for (const char* raid : {"5", "6"}) {
      design::Disks other = disks;
      other.raid = raid;
      if (guaranteedFailures(raid, working) < std::min(store.guaranteed_failures, 2)) continue;
      store.other_disks = disksFor(store.needed_tb.high, size_tb, other);
      store.other_raid = raid;
      break;
    }
  }
  // Each disk of a parity group takes its share of the data; of a mirror, that of its pair.
  if (model->capacity->write_mb_per_s)
    store.disks_write_most_mb_per_s = *model->capacity->write_mb_per_s * data;
  // A year's writing; what is read for viewing and export comes on top.
  store.workload_tb_per_year = tb_per_day * 365 / data;
  store.workload_most_tb_per_year = model->capacity->workload_tb_per_year;
}

// Cards on which something is recorded, and what of it they hold.
void sizeCards(const design::Design& design,
               const std::unordered_map<std::string, const StreamRate*>& rate_of,
               RecordingSizes& out) {
  for (const design::Housing* housing : stayingHousings(design)) {
    CardStore store{housing->id, !housing->card.empty(), {}, {}, 0, {}};
    std::vector<Kept*> on_card;
    for (Kept& kept : out.kept) {
      if (!kept.device.empty() || rate_of.at(kept.stream.text)->housing != housing->id) continue;
      on_card.push_back(&kept);
      store.needed_tb = store.needed_tb + kept.tb;
      store.longest_days = std::max(store.longest_days, kept.days);
    }
    if (on_card.empty()) continue;
    const Model* card = store.there ? findModel(design, housing->card) : nullptr;
    if (card && card->capacity) store.size_tb = card->capacity->size_tb;
    if (store.there && !store.size_tb) {  // how much it holds is not known
      out.cards.push_back(store);
      continue;
    }
    const double size_tb = store.size_tb.value_or(0);
    const auto share = [&](double needed_tb) {
      return needed_tb > size_tb ? size_tb / needed_tb : store.there ? 1.0 : 0.0;
    };
    store.days_held = {store.longest_days * share(store.needed_tb.high),
                       store.longest_days * share(store.needed_tb.typical),
                       store.longest_days * share(store.needed_tb.low)};
    for (Kept* kept : on_card) {
      kept->kept_days = kept->days * share(store.needed_tb.high);
      kept->held_days = Spread{kept->kept_days, kept->days * share(store.needed_tb.typical),
                               kept->days * share(store.needed_tb.low)};
    }
    out.cards.push_back(store);
  }
}

Retention retentionOf(const design::Requirement& r,
                      const std::unordered_map<std::string, const StreamRate*>& rate_of,
                      const std::vector<Kept>& all_kept, const ServedBy* served) {
  Retention retention{r.id, *r.keep_days, {}, {}, {}, !served || !served->imagers.empty()};
  std::map<std::string, std::pair<double, Spread>> days_of;  // of an imager: kept, and held
  for (const Kept& kept : all_kept) {
    const StreamRate& rate = *rate_of.at(kept.stream.text);
    bool serves = false;
    for (const int slot : rate.slots) {
      const std::string imager = fmt::format("{}.{}", rate.housing.text, slot);
      if (served && std::ranges::find(served->imagers, imager) == served->imagers.end()) continue;
      serves = true;
      auto& [days, held] = days_of[imager];
      days = std::max(days, kept.kept_days);
      const Spread now = kept.held_days.value_or(Spread{kept.days, kept.days, kept.days});
      held = {std::max(held.low, now.low), std::max(held.typical, now.typical),
              std::max(held.high, now.high)};
    }
    if (serves &&
        std::ranges::find(retention.streams, kept.stream) == retention.streams.end())
      retention.streams.push_back(kept.stream);
  }
  for (const auto& [imager, of] : days_of) {
    const auto& [days, held] = of;
    const Spread least = retention.held_days.value_or(held);
    retention.kept_days = std::min(retention.kept_days.value_or(days), days);
    retention.held_days = Spread{std::min(least.low, held.low), std::min(least.typical, held.typical),
                                 std::min(least.high, held.high)};
  }
  return retention;
}

// Whether what one line keeps is kept by the other as well.
bool holds(const design::Recording& longer, const Kept& kept_longer, const design::Recording& shorter,
           const Kept& kept_shorter) {
  if (longer.stream != shorter.stream || longer.device != shorter.device ||
      longer.days < shorter.days)
    return false;
  return kept_longer.share >= 1 ||
         (longer.schedule == shorter.schedule && kept_longer.share == kept_shorter.share);
}

// A device that keeps a stream once need not keep it again: of lines that hold each other the first
// counts.
void holdWithin(const std::vector<const design::Recording*>& lines, std::vector<Kept>& kept) {
  std::unordered_map<std::string, std::vector<std::size_t>> by_stream;
  for (std::size_t i = 0; i < kept.size(); ++i) by_stream[kept[i].stream.text].push_back(i);
  for (const auto& [stream, of_stream] : by_stream)
    for (const std::size_t i : of_stream)
      for (const std::size_t j : of_stream)
        if (i != j && holds(*lines[j], kept[j], *lines[i], kept[i]) &&
            (j < i || !holds(*lines[i], kept[i], *lines[j], kept[j])))
          kept[i].within_longer = true;
  for (Kept& one : kept)
    if (one.within_longer) one.tb = {};
}

}  // namespace

bool isRecorded(const design::StreamId& stream, const RecordingSizes& recording) {
  return std::ranges::find(recording.kept, stream, &Kept::stream) != recording.kept.end();
}

RecordingSizes recordingOf(const design::Design& design, const std::vector<StreamRate>& rates,
                           const std::vector<ServedBy>& served) {
  RecordingSizes out;
  std::unordered_map<std::string, const StreamRate*> rate_of;
  for (const StreamRate& rate : rates) rate_of[rate.stream.text] = &rate;
  std::vector<const design::Recording*> lines;  // of each Kept
  for (const design::Recording& r : design.services.recording) {
    const auto rate = rate_of.find(r.stream.text);
    if (rate == rate_of.end()) continue;  // of a housing that goes
    Kept kept;
    kept.recording = r.id;
    kept.stream = r.stream;
    kept.device = r.device;
    kept.share = recordedShare(r.schedule, r.active_share);
    kept.days = kept.kept_days = r.days;
    kept.mbps = rate->second->mean_mbps;
    kept.from_estimate =
        rate->second->from == RateFrom::estimate || rate->second->from == RateFrom::capped;
    kept.known = rate->second->known;
    kept.tb = {tbPerDay(kept.mbps.low, kept.share) * kept.days,
               tbPerDay(kept.mbps.typical, kept.share) * kept.days,
               tbPerDay(kept.mbps.high, kept.share) * kept.days};
    out.kept.push_back(kept);
    lines.push_back(&r);
  }
  holdWithin(lines, out.kept);
  for (const design::Device& device : design.services.devices) {
    const Model* model = findModel(design, device.model);
    if (!model || model->kind != design::ModelKind::recorder) continue;
    Store store;
    store.device = device.id;
    Spread per_day;
    std::unordered_set<std::string> taken;  // a stream comes once, however many lines keep it
    std::vector<Kept*> on_device;
    for (Kept& kept : out.kept) {
      if (kept.device != device.id) continue;
      on_device.push_back(&kept);
      if (taken.insert(kept.stream.text).second) {
        ++store.streams;
        store.ingest_mb_per_s += kept.mbps.high / 8;  // all may be active at once
      }
      if (kept.within_longer) continue;
      store.needed_tb = store.needed_tb + kept.tb;
      store.from_estimate = store.from_estimate || kept.from_estimate;
      per_day = per_day + Spread{tbPerDay(kept.mbps.low, kept.share),
                                 tbPerDay(kept.mbps.typical, kept.share),
                                 tbPerDay(kept.mbps.high, kept.share)};
      store.longest_days = std::max(store.longest_days, kept.days);
    }
    if (model->capacity) {
      store.channels = model->capacity->channels;
      store.bays = model->capacity->bays.value_or(0);
      store.ingest_most_mb_per_s = model->capacity->write_mb_per_s;
    }
    sizeDisks(design, device, per_day.high, store);
    if (store.usable_tb > 0 && store.streams > 0) {
      // Every stream shortened alike: the share of what is asked for that the disks hold.
      store.days_held = over(store.usable_tb, store.needed_tb) * store.longest_days;
    }
    if (store.disks > 0)
      for (Kept* kept : on_device)
        kept->held_days = atMostAll(over(store.usable_tb, store.needed_tb)) * kept->days;
    out.stores.push_back(store);
  }
  sizeCards(design, rate_of, out);
  for (const design::Housing* housing : stayingHousings(design)) {
    const Model* card = housing->card.empty() ? nullptr : findModel(design, housing->card);
    if (!card || !card->capacity || !card->capacity->size_tb) continue;
    Bridge bridge;
    bridge.housing = housing->id;
    bridge.size_tb = *card->capacity->size_tb;
    std::vector<int> slots;
    for (const design::Stream& stream : housing->streams) {
      const bool recorded = std::ranges::any_of(out.kept, [&](const Kept& k) {
                              return k.stream == stream.id;
                            }) || std::ranges::find(stream.use, "recorded") != stream.use.end();
      if (!recorded) continue;
      bridge.mbps = bridge.mbps + rate_of.at(stream.id.text)->mean_mbps;
      for (const int slot : stream.from)
        if (std::ranges::find(slots, slot) == slots.end()) slots.push_back(slot);
    }
    bridge.imagers = static_cast<int>(slots.size());
    // MB/s = Mbit/s / 8; hours = bytes / (bytes a second) / 3600.
    bridge.hours = over(bridge.size_tb * 1e6 / 3600, bridge.mbps * 0.125);
    out.bridges.push_back(bridge);
  }
  for (const design::Requirement& r : design.brief) {
    if (!r.keep_days) continue;
    const auto by = std::ranges::find(served, r.id, &ServedBy::requirement);
    out.retention.push_back(retentionOf(r, rate_of, out.kept, by == served.end() ? nullptr : &*by));
  }
  return out;
}

}  // namespace belvedere::services
