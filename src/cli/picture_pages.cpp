// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pages of pictures: all imagers of a camera in ring order.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/units.h"
#include "cli/command.h"
#include "cli/picture.h"
#include "cli/terminal.h"
#include "picture/panorama.h"

namespace belvedere::cli {

namespace {

constexpr int kPageWidePx = 960;  // of a picture on a page

double bearingOf(const design::PosedImager& imager) {
  const Vec3& ahead = imager.imager_from_site.row[2];
  const double bearing = radToDeg(std::atan2(ahead.x, ahead.y));
  return bearing < 0 ? bearing + 360 : bearing;
}

// A camera's imagers by bearing, clockwise.
std::vector<const design::PosedImager*> ringOf(const design::Housing& housing,
                                               const std::vector<design::PosedImager>& imagers) {
  std::vector<const design::PosedImager*> ring;
  for (const design::PosedImager& imager : imagers)
    if (imager.housing == housing.id) ring.push_back(&imager);
  if (ring.empty())
    throw CallError(fmt::format("camera {} has no imager that looks anywhere", housing.id.text));
  std::stable_sort(ring.begin(), ring.end(),
                   [](const auto* a, const auto* b) { return bearingOf(*a) < bearingOf(*b); });
  return ring;
}

}  // namespace

picture::Developed unrolledPicture(const PictureRun& run, const design::Housing& housing,
                                   const std::vector<design::PosedImager>& imagers,
                                   drawing::PngTexts& texts) {
  const auto ring = ringOf(housing, imagers);
  std::vector<picture::View> views;
  for (const design::PosedImager* imager : ring) views.push_back(picture::viewOf(*imager));
  const picture::Panorama panorama = picture::panoramaOf(views);
  checkPixels(housing.id.text, panorama.size());
  std::vector<picture::Photo> photos;
  double exposure = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    picture::PhotoOptions options = photoOptions(run, *ring[i]);
    options.size = picture::sizeFor(panorama, views[i]);
    checkPixels(ring[i]->name, options.size);
    picture::Shot shot = run.studio.shoot(*ring[i], options, partOf(runProgress(), i, ring.size()));
    exposure = std::min(exposure, shot.exposed.exposure);
    for (auto& [key, text] : shotTexts(run, *ring[i], shot))
      if (key != "Imager") texts.emplace_back(ring[i]->name + " " + key, text);
    photos.push_back(std::move(shot.photo));
  }
  const picture::Photo photo = picture::unrolled(panorama, views, photos, runProgress());
  picture::Tones tones;
  tones.ink = tones.paper;  // where nobody looks
  return picture::develop(photo, exposure, tones);
}

drawing::PicturePage ringPage(const PictureRun& run, const design::Housing& housing,
                              const std::vector<design::PosedImager>& imagers) {
  const auto ring = ringOf(housing, imagers);
  drawing::PicturePage page;
  page.title = housing.title.empty() ? housing.id.text : housing.id.text + "  " + housing.title;
  const design::Situation& situation = run.studio.situation();
  page.subtitle =
      fmt::format("{}, {}; imagers in order of their bearing, clockwise", run.loaded.design.title,
                  situation.title.empty() ? situation.id.text : situation.title);
  page.foot =
      "Computed pictures, smaller than their imagers' own. Geometry follows the design; tones of "
      "surfaces and daylight are plausible, not measured. An aid: walk-test before sign-off.";
  const std::size_t columns = ring.size() <= 1 ? 1 : ring.size() <= 4 ? 2 : 3;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const design::PosedImager& imager = *ring[i];
    const Progress step = partOf(runProgress(), i, ring.size());
    picture::PhotoOptions options = photoOptions(run, imager);
    options.size = {kPageWidePx,
                    static_cast<int>(std::lround(
                        kPageWidePx * static_cast<double>(imager.pixels[1]) / imager.pixels[0]))};
    if (i % columns == 0) page.rows.emplace_back();
    page.rows.back().pictures.push_back({shoot(run, imager, options, step).picture,
                                         fmt::format("{}: {}", imager.name, lookOf(imager))});
  }
  return page;
}

}  // namespace belvedere::cli
