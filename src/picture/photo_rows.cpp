// SPDX-License-Identifier: GPL-3.0-or-later
//
// A photograph from its first row to its last: all passes over a band of tiles, then the next.
#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <atomic>

#include "picture/photo_work.h"

namespace belvedere::picture {
namespace {

constexpr int kTilesAtOnce = 4;

}  // namespace

void photographRows(const Subject& subject, std::span<const Coat> coats, const View& view,
                    const PhotoOptions& options, const Progress& progress, const TakeRow& take) {
  Photographing work(subject, coats, view, options);
  const int across = work.grid.across(), down = work.grid.down();
  std::atomic<int> done{0};  // rows of tiles by passes, in hundredths of what a row takes
  struct Pass {
    void (Photographing::*tile)(int, int);
    int ahead;  // rows of tiles that later passes want beyond the last of a band
    int share;  // of the work, hundredths
    int next = 0;
  };
  std::array<Pass, 5> passes{{{&Photographing::firstLook, 3, 10},
                              {&Photographing::gatherTile, 3, 25},
                              {&Photographing::lightTile, 2, 15},
                              {&Photographing::markTile, 1, 2},
                              {&Photographing::lookAgainTile, 0, 48}}};
  for (int end = 0; end < down;) {
    const int begin = end;
    end = std::min(down, begin + work.band_rows);
    for (Pass& pass : passes) {
      if (work.eye_is_inside && pass.tile != &Photographing::firstLook) break;
      const int to = std::min(down, end + pass.ahead);
      tbb::parallel_for(pass.next, to, [&](int y) {
        tbb::parallel_for(
            tbb::blocked_range<int>(0, across, kTilesAtOnce),
            [&](const tbb::blocked_range<int>& tiles) {
              for (int x = tiles.begin(); x < tiles.end(); ++x) {
                progress.throwIfCancelled();
                (work.*pass.tile)(x, y);
              }
            },
            tbb::simple_partitioner());
        progress.say(0.01 * (done += pass.share) / down, "picture");
      });
      pass.next = to;
    }
    tbb::parallel_for(begin * kTile, std::min(end * kTile, work.part[1]), [&](int y) {
      progress.throwIfCancelled();
      const std::size_t at = work.strip.at(0, y), n = static_cast<std::size_t>(work.part[0]);
      take({y, std::span(work.strip.light).subspan(at, n),
            std::span<const std::uint32_t>(work.strip.surface).subspan(at, n),
            std::span<const float>(work.strip.distance_m).subspan(at, n)});
    });
  }
}

Photo photograph(const Subject& subject, std::span<const Coat> coats, const View& view,
                 const PhotoOptions& options, const Progress& progress) {
  const Size part = sizeOf(view, options);
  Photo photo;
  photo.width = part[0];
  photo.height = part[1];
  const std::size_t pixels = static_cast<std::size_t>(part[0]) * static_cast<std::size_t>(part[1]);
  photo.light.resize(pixels);
  photo.surface.resize(pixels);
  photo.distance_m.resize(pixels);
  photographRows(subject, coats, view, options, progress, [&](const PhotoRow& row) {
    const std::size_t to = photo.at(0, row.y);
    std::copy(row.light.begin(), row.light.end(), &photo.light[to]);
    std::copy(row.surface.begin(), row.surface.end(), &photo.surface[to]);
    std::copy(row.distance_m.begin(), row.distance_m.end(), &photo.distance_m[to]);
  });
  return photo;
}

}  // namespace belvedere::picture
