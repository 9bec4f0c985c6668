// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/evaluator.h"

#include <QMetaObject>
#include <QString>

#include <algorithm>
#include <chrono>

#include "base/problem.h"
#include "drawing/plan_shapes.h"
#include "proof/blind.h"
#include "proof/prove.h"
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
constexpr auto kRestFor = 160ms;      // a hand that has not moved for so long rests
constexpr double kBlindTargetM = 0;   // blind zones are drawn for the floor where nobody asks else

proof::RequirementProof rowOf(const Requirement& requirement, const Situation& situation) {
  proof::RequirementProof row;
  row.requirement = requirement.id;
  row.situation = situation.id;
  row.kind = requirement.kind;
  row.asked = requirement.share;
  return row;
}

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

bool judged(const Requirement& requirement) {
  return requirement.kind == design::RequirementKind::see ||
         requirement.kind == design::RequirementKind::withhold;
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

}  // namespace

template <class Action>
void Evaluator::inWindow(Action action) {
  QMetaObject::invokeMethod(this, std::move(action), Qt::QueuedConnection);
}

Evaluator::Evaluator(QObject* parent) : QObject(parent), now_(std::make_shared<Evaluation>()) {
  qRegisterMetaType<std::shared_ptr<const proof::SpotExplanation>>();
  proofs_progress_.report = [this](double share, std::string_view what) {
    const QString words = QString::fromUtf8(what.data(), static_cast<qsizetype>(what.size()));
    inWindow([this, share, words] { Q_EMIT progressed(share, words); });
  };
  look_thread_ = std::thread([this] { lookLoop(); });
  prove_thread_ = std::thread([this] { proveLoop(); });
}

Evaluator::~Evaluator() {
  {
    const std::lock_guard lock(mutex_);
    quit_ = true;
    looks_progress_.cancel = proofs_progress_.cancel = true;
  }
  wake_looks_.notify_one();
  wake_proofs_.notify_one();
  look_thread_.join();
  prove_thread_.join();
}

// ---- the window's thread ------------------------------------------------------------------------

void Evaluator::wish(Wish wish) {
  start(wish);
  {
    const std::lock_guard lock(mutex_);
    if (!in_a_frame_) looks_progress_.cancel = true;
    if (wish.version != proving_version_) proofs_progress_.cancel = true;
    proof_wish_.reset();
    wish_ = std::move(wish);
  }
  wake_looks_.notify_one();
}

void Evaluator::ask(SpotWish spot) {
  {
    const std::lock_guard lock(mutex_);
    spot_ = std::move(spot);
  }
  wake_looks_.notify_one();
}

void Evaluator::cancel() {
  const std::lock_guard lock(mutex_);
  wish_.reset();
  proof_wish_.reset();
  spot_.reset();
  proving_version_ = 0;
  looks_progress_.cancel = proofs_progress_.cancel = true;
}

void Evaluator::setBusy(int by) {
  inWindow([this, by] {
    const bool was = busy_ > 0;
    busy_ += by;
    if (was != (busy_ > 0)) Q_EMIT busyChanged(busy_ > 0);
  });
}

// The rows of the brief as it is now; what is known of them stays until better is known.
void Evaluator::start(const Wish& wish) {
  auto next = std::make_shared<Evaluation>(*now_);
  const std::vector<LedgerRow> old_rows = std::move(next->rows);
  next->rows.clear();
  for (const Requirement& requirement : wish.design->brief) {
    if (!judged(requirement)) continue;
    for (const Situation& situation : design::situationsOf(*wish.design, requirement)) {
      const auto old = std::find_if(old_rows.begin(), old_rows.end(), [&](const auto& row) {
        return row.proof.requirement == requirement.id && row.proof.situation == situation.id &&
               row.proof.kind == requirement.kind && row.proof.without.empty();
      });
      next->rows.push_back(
          old != old_rows.end() ? *old : LedgerRow{rowOf(requirement, situation), {}, 0});
      next->rows.back().proof.asked = requirement.share;
    }
  }
  for (const LedgerRow& row : old_rows)  // losses, until the next proof says them anew
    if (!row.proof.without.empty() && design::findRequirement(*wish.design, row.proof.requirement))
      next->rows.push_back(row);
  next->version = wish.version;
  next->wholly_proven = next->wholly_proven && now_->version == wish.version;
  now_ = std::move(next);
}

