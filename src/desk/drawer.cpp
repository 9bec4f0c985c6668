// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/drawer.h"

#include <QAction>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

#include <algorithm>

#include "desk/main_window.h"

namespace belvedere::desk {
namespace {

constexpr int kWidePx = 420, kWidestPx = 640, kNarrowestPx = 280;
constexpr double kShare = 0.34;  // of what lies side by side

}  // namespace

Drawer::Drawer(MainWindow& window) : window_(window) {
  setObjectName("drawer");
  setMinimumWidth(kNarrowestPx);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(14, 8, 10, 8);
  column->setSpacing(8);
  auto* row = new QHBoxLayout;
  heading_ = new QLabel;
  QFont font = heading_->font();
  font.setPointSizeF(11);
  font.setBold(true);
  heading_->setFont(font);
  auto* away = new QPushButton(tr("Put away"));
  away->setFlat(true);
  away->setObjectName("drawer.away");
  connect(away, &QPushButton::clicked, this, &Drawer::putAway);
  row->addWidget(heading_, 1);
  row->addWidget(away);
  column->addLayout(row);
  pages_ = new QStackedWidget;
  column->addWidget(pages_, 1);
  window.across()->addWidget(this);
  window.across()->setStretchFactor(window.across()->indexOf(this), 0);
  hide();
}

void Drawer::addPage(const QString& command, const QString& words, const QString& heading,
                     const QKeySequence& shortcut, QWidget* page) {
  page->setWindowTitle(heading);
  page->setAccessibleName(heading);
  pages_->addWidget(page);
  window_.addCommand(tr("&View"), command, words, shortcut, [this, page] {
    if (Drawer::page() == page && window_.focusWidget() && isAncestorOf(window_.focusWidget())) {
      putAway();
    } else {
      open(page);
    }
  });
}

void Drawer::open(QWidget* page) {
  pages_->setCurrentWidget(page);
  heading_->setText(page->windowTitle());
  if (!isVisible()) {
    show();
    QList<int> sizes = window_.across()->sizes();
    const int at = window_.across()->indexOf(this);
    const int sheet = window_.across()->indexOf(&window_.sheet());
    if (at >= 0 && sheet >= 0) {
      const int wide =
          std::clamp(static_cast<int>(kShare * window_.across()->width()), kWidePx, kWidestPx);
      sizes[sheet] = std::max(200, sizes[sheet] + sizes[at] - wide);
      sizes[at] = wide;
      window_.across()->setSizes(sizes);
    }
  }
  Q_EMIT pageChanged();
  page->setFocus(Qt::ShortcutFocusReason);
}

void Drawer::putAway() {
  hide();
  Q_EMIT pageChanged();
  window_.sheet().setFocus();
}

QWidget* Drawer::page() const { return isVisible() ? pages_->currentWidget() : nullptr; }

void Drawer::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) return putAway();
  QWidget::keyPressEvent(event);
}

}  // namespace belvedere::desk
