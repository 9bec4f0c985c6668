// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/task_table.h"

#include "base/check.h"

namespace belvedere::design {
namespace {

// Figures of the 2014 edition: monitor and recognise were read in a published German summary of
// DIN EN 62676-4, clause on the size of objects on the screen; the other rows are from memory. In
// the standard they are millimetres per pixel: 80, 40, 16, 8, 4, 1.
TaskScale edition2014() {
  return {"2014",
          "IEC 62676-4:2014",
          "IEC 62676-4:2014 (withdrawn in October 2025): the figures of detect, observe, identify "
          "and inspect are from memory; check them against the standard",
          {{"monitor", 12.5, 0.5, true, "see how many people there are, where they go, how fast"},
           {"detect", 25, 0.5, false, "tell whether a person is present"},
           {"observe", 62.5, 1, false, "see clothing and what goes on around a person"},
           {"recognise", 125, 1, true, "say whether this is a person seen before"},
           {"identify", 250, 1, false, "establish who a person is beyond reasonable doubt"},
           {"inspect", 1000, 1, false, "see fine detail of a face or an object"}}};
}

TaskScale edition2025() {
  return {"2025",
          "IEC 62676-4:2025",
          "IEC 62676-4:2025: all figures are from memory and unconfirmed; check them against the "
          "standard",
          {{"overview", 20, 0.5, false, "low density: follow what goes on over a wide area"},
           {"outline", 40, 0.5, false, "low density: tell what kind of object it is"},
           {"discern", 80, 1, false, "low density: tell features of an object apart"},
           {"perceive", 125, 1, false, "high density: take in particulars of a person or object"},
           {"characterise", 250, 1, false, "high density: describe a person by features"},
           {"validate", 500, 1, false, "high density: confirm who a person is"},
           {"scrutinise", 1500, 1, false, "high density: examine the finest detail"}}};
}

}  // namespace

const std::vector<TaskScale>& builtInScales() {
  static const std::vector<TaskScale> scales{edition2014(), edition2025()};
  return scales;
}

std::optional<TaskScale> taskScale(const TaskTable& table) {
  for (const TaskScale& scale : builtInScales())
    if (scale.edition == table.edition) return scale;
  if (table.edition != "own") return std::nullopt;
  TaskScale own{"own", table.title.empty() ? "own table" : table.title, "", {}};
  for (const TaskRow& row : table.rows)
    own.lines.push_back({row.task, row.px_per_m, row.height_share, true, ""});
  return own;
}

const TaskLine* findTask(const TaskScale& scale, std::string_view task) {
  for (const TaskLine& line : scale.lines)
    if (line.task == task) return &line;
  return nullptr;
}

std::optional<Equivalent> equivalentTask(const TaskLine& line, const TaskScale& other) {
  const TaskLine* best = nullptr;
  for (const TaskLine& candidate : other.lines)
    if (candidate.px_per_m >= line.px_per_m && (!best || candidate.px_per_m < best->px_per_m))
      best = &candidate;
  if (!best) return std::nullopt;
  return Equivalent{*best, best->px_per_m == line.px_per_m};
}

namespace {
std::optional<TaskLine> lineOf(const Design& design, const Requirement& requirement) {
  if (requirement.task.empty()) return std::nullopt;
  const std::optional<TaskScale> scale = taskScale(design.task_table);
  if (!scale) return std::nullopt;
  const TaskLine* line = findTask(*scale, requirement.task);
  if (!line) return std::nullopt;
  return *line;
}
}  // namespace

std::optional<double> statedDensity(const Design& design, const Requirement& requirement) {
  if (requirement.px_per_m) return requirement.px_per_m;
  const std::optional<TaskLine> line = lineOf(design, requirement);
  if (!line) return std::nullopt;
  return line->px_per_m;
}

double neededDensity(const Design& design, const Requirement& requirement) {
  const std::optional<double> density = statedDensity(design, requirement);
  BELVEDERE_CHECK(density.has_value(), "a requirement to see or to withhold states a density");
  return *density;
}

double heightShare(const Design& design, const Requirement& requirement) {
  if (requirement.target.height_share) return *requirement.target.height_share;
  if (requirement.target.kind != TargetKind::person) return 1;
  const std::optional<TaskLine> line = lineOf(design, requirement);
  return line ? line->height_share : 1;
}

double percentOfHeight(double px_per_m, double picture_lines, double person_m) {
  return 100 * px_per_m * person_m / picture_lines;
}

double densityOfPercent(double percent, double picture_lines, double person_m) {
  return percent / 100 * picture_lines / person_m;
}

}  // namespace belvedere::design
