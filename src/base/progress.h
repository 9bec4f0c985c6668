// SPDX-License-Identifier: GPL-3.0-or-later
//
// Progress and cancel for anything that may take longer than a moment. The caller owns the object
// and may set `cancel` from another thread or a signal handler; workers look at it at least every
// few milliseconds and leave by throwing Cancelled (exit code 130).
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <string_view>
#include <utility>

namespace belvedere {

class Cancelled : public std::exception {
 public:
  const char* what() const noexcept override { return "cancelled"; }
};

class Progress {
  std::atomic<bool> own_{false};

 public:
  Progress() = default;
  // Of a step of other work: cancelled with it, and tells `report_step` how far it is.
  Progress(const Progress& whole,
           std::function<void(double share, std::string_view what)> report_step)
      : cancel(whole.cancel), report(std::move(report_step)) {}

  std::atomic<bool>& cancel = own_;
  // share in [0, 1] of the whole, of which `what` is in work; called from one thread at a time. May
  // be empty.
  std::function<void(double share, std::string_view what)> report;

  void say(double share, std::string_view what) const {
    if (!report) return;
    // Steps that run side by side all say where they are; a step's step says it through both.
    static std::recursive_mutex one_at_a_time;
    const std::lock_guard lock(one_at_a_time);
    report(share, what);
  }
  void throwIfCancelled() const {
    if (cancel.load(std::memory_order_relaxed)) throw Cancelled();
  }
};

// Of a step that is the part of `whole` between two shares. `whole` must outlive it.
inline Progress partOf(const Progress& whole, double from, double to) {
  return Progress(whole, [&whole, from, to](double share, std::string_view what) {
    whole.say(from + std::clamp(share, 0.0, 1.0) * (to - from), what);
  });
}
// The same of the i-th of `count` like steps.
inline Progress partOf(const Progress& whole, std::size_t i, std::size_t count) {
  return partOf(whole, static_cast<double>(i) / static_cast<double>(count),
                static_cast<double>(i + 1) / static_cast<double>(count));
}

}  // namespace belvedere
