// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/prove.h"

#include <fmt/format.h>
#include <tbb/global_control.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <exception>
#include <map>
#include <set>

#include "design/task_table.h"
#include "proof/blind.h"
#include "proof/findings.h"
#include "proof/light_findings.h"
#include "proof/part_loss.h"
#include "proof/placing.h"
#include "proof/question.h"
#include "proof/range.h"
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
  std::span<const PartLoss> devices;
  const Progress& progress;
  // Scenes, shared by situations with the same solids.
  std::vector<std::pair<design::Situation, std::shared_ptr<const Place>>> places;
  // Light, of each situation in which something must be seen.
  struct Lit {
    design::Situation situation;
    std::size_t place = 0;
    std::shared_ptr<const Lighting> lighting;
  };
  std::vector<Lit> lightings;
  // What becomes a row of the proof, in its order. All are known before any is proven, so that they
  // can be proven side by side.
  struct Job {
    const design::Requirement* requirement = nullptr;
    design::Situation situation;
    std::size_t place = 0;
    std::size_t lighting = 0;                     // of kind see
    const design::AfterLoss* loss = nullptr;      // with `without`: the requirement after a loss
    std::optional<PartLoss> without;
  };
  std::vector<Job> jobs;

  std::size_t placeOf(const design::Situation& situation) {
    for (std::size_t i = 0; i < places.size(); ++i)
      if (scene::sameSolids(design, places[i].first, situation)) return i;
    places.emplace_back(situation, nullptr);
    return places.size() - 1;
  }

  std::size_t lightingOf(const design::Situation& situation, std::size_t place) {
    for (std::size_t i = 0; i < lightings.size(); ++i)
      if (lightings[i].situation == situation) return i;
    lightings.push_back({situation, place, nullptr});
    return lightings.size() - 1;
  }

  // Calls with 0 to count - 1, side by side. The first exception, in order, is passed on.
  template <class Fn>
  void each(std::size_t count, Fn fn) const {
    std::vector<std::exception_ptr> thrown(count);
    tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count, 1), [&](const auto& range) {
      for (std::size_t i = range.begin(); i < range.end(); ++i) {
        if (progress.cancel.load(std::memory_order_relaxed)) return;
        try {
          // A thread that waits inside a job helps that job alone: jobs do not pile up.
          tbb::this_task_arena::isolate([&] { fn(i); });
        } catch (...) {
          thrown[i] = std::current_exception();
        }
      }
    }, tbb::simple_partitioner());
    progress.throwIfCancelled();
    for (const std::exception_ptr& e : thrown)
      if (e) std::rethrow_exception(e);
  }

  // What each job says adds to the progress of all.
  std::vector<RequirementProof> rows(const Progress& all) {
    each(places.size(), [&](std::size_t i) {
      places[i].second = makePlace(design, places[i].first, folder);
    });
    each(lightings.size(), [&](std::size_t i) {
      const Place& place = *places[lightings[i].place].second;
      lightings[i].lighting = makeLighting(design, lightings[i].situation, place, folder);
    });
    std::vector<RequirementProof> proven(jobs.size());
    std::vector<double> done(jobs.size());
    double sum = 0;
    each(jobs.size(), [&](std::size_t i) {
      const Progress own(all, [&, i](double share, std::string_view what) {
        sum += std::max(0.0, share - done[i]);
        done[i] = std::max(done[i], share);
        all.say(sum / static_cast<double>(jobs.size()), what);
      });
      proven[i] = prove(jobs[i], own);
      own.say(1, jobs[i].requirement->id.text);
    });
    return proven;
  }

  RequirementProof prove(const Job& job, const Progress& own) const {
    const std::shared_ptr<const Place>& place = places[job.place].second;
    if (!job.without) {
      if (job.requirement->kind == design::RequirementKind::withhold)
        return withhold(makeQuestion(design, *job.requirement, job.situation, place), own);
      return see(makeQuestion(design, *job.requirement, job.situation, place, lightings[job.lighting].lighting),
                 job.requirement->share, own);
    }
    design::Requirement still = *job.requirement;
    if (!job.loss->still_task.empty()) {
      still.task = job.loss->still_task;
      still.px_per_m.reset();
    }
    const Question q = questionAfter(
        design, makeQuestion(design, still, job.situation, place, lightings[job.lighting].lighting), *job.without);
    RequirementProof proof = see(q, job.loss->still_share.value_or(job.requirement->share), own);
    proof.without = job.without->part;
    proof.settled.reset();  // losses are asked one at a time
    return proof;
  }

  RequirementProof see(const Question& q, double asked, const Progress& own) const {
    RequirementProof proof = begin(q);
    proof.asked = asked;
    // With those alone who could serve it is no other question, and a smaller one to keep.
    const auto near = options.keep_settled ? std::make_shared<const Question>(nearQuestion(q)) : nullptr;
    const ShareProof share = proveShare(near ? *near : q, asked, sizedFor(q, options), own);
    if (share.settled) share.settled->question = near;
    proof.share = share.share;
    proof.verdict = share.verdict;
    proof.finest_m = share.finest_m;
    proof.boxes = share.boxes;
    proof.settled = share.settled;
    if (options.spots) summariseSpots(q, kSpotCellM, kSpotsMost, proof, own);
    return proof;
  }

  RequirementProof withhold(const Question& q, const Progress& own) const {
    RequirementProof proof = begin(q);
    if (!(q.region_m2 > 0)) {  // nothing to withhold, and nothing kept: a finding says so
      proof.densest_px_per_m = Bounds{};
      return proof;
    }
    const Densest most = densest(q, kDensestCloseness, own);
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

  // The requirement again with a part taken away: each housing by turns for "any_housing", or what
  // a device takes with it.
  void addLosses(const Job& whole) {
    const auto add = [&](const design::AfterLoss& loss, PartLoss without) {
      Job job = whole;
      job.loss = &loss;
      job.without = std::move(without);
      jobs.push_back(std::move(job));
    };
    for (const design::AfterLoss& loss : whole.requirement->after_loss) {
      for (const design::Housing& housing : design.housings)
        if (housing.life != design::Life::removed &&
            (loss.of.text == "any_housing" || loss.of.text == housing.id.text)) {
          PartLoss without;
          without.part = housing.id.text;
          without.dark = {housing.id};
          add(loss, std::move(without));
        }
      for (const PartLoss& device : devices)
        if (device.part == loss.of.text) add(loss, device);
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
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see) continue;
    // Heights that count from a counter or a platform are none above the floor.
    const design::Zone* zone = design::findZone(design, r.zone);
    if (!zone || (zone->surface.empty() && zone->base_m == 0))
      heights.insert(design::bandOf(r.target)[0]);
  }
  if (heights.empty()) heights.insert(0.2);
  return {heights.begin(), heights.end()};
}

}  // namespace

