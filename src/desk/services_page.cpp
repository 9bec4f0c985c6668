// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/services_page.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

#include "desk/go_to.h"
#include "desk/list_look.h"
#include "desk/sheet_view.h"
#include "desk/way_tool.h"
#include "edit/find.h"
#include "edit/shapes.h"

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

constexpr int kWordsMostPx = 140;  // of a column of words
constexpr int kFoundLines = 7;  // of what is said of a row, before it scrolls

QLabel* quietLabel(const char* name) {
  auto* label = new QLabel;
  label->setObjectName(name);
  label->setWordWrap(true);
  label->setForegroundRole(QPalette::Dark);
  return label;
}

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
    case Qt::ToolTipRole:
      return cell.isEmpty() ? QString() : cell + "\n" + row.sources.value(index.column());
    case Qt::AccessibleDescriptionRole: return row.sources.value(index.column());
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
  makeRanking();
  column->addWidget(ranking_);
  makeWays();
  column->addWidget(ways_);
  says_ = quietLabel("services.says");
  column->addWidget(says_);
  makeTable();
  column->addWidget(table_, 1);
  source_ = quietLabel("services.source");
  source_->setForegroundRole(QPalette::WindowText);
  column->addWidget(source_);
  found_ = new QPlainTextEdit;
  found_->setObjectName("services.found");
  found_->setAccessibleName(tr("What is said of the chosen row"));
  found_->setReadOnly(true);
  found_->setTabChangesFocus(true);
  found_->setFrameShape(QFrame::NoFrame);
  found_->viewport()->setAutoFillBackground(false);
  found_->setMaximumHeight(found_->fontMetrics().lineSpacing() * kFoundLines + 12);
  column->addWidget(found_);
  state_ = quietLabel("services.state");
  column->addWidget(state_);
  column->addStretch(0);  // below what there is, where there is no table
  setFocusProxy(table_);

  connect(parts_, &QComboBox::currentIndexChanged, this, &ServicesPage::take);
  connect(&workspace_, &Workspace::designChanged, this, &ServicesPage::wish);
  connect(&workspace_, &Workspace::draggingChanged, this, &ServicesPage::wish);
  connect(&maker_, &ServicesMaker::made, this, &ServicesPage::take);
  connect(&maker_, &ServicesMaker::rested, this, &ServicesPage::takeState);
  connect(&maker_, &ServicesMaker::failed, &workspace_, &Workspace::complain);
}

void ServicesPage::makeTable() {
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
  connect(table_, &QTableView::activated, this, &ServicesPage::goTo);
  connect(table_, &QTableView::doubleClicked, this, &ServicesPage::goTo);
  connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this,
          [this](const QModelIndex& now, const QModelIndex& before) {
            if (taking_) return;
            chosenChanged();
            const ServicesTable::Row* row = chosen();
            if (row && now.row() != before.row()) showOnPlan(workspace_, sheet_, row->shows);
          });
}

void ServicesPage::chooseRow(const QString& first_cell, int column) {
  for (int i = 0; i < model_->rowCount(); ++i)
    if (model_->table().rows[static_cast<std::size_t>(i)].cells.value(0) == first_cell) {
      table_->setCurrentIndex(shown_->mapFromSource(model_->index(i, column)));
      return;
    }
}