void Evaluator::take(const std::vector<proof::RequirementProof>& rows, Known known,
                     quint64 version) {
  if (version != now_->version) return;
  auto next = std::make_shared<Evaluation>(*now_);
  for (const proof::RequirementProof& proof : rows) {
    const auto row = std::find_if(next->rows.begin(), next->rows.end(), [&](const LedgerRow& r) {
      return r.proof.requirement == proof.requirement && r.proof.situation == proof.situation &&
             r.proof.without == proof.without;
    });
    if (row == next->rows.end()) {
      if (!proof.without.empty()) next->rows.push_back({proof, known, version});
    } else if (known == Known::proven || row->known != Known::proven || row->version != version) {
      *row = {proof, known, version};
    }
  }
  now_ = std::move(next);
}

// ---- the looking thread -------------------------------------------------------------------------

void Evaluator::lookLoop() {
  for (;;) {
    std::optional<Wish> wish;
    std::optional<SpotWish> spot;
    {
      std::unique_lock lock(mutex_);
      wake_looks_.wait(lock, [&] { return wish_ || spot_ || quit_; });
      if (quit_) return;
      std::swap(wish, wish_);
      if (!wish) std::swap(spot, spot_);
      looks_progress_.cancel = false;
    }
    setBusy(+1);
    try {
      if (wish) look(*wish);
      if (spot) explain(*spot);
    } catch (const Cancelled&) {
    } catch (const InputError& error) {
      const QString sentence = QString::fromStdString(error.problems().front().what);
      inWindow([this, sentence] { Q_EMIT failed(sentence); });
    }
    in_a_frame_ = false;
    setBusy(-1);
  }
}

bool Evaluator::newerWish() {
  const std::lock_guard lock(mutex_);
  return wish_ || quit_;
}

void Evaluator::look(const Wish& wish) {
  looks_.setDesign(wish.design, wish.folder);
  in_a_frame_ = true;
  lookAtZones(wish, kFrameMs);
  in_a_frame_ = false;
  lookAtTheRest(wish);
  if (wish.dragging) return;
  {  // is the hand at rest?
    std::unique_lock lock(mutex_);
    if (wake_looks_.wait_for(lock, kRestFor, [&] { return wish_ || quit_; })) return;
    if (proving_version_ != wish.version) {
      proof_wish_ = wish;
      proving_version_ = wish.version;
      proofs_progress_.cancel = true;
      wake_proofs_.notify_one();
    }
  }
  lookAtZones(wish, kRestMs);
  drawBlindZones(wish);
}

