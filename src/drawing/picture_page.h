// SPDX-License-Identifier: GPL-3.0-or-later
//
// Photographs with lines and words over them, put together on pages, written as PNG.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "base/progress.h"
#include "picture/develop.h"
#include "picture/volume.h"

namespace belvedere::drawing {

// Lines of the site over a picture and words at places of it, in white on a dark edge, so that they
// read on anything. What is hidden is dashed and faint.
struct Overlay {
  std::vector<picture::LineStretch> lines;
  struct Label {
    Vec2 at;  // its middle, pixels
    std::string text;
  };
  std::vector<Label> labels;
};
void drawOver(picture::Developed& picture, const Overlay& overlay);

// A page: pictures with a caption below each, in rows from the left, on paper.
struct PagePicture {
  picture::Developed picture;
  std::string caption;
};
struct PageRow {
  std::vector<PagePicture> pictures;
  std::string heading;  // over the row; may be empty
};
struct PicturePage {
  std::string title, subtitle, foot;
  std::vector<PageRow> rows;
};
picture::Developed paintPage(const PicturePage& page);

// Text chunks of the file: keyword (Latin-1, at most 79 characters) and text.
using PngTexts = std::vector<std::pair<std::string, std::string>>;
// Throws std::system_error, what() begins with the file; Cancelled before the file is put in place.
void writePng(const picture::Developed& picture, const PngTexts& texts,
              const std::filesystem::path& path, const Progress& progress = {});

}  // namespace belvedere::drawing