void ServicesPage::makeRanking() {
  ranking_ = new QWidget;
  auto* line = new QHBoxLayout(ranking_);
  line->setContentsMargins(0, 0, 0, 0);
  rank_ = new QPushButton(tr("Rank the parts"));
  rank_->setObjectName("services.rank");
  progress_ = new QProgressBar;
  progress_->setObjectName("services.progress");
  progress_->setAccessibleName(tr("How far the ranking is"));
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  stop_ = new QPushButton(tr("Stop"));
  stop_->setObjectName("services.stop");
  stop_->setAccessibleName(tr("Stop the ranking"));
  line->addWidget(rank_);
  line->addWidget(progress_, 1);
  line->addWidget(stop_);
  line->addStretch();
  connect(rank_, &QPushButton::clicked, this, [this] {
    progress_->setValue(0);
    failures_.wish({workspace_.shareDesign(), workspace_.folder(), workspace_.version()});
    takeState();
    stop_->setFocus();
  });
  connect(stop_, &QPushButton::clicked, this, [this] { failures_.cancel(); });
  connect(&failures_, &FailuresMaker::progressed, this, [this](double share, const QString&) {
    progress_->setValue(std::max(progress_->value(), static_cast<int>(share * 1000)));
  });
  connect(&failures_, &FailuresMaker::made, this, &ServicesPage::take);
  connect(&failures_, &FailuresMaker::rested, this, &ServicesPage::takeState);
  connect(&failures_, &FailuresMaker::failed, &workspace_, &Workspace::complain);
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
  const bool dragging = workspace_.isDragging();
  if (!isVisible() ||
      (wished_version_ == workspace_.version() && wished_dragging_ == dragging))
    return;
  wished_version_ = workspace_.version();
  wished_dragging_ = dragging;
  maker_.wish({workspace_.shareDesign(), workspace_.folder(), workspace_.version(), dragging});
  takeState();
}

void ServicesPage::take() {
  if (!isVisible()) return;
  const auto answer = maker_.now();
  routes_.take(answer);
  // The chosen cell stays chosen where its row is still there.
  const ServicesTable::Row* row = chosen();
  const QString key = row ? row->cells.value(0) : QString();
  const int at = table_->currentIndex().column();
  taking_ = true;
  const bool ranks = part() == ServicesPart::failures;
  if (ranks)
    model_->show(failures_.now() ? failuresTable(*failures_.now()) : ServicesTable{});
  else
    model_->show(answer ? tableOf(part(), *answer) : ServicesTable{});
  const ServicesTable& table = model_->table();
  if (!key.isEmpty()) chooseRow(key, std::max(0, at));
  taking_ = false;
  if (ranks && !failures_.now())
    says_->setText(tr("Each part is taken away by itself and the brief proven again: that takes a "
                      "while, so it is done when you ask for it."));
  else
    says_->setText(ranks || answer ? table.says : tr("Being worked out."));
  table_->setVisible(!table.rows.empty());
  table_->setAccessibleName(titleOf(part()));
  table_->resizeColumnsToContents();
  // Words give way to figures; a hover says them whole.
  for (int i = 0; i < model_->columnCount(); ++i)
    if (!table.figures[static_cast<std::size_t>(i)] && table_->columnWidth(i) > kWordsMostPx)
      table_->setColumnWidth(i, kWordsMostPx);
  chosenChanged();
  takeState();
}

void ServicesPage::takeState() {
  const bool ranks = part() == ServicesPart::failures;
  ranking_->setVisible(ranks);
  ways_->setVisible(part() == ServicesPart::network);
  rank_->setVisible(!failures_.isBusy());
  progress_->setVisible(failures_.isBusy());
  stop_->setVisible(failures_.isBusy());
  const bool known = ranks ? failures_.now() != nullptr : maker_.now() != nullptr;
  const quint64 version = !known ? 0 : ranks ? failures_.now()->version : maker_.now()->version;
  const ServicesTable& table = model_->table();
  const auto short_of = std::count_if(table.rows.begin(), table.rows.end(),
                                      [](const auto& row) { return row.short_of; });
  QString state;
  if (known && version != workspace_.version())
    state = tr("Of the design before the last changes.");
  else if (ranks ? failures_.isBusy() : maker_.isBusy())
    state = tr("Being worked out.");
  else if (ranks && short_of > 0)
    state = tr("With %n parts something falls that no card bridges (open circle).", nullptr,
               static_cast<int>(short_of));
  else if (short_of > 0)
    state = tr("%n rows fall short (open circle).", nullptr, static_cast<int>(short_of));
  state_->setText(state);
  state_->setVisible(!state.isEmpty());
}

// ---- the chosen cable's way ---------------------------------------------------------------------

