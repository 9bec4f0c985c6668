// SPDX-License-Identifier: GPL-3.0-or-later
//
// The kernel: cells of a zone, judged whole, the largest first, and split where undecided. Cells of
// one batch are judged in parallel and merged in order, so that the number of threads changes
// nothing.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "geometry/interval.h"
#include "proof/cells.h"
#include "proof/gap.h"
#include "proof/prove.h"
#include "proof/range.h"
#include "proof/sight.h"
#include "scene/sightline.h"

namespace belvedere::proof {
namespace {

// A piece of the zone under judgement.
struct Work {
  Ring ring;                       // convex, on the site
  double area_m2 = 0;
  std::vector<ViewState> views;    // those that are not yet known to serve nowhere here, the most
                                   // promising first, views of one imager together
  std::shared_ptr<light::Shades> shades;  // of the lights over it; until judged, over what it is a part of
  int depth = 0;
  std::uint64_t number = 0;        // in the order in which pieces arose
  std::vector<int> settled_by;     // where it is served all over and who settles it is kept: imagers
};

// A cut, who proposed it, and what that view has on either side.
struct ViewCut : Cut {
  std::uint32_t view = 0;
  Beside beside{};
};

struct Kernel {
  explicit Kernel(const Question& question, bool keeps = false) : q(question), keeps_settled(keeps) {
    // Of the views that could serve, does light decide anywhere?
    dark = std::any_of(q.conditions.begin(), q.conditions.end(), [](const Conditions& c) {
      return c.light && c.light->light->ambient_lux < *c.light->needed.lux;
    });
  }
  const Question& q;
  bool keeps_settled = false;
  bool dark = false;

  // One facing's count of imagers over a cell: how many surely serve all of it, how many might
  // serve some of it.
  struct Count {
    int surely = 0, perhaps = 0;
  };

  // To this depth, views are put in order again where the first has nothing to give.
  static constexpr int kOrderDepth = 2;
  // Every so many cuts all views are asked, in the dark.
  static constexpr int kAskAll = 2;

  // Most promising first, from view `from` on: those that have the middle of the cell in their
  // frame, densest first, and of these the first ones that see it before all others.
  void order(Work& work, const Cell& cell, std::size_t from) const {
    if (work.views.size() < from + 2) return;
    Vec2 plan;
    for (const Vec2 p : cell.corners) plan = plan + p / static_cast<double>(cell.corners.size());
    const Vec3 middle = withZ(plan, q.floor.at(plan) + 0.5 * (q.low_m + q.high_m));
    struct Group {
      std::size_t first, count;
      double promise;  // about the density squared; 0 out of frame
    };
    std::vector<Group> groups;
    for (std::size_t i = from; i < work.views.size(); ++i) {
      const std::uint32_t index = work.views[i].view;
      const design::PosedImager& view = q.views[index];
      const Vec3 sight = middle - view.lens_m;
      double promise = 0;
      if (framesPlace(view, middle))
        promise = view.pixels[0] * view.scale_x * view.pixels[1] * view.scale_y / dot(sight, sight);
      if (i > from && q.imager_of[work.views[i - 1].view] == q.imager_of[index]) {
        ++groups.back().count;
        groups.back().promise = std::max(groups.back().promise, promise);
      } else {
        groups.push_back({i, 1, promise});
      }
    }
    std::stable_sort(groups.begin(), groups.end(),
                     [](const Group& a, const Group& b) { return a.promise > b.promise; });
    auto placed = groups.begin();
    for (auto g = groups.begin(); g != groups.end() && g->promise > 0; ++g) {
      const Vec3& lens_m = q.views[work.views[g->first].view].lens_m;
      if (scene::blockerOf(q.place->scene, q.place->tree, lens_m, middle, q.blocking)) continue;
      std::rotate(placed, g, g + 1);
      if (++placed - groups.begin() >= q.imagers_needed) break;
    }
    std::vector<ViewState> ordered;
    ordered.reserve(work.views.size());
    for (const Group& g : groups)
      for (std::size_t i = g.first; i < g.first + g.count; ++i)
        ordered.push_back(std::move(work.views[i]));
    std::move(ordered.begin(), ordered.end(), work.views.begin() + static_cast<std::ptrdiff_t>(from));
  }

