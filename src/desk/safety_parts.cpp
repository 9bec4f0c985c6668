// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/safety_parts.h"

#include <QLocale>
#include <QVBoxLayout>

#include "base/problem.h"
#include "desk/disk_watch.h"
#include "desk/main_window.h"
#include "desk/notice_bar.h"
#include "desk/recovery.h"

namespace belvedere::desk {
namespace {

constexpr int kBelowTheBars = 2;  // of the window's rows: stages, progress

void ask(MainWindow& window, NoticeBar& notices, Recovery& recovery, const LeftWork& left) {
  const QString name = !left.title.isEmpty() ? left.title
                       : !left.path.empty()
                           ? QString::fromStdString(left.path.filename().string())
                           : NoticeBar::tr("A new design");
  notices.ask(
      {left.journal,
       NoticeBar::tr("“%1” was not saved when the program ended. It was kept as it stood on %2.")
           .arg(name, QLocale().toString(left.written, QLocale::ShortFormat)),
       {{"notice.recover", NoticeBar::tr("&Recover"),
         [&window, &notices, &recovery, left] {
           if (!window.maySave()) return ask(window, notices, recovery, left);
           try {
             recovery.recover(left);
             window.tell(NoticeBar::tr("Recovered. The file is untouched until you save."));
           } catch (const InputError& error) {
             window.showProblems(
                 NoticeBar::tr("What was kept cannot be used as it is. It stays at %1.")
                     .arg(left.journal),
                 error);
           }
         }},
        {"notice.later", NoticeBar::tr("&Keep for later"), [left] { left.lock->unlock(); }},
        {"notice.throw_away", NoticeBar::tr("&Throw away"),
         [left] { Recovery::throwAway(left); }}}});
}

}  // namespace

void makeSafetyParts(MainWindow& window) {
  auto* notices = new NoticeBar;
  static_cast<QVBoxLayout*>(window.centralWidget()->layout())->insertWidget(kBelowTheBars, notices);
  auto* recovery = new Recovery(window.workspace(), &window);
  recovery->setObjectName("recovery");
  new DiskWatch(window, *notices);
}

void offerLeftWork(MainWindow& window) {
  auto* notices = window.findChild<NoticeBar*>("notice");
  auto* recovery = window.findChild<Recovery*>("recovery");
  for (const LeftWork& left : recovery->findLeft()) ask(window, *notices, *recovery, left);
}

}  // namespace belvedere::desk
