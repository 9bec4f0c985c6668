// SPDX-License-Identifier: GPL-3.0-or-later
#include "requirements/demands.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/figures.h"
#include "geometry/polygon.h"
#include "proof/part_loss.h"
#include "services/findings.h"

namespace belvedere::requirements {

using proof::Verdict;
using services::Sizes;

namespace {

template <class List, class Id>
auto* of(const List& list, const Id& id) {
  const auto at = std::ranges::find_if(
      list, [&](const auto& item) { return item.requirement == id; });
  return at == list.end() ? nullptr : &*at;
}

// Fewest words for some names: "a, b and 3 more".
std::string named(const std::vector<std::string>& names) {
  constexpr std::size_t kMost = 6;
  if (names.size() <= kMost) return fmt::format("{}", fmt::join(names, ", "));
  return fmt::format("{} and {} more",
                     fmt::join(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(kMost), ", "),
                     names.size() - kMost);
}

Demand ruleDemand(const design::Requirement& r, const Sizes& sizes, const services::Seen& seen) {
  Demand demand{r.id, Asks::rule, Verdict::met, {}, static_cast<double>(r.imagers), "imagers", {}, ""};
  const services::RulePlan& plan = sizes.rules;
  const services::Assigned* assigned = of(plan.assigned, r.id);
  const services::RuleDemand* asked = of(seen.rules, r.id);
  const bool gives = std::ranges::find(plan.gives, r.id) != plan.gives.end();
  if (gives || !assigned || assigned->imagers.empty()) {
    const bool unseen = std::ranges::find(plan.unseen, r.id) != plan.unseen.end();
    demand.verdict = plan.proven || unseen ? Verdict::not_met : Verdict::undecided;
    demand.found = 0;
    if (unseen) demand.found = asked ? static_cast<double>(asked->candidates.size()) : 0;
    demand.sentence =
        unseen ? fmt::format("{} imagers see it well enough to run it; {} asked for{}",
                             asked ? asked->candidates.size() : 0, r.imagers,
                             asked && !asked->nearest.empty() ? "; nearest: " + asked->nearest : "")
        : plan.proven ? "no imager is left that can run it beside the other rules"
                      : "the search for imagers to run it was given up";
    return demand;
  }
  demand.found = static_cast<double>(assigned->imagers.size());
  demand.by = assigned->imagers;
  demand.sentence = fmt::format("runs on {}", named(demand.by));
  const services::RuleTime* time = of(sizes.rule_times, r.id);
  if (time && time->seconds < time->asked_s) {
    demand.verdict = Verdict::not_met;
    demand.sentence += fmt::format("; who walks through is in it for {} s on average, {:g} s are asked "
                                   "for", figureBeside(time->seconds, time->asked_s, 1), time->asked_s);
    return demand;
  }
  std::vector<std::string> unstated;
  for (const design::HousingId& id : plan.unstated)
    if (std::ranges::any_of(demand.by, [&](const std::string& imager) {
          return imager.substr(0, imager.rfind('.')) == id.text;
        }))
      unstated.push_back(id.text);
  if (!unstated.empty()) {
    demand.verdict = Verdict::undecided;
    demand.sentence += fmt::format("; the model of {} does not say what it can run", named(unstated));
  }
  return demand;
}

// The streams that a requirement's pictures are kept as.
std::vector<const services::StreamRate*> streamsOf(const std::vector<design::StreamId>& ids,
                                                   const Sizes& sizes) {
  std::vector<const services::StreamRate*> rates;
  for (const services::StreamRate& rate : sizes.rates)
    if (std::ranges::find(ids, rate.stream) != ids.end()) rates.push_back(&rate);
  return rates;
}

// Imagers that serve some spot alone and none of whose streams are recorded.
std::vector<std::string> unrecordedAlone(const design::Requirement& r, const proof::Proof& proof,
                                         const Sizes& sizes) {
  std::vector<std::string> names;
  for (const proof::RequirementProof& row : proof.requirements) {
    if (row.requirement != r.id || !row.without.empty()) continue;
    for (const proof::Contribution& by : row.imagers) {
      if (by.alone <= 0 || std::ranges::find(names, by.imager) != names.end()) continue;
      const bool recorded = std::ranges::any_of(sizes.rates, [&](const services::StreamRate& rate) {
        const bool of_imager = std::ranges::any_of(rate.slots, [&](int slot) {
          return fmt::format("{}.{}", rate.housing.text, slot) == by.imager;
        });
        return of_imager && services::isRecorded(rate.stream, sizes.recording);
      });
      if (!recorded) names.push_back(by.imager);
    }
  }
  return names;
}

Demand daysDemand(const design::Design& design, const design::Requirement& r,
                  const proof::Proof& proof, const Sizes& sizes) {
  Demand demand{r.id, Asks::days_kept, Verdict::met, {}, *r.keep_days, "days", {}, ""};
  if (design.services.recording.empty()) {
    demand.verdict = Verdict::undecided;
    demand.sentence = "nothing says what is recorded (services, recording)";
    return demand;
  }
  const services::Retention* retention = of(sizes.recording.retention, r.id);
  if (!retention || retention->streams.empty()) {
    demand.verdict = Verdict::not_met;
    demand.found = 0;
    demand.sentence = retention && !retention->served ? "nothing serves it"
                                                      : "no stream that serves it is recorded";
    return demand;
  }
  const double low = retention->held_days->low, high = retention->held_days->high;
  std::vector<std::string> unstated;
  for (const services::StreamRate* rate : streamsOf(retention->streams, sizes)) {
    demand.by.push_back(rate->stream.text);
    for (const services::Kept& kept : sizes.recording.kept)
      if (kept.stream == rate->stream && !kept.held_days)
        unstated.push_back(kept.device.empty() ? rate->housing.text + "'s card" : kept.device.text);
  }
  demand.found = low;
  const services::HeldFor held = services::heldFor(*retention->held_days, *r.keep_days);
  const bool sure = held == services::HeldFor::as_asked, may = held != services::HeldFor::too_short;
  demand.verdict = sure ? Verdict::met : may ? Verdict::undecided : Verdict::not_met;
  const std::string days = figureBeside(low, *r.keep_days, 1, Rounded::down);
  demand.sentence =
      sure  ? fmt::format("{:g} days or more: {}", *r.keep_days, named(demand.by))
      : may ? fmt::format("{} days at the high end of the rates, {:.1f} at the low end", days, high)
            : fmt::format("{} days at most of {}", figureBeside(high, *r.keep_days, 1, Rounded::up),
                          named(demand.by));
  const auto open = [&](const std::string& why) {
    if (demand.verdict == Verdict::met) demand.verdict = Verdict::undecided;
    demand.sentence += "; " + why;
  };
  std::ranges::sort(unstated);
  unstated.erase(std::unique(unstated.begin(), unstated.end()), unstated.end());
  if (!unstated.empty()) open(fmt::format("what {} can hold is not stated", named(unstated)));
  const std::vector<std::string> unrecorded = unrecordedAlone(r, proof, sizes);
  if (!unrecorded.empty())
    open(fmt::format("{} alone serve{} a part of it and {} not recorded", named(unrecorded),
                     unrecorded.size() == 1 ? "s" : "", unrecorded.size() == 1 ? "is" : "are"));
  return demand;
}

Demand framesDemand(const design::Requirement& r, const Sizes& sizes, const services::Seen& seen) {
  Demand demand{r.id, Asks::frames, Verdict::met, {}, *r.frames_per_s, "1/s", {}, ""};
  const services::ServedBy* served = of(seen.served, r.id);
  const services::StreamRate* slowest = nullptr;
  bool assumed = false;
  for (const services::StreamRate& rate : sizes.rates) {
    const bool serves = !served || std::ranges::any_of(rate.slots, [&](int slot) {
      return std::ranges::find(served->imagers, fmt::format("{}.{}", rate.housing.text, slot)) !=
             served->imagers.end();
    });
    if (!serves || !services::isRecorded(rate.stream, sizes.recording)) continue;
    demand.by.push_back(rate.stream.text);
    assumed = assumed || rate.assumed_frames;
    if (!slowest || rate.frames_per_s < slowest->frames_per_s) slowest = &rate;
  }
  if (!slowest) {
    demand.verdict = Verdict::undecided;
    demand.sentence = served && served->imagers.empty() ? "nothing serves it"
                                                        : "no stream that serves it is recorded";
    return demand;
  }
  demand.found = slowest->frames_per_s;
  demand.sentence = fmt::format("{} gives {:g} frames a second, {:g} are asked for",
                                slowest->stream.text, slowest->frames_per_s, *r.frames_per_s);
  if (slowest->frames_per_s < *r.frames_per_s - 1e-9) demand.verdict = Verdict::not_met;
  if (assumed) {
    demand.verdict = Verdict::undecided;
    demand.sentence += "; not every stream states its frame rate";
  }
  return demand;
}

Demand moneyDemand(const design::Requirement& r, const Sizes& sizes) {
  const services::MoneyCheck* check = of(sizes.money, r.id);
  Demand demand{r.id, Asks::money, Verdict::undecided, sizes.bill.total, r.amount_most,
                sizes.bill.money.empty() ? "money" : sizes.bill.money, {}, ""};
  if (check && check->met) demand.verdict = *check->met ? Verdict::met : Verdict::not_met;
  demand.sentence = services::totalText(sizes.bill);
  if (r.amount_most)
    demand.sentence +=
        fmt::format(", of at most {}", services::amountText(*r.amount_most, sizes.bill.money));
  return demand;
}

// The rows of a requirement as the design stands.
std::vector<const proof::RequirementProof*> rowsOf(const proof::Proof& proof,
                                                   const design::RequirementId& id) {
  std::vector<const proof::RequirementProof*> rows;
  for (const proof::RequirementProof& row : proof.requirements)
    if (row.requirement == id && row.without.empty()) rows.push_back(&row);
  return rows;
}

Demand gapDemand(const design::Requirement& r, const std::vector<Gap>& gaps) {
  Demand demand{r.id, Asks::gap, Verdict::met, {}, *r.largest_gap_m, "m", {}, ""};
  const Gap* longest = nullptr;
  for (const Gap& one : gaps) {
    if (one.requirement != r.id) continue;
    const Verdict so_far = worse(demand.verdict, one.gap.verdict);
    // Of the worst verdict, the longest.
    if (!longest || so_far != demand.verdict ||
        (one.gap.verdict == so_far && one.gap.extent_m.high > longest->gap.extent_m.high))
      longest = &one;
    demand.verdict = so_far;
  }
  if (!longest) {
    demand.verdict = Verdict::undecided;
    demand.sentence = "its zone is judged in no situation";
    return demand;
  }
  const bool missed = demand.verdict == Verdict::not_met;
  demand.found = missed ? longest->gap.extent_m.low : longest->gap.extent_m.high;
  const std::string most = fmt::format("{:g} m may be", *r.largest_gap_m);
  const auto beside = [&](double metres, Rounded rounded) {
    return figureBeside(metres, *r.largest_gap_m, 2, rounded);
  };
  demand.sentence =
      missed ? fmt::format("a gap of {} m or more in {}, where {}", beside(*demand.found, Rounded::down),
                           longest->situation.text, most)
      : demand.verdict == Verdict::met && *demand.found < 1e-6
          ? "no gap: all of the zone is served"
      : demand.verdict == Verdict::met
          ? fmt::format("no gap is longer than {} m, where {}", beside(*demand.found, Rounded::up), most)
          : fmt::format("the longest gap, in {}, is of {} to {} m, where {}", longest->situation.text,
                        beside(longest->gap.extent_m.low, Rounded::down),
                        beside(longest->gap.extent_m.high, Rounded::up), most);
  return demand;
}

Demand secondsDemand(const design::Design& design, const design::Requirement& r,
                     const proof::Proof& proof) {
  Demand demand{r.id, Asks::seconds, Verdict::met, {}, *r.seconds_in_view, "s", {}, ""};
  const design::Zone* zone = design::findZone(design, r.zone);
  const double speed_mps = r.target.speed_mps.value_or(services::kWalkMps);
  constexpr double kHair = 1e-9;
  const double asked_s = *r.seconds_in_view;
  std::optional<proof::Bounds> shortest;
  const proof::RequirementProof* of = nullptr;
  for (const proof::RequirementProof* row : rowsOf(proof, r.id)) {
    if (!zone || !(speed_mps > 0) || !(row->zone_m2 > 0)) continue;
    const proof::Bounds s = secondsInView(*zone, row->zone_m2, row->share, speed_mps);
    const Verdict verdict = s.low >= asked_s - kHair   ? Verdict::met
                            : s.high < asked_s - kHair ? Verdict::not_met
                                                       : Verdict::undecided;
    const bool is_worse = worse(demand.verdict, verdict) != demand.verdict;
    if (shortest && !is_worse && (verdict != demand.verdict || s.low >= shortest->low)) continue;
    demand.verdict = verdict;
    shortest = s;
    of = row;
  }
  if (!shortest) {
    demand.verdict = Verdict::undecided;
    demand.sentence = speed_mps > 0 ? "its zone is judged in no situation"
                                    : "a target that stands still is in view as long as it stands";
    return demand;
  }
  demand.found = shortest->low;
  demand.sentence = fmt::format(
      "who walks through at {:g} m/s is in view for {} to {} s on average in {}, {:g} s are asked for",
      speed_mps, figureBeside(shortest->low, asked_s, 2, Rounded::down),
      figureBeside(shortest->high, asked_s, 2, Rounded::up), of->situation.text, asked_s);
  return demand;
}

// The worst verdict of each requirement, by the part that was taken away.
using AfterParts = std::map<std::string, std::map<std::string, Verdict>>;
AfterParts afterParts(const proof::Proof& proof) {
  AfterParts after;
  for (const proof::RequirementProof& row : proof.requirements) {
    if (row.without.empty()) continue;
    const auto [at, is_new] = after[row.without].try_emplace(row.requirement.text, row.verdict);
    if (!is_new) at->second = worse(at->second, row.verdict);
  }
  return after;
}

// The zones that fall with a part, of all whose requirements name a limit for it.
struct ZonesLost {
  std::vector<std::string> surely, perhaps;
};
ZonesLost zonesLost(const design::Design& design, const AfterParts& after, const std::string& part) {
  const auto rows = after.find(part);
  std::map<std::string, int> rank;  // 0 stands, 1 perhaps, 2 falls
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see ||
        std::ranges::none_of(r.after_loss, [&](const auto& loss) { return proof::countsZones(design, loss, part); }))
      continue;
    int& of_zone = rank[r.zone.text];
    // What was left out of this proof, or hangs on a part that nobody knows, may fall.
    const bool is_proven = rows != after.end() && rows->second.contains(r.id.text);
    of_zone = std::max(of_zone, is_proven ? badness(rows->second.at(r.id.text)) : 1);
  }
  ZonesLost lost;
  for (const auto& [zone, how] : rank) {
    if (how == 2) lost.surely.push_back(zone);
    if (how == 1) lost.perhaps.push_back(zone);
  }
  return lost;
}

