// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the sun does to a design in a year: in or near an imager's picture, and low behind the faces
// that a requirement asks for. Findings about charts that light/sun.h computes.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/finding.h"
#include "base/progress.h"
#include "design/design.h"
#include "light/sun.h"
#include "proof/judge.h"

namespace belvedere::proof {

struct SunOfImager {
  design::PosedImager view;      // captured; every aim by itself
  light::SunChart chart;
};
// Of every imager in use, or of the one named ("C1.2", all of its aims), against the solids of that
// place.
std::vector<SunOfImager> sunOfImagers(const design::Design& design, const Place& place,
                                      const light::SunYear& year, const Progress& progress,
                                      const std::string& only = {});

// Low sun behind a target, as an imager sees it that would serve the requirement but for the light:
// at one spot, the middle of the zone (or its nearest point on the zone's outline).
struct BacklightOf {
  design::RequirementId requirement;
  design::SituationId situation;  // whose solids throw shadows
  std::string imager;
  Vec3 at_m;                      // site, at the middle of the target's band
  light::SunChart chart;
};
// Of every requirement that asks for faces to be seen; for all imagers, or for all aims of the one named.
//   in  what stands in this situation, where the requirement must hold in it; else in the first in which it must
std::vector<BacklightOf> backlights(const design::Design& design,
                                    const std::filesystem::path& folder, const light::SunYear& year,
                                    const Progress& progress, const std::string& only = {},
                                    const design::SituationId& in = {});

// A chart in words: "412 h in the picture and 310 h within 10 degrees of it (20 Oct to 21 Feb, between
// 09:15 and 15:15; most on 3 Dec, 3.2 h); 22 h hidden by what stands between".
std::string frameWords(const light::SunYear& year, const light::SunChart& chart);
// Likewise of low sun behind a target: "310 h behind the faces (...); ...".
std::string backlightWords(const light::SunYear& year, const light::SunChart& chart);

// Code time_zone_unknown, where the place states a zone that this machine does not know.
std::vector<Finding> timeZoneFindings(const design::Design& design, int year);

// Codes time_zone_unknown, sun_in_frame, sun_near_frame, backlight; empty where the site has no place. Of
// the same year of five-minute steps that `belvedere light --sun` and the charts have.
std::vector<Finding> sunFindings(const design::Design& design, const std::filesystem::path& folder,
                                 const Progress& progress);
inline constexpr int kFindingsYear = 2026;
// A year's hours below these are not worth a word: common practice, no source.
inline constexpr double kSunWorthH = 1, kNearWorthH = 20, kBacklightWorthH = 20;

}  // namespace belvedere::proof
