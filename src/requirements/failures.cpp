// SPDX-License-Identifier: GPL-3.0-or-later
#include "requirements/failures.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/check.h"
#include "requirements/prove.h"
#include "services/analytics.h"

namespace belvedere::requirements {

using proof::Verdict;

const char* word(Fall::What what) {
  static constexpr const char* words[] = {"coverage", "rule", "recordings"};
  return words[static_cast<std::size_t>(what)];
}

proof::PartLoss partLossOf(const services::Loss& loss) {
  proof::PartLoss out;
  out.part = loss.part;
  out.dark = loss.dark;
  out.unrecorded = loss.unrecorded;
  out.unviewed = loss.unviewed;
  out.cut = loss.cut;
  if (loss.kind == services::PartKind::lamp)
    out.lamp = proof::PartLoss::LampOut{loss.housing, loss.lamp_slot};
  return out;
}

namespace {

// The imagers of a requirement's row that a loss takes, by the proof's spots; all it takes where
// there are none.
std::vector<std::string> takenFrom(const proof::RequirementProof& row,
                                   const std::vector<std::string>& lost) {
  std::vector<std::string> taken;
  for (const std::string& imager : lost)
    if (row.imagers.empty() ||
        std::ranges::find(row.imagers, imager, &proof::Contribution::imager) != row.imagers.end())
      taken.push_back(imager);
  return taken;
}

void addCoverage(const design::Design& design, const Answer& answer,
                 const proof::ProveOptions& options, const Progress& progress,
                 std::vector<Failure>& failures) {
  std::vector<proof::PartLoss> losses;
  for (const Failure& failure : failures) losses.push_back(partLossOf(failure.loss));
  for (const proof::ShareAfter& after :
       proof::sharesAfter(design, answer.proof, losses, options, progress)) {
    const proof::RequirementProof& row = answer.proof.requirements[after.row];
    // What was not proven met can fall only to what is proven short.
    if (after.verdict == row.verdict || after.verdict == Verdict::met) continue;
    Failure& failure = failures[after.loss];
    Fall fall{Fall::What::coverage, row.requirement, row.situation, row.verdict, after.verdict,
              row.share, after.share, {}};
    const design::Requirement* r = design::findRequirement(design, row.requirement);
    BELVEDERE_CHECK(r != nullptr, "a row's requirement is one of the design's");
    if (r->judged_on == design::JudgedOn::recorded)
      fall.bridged_hours = services::bridgedHours(
          failure.loss, takenFrom(row, services::lostFor(failure.loss, r->judged_on)),
          answer.sizes->recording);
    failure.falls.push_back(std::move(fall));
  }
}

// Rules run in the cameras: what counts is whether anybody is reached.
class Rules {
 public:
  Rules(const design::Design& design, const std::filesystem::path& folder, const Answer& answer,
        const proof::ProveOptions& options)
      : design_(design), folder_(folder), answer_(answer), options_(options) {
    for (const design::Requirement& r : design.brief)
      if (r.kind == design::RequirementKind::rule)
        for (const design::Situation& s : design::situationsOf(design, r))
          if (burning_.emplace(s.id.text, std::set<std::string>()).second)
            for (std::string& lamp : proof::burningLamps(design, s, folder))
              burning_[s.id.text].insert(std::move(lamp));
  }

  void add(Failure& failure, const Progress& progress) const {
    if (answer_.seen.rules.empty()) return;
    const std::set<std::string> lost(failure.loss.cut.begin(), failure.loss.cut.end());
    std::vector<services::RuleDemand> demands = answer_.seen.rules;
    if (takesLamps(failure.loss))
      demands = ruleDemands(proof::withoutPart(design_, partLossOf(failure.loss)), folder_, options_,
                            progress);
    bool changed = takesLamps(failure.loss);
    for (services::RuleDemand& demand : demands)
      changed = std::erase_if(demand.candidates, [&](const std::string& imager) {
                  return lost.contains(imager);
                }) > 0 || changed;
    if (!changed) return;
    const services::RulePlan plan = services::assignRules(design_, demands);
    for (const design::RequirementId& id : plan.gives)
      if (std::ranges::find(answer_.sizes->rules.gives, id) == answer_.sizes->rules.gives.end()) {
        Fall fall;
        fall.what = Fall::What::rule;
        fall.requirement = id;
        failure.falls.push_back(std::move(fall));
      }
  }