Demand zonesLostDemand(const design::Design& design, const design::Requirement& r,
                       const AfterParts& after) {
  Demand demand{r.id, Asks::zones_lost, Verdict::met, 0, {}, "zones", {}, ""};
  std::string worst_part;
  ZonesLost worst;
  int worst_most = 0, worst_over = 0;
  bool any = false;
  const auto look = [&](const std::string& part, int most) {
    const ZonesLost lost = zonesLost(design, after, part);
    const int surely = static_cast<int>(lost.surely.size()),
              perhaps = surely + static_cast<int>(lost.perhaps.size());
    const Verdict verdict = surely > most ? Verdict::not_met
                            : perhaps > most ? Verdict::undecided
                                             : Verdict::met;
    const bool is_worse = worse(demand.verdict, verdict) != demand.verdict ||
                          (verdict == demand.verdict && perhaps - most > worst_over);
    if (any && !is_worse) return;
    any = true;
    worst_over = perhaps - most;
    demand.verdict = worse(demand.verdict, verdict);
    worst_part = part;
    worst = lost;
    worst_most = most;
  };
  for (const design::AfterLoss& loss : r.after_loss) {
    if (!loss.zones_lost_max) continue;
    if (loss.of.text == "any_housing") {
      for (const design::Housing& housing : design.housings)
        if (housing.life != design::Life::removed) look(housing.id.text, *loss.zones_lost_max);
    } else {
      look(loss.of.text, *loss.zones_lost_max);
    }
  }
  demand.needed = worst_most;
  demand.found = static_cast<double>(worst.surely.size());
  if (!any || (worst.surely.empty() && worst.perhaps.empty())) {
    demand.sentence = "no zone falls with any one of them";
    return demand;
  }
  demand.by = worst.surely;
  demand.sentence = fmt::format("without {} {} zone{} fall{} ({}){}, where {} may", worst_part,
                                worst.surely.size(), worst.surely.size() == 1 ? "" : "s",
                                worst.surely.size() == 1 ? "s" : "",
                                worst.surely.empty() ? "none surely" : named(worst.surely),
                                worst.perhaps.empty() ? ""
                                                      : fmt::format(", perhaps {}", named(worst.perhaps)),
                                worst_most);
  return demand;
}

}  // namespace

