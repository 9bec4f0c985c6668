// SPDX-License-Identifier: GPL-3.0-or-later
//
// The looking thread: what is shown first, in a frame's time while a hand drags, then the rest of
// the brief; what takes longer once the hand rests.
#include <QString>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "base/problem.h"
#include "desk/evaluator_in_window.h"
#include "drawing/make_sheet.h"
#include "drawing/plan_shapes.h"
#include "drawing/sheet_parts.h"
#include "proof/blind.h"
#include "proof/conditions.h"
#include "scene/presence.h"

namespace belvedere::desk {
namespace {

using design::Design;
using design::Requirement;
using design::Situation;
using namespace std::chrono_literals;

constexpr double kFrameMs = 4;        // of a look while dragging: a quarter of a frame; painting needs the rest
constexpr double kRestMs = 80;        // of a look at what is shown, once the hand rests
constexpr double kOtherMs = 25;       // of a look at the other requirements
constexpr double kOtherFrameMs = 3;   // and while dragging
// At rest, spots are no farther apart than the first, or than so many of them fill a large zone.
constexpr double kFineM = 0.1, kMostSpots = 60'000;
constexpr auto kPaintedIn = 40ms;     // longest wait for the window to paint a frame
constexpr auto kRestFor = 160ms;      // a hand that has not moved for so long rests
constexpr double kBlindTargetM = 0;   // blind zones are drawn for the floor where nobody asks else

proof::RequirementProof rowOf(const proof::Preview& preview, const proof::Question& question) {
  proof::RequirementProof row;
  row.requirement = preview.requirement;
  row.situation = preview.situation;
  row.asked = preview.asked;
  row.share = {preview.share, preview.share};
  row.needed_px_per_m = preview.needed_px_per_m;
  row.zone_m2 = question.region_m2;
  row.reasons = preview.reasons;
  row.imagers = preview.imagers;
  return row;
}

const Situation* situationIn(const std::vector<Situation>& all, const design::SituationId& id) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Situation& s) { return s.id == id; });
  return found == all.end() ? nullptr : &*found;
}

// What each zone of the storey shows: the selected requirement, else its first.
std::vector<const Requirement*> shownOn(const Design& design, const Wish& wish,
                                        const Situation& situation) {
  std::vector<const Requirement*> shown;
  for (const design::Zone& zone : design.site.zones) {
    if (zone.storey != wish.storey || !drawing::standsIn(design, zone.id.text, situation)) continue;
    const Requirement* of_zone = nullptr;
    for (const Requirement& requirement : design.brief) {
      if (requirement.zone != zone.id || requirement.kind != design::RequirementKind::see ||
          !situationIn(design::situationsOf(design, requirement), situation.id))
        continue;
      if (!of_zone || requirement.id == wish.requirement) of_zone = &requirement;
    }
    if (!of_zone) continue;
    // One selected requirement is shown alone: its zone may lie on another.
    if (!wish.requirement.empty() && of_zone->id != wish.requirement &&
        design::findRequirement(design, wish.requirement) &&
        design::findRequirement(design, wish.requirement)->kind == design::RequirementKind::see)
      continue;
    shown.push_back(of_zone);
  }
  return shown;
}

bool showTheSame(const drawing::ZoneMap& a, const drawing::ZoneMap& b) {
  const proof::SpotMap &p = a.spots, &q = b.spots;
  return p.requirement == q.requirement && p.situation == q.situation && p.origin == q.origin &&
         p.turn_deg == q.turn_deg && p.cell_m == q.cell_m && p.columns == q.columns &&
         p.needed_px_per_m == q.needed_px_per_m && p.imagers == q.imagers &&
         a.judged == b.judged &&
         std::equal(p.spots.begin(), p.spots.end(), q.spots.begin(), q.spots.end(),
                    [](const proof::Spot& s, const proof::Spot& t) {
                      return s.reason == t.reason && s.margin == t.margin &&
                             s.px_per_m == t.px_per_m && s.imager == t.imager &&
                             s.inside == t.inside;
                    });
}

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

