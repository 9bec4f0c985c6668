// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/rules.h"

#include <algorithm>
#include <map>

#include "design/task_table.h"
#include "geometry/polygon.h"
#include "scene/presence.h"
#include "scene/scene.h"

namespace belvedere::proof {
namespace {

// Being in frame: any density passes.
constexpr double kAnyPxPerM = 1e-6;

Region stripAbout(const std::vector<Vec2>& line, double half_m) {
  std::vector<Ring> pieces;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Vec2 along = line[i + 1] - line[i];
    if (!(norm(along) > 0)) continue;
    const Vec2 side = perpLeft(along) / norm(along) * half_m;
    pieces.push_back({line[i] - side, line[i + 1] - side, line[i + 1] + side, line[i] + side});
  }
  return unionOf(pieces);
}

// The lowest storey on whose slab the line begins.
std::pair<const design::Building*, const design::Storey*> storeyOf(const design::Design& design,
                                                                   Vec2 at) {
  std::pair<const design::Building*, const design::Storey*> best{nullptr, nullptr};
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys)
      if ((!best.second || storey.floor_m < best.second->floor_m) &&
          contains(scene::slabOf(building, storey), at))
        best = {&building, &storey};
  return best;
}

// Reasons come from so many spots: they say what fails, and prove nothing.
constexpr double kReasonCellM = 0.1;
constexpr std::size_t kReasonSpotsMost = 600;
constexpr std::size_t kReasonsMost = 24;  // imagers that they are told of

// A question without its views, and these by their imagers: a large site has thousands.
struct ByImager {
  Question nobody;
  std::vector<std::pair<std::string, std::vector<design::PosedImager>>> views;
};
ByImager byImager(Question all) {
  ByImager out;
  for (design::PosedImager& view : all.views) {
    if (out.views.empty() || out.views.back().first != view.imager) out.views.push_back({view.imager, {}});
    out.views.back().second.push_back(std::move(view));  // views of one imager adjoin
  }
  replaceViews(all, {});
  out.nobody = std::move(all);
  return out;
}
Question ofImager(const ByImager& all, std::size_t i) {
  Question own = all.nobody;
  replaceViews(own, all.views[i].second);
  return own;
}

struct Strip {
  design::StoreyId storey;
  Region region;
};

// A rule over a line, as a zone of the design and the strip that is judged.
std::optional<Strip> addStrip(design::Design& design, design::Requirement& r) {
  const auto [building, storey] = storeyOf(design, r.line.front());
  if (!storey) return {};
  const double speed = r.target.speed_mps.value_or(kRuleSpeedMps);
  const double half_m = std::max(kStripM, speed * r.seconds_in_view.value_or(0) / 2);
  Strip strip{storey->id, intersectionOf(stripAbout(r.line, half_m),
                                         scene::slabOf(*building, *storey))};
  if (strip.region.empty()) return {};
  const Box2 box = bounds(strip.region);
  design::Zone zone;
  zone.id = {"rule " + r.id.text};
  zone.storey = storey->id;
  zone.outline = {box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
  design.site.zones.push_back(zone);
  r.zone = zone.id;
  return strip;
}

}  // namespace

std::vector<RuleSight> ruleSights(const design::Design& design, const std::filesystem::path& folder,
                                  const ProveOptions& options, const Progress& progress) {
  std::vector<RuleSight> sights;
  for (const design::Requirement& rule : design.brief) {
    if (rule.kind != design::RequirementKind::rule) continue;
    RuleSight sight{rule.id, rule.imagers, 0, 0, rule.share, {}, {}};
    design::Design with = design;
    design::Requirement asked = rule;
    asked.kind = design::RequirementKind::see;
    asked.imagers = 1;
    const auto density = design::statedDensity(design, rule);
    sight.px_per_m = density.value_or(0);
    const design::Range band = design::bandOf(rule.target);
    sight.target_px = sight.px_per_m * (band[1] - band[0]);
    if (!density) {
      asked.task.clear();
      asked.px_per_m = kAnyPxPerM;
    }
    std::optional<Strip> strip;
    if (asked.zone.empty()) {
      strip = addStrip(with, asked);
      if (!strip) {
        sights.push_back(sight);
        continue;
      }
    }
    std::vector<ByImager> questions;
    std::vector<RuleView> least;  // of each imager
    std::map<std::string, std::size_t> place_of;  // in `least`
    std::map<std::string, std::size_t> serves;  // in how many situations
    for (const design::Situation& situation : design::situationsOf(design, rule)) {
      progress.throwIfCancelled();
      Question q = makeQuestion(with, asked, situation, makePlace(with, situation, folder));
      if (strip) {
        q.region = differenceOf(strip->region,
                                scene::standingFootprints(with, strip->storey, situation,
                                                          &q.place->scene, bounds(strip->region)));
        q.region_m2 = area(q.region);
      }
      ByImager all = byImager(std::move(q));
      for (std::size_t i = 0; i < all.views.size(); ++i) {
        progress.throwIfCancelled();
        const std::string& imager = all.views[i].first;
        const Question own = ofImager(all, i);
        RuleView view{imager, situation.id, {0, 0}, {}};
        if (own.region_m2 > 0) {
          const ShareProof proof = proveShare(own, asked.share, sizedFor(own, options), progress);
          view.share = proof.share;
          if (proof.verdict == Verdict::met) ++serves[imager];
        }
        const auto [at, is_new] = place_of.try_emplace(imager, least.size());
        if (is_new) least.push_back(view);
        else if (view.share.low < least[at->second].share.low) least[at->second] = view;
      }
      questions.push_back(std::move(all));
    }
    for (RuleView& view : least)
      if (serves[view.imager] == questions.size()) sight.imagers.push_back(view.imager);
      else
        sight.others.push_back(std::move(view));
    std::ranges::stable_sort(sight.others, [](const RuleView& a, const RuleView& b) {
      return a.share.low > b.share.low;
    });
    if (sight.imagers.size() < static_cast<std::size_t>(std::max(0, sight.imagers_asked)))
      for (std::size_t i = 0; i < std::min(kReasonsMost, sight.others.size()); ++i) {
        RuleView& view = sight.others[i];
        const auto of = std::ranges::find(questions, view.situation,
                                          [](const ByImager& all) { return all.nobody.situation.id; });
        const auto own = std::ranges::find_if(of->views, [&](const auto& one) { return one.first == view.imager; });
        if (of->nobody.region.empty()) continue;
        RequirementProof summary;
        summariseSpots(ofImager(*of, static_cast<std::size_t>(own - of->views.begin())), kReasonCellM,
                       kReasonSpotsMost, summary, progress);
        view.reasons = std::move(summary.reasons);
      }
    sights.push_back(std::move(sight));
  }
  return sights;
}

}  // namespace belvedere::proof
