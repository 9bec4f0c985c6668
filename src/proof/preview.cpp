// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/preview.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <map>

#include "base/check.h"
#include "proof/lattice.h"
#include "proof/preview_view.h"
#include "proof/range.h"
#include "scene/presence.h"

namespace belvedere::proof {
namespace {

using Clock = std::chrono::steady_clock;
double msSince(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

constexpr int kPatchCells = 32;  // a patch is a square of lattice cells: one batch of questions
constexpr int kTileCells = 4;    // within it, neighbours go to the ray tracer together
constexpr std::size_t kCellsMost = 20'000'000;  // of a lattice, whatever spacing is stated
// As for spots: beyond this many views, imagers that are far too distant to serve anywhere in the
// zone are not asked.
constexpr std::size_t kManyViews = 64;
constexpr double kFarSlack = 4;

// All that an imager's answers depend on, of one of its views.
bool sameView(const design::PosedImager& a, const design::PosedImager& b) {
  return a.lens_m == b.lens_m && a.imager_from_site == b.imager_from_site && a.lens == b.lens &&
         a.pixels == b.pixels && a.delivered == b.delivered && a.masks_px == b.masks_px &&
         a.frame_low_px == b.frame_low_px && a.frame_high_px == b.frame_high_px &&
         a.scale_x == b.scale_x && a.scale_y == b.scale_y && a.px_per_rad == b.px_per_rad &&
         a.span == b.span;
}
// And of the question, but for how many imagers are needed.
bool sameTests(const Question& a, const Question& b) {
  return a.needed_px_per_m == b.needed_px_per_m && a.low_m == b.low_m && a.high_m == b.high_m &&
         a.height_share == b.height_share && a.facings == b.facings &&
         a.every_facing == b.every_facing && a.blocking == b.blocking && a.region == b.region &&
         a.floor.z0 == b.floor.z0 && a.floor.p0 == b.floor.p0 && a.floor.slope == b.floor.slope &&
         a.requirement->target == b.requirement->target;
}

struct Patch {
  std::size_t first = 0, count = 0;  // of the level's points
  Vec3 middle;
  double radius_m = 0;
  bool stale = true;  // an imager's answers changed since the sums below were taken
  std::array<std::size_t, kReasonCount> reasons{};
  struct Served {
    int imager = 0;
    std::size_t points = 0, alone = 0;
  };
  std::vector<Served> served;
};

struct KeptImager {
  std::vector<design::PosedImager> views;
  std::vector<std::vector<double>> conditions;  // keys of them
  std::vector<PatchAnswer> answers;  // by patch; empty: out of range of the zone
  double share = 0;                  // of the points: those in patches that the frame meets
};

// An imager whose answers are not whole yet: what a look had no time for, a later one goes on with.
struct BegunImager {
  KeptImager imager;
  std::vector<std::uint8_t> asked;   // by patch; empty: out of range of the zone
};

struct Level {
  Lattice lattice;
  std::vector<double> x, y, z;        // points on the floor, patch by patch, tile by tile
  std::vector<std::size_t> spot_of;   // of each point, into map.spots
  std::vector<Patch> patches;
  std::map<std::string, KeptImager> imagers;
  std::map<std::string, BegunImager> begun;
  SpotMap map;
  int imagers_needed = 0;             // of the sums
};

Level levelOf(const Question& q, double spacing_m) {
  Level level;
  level.lattice = latticeOf(q.region, spacing_m, kCellsMost);
  const Lattice& lattice = level.lattice;
  const auto columns = static_cast<std::size_t>(lattice.columns);
  std::vector<std::uint8_t> inside(columns * static_cast<std::size_t>(lattice.rows));
  const auto runs = runsInside(lattice, q.region);
  for (std::size_t row = 0; row < runs.size(); ++row)
    for (const Run& run : runs[row])
      std::fill_n(inside.begin() + static_cast<std::ptrdiff_t>(row * columns) + run.from,
                  run.to - run.from, std::uint8_t{1});
  level.map.spots.resize(inside.size());
  const auto addTile = [&](int column0, int row0) {
    for (int row = row0; row < std::min(row0 + kTileCells, lattice.rows); ++row)
      for (int column = column0; column < std::min(column0 + kTileCells, lattice.columns); ++column) {
        const std::size_t spot = static_cast<std::size_t>(row) * columns + static_cast<std::size_t>(column);
        if (!inside[spot]) continue;
        const Vec2 p = lattice.centre(column, row);
        level.x.push_back(p.x);
        level.y.push_back(p.y);
        level.z.push_back(q.floor.at(p));
        level.spot_of.push_back(spot);
        level.map.spots[spot].inside = true;
      }
  };
  for (int row = 0; row < lattice.rows; row += kPatchCells)
    for (int column = 0; column < lattice.columns; column += kPatchCells) {
      Patch patch;
      patch.first = level.x.size();
      for (int r = row; r < std::min(row + kPatchCells, lattice.rows); r += kTileCells)
        for (int c = column; c < std::min(column + kPatchCells, lattice.columns); c += kTileCells)
          addTile(c, r);
      patch.count = level.x.size() - patch.first;
      if (patch.count == 0) continue;
      Box3 box;
      for (std::size_t i = patch.first; i < level.x.size(); ++i) {
        box.add(Vec3{level.x[i], level.y[i], level.z[i] + q.low_m});
        box.add(Vec3{level.x[i], level.y[i], level.z[i] + q.high_m});
      }
      patch.middle = (box.low + box.high) * 0.5;
      patch.radius_m = 0.5 * norm(box.high - box.low);
      level.patches.push_back(std::move(patch));
    }
  level.map.requirement = q.requirement->id;
  level.map.situation = q.situation.id;
  level.map.origin = lattice.origin;
  level.map.turn_deg = lattice.turn_deg;
  level.map.cell_m = lattice.cell_m;
  level.map.columns = lattice.columns;
  level.map.rows = lattice.rows;
  level.map.needed_px_per_m = q.needed_px_per_m;
  return level;
}

// The views of each imager of a question, in its order.
struct Views {
  std::vector<std::vector<std::size_t>> of;
  explicit Views(const Question& q) : of(q.imagers.size()) {
    for (std::size_t v = 0; v < q.views.size(); ++v)
      of[static_cast<std::size_t>(q.imager_of[v])].push_back(v);
  }
};

const Conditions& conditionsIn(const Question& q, std::size_t view) {
  static const Conditions none;
  return q.conditions.empty() ? none : q.conditions[view];
}

// Whether answers are those of an imager of the question.
bool answersOf(const KeptImager& kept, const Question& q, const std::vector<std::size_t>& views) {
  return std::equal(views.begin(), views.end(), kept.views.begin(), kept.views.end(),
                    [&](std::size_t v, const design::PosedImager& k) { return sameView(q.views[v], k); }) &&
         std::equal(views.begin(), views.end(), kept.conditions.begin(),
                    [&](std::size_t v, const std::vector<double>& key) {
                      return keyOf(conditionsIn(q, v)) == key;
                    });
}

// Imagers whose kept answers are not, or no longer, theirs.
std::vector<std::size_t> changedImagers(const Question& q, const Views& views, const Level& level) {
  std::vector<std::size_t> changed;
  for (std::size_t i = 0; i < q.imagers.size(); ++i) {
    const auto kept = level.imagers.find(q.imagers[i]);
    if (kept == level.imagers.end() || !answersOf(kept->second, q, views.of[i])) changed.push_back(i);
  }
  return changed;
}

void markStale(Level& level, const KeptImager& imager) {
  for (std::size_t p = 0; p < imager.answers.size(); ++p)
    if (!imager.answers[p].came.empty()) level.patches[p].stale = true;
}

// Loops over a patch, widened for the processor that they run on.
BELVEDERE_ANY_WIDTH
void takeBetter(const Came* __restrict answers, std::int32_t imager, std::size_t n,
                Came* __restrict best, std::int32_t* __restrict who) {
  for (std::size_t i = 0; i < n; ++i) {
    const bool better = answers[i] > best[i];
    who[i] = better ? imager : who[i];
    best[i] = better ? answers[i] : best[i];
  }
}
BELVEDERE_ANY_WIDTH
std::uint32_t countOf(const Came* came, std::size_t n, Came like) {
  std::uint32_t count = 0;
  for (std::size_t i = 0; i < n; ++i)
    count += (came[i] >> (32 - kRankBits)) == (like >> (32 - kRankBits)) ? 1u : 0u;
  return count;
}
BELVEDERE_ANY_WIDTH
void addServing(const Came* __restrict came, std::size_t n, std::uint32_t* __restrict serving) {
  for (std::size_t i = 0; i < n; ++i) serving[i] += came[i] >= kServedFrom ? 1u : 0u;
}
BELVEDERE_ANY_WIDTH
std::uint32_t countAlone(const Came* came, std::size_t n, const std::uint32_t* serving,
                         std::size_t needed) {
  std::uint32_t count = 0;
  const auto just = static_cast<std::uint32_t>(needed);
  for (std::size_t i = 0; i < n; ++i)
    count += came[i] >= kServedFrom && serving[i] == just ? 1u : 0u;
  return count;
}

// What the requirement's answer is at each point of a patch, from its imagers' answers.
void sumUp(const Question& q, const std::vector<const KeptImager*>& imagers, std::size_t patch_index,
           std::size_t kinds, Level& level) {
  Patch& patch = level.patches[patch_index];
  const std::size_t n = patch.count, needed = static_cast<std::size_t>(q.imagers_needed);
  const auto eachAnswer = [&](auto fn) {
    for (std::size_t m = 0; m < imagers.size(); ++m)
      if (!imagers[m]->answers.empty() && !imagers[m]->answers[patch_index].came.empty())
        fn(m, imagers[m]->answers[patch_index].came.data());
  };
  // For each kind the n-th best imager; of the kinds the worst.
  std::vector<Came> worst(n, cameTo(Reason::out_of_frame));
  std::vector<std::int32_t> who(n, -1);
  if (needed == 1 && kinds == 1) {
    eachAnswer([&](std::size_t m, const Came* answers) {
      takeBetter(answers, static_cast<std::int32_t>(m), n, worst.data(), who.data());
    });
  } else {
    struct Nth {
      Came came = cameTo(Reason::out_of_frame);
      std::int32_t imager = -1;
    };
    std::vector<Nth> best;
    for (std::size_t f = 0; f < kinds; ++f) {
      best.assign(n * needed, {});
      eachAnswer([&](std::size_t m, const Came* answers) {
        for (std::size_t i = 0; i < n; ++i) {
          Nth next{answers[f * n + i], static_cast<std::int32_t>(m)};
          for (std::size_t k = i * needed; k < (i + 1) * needed; ++k)
            if (next.came > best[k].came) std::swap(next, best[k]);
        }
      });
      for (std::size_t i = 0; i < n; ++i) {
        const Nth& nth = best[i * needed + needed - 1];
        if (f > 0 && nth.came >= worst[i]) continue;
        worst[i] = nth.came;
        who[i] = nth.imager;
      }
    }
  }
  for (std::size_t r = 0; r < patch.reasons.size(); ++r)
    patch.reasons[r] = countOf(worst.data(), n, cameTo(static_cast<Reason>(r)));
  const auto over_needed = static_cast<float>(1 / q.needed_px_per_m);
  constexpr float kBelowOne = 1 - 0x1p-24f;
  for (std::size_t i = 0; i < n; ++i) {
    Spot& spot = level.map.spots[level.spot_of[patch.first + i]];
    const Came came = worst[i];
    const float px_per_m = pxPerM(came), margin = px_per_m * over_needed;
    spot.reason = reasonOf(came);
    spot.px_per_m = px_per_m;
    spot.margin = came >= kServedFrom ? std::max(margin, 1.0f) : std::min(margin, kBelowOne);
    spot.imager = static_cast<std::int16_t>(who[i]);
  }
  // Where each imager serves under any of the kinds.
  patch.served.clear();
  std::vector<std::uint32_t> serving(n, 0);
  std::vector<Came> best_kind(n);
  const auto bestKind = [&](const Came* answers) {
    if (kinds == 1) return answers;
    for (std::size_t i = 0; i < n; ++i) {
      best_kind[i] = answers[i];
      for (std::size_t f = 1; f < kinds; ++f) best_kind[i] = std::max(best_kind[i], answers[f * n + i]);
    }
    return static_cast<const Came*>(best_kind.data());
  };
  eachAnswer([&](std::size_t, const Came* answers) {
    addServing(bestKind(answers), n, serving.data());
  });
  eachAnswer([&](std::size_t m, const Came* answers) {
    const Came* came = bestKind(answers);
    const auto served = countOf(came, n, kServedFrom);
    if (served == 0) return;
    patch.served.push_back({static_cast<int>(m), served, countAlone(came, n, serving.data(), needed)});
  });
  patch.stale = false;
}

void fill(const Question& q, const Level& level, Preview& preview) {
  std::array<std::size_t, kReasonCount> reasons{};
  std::vector<std::array<std::size_t, 2>> served(q.imagers.size());
  for (const Patch& patch : level.patches) {
    for (std::size_t r = 0; r < reasons.size(); ++r) reasons[r] += patch.reasons[r];
    for (const Patch::Served& s : patch.served) {
      served[static_cast<std::size_t>(s.imager)][0] += s.points;
      served[static_cast<std::size_t>(s.imager)][1] += s.alone;
    }
  }
  preview.points = level.x.size();
  preview.spacing_m = level.lattice.cell_m;
  preview.map = level.map;
  if (preview.points == 0) return;
  const double each = 1.0 / static_cast<double>(preview.points);
  const auto shareOf = [&](std::size_t points) { return static_cast<double>(points) * each; };
  preview.share = shareOf(reasons[0]);
  for (std::size_t r = 1; r < reasons.size(); ++r)
    if (reasons[r] > 0) preview.reasons.push_back({static_cast<Reason>(r), shareOf(reasons[r])});
  std::stable_sort(preview.reasons.begin(), preview.reasons.end(),
                   [](const ReasonShare& a, const ReasonShare& b) { return a.share > b.share; });
  for (std::size_t i = 0; i < served.size(); ++i)
    if (served[i][0] > 0)
      preview.imagers.push_back({q.imagers[i], shareOf(served[i][0]), shareOf(served[i][1])});
}

}  // namespace

struct Previewer::Kept {
  std::shared_ptr<const PreviewPlace> place;
  std::optional<Question> question;    // that the levels belong to
  design::Requirement requirement;     // of it: the caller's may be gone
  std::map<double, Level> levels;      // by spacing
  // Wall clock, of an imager at a point of a patch that its frame meets, as last measured.
  double ns_per_ask = 100;

