// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sun_maker.h"

#include <QMetaObject>

#include <utility>

#include "base/problem.h"

namespace belvedere::desk {

template <class Action>
void SunMaker::inWindow(Action action) {
  QMetaObject::invokeMethod(this, std::move(action), Qt::QueuedConnection);
}

SunMaker::SunMaker(QObject* parent) : QObject(parent) {
  progress_.report = [this](double share, std::string_view) {
    inWindow([this, share] { Q_EMIT progressed(share); });
  };
  thread_ = std::thread([this] { loop(); });
}

SunMaker::~SunMaker() {
  {
    const std::lock_guard lock(mutex_);
    quit_ = true;
    progress_.cancel = true;
  }
  wake_.notify_one();
  thread_.join();
}

void SunMaker::wish(SunWish wish) {
  {
    const std::lock_guard lock(mutex_);
    wish_ = std::move(wish);
    progress_.cancel = true;
  }
  wake_.notify_one();
}

void SunMaker::cancel() {
  const std::lock_guard lock(mutex_);
  wish_.reset();
  progress_.cancel = true;
}

void SunMaker::loop() {
  for (;;) {
    std::optional<SunWish> wish;
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

void SunMaker::make(const SunWish& wish) {
  const design::Design& design = *wish.design;
  if (year_of_ != design.site.place) {
    progress_.say(0.02, "laying out the year");
    year_of_.reset();
    year_ = light::sunYear(*design.site.place, proof::kFindingsYear);
    year_of_ = design.site.place;
  }
  progress_.throwIfCancelled();
  progress_.say(0.4, "the picture");
  const auto place = proof::makePlace(design, wish.situation, wish.folder);
  const auto frames = proof::sunOfImagers(design, *place, year_, progress_, wish.imager);
  progress_.say(0.7, "behind faces");
  const auto behind = proof::backlights(design, wish.folder, year_, progress_, wish.imager, wish.situation.id);
  auto made = std::make_shared<SunAnswer>();
  made->version = wish.version;
  made->situation = wish.situation.id;
  made->imager = wish.imager;
  made->sheet = drawing::sunSheet(design, wish.imager, wish.situation, year_, frames, behind);
  inWindow([this, made = std::shared_ptr<const SunAnswer>(std::move(made))] {
    now_ = made;
    Q_EMIT this->made();
  });
}

}  // namespace belvedere::desk
