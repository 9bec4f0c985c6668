// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere reach: what is asked of one imager without a building, the answer, and how it is said.
#pragma once

#include <array>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/answer.h"
#include "design/task_table.h"
#include "optics/lens_fit.h"
#include "optics/reach.h"

namespace belvedere::cli {

struct ReachOptions {
  std::string pixels, family, scale = "2014", target = "person", json;
  double hfov_deg = 0;
  std::optional<double> vfov_deg, dfov_deg, height_m, tilt_deg;
  std::vector<double> widths_at_m;
};

struct TaskReach {
  design::TaskLine line;
  std::optional<double> rectilinear_m;
  double equidistant_m = 0, lens_m = 0;  // slant, on the axis
  double width_m = 0;                    // of the picture there, both forms
  double person_percent = 0;             // of the picture's height, seen square on
  std::optional<optics::SeenStretch> floor;
};
struct HeightReach {
  double target_height_m = 0;
  std::optional<optics::SeenStretch> seen;
};
struct WidthAt {
  double distance_m = 0, arc_m = 0;
  std::optional<double> flat_m;
};
struct ReachAnswer {
  std::array<int, 2> pixels{};
  optics::FieldOfView field;
  std::string family;
  optics::LensFit fit;
  design::TaskScale scale;
  design::TargetKind target = design::TargetKind::person;
  design::Range band_m{};
  std::optional<optics::Lookout> lookout;
  std::vector<TaskReach> tasks;
  std::vector<HeightReach> heights;
  std::vector<WidthAt> widths;
};

// Throws CallError for what is no picture size, family, edition or target.
ReachAnswer reachAnswer(const ReachOptions& options);
std::string reachText(const ReachAnswer& answer);
Json reachJson(const ReachAnswer& answer);  // "belvedere.reach", docs/json.md

}  // namespace belvedere::cli