  // What is known of an imager whose answers are not whole: what an earlier look began, or nothing.
  static BegunImager takeBegun(const Question& q, const std::vector<std::size_t>& views,
                               const std::string& name, bool in_range, Level& level) {
    if (auto begun = level.begun.extract(name); begun && answersOf(begun.mapped().imager, q, views))
      return std::move(begun.mapped());
    BegunImager fresh;
    for (const std::size_t v : views) {
      fresh.imager.views.push_back(q.views[v]);
      fresh.imager.conditions.push_back(keyOf(conditionsIn(q, v)));
    }
    if (!in_range) return fresh;
    fresh.imager.answers.resize(level.patches.size());
    fresh.asked.resize(level.patches.size());
    return fresh;
  }

  // Brings a level up to date. Once `until` has passed it stops and returns false; what has been asked
  // is kept all the same, so that a later look goes on from there.
  bool pass(const Question& q, const Views& views, const PreviewTests& tests, Level& level,
            std::optional<Clock::time_point> until, const Progress& progress, std::size_t& rays) {
    std::vector<std::size_t> changed = changedImagers(q, views, level);
    // Whoever is not known at all first: whoever moves now may move again before the level is done.
    std::stable_partition(changed.begin(), changed.end(), [&](std::size_t i) {
      return !level.imagers.contains(q.imagers[i]);
    });
    std::vector<char> near(q.views.size(), q.views.size() <= kManyViews ? 1 : 0);
    if (q.views.size() > kManyViews && !changed.empty())
      for (const std::uint32_t v : viewsInRange(q, kFarSlack)) near[v] = 1;
    std::vector<BegunImager> fresh;
    std::vector<std::vector<double>> cones(changed.size());
    struct Job {
      std::size_t c, p;  // of `changed`, of the patches
    };
    std::vector<Job> jobs;
    for (std::size_t c = 0; c < changed.size(); ++c) {
      const std::vector<std::size_t>& its = views.of[changed[c]];
      const bool any = std::any_of(its.begin(), its.end(), [&](std::size_t v) { return near[v] != 0; });
      for (const std::size_t v : its) cones[c].push_back(frameConeRad(q.views[v]));
      fresh.push_back(takeBegun(q, its, q.imagers[changed[c]], any, level));
      for (std::size_t p = 0; p < fresh[c].asked.size(); ++p)
        if (!fresh[c].asked[p]) jobs.push_back({c, p});
    }
    const Clock::time_point start = Clock::now();
    std::atomic<bool> late{false};
    tbb::parallel_for(std::size_t{0}, jobs.size(), [&](std::size_t job) {
      if (late.load(std::memory_order_relaxed) || progress.cancel.load(std::memory_order_relaxed))
        return;
      if (until && Clock::now() > *until) late = true;
      const auto [c, p] = jobs[job];
      const Patch& patch = level.patches[p];
      const auto of = [&](const std::vector<double>& v) {
        return std::span(v).subspan(patch.first, patch.count);
      };
      const PreviewPatch points{of(level.x), of(level.y), of(level.z), patch.middle, patch.radius_m};
      KeptImager& imager = fresh[c].imager;
      for (std::size_t v = 0; v < imager.views.size(); ++v)
        askView(tests, imager.views[v], conditionsIn(q, views.of[changed[c]][v]), cones[c][v],
                points, place->caster(), imager.answers[p]);
      fresh[c].asked[p] = 1;
    });
    const double used_ns = 1e6 * msSince(start);
    double asks = 0;
    for (const auto [c, p] : jobs) {
      if (!fresh[c].asked[p]) continue;
      const PatchAnswer& answer = fresh[c].imager.answers[p];
      rays += answer.rays;
      if (!answer.came.empty()) asks += static_cast<double>(level.patches[p].count);
    }
    if (asks > 0) ns_per_ask = used_ns / asks;
    for (std::size_t c = 0; c < changed.size(); ++c) {
      const std::string& name = q.imagers[changed[c]];
      const std::vector<std::uint8_t>& asked = fresh[c].asked;
      if (std::find(asked.begin(), asked.end(), 0) != asked.end())
        level.begun.insert_or_assign(name, std::move(fresh[c]));
      else
        keepWhole(level, name, std::move(fresh[c].imager));
    }
    progress.throwIfCancelled();
    if (late) return false;
    sum(q, tests, level);
    return true;
  }

