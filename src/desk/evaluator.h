// SPDX-License-Identifier: GPL-3.0-or-later
//
// Asks the engine, in threads beside the window, what the window shows: one looks (previews, what
// is selected first, then the rest of the brief), the other proves as soon as the hand rests. The
// newest wish wins: whatever is under way for an older design is cancelled. Every row says whether
// it is a preview or proven, and of which version of the design.
#pragma once

#include <QObject>

#include <atomic>
#include <condition_variable>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "base/progress.h"
#include "desk/live_looks.h"
#include "desk/live_section.h"
#include "drawing/sheet.h"
#include "proof/explain.h"
#include "proof/proof.h"
#include "requirements/requirements.h"

namespace belvedere::desk {

// What the window wishes to know.
struct Wish {
  std::shared_ptr<const design::Design> design;
  std::filesystem::path folder;
  quint64 version = 0;               // of the design
  design::StoreyId storey;
  design::SituationId situation;
  design::RequirementId requirement; // selected; empty: none
  std::string imager;                // selected, whose outline is drawn; empty: none
  std::size_t aim = 0;               // of its aims, the one in hand
  bool dragging = false;             // previews only, in a frame's time
  quint64 number = 0;                // of the wishes; the evaluator counts
};

enum class Known { nothing, preview, proven };
struct LedgerRow {
  proof::RequirementProof proof;     // of a preview: share alike from below and above
  Known known = Known::nothing;
  quint64 version = 0;               // of the design that it is about
};

// The light on a storey, and what it is of.
struct Night {
  std::shared_ptr<const design::Design> design;
  std::filesystem::path folder;
  design::StoreyId storey;
  design::Situation situation;
  design::RequirementId selected;
  std::optional<design::Requirement> counts_for;  // whose target says which plane light is counted on
  std::shared_ptr<const drawing::NightPlan> plan; // null: there is no light to draw
};
// Whether it shows the light of that design too.
bool lightsAlike(const Night& night, const design::Design& design, const design::StoreyId& storey,
                 const design::Situation& situation);
// The same, on the plane that counts when that requirement is selected, as far as one can tell without
// asking which requirements are shown.
bool holdsFor(const Night& night, const design::Design& design, const design::StoreyId& storey,
              const design::Situation& situation, const design::RequirementId& selected);

// All that is known at a moment; a value that nobody changes.
struct Evaluation {
  Evaluation() : maps(std::make_shared<const std::vector<drawing::ZoneMap>>()) {}
  quint64 version = 0;
  std::vector<LedgerRow> rows;       // each requirement in each situation, then losses
  std::vector<Finding> findings;     // of the last whole proof, those of the sun's year a while after it
  bool sun_known = false;            // those are among them
  std::vector<requirements::Demand> demands;  // of the same: rules, days kept, frames, money
  quint64 findings_version = 0;
  design::StoreyId storey;           // what maps and outlines are of
  design::SituationId situation;
  // One map a zone, previews; the same list as before when nothing in it changed. Never null.
  std::shared_ptr<const std::vector<drawing::ZoneMap>> maps;
  // Of each of these maps, once the hand rests; null until then.
  std::shared_ptr<const std::vector<drawing::ZoneAreas>> areas;
  std::vector<drawing::ImagerOutline> outlines;
  std::optional<LiveSection> section;         // of the selected imager
  std::shared_ptr<const proof::PreviewPlace> place;  // of the situation; for pictures
  std::vector<proof::BlindZone> blind_zones;  // of the storey's housings
  std::shared_ptr<const Night> night;         // the last one counted; null: none yet
  quint64 look = 0;                  // counts looks: maps, outlines and section are of the last
  quint64 looked_for = 0;            // the wish that it was for
  double look_ms = 0;                // its wall clock
  double spacing_m = 0;              // between the spots that it is drawn from, at most; 0: none
  bool finer_comes = false;          // a finer look follows by itself once the hand rests
  bool wholly_proven = false;        // every row, of this version
};

// Of a spot: that the pointer rests on, or that is a requirement's worst.
enum class SpotOf { pointer, requirement };
struct SpotWish {
  SpotOf of = SpotOf::pointer;
  quint64 version = 0;               // of the design
  std::shared_ptr<const design::Design> design;
  std::filesystem::path folder;
  design::RequirementId requirement;
  design::SituationId situation;
  Vec2 at;
  bool changes = false;              // and what would mend it
};

class Evaluator : public QObject {
  Q_OBJECT

