// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/swap_dialog.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QPushButton>

#include <algorithm>

#include "base/problem.h"
#include "desk/requirement_words.h"
#include "desk/room_sentences.h"
#include "edit/pattern.h"

namespace belvedere::desk {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

}  // namespace

SwapDialog::SwapDialog(Workspace& workspace, Evaluator& evaluator, design::HousingId housing,
                       QWidget* parent)
    : QDialog(parent), workspace_(workspace), evaluator_(evaluator), housing_(std::move(housing)) {
  setObjectName("swap_model");
  setAttribute(Qt::WA_DeleteOnClose);
  setWindowTitle(tr("Swap the model of %1").arg(text(housing_.text)));
  resize(460, 320);
  const design::Design& design = workspace_.design();
  if (const design::Housing* found = design::findHousing(design, housing_)) from_ = found->model;
  models_ = new QComboBox;
  models_->setObjectName("swap.model");
  for (const auto* list : {&design.catalogue.models, &design.library})
    for (const design::Model& model : *list)
      if (model.kind == design::ModelKind::housing && model.id != from_ &&
          models_->findData(text(model.id.text)) < 0)
        models_->addItem(model.title.empty() ? text(model.id.text)
                                             : text(model.id.text + ", " + model.title),
                         text(model.id.text));
  const auto uses = std::count_if(
      design.housings.begin(), design.housings.end(), [&](const design::Housing& h) {
        return h.model == from_ && h.life != design::Life::removed;
      });
  everywhere_ = new QCheckBox(tr("&Everywhere it is used (%n housings)", nullptr,
                                 static_cast<int>(uses)));
  everywhere_->setObjectName("swap.everywhere");
  everywhere_->setEnabled(uses > 1);
  says_ = new QLabel;
  says_->setWordWrap(true);
  says_->setObjectName("swap.says");
  brief_ = new QLabel;
  brief_->setWordWrap(true);
  brief_->setTextFormat(Qt::PlainText);
  brief_->setObjectName("swap.brief");
  auto* form = new QFormLayout(this);
  form->addRow(tr("Now"), new QLabel(text(from_.text)));
  form->addRow(tr("&Instead"), models_);
  form->addRow(QString(), everywhere_);
  form->addRow(tr("What changes"), says_);
  form->addRow(tr("The brief"), brief_);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  swap_ = buttons->addButton(tr("&Swap"), QDialogButtonBox::ApplyRole);
  swap_->setObjectName("swap.apply");
  form->addRow(buttons);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::close);
  connect(swap_, &QPushButton::clicked, this, &SwapDialog::swap);
  connect(models_, &QComboBox::currentIndexChanged, this, &SwapDialog::foretell);
  connect(everywhere_, &QCheckBox::toggled, this, &SwapDialog::foretell);
  connect(&evaluator_, &Evaluator::evaluated, this, &SwapDialog::tellOfBrief);
  foretell();
}

void SwapDialog::foretell() {
  swap_->setEnabled(models_->count() > 0);
  if (models_->count() == 0) {
    says_->setText(tr("The catalogue has no other housing: add one to it first."));
    return;
  }
  const design::ModelId to{models_->currentData().toString().toStdString()};
  try {
    const edit::Changed changed = everywhere_->isChecked()
                                      ? edit::swapModel(workspace_.design(), from_, to)
                                      : edit::swapModel(workspace_.design(), housing_, to);
    QStringList lines;
    for (const std::string& line : changed.says) lines.push_back(roomSentence(line));
    says_->setText(lines.empty() ? tr("All aims and streams stay as they are.")
                                 : lines.join("\n"));
    brief_->setText(tr("Swap, and it is looked at; undo brings all back."));
  } catch (const InputError& error) {
    says_->setText(text(error.problems().front().what));
    swap_->setEnabled(false);
  }
}

void SwapDialog::swap() {
  before_.clear();
  for (const LedgerRow& row : evaluator_.now()->rows)
    if (row.known != Known::nothing && row.proof.without.empty())
      before_[{row.proof.requirement.text, row.proof.situation.text}] =
          0.5 * (row.proof.share.low + row.proof.share.high);
  demands_before_.clear();
  if (evaluator_.now()->findings_version == workspace_.version())
    for (const requirements::Demand& demand : evaluator_.now()->demands)
      demands_before_[{demand.requirement.text, demand.asks}] = demandWords(demand);
  const design::ModelId to{models_->currentData().toString().toStdString()};
  try {
    edit::Changed changed = everywhere_->isChecked()
                                ? edit::swapModel(workspace_.design(), from_, to)
                                : edit::swapModel(workspace_.design(), housing_, to);
    workspace_.apply(everywhere_->isChecked()
                         ? tr("Swap %1 for %2").arg(text(from_.text), text(to.text))
                         : tr("%1 becomes %2").arg(text(housing_.text), text(to.text)),
                     std::move(changed.design));
    swapped_version_ = workspace_.version();
    swap_->setEnabled(false);
    models_->setEnabled(false);
    everywhere_->setEnabled(false);
    brief_->setText(tr("being looked at"));
  } catch (const InputError& error) {
    says_->setText(text(error.problems().front().what));
  }
}

void SwapDialog::tellOfBrief() {
  const auto now = evaluator_.now();
  if (swapped_version_ == 0 || now->version != swapped_version_) return;
  QStringList lines;
  for (const LedgerRow& row : now->rows) {
    if (row.known == Known::nothing || row.version != swapped_version_ ||
        !row.proof.without.empty())
      continue;
    const auto was = before_.find({row.proof.requirement.text, row.proof.situation.text});
    const double share = 0.5 * (row.proof.share.low + row.proof.share.high);
    QString line = text(row.proof.requirement.text);
    if (!row.proof.situation.text.empty()) line += ", " + text(row.proof.situation.text);
    line += ": " + (was == before_.end()
                        ? tr("%1 %").arg(100 * share, 0, 'f', 1)
                        : tr("%1 to %2 %")
                              .arg(100 * was->second, 0, 'f', 1)
                              .arg(100 * share, 0, 'f', 1));
    if (row.known == Known::preview) line += tr(" (preview)");
    lines.push_back(line);
  }
  // Rules, days, frames and money as soon as they are proven: those that fare otherwise now.
  if (now->findings_version == swapped_version_)
    for (const requirements::Demand& demand : now->demands) {
      const auto was = demands_before_.find({demand.requirement.text, demand.asks});
      const QString is = demandWords(demand);
      if (was != demands_before_.end() && was->second == is) continue;
      lines.push_back(text(demand.requirement.text) + ", " + askedWord(demand.asks) + ": " + is);
    }
  brief_->setText(lines.join("\n"));
}

}  // namespace belvedere::desk
