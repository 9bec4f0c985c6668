// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/panorama.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/check.h"
#include "base/units.h"
#include "picture/work.h"

namespace belvedere::picture {
namespace {

constexpr int kBins = 720;   // of bearings
constexpr int kAcross = 64;  // rays over each side of a frame
constexpr double kLowestDeg = -88, kHighestDeg = 60;
constexpr double kBlend = 0.06;  // of a frame's width, from its edge to full weight

double onAxisPxPerRad(const View& view) {
  const Vec2 middle{0.5 * view.pixels[0], 0.5 * view.pixels[1]};
  const auto a = optics::unproject(view.lens, middle - Vec2{1, 0});
  const auto b = optics::unproject(view.lens, middle + Vec2{1, 0});
  if (!a || !b) return view.pixels[0];
  return 2 / std::max(1e-9, norm(*b - *a));
}

}  // namespace

Size Panorama::size() const {
  return {std::max(1, static_cast<int>(std::lround((to_deg - from_deg) * px_per_deg))),
          std::max(1, static_cast<int>(std::lround((high_deg - low_deg) * px_per_deg)))};
}

Panorama panoramaOf(std::span<const View> imagers) {
  BELVEDERE_CHECK(!imagers.empty(), "a panorama of at least one imager");
  std::array<bool, kBins> seen{};
  Panorama panorama;
  panorama.low_deg = 90;
  panorama.high_deg = -90;
  double px_per_rad = 0;
  for (const View& view : imagers) {
    px_per_rad = std::max(px_per_rad, onAxisPxPerRad(view));
    for (int y = 0; y <= kAcross; ++y)
      for (int x = 0; x <= kAcross; ++x) {
        const auto ray = rayOf(view, view.pixels,
                               {static_cast<double>(x) / kAcross * view.pixels[0],
                                static_cast<double>(y) / kAcross * view.pixels[1]});
        if (!ray) continue;
        const double up = radToDeg(std::asin(std::clamp(ray->z, -1.0, 1.0)));
        panorama.low_deg = std::min(panorama.low_deg, up);
        panorama.high_deg = std::max(panorama.high_deg, up);
        double bearing = radToDeg(std::atan2(ray->x, ray->y));
        if (bearing < 0) bearing += 360;
        const int bin = static_cast<int>(bearing / 360 * kBins) % kBins;
        // Rays are some bins apart.
        const int reach = std::max(1, static_cast<int>(kBins / 360.0 * 3));
        for (int i = -reach; i <= reach; ++i)
          seen[static_cast<std::size_t>((bin + i + kBins) % kBins)] = true;
      }
  }
  panorama.low_deg = std::max(panorama.low_deg, kLowestDeg);
  panorama.high_deg = std::min(panorama.high_deg, kHighestDeg);
  // The widest run of bearings that nobody sees.
  int gap_from = 0, gap = 0;
  for (int from = 0; from < kBins; ++from) {
    int run = 0;
    while (run < kBins && !seen[static_cast<std::size_t>((from + run) % kBins)]) ++run;
    if (run > gap) gap = run, gap_from = from;
  }
  if (gap > 0) {
    panorama.from_deg = (gap_from + gap) * 360.0 / kBins;
    panorama.to_deg = panorama.from_deg + 360 - gap * 360.0 / kBins;
  } else {
    const Vec3& ahead = imagers.front().view_from_site.row[2];
    panorama.from_deg = radToDeg(std::atan2(ahead.x, ahead.y)) - 180;
    panorama.to_deg = panorama.from_deg + 360;
  }
  panorama.px_per_deg =
      std::min(degToRad(1) * px_per_rad, kPanoramaMostPx / (panorama.to_deg - panorama.from_deg));
  return panorama;
}

Size sizeFor(const Panorama& panorama, const View& imager) {
  const double scale =
      std::min(1.0, 1.25 * panorama.px_per_deg / (degToRad(1) * onAxisPxPerRad(imager)));
  return {std::max(16, static_cast<int>(std::lround(scale * imager.pixels[0]))),
          std::max(16, static_cast<int>(std::lround(scale * imager.pixels[1])))};
}

Unrolling::Unrolling(const Panorama& panorama) : panorama_(panorama) {
  const Size size = panorama.size();
  made_.width = size[0];
  made_.height = size[1];
  const std::size_t pixels = static_cast<std::size_t>(size[0]) * static_cast<std::size_t>(size[1]);
  made_.light.resize(pixels);
  made_.surface.assign(pixels, kOutsideSurface);
  weights_.resize(pixels);
  heaviest_.resize(pixels);
}

void Unrolling::add(const View& view, const Photo& photo, const Progress& progress) {
  tbb::parallel_for(0, made_.height, [&](int y) {
    progress.throwIfCancelled();
    const double up = degToRad(panorama_.high_deg - (y + 0.5) / panorama_.px_per_deg);
    for (int x = 0; x < made_.width; ++x) {
      const double bearing = degToRad(panorama_.from_deg + (x + 0.5) / panorama_.px_per_deg);
      const Vec3 dir{std::sin(bearing) * std::cos(up), std::cos(bearing) * std::cos(up),
                     std::sin(up)};
      const auto at_px = optics::project(view.lens, view.view_from_site * dir);
      if (!at_px) continue;
      const Vec2 at = picturePlace(view, {photo.width, photo.height}, *at_px);
      const double edge =
          std::min(std::min(at.x, photo.width - at.x), std::min(at.y, photo.height - at.y));
      if (!(edge > 0)) continue;
      const int px = std::clamp(static_cast<int>(at.x), 0, photo.width - 1);
      const int py = std::clamp(static_cast<int>(at.y), 0, photo.height - 1);
      const std::size_t own = photo.at(px, py);
      if (photo.surface[own] == kOutsideSurface) continue;
      const auto w = static_cast<float>(std::min(1.0, edge / (kBlend * photo.width)) + 1e-4);
      // Between the four pixels around.
      const double fx = at.x - 0.5, fy = at.y - 0.5;
      const int x0 = static_cast<int>(std::floor(fx)), y0 = static_cast<int>(std::floor(fy));
      const auto tx = static_cast<float>(fx - x0), ty = static_cast<float>(fy - y0);
      const auto pixel = [&](int i0, int j0) {
        return photo.light[photo.at(std::clamp(i0, 0, photo.width - 1),
                                    std::clamp(j0, 0, photo.height - 1))];
      };
      const Colour c = mix(mix(pixel(x0, y0), pixel(x0 + 1, y0), tx),
                           mix(pixel(x0, y0 + 1), pixel(x0 + 1, y0 + 1), tx), ty);
      const std::size_t to = made_.at(x, y);
      made_.light[to] = made_.light[to] + c * w;
      weights_[to] += w;
      if (w <= heaviest_[to]) continue;
      heaviest_[to] = w;
      made_.surface[to] = photo.surface[own];
    }
  });
}

Photo Unrolling::finished() && {
  for (std::size_t i = 0; i < weights_.size(); ++i)
    if (weights_[i] > 0) made_.light[i] = made_.light[i] * (1 / weights_[i]);
  return std::move(made_);
}

}  // namespace belvedere::picture
