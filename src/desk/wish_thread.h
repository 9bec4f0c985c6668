// SPDX-License-Identifier: GPL-3.0-or-later
//
// A thread beside the window that makes what is wished for, asleep while nothing is; the newest wish
// wins. Whoever has one declares it last, so that it stops before what it works with goes.
#pragma once

#include <QMetaObject>
#include <QObject>

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

#include "base/progress.h"

namespace belvedere::desk {

// What another thread has to tell: done in the window's thread, as long as `of` is there.
template <class Action>
void inWindowOf(QObject* of, Action action) {
  QMetaObject::invokeMethod(of, std::move(action), Qt::QueuedConnection);
}

template <class Wish>
class WishThread {
 public:
  // Whether a wish that is begun may be given up for a newer one at once, or only from the moment on
  // at which its maker says so (letGo).
  enum class Begun { is_given_up, is_held };
  // make   called in the thread; what it throws but Cancelled it has to catch itself
  // rests  likewise called, whenever nothing is wished for any more
  WishThread(std::function<void(const Wish&)> make, std::function<void()> rests = {},
             Begun begun = Begun::is_given_up)
      : make_(std::move(make)), rests_(std::move(rests)), holds_(begun == Begun::is_held),
        thread_([this] { loop(); }) {}
  ~WishThread() {
    {
      const std::lock_guard lock(mutex_);
      quit_ = true;
      progress.cancel = true;
    }
    wake_.notify_one();
    thread_.join();
  }
  WishThread(const WishThread&) = delete;
  WishThread& operator=(const WishThread&) = delete;

  void wish(Wish wish) {
    {
      const std::lock_guard lock(mutex_);
      wish_ = std::move(wish);
      busy_ = true;
      if (!held_) progress.cancel = true;
    }
    wake_.notify_one();
  }
  // Gives up what is wished for and what is under way.
  void cancel() {
    {
      const std::lock_guard lock(mutex_);
      wish_.reset();
      progress.cancel = true;
    }
    wake_.notify_one();
  }
  // From a wish until nothing is under way.
  bool isBusy() const { return busy_; }

  // ---- for the maker
  void letGo() { held_ = false; }
  bool isOvertaken() {
    const std::lock_guard lock(mutex_);
    return wish_ || quit_;
  }
  Progress progress;

 private:
  void loop() {
    for (;;) {
      std::optional<Wish> wish;
      {
        std::unique_lock lock(mutex_);
        while (!wish_ && !quit_) {
          if (!busy_) {
            wake_.wait(lock);
            continue;
          }
          busy_ = false;
          if (!rests_) continue;
          lock.unlock();
          rests_();
          lock.lock();
        }
        if (quit_) return;
        std::swap(wish, wish_);
        progress.cancel = false;
        held_ = holds_;
      }
      try {
        make_(*wish);
      } catch (const Cancelled&) {
      }
      held_ = false;
    }
  }

  std::function<void(const Wish&)> make_;
  std::function<void()> rests_;
  const bool holds_;
  std::mutex mutex_;
  std::condition_variable wake_;
  std::optional<Wish> wish_;
  bool quit_ = false;
  std::atomic<bool> busy_{false}, held_{false};
  std::thread thread_;
};

}  // namespace belvedere::desk
