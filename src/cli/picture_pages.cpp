// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pages of pictures: all imagers of a camera in ring order.
#include <fmt/format.h>

#include <cmath>

#include "cli/command.h"
#include "cli/picture.h"
#include "cli/terminal.h"
#include "picture/unroll.h"

namespace belvedere::cli {

namespace {

constexpr int kPageWidePx = 960;  // of a picture on a page

// A camera's imagers by bearing, clockwise.
std::vector<const design::PosedImager*> ringOf(const design::Housing& housing,
                                               const std::vector<design::PosedImager>& imagers) {
  std::vector<const design::PosedImager*> ring = picture::ringOf(housing.id, imagers);
  if (ring.empty())
    throw CallError(fmt::format("camera {} has no imager that looks anywhere", housing.id.text));
  return ring;
}

}  // namespace

picture::Developed unrolledPicture(const PictureRun& run, const design::Housing& housing,
                                   const std::vector<design::PosedImager>& imagers,
                                   drawing::PngTexts& texts) {
  const auto ring = ringOf(housing, imagers);
  const picture::Panorama panorama = picture::panoramaOf(ring);
  checkPixels(housing.id.text, panorama.size());
  for (const design::PosedImager* imager : ring)
    checkPixels(imager->name, picture::sizeFor(panorama, picture::viewOf(*imager)));
  return picture::shootUnrolled(
      run.studio, panorama, ring,
      [&](const design::PosedImager& imager) { return photoOptions(run, imager); },
      [&](const design::PosedImager& imager, const picture::Shot& shot) {
        for (auto& [key, text] : shotTexts(run, imager, shot))
          if (key != "Imager") texts.emplace_back(imager.name + " " + key, text);
      },
      runProgress());
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
