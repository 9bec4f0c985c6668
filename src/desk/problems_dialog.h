// SPDX-License-Identifier: GPL-3.0-or-later
//
// All that is wrong with a file, problem by problem: where in it, what is wrong, what to do. Can be
// copied whole, for whoever wrote the file.
#pragma once

#include <QDialog>
#include <QString>

#include <vector>

#include "base/problem.h"

namespace belvedere::desk {

class ProblemsDialog : public QDialog {
  Q_OBJECT

 public:
  // `heading`: what was to be done, and what is the case now.
  ProblemsDialog(const QString& heading, std::vector<Problem> problems, QWidget* parent);
  // A problem a paragraph.
  QString text() const;
  void copy() const;

 private:
  QString heading_;
  std::vector<Problem> problems_;
};

}  // namespace belvedere::desk
