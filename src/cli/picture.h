// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere picture: what an imager would show, as PNG. Needs Qt Gui; no display.
#pragma once

#include <CLI/CLI.hpp>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "design/resolve.h"
#include "drawing/picture_page.h"
#include "picture/studio.h"

namespace belvedere::cli {

CLI::App* addPicture(CLI::App& app, std::function<int()>& run);

// ---- shared by the command's files -------------------------------------------------------------
struct PictureCall {
  std::string design, imager, requirement, stream, situation, out;
  std::vector<std::string> figures;
  std::optional<picture::SunAt> sun;
  bool grid = false, zones = false, unrolled = false, force = false;
  int threads = 0;
};
// A figure as asked for; it looks at the imager unless it walks.
struct AskedFigure {
  Vec2 at_m;
  double height_m = 1.75;
  std::optional<double>
      walks_deg{};  // the bearing in which it walks, and so looks; absent: it stands
  double speed_mps = 0;
};

// What all pictures of a call share.
struct PictureRun {
  const PictureCall& call;
  const Loaded& loaded;
  const picture::Studio& studio;
  std::vector<AskedFigure> figures;
};

// Throws CallError for a picture of more pixels than fit into memory.
inline constexpr double kMostPictureMegapixels = 200;
void checkPixels(const std::string& of, picture::Size size);
picture::PhotoOptions photoOptions(const PictureRun& run, const design::PosedImager& imager);
picture::Shot shoot(const PictureRun& run, const design::PosedImager& imager,
                    const picture::PhotoOptions& options, const Progress& progress);
// What stands in the file beside the picture.
drawing::PngTexts pictureTexts(const PictureRun& run);
drawing::PngTexts shotTexts(const PictureRun& run, const design::PosedImager& imager,
                            const picture::Shot& shot);
std::string lookOf(const design::PosedImager& imager);  // "pan 90.0 deg, tilt 12.0 deg, ..."

// picture_pages.cpp
drawing::PicturePage ringPage(const PictureRun& run, const design::Housing& housing,
                              const std::vector<design::PosedImager>& imagers);

// The whole camera as one picture, exposed as its imagers are: where some take less light than
// others, as those that take least. `texts`: what is added to what stands in the file.
picture::Developed unrolledPicture(const PictureRun& run, const design::Housing& housing,
                                   const std::vector<design::PosedImager>& imagers,
                                   drawing::PngTexts& texts);

}  // namespace belvedere::cli