// A look under load may stay coarse: it goes on in turns, hovered spots between, until it is fine.
void Evaluator::lookLoop() {
  std::optional<Wish> unfinished;
  bool busy = false;
  const auto setLooking = [&](bool now) {
    if (now != busy) setBusy(now ? +1 : -1);
    busy = now;
  };
  for (;;) {
    std::optional<Wish> wish;
    std::optional<SpotWish> spot;
    {
      std::unique_lock lock(mutex_);
      if (looks_progress_.cancel || wish_) unfinished.reset();
      const auto asked = [&] { return wish_ || pointer_spot_ || requirement_spot_; };
      if (!asked() && !unfinished) {
        setLooking(false);
        wake_looks_.wait(lock, [&] { return asked() || quit_; });
      }
      if (quit_) return;
      std::swap(wish, wish_);
      if (!wish) std::swap(spot, pointer_spot_ ? pointer_spot_ : requirement_spot_);
      looks_progress_.cancel = false;
    }
    setLooking(true);
    try {
      if (wish) {
        unfinished.reset();
        if (look(*wish)) unfinished = std::move(wish);
      } else if (spot) {
        explain(*spot);
      } else if (!refine(*unfinished)) {
        unfinished.reset();
      }
    } catch (const Cancelled&) {
      if (spot) askAgain(std::move(*spot));
      else unfinished.reset();
    } catch (const InputError& error) {
      unfinished.reset();
      const QString sentence = QString::fromStdString(error.problems().front().what);
      inWindow([this, sentence] { Q_EMIT failed(sentence); });
    }
    in_a_frame_ = false;
  }
}

// What a newer wish for the same design broke off.
void Evaluator::askAgain(SpotWish spot) {
  const std::lock_guard lock(mutex_);
  std::optional<SpotWish>& slot = slotOf(spot);
  if (wish_ && wish_->version == spot.version && !slot) slot = std::move(spot);
}

bool Evaluator::newerWish() {
  const std::lock_guard lock(mutex_);
  return wish_ || quit_;
}

bool Evaluator::look(const Wish& wish) {
  looks_.setDesign(wish.design, wish.folder);
  in_a_frame_ = true;
  lookAtZones(wish, kFrameMs);
  in_a_frame_ = false;
  if (wish.dragging) {  // the window's frame comes first
    std::unique_lock lock(mutex_);
    wake_looks_.wait_for(lock, kPaintedIn, [&] {
      return wish_ || quit_ || painted_version_ == wish.version;
    });
  }
  lookAtTheRest(wish);
  if (wish.dragging) return false;
  {  // is the hand at rest?
    std::unique_lock lock(mutex_);
    if (wake_looks_.wait_for(lock, kRestFor, [&] { return wish_ || quit_; })) return false;
    if (looks_progress_.cancel) return false;  // stopped while it rested
    if (proving_version_ != wish.version) {
      proof_wish_ = wish;
      proving_version_ = wish.version;
      proofs_progress_.cancel = true;
      wake_proofs_.notify_one();
    }
  }
  const bool fine = lookAtZones(wish, kRestMs);
  drawBlindZones(wish);
  drawNight(wish);  // before the areas, whose lines it takes the place of
  if (fine) drawAreas(wish);
  return !fine;
}

bool Evaluator::refine(const Wish& wish) {
  looks_.setDesign(wish.design, wish.folder);
  if (!lookAtZones(wish, kRestMs)) return true;
  drawAreas(wish);
  return false;
}

