// SPDX-License-Identifier: GPL-3.0-or-later
#include "picture/unroll.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "base/units.h"

namespace belvedere::picture {
namespace {

double bearingOf(const design::PosedImager& imager) {
  const Vec3& ahead = imager.imager_from_site.row[2];
  const double bearing = radToDeg(std::atan2(ahead.x, ahead.y));
  return bearing < 0 ? bearing + 360 : bearing;
}

std::vector<View> viewsOf(const std::vector<const design::PosedImager*>& ring) {
  std::vector<View> views;
  for (const design::PosedImager* imager : ring) views.push_back(viewOf(*imager));
  return views;
}

}  // namespace

std::vector<const design::PosedImager*> ringOf(const design::HousingId& housing,
                                               const std::vector<design::PosedImager>& imagers) {
  std::vector<const design::PosedImager*> ring;
  for (const design::PosedImager& imager : imagers)
    if (imager.housing == housing) ring.push_back(&imager);
  std::stable_sort(ring.begin(), ring.end(),
                   [](const auto* a, const auto* b) { return bearingOf(*a) < bearingOf(*b); });
  if (ring.empty()) return ring;
  constexpr double kSameDeg = 1e-6;
  std::size_t first = 0;
  double widest_deg = bearingOf(*ring.front()) + 360 - bearingOf(*ring.back());
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const double gap_deg = bearingOf(*ring[i]) - bearingOf(*ring[i - 1]);
    if (gap_deg <= widest_deg + kSameDeg) continue;
    widest_deg = gap_deg;
    first = i;
  }
  std::rotate(ring.begin(), ring.begin() + static_cast<std::ptrdiff_t>(first), ring.end());
  return ring;
}

Panorama panoramaOf(const std::vector<const design::PosedImager*>& ring) {
  return panoramaOf(viewsOf(ring));
}

Developed shootUnrolled(
    const Studio& studio, const Panorama& panorama, const std::vector<const design::PosedImager*>& ring,
    const std::function<PhotoOptions(const design::PosedImager&)>& options,
    const std::function<void(const design::PosedImager&, const Shot&)>& told, const Progress& progress) {
  const std::vector<View> views = viewsOf(ring);
  Unrolling unrolling(panorama);
  double exposure = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    PhotoOptions asked = options(*ring[i]);
    asked.size = sizeFor(panorama, views[i]);
    const Shot shot = studio.shoot(*ring[i], asked, partOf(progress, i, ring.size()), Keep::light);
    exposure = std::min(exposure, shot.exposed.exposure);
    if (told) told(*ring[i], shot);
    unrolling.add(views[i], shot.photo, progress);
  }
  const Photo photo = std::move(unrolling).finished();
  Tones tones;
  tones.ink = tones.paper;  // where nobody looks
  return develop(photo, exposure, tones);
}

}  // namespace belvedere::picture