  // Judges a piece for every facing; views that serve nowhere under any are dropped. `last`: it
  // will not be split, so every view must be asked.
  Over judge(Work& work, const Cell& cell, bool last, std::optional<ViewCut>& cut) const {
    if (work.depth == 0) order(work, cell, 0);
    work.shades = std::make_shared<light::Shades>(
        work.shades ? light::Shades::partOf(*work.shades) : light::Shades{});
    const double side_m = 2 * std::max(norm(cell.half_x), norm(cell.half_y));
    const double band = q.high_m - q.low_m;
    const int slabs = side_m >= band ? 1 : side_m >= band / 2 ? 2 : side_m >= band / 4 ? 4 : 8;
    const Slab slab = slabOf(q.floor, cell, q.low_m, q.high_m);
    const std::size_t facings = q.every_facing ? q.facings.size() : 1;
    std::vector<Count> counts(facings);
    std::vector<ViewState> kept;
    int undecided = 0;
    bool first = true;
    for (std::size_t i = 0; i < work.views.size();) {
      if (!last && undecided >= q.imagers_needed && !(dark && work.depth % kAskAll == kAskAll - 1)) {
        // The rest wait: mostly the first serves all of some part, and they need never be asked. But where light ends
        // for one imager, which is dear to cut, another that looks the other way may have all it needs.
        for (; i < work.views.size(); ++i)
          if (!(work.depth == 0 || !cut) || mayServe(cell, slab, work.views[i], !cut))
            kept.push_back(std::move(work.views[i]));
        work.views = std::move(kept);
        return Over::mixed;
      }
      // Views of one imager adjoin: the imager serves where any of them does.
      const int imager = q.imager_of[work.views[i].view];
      std::vector<Over> best(facings, Over::none);
      for (; i < work.views.size() && q.imager_of[work.views[i].view] == imager; ++i) {
        bool anywhere = false;
        for (std::size_t f = 0; f < facings; ++f) {
          const Over over = judgeView(cell, slab, work.views[i], f, slabs, *work.shades, cut);
          anywhere = anywhere || over != Over::none;
          best[f] = std::max(best[f], over);
        }
        if (anywhere) kept.push_back(std::move(work.views[i]));
      }
      bool enough = true;
      if (keeps_settled && std::ranges::find(best, Over::all) != best.end())
        work.settled_by.push_back(imager);
      for (std::size_t f = 0; f < facings; ++f) {
        if (best[f] == Over::all) ++counts[f].surely;
        if (best[f] != Over::none) ++counts[f].perhaps;
        enough = enough && counts[f].surely >= q.imagers_needed;
      }
      if (enough) {
        if (keeps_settled) {
          std::move(work.views.begin() + static_cast<std::ptrdiff_t>(i), work.views.end(),
                    std::back_inserter(kept));
          work.views = std::move(kept);
        }
        return Over::all;
      }
      if (std::any_of(best.begin(), best.end(), [](Over o) { return o == Over::mixed; })) ++undecided;
      if (first && work.depth > 0 && work.depth <= kOrderDepth && kept.empty()) order(work, cell, i);
      first = false;
    }
    work.views = std::move(kept);
    return std::all_of(counts.begin(), counts.end(),
                       [&](const Count& c) { return c.perhaps >= q.imagers_needed; })
               ? Over::mixed : Over::none;
  }

  // Cheap looks at a large cell: what fails them need not be asked about its many parts.
  bool mayServe(const Cell& cell, const Slab& band, const ViewState& state, bool look) const {
    if (q.height_share < 1 || state.clear || state.bodies) return true;
    const design::PosedImager& view = q.views[state.view];
    const auto framed = frameByPlanes(view, band, true);
    if (framed && framed->over == Over::none) return false;
    return !look || !hiddenAtAGlance(q, view, cell, band);
  }

