// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/shortcuts_page.h"

#include <QAction>
#include <QHBoxLayout>
#include <QKeySequenceEdit>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QTableWidget>
#include <QVBoxLayout>

#include "desk/list_look.h"
#include "desk/main_window.h"

namespace belvedere::desk {
namespace {

const char* const kAsBuilt = "shortcut_as_built";

QString keyOf(const QAction& action) { return "shortcuts/" + action.objectName(); }

QKeySequence asBuilt(QAction& action) {
  if (!action.property(kAsBuilt).isValid()) action.setProperty(kAsBuilt, action.shortcut().toString());
  return QKeySequence(action.property(kAsBuilt).toString());
}

}  // namespace

void takeKeptShortcuts(const MainWindow& window) {
  const QSettings settings;
  for (const Command& command : commandsOf(window)) {
    asBuilt(*command.action);
    const QVariant kept = settings.value(keyOf(*command.action));
    if (kept.isValid()) command.action->setShortcut(QKeySequence(kept.toString()));
  }
}

ShortcutsPage::ShortcutsPage(MainWindow& window) : QDialog(&window), window_(window) {
  setObjectName("shortcuts");
  setWindowTitle(tr("Shortcuts"));
  resize(620, 560);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 16, 18, 14);
  table_ = new QTableWidget(0, 3);
  table_->setObjectName("shortcuts.table");
  table_->setAccessibleName(tr("Commands and their keys"));
  table_->setHorizontalHeaderLabels({tr("Command"), tr("Menu"), tr("Keys")});
  setListLook(*table_);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
  column->addWidget(table_, 1);
  auto* row = new QHBoxLayout;
  auto* label = new QLabel(tr("&New keys:"));
  keys_ = new QKeySequenceEdit;
  keys_->setObjectName("shortcuts.keys");
  keys_->setAccessibleName(tr("New keys of the chosen command"));
  label->setBuddy(keys_);
  auto* take = new QPushButton(tr("&Set"));
  take->setObjectName("shortcuts.set");
  auto* none = new QPushButton(tr("N&one"));
  none->setObjectName("shortcuts.none");
  auto* back = new QPushButton(tr("&As it was"));
  back->setObjectName("shortcuts.back");
  for (QPushButton* button : {take, none, back}) button->setAutoDefault(false);
  row->addWidget(label);
  row->addWidget(keys_, 1);
  row->addWidget(take);
  row->addWidget(none);
  row->addWidget(back);
  column->addLayout(row);
  says_ = new QLabel;
  says_->setObjectName("shortcuts.says");
  says_->setWordWrap(true);
  column->addWidget(says_);
  connect(take, &QPushButton::clicked, this, [this] { set(keys_->keySequence()); });
  connect(none, &QPushButton::clicked, this, [this] { set({}); });
  connect(back, &QPushButton::clicked, this, &ShortcutsPage::asItWas);
  connect(table_, &QTableWidget::itemSelectionChanged, this, &ShortcutsPage::takeRow);
  fill();
  table_->selectRow(0);
}

void ShortcutsPage::fill() {
  commands_ = commandsOf(window_);
  table_->setRowCount(static_cast<int>(commands_.size()));
  for (std::size_t i = 0; i < commands_.size(); ++i) {
    const QString cells[3] = {commands_[i].words, commands_[i].menu,
                              commands_[i].action->shortcut().toString(QKeySequence::NativeText)};
    for (int c = 0; c < 3; ++c)
      table_->setItem(static_cast<int>(i), c, new QTableWidgetItem(cells[c]));
  }
  table_->resizeColumnToContents(1);
}

QAction* ShortcutsPage::chosen() const {
  const int row = table_->currentRow();
  return row >= 0 && row < static_cast<int>(commands_.size())
             ? commands_[static_cast<std::size_t>(row)].action
             : nullptr;
}

void ShortcutsPage::takeRow() {
  if (const QAction* action = chosen()) keys_->setKeySequence(action->shortcut());
}

void ShortcutsPage::set(const QKeySequence& keys) {
  QAction* action = chosen();
  if (!action) return;
  if (!keys.isEmpty())
    for (const Command& other : commands_)
      if (other.action != action && other.action->shortcut() == keys) {
        says_->setText(tr("%1 already runs “%2”: give that one other keys first.")
                           .arg(keys.toString(QKeySequence::NativeText), other.words));
        return;
      }
  asBuilt(*action);
  action->setShortcut(keys);
  QSettings().setValue(keyOf(*action), keys.toString());
  says_->setText({});
  const int row = table_->currentRow();
  fill();
  table_->selectRow(row);
}

void ShortcutsPage::asItWas() {
  QAction* action = chosen();
  if (!action) return;
  set(asBuilt(*action));
  if (action->shortcut() == asBuilt(*action)) QSettings().remove(keyOf(*action));
}

}  // namespace belvedere::desk
