// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Edit menu's commands on what is selected: erase, copy, cut, paste, duplicate, array, along a
// line, mirror, turn, move; select all, the rest, the same kind; handles one by one by keyboard.
// The clipboard is the program's own.
#pragma once

#include <QDialog>

#include <memory>
#include <optional>

#include "desk/workspace.h"

class QLabel;
class QLineEdit;
class QSpinBox;

namespace belvedere::desk {

class MainWindow;

void makeEditCommands(MainWindow& window);

// Columns, rows and their pitches.
class ArrayDialog : public QDialog {
  Q_OBJECT

 public:
  ArrayDialog(Workspace& workspace, QWidget* parent);
  void accept() override;   // applies, or says what is wrong and stays

 private:
  Workspace& workspace_;
  QSpinBox *columns_ = nullptr, *rows_ = nullptr;
  QLineEdit *column_pitch_ = nullptr, *row_pitch_ = nullptr;
  QLabel* error_ = nullptr;
};

}  // namespace belvedere::desk
