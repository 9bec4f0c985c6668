// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a requirement's worst and best spot show of somebody who stands there, a face, a number plate and
// a test chart, each at true pixels of the recorded stream.
#pragma once

#include <filesystem>
#include <functional>

#include "base/progress.h"
#include "design/resolve.h"
#include "drawing/picture_page.h"
#include "picture/studio.h"

namespace belvedere::drawing {

// What all pictures of a page share.
struct PageStudio {
  const picture::Studio& studio;      // of the page's situation
  const std::filesystem::path& folder;  // where the design's attachments lie
  // What else stands in an imager's picture, and in which light it is taken.
  std::function<picture::PhotoOptions(const design::PosedImager&)> options;
  const Progress& progress;
};

// The spots are the judge's; of a zone that must not be seen, where it is seen most. A page without rows
// where nothing of the zone is left to stand on.
//   requirement  of kind see or withhold, of the studio's design
//   throws       Cancelled
PicturePage requirementPage(const PageStudio& of, const design::Requirement& requirement);

}  // namespace belvedere::drawing