void Evaluator::lookAtZones(const Wish& wish, double budget_ms) {
  const std::vector<Situation> all = design::situationsOf(*wish.design);
  const Situation* situation = situationIn(all, wish.situation);
  std::vector<drawing::ZoneMap> maps;
  std::vector<drawing::ImagerOutline> outlines;
  std::vector<proof::RequirementProof> rows;
  double look_ms = 0;
  const std::vector<const Requirement*> shown =
      situation ? shownOn(*wish.design, wish, *situation) : std::vector<const Requirement*>{};
  for (const Requirement* requirement : shown) {
    const double part_ms = budget_ms / static_cast<double>(shown.size());
    const auto preview = looks_.look(*requirement, *situation, part_ms, looks_progress_);
    if (!preview) continue;
    const proof::Question& question = *looks_.questionOf(*requirement, *situation);
    look_ms += preview->used_ms;
    maps.push_back({preview->map, question.region});
    rows.push_back(rowOf(*preview, question));
    if (wish.imager.empty()) continue;
    auto outline =
        looks_.outlineOf(*requirement, *situation, wish.imager, part_ms, looks_progress_);
    if (outline) outlines.push_back(std::move(*outline));
  }
  std::optional<LiveSection> section;
  std::shared_ptr<const proof::PreviewPlace> place;
  if (situation) {
    place = looks_.placeOf(*situation);
    if (!wish.imager.empty())
      section = liveSection(looks_, wish.imager, wish.requirement, wish.storey, *situation);
  }
  inWindow([this, wish, maps = std::move(maps), outlines = std::move(outlines),
            rows = std::move(rows), section = std::move(section), place = std::move(place),
            look_ms]() mutable {
    if (wish.version != now_->version) return;
    take(rows, Known::preview, wish.version);
    auto next = std::make_shared<Evaluation>(*now_);
    next->storey = wish.storey;
    next->situation = wish.situation;
    next->maps = std::move(maps);
    next->outlines = std::move(outlines);
    next->section = std::move(section);
    next->place = std::move(place);
    next->look_ms = look_ms;
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
}

void Evaluator::lookAtTheRest(const Wish& wish) {
  std::vector<proof::RequirementProof> rows;
  for (const Requirement& requirement : wish.design->brief) {
    if (requirement.kind != design::RequirementKind::see) continue;
    for (const Situation& situation : design::situationsOf(*wish.design, requirement)) {
      if (newerWish()) return;
      if (const auto preview = looks_.look(requirement, situation, kOtherMs, looks_progress_))
        rows.push_back(rowOf(*preview, *looks_.questionOf(requirement, situation)));
    }
  }
  inWindow([this, rows = std::move(rows), version = wish.version] {
    take(rows, Known::preview, version);
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

void Evaluator::explain(const SpotWish& spot) {
  looks_.setDesign(spot.design, spot.folder);
  const Requirement* requirement = design::findRequirement(*spot.design, spot.requirement);
  const std::vector<Situation> all = design::situationsOf(*spot.design);
  const Situation* situation = situationIn(all, spot.situation);
  if (!requirement || !situation) return;
  const proof::Question* question = looks_.questionOf(*requirement, *situation);
  if (!question) return;
  const auto tell = [&](const proof::SpotExplanation& found, bool changes_sought) {
    inWindow([this, changes_sought,
              copy = std::make_shared<const proof::SpotExplanation>(found)] {
      Q_EMIT explained(copy, changes_sought);
    });
  };
  proof::SpotExplanation found = proof::explainSpot(*spot.design, *question, spot.at);
  tell(found, false);
  if (!spot.changes || found.nearest.reason == proof::Reason::served || !found.inside) return;
  found.changes = proof::changesFor(*spot.design, *question, found, {}, looks_progress_);
  tell(found, true);
}

// ---- the proving thread -------------------------------------------------------------------------

void Evaluator::proveLoop() {
  for (;;) {
    std::optional<Wish> wish;
    {
      std::unique_lock lock(mutex_);
      wake_proofs_.wait(lock, [&] { return proof_wish_ || quit_; });
      if (quit_) return;
      std::swap(wish, proof_wish_);
      proofs_progress_.cancel = false;
    }
    setBusy(+1);
    try {
      prove(*wish);
    } catch (const Cancelled&) {
      const std::lock_guard lock(mutex_);
      if (proving_version_ == wish->version) proving_version_ = 0;
    } catch (const InputError& error) {
      const QString sentence = QString::fromStdString(error.problems().front().what);
      inWindow([this, sentence] { Q_EMIT failed(sentence); });
    }
    setBusy(-1);
  }
}

// The selected requirement first, then all of it.
void Evaluator::prove(const Wish& wish) {
  proof::ProveOptions options;
  options.blind_zones = false;
  if (!wish.requirement.empty() && wish.design->brief.size() > 1) {
    options.only = {wish.requirement};
    proof::Proof first = proof::prove(*wish.design, wish.folder, options, proofs_progress_);
    options.only.clear();
    inWindow([this, first = std::move(first), version = wish.version] {
      take(first.requirements, Known::proven, version);
      Q_EMIT evaluated();
    });
  }
  proof::Proof whole = proof::prove(*wish.design, wish.folder, options, proofs_progress_);
  inWindow([this, whole = std::move(whole), version = wish.version]() mutable {
    if (version != now_->version) return;
    auto cleared = std::make_shared<Evaluation>(*now_);
    std::erase_if(cleared->rows,
                  [](const LedgerRow& row) { return !row.proof.without.empty(); });
    now_ = std::move(cleared);
    take(whole.requirements, Known::proven, version);
    auto next = std::make_shared<Evaluation>(*now_);
    next->findings = std::move(whole.findings);
    next->findings_version = version;
    next->wholly_proven = true;
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
}

}  // namespace belvedere::desk
