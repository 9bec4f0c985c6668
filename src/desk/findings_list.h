// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list of findings of the last proof: how grave, what, about whom. Choosing one goes to its
// cause: the object is selected and shown, the requirement opens in the ledger. A finding can be
// accepted with a reason; it then stands at the end, with who agreed and why.
#pragma once

#include <QAbstractTableModel>
#include <QWidget>

#include <vector>

#include "base/finding.h"
#include "desk/evaluator.h"
#include "desk/workspace.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QTableView;

namespace belvedere::desk {

class SheetView;

class FindingsModel : public QAbstractTableModel {
  Q_OBJECT

 public:
  enum Column { severity, sentence, about, column_count };
  struct Line {
    Finding finding;
    const design::Accepted* accepted = nullptr;  // of the workspace's design
  };

  FindingsModel(Workspace& workspace, Evaluator& evaluator, QObject* parent);
  const std::vector<Line>& lines() const { return lines_; }

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  void take();

  Workspace& workspace_;
  Evaluator& evaluator_;
  std::vector<Line> lines_;
};

class FindingsList : public QWidget {
  Q_OBJECT

 public:
  FindingsList(Workspace& workspace, Evaluator& evaluator, SheetView& sheet);
  FindingsModel& model() { return *model_; }

 private:
  const FindingsModel::Line* chosen() const;
  void goToCause();
  void takeState();
  void accept();
  void takeBack();

  Workspace& workspace_;
  Evaluator& evaluator_;
  SheetView& sheet_;
  FindingsModel* model_ = nullptr;
  QTableView* table_ = nullptr;
  QLabel* state_ = nullptr;
  QLineEdit *reason_ = nullptr, *by_ = nullptr;
  QPushButton *accept_ = nullptr, *take_back_ = nullptr;
};

}  // namespace belvedere::desk
