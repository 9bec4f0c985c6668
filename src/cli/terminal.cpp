// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/terminal.h"

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
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

// A handler may touch no more than a lock-free atomic; the pointer is set before it is installed.
Progress* signalled = nullptr;
static_assert(std::atomic<bool>::is_always_lock_free);

extern "C" void onSignal(int) {
  signalled->cancel.store(true, std::memory_order_relaxed);
  std::signal(SIGINT, SIG_DFL);
  std::signal(SIGTERM, SIG_DFL);
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
