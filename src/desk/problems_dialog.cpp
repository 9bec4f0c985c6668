// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/problems_dialog.h"

#include <QApplication>
#include <QClipboard>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QShortcut>
#include <QTableWidget>
#include <QVBoxLayout>

namespace belvedere::desk {

ProblemsDialog::ProblemsDialog(const QString& heading, std::vector<Problem> problems,
                               QWidget* parent)
    : QDialog(parent), heading_(heading), problems_(std::move(problems)) {
  setObjectName("problems");
  setWindowTitle(tr("The file cannot be used"));
  resize(860, 420);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 16, 18, 14);
  column->setSpacing(10);
  auto* words = new QLabel(heading);
  words->setWordWrap(true);
  words->setTextFormat(Qt::PlainText);
  column->addWidget(words);

  auto* table = new QTableWidget(static_cast<int>(problems_.size()), 3);
  table->setObjectName("problems.table");
  table->setAccessibleName(tr("Problems of the file"));
  table->setHorizontalHeaderLabels({tr("Where"), tr("What is wrong"), tr("What to do")});
  for (std::size_t i = 0; i < problems_.size(); ++i) {
    const Problem& problem = problems_[i];
    const QString cells[3] = {
        problem.where.empty() ? tr("the file as a whole") : QString::fromStdString(problem.where),
        QString::fromStdString(problem.what), QString::fromStdString(problem.hint)};
    for (int c = 0; c < 3; ++c) {
      auto* item = new QTableWidgetItem(cells[c]);
      item->setTextAlignment(Qt::AlignLeft | Qt::AlignTop);
      item->setToolTip(cells[c]);
      table->setItem(static_cast<int>(i), c, item);
    }
  }
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setShowGrid(false);
  table->setWordWrap(true);
  table->setTabKeyNavigation(false);
  table->verticalHeader()->hide();
  table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft);
  table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Interactive);
  table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
  table->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
  table->setColumnWidth(0, 210);
  if (table->rowCount() > 0) table->selectRow(0);
  column->addWidget(table, 1);

  auto* row = new QHBoxLayout;
  auto* copy_all = new QPushButton(tr("&Copy all"));
  copy_all->setObjectName("problems.copy");
  copy_all->setAutoDefault(false);
  connect(copy_all, &QPushButton::clicked, this, &ProblemsDialog::copy);
  connect(new QShortcut(QKeySequence::Copy, this), &QShortcut::activated, this,
          &ProblemsDialog::copy);
  auto* close = new QPushButton(tr("Close"));
  close->setObjectName("problems.close");
  close->setDefault(true);
  connect(close, &QPushButton::clicked, this, &QDialog::accept);
  row->addWidget(copy_all);
  row->addStretch();
  row->addWidget(close);
  column->addLayout(row);
}

QString ProblemsDialog::text() const {
  QString all = heading_ + "\n";
  for (const Problem& problem : problems_) {
    all += "\n" + QString::fromStdString(problem.where.empty() ? problem.what
                                                               : problem.where + ": " + problem.what);
    if (!problem.hint.empty()) all += "\n    " + QString::fromStdString(problem.hint);
    all += "\n";
  }
  return all;
}

void ProblemsDialog::copy() const { QApplication::clipboard()->setText(text()); }

}  // namespace belvedere::desk