  // `cut`: the first that a view proposes is kept.
  Over judgeView(const Cell& cell, const Slab& band, ViewState& state, std::size_t facing,
                 int slabs, light::Shades& shades, std::optional<ViewCut>& cut) const {
    Over best = Over::none;
    const auto ask = [&](int which) {
      std::optional<Cut> proposed;
      Beside beside;
      best = std::max(best, judgeCell(q, cell, band, state, which, slabs, shades, proposed, beside));
      if (proposed && !cut) cut = ViewCut{*proposed, state.view, beside};
    };
    const std::optional<ViewCut> before = cut;
    if (q.facings.empty()) ask(-1);
    else if (q.every_facing) ask(static_cast<int>(facing));
    else
      for (std::size_t f = 0; f < q.facings.size() && best != Over::all; ++f) ask(static_cast<int>(f));
    if (best != Over::mixed) cut = before;
    return best;
  }
};

struct Outcome {
  Over over = Over::mixed;
  bool finest = false;             // undecided and too small to split
  double side_m = 0;               // of a square of the same area
  double slivers_m2 = 0;           // strips between parts that are too thin to ask about
  double served_m2 = 0, not_served_m2 = 0;  // parts that the cut settles
  std::vector<Work> children;
  std::vector<Work> settled;       // the parts of served_m2, where who settles what is kept
};

// Parts smaller than this share of a finest cell are left undecided without being asked about.
constexpr double kSliver = 0.02;

struct Part {
  Ring ring;
  Over over = Over::mixed;  // known of the view that proposed the cut
};

// Rings with more corners than kCornersMost are only halved, which takes corners away.
std::vector<Part> partsOf(const Cell& cell, const std::optional<ViewCut>& cut) {
  std::vector<Part> parts;
  const auto halve = [&](const Cell& whole) {
    for (Ring& ring : halves(whole)) parts.push_back({std::move(ring), Over::mixed});
  };
  if (cut && cell.corners.size() <= kCornersMost) {
    const bool settles = cut->beside.before != Over::mixed || cut->beside.beyond != Over::mixed;
    // Else of use only where the uncertain strip is thin beside the cell.
    constexpr double kThin = 0.5;
    Interval across{1e300, -1e300};
    for (const Vec2 p : cell.corners) {
      const double d = dot(cut->normal, p);
      across = {std::min(across.low, d), std::max(across.high, d)};
    }
    if (settles || cut->at[1] - cut->at[0] < kThin * (across.high - across.low)) {
      const double low = cut->at[0], high = cut->at[1];
      for (Ring& ring : cutAlong(cell.corners, cut->normal, low, high)) {
        Vec2 middle;
        for (const Vec2 p : ring) middle = middle + p / static_cast<double>(ring.size());
        const double at = dot(cut->normal, middle);
        // All that is known of the strip went into the cut: only smaller parts of it say more.
        if (settles && at > low && at < high) halve(cellOf(std::move(ring)));
        else parts.push_back({std::move(ring), at <= low ? cut->beside.before : cut->beside.beyond});
      }
      if (parts.size() > 1) return parts;
      parts.clear();
    }
  }
  halve(cell);
  return parts;
}

// Views of one imager adjoin.
int imagersOf(const Question& q, const std::vector<ViewState>& views) {
  int count = 0, last = -1;
  for (const ViewState& v : views) {
    if (q.imager_of[v.view] != last) ++count;
    last = q.imager_of[v.view];
  }
  return count;
}

Outcome judgeAndSplit(const Kernel& kernel, Work& work, double finest_m) {
  Outcome outcome;
  outcome.side_m = std::sqrt(work.area_m2);
  std::optional<ViewCut> cut;
  const Cell cell = cellOf(work.ring);
  outcome.over = kernel.judge(work, cell, outcome.side_m <= finest_m, cut);
  if (outcome.over != Over::mixed) return outcome;
  if (outcome.side_m <= finest_m) {
    outcome.finest = true;
    return outcome;
  }
  const Question& q = kernel.q;
  for (Part& part : partsOf(cell, cut)) {
    Work child;
    child.area_m2 = std::fabs(signedArea(part.ring));
    if (part.over == Over::all && q.imagers_needed == 1 && !q.every_facing) {
      outcome.served_m2 += child.area_m2;
      if (kernel.keeps_settled) {
        child.ring = std::move(part.ring);
        child.views = work.views;
        child.settled_by = {q.imager_of[cut->view]};
        outcome.settled.push_back(std::move(child));
      }
      continue;
    }
    child.views = work.views;
    if (part.over == Over::none) {
      std::erase_if(child.views, [&](const ViewState& v) { return v.view == cut->view; });
      if (imagersOf(q, child.views) < q.imagers_needed) {
        outcome.not_served_m2 += child.area_m2;
        continue;
      }
    }
    if (child.area_m2 < kSliver * finest_m * finest_m) {
      outcome.slivers_m2 += child.area_m2;
      continue;
    }
    child.ring = std::move(part.ring);
    child.shades = work.shades;
    child.depth = work.depth + 1;
    outcome.children.push_back(std::move(child));
  }
  return outcome;
}

Verdict verdictOf(const Bounds& share, double asked) {
  constexpr double kRounding = 1e-9;  // what adding up areas may lose
  if (share.low >= asked - kRounding) return Verdict::met;
  return share.high < asked - kRounding ? Verdict::not_met : Verdict::undecided;
}

void keep(Work& work, Settled& settled) {
  Settled::Cell cell{std::move(work.ring), std::move(work.settled_by), {}};
  for (const ViewState& state : work.views) cell.views.push_back(state.view);
  settled.cells.push_back(std::move(cell));
}

// The loop of a proof: pieces are judged, the largest first, and split, until it is done.
struct Search {
  const Question& q;
  double asked = 0;
  const ProveOptions& options;
  const Progress& progress;
  std::vector<Work> open = {};
  double total = 0, served = 0, not_served = 0, finest = 0;  // m2
  ShareProof proof = {};

