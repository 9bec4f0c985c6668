// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/gap.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace belvedere::proof {
namespace {

constexpr double kRoundingM = 1e-9;         // what neighbours' corners may differ by
constexpr double kSliverM = 1e-6;           // of parts that are too thin to be kept
constexpr std::size_t kPiecesMost = 200'000;

// Two convex rings that do not overlap touch where a corner of one lies on the other.
bool touch(const Ring& a, const Ring& b, double within_m) {
  const auto near = [&](const Ring& ring, const Ring& corners) {
    return std::ranges::any_of(corners, [&](Vec2 p) { return distanceToOutline(ring, p) <= within_m; });
  };
  return near(a, b) || near(b, a);
}

// Rings that hang together: the number of each one's patch.
std::vector<std::size_t> patchesOf(const std::vector<const Ring*>& rings, double within_m) {
  std::vector<Box2> boxes(rings.size());
  Box2 all;
  for (std::size_t i = 0; i < rings.size(); ++i)
    for (const Vec2 p : *rings[i]) {
      boxes[i].add(p);
      all.add(p);
    }
  const bool along_y = !all.empty() && all.high.y - all.low.y > all.high.x - all.low.x;
  const auto low = [&](std::size_t i) { return along_y ? boxes[i].low.y : boxes[i].low.x; };
  const auto high = [&](std::size_t i) { return along_y ? boxes[i].high.y : boxes[i].high.x; };
  const auto apartAcross = [&](std::size_t i, std::size_t j) {
    return along_y ? boxes[i].low.x > boxes[j].high.x + within_m ||
                         boxes[j].low.x > boxes[i].high.x + within_m
                   : boxes[i].low.y > boxes[j].high.y + within_m ||
                         boxes[j].low.y > boxes[i].high.y + within_m;
  };
  std::vector<std::size_t> parent(rings.size()), order(rings.size());
  std::iota(parent.begin(), parent.end(), std::size_t{0});
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto root = [&](std::size_t i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
  };
  std::ranges::sort(order, {}, [&](std::size_t i) { return std::pair{low(i), i}; });
  for (std::size_t k = 0; k < order.size(); ++k)
    for (std::size_t m = k + 1; m < order.size(); ++m) {
      const std::size_t i = order[k], j = order[m];
      if (low(j) > high(i) + within_m) break;
      const std::size_t ri = root(i), rj = root(j);
      if (ri == rj || apartAcross(i, j) || !touch(*rings[i], *rings[j], within_m)) continue;
      parent[std::max(ri, rj)] = std::min(ri, rj);
    }
  for (std::size_t i = 0; i < rings.size(); ++i) parent[i] = root(i);
  return parent;
}

// Of each patch, by its number, how far apart its farthest places are; 0 for what is no number.
std::vector<double> extentsOf(const std::vector<const Ring*>& rings,
                              const std::vector<std::size_t>& patch) {
  std::vector<std::vector<Vec2>> corners(rings.size());
  for (std::size_t i = 0; i < rings.size(); ++i)
    corners[patch[i]].insert(corners[patch[i]].end(), rings[i]->begin(), rings[i]->end());
  std::vector<double> extents(rings.size());
  for (std::size_t i = 0; i < rings.size(); ++i) {
    if (corners[i].empty()) continue;
    const std::vector<Vec2> hull = corners[i].size() > 3 ? convexHull(corners[i]) : corners[i];
    // What lies on one line has no hull.
    const std::vector<Vec2>& ends = hull.size() > 1 ? hull : corners[i];
    for (std::size_t a = 0; a < ends.size(); ++a)
      for (std::size_t b = a + 1; b < ends.size(); ++b)
        extents[i] = std::max(extents[i], norm(ends[a] - ends[b]));
  }
  return extents;
}

struct Gaps {
  std::vector<Piece> open;                 // to be judged
  std::vector<Ring> unserved, undecided;   // the latter as small as can be
  Bounds settled;                          // of patches that are surely no longer than allowed

  std::vector<const Ring*> rings(bool all) const {
    std::vector<const Ring*> out;
    for (const Ring& ring : unserved) out.push_back(&ring);
    if (!all) return out;
    for (const Ring& ring : undecided) out.push_back(&ring);
    for (const Piece& piece : open) out.push_back(&piece.ring);
    return out;
  }

  // The bounds as they are; patches that may be no longer than allowed are done with.
  Bounds settle(double most_m) {
    const auto longest = [](const std::vector<double>& extents) {
      return extents.empty() ? 0 : *std::ranges::max_element(extents);
    };
    const std::vector<const Ring*> sure = rings(false), perhaps = rings(true);
    const std::vector<double> sure_m = extentsOf(sure, patchesOf(sure, kRoundingM));
    const std::vector<std::size_t> patch = patchesOf(perhaps, kSliverM);
    const std::vector<double> perhaps_m = extentsOf(perhaps, patch);
    const Bounds now{std::max(settled.low, longest(sure_m)), std::max(settled.high, longest(perhaps_m))};
    // Cells only go: a patch that is short enough stays so.
    std::size_t i = 0;
    const auto isShort = [&](auto&) {
      const double extent_m = perhaps_m[patch[i++]];
      const bool is_short = extent_m <= most_m;
      if (is_short) settled.high = std::max(settled.high, extent_m);
      return is_short;
    };
    settled.low = now.low;
    std::erase_if(unserved, isShort);
    std::erase_if(undecided, isShort);
    std::erase_if(open, isShort);
    return now;
  }
};

}  // namespace

GapProof proveGap(const Question& q, double most_m, const ProveOptions& options,
                  const Progress& progress) {
  GapProof proof;
  Gaps gaps;
  gaps.open = piecesOf(q);
  while (true) {
    progress.throwIfCancelled();
    std::vector<JudgedPiece> judged(gaps.open.size());
    tbb::parallel_for(std::size_t{0}, judged.size(), [&](std::size_t i) {
      if (progress.cancel.load(std::memory_order_relaxed)) return;
      judged[i] = judgePiece(q, gaps.open[i], options.finest_m);
    });
    progress.throwIfCancelled();
    proof.pieces += judged.size();
    std::vector<Piece> next;
    for (std::size_t i = 0; i < judged.size(); ++i) {
      JudgedPiece& one = judged[i];
      if (one.over == Over::none) gaps.unserved.push_back(std::move(gaps.open[i].ring));
      else if (one.over == Over::mixed && one.parts.empty())
        gaps.undecided.push_back(std::move(gaps.open[i].ring));
      std::move(one.parts.begin(), one.parts.end(), std::back_inserter(next));
    }
    gaps.open = std::move(next);
    proof.extent_m = gaps.settle(most_m + kRoundingM);
    proof.verdict = proof.extent_m.high <= most_m + kRoundingM  ? Verdict::met
                    : proof.extent_m.low > most_m + kRoundingM ? Verdict::not_met
                                                               : Verdict::undecided;
    if (proof.verdict != Verdict::undecided || gaps.open.empty() || proof.pieces > kPiecesMost)
      return proof;
  }
}

}  // namespace belvedere::proof