  static void keepWhole(Level& level, const std::string& name, KeptImager imager) {
    double met = 0;
    for (std::size_t p = 0; p < imager.answers.size(); ++p)
      if (!imager.answers[p].came.empty()) met += static_cast<double>(level.patches[p].count);
    imager.share = met / std::max(1.0, static_cast<double>(level.x.size()));
    KeptImager& kept = level.imagers[name];
    markStale(level, kept);
    markStale(level, imager);
    kept = std::move(imager);
  }

  void sum(const Question& q, const PreviewTests& tests, Level& level) {
    if (level.map.imagers != q.imagers || level.imagers_needed != q.imagers_needed) {
      const auto isGone = [&](const auto& kept) {
        return std::find(q.imagers.begin(), q.imagers.end(), kept.first) == q.imagers.end();
      };
      std::erase_if(level.imagers, isGone);
      std::erase_if(level.begun, isGone);
      for (Patch& patch : level.patches) patch.stale = true;
      level.map.imagers = q.imagers;
      level.imagers_needed = q.imagers_needed;
    }
    std::vector<const KeptImager*> imagers;
    for (const std::string& name : q.imagers) imagers.push_back(&level.imagers.at(name));
    tbb::parallel_for(std::size_t{0}, level.patches.size(), [&](std::size_t p) {
      if (level.patches[p].stale) sumUp(q, imagers, p, tests.kinds(), level);
    });
  }

