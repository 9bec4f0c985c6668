// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/disk_watch.h"

#include <QFileInfo>

#include "base/problem.h"
#include "desk/main_window.h"
#include "desk/notice_bar.h"

namespace belvedere::desk {
namespace {

constexpr int kSettleMs = 200;  // whoever writes may write in several goes
const QString kAbout = "disk";

}  // namespace

DiskWatch::DiskWatch(MainWindow& window, NoticeBar& notices)
    : QObject(&window), window_(window), notices_(notices) {
  settle_.setSingleShot(true);
  settle_.setInterval(kSettleMs);
  connect(&watcher_, &QFileSystemWatcher::fileChanged, this, [this] { settle_.start(); });
  connect(&watcher_, &QFileSystemWatcher::directoryChanged, this, [this] { settle_.start(); });
  connect(&settle_, &QTimer::timeout, this, &DiskWatch::look);
  connect(&window_.workspace(), &Workspace::opened, this, [this] {
    notices_.withdraw(kAbout);
    follow();
    settle_.start();  // what was recovered may be older than the file
  });
  connect(&window_.workspace(), &Workspace::savedChanged, this, [this] {
    follow();
    settle_.start();  // while it was being written, nobody looked
  });
}

// A file that is replaced by another of its name is lost to the watcher: its folder tells of it.
void DiskWatch::follow() {
  const std::filesystem::path& path = window_.workspace().path();
  QStringList wanted;
  if (!path.empty()) {
    const QString file = QString::fromStdString(path.string());
    if (QFileInfo::exists(file)) wanted << file;
    wanted << QFileInfo(file).absolutePath();
  }
  const QStringList watched = watcher_.files() + watcher_.directories();
  for (const QString& old : watched)
    if (!wanted.contains(old)) watcher_.removePath(old);
  for (const QString& path_now : wanted)
    if (!watched.contains(path_now)) watcher_.addPath(path_now);
}

void DiskWatch::look() {
  follow();
  Workspace& workspace = window_.workspace();
  if (!workspace.changedOnDisk()) {
    notices_.withdraw(kAbout);
    return;
  }
  const QString name = QString::fromStdString(workspace.path().filename().string());
  notices_.ask(
      {kAbout,
       workspace.isSaved()
           ? tr("Another program has changed %1.").arg(name)
           : tr("Another program has changed %1, and so have you. What you take over can be undone.")
                 .arg(name),
       {{"notice.theirs", tr("Take &theirs"),
         [this] {
           try {
             window_.workspace().takeTheirs();
           } catch (const InputError& error) {
             window_.showProblems(
                 tr("What the other program wrote cannot be used. Your design is as it was."), error);
           }
         }},
        {"notice.mine", tr("Keep &mine"), [this] {
           window_.workspace().keepMine();
           window_.tell(tr("Kept. Saving will write over what the other program wrote."));
         }}}});
}

}  // namespace belvedere::desk
