// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/prove.h"

#include <fmt/format.h>
#include <tbb/global_control.h>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <set>

#include "design/task_table.h"
#include "proof/blind.h"
#include "proof/findings.h"
#include "proof/withhold.h"
#include "scene/presence.h"

namespace belvedere::proof {
namespace {

// Spots for reasons and contributions: this far apart, and at most this many in a zone.
constexpr double kSpotCellM = 0.1;
constexpr std::size_t kSpotsMost = 4000;
constexpr double kDensestCloseness = 0.01;
constexpr double kFinestOfSide = 0.001;  // of the side of a square as large as the zone

struct Runner {
  const design::Design& design;
  const std::filesystem::path& folder;
  const ProveOptions& options;
  const Progress& progress;
  // Scenes, shared by situations with the same solids.
  std::vector<std::pair<design::Situation, std::shared_ptr<const Place>>> places;

  std::shared_ptr<const Place> placeOf(const design::Situation& situation) {
    for (const auto& [known, place] : places)
      if (scene::sameSolids(design, known, situation)) return place;
    places.emplace_back(situation, makePlace(design, situation, folder));
    return places.back().second;
  }

  RequirementProof see(const Question& q, double asked) {
    RequirementProof proof = begin(q);
    proof.asked = asked;
    // A doormat needs finer cells than a hall for the same width of its bounds.
    ProveOptions sized = options;
    sized.finest_m = std::min(options.finest_m, kFinestOfSide * std::sqrt(q.region_m2));
    const ShareProof share = proveShare(q, asked, sized, progress);
    proof.share = share.share;
    proof.verdict = share.verdict;
    proof.finest_m = share.finest_m;
    proof.boxes = share.boxes;
    if (options.spots) summariseSpots(q, kSpotCellM, kSpotsMost, proof, progress);
    return proof;
  }

  RequirementProof withhold(const Question& q) {
    RequirementProof proof = begin(q);
    if (!(q.region_m2 > 0)) {  // nothing to withhold, and nothing kept: a finding says so
      proof.densest_px_per_m = Bounds{};
      return proof;
    }
    const Densest most = densest(q, kDensestCloseness, progress);
    proof.densest_px_per_m = most.px_per_m;
    proof.densest_imager = most.imager;
    proof.densest_at = most.at;
    proof.boxes = most.boxes;
    proof.verdict = most.px_per_m.high <= q.needed_px_per_m  ? Verdict::met
                    : most.px_per_m.low > q.needed_px_per_m ? Verdict::not_met
                                                            : Verdict::undecided;
    if (proof.verdict == Verdict::undecided)
      proof.undecided_because =
          most.ended_at_most
              ? fmt::format("the search ended at its most boxes, {}", most.boxes)
              : "what was reached and what is proven stay apart, however finely the zone is cut";
    return proof;
  }

  RequirementProof begin(const Question& q) const {
    RequirementProof proof;
    proof.requirement = q.requirement->id;
    proof.situation = q.situation.id;
    proof.kind = q.requirement->kind;
    proof.needed_px_per_m = q.needed_px_per_m;
    proof.zone_m2 = q.region_m2;
    std::set<std::string> streams;
    for (const design::PosedImager& v : q.views)
      if (!v.stream.empty()) streams.insert(v.stream);
    proof.judged_on_streams.assign(streams.begin(), streams.end());
    return proof;
  }

  // The requirement again with a part taken away: each housing by turns for "any_housing".
  void losses(const design::Requirement& requirement, const design::Situation& situation,
              std::vector<RequirementProof>& out) {
    for (const design::AfterLoss& loss : requirement.after_loss) {
      design::Requirement still = requirement;
      if (!loss.still_task.empty()) {
        still.task = loss.still_task;
        still.px_per_m.reset();
      }
      const double asked = loss.still_share.value_or(requirement.share);
      for (const design::Housing& housing : design.housings) {
        if (housing.life == design::Life::removed) continue;
        if (loss.of.text != "any_housing" && loss.of.text != housing.id.text) continue;
        const Question q =
            makeQuestion(design, still, situation, placeOf(situation), {{housing.id}});
        RequirementProof proof = see(q, asked);
        proof.without = housing.id.text;
        out.push_back(std::move(proof));
      }
    }
  }
};

bool wanted(const ProveOptions& options, const design::RequirementId& id) {
  return options.only.empty() ||
         std::find(options.only.begin(), options.only.end(), id) != options.only.end();
}

// Heights of targets that the brief names, for blind zones: the low end of each band (the steepest).
std::vector<double> targetHeights(const design::Design& design) {
  std::set<double> heights;
  for (const design::Requirement& r : design.brief)
    if (r.kind == design::RequirementKind::see) heights.insert(design::bandOf(r.target)[0]);
  if (heights.empty()) heights.insert(0.2);
  return {heights.begin(), heights.end()};
}

}  // namespace

Proof prove(const design::Design& design, const std::filesystem::path& folder,
            const ProveOptions& options, const Progress& progress) {
  const auto start = std::chrono::steady_clock::now();
  std::optional<tbb::global_control> threads;
  if (options.threads > 0)
    threads.emplace(tbb::global_control::max_allowed_parallelism,
                    static_cast<std::size_t>(options.threads));
  Proof proof;
  if (const auto scale = design::taskScale(design.task_table)) proof.edition = scale->title;
  Runner runner{design, folder, options, progress, {}};
  for (const design::Requirement& requirement : design.brief) {
    if (!wanted(options, requirement.id)) continue;
    const bool see = requirement.kind == design::RequirementKind::see;
    if (!see && requirement.kind != design::RequirementKind::withhold) continue;
    for (const design::Situation& situation : design::situationsOf(design, requirement)) {
      if (!scene::Presence(design, situation).holds(requirement.zone.text)) continue;
      const Question q =
          makeQuestion(design, requirement, situation, runner.placeOf(situation));
      proof.requirements.push_back(see ? runner.see(q, requirement.share) : runner.withhold(q));
      if (see) runner.losses(requirement, situation, proof.requirements);
    }
  }
  if (options.blind_zones && options.only.empty()) {
    const design::Situation situation = design::situationsOf(design).front();
    const std::vector<double> heights = targetHeights(design);
    std::vector<const design::Housing*> housings;
    for (const design::Housing& housing : design.housings)
      if (housing.life != design::Life::removed) housings.push_back(&housing);
    // Of a large site nobody reads the zone of each imager, and they cost as much as all the rest.
    constexpr std::size_t kFewHousings = 50;
    proof.blind_zones = blindZones(
        design, housings, situation, heights,
        housings.size() <= kFewHousings ? BlindOf::each_imager_too : BlindOf::housings, progress);
    std::vector<std::vector<RingAt>> rings(housings.size());
    tbb::parallel_for(std::size_t{0}, housings.size(), [&](std::size_t i) {
      if (progress.cancel.load(std::memory_order_relaxed) || housings[i]->imagers.size() < 2) return;
      rings[i] = ringOf(design, *housings[i], {0, 10, 20, 30, 40, 50, 60});
    });
    progress.throwIfCancelled();
    for (auto& of_housing : rings)
      std::move(of_housing.begin(), of_housing.end(), std::back_inserter(proof.rings));
  }
  proof.findings = findingsOf(design, proof, options.only);
  proof.seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return proof;
}

}  // namespace belvedere::proof
