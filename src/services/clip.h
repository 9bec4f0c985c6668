// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a clip measures: mean rate, 95th percentile over windows of one second, frames from one key
// frame to the next, size, frame rate, codec (handbook 10). Packets are read by ffprobe, in a
// process of its own, bounded in time and in what it may say.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/progress.h"
#include "design/design.h"

namespace belvedere::services {

struct ClipBounds {
  double seconds = 120;                  // of waiting
  std::size_t bytes = 512u << 20;        // of packets listed
};

// Throws InputError: clip_tool_missing, clip_unreadable, clip_too_long. Throws Cancelled.
design::ClipFigures measureClip(const std::filesystem::path& clip, const ClipBounds& bounds,
                                const Progress& progress);

// The figures of what ffprobe lists (-of compact, entries of packets and of the stream): the
// kernel of the above. `clip` names the file in problems.
//   mean       bytes over the time from the first packet's to the end of the last
//   windows    whole seconds from the first packet on; the part of a second at the end is left out;
//              of a clip shorter than a second there is no 95th percentile
//   percentile the smallest window that 95 of a hundred windows do not exceed
design::ClipFigures clipFigures(std::string_view listed, const std::string& clip);

}  // namespace belvedere::services
