// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/services_page.h"

#include <QComboBox>
#include <QLabel>
#include <QSortFilterProxyModel>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

#include "desk/go_to.h"
#include "desk/list_look.h"
#include "desk/sheet_view.h"

namespace belvedere::desk {
namespace {

// Figures sort as figures.
class Sorted : public QSortFilterProxyModel {
 public:
  using QSortFilterProxyModel::QSortFilterProxyModel;

 protected:
  bool lessThan(const QModelIndex& a, const QModelIndex& b) const override {
    const QString p = a.data().toString(), q = b.data().toString();
    bool p_is = false, q_is = false;
    const double x = p.section(' ', 0, 0).toDouble(&p_is), y = q.section(' ', 0, 0).toDouble(&q_is);
    if (p_is && q_is) return x < y;
    if (p_is != q_is) return q_is;
    return QString::localeAwareCompare(p, q) < 0;
  }
};

}  // namespace

// ---- the model ----------------------------------------------------------------------------------

void ServicesModel::show(ServicesTable table) {
  beginResetModel();
  table_ = std::move(table);
  endResetModel();
}

int ServicesModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(table_.rows.size());
}
int ServicesModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(table_.headings.size());
}

QVariant ServicesModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const ServicesTable::Row& row = table_.rows[static_cast<std::size_t>(index.row())];
  const QString cell = row.cells.value(index.column());
  switch (role) {
    case Qt::DisplayRole:  // an open circle, as in the ledger
      return index.column() == 0 && row.short_of ? QStringLiteral("○ ") + cell : cell;
    case Qt::ToolTipRole: return cell;
    case Qt::AccessibleTextRole:
      return row.short_of && index.column() == 0 ? tr("%1, falls short").arg(cell) : cell;
    case Qt::TextAlignmentRole:
      return int((table_.figures[static_cast<std::size_t>(index.column())] ? Qt::AlignRight
                                                                           : Qt::AlignLeft) |
                 Qt::AlignVCenter);
    default: return {};
  }
}

QVariant ServicesModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::DisplayRole) return table_.headings.value(section);
  if (role == Qt::TextAlignmentRole && section < static_cast<int>(table_.figures.size()))
    return int((table_.figures[static_cast<std::size_t>(section)] ? Qt::AlignRight : Qt::AlignLeft) |
               Qt::AlignVCenter);
  return {};
}

// ---- the page -----------------------------------------------------------------------------------

ServicesPage::ServicesPage(Workspace& workspace, SheetView& sheet)
    : workspace_(workspace), sheet_(sheet), routes_(sheet) {
  setObjectName("services");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  parts_ = new QComboBox;
  parts_->setObjectName("services.part");
  parts_->setAccessibleName(tr("Table of services"));
  for (int i = 0; i < kServicesParts; ++i) parts_->addItem(titleOf(static_cast<ServicesPart>(i)));
  column->addWidget(parts_);
  const auto label = [&](const char* name) {
    auto* made = new QLabel;
    made->setObjectName(name);
    made->setWordWrap(true);
    return made;
  };
  says_ = label("services.says");
  says_->setForegroundRole(QPalette::Dark);
  column->addWidget(says_);
  model_ = new ServicesModel(this);
  shown_ = new Sorted(this);
  shown_->setSourceModel(model_);
  table_ = new QTableView;
  table_->setObjectName("services.table");
  table_->setModel(shown_);
  setListLook(*table_);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setSortingEnabled(true);
  table_->sortByColumn(-1, Qt::AscendingOrder);
  column->addWidget(table_, 1);
  found_ = label("services.found");
  column->addWidget(found_);
  state_ = label("services.state");
  state_->setForegroundRole(QPalette::Dark);
  column->addWidget(state_);
  setFocusProxy(table_);

  connect(parts_, &QComboBox::currentIndexChanged, this, &ServicesPage::take);
  connect(table_, &QTableView::activated, this, &ServicesPage::goTo);
  connect(table_, &QTableView::doubleClicked, this, &ServicesPage::goTo);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this] {
    const ServicesTable::Row* row = chosen();
    routes_.mark(row ? row->about : std::vector<std::string>{});
    found_->setText(row ? row->findings.join("\n") : QString());
    found_->setVisible(!found_->text().isEmpty());
  });
  connect(&workspace_, &Workspace::designChanged, this, &ServicesPage::wish);
  connect(&workspace_, &Workspace::draggingChanged, this, &ServicesPage::wish);
  connect(&maker_, &ServicesMaker::made, this, &ServicesPage::take);
  connect(&maker_, &ServicesMaker::busyChanged, this, &ServicesPage::take);
  connect(&maker_, &ServicesMaker::failed, &workspace_, &Workspace::complain);
}

ServicesPart ServicesPage::part() const {
  return static_cast<ServicesPart>(std::max(0, parts_->currentIndex()));
}
void ServicesPage::choose(ServicesPart part) { parts_->setCurrentIndex(static_cast<int>(part)); }

void ServicesPage::showEvent(QShowEvent* event) {
  routes_.setShown(true);
  wish();
  take();
  QWidget::showEvent(event);
}
void ServicesPage::hideEvent(QHideEvent* event) {
  routes_.setShown(false);
  QWidget::hideEvent(event);
}

void ServicesPage::wish() {
  if (!isVisible() || workspace_.isDragging() || wished_version_ == workspace_.version()) return;
  wished_version_ = workspace_.version();
  maker_.wish({workspace_.shareDesign(), workspace_.folder(), workspace_.version()});
}

void ServicesPage::take() {
  if (!isVisible()) return;
  const auto answer = maker_.now();
  routes_.take(answer);
  model_->show(answer ? tableOf(part(), *answer) : ServicesTable{});
  const ServicesTable& table = model_->table();
  says_->setText(answer ? table.says : tr("Being worked out."));
  found_->hide();
  table_->setVisible(!table.rows.empty());
  table_->setAccessibleName(titleOf(part()));
  table_->resizeColumnsToContents();
  const auto short_of = std::count_if(table.rows.begin(), table.rows.end(),
                                      [](const auto& row) { return row.short_of; });
  QString state;
  if (answer && answer->version != workspace_.version())
    state = tr("Of the design before the last changes.");
  else if (maker_.isBusy())
    state = tr("Being worked out.");
  else if (short_of > 0)
    state = tr("%n rows fall short (open circle).", nullptr, static_cast<int>(short_of));
  state_->setText(state);
  state_->setVisible(!state.isEmpty());
}

const ServicesTable::Row* ServicesPage::chosen() const {
  const QModelIndex at = shown_->mapToSource(table_->currentIndex());
  return at.isValid() ? &model_->table().rows[static_cast<std::size_t>(at.row())] : nullptr;
}

void ServicesPage::goTo(const QModelIndex& shown) {
  const QModelIndex at = shown_->mapToSource(shown);
  if (!at.isValid()) return;
  desk::goTo(workspace_, sheet_, model_->table().rows[static_cast<std::size_t>(at.row())].about);
}

}  // namespace belvedere::desk
