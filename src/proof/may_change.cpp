// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "proof/explain.h"

namespace belvedere::proof {
namespace {

constexpr double kWidestM = 2.0;      // growth outwards that is tried
constexpr double kCloseness = 0.01;   // of the figure, between held and fallen
constexpr double kFinestM = 0.001;

struct Held {
  const design::Requirement* requirement;
  design::Situation situation;
};

struct Searcher {
  const design::Design& design;
  const std::filesystem::path& folder;
  ProveOptions options;
  const Progress& progress;

  bool met(const design::Design& changed, const Held& held) const {
    const Question q = makeQuestion(changed, *held.requirement, held.situation,
                                    makePlace(changed, held.situation, folder));
    return proveShare(q, held.requirement->share, options, progress).verdict == Verdict::met;
  }
};

// True where the solid stands in the situation.
bool stands(const design::Design& design, const design::Solid& solid,
            const design::Situation& situation) {
  const auto names = [&](const std::vector<design::AnyId>& ids) {
    return std::any_of(ids.begin(), ids.end(), [&](const auto& id) { return id.text == solid.id.text; });
  };
  if (names(situation.absent)) return false;
  const auto all = design::situationsOf(design);
  const bool only_where_named =
      std::any_of(all.begin(), all.end(), [&](const auto& s) { return names(s.present); });
  return !only_where_named || names(situation.present);
}

// The most growth that all held requirements stand; nothing when they stand all that is tried.
// grow(amount): the design with the solid grown.
struct Limit {
  double most = 0;
  const Held* falls = nullptr;
};
template <class Grow>
std::optional<Limit> limitOf(const Searcher& searcher, const std::vector<const Held*>& held,
                             double now, double tried, Grow grow) {
  std::optional<Limit> limit;
  double top = tried;
  for (const Held* h : held) {
    searcher.progress.throwIfCancelled();
    if (searcher.met(grow(top), *h)) continue;
    double holds = now, falls = top;
    while (falls - holds > std::max(kFinestM, kCloseness * 0.9 * holds)) {
      const double middle = 0.5 * (holds + falls);
      (searcher.met(grow(middle), *h) ? holds : falls) = middle;
    }
    limit = Limit{holds, h};
    top = holds;  // nobody else may fall sooner than this and go unseen
    if (top <= now) break;
  }
  return limit;
}

}  // namespace

std::vector<MayGrow> whatMayChange(const design::Design& design, const std::filesystem::path& folder,
                                   const ProveOptions& given, const Progress& progress) {
  ProveOptions options = given;
  options.width = 1;  // verdicts alone
  // How many proofs a search takes is not known ahead: solids are counted.
  const Progress silent(progress, nullptr);
  const Searcher searcher{design, folder, options, silent};
  std::vector<Held> met;
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::see) continue;
    std::vector<design::Situation> judged;
    for (const design::Situation& s : design::situationsOf(design, r)) {
      // Situations with the same solids fare alike.
      if (std::any_of(judged.begin(), judged.end(),
                      [&](const auto& other) { return scene::sameSolids(design, other, s); }))
        continue;
      judged.push_back(s);
      const Held held{&r, s};
      if (searcher.met(design, held)) met.push_back(held);
    }
  }
  std::vector<MayGrow> out;
  for (std::size_t i = 0; i < design.site.solids.size(); ++i) {
    const design::Solid& solid = design.site.solids[i];
    progress.say(static_cast<double>(i) / static_cast<double>(design.site.solids.size()),
                 solid.id.text);
    const bool grows = solid.kind == design::SolidKind::stock ||
                       solid.kind == design::SolidKind::furniture ||
                       solid.kind == design::SolidKind::counter ||
                       solid.kind == design::SolidKind::foliage ||
                       solid.kind == design::SolidKind::vehicle ||
                       solid.kind == design::SolidKind::other;
    if (!grows || solid.outline.size() < 3) continue;
    std::vector<const Held*> held;
    for (const Held& h : met)
      if (stands(design, solid, h.situation)) held.push_back(&h);
    MayGrow may;
    may.solid = solid.id.text;
    may.top_m = solid.top_m;
    const design::Storey* storey = design::findStorey(design, solid.storey);
    may.tried_top_m = std::max(storey ? storey->height_m : 0.0, 2 * solid.top_m);
    may.tried_wide_m = kWidestM;
    const auto up = limitOf(searcher, held, solid.top_m, may.tried_top_m, [&](double top) {
      design::Design changed = design;
      changed.site.solids[i].top_m = top;
      return changed;
    });
    if (up) {
      may.may_reach_m = up->most;
      may.top_falls = up->falls->requirement->id.text;
      may.top_falls_in = up->falls->situation.id.text;
    }
    const auto out_to = limitOf(searcher, held, 0, kWidestM, [&](double by) {
      design::Design changed = design;
      const Region wide = grown({{anticlockwise(solid.outline), {}}}, by);
      if (!wide.empty()) changed.site.solids[i].outline = wide.front().outer;
      return changed;
    });
    if (out_to) {
      may.may_widen_m = out_to->most;
      may.wide_falls = out_to->falls->requirement->id.text;
      may.wide_falls_in = out_to->falls->situation.id.text;
    }
    out.push_back(std::move(may));
  }
  return out;
}

}  // namespace belvedere::proof
