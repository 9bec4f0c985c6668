// SPDX-License-Identifier: GPL-3.0-or-later
//
// One page of paper as a file: whatever paints over the rectangle from a painter's origin, whose unit is
// one millimetre. Text stays text in the SVG; the same page gives the same bytes. Replaces the file
// whole or not at all. Throws std::system_error when it cannot; what() begins with the file.
#pragma once

#include <filesystem>
#include <functional>
#include <string>

class QPainter;

namespace belvedere::drawing {

struct Page {
  std::string title, about;  // of the file
  double width_mm = 0, height_mm = 0;
  std::function<void(QPainter&)> paint;
};
void writeSvg(const Page& page, const std::filesystem::path& path);
void writePng(const Page& page, const std::filesystem::path& path, double dpi = 150);
void writePdf(const Page& page, const std::filesystem::path& path);

}  // namespace belvedere::drawing