  // The finest lattice below `spacing_m` that holds the answers of all imagers as they are.
  std::optional<double> finestFinished(const Question& q, const Views& views, double spacing_m) const {
    for (const auto& [s, level] : levels)
      if (s < spacing_m && changedImagers(q, views, level).empty()) return s;
    return {};
  }

  // The finest lattice below `spacing_m` that is likely to be done within `left_ms`; the next finer
  // where none is, to be done over several looks; nothing when there is little time left.
  std::optional<double> nextSpacing(const Question& q, const Views& views, double spacing_m,
                                    double left_ms, double budget_ms) const {
    constexpr double kCareful = 1.3, kLittle = 0.1, kCellNs = 50;
    if (left_ms < kLittle * budget_ms || spacing_m < 1.5 * kPreviewFinestM) return {};
    const Level& known = levels.at(spacing_m);
    // A lattice that is to be made, and another half of it left for what follows.
    const auto made = [&](double s) {
      return q.region_m2 / (s * s) < static_cast<double>(kCellsMost) &&
             (levels.contains(s) || 2e-6 * kCellNs * q.region_m2 / (s * s) < left_ms);
    };
    for (double s = kPreviewFinestM; s < 0.75 * spacing_m; s *= 2) {
      if (!made(s)) continue;
      const double points = q.region_m2 / (s * s);
      double imagers = 0;
      const auto kept = levels.find(s);
      if (kept != levels.end())
        for (const std::size_t i : changedImagers(q, views, kept->second))
          imagers += known.imagers.at(q.imagers[i]).share;
      else
        for (const std::string& name : q.imagers) imagers += known.imagers.at(name).share;
      if (kCareful * 1e-6 * ns_per_ask * points * imagers < left_ms) return s;
    }
    return made(0.5 * spacing_m) ? std::optional(0.5 * spacing_m) : std::nullopt;
  }
};

Previewer::Previewer(std::shared_ptr<const PreviewPlace> place)
    : kept_(std::make_unique<Kept>()) {
  kept_->place = std::move(place);
}
Previewer::~Previewer() = default;
Previewer::Previewer(Previewer&&) noexcept = default;
Previewer& Previewer::operator=(Previewer&&) noexcept = default;

Preview Previewer::look(const Question& q, const PreviewOptions& options, const Progress& progress) {
  const Clock::time_point start = Clock::now();
  BELVEDERE_CHECK(q.place == kept_->place->place(), "a question is previewed in its own place");
  BELVEDERE_CHECK(q.requirement->kind == design::RequirementKind::see,
                  "what is to be seen is previewed");
  Kept& kept = *kept_;
  if (!kept.question || !sameTests(*kept.question, q)) {
    kept.levels.clear();
    kept.requirement = *q.requirement;
    kept.question = q;
    kept.question->views.clear();
    kept.question->requirement = &kept.requirement;
  }
  const Views views(q);
  const PreviewTests tests = testsOf(q);
  Preview preview;
  preview.requirement = q.requirement->id;
  preview.situation = q.situation.id;
  preview.asked = q.requirement->share;
  preview.needed_px_per_m = q.needed_px_per_m;
  preview.heights = static_cast<int>(tests.heights_m.size());
  const auto levelAt = [&](double spacing_m) -> Level& {
    const auto found = kept.levels.find(spacing_m);
    if (found != kept.levels.end()) return found->second;
    return kept.levels.emplace(spacing_m, levelOf(q, spacing_m)).first->second;
  };
  double spacing_m = options.spacing_m.value_or(kPreviewFinestM);
  if (!options.spacing_m)
    while (q.region_m2 > static_cast<double>(kPreviewFirstPoints) * spacing_m * spacing_m)
      spacing_m *= 2;
  kept.pass(q, views, tests, levelAt(spacing_m), {}, progress, preview.rays);
  if (!options.spacing_m) {
    constexpr double kForAsking = 0.85;  // of the time; the rest is for adding up
    const double ms = kForAsking * options.budget_ms;
    const auto until = start + std::chrono::duration_cast<Clock::duration>(
                                   std::chrono::duration<double, std::milli>(ms));
    // What earlier looks have finished is shown whatever the time: a look never gets coarser at rest.
    if (const auto finished = kept.finestFinished(q, views, spacing_m))
      kept.pass(q, views, tests, levelAt(spacing_m = *finished), {}, progress, preview.rays);
    while (const auto next = kept.nextSpacing(q, views, spacing_m, ms - msSince(start), ms)) {
      if (!kept.pass(q, views, tests, levelAt(*next), until, progress, preview.rays)) break;
      spacing_m = *next;
    }
  }
  fill(q, kept.levels.at(spacing_m), preview);
  preview.used_ms = msSince(start);
  return preview;
}

std::vector<Preview> previews(const design::Design& design, const std::filesystem::path& folder,
                              const std::vector<design::RequirementId>& only,
                              const PreviewOptions& options, const Progress& progress) {
  std::vector<std::pair<design::Situation, std::shared_ptr<const PreviewPlace>>> places;
  const auto placeOf = [&](const design::Situation& situation) {
    for (const auto& [known, place] : places)
      if (scene::sameSolids(design, known, situation)) return place;
    places.emplace_back(situation,
                        std::make_shared<PreviewPlace>(makePlace(design, situation, folder)));
    return places.back().second;
  };
  std::vector<Preview> all;
  for (const design::Requirement& requirement : design.brief) {
    if (requirement.kind != design::RequirementKind::see) continue;
    if (!only.empty() && std::find(only.begin(), only.end(), requirement.id) == only.end()) continue;
    for (const design::Situation& situation : design::situationsOf(design, requirement)) {
      if (!scene::Presence(design, situation).holds(requirement.zone.text)) continue;
      progress.throwIfCancelled();
      const auto place = placeOf(situation);
      const Question q = makeQuestion(design, requirement, situation, place->place());
      all.push_back(Previewer(place).look(q, options, progress));
    }
  }
  return all;
}

}  // namespace belvedere::proof
