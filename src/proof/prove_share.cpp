// SPDX-License-Identifier: GPL-3.0-or-later
//
// The kernel: cells of a zone, judged whole, level by level. Cells of one level are judged in
// parallel and merged in order, so that the number of threads changes nothing.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "proof/cells.h"
#include "proof/prove.h"
#include "proof/range.h"

namespace belvedere::proof {
namespace {

// A piece of the zone under judgement.
struct Work {
  std::vector<Ring> pieces;        // convex, in the zone's turned frame
  double area_m2 = 0;
  std::vector<ViewState> views;    // those that are not yet known to serve nowhere here
};

struct Kernel {
  const Question& q;
  const ZoneFrame frame;

  // One facing's count of imagers over a cell: how many surely serve all of it, how many might
  // serve some of it.
  struct Count {
    int surely = 0, perhaps = 0;
  };

  // Judges a piece for every facing; views that serve nowhere under any are dropped.
  Over judge(Work& work, const Box2& box) const {
    const Cell cell = cellOf(frame, box);
    const Vec2 half = (box.high - box.low) * 0.5;
    const double side = std::max(half.x, half.y) * 2, band = q.high_m - q.low_m;
    const int slabs = side >= band ? 1 : side >= band / 2 ? 2 : side >= band / 4 ? 4 : 8;
    const std::size_t facings = q.every_facing ? q.facings.size() : 1;
    std::vector<Count> counts(facings);
    std::vector<ViewState> kept;
    for (std::size_t i = 0; i < work.views.size();) {
      // Views of one imager adjoin: the imager serves where any of them does.
      const int imager = q.imager_of[work.views[i].view];
      std::vector<Over> best(facings, Over::none);
      for (; i < work.views.size() && q.imager_of[work.views[i].view] == imager; ++i) {
        bool anywhere = false;
        for (std::size_t f = 0; f < facings; ++f) {
          const Over over = judgeView(cell, work.views[i], f, slabs);
          anywhere = anywhere || over != Over::none;
          best[f] = std::max(best[f], over);
        }
        if (anywhere) kept.push_back(std::move(work.views[i]));
      }
      bool enough = true;
      for (std::size_t f = 0; f < facings; ++f) {
        if (best[f] == Over::all) ++counts[f].surely;
        if (best[f] != Over::none) ++counts[f].perhaps;
        enough = enough && counts[f].surely >= q.imagers_needed;
      }
      if (enough) return Over::all;
    }
    work.views = std::move(kept);
    return std::all_of(counts.begin(), counts.end(),
                       [&](const Count& c) { return c.perhaps >= q.imagers_needed; })
               ? Over::mixed : Over::none;
  }

  Over judgeView(const Cell& cell, ViewState& state, std::size_t facing, int slabs) const {
    if (q.facings.empty()) return judgeCell(q, cell, state, -1, slabs);
    if (q.every_facing) return judgeCell(q, cell, state, static_cast<int>(facing), slabs);
    Over best = Over::none;
    for (std::size_t f = 0; f < q.facings.size() && best != Over::all; ++f)
      best = std::max(best, judgeCell(q, cell, state, static_cast<int>(f), slabs));
    return best;
  }
};

struct Outcome {
  Over over = Over::mixed;
  bool finest = false;             // undecided and too small to split
  double side_m = 0;
  std::vector<Work> children;
};

Outcome judgeAndSplit(const Kernel& kernel, Work& work, double finest_m) {
  Outcome outcome;
  const Box2 box = boundsOf(work.pieces);
  const Vec2 size = box.high - box.low;
  outcome.side_m = std::max(size.x, size.y);
  outcome.over = kernel.judge(work, box);
  if (outcome.over != Over::mixed) return outcome;
  if (outcome.side_m <= finest_m) {
    outcome.finest = true;
    return outcome;
  }
  for (auto& part : split(work.pieces, box)) {
    Work child;
    child.area_m2 = areaOf(part);
    child.pieces = std::move(part);
    child.views = work.views;
    outcome.children.push_back(std::move(child));
  }
  return outcome;
}

Verdict verdictOf(const Bounds& share, double asked) {
  constexpr double kRounding = 1e-9;  // what adding up areas may lose
  if (share.low >= asked - kRounding) return Verdict::met;
  return share.high < asked - kRounding ? Verdict::not_met : Verdict::undecided;
}

}  // namespace

ShareProof proveShare(const Question& q, double asked, const ProveOptions& options,
                      const Progress& progress) {
  ShareProof proof;
  const Kernel kernel{q, zoneFrame(q.region)};
  std::vector<Work> level;
  {
    Work whole;
    whole.pieces = convexPiecesIn(kernel.frame, q.region);
    whole.area_m2 = areaOf(whole.pieces);
    for (const std::uint32_t view : viewsInRange(q)) whole.views.push_back({view, false, false, {}});
    level.push_back(std::move(whole));
  }
  const double total = level.front().area_m2;
  if (!(total > 0)) return proof;

  double served = 0, not_served = 0, finest = 0;  // m2
  proof.finest_m = 1e300;
  const auto bounds = [&] {
    proof.share = {std::clamp(served / total, 0.0, 1.0), std::clamp(1 - not_served / total, 0.0, 1.0)};
    proof.verdict = verdictOf(proof.share, asked);
  };
  // Done when the verdict stands and the bounds are near, or nothing is left to split.
  const auto done = [&] {
    bounds();
    return proof.verdict != Verdict::undecided &&
           proof.share.high - proof.share.low <= options.width;
  };
  constexpr std::size_t kAtOnce = 512;  // cells judged between two looks at the bounds
  std::vector<Outcome> outcomes;
  while (!level.empty()) {
    // Largest first: they settle most.
    std::stable_sort(level.begin(), level.end(),
                     [](const Work& a, const Work& b) { return a.area_m2 > b.area_m2; });
    std::vector<Work> next;
    bool stop = false;
    for (std::size_t from = 0; from < level.size() && !stop; from += kAtOnce) {
      progress.throwIfCancelled();
      const std::size_t count = std::min(kAtOnce, level.size() - from);
      outcomes.assign(count, {});
      tbb::parallel_for(std::size_t{0}, count, [&](std::size_t i) {
        if (progress.cancel.load(std::memory_order_relaxed)) return;
        outcomes[i] = judgeAndSplit(kernel, level[from + i], options.finest_m);
      });
      progress.throwIfCancelled();
      for (std::size_t i = 0; i < count; ++i) {
        Outcome& outcome = outcomes[i];
        const double m2 = level[from + i].area_m2;
        proof.finest_m = std::min(proof.finest_m, outcome.side_m);
        if (outcome.over == Over::all) served += m2;
        if (outcome.over == Over::none) not_served += m2;
        if (outcome.finest) finest += m2;
        for (Work& child : outcome.children) next.push_back(std::move(child));
      }
      proof.boxes += count;
      stop = done() || proof.boxes >= options.boxes_most;
      progress.say((served + not_served + finest) / total, q.requirement->id.text);
    }
    if (stop) break;
    level = std::move(next);
  }
  bounds();
  return proof;
}

}  // namespace belvedere::proof