ProveOptions sizedFor(const Question& question, ProveOptions options) {
  options.finest_m = std::min(options.finest_m, kFinestOfSide * std::sqrt(question.region_m2));
  return options;
}

Proof prove(const design::Design& design, const std::filesystem::path& folder,
            const ProveOptions& options, const Progress& progress) {
  return proveWithLosses(design, folder, options, {}, progress);
}

Proof proveWithLosses(const design::Design& design, const std::filesystem::path& folder,
                      const ProveOptions& options, std::span<const PartLoss> devices,
                      const Progress& progress) {
  const auto start = std::chrono::steady_clock::now();
  std::optional<tbb::global_control> threads;
  if (options.threads > 0)
    threads.emplace(tbb::global_control::max_allowed_parallelism,
                    static_cast<std::size_t>(options.threads));
  Proof proof;
  if (const auto scale = design::taskScale(design.task_table)) proof.edition = scale->title;
  Runner runner{design, folder, options, devices, progress, {}, {}, {}};
  for (const design::Requirement& requirement : design.brief) {
    if (!wanted(options, requirement.id)) continue;
    const bool see = requirement.kind == design::RequirementKind::see;
    if (!see && requirement.kind != design::RequirementKind::withhold) continue;
    for (const design::Situation& situation : design::situationsOf(design, requirement)) {
      if (!scene::Presence(design, situation).holds(requirement.zone.text)) continue;
      Runner::Job job{&requirement, situation, runner.placeOf(situation), 0, nullptr, {}};
      if (see) job.lighting = runner.lightingOf(situation, job.place);
      runner.jobs.push_back(job);
      if (see) runner.addLosses(job);
    }
  }
  const bool blind = options.blind_zones && options.only.empty();
  const std::size_t steps = runner.jobs.size() + (blind ? 1 : 0);
  if (!runner.jobs.empty())
    proof.requirements = runner.rows(partOf(
        progress, 0.0, static_cast<double>(runner.jobs.size()) / static_cast<double>(steps)));
  if (blind) {
    partOf(progress, steps - 1, steps).say(0, "blind zones");
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
  const std::vector<Finding> placing = placingFindings(design, folder);
  proof.findings.insert(proof.findings.end(), placing.begin(), placing.end());
  const std::vector<Finding> light = lightFindings(design, folder, progress);
  proof.findings.insert(proof.findings.end(), light.begin(), light.end());
  // Of what was not asked nothing is said.
  if (!options.only.empty())
    std::erase_if(proof.findings, [&](const Finding& finding) {
      return std::any_of(design.brief.begin(), design.brief.end(), [&](const design::Requirement& r) {
        return !wanted(options, r.id) &&
               std::find(finding.about.begin(), finding.about.end(), r.id.text) != finding.about.end();
      });
    });
  proof.seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return proof;
}

}  // namespace belvedere::proof
