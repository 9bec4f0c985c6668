// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/objects_list.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QTableView>
#include <QVBoxLayout>

#include "desk/list_look.h"
#include "desk/sheet_view.h"

namespace belvedere::desk {

ObjectsList::ObjectsList(Workspace& workspace, Evaluator& evaluator, SheetView& sheet)
    : workspace_(workspace), sheet_(sheet) {
  setObjectName("objects");
  model_ = new ObjectsModel(workspace, evaluator, this);
  shown_ = new QSortFilterProxyModel(this);
  shown_->setSourceModel(model_);
  shown_->setFilterKeyColumn(-1);
  shown_->setFilterCaseSensitivity(Qt::CaseInsensitive);
  shown_->setSortCaseSensitivity(Qt::CaseInsensitive);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  filter_ = new QLineEdit;
  filter_->setObjectName("objects.filter");
  filter_->setPlaceholderText(tr("Filter: a name, a kind, a storey, a requirement"));
  filter_->setAccessibleName(tr("Filter of the objects"));
  filter_->setClearButtonEnabled(true);
  filter_->installEventFilter(this);
  column->addWidget(filter_);
  table_ = new QTableView;
  table_->setObjectName("objects.table");
  table_->setAccessibleName(tr("Objects of the plan"));
  table_->setModel(shown_);
  setListLook(*table_);
  table_->setSelectionMode(QAbstractItemView::ExtendedSelection);
  table_->setEditTriggers(QAbstractItemView::EditKeyPressed | QAbstractItemView::AnyKeyPressed |
                          QAbstractItemView::SelectedClicked);
  table_->setSortingEnabled(true);
  table_->sortByColumn(-1, Qt::AscendingOrder);  // as in the file until asked otherwise
  const int em = table_->fontMetrics().horizontalAdvance('m');
  table_->setColumnWidth(ObjectsModel::name, 11 * em);
  table_->setColumnWidth(ObjectsModel::result, 10 * em);
  table_->setColumnWidth(ObjectsModel::id, 5 * em);
  table_->setColumnWidth(ObjectsModel::kind, 6 * em);
  table_->setColumnWidth(ObjectsModel::storey, 6 * em);
  table_->setColumnWidth(ObjectsModel::place, 8 * em);
  table_->installEventFilter(this);
  column->addWidget(table_, 1);
  setFocusProxy(table_);

  connect(filter_, &QLineEdit::textChanged, this, [this](const QString& words) {
    shown_->setFilterFixedString(words);
    takeSelection();
  });
  connect(table_, &QTableView::doubleClicked, this, &ObjectsList::showOnSheet);
  connect(table_->selectionModel(), &QItemSelectionModel::selectionChanged, this,
          &ObjectsList::giveSelection);
  connect(&workspace_, &Workspace::selectionChanged, this, &ObjectsList::takeSelection);
  connect(model_, &QAbstractItemModel::modelReset, this, &ObjectsList::takeSelection);
}

void ObjectsList::showEvent(QShowEvent* event) {
  model_->setFollowing(true);
  takeSelection();
  QWidget::showEvent(event);
}

void ObjectsList::hideEvent(QHideEvent* event) {
  model_->setFollowing(false);
  QWidget::hideEvent(event);
}

bool ObjectsList::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride && watched == table_ &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_F2) {
    event->accept();  // renames, as long as the table has the keys
    return true;
  }
  if (event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (watched == filter_ && key == Qt::Key_Down) {
      table_->setFocus();
      return true;
    }
    if (watched == table_ && (key == Qt::Key_Return || key == Qt::Key_Enter) &&
        table_->currentIndex().isValid()) {
      showOnSheet(table_->currentIndex());
      return true;
    }
    if (watched == table_ && key == Qt::Key_F2 && table_->currentIndex().isValid()) {
      table_->edit(table_->currentIndex().siblingAtColumn(ObjectsModel::name));
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

void ObjectsList::takeSelection() {
  if (taking_ || !isVisible()) return;
  taking_ = true;
  QItemSelection rows;
  QModelIndex first;
  for (const edit::ObjectRef& ref : workspace_.selection()) {
    const QModelIndex row = shown_->mapFromSource(model_->index(model_->rowOf(ref), 0));
    if (!row.isValid()) continue;
    rows.select(row, row);
    if (!first.isValid()) first = row;
  }
  table_->selectionModel()->select(
      rows, QItemSelectionModel::ClearAndSelect | QItemSelectionModel::Rows);
  if (first.isValid()) {
    table_->selectionModel()->setCurrentIndex(first, QItemSelectionModel::NoUpdate);
    table_->scrollTo(first);
  }
  taking_ = false;
}

void ObjectsList::giveSelection() {
  if (taking_) return;
  taking_ = true;
  edit::Selection selection;
  for (const QModelIndex& row : table_->selectionModel()->selectedRows())
    selection.push_back(
        model_->lines()[static_cast<std::size_t>(shown_->mapToSource(row).row())].ref);
  workspace_.select(std::move(selection));
  taking_ = false;
}

void ObjectsList::showOnSheet(const QModelIndex& shown) {
  const QModelIndex row = shown_->mapToSource(shown);
  if (row.isValid()) sheet_.showObject(model_->lines()[static_cast<std::size_t>(row.row())].ref);
}

}  // namespace belvedere::desk
