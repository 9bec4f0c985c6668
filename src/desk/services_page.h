// SPDX-License-Identifier: GPL-3.0-or-later
//
// Services beside the plan: one table at a time of network, power, streams, recording, analytics,
// surroundings, the bill, and, when asked for, what falls if a part fails; the cables' ways on the
// plan meanwhile. The chosen row shows its things on the plan; the chosen cell says what it came from.
// A double click (or Enter) on a row takes one there.
#pragma once

#include <QAbstractTableModel>
#include <QWidget>

#include "desk/routes_overlay.h"
#include "desk/services_tables.h"
#include "desk/workspace.h"

class QComboBox;
class QLabel;
class QPlainTextEdit;
class QProgressBar;
class QPushButton;
class QSortFilterProxyModel;
class QTableView;

namespace belvedere::desk {

class SheetView;

class ServicesModel : public QAbstractTableModel {
  Q_OBJECT

 public:
  using QAbstractTableModel::QAbstractTableModel;
  void show(ServicesTable table);
  const ServicesTable& table() const { return table_; }
  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  ServicesTable table_;
};

class ServicesPage : public QWidget {
  Q_OBJECT

 public:
  ServicesPage(Workspace& workspace, SheetView& sheet);
  void choose(ServicesPart part);
  ServicesMaker& maker() { return maker_; }
  FailuresMaker& failures() { return failures_; }
  // The found way of the selected cable becomes its own, to be bent point by point; or its own is
  // taken away, so that its way is found again.
  void bendWay();
  void findWay();

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  void makeTable();
  void makeRanking();
  void makeWays();
  void takeSelection();
  void chooseRow(const QString& first_cell, int column);
  ServicesPart part() const;
  void wish();
  void take();
  void takeState();
  void chosenChanged();
  void goTo(const QModelIndex& shown);
  const ServicesTable::Row* chosen() const;

  Workspace& workspace_;
  SheetView& sheet_;
  ServicesMaker maker_;
  FailuresMaker failures_;
  RoutesOverlay routes_;
  QComboBox* parts_ = nullptr;
  QWidget* ranking_ = nullptr;         // asks for failures, says how far they are
  QWidget* ways_ = nullptr;            // what can be done with the chosen cable's way
  QPushButton *rank_ = nullptr, *stop_ = nullptr;
  QProgressBar* progress_ = nullptr;
  QLabel *says_ = nullptr, *source_ = nullptr, *state_ = nullptr;
  QPlainTextEdit* found_ = nullptr;
  QTableView* table_ = nullptr;
  ServicesModel* model_ = nullptr;
  QSortFilterProxyModel* shown_ = nullptr;
  quint64 wished_version_ = 0;
  bool wished_dragging_ = false;
  bool taking_ = false;                // the table is filled, nobody chooses
};

}  // namespace belvedere::desk
