// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/clip.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <chrono>
#include <cmath>
#include <csignal>
#include <cstring>
#include <optional>

#include "base/problem.h"

extern char** environ;

namespace belvedere::services {
namespace {

[[noreturn]] void refuse(const char* code, const std::string& clip, std::string what,
                         std::string hint) {
  throw InputError({{code, "", std::move(what), std::move(hint)}}, clip);
}

std::optional<double> numberOf(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return {};
  return value;
}

// The value of "key=value" among the fields of a compact line.
std::string_view field(std::string_view line, std::string_view key) {
  while (!line.empty()) {
    const std::size_t to = std::min(line.find('|'), line.size());
    const std::string_view one = line.substr(0, to);
    if (one.size() > key.size() && one.starts_with(key) && one[key.size()] == '=')
      return one.substr(key.size() + 1);
    line.remove_prefix(std::min(to + 1, line.size()));
  }
  return {};
}

struct Packet {
  double at_s, duration_s, bytes;
  bool key;
};

double framesPerS(std::string_view ratio) {
  const std::size_t slash = ratio.find('/');
  if (slash == std::string_view::npos) return 0;
  const auto over = numberOf(ratio.substr(0, slash)), under = numberOf(ratio.substr(slash + 1));
  return over && under && *under > 0 ? *over / *under : 0;
}

// A child process with its standard output; killed when it is let go.
class Child {
 public:
  Child(const std::vector<std::string>& words, const std::string& clip) {
    std::array<int, 2> pipe{};
    if (::pipe2(pipe.data(), O_CLOEXEC) != 0)
      refuse("clip_unreadable", clip, std::strerror(errno), "");
    std::vector<char*> arguments;
    for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
    arguments.push_back(nullptr);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_adddup2(&actions, pipe[1], 1);
    posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
    const int error = ::posix_spawnp(&pid_, arguments[0], &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    ::close(pipe[1]);
    out_ = pipe[0];
    if (error != 0) {
      pid_ = -1;
      ::close(out_);
      refuse("clip_tool_missing", clip, "clips are read by the program ffprobe, which is not there",
             "install it (Debian: apt install ffmpeg)");
    }
  }
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;
  ~Child() {
    ::close(out_);
    if (pid_ > 0) {
      ::kill(pid_, SIGKILL);
      ::waitpid(pid_, nullptr, 0);
    }
  }
  int out() const { return out_; }
  // Waits for its end; its exit code.
  int end() {
    int status = 0;
    while (::waitpid(pid_, &status, 0) < 0 && errno == EINTR) {
    }
    pid_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

 private:
  pid_t pid_ = -1;
  int out_ = -1;
};

}  // namespace

design::ClipFigures clipFigures(std::string_view listed, const std::string& clip) {
  design::ClipFigures figures;
  std::vector<Packet> packets;
  while (!listed.empty()) {
    const std::size_t to = std::min(listed.find('\n'), listed.size());
    const std::string_view line = listed.substr(0, to);
    listed.remove_prefix(std::min(to + 1, listed.size()));
    if (line.starts_with("packet|")) {
      auto at = numberOf(field(line, "dts_time"));
      if (!at) at = numberOf(field(line, "pts_time"));
      const auto bytes = numberOf(field(line, "size"));
      if (at && bytes && *bytes >= 0)
        packets.push_back({*at, numberOf(field(line, "duration_time")).value_or(0), *bytes,
                           field(line, "flags").find('K') != std::string_view::npos});
    } else if (line.starts_with("stream|")) {
      figures.codec = field(line, "codec_name");
      figures.size_px = {static_cast<int>(std::clamp(numberOf(field(line, "width")).value_or(0), 0.0, 1e6)),
                         static_cast<int>(std::clamp(numberOf(field(line, "height")).value_or(0), 0.0, 1e6))};
      figures.frames_per_s = framesPerS(field(line, "avg_frame_rate"));
    }
  }
  if (packets.size() < 2)
    refuse("clip_unreadable", clip, "there are fewer than two frames of video in it", "");
  const double first = std::ranges::min_element(packets, {}, &Packet::at_s)->at_s;
  double last = first, bytes = 0;
  for (const Packet& p : packets) {
    last = std::max(last, p.at_s + p.duration_s);
    bytes += p.bytes;
  }
  // A container that states no durations: the last frame lasts as long as the others.
  if (std::ranges::all_of(packets, [](const Packet& p) { return p.duration_s == 0; }))
    last += (last - first) / static_cast<double>(packets.size() - 1);
  figures.seconds = last - first;
  if (!(figures.seconds > 0) || figures.seconds > 1e7)
    refuse("clip_unreadable", clip, "its frames have no usable times", "");
  figures.mean_mbps = bytes * 8e-6 / figures.seconds;
  if (!(figures.frames_per_s > 0))
    figures.frames_per_s = static_cast<double>(packets.size()) / figures.seconds;
  std::vector<double> windows(static_cast<std::size_t>(figures.seconds + 1e-9), 0.0);
  std::size_t since_key = 0;
  double longest_gop = 0;
  bool seen_key = false;
  for (const Packet& p : packets) {
    const auto window = static_cast<std::size_t>(std::max(0.0, p.at_s - first + 1e-9));
    if (window < windows.size()) windows[window] += p.bytes * 8e-6;
    if (p.key && seen_key) longest_gop = std::max(longest_gop, static_cast<double>(since_key));
    if (p.key) {
      seen_key = true;
      since_key = 0;
    }
    ++since_key;
  }
  if (longest_gop > 0) figures.gop_frames = longest_gop;
  if (!windows.empty()) {
    std::ranges::sort(windows);
    const auto rank =
        static_cast<std::size_t>(std::ceil(0.95 * static_cast<double>(windows.size()) - 1e-9));
    figures.p95_mbps = windows[std::max<std::size_t>(rank, 1) - 1];
  }
  return figures;
}

design::ClipFigures measureClip(const std::filesystem::path& clip, const ClipBounds& bounds,
                                const Progress& progress) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(clip, error))
    refuse("clip_unreadable", clip.string(), "there is no such file", "");
  // "file:" so that no name is taken for an address or an option.
  Child child({"ffprobe", "-v", "error", "-protocol_whitelist", "file", "-select_streams", "v:0",
               "-show_entries",
               "packet=pts_time,dts_time,duration_time,size,flags:"
               "stream=codec_name,width,height,avg_frame_rate",
               "-of", "compact", "file:" + clip.string()},
              clip.string());
  const auto began = std::chrono::steady_clock::now();
  std::string listed;
  std::array<char, 65536> part{};
  for (;;) {
    progress.throwIfCancelled();
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - began;
    if (spent.count() > bounds.seconds || listed.size() > bounds.bytes)
      refuse("clip_too_long", clip.string(),
             fmt::format("reading it took more than {:g} s, or listed more than {} MB", bounds.seconds,
                         bounds.bytes >> 20),
             "cut a piece of some minutes out of it");
    pollfd wait{child.out(), POLLIN, 0};
    if (::poll(&wait, 1, 50) <= 0) continue;
    const ssize_t got = ::read(child.out(), part.data(), part.size());
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) break;
    listed.append(part.data(), static_cast<std::size_t>(got));
  }
  const int code = child.end();
  if (code == 127)
    refuse("clip_tool_missing", clip.string(),
           "clips are read by the program ffprobe, which is not there",
           "install it (Debian: apt install ffmpeg)");
  if (code != 0)
    refuse("clip_unreadable", clip.string(), "ffprobe does not read it as a clip", "");
  return clipFigures(listed, clip.string());
}

}  // namespace belvedere::services