 public:
  explicit Evaluator(QObject* parent = nullptr);
  ~Evaluator() override;

  void wish(Wish wish);
  // Answered unless another is asked of the same, the design changes or it is all stopped.
  void ask(SpotWish spot);
  // Lets the look at what was wished for last come in, where it is under way: a hand that takes hold of
  // an outline means the one of now. At most so long; false when it has not come.
  bool awaitLook(int at_most_ms);
  // What now() says has been painted: while a hand drags, the rest of the brief waits for that.
  void painted();
  // Stops what is under way; what is known stays, and says what it is.
  void cancel();
  // The last one told of; never null.
  std::shared_ptr<const Evaluation> now() const { return now_; }
  bool isBusy() const { return busy_ > 0; }

 Q_SIGNALS:
  void evaluated();                   // now() is new
  void progressed(double share, const QString& what);
  void busyChanged(bool busy);
  // First as it is; then, where changes were wished for, with those that were found.
  void explained(std::shared_ptr<const belvedere::proof::SpotExplanation> spot,
                 bool changes_sought, const belvedere::desk::SpotWish& asked);
  void failed(const QString& sentence);

 private:
  // the looking thread
  void lookLoop();
  // True where what is shown is to be finer still: refine() goes on with it, again and again.
  bool look(const Wish& wish);
  bool refine(const Wish& wish);
  // True where it is as fine as it should be.
  bool lookAtZones(const Wish& wish, double budget_ms);
  void lookAtTheRest(const Wish& wish);
  void drawTheRest(const Wish& wish);
  void drawAreas(const Wish& wish);
  void drawBlindZones(const Wish& wish);
  void drawNight(const Wish& wish);
  void explain(const SpotWish& spot);
  std::optional<SpotWish>& slotOf(const SpotWish& spot) {
    return spot.of == SpotOf::pointer ? pointer_spot_ : requirement_spot_;
  }
  void askAgain(SpotWish spot);
  bool newerWish();
  // the proving thread
  void proveLoop();
  void prove(const Wish& wish);
  // the window's thread
  void start(const Wish& wish);
  void take(const std::vector<proof::RequirementProof>& rows, Known known, quint64 version);
  void setBusy(int by);

  template <class Action>
  void inWindow(Action action);

  std::shared_ptr<const Evaluation> now_;
  quint64 wishes_ = 0;           // so many were there; the last is awaited unless it was stopped
  bool awaited_ = false;
  int busy_ = 0;                 // threads at work

  std::mutex mutex_;             // of the wishes
  std::condition_variable wake_looks_, wake_proofs_;
  std::optional<Wish> wish_, proof_wish_;
  std::optional<SpotWish> pointer_spot_, requirement_spot_;
  quint64 proving_version_ = 0;  // under way or done; 0: none
  quint64 painted_version_ = 0;
  bool quit_ = false;
  std::atomic<bool> in_a_frame_{false};  // a look that is always finished: a drag must be seen
  Progress looks_progress_, proofs_progress_;

  // the looking thread's own
  LiveLooks looks_;
  std::shared_ptr<const std::vector<drawing::ZoneMap>> maps_;    // last told of
  std::shared_ptr<const std::vector<drawing::ZoneAreas>> areas_; // of these, or null
  std::shared_ptr<const Night> night_;   // last told of
  std::size_t rest_from_ = 0;    // of the brief's rows: the next to be looked at while dragging
  std::thread look_thread_, prove_thread_;
};

}  // namespace belvedere::desk
