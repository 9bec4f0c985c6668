// SPDX-License-Identifier: GPL-3.0-or-later
//
// desk: the window in which a design is made, thin over the engine: it holds no formula. What a
// hand does goes to src/edit and comes back as a changed design; what is shown was asked of
// src/proof, src/picture and src/drawing, by evaluator.h beside the window and never in it.
//
// The workspace is what all parts of the window share: the design with its history, and what is
// looked at (storey, situation, selection). Parts listen to its signals and never to each other.
#pragma once

#include <QObject>
#include <QString>

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "design/read.h"
#include "edit/history.h"
#include "edit/object.h"

namespace belvedere::desk {

enum class Stage { survey, brief, layout, services, proof, handover };

class Workspace : public QObject {
  Q_OBJECT

 public:
  explicit Workspace(QObject* parent = nullptr);

  // ---- the design
  const design::Design& design() const { return history_.now(); }
  std::shared_ptr<const design::Design> shareDesign() const { return history_.share(); }
  std::filesystem::path folder() const;              // where attachments lie
  // Of a design that was never saved; saving brings what lies there along.
  void setFolder(const std::filesystem::path& folder) { folder_ = folder; }
  const std::filesystem::path& path() const { return file_.path; }  // empty: never saved
  bool isSaved() const { return history_.isSaved(); }
  // Counts every change of the design.
  quint64 version() const { return version_; }

  // Opens; throws InputError with all problems and keeps what was open before.
  void open(const std::filesystem::path& path);
  // What another thread has read.
  void open(design::DesignFile file);
  // A design of no file; what its attachments are relative to.
  void start(design::Design design, const std::filesystem::path& folder = {});
  // A text that another run left behind (recovery): counts as not saved.
  void recover(design::DesignFile file, const std::filesystem::path& folder = {});
  // The first time in a session that a file is written over, it is kept beside as "<name>~".
  // Throws InputError (cannot_save).
  //   beside  runs what it is given, in whatever thread, and returns when that is done. What is
  //           edited meanwhile is not in the file and counts as not saved. Empty: the caller's
  //           own thread.
  using Runs = std::function<void(const std::function<void()>& work)>;
  void save(const std::filesystem::path& path, const Runs& beside = {});
  // As read or written last: its path, source and hash; the present design is design().
  const design::DesignFile& file() const { return file_; }
  // The bytes that save would write.
  std::string text() const;
  // Whether the file on disk is not what was read or written last; not while it is being written.
  bool changedOnDisk() const;
  // Another program wrote the file: takes what it says as a step that can be undone (throws
  // InputError and changes nothing when it cannot be used), or goes on and will write over it.
  void takeTheirs();
  void keepMine();

  // ---- edits
  // One step of undo named `name`; steps of one `gesture` in a row are one. Throws nothing: whoever
  // edits catches InputError of src/edit and shows it (complain).
  void apply(const QString& name, design::Design next, const std::string& gesture = {});
  void endGesture() { history_.endGesture(); }
  // Between a press and a release: results are previews until it ends.
  void setDragging(bool dragging);
  bool isDragging() const { return dragging_; }
  bool canUndo() const { return history_.canUndo(); }
  bool canRedo() const { return history_.canRedo(); }
  QString undoName() const { return QString::fromStdString(history_.undoName()); }
  QString redoName() const { return QString::fromStdString(history_.redoName()); }
  void undo();
  void redo();
  // A sentence for the person at the window: what could not be done, where, and what to do.
  void complain(const QString& sentence) { Q_EMIT complained(sentence); }
  void tell(const QString& sentence) { Q_EMIT told(sentence); }

  // ---- what is looked at
  Stage stage() const { return stage_; }
  void setStage(Stage stage);
  const design::StoreyId& storey() const { return storey_; }
  void setStorey(const design::StoreyId& storey);
  const design::SituationId& situation() const { return situation_; }
  void setSituation(const design::SituationId& situation);
  const edit::Selection& selection() const { return selection_; }
  void select(edit::Selection selection);
  const design::RequirementId& requirement() const { return requirement_; }  // empty: none
  void selectRequirement(const design::RequirementId& requirement);

  // Of the selection: the housing (alone, or of the imager selected first), and the imager's slot.
  const design::Housing* selectedHousing() const;
  int selectedSlot() const;
  std::string selectedImager() const;  // "C1.2", empty: none
  // Of an imager with several aims, the one in hand: the first until another is chosen.
  std::size_t selectedAim() const;
  std::size_t aimCount() const;        // of the selected imager; 0: none is selected
  void selectAim(std::size_t aim);
  const design::Storey* shownStorey() const;
  design::Situation shownSituation() const;

 Q_SIGNALS:
  void opened();              // another design; everything else follows
  void designChanged();
  void savedChanged();
  void draggingChanged();
  void stageChanged();
  void viewChanged();         // storey or situation
  void selectionChanged();    // or the aim in hand
  void requirementChanged();
  void complained(const QString& sentence);
  void told(const QString& sentence);

 private:
  void reset(design::DesignFile file, bool saved);
  QString keepBackup(const std::filesystem::path& path);
  void changed();
  void keepLookAtWhatIsThere();

  design::DesignFile file_;        // as read or written last; its design is history's saved one
  std::filesystem::path folder_;
  std::vector<std::filesystem::path> backed_up_;  // in this session
  edit::History history_;
  quint64 version_ = 0;
  bool dragging_ = false, saving_ = false;
  Stage stage_ = Stage::layout;
  design::StoreyId storey_;
  design::SituationId situation_;
  design::RequirementId requirement_;
  edit::Selection selection_;
  std::size_t aim_ = 0;
};

}  // namespace belvedere::desk
