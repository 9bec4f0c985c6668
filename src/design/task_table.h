// SPDX-License-Identifier: GPL-3.0-or-later
//
// Task tables: which pixel density a task asks for. Two editions of the video-surveillance
// application guideline, IEC 62676-4, and the design's own table. The edition is printed beside
// every verdict, since one figure carries different words: 250 px/m identifies under the 2014
// edition and characterises under that of 2025.
//
// Where a row is not confirmed, its figure is from memory or from a summary of the standard only:
// whoever prints it prints `note` too. An own table ("edition": "own") replaces any of it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/design.h"

namespace belvedere::design {

struct TaskLine {
  std::string task;
  double px_per_m = 0;      // least density, pixels per metre at the target
  double height_share = 1;  // of a person's band that must be met: practice, editable
  bool confirmed = false;   // the figure was read in a text, not recalled
  std::string meaning;      // what the picture lets a viewer do; empty for an own table
};
struct TaskScale {
  std::string edition;          // "2014", "2025", "own"
  std::string title;            // as printed beside a verdict
  std::string note;             // to print with any row that is not confirmed; empty: none
  std::vector<TaskLine> lines;  // coarsest first (an own table: as written)
};

// The editions that the program carries, oldest first.
const std::vector<TaskScale>& builtInScales();
// The scale that a design judges by; nothing for an edition that is not known.
std::optional<TaskScale> taskScale(const TaskTable& table);
// The row of a task in a scale; null when the scale has no such word.
const TaskLine* findTask(const TaskScale& scale, std::string_view task);

// What another edition asks for at the same density: its coarsest row that is at least as dense.
// The *figures* compare, the meanings need not: say both words. Nothing past its finest row.
struct Equivalent {
  TaskLine line;
  bool same_density = false;
};
std::optional<Equivalent> equivalentTask(const TaskLine& line, const TaskScale& other);

// The least density (kind `see`) or the most (kind `withhold`) that a requirement states, px/m:
// its own px_per_m, or that of its task's row. Nothing for a requirement that states none (kinds
// `rule` and `money` need not), or a task unknown to the table, which a checked design never has.
std::optional<double> statedDensity(const Design& design, const Requirement& requirement);
// The same for a requirement that must state one: of kind `see` or `withhold` in a checked design.
double neededDensity(const Design& design, const Requirement& requirement);

// The share of the target's band that must be met, (0, 1]: the target's own height_share, or for
// a person that of the task's row, or all of it.
double heightShare(const Design& design, const Requirement& requirement);

// The older practice: how much of the picture's height a standing person fills, percent, on
// standard-definition pictures that resolve about 400 lines, person 1.6 m. It and a density say
// the same: 100 % is 250 px/m. For other pictures, give their lines.
inline constexpr double kPersonHeightM = 1.6;
inline constexpr double kOlderPracticeLines = 400;
double percentOfHeight(double px_per_m, double picture_lines = kOlderPracticeLines,
                       double person_m = kPersonHeightM);
double densityOfPercent(double percent, double picture_lines = kOlderPracticeLines,
                        double person_m = kPersonHeightM);

}  // namespace belvedere::design
