// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sun's year of an imager as a drawing: days across, hours of the day down. In each panel when the sun
// is up, and when it stands in the picture, within ten degrees of it, behind the faces of a
// requirement, or would but for what stands between. The same on screen and in a file.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "design/design.h"
#include "drawing/inks.h"
#include "geometry/polygon.h"
#include "light/sun.h"
#include "proof/sun_findings.h"

class QPainter;

namespace belvedere::drawing {

struct SunPanel {
  std::string heading;       // "In the picture of C1.2"
  std::string words;         // hours and dates: what the panel says to one who cannot see it
  light::SunChart chart;
  bool behind = false;       // low behind faces, rather than in the picture
};
struct SunSheet {
  std::string title, subtitle;  // "The sun on C1.2 in 2026"; the place
  light::SunYear year;
  std::vector<SunPanel> panels;
  Inks inks = Inks::light();
};
// Charts of one imager: of each of its aims, then of the requirements it would serve.
//   situation  whose solids throw shadows
SunSheet sunSheet(const design::Design& design, const std::string& imager,
                  const design::Situation& situation, light::SunYear year,
                  const std::vector<proof::SunOfImager>& frames,
                  const std::vector<proof::BacklightOf>& behind);

inline constexpr double kSunWidthMm = 297, kSunHeightMm = 210;  // A4
// Over the rectangle from the painter's origin, whose unit is one millimetre. Panels share the height;
// those that have no room are named. Paper is filled first. Needs a QGuiApplication (ensureGui).
void paintSunSheet(QPainter& painter, const SunSheet& sheet, double width_mm = kSunWidthMm,
                   double height_mm = kSunHeightMm);

// What the chart says at a place of that paper: "5 Nov, 09:35: in the picture". Nothing beside the panels.
std::optional<std::string> sunWordsAt(const SunSheet& sheet, Vec2 at_mm,
                                      double width_mm = kSunWidthMm,
                                      double height_mm = kSunHeightMm);

// By the file's ending: .svg, .pdf, else PNG. Throws as page_files.h.
void writeSunSheet(const SunSheet& sheet, const std::filesystem::path& path, double dpi = 150);

// The days and hours of some states as regions: x in days from the year's first midnight, y in hours. One
// region for each stretch of days on end over which it is one stretch of hours.
enum class SunDrawn { up, near_or_in, in_frame, hidden };
std::vector<Ring> sunBands(const light::SunYear& year, const light::SunChart& chart, SunDrawn drawn);

}  // namespace belvedere::drawing
