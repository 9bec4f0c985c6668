// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every plan object as a row of a table: what stands where, and what it does for the brief. The
// same objects as on the sheet, for whoever cannot see it or looks for a name.
#pragma once

#include <QAbstractTableModel>

#include <vector>

#include "desk/evaluator.h"
#include "desk/workspace.h"

namespace belvedere::desk {

class ObjectsModel : public QAbstractTableModel {
  Q_OBJECT

 public:
  // What most ask for first: a narrow drawer shows the first columns.
  enum Column { name, kind, place, result, id, storey, column_count };

  ObjectsModel(Workspace& workspace, Evaluator& evaluator, QObject* parent);

  // What a zone's requirements come to, or what an imager serves of which.
  QString resultOf(const edit::ObjectRef& ref) const;
  const std::vector<edit::ObjectLine>& lines() const { return lines_; }
  int rowOf(const edit::ObjectRef& ref) const;  // -1: none
  // Follows the design only while somebody looks.
  void setFollowing(bool on);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 private:
  void take();
  void takeResults();

  Workspace& workspace_;
  Evaluator& evaluator_;
  std::vector<edit::ObjectLine> lines_;
  bool following_ = false, stale_ = true;
  bool gone_ = false;  // the workspace: a window that closes still ends what is being typed
};

}  // namespace belvedere::desk
