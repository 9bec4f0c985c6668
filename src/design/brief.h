// SPDX-License-Identifier: GPL-3.0-or-later
//
// The brief of a design: situations, requirements, task tables.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "design/site.h"

namespace belvedere::design {

struct Situation {
  SituationId id;
  std::string title;
  std::optional<double> hours_per_year;
  std::vector<LightId> lights;
  std::vector<AnyId> present;            // solids and zones that hold only where they are named so
  std::vector<AnyId> absent;             // solids, walls' openings' fillings and zones taken away here
  double people_per_m2 = 0;
  bool operator==(const Situation&) const = default;
};

enum class RequirementKind { see, withhold, rule, money };
enum class TargetKind { face, face_child, face_seated, person, plate, floor, custom };
enum class JudgedOn { captured, recorded, viewed };
enum class FacingRule { each, any };
struct Target {
  TargetKind kind = TargetKind::person;
  std::optional<Range> band_m;           // above what it stands on; absent: the kind's own band
  std::optional<double> height_share;    // of the band; absent: the task row's
  std::optional<double> speed_mps;
  bool operator==(const Target&) const = default;
};
struct Facing {
  double bearing_deg = 0;                // in which the target looks
  double yaw_max_deg = 45;               // practice, editable
  double elevation_max_deg = 30;         // practice, editable
  bool operator==(const Facing&) const = default;
};
struct AfterLoss {
  AnyId of;                              // housing, "any_housing", device
  std::string still_task;
  std::optional<double> still_share;
  std::optional<int> zones_lost_max;
  bool operator==(const AfterLoss&) const = default;
};
struct Requirement {
  RequirementId id;
  std::string purpose;
  RequirementKind kind = RequirementKind::see;
  ZoneId zone;
  std::vector<Vec2> line;                // of a rule
  Target target;
  std::string task;                      // a row of the design's task table, or
  std::optional<double> px_per_m;        // the density itself: at least (see), at most (withhold)
  JudgedOn judged_on = JudgedOn::recorded;
  double share = 0.95;
  int imagers = 1;
  std::vector<Facing> facings;
  FacingRule facing_rule = FacingRule::any;
  std::vector<SituationId> situations;   // empty: every situation
  std::optional<double> largest_gap_m;
  std::optional<double> frames_per_s;
  std::optional<double> seconds_in_view;
  std::optional<double> keep_days;
  std::optional<double> amount_most;     // of kind money
  std::string rule;                      // of kind rule: "cross", "enter", "leave", "loiter"
  std::vector<AfterLoss> after_loss;
  bool operator==(const Requirement&) const = default;
};
struct TaskRow {
  std::string task;
  double px_per_m = 0;
  double height_share = 1;               // of a person's band
  bool operator==(const TaskRow&) const = default;
};
struct TaskTable {
  std::string edition = "2014";          // "2014", "2025" (IEC 62676-4) or "own"
  std::string title;                     // of an own table
  std::vector<TaskRow> rows;             // of an own table
  bool operator==(const TaskTable&) const = default;
};

}  // namespace belvedere::design
