// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/failures_output.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/figures.h"
#include "cli/page.h"

namespace belvedere::cli {

using requirements::Failure;
using requirements::Fall;

namespace {

constexpr std::size_t kPartsMost = 40;  // said one by one; --json has them all

std::string percent(const proof::Bounds& share) {
  return fmt::format("{} to {} %", figureBeside(100 * share.low, 100, 1, Rounded::down),
                     figureBeside(100 * share.high, 100, 1, Rounded::up));
}

std::string hours(const services::Spread& spread) {
  const std::string low = fmt::format("{:.1f}", spread.low), high = fmt::format("{:.1f}", spread.high);
  return low == high ? low : low + " to " + high;
}

std::string partName(const services::Loss& loss) {
  if (loss.kind == services::PartKind::lamp) return printable(loss.part);
  return fmt::format("{} {}{}", word(loss.kind),
                     loss.kind == services::PartKind::disk ? "of " : "", printable(loss.part));
}

std::string takes(const services::Loss& loss) {
  std::vector<std::string> said;
  if (!loss.dark.empty())
    said.push_back(fmt::format("{} camera{} dark", loss.dark.size(), loss.dark.size() == 1 ? "" : "s"));
  if (!loss.cut.empty() && loss.kind != services::PartKind::housing)
    said.push_back(fmt::format("{} imager{} cut off", loss.cut.size(), loss.cut.size() == 1 ? "" : "s"));
  else if (loss.cut.empty() && !loss.unrecorded.empty())
    said.push_back(fmt::format("{} imagers unrecorded", loss.unrecorded.size()));
  if (!loss.carried.empty())
    said.push_back(fmt::format("{} go on by their other supply", loss.carried.size()));
  if (!loss.recordings.empty())
    said.push_back(fmt::format("{} recordings lost", loss.recordings.size()));
  return fmt::format("{}", fmt::join(said, ", "));
}

std::string fallText(const design::Design& design, const Fall& fall) {
  const std::string id = printable(fall.requirement.text);
  if (fall.what == Fall::What::rule) return id + ": no imager is left to run the rule";
  if (fall.what == Fall::What::recordings) return id + ": what was kept of it is lost";
  const design::Requirement* r = design::findRequirement(design, fall.requirement);
  std::string text = fmt::format("{} in {}: {} of {:g}, {} before", id, printable(fall.situation.text),
                                 percent(*fall.share_after), r ? 100 * r->share : 0,
                                 percent(*fall.share_before));
  if (fall.after == proof::Verdict::undecided) text += "; undecided then";
  if (fall.bridged_hours) text += fmt::format("; cards bridge {} h", hours(*fall.bridged_hours));
  return text;
}

std::vector<std::string> partsOf(const std::vector<const Failure*>& failures) {
  std::vector<std::string> names;
  for (const Failure* failure : failures) names.push_back(partName(failure->loss));
  return names;
}

}  // namespace

std::string failuresText(const design::Design& design, const requirements::Answer& answer,
                         const requirements::Failures& failures) {
  std::string text = heading("If a part fails");
  text += wrapped("one part at a time, worst first: what stands as designed and then no longer; shares "
                  "are proven bounds", 2, 2);
  std::size_t short_now = 0;
  for (const proof::RequirementProof& row : answer.proof.requirements)
    short_now += row.kind == design::RequirementKind::see && row.without.empty() &&
                 row.verdict == proof::Verdict::not_met;
  if (short_now > 0)
    text += wrapped(fmt::format("{} verdict{} of coverage {} not met as designed: no loss can cost them.",
                                short_now, short_now == 1 ? "" : "s", short_now == 1 ? "is" : "are"),
                    2, 2);
  std::vector<const Failure*> without;
  std::size_t said = 0;
  for (const Failure& failure : failures.ranked) {
    if (failure.falls.empty()) {
      without.push_back(&failure);
      continue;
    }
    if (++said > kPartsMost) continue;
    const std::string takes_text = takes(failure.loss);
    text += wrapped(fmt::format("{}: {} requirement{} fall{}{}{}", partName(failure.loss),
                                failure.requirements, failure.requirements == 1 ? "" : "s",
                                failure.requirements == 1 ? "s" : "",
                                failure.bridged > 0 ? fmt::format(", {} bridged by cards", failure.bridged)
                                                    : "",
                                takes_text.empty() ? "" : " (" + takes_text + ")"),
                    2, 4);
    for (const Fall& fall : failure.falls) text += wrapped(fallText(design, fall), 6, 8);
  }
  if (said > kPartsMost)
    text += wrapped(fmt::format("and {} more parts; --json has them all", said - kPartsMost), 2, 2);
  if (!without.empty()) {
    const std::vector<std::string> names = partsOf(without);
    constexpr std::size_t kNames = 24;
    text += wrapped(
        fmt::format("no requirement falls with: {}{}",
                    fmt::join(names.begin(),
                              names.begin() + static_cast<std::ptrdiff_t>(std::min(kNames, names.size())),
                              ", "),
                    names.size() > kNames ? fmt::format(" and {} more", names.size() - kNames) : ""),
        2, 4);
  }
  return text;
}

Json failuresJson(const requirements::Failures& failures) {
  const auto bounds = [](const proof::Bounds& b) {
    return Json{{"low", number(b.low)}, {"high", number(b.high)}};
  };
  const auto ids = [](const std::vector<design::HousingId>& list) {
    Json out = Json::array();
    for (const design::HousingId& id : list) out.push_back(id.text);
    return out;
  };
  Json list = Json::array();
  for (const Failure& failure : failures.ranked) {
    const services::Loss& loss = failure.loss;
    Json falls = Json::array();
    for (const Fall& fall : failure.falls) {
      Json one{{"requirement", fall.requirement.text}, {"what", requirements::word(fall.what)}};
      if (!fall.situation.empty()) one["situation"] = fall.situation.text;
      if (fall.share_after) {
        one["verdict"] = proof::word(fall.after);
        one["share_before"] = bounds(*fall.share_before);
        one["share"] = bounds(*fall.share_after);
      }
      if (fall.bridged_hours)
        one["bridged_hours"] = {{"low", number(fall.bridged_hours->low)},
                                {"typical", number(fall.bridged_hours->typical)},
                                {"high", number(fall.bridged_hours->high)}};
      falls.push_back(std::move(one));
    }
    Json recordings = Json::array();
    for (const design::AnyId& id : loss.recordings) recordings.push_back(id.text);
    list.push_back({{"part", loss.part},
                    {"kind", services::word(loss.kind)},
                    {"requirements", failure.requirements},
                    {"bridged", failure.bridged},
                    {"dark", ids(loss.dark)},
                    {"cut_off", loss.cut},
                    {"unrecorded", loss.unrecorded},
                    {"other_supply", ids(loss.carried)},
                    {"recordings", std::move(recordings)},
                    {"falls", std::move(falls)}});
  }
  return list;
}

}  // namespace belvedere::cli
