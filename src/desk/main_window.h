// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window: stage bar on top, the brief at the left, the sheet, the bearing rule below. Stages
// change what the sheet offers to do, never where things are. Parts are made here and connected to
// the workspace; commands are actions with an object name, so that the palette, shortcuts and tests
// find them by it.
#pragma once

#include <QMainWindow>

#include <filesystem>
#include <memory>

#include "desk/bearing_rule.h"
#include "desk/evaluator.h"
#include "desk/ledger_view.h"
#include "desk/sheet_view.h"
#include "desk/workspace.h"

class QAction;
class QComboBox;
class QLabel;
class QMenu;
class QProgressBar;
class QPushButton;
class QSplitter;
class QStackedWidget;
class QVBoxLayout;

namespace belvedere::desk {

class MainWindow : public QMainWindow {
  Q_OBJECT

 public:
  explicit MainWindow(QWidget* parent = nullptr);
  ~MainWindow() override;

  Workspace& workspace() { return workspace_; }
  Evaluator& evaluator() { return evaluator_; }
  SheetView& sheet() { return *sheet_; }
  LedgerView& ledger() { return *ledger_; }
  // A command by its name ("edit.undo"); never null for those that exist.
  QAction* command(const QString& name) const;
  // Adds a command to a menu ("&Draw"), with a unique name; the palette finds it.
  QAction* addCommand(const QString& menu, const QString& name, const QString& text,
                      const QKeySequence& shortcut, std::function<void()> run);
  QMenu* menuOf(const QString& menu);
  // Where other parts of the window go: below the brief, and at the right of the sheet (hidden
  // while empty).
  QVBoxLayout* besideBrief() { return beside_brief_; }
  QSplitter* across() { return across_; }

  // Opens, or shows every problem of the file and keeps what was open. Reads beside the window,
  // which can be stopped.
  bool openFile(const std::filesystem::path& path);
  void tell(const QString& sentence);
  // Every problem, where, and what to do.
  void showProblems(const QString& heading, const InputError& error);
  bool maySave();               // asks when there is something to lose; false: stay

 Q_SIGNALS:
  void fileLeft();              // its design is about to go: another comes, or the window closes
  void fileOpened();            // by openFile

 protected:
  void closeEvent(QCloseEvent* event) override;

 private:
  void makeBars();
  void makeCommands();
  void makeParts();             // main_window_parts.cpp
  void takeTitle();
  void takeStoreys();
  void sendWish();
  void open();
  bool save();
  bool saveAs();
  bool saveTo(const std::filesystem::path& path);

  Workspace workspace_;
  Evaluator evaluator_;
  SheetView* sheet_ = nullptr;
  LedgerView* ledger_ = nullptr;
  BearingRule* rule_ = nullptr;
  QComboBox *storey_ = nullptr, *situation_ = nullptr;
  QProgressBar* progress_ = nullptr;
  QPushButton* stop_ = nullptr;
  QLabel *hint_ = nullptr, *place_ = nullptr, *state_ = nullptr;
  QString complaint_;           // that stands in the hint, from an event before this one
  QVBoxLayout* beside_brief_ = nullptr;
  QSplitter* across_ = nullptr;
  QWidget* bars_ = nullptr;
  std::vector<QPushButton*> stages_;
};

}  // namespace belvedere::desk
