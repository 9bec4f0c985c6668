// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>
#include <map>

#include "base/figures.h"
#include "services/findings.h"

namespace belvedere::services {
namespace {

void space(const Store& s, std::vector<Finding>& out) {
  const std::string id = s.device.text;
  if (s.disks == 0) {
    out.push_back({"disks_unstated", Severity::caution, {id}, {}, Quantity{s.needed_tb.high, "TB"},
                   fmt::format("{}: {:.2f} TB ({:.2f} TiB) are to be kept, and its disks are not "
                               "stated.", id, s.needed_tb.high, tibFromTb(s.needed_tb.high)),
                   "12"});
    return;
  }
  std::string more;
  if (s.disks_needed > 0) {
    more = fmt::format(" {} such disks would do{}.", s.disks_needed,
                       s.bays > 0 && s.disks_needed > s.bays
                           ? fmt::format("; it has {} bays", s.bays) : "");
  } else {
    more = " No number of such disks would do at this level";
    if (s.disk_tb_needed > 0)
      more += fmt::format(": disks of {:.1f} TB would", std::ceil(10 * s.disk_tb_needed - 1e-9) / 10);
    if (s.other_disks > 0)
      more += fmt::format(", or {} of these at level {}", s.other_disks, s.other_raid);
    more += ".";
  }
  if (s.needed_tb.high > s.usable_tb + 1e-9) {
    // Of an estimate the middle may fit where the high end does not.
    const bool sure = s.needed_tb.typical > s.usable_tb + 1e-9;
    out.push_back({sure ? "storage_short" : "storage_uncertain",
                   sure ? Severity::shortfall : Severity::caution, {id},
                   Quantity{s.needed_tb.high, "TB"}, Quantity{s.usable_tb, "TB"},
                   fmt::format("{}: {:.2f} TB ({:.2f} TiB) {} be kept and its disks hold {} TB ({:.2f} "
                               "TiB) usable: {:.1f} days of the longest asked for, at the high end of "
                               "the rates.{}", id, s.needed_tb.high, tibFromTb(s.needed_tb.high),
                               sure ? "must" : "may have to",
                               figureBeside(s.usable_tb, s.needed_tb.high, 2, Rounded::down),
                               tibFromTb(s.usable_tb), s.days_held.low, more),
                   "12"});
  }
  if (s.guaranteed_failures == 0)
    out.push_back({"no_redundancy", Severity::caution, {id}, {}, {},
                   fmt::format("{}: one failed disk loses recordings: its disks are joined without "
                               "redundancy.", id),
                   "12"});
}

void pace(const Store& s, std::vector<Finding>& out) {
  const std::string id = s.device.text;
  if (s.channels && s.streams > *s.channels)
    out.push_back({"channels_short", Severity::shortfall, {id},
                   Quantity{static_cast<double>(s.streams), "streams"},
                   Quantity{static_cast<double>(*s.channels), "streams"},
                   fmt::format("{}: {} streams are to be recorded; it takes {}.", id, s.streams,
                               *s.channels),
                   "12"});
  if (s.bays > 0 && s.disks > s.bays)
    out.push_back({"bays_short", Severity::shortfall, {id}, Quantity{static_cast<double>(s.disks), "disks"},
                   Quantity{static_cast<double>(s.bays), "disks"},
                   fmt::format("{}: {} disks and {} bays.", id, s.disks, s.bays), "12"});
  const auto writes = [&](std::optional<double> most, const char* what) {
    if (!most || s.ingest_mb_per_s <= *most * kIngestShare) return;
    const bool over = s.ingest_mb_per_s > *most;
    out.push_back({"ingest_high", over ? Severity::shortfall : Severity::caution, {id},
                   Quantity{*most * kIngestShare, "MB/s"}, Quantity{s.ingest_mb_per_s, "MB/s"},
                   fmt::format("{}: up to {:.1f} MB/s are written and {} {:.0f} MB/s; practice plans "
                               "for {:g} % of that.", id, s.ingest_mb_per_s, what, *most,
                               100 * kIngestShare),
                   "12"});
  };
  writes(s.ingest_most_mb_per_s, "it takes");
  writes(s.disks_write_most_mb_per_s, "its disks take");
  if (s.workload_tb_per_year && s.workload_most_tb_per_year &&
      *s.workload_tb_per_year > *s.workload_most_tb_per_year)
    out.push_back({"workload_high", Severity::caution, {id},
                   Quantity{*s.workload_most_tb_per_year, "TB/year"},
                   Quantity{*s.workload_tb_per_year, "TB/year"},
                   fmt::format("{}: each disk writes {:.0f} TB a year, before anything is played back; "
                               "it is rated for {:g}.", id, *s.workload_tb_per_year,
                               *s.workload_most_tb_per_year),
                   "12"});
}

// What is recorded on the camera's own card.
void card(const CardStore& c, std::vector<Finding>& out) {
  const std::string id = c.housing.text;
  if (!c.there) {
    out.push_back({"card_missing", Severity::shortfall, {id}, Quantity{c.needed_tb.high, "TB"},
                   Quantity{0, "TB"},
                   fmt::format("{}: {:.3g} TB are to be kept on its card, and it has none.", id,
                               c.needed_tb.high),
                   "12"});
    return;
  }
  if (!c.size_tb) {
    out.push_back({"card_unstated", Severity::caution, {id}, {}, Quantity{c.needed_tb.high, "TB"},
                   fmt::format("{}: {:.3g} TB are to be kept on its card, and how much that holds is not "
                               "stated.", id, c.needed_tb.high),
                   "12"});
    return;
  }
  if (c.needed_tb.high <= *c.size_tb + 1e-9) return;
  const bool sure = c.needed_tb.typical > *c.size_tb + 1e-9;
  out.push_back({sure ? "card_short" : "card_uncertain",
                 sure ? Severity::shortfall : Severity::caution, {id},
                 Quantity{c.needed_tb.high, "TB"}, Quantity{*c.size_tb, "TB"},
                 fmt::format("{}: {:.3g} TB {} be kept on its card, which holds {} TB: {:.1f} of {:g} "
                             "days, at the high end of the rates.", id, c.needed_tb.high,
                             sure ? "must" : "may have to",
                             figureBeside(*c.size_tb, c.needed_tb.high, 3, Rounded::down),
                             c.days_held.low, c.longest_days),
                 "12"});
}

// One stream kept more than once on one device: what of it is counted.
void keptTwice(const Sizes& sizes, std::vector<Finding>& out) {
  std::map<std::pair<std::string, std::string>, std::vector<const Kept*>> lines_of;
  for (const Kept& kept : sizes.recording.kept)
    lines_of[{kept.stream.text, kept.device.text}].push_back(&kept);
  for (const auto& [on, lines] : lines_of) {
    if (lines.size() < 2) continue;
    std::vector<std::string> about{on.first}, counted;
    for (const Kept* kept : lines) {
      about.push_back(kept->recording.text);
      if (!kept->within_longer)
        counted.push_back(fmt::format("{} ({:g} days, {:.2f} of the day)", kept->recording.text,
                                      kept->days, kept->share));
    }
    out.push_back({"stream_kept_twice", Severity::note, about, {}, {},
                   fmt::format("{} is kept by {} lines on {}: {}.", on.first, lines.size(),
                               on.second.empty() ? "its card" : on.second,
                               counted.size() == 1
                                   ? fmt::format("{} holds the rest, and takes room once", counted[0])
                                   : fmt::format("none of {} holds the others, since their shares of the "
                                                 "day differ, so that each takes room of its own",
                                                 fmt::join(counted, ", "))),
                   "12"});
  }
}

}  // namespace

std::vector<Finding> recordingFindings(const design::Design& design, const Sizes& sizes) {
  std::vector<Finding> out;
  for (const Store& store : sizes.recording.stores) {
    if (store.streams == 0) continue;
    space(store, out);
    pace(store, out);
  }
  for (const CardStore& store : sizes.recording.cards) card(store, out);
  keptTwice(sizes, out);
  std::vector<std::string> unused;
  for (const design::Recording& r : design.services.recording)
    if (r.active_share && (r.schedule.empty() || r.schedule == "always")) unused.push_back(r.id.text);
  if (!unused.empty())
    out.push_back({"active_share_unused", Severity::caution, unused, {}, {},
                   fmt::format("{} recordings state an active share, and record always all the same: "
                               "the whole day is counted. Say \"activity\" where that is meant.",
                               unused.size()),
                   "12"});
  if (design.services.recording.empty()) return out;
  for (const Retention& r : sizes.recording.retention) {
    if (!r.kept_days && !r.served)
      out.push_back({"nothing_serves", Severity::shortfall, {r.requirement.text},
                     Quantity{r.asked_days, "days"}, Quantity{0, "days"},
                     fmt::format("{}: {:g} days are to be kept, and nothing serves it: no imager sees "
                                 "any part of it as asked.", r.requirement.text, r.asked_days),
                     "12"});
    else if (!r.kept_days)
      out.push_back({"nothing_recorded", Severity::shortfall, {r.requirement.text},
                     Quantity{r.asked_days, "days"}, Quantity{0, "days"},
                     fmt::format("{}: {:g} days are to be kept, and no stream that serves it is "
                                 "recorded.", r.requirement.text, r.asked_days),
                     "12"});
    else if (*r.kept_days < r.asked_days - 1e-9)
      out.push_back({"retention_short", Severity::shortfall, {r.requirement.text},
                     Quantity{r.asked_days, "days"}, Quantity{*r.kept_days, "days"},
                     fmt::format("{}: {:g} days are to be kept; of the camera that is kept for the "
                                 "shortest, {:.3g} are.", r.requirement.text, r.asked_days,
                                 *r.kept_days),
                     "12"});
  }
  return out;
}

}  // namespace belvedere::services
