// SPDX-License-Identifier: GPL-3.0-or-later
//
// The page of shortcuts: each command with its keys, which can be changed and are kept in the
// person's settings ("shortcuts/<command>"). One sequence of keys is one command's.
#pragma once

#include <QDialog>

#include <vector>

#include "desk/command_palette.h"

class QKeySequenceEdit;
class QLabel;
class QLineEdit;
class QTableWidget;

namespace belvedere::desk {

// Gives every command the keys that the person has set. Once all commands are there.
void takeKeptShortcuts(const MainWindow& window);

class ShortcutsPage : public QDialog {
  Q_OBJECT

 public:
  explicit ShortcutsPage(MainWindow& window);

 private:
  void fill();
  void takeRow();
  void set(const QKeySequence& keys);
  void asItWas();
  QAction* chosen() const;

  MainWindow& window_;
  std::vector<Command> commands_;
  QTableWidget* table_ = nullptr;
  QKeySequenceEdit* keys_ = nullptr;
  QLabel* says_ = nullptr;
};

}  // namespace belvedere::desk
