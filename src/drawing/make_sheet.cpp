// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/make_sheet.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "drawing/plan_shapes.h"
#include "drawing/sheet_parts.h"
#include "proof/blind.h"
#include "proof/spots.h"

namespace belvedere::drawing {
namespace {

// Finer spots than a fifth of a millimetre on paper do not show; more than these in all only wait.
constexpr double kCellMm = 0.2;
constexpr double kLightMm = 0.8;  // light has no edges but shadows'
constexpr std::size_t kSpotsMost = 220'000;
constexpr std::size_t kOutlineSpotsMost = 120'000;
// Outlines of more imagers than these in one zone would hide one another.
constexpr std::size_t kOutlinesMost = 6;

bool holdsIn(const design::Design& design, const design::Requirement& requirement,
             const design::SituationId& situation) {
  const std::vector<design::Situation> all = design::situationsOf(design, requirement);
  return std::any_of(all.begin(), all.end(),
                     [&](const design::Situation& s) { return s.id == situation; });
}

const proof::RequirementProof* rowOf(const Sheet& sheet, const design::Requirement& asked) {
  for (const proof::RequirementProof& row : sheet.proof.requirements)
    if (row.requirement == asked.id && row.situation == sheet.situation && row.without.empty())
      return &row;
  return nullptr;
}

// The served outline of each imager that serves something, asked of that imager alone.
void addOutlines(const proof::Question& question, const proof::RequirementProof* row,
                 double cell_m, Sheet& sheet, const Progress& progress) {
  if (!row || row->imagers.size() > kOutlinesMost) return;
  for (const proof::Contribution& part : row->imagers) {
    if (part.serves <= 0) continue;
    proof::Question alone = question;
    alone.imagers_needed = 1;
    std::vector<design::PosedImager> views;
    for (const design::PosedImager& view : question.views)
      if (view.imager == part.imager) views.push_back(view);
    proof::replaceViews(alone, std::move(views));
    const proof::SpotMap spots = proof::spotMap(alone, cell_m, kOutlineSpotsMost, progress);
    sheet.outlines.push_back({part.imager, question.requirement->id,
                              servedArea({spots, question.region})});
  }
}

void addMaps(Sheet& sheet, const std::shared_ptr<const proof::Place>& place,
             const design::Situation& situation, double scale, const Progress& progress) {
  std::vector<proof::Question> questions;
  double area_m2 = 0;
  for (const design::Requirement* requirement : shownOn(sheet)) {
    // A withheld zone is judged by what can be had of any height of it, which no hatch says.
    if (requirement->kind == design::RequirementKind::withhold) continue;
    questions.push_back(proof::makeQuestion(sheet.design, *requirement, situation, place));
    area_m2 += questions.back().region_m2;
  }
  const double cell_m =
      std::max(kCellMm * scale / 1000, std::sqrt(area_m2 / static_cast<double>(kSpotsMost)));
  std::vector<ZoneMap> maps;
  for (const proof::Question& question : questions) {
    if (question.region.empty()) continue;
    maps.push_back({proof::spotMap(question, cell_m, kSpotsMost, progress), question.region});
    addOutlines(question, rowOf(sheet, *question.requirement), cell_m, sheet, progress);
  }
  sheet.maps.set(std::move(maps));
}

// Blind zones of the storey's housings for the lowest target that the sheet shows.
void addBlindZones(Sheet& sheet, const design::Situation& situation, const Progress& progress) {
  std::optional<double> lowest_m;
  for (const design::Requirement* requirement : shownOn(sheet)) {
    const double low_m = design::bandOf(requirement->target)[0];
    lowest_m = std::min(lowest_m.value_or(low_m), low_m);
  }
  if (!lowest_m) return;
  std::vector<const design::Housing*> housings;
  for (const design::Housing& housing : sheet.design->housings)
    if (housing.life != design::Life::removed && drawnOn(sheet.design, housing, storeyOf(sheet)))
      housings.push_back(&housing);
  sheet.blind_zones = proof::blindZones(sheet.design, housings, situation, {*lowest_m},
                                        proof::BlindOf::housings, progress);
}

// The light on the storey, as fine as kLightMm on paper, where the plan shows it.
void addNight(Sheet& sheet, const std::shared_ptr<const proof::Place>& place,
              const design::Situation& situation, const Layout& layout, const Progress& progress) {
  const auto lighting = proof::makeLighting(sheet.design, situation, *place, place->folder);
  NightOptions options;
  options.shown = lightCountsFor(sheet.design, shownOn(sheet), sheet.selected_requirement);
  const ToPaper& to_paper = layout.to_paper;
  const auto site = [&](Vec2 paper) {
    const Vec2 off = (paper - to_paper.paper_mm) / to_paper.mm_per_m;
    return Vec2{to_paper.site_m.x + off.x, to_paper.site_m.y - off.y};
  };
  options.within.add(site(layout.plan.low));
  options.within.add(site(layout.plan.high));
  options.cell_m = kLightMm / to_paper.mm_per_m;
  std::vector<design::PosedImager> views;
  for (const design::PosedImager& view : sheet.imagers)
    if (view.stream.empty()) views.push_back(view);
  if (auto night = nightPlan(sheet.design, storeyOf(sheet), situation, lighting->light,
                             {&place->scene, &place->tree}, views, options, progress))
    sheet.night = std::make_shared<const NightPlan>(std::move(*night));
}

}  // namespace

std::vector<const design::Requirement*> shownOn(const Sheet& sheet) {
  const design::Situation situation = situationOf(sheet);
  const design::Requirement* selected =
      design::findRequirement(sheet.design, sheet.selected_requirement);
  std::vector<const design::Requirement*> shown;
  for (const design::Zone& zone : sheet.design->site.zones) {
    if (zone.storey != sheet.storey || !standsIn(sheet.design, zone.id.text, situation)) continue;
    const design::Requirement* first = nullptr;
    if (selected && selected->zone == zone.id) first = selected;
    for (const design::Requirement& requirement : sheet.design->brief)
      if (!first && requirement.zone == zone.id &&
          requirement.kind == design::RequirementKind::see &&
          holdsIn(sheet.design, requirement, sheet.situation))
        first = &requirement;
    if (first) shown.push_back(first);
  }
  return shown;
}

const design::Requirement* lightCountsFor(const design::Design& design,
                                          const std::vector<const design::Requirement*>& shown,
                                          const design::RequirementId& selected) {
  const design::Requirement* counts = nullptr;
  double largest_m2 = 0;
  for (const design::Requirement* requirement : shown) {
    if (requirement->id == selected) return requirement;
    const design::Zone* zone = design::findZone(design, requirement->zone);
    const double m2 = zone ? std::abs(signedArea(zone->outline)) : 0;
    if (m2 <= largest_m2) continue;
    counts = requirement;
    largest_m2 = m2;
  }
  return counts;
}

void takeSpots(Sheet& sheet, const std::shared_ptr<const proof::Place>& place,
               const Progress& progress, double width_mm, double height_mm) {
  sheet.maps = {};
  sheet.outlines.clear();
  sheet.blind_zones.clear();
  sheet.night.reset();
  const design::Situation situation = situationOf(sheet);
  addMaps(sheet, place, situation, scaleOf(sheet, width_mm, height_mm), progress);
  addBlindZones(sheet, situation, progress);
  addNight(sheet, place, situation, layoutOf(sheet, width_mm, height_mm), progress);
}

}  // namespace belvedere::drawing
