// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/recent_files.h"

#include <QAction>
#include <QCryptographicHash>
#include <QEvent>
#include <QFileInfo>
#include <QMenu>
#include <QSettings>

#include "desk/main_window.h"

namespace belvedere::desk {
namespace {

QString viewKey(const QString& path) {
  return "views/" + QString::fromLatin1(
                        QCryptographicHash::hash(path.toUtf8(), QCryptographicHash::Sha1).toHex());
}

QString pathOf(const Workspace& workspace) {
  return QString::fromStdString(workspace.path().string());
}

}  // namespace

RecentFiles::RecentFiles(MainWindow& window) : QObject(&window), window_(window) {
  menu_ = new QMenu(tr("Open &recent"), &window);
  menu_->setObjectName("file.recent");
  QMenu* file = window_.menuOf(MainWindow::tr("&File"));
  QAction* after = window_.command("file.save");
  file->insertMenu(after, menu_);
  connect(menu_, &QMenu::aboutToShow, this, &RecentFiles::fillMenu);
  connect(&window_, &MainWindow::fileOpened, this, [this] {
    remember();
    lookAgain();
  });
  connect(&window_, &MainWindow::fileLeft, this, &RecentFiles::leave);
  connect(&window_.workspace(), &Workspace::savedChanged, this, [this] {
    if (window_.workspace().isSaved() && !pathOf(window_.workspace()).isEmpty() &&
        !shown_.isEmpty() && shown_ != pathOf(window_.workspace()))
      remember();  // saved under another name
  });
  fillMenu();
}

QStringList RecentFiles::paths() { return QSettings().value("recent").toStringList(); }

void RecentFiles::remember() {
  shown_ = pathOf(window_.workspace());
  if (shown_.isEmpty()) return;
  QStringList all = paths();
  all.removeAll(shown_);
  all.prepend(shown_);
  QSettings settings;
  while (all.size() > kMost) settings.remove(viewKey(all.takeLast()));
  settings.setValue("recent", all);
  fillMenu();
}

void RecentFiles::fillMenu() {
  menu_->clear();
  const QStringList all = paths();
  for (const QString& path : all) {
    QAction* action = menu_->addAction(QFileInfo(path).fileName() + "    " +
                                       QFileInfo(path).absolutePath());
    action->setEnabled(QFileInfo::exists(path));
    connect(action, &QAction::triggered, this, [this, path] {
      if (window_.maySave()) window_.openFile(path.toStdString());
    });
  }
  menu_->addSeparator();
  QAction* forget = menu_->addAction(tr("&Forget these"));
  forget->setEnabled(!all.isEmpty());
  connect(forget, &QAction::triggered, this, [] {
    QSettings().remove("recent");
    QSettings().remove("views");
  });
}

void RecentFiles::leave() {
  const Workspace& workspace = window_.workspace();
  if (shown_.isEmpty() || shown_ != pathOf(workspace)) return;
  const SheetView& sheet = window_.sheet();
  const Vec2 middle = sheet.siteAt({0.5 * sheet.width(), 0.5 * sheet.height()});
  QSettings().setValue(viewKey(shown_),
                       QVariantList{middle.x, middle.y, sheet.pxPerM(),
                                    QString::fromStdString(workspace.storey().text),
                                    QString::fromStdString(workspace.situation().text),
                                    QString::fromStdString(workspace.requirement().text)});
}

void RecentFiles::lookAgain() {
  const QVariantList kept = QSettings().value(viewKey(shown_)).toList();
  if (kept.size() != 6 || kept[2].toDouble() <= 0) return;
  Workspace& workspace = window_.workspace();
  const auto word = [&](int i) { return kept[i].toString().toStdString(); };
  if (design::findRequirement(workspace.design(), {word(5)})) workspace.selectRequirement({word(5)});
  workspace.setStorey({word(3)});
  workspace.setSituation({word(4)});
  SheetView& sheet = window_.sheet();
  const Vec2 middle{0.5 * sheet.width(), 0.5 * sheet.height()};
  sheet.zoomAt(middle, kept[2].toDouble() / sheet.pxPerM());
  sheet.panBy(middle - sheet.pxAt({kept[0].toDouble(), kept[1].toDouble()}));
}

}  // namespace belvedere::desk
