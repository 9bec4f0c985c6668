// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the looking thread draws once the hand rests: areas of the wash, blind zones, light by night;
// and what it says of a spot.
#include <algorithm>

#include "desk/evaluator_in_window.h"
#include "drawing/make_sheet.h"
#include "drawing/plan_shapes.h"
#include "drawing/sheet_parts.h"
#include "proof/blind.h"
#include "proof/conditions.h"

namespace belvedere::desk {
namespace {

using design::Design;
using design::Requirement;
using design::Situation;

constexpr double kBlindTargetM = 0;   // blind zones are drawn for the floor where nobody asks else

}  // namespace

bool lightsAlike(const Night& night, const Design& design, const design::StoreyId& storey,
                 const Situation& situation) {
  if (night.storey != storey || night.situation != situation) return false;
  const Design& was = *night.design;
  return &was == &design || (was.site == design.site && was.catalogue == design.catalogue &&
                             was.library == design.library && was.housings == design.housings);
}

bool holdsFor(const Night& night, const Design& design, const design::StoreyId& storey,
              const Situation& situation, const design::RequirementId& selected) {
  const auto onTheSamePlane = [&](const Requirement* requirement) {
    return requirement && night.counts_for && requirement->target == night.counts_for->target;
  };
  if (selected != night.selected && !onTheSamePlane(design::findRequirement(design, selected)))
    return false;
  if (night.counts_for &&
      !onTheSamePlane(design::findRequirement(design, night.counts_for->id)))
    return false;
  return lightsAlike(night, design, storey, situation);
}

// What the shown maps look like as areas and contour lines, for a sheet that stands still.
void Evaluator::drawAreas(const Wish& wish) {
  if (areas_ || newerWish()) return;
  auto areas = std::make_shared<std::vector<drawing::ZoneAreas>>();
  const std::vector<design::TaskLine> tasks = drawing::taskLinesOf(*wish.design);
  for (const drawing::ZoneMap& map : *maps_) {
    areas->push_back(drawing::zoneAreas(map, tasks));
    if (newerWish()) return;
  }
  areas_ = std::move(areas);
  inWindow([this, maps = maps_, areas = areas_] {
    if (now_->maps != maps) return;
    auto next = std::make_shared<Evaluation>(*now_);
    next->areas = areas;
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
}

void Evaluator::drawBlindZones(const Wish& wish) {
  const std::vector<Situation> all = design::situationsOf(*wish.design);
  const Situation* situation = situationIn(all, wish.situation);
  const design::Storey* storey = design::findStorey(*wish.design, wish.storey);
  if (!situation || !storey) return;
  std::vector<const design::Housing*> housings;
  for (const design::Housing& housing : wish.design->housings)
    if (housing.life != design::Life::removed &&
        drawing::drawnOn(*wish.design, housing, *storey))
      housings.push_back(&housing);
  std::optional<double> lowest_m;
  for (const Requirement* requirement : shownOn(*wish.design, wish, *situation)) {
    const double low_m = design::bandOf(requirement->target)[0];
    lowest_m = std::min(lowest_m.value_or(low_m), low_m);
  }
  auto zones = proof::blindZones(*wish.design, housings, *situation,
                                 {lowest_m.value_or(kBlindTargetM)}, proof::BlindOf::housings,
                                 looks_progress_);
  inWindow([this, zones = std::move(zones), version = wish.version]() mutable {
    if (version != now_->version) return;
    auto next = std::make_shared<Evaluation>(*now_);
    next->blind_zones = std::move(zones);
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
}

// The light on the storey, unless what is known of it holds still.
void Evaluator::drawNight(const Wish& wish) {
  const std::vector<Situation> all = design::situationsOf(*wish.design);
  const Situation* situation = situationIn(all, wish.situation);
  const design::Storey* storey = design::findStorey(*wish.design, wish.storey);
  if (!situation || situation->lights.empty() || !storey || newerWish()) return;
  const Requirement* counts = drawing::lightCountsFor(
      *wish.design, shownOn(*wish.design, wish, *situation), wish.requirement);
  auto night = std::make_shared<Night>(Night{wish.design, wish.folder, wish.storey, *situation,
                                             wish.requirement, std::nullopt, nullptr});
  if (counts) night->counts_for = *counts;
  const bool same_plane =
      night_ && night_->counts_for.has_value() == night->counts_for.has_value() &&
      (!counts || night_->counts_for->target == counts->target);
  if (same_plane && night_->folder == wish.folder &&
      lightsAlike(*night_, *wish.design, wish.storey, *situation)) {
    night->plan = night_->plan;
  } else {
    const auto place = looks_.placeOf(*situation)->place();
    const auto lighting = proof::makeLighting(*wish.design, *situation, *place, wish.folder);
    drawing::NightOptions options;
    options.shown = counts;
    if (auto plan = drawing::nightPlan(*wish.design, *storey, *situation, lighting->light,
                                       {&place->scene, &place->tree},
                                       design::posedImagers(*wish.design, design::JudgedOn::captured),
                                       options, looks_progress_))
      night->plan = std::make_shared<const drawing::NightPlan>(std::move(*plan));
  }
  night_ = night;
  inWindow([this, night = std::move(night)] {
    auto next = std::make_shared<Evaluation>(*now_);
    next->night = night;  // says itself what it is of
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
}

void Evaluator::explain(const SpotWish& spot) {
  looks_.setDesign(spot.design, spot.folder);
  const Requirement* requirement = design::findRequirement(*spot.design, spot.requirement);
  const std::vector<Situation> all = design::situationsOf(*spot.design);
  const Situation* situation = situationIn(all, spot.situation);
  if (!requirement || !situation) return;
  const proof::Question* question = looks_.questionOf(*requirement, *situation);
  if (!question) return;
  const auto tell = [&](const proof::SpotExplanation& found, bool changes_sought) {
    inWindow([this, changes_sought, spot,
              copy = std::make_shared<const proof::SpotExplanation>(found)] {
      Q_EMIT explained(copy, changes_sought, spot);
    });
  };
  proof::SpotExplanation found = proof::explainSpot(*spot.design, *question, spot.at);
  tell(found, false);
  if (!spot.changes || found.nearest.reason == proof::Reason::served || !found.inside) return;
  found.changes = proof::changesFor(*spot.design, *question, found, {}, looks_progress_);
  tell(found, true);
}

}  // namespace belvedere::desk
