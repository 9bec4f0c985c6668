// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/findings_list.h"

#include <QDate>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

#include "desk/go_to.h"
#include "desk/list_look.h"
#include "desk/room_sentences.h"
#include "desk/sheet_view.h"
#include "edit/shapes.h"

namespace belvedere::desk {
namespace {

std::string firstOf(const Finding& finding) {
  return finding.about.empty() ? std::string() : finding.about.front();
}

const design::Accepted* acceptedOf(const design::Design& design, const Finding& finding) {
  for (const design::Accepted& accepted : design.accepted)
    if (accepted.code == finding.code && accepted.of.text == firstOf(finding)) return &accepted;
  return nullptr;
}

QString idsOf(const Finding& finding) {
  QStringList ids;
  for (const std::string& id : finding.about) ids << QString::fromStdString(id);
  return ids.join(", ");
}

}  // namespace

// ---- the model ----------------------------------------------------------------------------------

FindingsModel::FindingsModel(Workspace& workspace, Evaluator& evaluator, QObject* parent)
    : QAbstractTableModel(parent), workspace_(workspace), evaluator_(evaluator) {
  connect(&workspace_, &Workspace::designChanged, this, &FindingsModel::take);
  connect(&evaluator_, &Evaluator::evaluated, this, &FindingsModel::take);
}

void FindingsModel::take() {
  const std::shared_ptr<const Evaluation> known = evaluator_.now();
  std::vector<Line> next;
  for (const Finding& finding : known->findings)
    next.push_back({finding, acceptedOf(workspace_.design(), finding)});
  // The gravest first; what is lived with, last.
  std::stable_sort(next.begin(), next.end(), [](const Line& a, const Line& b) {
    if ((a.accepted != nullptr) != (b.accepted != nullptr)) return b.accepted != nullptr;
    return a.finding.severity > b.finding.severity;
  });
  const bool same = std::equal(next.begin(), next.end(), lines_.begin(), lines_.end(),
                               [](const Line& a, const Line& b) {
                                 return a.finding == b.finding &&
                                        (a.accepted != nullptr) == (b.accepted != nullptr);
                               });
  if (same) {
    lines_ = std::move(next);  // what is accepted may lie elsewhere in memory
    return;
  }
  beginResetModel();
  lines_ = std::move(next);
  endResetModel();
}

int FindingsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(lines_.size());
}
int FindingsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(column_count);
}

QVariant FindingsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const Line& line = lines_[static_cast<std::size_t>(index.row())];
  if (role == Qt::TextAlignmentRole) return int(Qt::AlignLeft | Qt::AlignTop);
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole && role != Qt::AccessibleTextRole) return {};
  const QString says = roomSentence(line.finding.sentence);
  switch (index.column()) {
    case severity:
      if (line.accepted) return tr("accepted");
      switch (line.finding.severity) {
        case Severity::shortfall: return tr("shortfall");
        case Severity::caution: return tr("caution");
        case Severity::note: return tr("note");
      }
      return {};
    case sentence:
      return line.accepted
                 ? tr("%1\n%2 agreed: %3")
                       .arg(says, QString::fromStdString(line.accepted->by),
                            QString::fromStdString(line.accepted->reason))
                 : says;
    case about: return idsOf(line.finding);
    default: return {};
  }
}

QVariant FindingsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  return section == severity ? tr("How grave") : section == sentence ? tr("Finding") : tr("About");
}

// ---- the list -----------------------------------------------------------------------------------

