// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/beside.h"

#include <QApplication>
#include <QCloseEvent>
#include <QEventLoop>
#include <QProgressDialog>
#include <QThreadPool>
#include <QTimer>

#include <exception>
#include <memory>

namespace belvedere::desk {
namespace {

constexpr int kSoonMs = 300;  // what is done sooner needs no window to say so

struct Waiting {
  std::function<void()> work;
  std::exception_ptr thrown;
  bool done = false;             // the window's thread's own, like the loop
  QEventLoop* loop = nullptr;
};

// Work that cannot be cancelled keeps its window: neither Escape nor closing takes it away, or hands
// would reach the design while it is written.
class HeldDialog : public QProgressDialog {
 public:
  using QProgressDialog::QProgressDialog;
  void reject() override {}

 protected:
  void closeEvent(QCloseEvent* event) override { event->ignore(); }
};

}  // namespace

bool besideWindow(QWidget* window, const QString& says, CanCancel can_cancel,
                  std::function<void()> work) {
  auto waiting = std::make_shared<Waiting>();
  waiting->work = std::move(work);
  // The application waits for this pool at its end.
  QThreadPool::globalInstance()->start([waiting] {
    try {
      waiting->work();
    } catch (...) {
      waiting->thrown = std::current_exception();
    }
    QMetaObject::invokeMethod(qApp, [waiting] {
      waiting->done = true;
      if (waiting->loop) waiting->loop->quit();
    }, Qt::QueuedConnection);
  });
  {
    QEventLoop loop;
    waiting->loop = &loop;
    QTimer::singleShot(kSoonMs, &loop, &QEventLoop::quit);
    if (!waiting->done) loop.exec(QEventLoop::ExcludeUserInputEvents);
    waiting->loop = nullptr;
  }
  if (!waiting->done) {
    std::unique_ptr<QProgressDialog> made;
    if (can_cancel == CanCancel::yes)
      made = std::make_unique<QProgressDialog>(says, QObject::tr("Cancel"), 0, 0, window);
    else
      made = std::make_unique<HeldDialog>(says, QString(), 0, 0, window);
    QProgressDialog& dialog = *made;
    dialog.setObjectName("beside");
    dialog.setWindowModality(Qt::ApplicationModal);
    dialog.setMinimumDuration(0);
    QEventLoop loop;
    waiting->loop = &loop;
    bool cancelled = false;
    QObject::connect(&dialog, &QProgressDialog::canceled, &loop, [&] {
      if (can_cancel == CanCancel::no) return;
      cancelled = true;
      loop.quit();
    });
    dialog.show();
    while (!waiting->done && !cancelled) loop.exec();
    waiting->loop = nullptr;
    if (!waiting->done) return false;
  }
  if (waiting->thrown) std::rethrow_exception(waiting->thrown);
  return true;
}

}  // namespace belvedere::desk
