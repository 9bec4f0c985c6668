// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/services_maker.h"

#include <QMetaObject>

#include <utility>

#include "base/problem.h"
#include "proof/rules.h"
#include "services/findings.h"

namespace belvedere::desk {

template <class Action>
void ServicesMaker::inWindow(Action action) {
  QMetaObject::invokeMethod(this, std::move(action), Qt::QueuedConnection);
}

ServicesMaker::ServicesMaker(QObject* parent) : QObject(parent) {
  thread_ = std::thread([this] { loop(); });
}

ServicesMaker::~ServicesMaker() {
  {
    const std::lock_guard lock(mutex_);
    quit_ = true;
    progress_.cancel = true;
  }
  wake_.notify_one();
  thread_.join();
}

void ServicesMaker::wish(ServicesWish wish) {
  {
    const std::lock_guard lock(mutex_);
    wish_ = std::move(wish);
    progress_.cancel = true;
  }
  wake_.notify_one();
}

void ServicesMaker::loop() {
  for (;;) {
    std::optional<ServicesWish> wish;
    {
      std::unique_lock lock(mutex_);
      wake_.wait(lock, [&] { return wish_ || quit_; });
      if (quit_) return;
      std::swap(wish, wish_);
      progress_.cancel = false;
    }
    const auto setBusy = [this](bool busy) {
      inWindow([this, busy] {
        busy_ = busy;
        Q_EMIT busyChanged();
      });
    };
    setBusy(true);
    try {
      make(*wish);
    } catch (const Cancelled&) {
    } catch (const InputError& error) {
      const QString sentence = QString::fromStdString(error.problems().front().what);
      inWindow([this, sentence] { Q_EMIT failed(sentence); });
    }
    setBusy(false);
  }
}

void ServicesMaker::make(const ServicesWish& wish) {
  auto made = std::make_shared<ServicesAnswer>();
  made->version = wish.version;
  made->design = wish.design;
  proof::ProveOptions options;
  options.blind_zones = false;
  for (const proof::RuleSight& sight :
       proof::ruleSights(*wish.design, wish.folder, options, progress_))
    made->seen.rules.push_back({sight.requirement, sight.imagers_asked, sight.imagers});
  made->sizes = services::sizesOf(*made->design, made->seen);
  made->findings = services::findingsOf(*made->design, made->sizes, made->seen);
  inWindow([this, made = std::shared_ptr<const ServicesAnswer>(std::move(made))] {
    now_ = made;
    Q_EMIT this->made();
  });
}

}  // namespace belvedere::desk
