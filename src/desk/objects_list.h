// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list of objects: a table with a filter, its selection that of the sheet. Enter or a double
// click shows an object on the sheet; F2 in the table, or typing over its name, renames it.
#pragma once

#include <QSortFilterProxyModel>
#include <QWidget>

#include "desk/objects_model.h"

class QLineEdit;
class QTableView;

namespace belvedere::desk {

class SheetView;

class ObjectsList : public QWidget {
  Q_OBJECT

 public:
  ObjectsList(Workspace& workspace, Evaluator& evaluator, SheetView& sheet);
  ObjectsModel& model() { return *model_; }

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void takeSelection();     // of the workspace
  void giveSelection();     // to the workspace
  void showOnSheet(const QModelIndex& shown);

  Workspace& workspace_;
  SheetView& sheet_;
  ObjectsModel* model_ = nullptr;
  QSortFilterProxyModel* shown_ = nullptr;
  QLineEdit* filter_ = nullptr;
  QTableView* table_ = nullptr;
  bool taking_ = false;
};

}  // namespace belvedere::desk
