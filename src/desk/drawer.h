// SPDX-License-Identifier: GPL-3.0-or-later
//
// The drawer at the right of the sheet: lists that are looked at one at a time and put away again.
// Hidden until one is asked for by its command; the same command, or Escape, puts it away.
#pragma once

#include <QWidget>

#include <functional>
#include <vector>

class QLabel;
class QStackedWidget;

namespace belvedere::desk {

class MainWindow;

class Drawer : public QWidget {
  Q_OBJECT

 public:
  explicit Drawer(MainWindow& window);

  // A page with its heading; opened by a command of that name ("lists.objects") in the View menu.
  void addPage(const QString& command, const QString& words, const QString& heading,
               const QKeySequence& shortcut, QWidget* page);
  void open(QWidget* page);
  void putAway();
  QWidget* page() const;              // null: put away

 Q_SIGNALS:
  void pageChanged();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  MainWindow& window_;
  QLabel* heading_ = nullptr;
  QStackedWidget* pages_ = nullptr;
};

}  // namespace belvedere::desk
