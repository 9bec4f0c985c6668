// SPDX-License-Identifier: GPL-3.0-or-later
//
// The design's file under the window: another program may write it meanwhile. Then the person is
// asked whose is right; nothing is taken over or written over unasked.
#pragma once

#include <QFileSystemWatcher>
#include <QObject>
#include <QTimer>

namespace belvedere::desk {

class MainWindow;
class NoticeBar;

class DiskWatch : public QObject {
  Q_OBJECT

 public:
  DiskWatch(MainWindow& window, NoticeBar& notices);

 private:
  void follow();
  void look();

  MainWindow& window_;
  NoticeBar& notices_;
  QFileSystemWatcher watcher_;
  QTimer settle_;
};

}  // namespace belvedere::desk