  void bounds() {
    proof.share = {std::clamp(served / total, 0.0, 1.0), std::clamp(1 - not_served / total, 0.0, 1.0)};
    proof.verdict = verdictOf(proof.share, asked);
  }
  // Done when the verdict stands and the bounds are near, or nothing is left to split.
  bool done() {
    bounds();
    return proof.verdict != Verdict::undecided &&
           proof.share.high - proof.share.low <= options.width;
  }
  void run();
};

void Search::run() {
  const Kernel kernel(q, options.keep_settled);
  std::shared_ptr<Settled> settled;
  if (options.keep_settled) settled = std::make_shared<Settled>();
  proof.finest_m = 1e300;
  // Largest first: they settle most. `open` is a heap; a batch is judged between two looks at the
  // bounds, of a size that does not hang on the number of threads.
  const auto smaller = [](const Work& a, const Work& b) {
    return a.area_m2 < b.area_m2 || (a.area_m2 == b.area_m2 && a.number > b.number);
  };
  std::uint64_t number = 0;
  for (Work& work : open) work.number = number++;
  std::make_heap(open.begin(), open.end(), smaller);
  constexpr std::size_t kAtOnce = 64;
  constexpr std::size_t kWorthThreads = 8;
  std::vector<Work> batch;
  std::vector<Outcome> outcomes;
  bool stop = false;
  while (!open.empty() && !stop) {
    progress.throwIfCancelled();
    batch.clear();
    while (batch.size() < kAtOnce && !open.empty()) {
      std::pop_heap(open.begin(), open.end(), smaller);
      batch.push_back(std::move(open.back()));
      open.pop_back();
    }
    outcomes.clear();
    outcomes.resize(batch.size());
    const auto judge = [&](std::size_t i) {
      if (progress.cancel.load(std::memory_order_relaxed)) return;
      outcomes[i] = judgeAndSplit(kernel, batch[i], options.finest_m);
    };
    if (batch.size() < kWorthThreads)
      for (std::size_t i = 0; i < batch.size(); ++i) judge(i);
    else
      tbb::parallel_for(std::size_t{0}, batch.size(), judge);
    progress.throwIfCancelled();
    for (std::size_t i = 0; i < batch.size(); ++i) {
      Outcome& outcome = outcomes[i];
      const double m2 = batch[i].area_m2;
      proof.finest_m = std::min(proof.finest_m, outcome.side_m);
      if (outcome.over == Over::all) served += m2;
      if (outcome.over == Over::none) not_served += m2;
      served += outcome.served_m2;
      not_served += outcome.not_served_m2;
      finest += outcome.finest ? m2 : outcome.slivers_m2;
      if (settled && outcome.over == Over::all) keep(batch[i], *settled);
      if (settled)
        for (Work& part : outcome.settled) keep(part, *settled);
      for (Work& child : outcome.children) {
        child.number = number++;
        open.push_back(std::move(child));
        std::push_heap(open.begin(), open.end(), smaller);
      }
    }
    proof.boxes += batch.size();
    stop = done() || proof.boxes >= options.boxes_most;
    progress.say((served + not_served + finest) / total, q.requirement->id.text);
  }
  bounds();
  if (!settled) return;
  settled->total_m2 = total;
  settled->not_served_m2 = not_served;
  proof.settled = std::move(settled);
}

}  // namespace

ShareProof proveShare(const Question& q, double asked, const ProveOptions& options,
                      const Progress& progress) {
  Search search{q, asked, options, progress};
  std::vector<ViewState> views;
  for (const std::uint32_t view : viewsInRange(q)) views.push_back({view, false, nullptr, nullptr});
  for (Ring& ring : convexPiecesIn({}, q.region)) {
    const double m2 = std::fabs(signedArea(ring));
    search.total += m2;
    search.open.push_back({anticlockwise(std::move(ring)), m2, views, nullptr, 0, 0, {}});
  }
  if (search.total > 0) search.run();
  else if (options.keep_settled) search.proof.settled = std::make_shared<Settled>();
  return search.proof;
}

Verdict verdictWithout(const Settled& settled, const std::vector<bool>& lost, double asked,
                       const ProveOptions& options, const Progress& progress) {
  const Question& q = *settled.question;
  ProveOptions only_verdict = options;
  only_verdict.width = 1;
  only_verdict.keep_settled = false;
  Search search{q, asked, only_verdict, progress};
  search.total = settled.total_m2;
  search.not_served = settled.not_served_m2;
  for (const Settled::Cell& cell : settled.cells) {
    const double m2 = std::fabs(signedArea(cell.ring));
    if (std::ranges::none_of(cell.by, [&](int i) { return lost[static_cast<std::size_t>(i)]; })) {
      search.served += m2;
      continue;
    }
    std::vector<ViewState> views;
    for (const std::uint32_t view : cell.views)
      if (!lost[static_cast<std::size_t>(q.imager_of[view])])
        views.push_back({view, false, nullptr, nullptr});
    search.open.push_back({cell.ring, m2, std::move(views), nullptr, 0, 0, {}});
  }
  if (!(search.total > 0)) return Verdict::undecided;
  if (!search.done()) search.run();
  return search.proof.verdict;
}

// ---- pieces, for those who ask more than shares (gap.h) ------------------------------------------

std::vector<Piece> piecesOf(const Question& q) {
  std::vector<ViewState> views;
  for (const std::uint32_t view : viewsInRange(q)) views.push_back({view, false, nullptr, nullptr});
  std::vector<Piece> pieces;
  for (Ring& ring : convexPiecesIn({}, q.region))
    if (std::fabs(signedArea(ring)) > 0)
      pieces.push_back({anticlockwise(std::move(ring)), views, nullptr, 0});
  return pieces;
}

JudgedPiece judgePiece(const Question& q, Piece piece, double finest_m) {
  Work work;
  work.ring = std::move(piece.ring);
  work.views = std::move(piece.views);
  work.shades = std::move(piece.shades);
  work.depth = piece.depth;
  work.area_m2 = std::fabs(signedArea(work.ring));
  const bool finest = std::sqrt(work.area_m2) <= finest_m;
  std::optional<ViewCut> cut;
  const Cell cell = cellOf(work.ring);
  JudgedPiece judged;
  judged.over = Kernel{q}.judge(work, cell, finest, cut);
  if (judged.over != Over::mixed || finest) return judged;
  for (Part& part : partsOf(cell, cut))
    judged.parts.push_back({std::move(part.ring), work.views, work.shades, work.depth + 1});
  return judged;
}

}  // namespace belvedere::proof
