// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <set>

#include "design/check.h"
#include "design/task_table.h"

namespace belvedere::design {
namespace {

void checkTaskTable(const TaskTable& table, ReadLog& log) {
  const std::string at = "/task_table/rows";
  if (table.edition == "own" && table.rows.empty())
    log.finding("task_table_rows", "/task_table", "an own task table has no rows", "add \"rows\"",
                {at});
  if (table.edition != "own" && !table.rows.empty())
    log.finding("task_table_rows", at,
                fmt::format("rows belong to an own table, this is edition {}", table.edition),
                "write \"edition\": \"own\", or leave the rows out", {"/task_table/edition"});
  std::set<std::string> seen;
  for (std::size_t i = 0; i < table.rows.size(); ++i)
    if (!seen.insert(table.rows[i].task).second)
      log.finding("duplicate_task", fmt::format("{}/{}/task", at, i),
                  fmt::format("the task \"{}\" has a row already", shown(table.rows[i].task)));
}

void checkTask(const Design& design, const std::string& task, const std::string& where,
               ReadLog& log) {
  const std::optional<TaskScale> scale = taskScale(design.task_table);
  if (task.empty() || !scale || findTask(*scale, task)) return;
  std::vector<std::string> words;
  for (const TaskLine& line : scale->lines) words.push_back(line.task);
  std::string hint = "one of: " + fmt::format("{}", fmt::join(words, ", "));
  if (const std::string near = nearestWord(task, words); !near.empty())
    hint = fmt::format("did you mean \"{}\"?", shown(near));
  for (const TaskScale& other : builtInScales())
    if (const TaskLine* line = findTask(other, task); line && other.edition != scale->edition) {
      const std::optional<Equivalent> equivalent = equivalentTask(*line, *scale);
      hint = fmt::format("a word of the {} edition, {} px/m", other.edition,
                         printNumber(line->px_per_m));
      if (equivalent)
        hint += fmt::format("; this table has \"{}\" with {} px/m", shown(equivalent->line.task),
                            printNumber(equivalent->line.px_per_m));
    }
  log.finding("unknown_task", where,
              fmt::format("the task \"{}\" is not in the task table ({})", shown(task),
                          shown(scale->title)),
              hint, {"/task_table"});
}

void checkRequirement(const Design& design, const Requirement& r, const std::string& at,
                      ReadLog& log) {
  const bool sees = r.kind == RequirementKind::see || r.kind == RequirementKind::withhold;
  const bool task = !r.task.empty(), density = r.px_per_m.has_value();
  const std::vector<std::string> kind{at + "/kind"};
  if (sees && r.zone.empty())
    log.finding("requirement_without_zone", at, "the requirement names no zone", "add \"zone\"",
                {at + "/kind", at + "/zone"});
  if (task && density)
    log.finding("requirement_density", at, "the requirement has a task and a px_per_m",
                "give exactly one of the two", kind);
  if (sees && !task && !density)
    log.finding("requirement_density", at, "the requirement has no task and no px_per_m",
                "give exactly one of the two", {at + "/kind", at + "/task", at + "/px_per_m"});
  if (r.kind == RequirementKind::rule) {
    if (r.rule.empty())
      log.finding("requirement_incomplete", at, "a requirement of kind rule states its rule",
                  "add \"rule\"", {at + "/kind", at + "/rule"});
    if (r.zone.empty() && r.line.empty())
      log.finding("requirement_without_zone", at, "a rule has a zone or a line",
                  "add \"zone\" or \"line\"", {at + "/kind", at + "/zone", at + "/line"});
  }
  if (r.kind == RequirementKind::money && !r.amount_most)
    log.finding("requirement_incomplete", at, "a requirement of kind money states its amount",
                "add \"amount_most\"", {at + "/kind", at + "/amount_most"});
  if (r.target.kind == TargetKind::custom && !r.target.band_m)
    log.finding("requirement_incomplete", at + "/target", "a custom target states its band",
                "add \"band_m\"", {at + "/target/kind", at + "/target/band_m"});
  if (r.target.band_m) checkRange(*r.target.band_m, at + "/target/band_m", log);
  checkTask(design, r.task, at + "/task", log);
  for (std::size_t i = 0; i < r.after_loss.size(); ++i)
    checkTask(design, r.after_loss[i].still_task, fmt::format("{}/after_loss/{}/still_task", at, i),
              log);
}

}  // namespace

void checkBrief(const Design& design, ReadLog& log) {
  checkTaskTable(design.task_table, log);
  for (std::size_t i = 0; i < design.situations.size(); ++i) {
    const Situation& situation = design.situations[i];
    const std::set<AnyId> present(situation.present.begin(), situation.present.end());
    for (std::size_t k = 0; k < situation.absent.size(); ++k)
      if (present.contains(situation.absent[k]))
        log.finding("present_and_absent", fmt::format("/situations/{}/absent/{}", i, k),
                    fmt::format("\"{}\" is present and absent in the same situation",
                                shown(situation.absent[k].text)));
  }
  for (std::size_t i = 0; i < design.brief.size(); ++i)
    checkRequirement(design, design.brief[i], fmt::format("/brief/{}", i), log);
}

}  // namespace belvedere::design
