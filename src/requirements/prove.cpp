// SPDX-License-Identifier: GPL-3.0-or-later
#include "requirements/prove.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/check.h"
#include "base/figures.h"
#include "proof/gap.h"
#include "proof/rules.h"
#include "requirements/demands.h"
#include "requirements/failures.h"
#include "scene/presence.h"

namespace belvedere::requirements {

const char* word(Asks asks) {
  static constexpr const char* words[] = {"rule", "keep_days", "frames_per_s", "money",
                                          "largest_gap_m", "seconds_in_view", "zones_lost_max"};
  return words[static_cast<std::size_t>(asks)];
}

namespace {

bool wanted(const proof::ProveOptions& options, const design::RequirementId& id) {
  return options.only.empty() || std::ranges::find(options.only, id) != options.only.end();
}

// The devices whose loss the brief asks about.
std::vector<std::string> devicesLost(const design::Design& design,
                                     const proof::ProveOptions& options) {
  std::vector<std::string> ids;
  for (const design::Requirement& r : design.brief)
    for (const design::AfterLoss& loss : r.after_loss)
      if (wanted(options, r.id) && loss.of.text != "any_housing" &&
          !design::findHousing(design, {loss.of.text}))
        ids.push_back(loss.of.text);
  return ids;
}

// The longest gaps of the rows as the design stands, where the brief asks for them.
std::vector<Gap> gapsOf(const design::Design& design, const std::filesystem::path& folder,
                        const proof::Proof& proof, const proof::ProveOptions& options,
                        const Progress& progress) {
  std::vector<Gap> gaps;
  std::vector<std::pair<design::Situation, std::shared_ptr<const proof::Place>>> places;
  for (const proof::RequirementProof& row : proof.requirements) {
    const design::Requirement* r = design::findRequirement(design, row.requirement);
    if (!r || !r->largest_gap_m || r->kind != design::RequirementKind::see || !row.without.empty())
      continue;
    const std::vector<design::Situation> situations = design::situationsOf(design, *r);
    const auto situation = std::ranges::find(situations, row.situation, &design::Situation::id);
    BELVEDERE_CHECK(situation != situations.end(), "a row's situation is one of its requirement's");
    auto place = std::ranges::find_if(
        places, [&](const auto& known) { return scene::sameSolids(design, known.first, *situation); });
    if (place == places.end())
      place = places.insert(place, {*situation, proof::makePlace(design, *situation, folder)});
    const proof::Question question = proof::makeQuestion(design, *r, *situation, place->second);
    gaps.push_back({row.requirement, row.situation,
                    proof::proveGap(question, *r->largest_gap_m, proof::sizedFor(question, options),
                                    progress)});
  }
  return gaps;
}

}  // namespace

std::string viewText(const proof::RuleView& view, double share_asked, bool briefly) {
  const double asked = 100 * share_asked;
  std::string text = fmt::format("{} sees {} % of it well enough where {:g} % is asked for", view.imager,
                                 figureBeside(100 * view.share.low, asked, 1, Rounded::down), asked);
  const std::size_t most = briefly ? 1 : view.reasons.size();
  for (std::size_t i = 0; i < std::min(most, view.reasons.size()); ++i)
    text += fmt::format("{}{} {:.0f} %", i == 0 ? ": " : ", ", proof::word(view.reasons[i].reason),
                        100 * view.reasons[i].share);
  return text;
}

std::vector<services::ServedBy> servedBy(const proof::Proof& proof) {
  std::vector<services::ServedBy> served;
  for (const proof::RequirementProof& row : proof.requirements) {
    if (row.kind != design::RequirementKind::see || !row.without.empty()) continue;
    auto at = std::ranges::find(served, row.requirement, &services::ServedBy::requirement);
    if (at == served.end())
      at = served.insert(at, services::ServedBy{row.requirement, {}});
    for (const proof::Contribution& one : row.imagers)
      if (std::ranges::find(at->imagers, one.imager) == at->imagers.end())
        at->imagers.push_back(one.imager);
  }
  return served;
}

std::vector<services::RuleDemand> ruleDemands(const design::Design& design,
                                              const std::filesystem::path& folder,
                                              const proof::ProveOptions& options,
                                              const Progress& progress) {
  std::vector<services::RuleDemand> demands;
  for (const proof::RuleSight& sight : proof::ruleSights(design, folder, options, progress))
    demands.push_back({sight.requirement, sight.imagers_asked, sight.imagers,
                       sight.others.empty()
                           ? std::string()
                           : viewText(sight.others.front(), sight.share_asked, true)});
  return demands;
}

Answer prove(const design::Design& design, const std::filesystem::path& folder,
             const proof::ProveOptions& options, const Progress& progress) {
  Answer answer;
  const bool asks = std::ranges::any_of(design.brief, [&](const design::Requirement& r) {
    return wanted(options, r.id) && asksOfServices(r);
  });
  const std::vector<std::string> lost = devicesLost(design, options);
  std::vector<proof::PartLoss> devices;
  if (asks || !lost.empty()) answer.sizes = services::sizesOf(design, {}, progress);
  if (!lost.empty())
    for (const services::Loss& loss : services::lossesOf(design, *answer.sizes))
      if (std::ranges::find(lost, loss.part) != lost.end() &&
          std::ranges::find(devices, loss.part, &proof::PartLoss::part) == devices.end())
        devices.push_back(partLossOf(loss));
  answer.proof = proof::proveWithLosses(design, folder, options, devices, progress);
  answer.gaps = gapsOf(design, folder, answer.proof, options, progress);
  if (!asks) {
    answer.demands = demandsOf(design, answer.proof, answer.gaps, nullptr, {}, options.only);
    return answer;
  }
  if (options.spots) answer.seen.served = servedBy(answer.proof);
  answer.seen.rules = ruleDemands(design, folder, options, progress);
  answer.sizes = services::sizesOf(design, answer.seen, progress);
  answer.demands =
      demandsOf(design, answer.proof, answer.gaps, &*answer.sizes, answer.seen, options.only);
  return answer;
}

Answer size(const design::Design& design, const std::filesystem::path& folder, bool coverage,
            const proof::ProveOptions& options, const Progress& progress) {
  Answer answer;
  if (coverage) answer = requirements::prove(design, folder, options, progress);
  if (coverage && answer.sizes && !answer.seen.served.empty()) return answer;
  if (coverage) answer.seen.served = servedBy(answer.proof);
  answer.seen.rules = ruleDemands(design, folder, options, progress);
  answer.sizes = services::sizesOf(design, answer.seen, progress);
  return answer;
}

bool allMet(const design::Design& design, const Answer& answer) {
  return std::ranges::all_of(answer.proof.requirements,
                             [&](const proof::RequirementProof& row) {
                               return row.verdict == proof::Verdict::met || proof::mayFall(design, row);
                             }) &&
         std::ranges::all_of(answer.demands,
                             [](const Demand& d) { return d.verdict == proof::Verdict::met; }) &&
         std::ranges::none_of(answer.proof.findings, [](const Finding& finding) {
           return finding.severity == Severity::shortfall;
         });
}

}  // namespace belvedere::requirements
