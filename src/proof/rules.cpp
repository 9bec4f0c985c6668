// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/rules.h"

#include <algorithm>

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
    RuleSight sight{rule.id, rule.imagers, 0, 0, {}};
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
    bool first = true;
    for (const design::Situation& situation : design::situationsOf(design, rule)) {
      progress.throwIfCancelled();
      Question q = makeQuestion(with, asked, situation, makePlace(with, situation, folder));
      if (strip) {
        q.region = differenceOf(strip->region,
                                scene::standingFootprints(with, strip->storey, situation,
                                                          &q.place->scene, bounds(strip->region)));
        q.region_m2 = area(q.region);
      }
      std::vector<std::string> here;
      const std::vector<design::PosedImager> views = q.views;
      for (const std::string& imager : std::vector(q.imagers)) {
        std::vector<design::PosedImager> own;
        std::ranges::copy_if(views, std::back_inserter(own), [&](const design::PosedImager& v) {
          return v.imager == imager;
        });
        replaceViews(q, own);
        progress.throwIfCancelled();
        if (q.region_m2 > 0 &&
            proveShare(q, asked.share, sizedFor(q, options), progress).verdict == Verdict::met)
          here.push_back(imager);
      }
      if (first) sight.imagers = here;
      else
        std::erase_if(sight.imagers, [&](const std::string& imager) {
          return std::ranges::find(here, imager) == here.end();
        });
      first = false;
    }
    sights.push_back(std::move(sight));
  }
  return sights;
}

}  // namespace belvedere::proof