 private:
  bool takesLamps(const services::Loss& loss) const {
    if (loss.kind != services::PartKind::lamp && loss.dark.empty()) return false;
    return std::ranges::any_of(burning_, [&](const auto& of_situation) {
      return std::ranges::any_of(of_situation.second, [&](const std::string& lamp) {
        if (loss.kind == services::PartKind::lamp) return lamp == loss.part;
        return std::ranges::any_of(loss.dark, [&](const design::HousingId& id) {
          return lamp.starts_with(id.text + " lamp ");
        });
      });
    });
  }

  const design::Design& design_;
  const std::filesystem::path& folder_;
  const Answer& answer_;
  const proof::ProveOptions& options_;
  std::map<std::string, std::set<std::string>> burning_;  // by situation: "C1 lamp 2"
};

// Requirements whose pictures were to be kept, and were kept there.
void addRecordings(const Answer& answer, Failure& failure) {
  if (failure.loss.recordings.empty()) return;
  std::set<std::string> streams;
  for (const services::Kept& kept : answer.sizes->recording.kept)
    if (std::ranges::find(failure.loss.recordings, kept.recording) != failure.loss.recordings.end())
      streams.insert(kept.stream.text);
  for (const services::Retention& retention : answer.sizes->recording.retention)
    if (std::ranges::any_of(retention.streams, [&](const design::StreamId& id) {
          return streams.contains(id.text);
        })) {
      Fall fall;
      fall.what = Fall::What::recordings;
      fall.requirement = retention.requirement;
      failure.falls.push_back(std::move(fall));
    }
}

void settle(const design::Design& design, Failure& failure) {
  const auto place = [&](const design::RequirementId& id) {
    return std::ranges::find(design.brief, id, &design::Requirement::id) - design.brief.begin();
  };
  std::ranges::stable_sort(failure.falls, {}, [&](const Fall& f) { return place(f.requirement); });
  std::map<std::string, bool> bridged;  // wholly, by requirement
  for (const Fall& fall : failure.falls) {
    auto [at, is_new] = bridged.try_emplace(fall.requirement.text, true);
    at->second = at->second && fall.bridged_hours.has_value();
  }
  failure.requirements = static_cast<int>(bridged.size());
  failure.bridged = static_cast<int>(
      std::ranges::count_if(bridged, [](const auto& one) { return one.second; }));
}

}  // namespace

Failures failuresOf(const design::Design& design, const std::filesystem::path& folder,
                    const Answer& answer, const proof::ProveOptions& options,
                    const Progress& progress) {
  BELVEDERE_CHECK(answer.sizes.has_value(), "failures are those of a design that was sized");
  Failures out;
  for (services::Loss& loss : services::lossesOf(design, *answer.sizes))
    out.ranked.push_back({std::move(loss), {}, 0, 0});
  addCoverage(design, answer, options, progress, out.ranked);
  const Rules rules(design, folder, answer, options);
  for (Failure& failure : out.ranked) {
    progress.throwIfCancelled();
    rules.add(failure, progress);
    addRecordings(answer, failure);
    settle(design, failure);
  }
  std::ranges::stable_sort(out.ranked, [](const Failure& a, const Failure& b) {
    const auto key = [](const Failure& f) {
      return std::array<std::size_t, 3>{static_cast<std::size_t>(f.requirements - f.bridged),
                                        static_cast<std::size_t>(f.requirements), f.loss.cut.size()};
    };
    return key(a) > key(b);
  });
  return out;
}

}  // namespace belvedere::requirements