bool Evaluator::lookAtZones(const Wish& wish, double budget_ms) {
  const std::vector<Situation> all = design::situationsOf(*wish.design);
  const Situation* situation = situationIn(all, wish.situation);
  auto maps = std::make_shared<std::vector<drawing::ZoneMap>>();
  std::vector<drawing::ImagerOutline> outlines;
  std::vector<proof::RequirementProof> rows;
  double look_ms = 0, spacing_m = 0;
  bool fine = true;
  const std::vector<const Requirement*> shown =
      situation ? shownOn(*wish.design, wish, *situation) : std::vector<const Requirement*>{};
  for (const Requirement* requirement : shown) {
    const double part_ms = budget_ms / static_cast<double>(shown.size());
    const auto preview = looks_.look(*requirement, *situation, part_ms, looks_progress_);
    if (!preview) continue;
    const proof::Question& question = *looks_.questionOf(*requirement, *situation);
    look_ms += preview->used_ms;
    const double fine_m = std::max(kFineM, std::sqrt(question.region_m2 / kMostSpots));
    const auto countIn = [&](double found_m) {
      spacing_m = std::max(spacing_m, found_m);
      fine = fine && found_m <= fine_m;
    };
    countIn(preview->spacing_m);
    maps->push_back({preview->map, question.region});
    rows.push_back(rowOf(*preview, question));
    if (wish.imager.empty()) continue;
    auto outline =
        looks_.outlineOf(*requirement, *situation, wish.imager, part_ms, looks_progress_);
    if (!outline) continue;
    countIn(outline->spacing_m);
    outlines.push_back(std::move(outline->outline));
  }
  std::optional<LiveSection> section;
  std::shared_ptr<const proof::PreviewPlace> place;
  if (situation) {
    place = looks_.placeOf(*situation);
    if (!wish.imager.empty())
      section = liveSection(looks_, wish.imager, wish.requirement, wish.storey, *situation);
  }
  if (!maps_ || !std::equal(maps->begin(), maps->end(), maps_->begin(), maps_->end(), showTheSame)) {
    maps_ = std::move(maps);
    areas_.reset();
  }
  inWindow([this, wish, maps = maps_, areas = areas_, outlines = std::move(outlines),
            rows = std::move(rows), section = std::move(section), place = std::move(place),
            look_ms, spacing_m, finer_comes = !fine]() mutable {
    if (wish.version != now_->version) return;
    take(rows, Known::preview, wish.version);
    auto next = std::make_shared<Evaluation>(*now_);
    next->storey = wish.storey;
    next->situation = wish.situation;
    next->maps = std::move(maps);
    next->areas = std::move(areas);
    next->outlines = std::move(outlines);
    next->section = std::move(section);
    next->place = std::move(place);
    next->look_ms = look_ms;
    next->spacing_m = spacing_m;
    next->finer_comes = finer_comes;
    ++next->look;
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
  return fine;
}

// While a hand drags, in turns, so that each row is live though a frame has time for few.
void Evaluator::lookAtTheRest(const Wish& wish) {
  std::vector<std::pair<const Requirement*, Situation>> all;
  for (const Requirement& requirement : wish.design->brief)
    if (requirement.kind == design::RequirementKind::see)
      for (Situation& situation : design::situationsOf(*wish.design, requirement))
        all.emplace_back(&requirement, std::move(situation));
  if (all.empty()) return;
  if (!wish.dragging) rest_from_ = 0;
  std::vector<proof::RequirementProof> rows;
  const auto tell = [&] {
    inWindow([this, rows, version = wish.version] {
      if (version != now_->version) return;
      take(rows, Known::preview, version);
      Q_EMIT evaluated();
    });
  };
  try {
    for (std::size_t i = 0; i < all.size() && !newerWish(); ++i, ++rest_from_) {
      const auto& [requirement, situation] = all[rest_from_ % all.size()];
      if (const auto preview =
              looks_.look(*requirement, situation, wish.dragging ? kOtherFrameMs : kOtherMs,
                          looks_progress_))
        rows.push_back(rowOf(*preview, *looks_.questionOf(*requirement, situation)));
    }
  } catch (const Cancelled&) {  // those that are known are known
    tell();
    throw;
  }
  tell();
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
