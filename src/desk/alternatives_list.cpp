// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/alternatives_list.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include "base/problem.h"
#include "desk/beside.h"
#include "desk/list_look.h"
#include "desk/requirement_words.h"
#include "desk/shown_units.h"
#include "design/alternatives.h"
#include "drawing/sheet_parts.h"
#include "edit/alternatives.h"
#include "requirements/prove.h"

namespace belvedere::desk {
namespace {

constexpr int kName = 0, kChanges = 1;
constexpr std::size_t kAnchorsMost = 64;

QString nameOf(const design::Alternative& alternative) {
  return QString::fromStdString(alternative.name.empty() ? alternative.id.text : alternative.name);
}

QPushButton* button(const QString& words, const char* name) {
  auto* made = new QPushButton(words);
  made->setObjectName(name);
  return made;
}

}  // namespace

AlternativesList::AlternativesList(Workspace& workspace) : workspace_(workspace) {
  setObjectName("alternatives");
  prover_.setMaxThreadCount(1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  empty_ = new QLabel(tr("Change the design, give the change a name and keep it: the base comes "
                         "back to the sheet and the change stands beside it."));
  empty_->setWordWrap(true);
  empty_->setForegroundRole(QPalette::Dark);
  column->addWidget(empty_);
  table_ = new QTableWidget(0, 2);
  table_->setObjectName("alternatives.table");
  table_->setAccessibleName(tr("Alternatives of the design"));
  table_->setHorizontalHeaderLabels({tr("Name"), tr("Differs in")});
  setListLook(*table_);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setColumnWidth(kName, 22 * table_->fontMetrics().horizontalAdvance('m') * 2 / 3);
  column->addWidget(table_, 1);
  setFocusProxy(table_);

  auto* of_one = new QHBoxLayout;
  of_one->addWidget(switch_ = button(tr("&Go over to it"), "alternatives.switch"));
  of_one->addWidget(base_ = button(tr("Make it the &base"), "alternatives.base"));
  of_one->addWidget(drop_ = button(tr("&Delete"), "alternatives.delete"));
  of_one->addStretch();
  column->addLayout(of_one);
  auto* keeping = new QHBoxLayout;
  name_ = new QLineEdit;
  name_->setObjectName("alternatives.name");
  name_->setPlaceholderText(tr("name of the present state"));
  name_->setAccessibleName(tr("Name under which the present state is kept"));
  keeping->addWidget(name_, 1);
  keeping->addWidget(keep_ = button(tr("&Keep the present state"), "alternatives.keep"));
  column->addLayout(keeping);

  auto* comparing = new QHBoxLayout;
  comparing->addWidget(compare_ = button(tr("&Compare all"), "alternatives.compare"));
  comparing->addWidget(stop_ = button(tr("&Stop"), "alternatives.stop"));
  of_ = new QLabel;
  of_->setForegroundRole(QPalette::Dark);
  comparing->addWidget(of_, 1);
  column->addLayout(comparing);
  progress_ = new QProgressBar;
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(2);
  progress_->setAccessibleName(tr("Progress of the comparison"));
  column->addWidget(progress_);
  results_ = new QTableWidget;
  results_->setObjectName("alternatives.results");
  results_->setAccessibleName(tr("Requirements in each alternative"));
  setListLook(*results_);
  results_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  results_->setWordWrap(true);
  results_->hide();
  column->addWidget(results_, 2);

  connect(keep_, &QPushButton::clicked, this, &AlternativesList::keep);
  connect(name_, &QLineEdit::returnPressed, this, &AlternativesList::keep);
  connect(name_, &QLineEdit::textChanged, this, &AlternativesList::takeButtons);
  connect(switch_, &QPushButton::clicked, this, [this] { goOver(true); });
  connect(base_, &QPushButton::clicked, this, [this] { goOver(false); });
  connect(drop_, &QPushButton::clicked, this, &AlternativesList::drop);
  connect(compare_, &QPushButton::clicked, this, &AlternativesList::compare);
  connect(stop_, &QPushButton::clicked, this, [this] { work_.cancel = true; });
  connect(table_, &QTableWidget::itemSelectionChanged, this, &AlternativesList::takeButtons);
  connect(table_, &QTableWidget::itemDoubleClicked, this, [this](QTableWidgetItem* item) {
    if (item->column() == kChanges) goOver(true);
  });
  connect(table_, &QTableWidget::itemChanged, this, [this](QTableWidgetItem* item) {
    if (taking_ || item->column() != kName || item->row() == 0) return;
    design::Design next = workspace_.design();
    next.alternatives[static_cast<std::size_t>(item->row() - 1)].name =
        item->text().trimmed().toStdString();
    workspace_.apply(tr("Rename an alternative"), std::move(next));
  });
  connect(&workspace_, &Workspace::opened, this, [this] {
    work_.cancel = true;
    anchors_ = {{workspace_.shareDesign(), tr("Base")}};
    results_->hide();
  });
  connect(&workspace_, &Workspace::designChanged, this, &AlternativesList::take);
  anchors_ = {{workspace_.shareDesign(), tr("Base")}};
  take();
}

AlternativesList::~AlternativesList() {
  work_.cancel = true;
  prover_.waitForDone();
}

// Undo may have gone behind the newest: the one with the alternatives that are there now.
const AlternativesList::Anchor& AlternativesList::anchor() const {
  for (auto it = anchors_.rbegin(); it != anchors_.rend(); ++it)
    if (it->design->alternatives == workspace_.design().alternatives) return *it;
  return anchors_.back();
}

const design::Alternative* AlternativesList::chosen() const {
  const int row = table_->currentRow();
  const auto& all = workspace_.design().alternatives;
  return row > 0 && row <= static_cast<int>(all.size()) ? &all[static_cast<std::size_t>(row - 1)]
                                                        : nullptr;
}

void AlternativesList::take() {
  if (workspace_.isDragging()) return;
  const auto& all = workspace_.design().alternatives;
  taking_ = true;
  const int row = table_->currentRow();
  table_->setRowCount(static_cast<int>(all.size()) + 1);
  const auto put = [&](int at, const QString& name, const QString& changes, bool editable) {
    auto* first = new QTableWidgetItem(name);
    auto* second = new QTableWidgetItem(changes);
    if (!editable) first->setFlags(first->flags() & ~Qt::ItemIsEditable);
    second->setFlags(second->flags() & ~Qt::ItemIsEditable);
    table_->setItem(at, kName, first);
    table_->setItem(at, kChanges, second);
  };
  put(0, anchor().name, tr("on the sheet"), false);
  for (std::size_t i = 0; i < all.size(); ++i)
    put(static_cast<int>(i) + 1, nameOf(all[i]),
        tr("%n values", nullptr, static_cast<int>(all[i].edits.size())), true);
  table_->setCurrentCell(std::clamp(row, 0, table_->rowCount() - 1), kName);
  taking_ = false;
  empty_->setVisible(all.empty());
  if (results_->isVisible() && compared_version_ != workspace_.version())
    of_->setText(tr("of the design before the last changes"));
  takeButtons();
}

void AlternativesList::takeButtons() {
  const bool other = chosen() != nullptr;
  switch_->setEnabled(other);
  base_->setEnabled(other);
  drop_->setEnabled(other);
  keep_->setEnabled(!name_->text().trimmed().isEmpty());
  compare_->setEnabled(!comparing_ && !workspace_.design().alternatives.empty());
  stop_->setVisible(comparing_);
  progress_->setVisible(comparing_);
}

template <class Action>
void AlternativesList::tryTo(Action action) {
  try {
    action();
  } catch (const InputError& error) {
    QString all;
    for (const Problem& problem : error.problems())
      all += (all.isEmpty() ? "" : "; ") + QString::fromStdString(problem.what);
    const std::string& hint = error.problems().front().hint;
    workspace_.complain(tr("Not done: %1%2").arg(
        all, hint.empty() ? QString() : " (" + QString::fromStdString(hint) + ")"));
  }
}

// What was worked out of a design that has been edited meanwhile would write over the edit.
bool AlternativesList::changedSince(const std::shared_ptr<const design::Design>& present) {
  if (workspace_.shareDesign() == present) return false;
  workspace_.complain(tr("Not done: the design was changed meanwhile. Do it again."));
  return true;
}

void AlternativesList::keep() {
  const QString name = name_->text().trimmed();
  if (name.isEmpty()) return;
  tryTo([&] {
    const Anchor base = anchor();
    const auto present = workspace_.shareDesign();
    design::Design next;
    besideWindow(window(), tr("Keeping “%1” ...").arg(name), CanCancel::no, [&] {
      next = edit::keptAsAlternative(*base.design, *present, name.toStdString());
    });
    if (changedSince(present)) return;
    if (next.alternatives.back().edits.empty())
      return workspace_.complain(tr("Nothing has changed since the base: change something first."));
    workspace_.apply(tr("Keep “%1”").arg(name), std::move(next));
    anchors_.push_back({workspace_.shareDesign(), base.name});
    if (anchors_.size() > kAnchorsMost) anchors_.erase(anchors_.begin() + 1);
    name_->clear();
    take();
    workspace_.tell(tr("Kept as “%1”. The base is on the sheet again.").arg(name));
  });
}

void AlternativesList::goOver(bool keep_base) {
  const design::Alternative* to = chosen();
  if (!to) return;
  tryTo([&] {
    const QString name = nameOf(*to);
    const auto present = workspace_.shareDesign();
    const design::AnyId id = to->id;
    const std::string base_name = keep_base ? anchor().name.toStdString() : std::string();
    design::Design next;
    besideWindow(window(), tr("Going over to “%1” ...").arg(name), CanCancel::no,
                 [&] { next = edit::goneOverTo(*present, id, base_name); });
    if (changedSince(present)) return;
    const QString now = keep_base ? name : tr("Base");
    workspace_.apply(keep_base ? tr("Go over to “%1”").arg(name)
                               : tr("Make “%1” the base").arg(name),
                     std::move(next));
    anchors_.push_back({workspace_.shareDesign(), now});
    if (anchors_.size() > kAnchorsMost) anchors_.erase(anchors_.begin() + 1);
    take();
  });
}

void AlternativesList::drop() {
  const design::Alternative* which = chosen();
  if (!which) return;
  const Anchor base = anchor();
  design::Design next = edit::withoutAlternative(workspace_.design(), which->id);
  auto kept = std::make_shared<design::Design>(*base.design);
  kept->alternatives = next.alternatives;
  workspace_.apply(tr("Delete “%1”").arg(nameOf(*which)), std::move(next));
  anchors_.push_back({kept, base.name});
  take();
}

void AlternativesList::compare() {
  if (comparing_) return;
  comparing_ = true;
  work_.cancel = false;
  compared_version_ = workspace_.version();
  of_->setText({});
  takeButtons();
  work_.report = [this](double share, std::string_view) {
    QMetaObject::invokeMethod(this, [this, share] { progress_->setValue(int(1000 * share)); });
  };
  prover_.start([this, design = workspace_.shareDesign(), folder = workspace_.folder(),
                 base_name = anchor().name] {
    std::vector<Variant> variants;
    proof::ProveOptions options;
    options.blind_zones = false;  // spots say whose recordings a demand is about
    const std::size_t count = design->alternatives.size() + 1;
    try {
      for (std::size_t i = 0; i < count; ++i) {
        Variant variant;
        variant.name = i == 0 ? base_name : nameOf(design->alternatives[i - 1]);
        try {
          const design::Design one =
              i == 0 ? *design : design::applied(*design, design->alternatives[i - 1]);
          variant.results =
              resultsOf(requirements::prove(one, folder, options, partOf(work_, i, count)));
        } catch (const InputError& error) {
          variant.failed = QString::fromStdString(error.problems().front().what);
        }
        variants.push_back(std::move(variant));
      }
    } catch (const Cancelled&) {
      variants.clear();
    }
    QMetaObject::invokeMethod(this, [this, variants = std::move(variants)] {
      comparing_ = false;
      progress_->setValue(0);
      if (variants.empty()) {
        of_->setText(tr("stopped"));
      } else {
        fill(variants);
      }
      takeButtons();
      Q_EMIT compared();
    });
  });
}

std::vector<AlternativesList::Result> AlternativesList::resultsOf(
    const requirements::Answer& answer) {
  std::vector<Result> results;
  for (const proof::RequirementProof& row : answer.proof.requirements) {
    QString asked = QString::fromStdString(row.requirement.text + ", " + row.situation.text);
    if (!row.without.empty()) asked += tr(", without %1").arg(QString::fromStdString(row.without));
    results.push_back({asked, QString::fromStdString(drawing::verdictWords(row, shownUnit())),
                       row.verdict == proof::Verdict::met});
  }
  for (const requirements::Demand& demand : answer.demands)
    results.push_back({tr("%1, %2").arg(QString::fromStdString(demand.requirement.text),
                                        askedWord(demand.asks)),
                       demandWords(demand), demand.verdict == proof::Verdict::met});
  return results;
}

void AlternativesList::fill(const std::vector<Variant>& variants) {
  QStringList rows, columns;
  for (const Variant& variant : variants) {
    columns << variant.name;
    for (const Result& result : variant.results)
      if (!rows.contains(result.asked)) rows << result.asked;
  }
  results_->clear();
  results_->setRowCount(static_cast<int>(rows.size()));
  results_->setColumnCount(static_cast<int>(columns.size()) + 1);
  results_->setHorizontalHeaderLabels(QStringList(tr("Requirement")) + columns);
  for (int r = 0; r < rows.size(); ++r) results_->setItem(r, 0, new QTableWidgetItem(rows[r]));
  for (std::size_t c = 0; c < variants.size(); ++c) {
    const int column = static_cast<int>(c) + 1;
    if (!variants[c].failed.isEmpty() && !rows.isEmpty())
      results_->setItem(0, column, new QTableWidgetItem(variants[c].failed));
    for (const Result& result : variants[c].results) {
      auto* item = new QTableWidgetItem(result.words);
      item->setToolTip(result.words);
      if (!result.met) {
        QFont font = item->font();
        font.setBold(true);
        item->setFont(font);
      }
      results_->setItem(static_cast<int>(rows.indexOf(result.asked)), column, item);
    }
  }
  results_->horizontalHeader()->setStretchLastSection(false);
  results_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  results_->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  results_->show();
}

}  // namespace belvedere::desk