void ServicesPage::makeWays() {
  ways_ = new QWidget;
  auto* line = new QHBoxLayout(ways_);
  line->setContentsMargins(0, 0, 0, 0);
  const auto button = [&](const char* name, const QString& words, const QString& hint, auto run) {
    auto* made = new QPushButton(words);
    made->setObjectName(name);
    made->setToolTip(hint);
    connect(made, &QPushButton::clicked, this, run);
    line->addWidget(made);
  };
  button("services.draw_way", tr("Draw its way"), tr("Click on the plan where the cable bends."), [this] {
    sheet_.setTool(std::make_unique<WayTool>(sheet_));
    sheet_.setFocus();
  });
  button("services.bend_way", tr("Bend it"),
         tr("The way that was found becomes its own, to be pulled point by point."), [this] { bendWay(); });
  button("services.find_way", tr("Find it again"),
         tr("Its own way is taken away; a way is found for it."), [this] { findWay(); });
  line->addStretch();
  connect(&workspace_, &Workspace::selectionChanged, this, &ServicesPage::takeSelection);
}

// A cable that is picked on the plan is chosen in the table.
void ServicesPage::takeSelection() {
  const QString link = QString::fromStdString(selectedCable(workspace_).text);
  ways_->setEnabled(!link.isEmpty());
  if (link.isEmpty() || !isVisible() || taking_ || part() != ServicesPart::network) return;
  const ServicesTable::Row* row = chosen();
  if (row && row->cells.value(0) == link) return;
  taking_ = true;
  chooseRow(link, 0);
  taking_ = false;
  chosenChanged();
}

void ServicesPage::bendWay() {
  const QString link = QString::fromStdString(selectedCable(workspace_).text);
  if (link.isEmpty()) return workspace_.tell(tr("Choose a cable first: a row of the table Network."));
  const std::optional<design::Design>& with = routes_.withFoundWay();
  if (!with)
    return workspace_.tell(tr("%1 has a way of its own, or none has been found for it yet.").arg(link));
  workspace_.apply(tr("Bend the way of %1").arg(link), *with);
  sheet_.setFocus();
}

void ServicesPage::findWay() {
  const design::AnyId link = selectedCable(workspace_);
  if (link.empty()) return workspace_.tell(tr("Choose a cable first: a row of the table Network."));
  const QString name = QString::fromStdString(link.text);
  const design::Link* cable = edit::withId(workspace_.design().services.links, link.text);
  if (!cable || cable->path.empty()) return workspace_.tell(tr("%1 has no way of its own.").arg(name));
  workspace_.apply(tr("Let %1 find its way").arg(name), edit::withWay(workspace_.design(), link, {}));
}

const ServicesTable::Row* ServicesPage::chosen() const {
  const QModelIndex at = shown_->mapToSource(table_->currentIndex());
  return at.isValid() ? &model_->table().rows[static_cast<std::size_t>(at.row())] : nullptr;
}

// What the chosen cell came from, what is said of its row, and the row's things on the plan.
void ServicesPage::chosenChanged() {
  const ServicesTable::Row* row = chosen();
  std::vector<std::string> marked;
  if (row) {
    marked = row->about;
    marked.insert(marked.end(), row->shows.begin(), row->shows.end());
  }
  routes_.mark(std::move(marked), row ? row->dark : std::vector<std::string>{});
  const int column = table_->currentIndex().column();
  const QString cell = row ? row->cells.value(column) : QString();
  source_->setText(cell.isEmpty() ? QString()
                                  : tr("%1 %2: %3").arg(model_->table().headings.value(column), cell,
                                                        row->sources.value(column)));
  source_->setVisible(!cell.isEmpty());
  found_->setPlainText(row ? row->findings.join("\n") : QString());
  found_->setVisible(row && !row->findings.isEmpty());
}

void ServicesPage::goTo(const QModelIndex& shown) {
  const QModelIndex at = shown_->mapToSource(shown);
  if (!at.isValid()) return;
  desk::goTo(workspace_, sheet_, model_->table().rows[static_cast<std::size_t>(at.row())].about);
}

}  // namespace belvedere::desk
