// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/preview_output.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "cli/page.h"
#include "design/task_table.h"

namespace belvedere::cli {

namespace {
std::string percent(double share) { return fmt::format("{:.1f}", 100 * share); }

// Requirements that a preview says nothing of.
std::vector<std::string> leftOut(const design::Design& design) {
  std::vector<std::string> ids;
  for (const design::Requirement& r : design.brief)
    if (r.kind == design::RequirementKind::withhold) ids.push_back(r.id.text);
  return ids;
}

std::string reasonsText(const proof::Preview& preview) {
  std::string text;
  for (std::size_t i = 0; i < std::min<std::size_t>(2, preview.reasons.size()); ++i)
    text += fmt::format("{}{} {} %", i > 0 ? ", " : "", word(preview.reasons[i].reason),
                        percent(preview.reasons[i].share));
  return text;
}

Json rowJson(const design::Design& design, const proof::Preview& preview) {
  const design::Requirement* requirement = design::findRequirement(design, preview.requirement);
  Json reasons = Json::array(), imagers = Json::array();
  for (const proof::ReasonShare& reason : preview.reasons)
    reasons.push_back({{"reason", word(reason.reason)}, {"share", number(reason.share)}});
  for (const proof::Contribution& by : preview.imagers)
    imagers.push_back(
        {{"imager", by.imager}, {"serves", number(by.serves)}, {"alone", number(by.alone)}});
  return {{"requirement", preview.requirement.text},
          {"purpose", requirement != nullptr ? requirement->purpose : ""},
          {"situation", preview.situation.text},
          {"needed_px_per_m", number(preview.needed_px_per_m)},
          {"asked", number(preview.asked)},
          {"share_estimate", number(preview.share)},
          {"reasons", std::move(reasons)},
          {"imagers", std::move(imagers)},
          {"spacing_m", number(preview.spacing_m)},
          {"points", preview.points},
          {"heights", preview.heights},
          {"used_ms", number(preview.used_ms)}};
}
}  // namespace

std::string previewText(const Loaded& loaded, const std::vector<proof::Preview>& previews,
                        double budget_ms) {
  std::string text = wrapped(printable(loaded.design.title), 0, 0);
  text += wrapped(fmt::format("This is a {}: shares are estimates from points on a lattice, {:g} ms "
                              "for each requirement and situation. Run prove without --preview for "
                              "bounds and verdicts.",
                              proof::kPreviewNotice, budget_ms), 0, 2);
  text += heading("Preview");
  Table table{"llrrrrrl", {"", "situation", "about %", "of", "lattice m", "points", "ms", "why not"}, {}};
  for (const proof::Preview& p : previews)
    table.rows.push_back({printable(p.requirement.text), printable(p.situation.text), percent(p.share),
                          fmt::format("{:g}", 100 * p.asked), fmt::format("{:g}", p.spacing_m),
                          fmt::format("{}", p.points), fmt::format("{:.0f}", p.used_ms),
                          reasonsText(p)});
  text += table.text(2);
  const std::vector<std::string> left_out = leftOut(loaded.design);
  if (!left_out.empty()) {
    std::string ids;
    for (const std::string& id : left_out) ids += (ids.empty() ? "" : ", ") + printable(id);
    text += wrapped("What is withheld is not previewed: " + ids + ".", 0, 2);
  }
  return text;
}

std::string previewLines(const std::vector<proof::Preview>& previews) {
  std::string text;
  for (const proof::Preview& p : previews)
    text += fmt::format("{}  {}  {}: about {} % of {:g} (lattice {:g} m, {:.0f} ms)\n",
                        cut(printable(p.requirement.text), 20), cut(printable(p.situation.text), 20),
                        proof::kPreviewNotice, percent(p.share), 100 * p.asked, p.spacing_m, p.used_ms);
  return text;
}

Json previewJson(const Loaded& loaded, const std::vector<proof::Preview>& previews,
                 double budget_ms) {
  Json rows = Json::array();
  for (const proof::Preview& preview : previews) rows.push_back(rowJson(loaded.design, preview));
  const auto scale = design::taskScale(loaded.design.task_table);
  return {{"format", "belvedere.preview"},
          {"version", 1},
          {"notice", proof::kPreviewNotice},
          {"edition", scale ? scale->title : ""},
          {"design", designJson(loaded)},
          {"budget_ms", number(budget_ms)},
          {"requirements", std::move(rows)},
          {"left_out", leftOut(loaded.design)}};
}

}  // namespace belvedere::cli
