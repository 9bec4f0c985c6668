// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/ledger_view.h"

#include <QLabel>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>
#include <string_view>
#include <unordered_map>

#include "desk/ledger_rank.h"

namespace belvedere::desk {
namespace {

constexpr int kPad = 14;

}  // namespace

LedgerView::LedgerView(Workspace& workspace, Evaluator& evaluator, QWidget* parent)
    : QScrollArea(parent), workspace_(workspace), evaluator_(evaluator) {
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setAccessibleName(tr("Brief"));
  content_ = new QWidget;
  rows_layout_ = new QVBoxLayout(content_);
  rows_layout_->setContentsMargins(0, 8, 0, 8);
  rows_layout_->setSpacing(0);
  rows_layout_->addStretch();
  setWidget(content_);
  // Room for the scroll bar, there or not: rows are not broken anew where it comes.
  const auto margins = [this](int, int most) {
    rows_layout_->setContentsMargins(0, 8, most > 0 ? 0 : verticalScrollBar()->sizeHint().width(), 8);
  };
  connect(verticalScrollBar(), &QScrollBar::rangeChanged, this, margins);
  margins(0, 0);
  connect(&workspace_, &Workspace::opened, this,
          [this] { opened_version_ = workspace_.version(); });
  connect(&evaluator_, &Evaluator::evaluated, this, &LedgerView::takeRows);
  connect(&workspace_, &Workspace::designChanged, this, &LedgerView::takeRows);
  connect(&workspace_, &Workspace::viewChanged, this, [this] {  // another situation's reasons
    for (LedgerRowView* row : rows_) row->setOpen(row->requirement() == workspace_.requirement());
  });
  connect(&workspace_, &Workspace::requirementChanged, this, [this] {
    for (LedgerRowView* row : rows_) {
      row->setOpen(row->requirement() == workspace_.requirement());
      if (row->requirement() == workspace_.requirement())
        QMetaObject::invokeMethod(
            this, [this, row] { ensureWidgetVisible(row, 0, 24); }, Qt::QueuedConnection);
    }
    asked_for_.clear();
    askForRemedy();
  });
  connect(&evaluator_, &Evaluator::explained, this,
          [this](const std::shared_ptr<const proof::SpotExplanation>& spot, bool changes_sought,
                 const SpotWish& asked) {
            if (asked.of != SpotOf::requirement || !changes_sought) return;
            for (LedgerRowView* row : rows_)
              if (row->requirement() == spot->requirement) row->setRemedies(*spot, asked.version);
          });
  takeRows();
}

void LedgerView::takeRows() {
  std::vector<design::RequirementId> wanted;
  for (const design::Requirement& requirement : workspace_.design().brief)
    wanted.push_back(requirement.id);
  const bool same = std::equal(rows_.begin(), rows_.end(), wanted.begin(), wanted.end(),
                               [](const LedgerRowView* row, const design::RequirementId& id) {
                                 return row->requirement() == id;
                               });
  if (!same || !filled_) {
    filled_ = true;
    for (LedgerRowView* row : rows_) row->deleteLater();
    delete empty_;
    empty_ = nullptr;
    rows_.clear();
    while (QLayoutItem* item = rows_layout_->takeAt(0)) delete item;
    for (const design::RequirementId& id : wanted) {
      auto* row = new LedgerRowView(workspace_, id, content_);
      connect(row, &LedgerRowView::showSpot, this, &LedgerView::showSpot);
      row->setOpen(id == workspace_.requirement());
      rows_layout_->addWidget(row);
      rows_.push_back(row);
    }
    if (wanted.empty()) {
      auto* empty = new QLabel(
          tr("Nothing is asked for yet. Draw a zone, then say what must be seen in it."));
      empty->setWordWrap(true);
      empty_ = empty;
      empty_->setContentsMargins(kPad, 8, kPad, 8);
      empty_->setObjectName("empty_brief");
      rows_layout_->addWidget(empty_);
    }
    rows_layout_->addStretch();
  }
  const auto evaluation = evaluator_.now();
  std::unordered_map<std::string_view, std::vector<LedgerRow>> known;
  for (const LedgerRow& row : evaluation->rows) known[row.proof.requirement.text].push_back(row);
  std::unordered_map<std::string_view, std::vector<requirements::Demand>> demands;
  if (evaluation->findings_version >= opened_version_)
    for (const requirements::Demand& demand : evaluation->demands)
      demands[demand.requirement.text].push_back(demand);
  for (LedgerRowView* view : rows_)
    view->setRows(std::move(known[view->requirement().text]),
                  std::move(demands[view->requirement().text]), evaluation->findings_version,
                  workspace_.version());
  askForRemedy();
}

// Once a proven row has a worst spot that fails, its nearest changes.
void LedgerView::askForRemedy() {
  if (workspace_.requirement().empty() || workspace_.isDragging()) return;
  for (const LedgerRowView* view : rows_) {
    if (view->requirement() != workspace_.requirement()) continue;
    const LedgerRow* worst = nullptr;
    for (const LedgerRow& row : view->rows())
      if (row.known == Known::proven && row.version == workspace_.version() &&
          row.proof.without.empty() && row.proof.worst && rank(workspace_.design(), row) > 0 &&
          (!worst || row.proof.situation == workspace_.situation()))
        worst = &row;
    if (!worst) return;
    const QString ask = QString::fromStdString(worst->proof.requirement.text + "\n" +
                                               worst->proof.situation.text) +
                        QString::number(workspace_.version());
    if (ask == asked_for_) return;
    asked_for_ = ask;
    evaluator_.ask({SpotOf::requirement, workspace_.version(), workspace_.shareDesign(),
                    workspace_.folder(), worst->proof.requirement, worst->proof.situation,
                    worst->proof.worst->at.xy(), true});
  }
}

QString LedgerView::wordsOf(const design::RequirementId& requirement,
                            const design::SituationId& situation) const {
  for (const LedgerRowView* view : rows_)
    if (view->requirement() == requirement)
      for (const LedgerRow& row : view->rows())
        if (row.proof.situation == situation && row.proof.without.empty()) return view->words(row);
  return {};
}

}  // namespace belvedere::desk
