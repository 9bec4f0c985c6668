// SPDX-License-Identifier: GPL-3.0-or-later
//
// The looking thread: what is shown first, in a frame's time while a hand drags, then the rest of
// the brief; evaluator_draw.cpp draws what takes longer once the hand rests.
#include <QString>

#include <algorithm>
#include <chrono>
#include <cmath>

#include "base/problem.h"
#include "desk/evaluator_in_window.h"
#include "drawing/plan_shapes.h"
#include "drawing/sheet_parts.h"

namespace belvedere::desk {
namespace {

using design::Design;
using design::Requirement;
using design::Situation;
using namespace std::chrono_literals;

constexpr double kFrameMs = 4;        // of a look while dragging: a quarter of a frame; painting needs the rest
constexpr double kRestMs = 80;        // of a look at what is shown, once the hand rests
constexpr double kZoneRestMs = 20;    // and of each zone at least: a finer lattice takes as long to be laid out
constexpr double kOtherMs = 25;       // of a look at the other requirements
constexpr double kOtherFrameMs = 3;   // and while dragging
// At rest, spots are no farther apart than the first, or than so many of them fill a large zone.
constexpr double kFineM = 0.1, kMostSpots = 60'000;
constexpr auto kPaintedIn = 40ms;     // longest wait for the window to paint a frame
constexpr auto kRestFor = 160ms;      // a hand that has not moved for so long rests
constexpr auto kLightAfter = 1500ms;  // of a wash that gets finer; then the light comes between

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

const Situation* situationIn(const std::vector<Situation>& all, const design::SituationId& id) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Situation& s) { return s.id == id; });
  return found == all.end() ? nullptr : &*found;
}

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

// A look under load may stay coarse: it goes on in turns, hovered spots between, until it is fine.
void Evaluator::lookLoop() {
  using Clock = std::chrono::steady_clock;
  std::optional<Wish> unfinished;
  Clock::time_point since;  // of the unfinished one
  bool lit = false;         // and whether its light is drawn
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
        since = Clock::now();
        lit = false;
      } else if (spot) {
        explain(*spot);
      } else if (!refine(*unfinished)) {
        unfinished.reset();
      } else if (!lit && Clock::now() - since > kLightAfter) {
        lit = true;
        drawNight(*unfinished);  // kept: once the wash is fine it costs nothing
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
  if (fine) drawTheRest(wish);
  return !fine;
}

bool Evaluator::refine(const Wish& wish) {
  looks_.setDesign(wish.design, wish.folder);
  if (!lookAtZones(wish, kRestMs)) return true;
  drawTheRest(wish);
  return false;
}

// What takes long, once the wash is fine. Light before the areas, whose lines its own take the place of.
void Evaluator::drawTheRest(const Wish& wish) {
  drawNight(wish);
  drawAreas(wish);
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
    const double part_ms = std::max(budget_ms / static_cast<double>(shown.size()),
                                    budget_ms < kRestMs ? 0 : kZoneRestMs);
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
        looks_.outlineOf(*requirement, *situation, wish.imager, wish.aim, part_ms, looks_progress_);
    if (!outline) continue;
    countIn(outline->spacing_m);
    if (!outline->outline.served.empty()) outlines.push_back(std::move(outline->outline));
  }
  std::optional<LiveSection> section;
  std::shared_ptr<const proof::PreviewPlace> place;
  if (situation) {
    place = looks_.placeOf(*situation);
    if (!wish.imager.empty()) {
      section = liveSection(looks_, wish.imager, wish.aim, wish.requirement, wish.storey, *situation);
      if (outlines.empty())  // something to take hold of
        if (auto frame = frameOutline(looks_, wish.imager, wish.aim, wish.requirement, wish.storey,
                                      *situation))
          outlines.push_back(std::move(*frame));
    }
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
    next->looked_for = wish.number;
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

}  // namespace belvedere::desk