proof::Bounds secondsInView(const design::Zone& zone, double judged_m2, proof::Bounds share,
                            double speed_mps) {
  const Ring hull = convexHull(zone.outline);
  double perimeter_m = 0;
  for (std::size_t i = 0; i < hull.size(); ++i)
    perimeter_m += norm(hull[(i + 1) % hull.size()] - hull[i]);
  return {services::meanCrossingS(share.low * judged_m2, perimeter_m, speed_mps),
          services::meanCrossingS(share.high * judged_m2, perimeter_m, speed_mps)};
}

bool asksOfServices(const design::Requirement& r) {
  return r.kind == design::RequirementKind::rule || r.kind == design::RequirementKind::money ||
         r.keep_days || r.frames_per_s;
}

std::vector<Demand> demandsOf(const design::Design& design, const proof::Proof& proof,
                              const std::vector<Gap>& gaps, const Sizes* sizes, const services::Seen& seen,
                              const std::vector<design::RequirementId>& only) {
  std::vector<Demand> demands;
  const AfterParts after = afterParts(proof);
  for (const design::Requirement& r : design.brief) {
    if (!only.empty() && std::ranges::find(only, r.id) == only.end()) continue;
    if (r.kind == design::RequirementKind::see) {
      if (r.largest_gap_m) demands.push_back(gapDemand(r, gaps));
      if (r.seconds_in_view) demands.push_back(secondsDemand(design, r, proof));
      if (std::ranges::any_of(r.after_loss,
                              [](const auto& loss) { return loss.zones_lost_max.has_value(); }))
        demands.push_back(zonesLostDemand(design, r, after));
    }
    if (!sizes) continue;
    if (r.kind == design::RequirementKind::rule) demands.push_back(ruleDemand(r, *sizes, seen));
    if (r.kind == design::RequirementKind::money) demands.push_back(moneyDemand(r, *sizes));
    if (r.keep_days) demands.push_back(daysDemand(design, r, proof, *sizes));
    if (r.frames_per_s) demands.push_back(framesDemand(r, *sizes, seen));
  }
  return demands;
}

}  // namespace belvedere::requirements
