// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/terminal.h"

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <ctime>
#include <cstdio>
#include <cstdlib>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/page.h"

namespace belvedere::cli {

namespace {
using Clock = std::chrono::steady_clock;
constexpr auto kBarAfter = std::chrono::seconds(1);
constexpr auto kBarEvery = std::chrono::milliseconds(100);
constexpr std::size_t kBarCells = 30;

bool terminalAt(int stream) {
  const char* term = std::getenv("TERM");
  return isatty(stream) == 1 && (term == nullptr || std::string_view(term) != "dumb");
}

bool colourOnStdout() {
  const char* no_color = std::getenv("NO_COLOR");
  return (no_color == nullptr || *no_color == '\0') && terminalAt(STDOUT_FILENO);
}

constexpr char kCancelledText[] = "belvedere: cancelled\n";
// Workers leave within milliseconds; giving back the memory of a large proof may take longer than
// whoever pressed Ctrl-C waits. Nothing is half-written by then: files are renamed into place.
constexpr long kLeaveAfterNs = 60'000'000;

// Set before the handlers are installed, which may touch no more than a lock-free atomic and call
// no more than the functions that POSIX calls async-signal-safe.
Progress* signalled = nullptr;
timer_t leave_timer;
bool leave_timer_is_there = false;
static_assert(std::atomic<bool>::is_always_lock_free);

extern "C" void onLeave(int) {
  [[maybe_unused]] const auto written =
      write(STDERR_FILENO, kCancelledText, sizeof kCancelledText - 1);
  _exit(kCancelled);
}

extern "C" void onSignal(int) {
  signalled->cancel.store(true, std::memory_order_relaxed);
  std::signal(SIGINT, SIG_DFL);
  std::signal(SIGTERM, SIG_DFL);
  if (!leave_timer_is_there) return;
  itimerspec in{};
  in.it_value.tv_nsec = kLeaveAfterNs;
  timer_settime(leave_timer, 0, &in, nullptr);
}

bool bar_shows = false;
}  // namespace

std::string inked(Ink ink, std::string_view text) {
  static const bool colour = colourOnStdout();
  if (!colour || ink == Ink::plain) return std::string(text);
  const std::string_view code = ink == Ink::good   ? "32"
                                : ink == Ink::bad  ? "1;31"
                                : ink == Ink::open ? "33"
                                                   : "2";
  return fmt::format("\x1b[{}m{}\x1b[0m", code, text);
}

Progress& runProgress() {
  static Progress progress;
  return progress;
}

void catchSignals() {
  signalled = &runProgress();
  std::signal(SIGALRM, onLeave);
  leave_timer_is_there = timer_create(CLOCK_MONOTONIC, nullptr, &leave_timer) == 0;  // SIGALRM
  std::signal(SIGINT, onSignal);
  std::signal(SIGTERM, onSignal);
}

void showProgressBar() {
  if (!terminalAt(STDERR_FILENO)) return;
  runProgress().report = [start = Clock::now(), drawn = Clock::time_point{}](
                             double share, std::string_view what) mutable {
    const auto now = Clock::now();
    if (now - start < kBarAfter || now - drawn < kBarEvery) return;
    drawn = now;
    const double part = std::clamp(share, 0.0, 1.0);
    const auto filled = static_cast<std::size_t>(part * static_cast<double>(kBarCells));
    fmt::print(stderr, "\r\x1b[K[{:<{}}] {:3.0f} %  {}", std::string(filled, '='), kBarCells,
               100 * part, cut(printable(what), 40));
    std::fflush(stderr);
    bar_shows = true;
  };
}

void clearProgressBar() {
  if (!bar_shows) return;
  fmt::print(stderr, "\r\x1b[K");
  std::fflush(stderr);
  bar_shows = false;
}

int cancelled() {
  std::signal(SIGALRM, SIG_IGN);
  printError(kCancelledText);
  return kCancelled;
}

void printOut(std::string_view text) {
  clearProgressBar();
  if (std::fwrite(text.data(), 1, text.size(), stdout) != text.size() || std::fflush(stdout) != 0)
    throw CallError("the answer could not be written to the standard output");
}

void printError(std::string_view text) {
  clearProgressBar();
  std::fwrite(text.data(), 1, text.size(), stderr);
}

}  // namespace belvedere::cli