FindingsList::FindingsList(Workspace& workspace, Evaluator& evaluator, SheetView& sheet)
    : workspace_(workspace), evaluator_(evaluator), sheet_(sheet) {
  setObjectName("findings");
  model_ = new FindingsModel(workspace, evaluator, this);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  state_ = new QLabel;
  state_->setWordWrap(true);
  state_->setForegroundRole(QPalette::Dark);
  column->addWidget(state_);
  table_ = new QTableView;
  table_->setObjectName("findings.table");
  table_->setAccessibleName(tr("Findings of the last proof"));
  table_->setModel(model_);
  setListLook(*table_);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setWordWrap(true);
  table_->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  table_->horizontalHeader()->setStretchLastSection(false);
  table_->horizontalHeader()->setSectionResizeMode(FindingsModel::sentence, QHeaderView::Stretch);
  const int em = table_->fontMetrics().horizontalAdvance('m');
  table_->setColumnWidth(FindingsModel::severity, 6 * em);
  table_->setColumnWidth(FindingsModel::about, 7 * em);
  column->addWidget(table_, 1);
  setFocusProxy(table_);

  auto* form = new QFormLayout;
  reason_ = new QLineEdit;
  reason_->setObjectName("findings.reason");
  reason_->setPlaceholderText(tr("why it can be lived with"));
  by_ = new QLineEdit(QSettings().value("person").toString());
  by_->setObjectName("findings.by");
  by_->setPlaceholderText(tr("who agreed"));
  form->addRow(tr("&Reason"), reason_);
  form->addRow(tr("&By"), by_);
  column->addLayout(form);
  auto* row = new QHBoxLayout;
  accept_ = new QPushButton(tr("&Accept with this reason"));
  accept_->setObjectName("findings.accept");
  take_back_ = new QPushButton(tr("Take &back"));
  take_back_->setObjectName("findings.take_back");
  row->addWidget(accept_);
  row->addWidget(take_back_);
  row->addStretch();
  column->addLayout(row);

  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this] {
    goToCause();
    takeState();
  });
  connect(table_, &QTableView::clicked, this, &FindingsList::goToCause);
  connect(table_, &QTableView::activated, this, &FindingsList::goToCause);
  connect(reason_, &QLineEdit::textChanged, this, &FindingsList::takeState);
  connect(by_, &QLineEdit::textChanged, this, &FindingsList::takeState);
  connect(reason_, &QLineEdit::returnPressed, this, &FindingsList::accept);
  connect(accept_, &QPushButton::clicked, this, &FindingsList::accept);
  connect(take_back_, &QPushButton::clicked, this, &FindingsList::takeBack);
  connect(model_, &QAbstractItemModel::modelReset, this, &FindingsList::takeState);
  connect(&workspace_, &Workspace::designChanged, this, &FindingsList::takeState);
  connect(&evaluator_, &Evaluator::evaluated, this, &FindingsList::takeState);
  takeState();
}

const FindingsModel::Line* FindingsList::chosen() const {
  const QModelIndex at = table_->currentIndex();
  return at.isValid() ? &model_->lines()[static_cast<std::size_t>(at.row())] : nullptr;
}

void FindingsList::takeState() {
  const std::shared_ptr<const Evaluation> known = evaluator_.now();
  if (known->findings_version == 0) {
    state_->setText(tr("Nothing is proven yet. Findings come with the proof."));
  } else if (known->findings_version != workspace_.version()) {
    state_->setText(tr("Of the design before the last changes; the proof is under way."));
  } else if (!known->sun_known && workspace_.design().site.place) {
    state_->setText(tr("What the sun does in a year is not worked out yet."));
  } else if (known->findings.empty()) {
    state_->setText(tr("The proof found nothing to mention."));
  } else {
    state_->setText({});
  }
  state_->setVisible(!state_->text().isEmpty());
  const FindingsModel::Line* line = chosen();
  setProperty("help", line ? "findings.md#" + QString::fromStdString(line->finding.code)
                           : QString("findings.md"));
  accept_->setEnabled(line && !line->accepted && !reason_->text().trimmed().isEmpty() &&
                      !by_->text().trimmed().isEmpty());
  take_back_->setEnabled(line && line->accepted);
}

void FindingsList::goToCause() {
  if (const FindingsModel::Line* line = chosen())
    goTo(workspace_, sheet_, std::vector(line->finding.about));
}

void FindingsList::accept() {
  const FindingsModel::Line* line = chosen();
  if (!line || !accept_->isEnabled()) return;
  design::Design next = workspace_.design();
  design::Accepted accepted;
  accepted.id = {edit::newId(next, "A")};
  accepted.code = line->finding.code;
  accepted.of = {firstOf(line->finding)};
  accepted.reason = reason_->text().trimmed().toStdString();
  accepted.by = by_->text().trimmed().toStdString();
  accepted.on = QDate::currentDate().toString(Qt::ISODate).toStdString();
  next.accepted.push_back(std::move(accepted));
  QSettings().setValue("person", by_->text().trimmed());
  reason_->clear();
  workspace_.apply(tr("Accept a finding"), std::move(next));
}

void FindingsList::takeBack() {
  const FindingsModel::Line* line = chosen();
  if (!line || !line->accepted) return;
  design::Design next = workspace_.design();
  std::erase_if(next.accepted,
                [id = line->accepted->id](const design::Accepted& a) { return a.id == id; });
  workspace_.apply(tr("Take back an acceptance"), std::move(next));
}

}  // namespace belvedere::desk
