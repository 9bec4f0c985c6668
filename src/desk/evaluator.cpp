// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window's thread and the proving thread; evaluator_look.cpp is the looking one.
#include "desk/evaluator.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QString>
#include <QThread>

#include <algorithm>
#include <iterator>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "base/problem.h"
#include "desk/evaluator_in_window.h"
#include "proof/prove.h"
#include "proof/sun_findings.h"
#include "requirements/prove.h"

namespace belvedere::desk {
namespace {

using design::Requirement;
using design::Situation;

proof::RequirementProof rowOf(const Requirement& requirement, const Situation& situation) {
  proof::RequirementProof row;
  row.requirement = requirement.id;
  row.situation = situation.id;
  row.kind = requirement.kind;
  row.asked = requirement.share;
  return row;
}

// A row among many: a brief may hold thousands.
struct RowKey {
  std::string_view requirement, situation, without;
  bool operator==(const RowKey&) const = default;
};
struct RowHash {
  std::size_t operator()(const RowKey& key) const {
    const std::hash<std::string_view> hash;
    return (hash(key.requirement) * 31 + hash(key.situation)) * 31 + hash(key.without);
  }
};
RowKey keyOf(const proof::RequirementProof& proof) {
  return {proof.requirement.text, proof.situation.text, proof.without};
}
using RowPlaces = std::unordered_map<RowKey, std::size_t, RowHash>;
// Good as long as the rows' own words stay where they are.
RowPlaces placesOf(const std::vector<LedgerRow>& rows) {
  RowPlaces places;
  for (std::size_t i = 0; i < rows.size(); ++i) places.emplace(keyOf(rows[i].proof), i);
  return places;
}

bool judged(const Requirement& requirement) {
  return requirement.kind == design::RequirementKind::see ||
         requirement.kind == design::RequirementKind::withhold;
}

}  // namespace

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
  wish.number = ++wishes_;
  awaited_ = true;
  start(wish);
  {
    const std::lock_guard lock(mutex_);
    if (!in_a_frame_) looks_progress_.cancel = true;
    if (wish.version != proving_version_) proofs_progress_.cancel = true;
    if (proof_wish_) {  // nobody has begun it
      proof_wish_.reset();
      proving_version_ = 0;
    }
    for (std::optional<SpotWish>* spot : {&pointer_spot_, &requirement_spot_})
      if (*spot && (*spot)->version != wish.version) spot->reset();
    wish_ = std::move(wish);
  }
  wake_looks_.notify_one();
}

bool Evaluator::awaitLook(int at_most_ms) {
  QElapsedTimer timer;
  timer.start();
  while (awaited_ && now_->looked_for != wishes_ && timer.elapsed() < at_most_ms) {
    QCoreApplication::sendPostedEvents(this, QEvent::MetaCall);
    if (now_->looked_for != wishes_) QThread::msleep(1);
  }
  return now_->looked_for == wishes_;
}

void Evaluator::painted() {
  {
    const std::lock_guard lock(mutex_);
    painted_version_ = now_->version;
  }
  wake_looks_.notify_one();
}

void Evaluator::ask(SpotWish spot) {
  {
    const std::lock_guard lock(mutex_);
    std::optional<SpotWish>& slot = slotOf(spot);
    slot = std::move(spot);
  }
  wake_looks_.notify_one();
}

void Evaluator::cancel() {
  awaited_ = false;
  const std::lock_guard lock(mutex_);
  wish_.reset();
  proof_wish_.reset();
  pointer_spot_.reset();
  requirement_spot_.reset();
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
  const RowPlaces known = placesOf(old_rows);
  std::unordered_set<std::string_view> asked;
  for (const Requirement& requirement : wish.design->brief) {
    asked.insert(requirement.id.text);
    if (!judged(requirement)) continue;
    for (const Situation& situation : design::situationsOf(*wish.design, requirement)) {
      const auto old = known.find({requirement.id.text, situation.id.text, {}});
      const bool same =
          old != known.end() && old_rows[old->second].proof.kind == requirement.kind;
      next->rows.push_back(same ? old_rows[old->second]
                                : LedgerRow{rowOf(requirement, situation), {}, 0});
      next->rows.back().proof.asked = requirement.share;
    }
  }
  for (const LedgerRow& row : old_rows)  // losses, until the next proof says them anew
    if (!row.proof.without.empty() && asked.contains(row.proof.requirement.text))
      next->rows.push_back(row);
  next->version = wish.version;
  next->wholly_proven = next->wholly_proven && now_->version == wish.version;
  now_ = std::move(next);
}

void Evaluator::take(const std::vector<proof::RequirementProof>& rows, Known known,
                     quint64 version) {
  if (version != now_->version) return;
  auto next = std::make_shared<Evaluation>(*now_);
  const RowPlaces places = placesOf(now_->rows);
  for (const proof::RequirementProof& proof : rows) {
    const auto place = places.find(keyOf(proof));
    if (place == places.end()) {
      if (!proof.without.empty()) next->rows.push_back({proof, known, version});
      continue;
    }
    LedgerRow& row = next->rows[place->second];
    if (known == Known::proven || row.known != Known::proven || row.version != version)
      row = {proof, known, version};
  }
  now_ = std::move(next);
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
  requirements::Answer whole =
      requirements::prove(*wish.design, wish.folder, options, proofs_progress_);
  inWindow([this, whole = std::move(whole), version = wish.version]() mutable {
    if (version != now_->version) return;
    auto cleared = std::make_shared<Evaluation>(*now_);
    std::erase_if(cleared->rows,
                  [](const LedgerRow& row) { return !row.proof.without.empty(); });
    now_ = std::move(cleared);
    take(whole.proof.requirements, Known::proven, version);
    auto next = std::make_shared<Evaluation>(*now_);
    next->findings = std::move(whole.proof.findings);
    next->demands = std::move(whole.demands);
    next->findings_version = version;
    next->sun_known = false;
    next->wholly_proven = true;
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
  // What the sun does in a year takes longer, and nothing else waits for it.
  if (wish.design->site.place) proofs_progress_.say(0.99, "the sun's year");
  std::vector<Finding> sun = proof::sunFindings(*wish.design, wish.folder, proofs_progress_);
  inWindow([this, sun = std::move(sun), version = wish.version]() mutable {
    if (version != now_->findings_version) return;
    auto next = std::make_shared<Evaluation>(*now_);
    next->findings.insert(next->findings.end(), std::make_move_iterator(sun.begin()),
                          std::make_move_iterator(sun.end()));
    next->sun_known = true;
    now_ = std::move(next);
    Q_EMIT evaluated();
  });
}

}  // namespace belvedere::desk
