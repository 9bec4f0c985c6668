// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/command_palette.h"

#include <QAction>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QTableWidget>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

#include "desk/list_look.h"
#include "desk/main_window.h"
#include "desk/room_words.h"

namespace belvedere::desk {
namespace {

constexpr std::size_t kListedMost = 80;
constexpr int kWidePx = 620, kHighPx = 380, kFromTopPx = 70;

QString plain(QString words) { return words.remove('&'); }

void gatherFrom(const QMenu& menu, const QString& name, std::vector<Command>& all) {
  for (QAction* action : menu.actions()) {
    if (action->menu()) {
      gatherFrom(*action->menu(), name + " / " + plain(action->text()), all);
    } else if (!action->objectName().isEmpty()) {
      all.push_back({action, plain(action->text()), name});
    }
  }
}

// How near the words are to what was typed; less is nearer, negative: not at all.
int distance(const QString& words, const QString& all, const QStringList& typed) {
  int sum = 0;
  for (const QString& word : typed) {
    const qsizetype at = words.indexOf(word, 0, Qt::CaseInsensitive);
    if (at == 0) continue;
    if (at > 0) {
      sum += words[at - 1].isLetterOrNumber() ? 2 : 1;
    } else if (all.contains(word, Qt::CaseInsensitive)) {
      sum += 4;
    } else {
      return -1;
    }
  }
  return sum;
}

}  // namespace

std::vector<Command> commandsOf(const MainWindow& window) {
  std::vector<Command> all;
  for (const QAction* top : window.menuBar()->actions())
    if (top->menu()) gatherFrom(*top->menu(), plain(top->text()), all);
  return all;
}

CommandPalette::CommandPalette(MainWindow& window) : QDialog(&window), window_(window) {
  setObjectName("palette");
  setWindowTitle(tr("Commands"));
  setModal(true);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(12, 12, 12, 12);
  typed_ = new QLineEdit;
  typed_->setObjectName("palette.typed");
  typed_->setPlaceholderText(tr("a command, an object or a requirement"));
  typed_->setAccessibleName(tr("Command, object or requirement"));
  typed_->installEventFilter(this);
  column->addWidget(typed_);
  list_ = new QTableWidget(0, 3);
  list_->setObjectName("palette.list");
  list_->setAccessibleName(tr("What can be run or gone to"));
  setListLook(*list_);
  list_->horizontalHeader()->hide();
  list_->setSelectionMode(QAbstractItemView::SingleSelection);
  list_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  list_->setFocusPolicy(Qt::NoFocus);  // the keys stay with what is typed
  list_->horizontalHeader()->setStretchLastSection(false);
  list_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
  list_->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
  list_->horizontalHeader()->setSectionResizeMode(2, QHeaderView::ResizeToContents);
  column->addWidget(list_, 1);
  connect(typed_, &QLineEdit::textChanged, this, &CommandPalette::filter);
  connect(list_, &QTableWidget::cellClicked, this, &CommandPalette::run);
}

void CommandPalette::openAnew() {
  gather();
  typed_->clear();
  filter();
  resize(std::min(kWidePx, window_.width() - 40), std::min(kHighPx, window_.height() - 100));
  move(window_.mapToGlobal(QPoint((window_.width() - width()) / 2, kFromTopPx)));
  open();
  typed_->setFocus();
}

void CommandPalette::gather() {
  entries_.clear();
  for (const Command& command : commandsOf(window_))
    entries_.push_back({command.words, command.menu,
                        command.action->shortcut().toString(QKeySequence::NativeText),
                        command.action->isEnabled(), [action = command.action] { action->trigger(); }});
  Workspace& workspace = window_.workspace();
  for (const design::Requirement& requirement : workspace.design().brief)
    entries_.push_back({QString::fromStdString(requirement.id.text), tr("requirement"), {}, true,
                        [&workspace, id = requirement.id] { workspace.selectRequirement(id); }});
  for (const edit::ObjectLine& line : edit::objectsOf(workspace.design(), {})) {
    QString id = QString::fromStdString(line.ref.id);
    if (line.ref.slot > 0) id += "." + QString::number(line.ref.slot);
    const QString title = QString::fromStdString(line.title);
    entries_.push_back({title == id || title.isEmpty() ? id : title + " (" + id + ")",
                        roomWord(line.kind), {}, true, [this, ref = line.ref] {
                          window_.workspace().select({ref});
                          window_.sheet().showObject(ref);
                          window_.sheet().setFocus();
                        }});
  }
}

void CommandPalette::filter() {
  const QStringList typed = typed_->text().split(' ', Qt::SkipEmptyParts);
  std::vector<std::pair<int, std::size_t>> found;
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    const Entry& entry = entries_[i];
    const int far = distance(entry.words, entry.words + " " + entry.where, typed);
    if (far >= 0) found.push_back({far, i});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  if (found.size() > kListedMost) found.resize(kListedMost);
  listed_.clear();
  list_->setRowCount(static_cast<int>(found.size()));
  for (std::size_t row = 0; row < found.size(); ++row) {
    const Entry& entry = entries_[found[row].second];
    listed_.push_back(found[row].second);
    const QString cells[3] = {entry.words, entry.where, entry.key};
    for (int c = 0; c < 3; ++c) {
      auto* item = new QTableWidgetItem(cells[c]);
      if (!entry.enabled || c > 0) item->setForeground(palette().color(QPalette::Dark));
      list_->setItem(static_cast<int>(row), c, item);
    }
  }
  if (!listed_.empty()) list_->selectRow(0);
  list_->scrollToTop();
}

void CommandPalette::run() {
  const int row = list_->currentRow();
  if (row < 0 || row >= static_cast<int>(listed_.size())) return;
  const Entry entry = entries_[listed_[static_cast<std::size_t>(row)]];
  if (!entry.enabled) return;
  accept();
  QTimer::singleShot(0, &window_, entry.run);  // once this has gone
}

bool CommandPalette::eventFilter(QObject* watched, QEvent* event) {
  if (watched == typed_ && event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    int step = 0;
    if (key == Qt::Key_Down) step = 1;
    if (key == Qt::Key_Up) step = -1;
    if (key == Qt::Key_PageDown) step = 10;
    if (key == Qt::Key_PageUp) step = -10;
    if (step != 0 && list_->rowCount() > 0) {
      list_->selectRow(std::clamp(list_->currentRow() + step, 0, list_->rowCount() - 1));
      return true;
    }
    if (key == Qt::Key_Return || key == Qt::Key_Enter) {
      run();
      return true;
    }
  }
  return QDialog::eventFilter(watched, event);
}

}  // namespace belvedere::desk
