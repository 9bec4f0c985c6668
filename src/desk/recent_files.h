// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files that were worked on lately, the newest first, and where one looked in each: opened again, a
// design shows what it showed when it was left. Kept in the person's settings.
#pragma once

#include <QObject>
#include <QStringList>

class QMenu;

namespace belvedere::desk {

class MainWindow;

class RecentFiles : public QObject {
  Q_OBJECT

 public:
  explicit RecentFiles(MainWindow& window);
  static constexpr int kMost = 10;
  static QStringList paths();          // those that are gone too

 private:
  void remember();
  void fillMenu();
  void leave();                        // keeps where one looked
  void lookAgain();

  MainWindow& window_;
  QMenu* menu_ = nullptr;
  QString shown_;                      // the file whose view is kept when it is left
};

}  // namespace belvedere::desk
