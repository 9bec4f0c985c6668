// SPDX-License-Identifier: GPL-3.0-or-later
//
// Progress and cancel for anything that may take longer than a moment. The caller owns the object
// and may set `cancel` from another thread or a signal handler; workers look at it at least every
// few milliseconds and leave by throwing Cancelled (exit code 130).
#pragma once

#include <atomic>
#include <exception>
#include <functional>
#include <mutex>
#include <string_view>

namespace belvedere {

class Cancelled : public std::exception {
 public:
  const char* what() const noexcept override { return "cancelled"; }
};

struct Progress {
  std::atomic<bool> cancel{false};
  // share in [0, 1] of the step named by `what`; called from one thread at a time. May be empty.
  std::function<void(double share, std::string_view what)> report;

  void say(double share, std::string_view what) const {
    if (!report) return;
    static std::mutex one_at_a_time;  // steps that run side by side all say where they are
    const std::lock_guard lock(one_at_a_time);
    report(share, what);
  }
  void throwIfCancelled() const {
    if (cancel.load(std::memory_order_relaxed)) throw Cancelled();
  }
};

}  // namespace belvedere
