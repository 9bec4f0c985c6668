// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/explain_output.h"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "base/figures.h"
#include "cli/page.h"
#include "cli/proof_output.h"
#include "cli/terminal.h"
#include "requirements/prove.h"

namespace belvedere::cli {

using proof::Reason;
using proof::SpotExplanation;

namespace {
std::string effortText(const proof::Effort& effort) {
  return fmt::format(
      "Effort counts {:g} for a degree of aim, {:g} for a percent of focal length, {:g} for a "
      "metre "
      "of height, {:g} for a metre along the mount, {:g} for another model, {:g} "
      "for a setting (mode, exposure, focus, lamps), {:g} for a lamp more; --effort-aim and its "
      "like set them.",
      effort.per_aim_deg, effort.per_zoom_percent, effort.per_height_m, effort.per_place_m,
      effort.another_model, effort.per_setting, effort.another_lamp);
}

// What hides a spot, by name: bodies carry the id of their wall, opening, storey or solid.
std::string bodyText(const design::Design& design, const std::string& id) {
  if (const design::Storey* storey = design::findStorey(design, {id}))
    return "the slab of " + printable(storey->title.empty() ? id : storey->title);
  if (const design::Solid* solid = design::findSolid(design, {id}); solid && !solid->title.empty())
    return fmt::format("{} ({})", printable(id), printable(solid->title));
  return printable(id);
}

constexpr std::size_t kThenMost = 3;

// `when`: the situations of which it is said.
std::string pointText(const design::Design& design, const SpotExplanation& point, bool changes,
                      const std::string& when) {
  const auto* requirement = design::findRequirement(design, point.requirement);
  const bool served = point.nearest.reason == Reason::served;
  const bool withheld =
      requirement != nullptr && requirement->kind == design::RequirementKind::withhold;
  std::string text = wrapped(
      fmt::format("{} in {} at ({:.2f}, {:.2f}){}: {}", printable(point.requirement.text),
                  when, point.at.x, point.at.y,
                  point.inside ? "" : ", outside the zone as judged",
                  withheld ? (served ? "seen too well" : "kept")
                           : (served ? "served" : "not served")), 2, 4);
  if (requirement != nullptr && !requirement->purpose.empty())
    text += wrapped(printable(requirement->purpose), 4, 4);
  const std::string above = footText(design, requirement);
  std::string nearest = failureText(point.nearest.reason, point.name, point.nearest.measure,
                                    point.nearest.height_m, above);
  if (!point.hidden_by.empty()) nearest += ", behind " + bodyText(design, point.hidden_by);
  if (point.nearest.measure.margin > 0 && point.nearest.measure.margin < 1e6)
    nearest += fmt::format(" (margin {:.3f})", point.nearest.measure.margin);
  text += wrapped("nearest: " + nearest, 4, 6);
  // Best first: who comes nearest after it; the others are in the JSON.
  std::size_t said = 0, left = 0;
  for (std::size_t i = 0; i < point.all.size(); ++i) {
    if (point.all_imagers[i] == point.imager) continue;
    if (said == kThenMost) {
      ++left;
      continue;
    }
    ++said;
    text += wrapped("then: " + failureText(point.all[i].reason, point.all_names[i],
                                           point.all[i].measure, point.all[i].height_m, above),
                    4, 6);
  }
  if (left > 0)
    text += wrapped(fmt::format("and {} that {} farther from it", left, left == 1 ? "is" : "are"), 4, 6);
  if (served || withheld || !changes) return text;
  if (point.changes.empty())
    return text +
           wrapped("no single change of aim, zoom, height, place, model, light or focus would serve it", 4, 6);
  text += wrapped("single changes that would serve it, least effort first:", 4, 6);
  for (const proof::Change& change : point.changes) {
    std::string loses;
    for (const std::string& id : change.loses) loses += (loses.empty() ? "" : ", ") + printable(id);
    if (!change.loses_known)
      loses.clear();
    else
      loses = loses.empty() ? "; nothing that is met falls" : "; then falls " + loses;
    std::string then;
    if (change.share && requirement != nullptr) {
      const double asked = 100 * requirement->share;
      then = fmt::format("; the zone then {} to {} % of {:g}, proven",
                         figureBeside(100 * change.share->low, asked, 1, Rounded::down),
                         figureBeside(100 * change.share->high, asked, 1, Rounded::up), asked);
    }
    text += wrapped(fmt::format("effort {:.1f}: {}{}{}", change.effort, printable(change.sentence),
                                then, loses), 6, 10);
  }
  return text;
}

// Every spot, those of one requirement that read the same in several situations once.
std::string pointsText(const design::Design& design, const Explained& explained) {
  const std::vector<SpotExplanation>& points = explained.points;
  std::vector<std::string> bodies;
  for (const SpotExplanation& point : points)
    bodies.push_back(pointText(design, point, explained.changes, ""));
  std::vector<bool> said(points.size());
  std::string text;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (said[i]) continue;
    std::string when = printable(points[i].situation.text);
    for (std::size_t k = i + 1; k < points.size(); ++k)
      if (points[k].requirement == points[i].requirement && bodies[k] == bodies[i] &&
          points[k].situation != points[i].situation) {
        when += ", " + printable(points[k].situation.text);
        said[k] = true;
      }
    text += '\n' + pointText(design, points[i], explained.changes, when);
  }
  return text;
}

std::string growthText(const std::optional<double>& may, double tried, const std::string& falls,
                       const std::string& falls_in) {
  if (!may) return fmt::format("nothing falls up to {:.2f} m", tried);
  return fmt::format("{:.2f} m at most, then falls {} in {}", *may, printable(falls),
                     printable(falls_in));
}

std::string mayGrowText(const proof::MayGrow& grow) {
  return wrapped(fmt::format("{}, {:.2f} m high now", printable(grow.solid), grow.top_m), 2, 4) +
         wrapped("up to: " + growthText(grow.may_reach_m, grow.tried_top_m, grow.top_falls,
                                        grow.top_falls_in), 4, 6) +
         wrapped("wider on all sides by: " + growthText(grow.may_widen_m, grow.tried_wide_m,
                                                        grow.wide_falls, grow.wide_falls_in), 4, 6);
}

std::string ruleText(const design::Design& design, const proof::RuleSight& sight) {
  const auto* requirement = design::findRequirement(design, sight.requirement);
  const bool enough = static_cast<int>(sight.imagers.size()) >= sight.imagers_asked;
  std::string text =
      wrapped(fmt::format("{}: {} imager{} well enough to run it, {} asked for",
                          printable(sight.requirement.text), sight.imagers.size(),
                          sight.imagers.size() == 1 ? " sees it" : "s see it", sight.imagers_asked),
              2, 4);
  if (requirement != nullptr) text += wrapped(printable(requirement->purpose), 4, 4);
  if (sight.px_per_m > 0)
    text += wrapped(fmt::format("asked for: {:g} px/m on {:g} % of its {}, by one imager alone",
                                sight.px_per_m, 100 * sight.share_asked,
                                requirement != nullptr && requirement->zone.empty() ? "line" : "zone"),
                    4, 6);
  if (!sight.imagers.empty()) text += wrapped("seen by " + printable(idList(sight.imagers)), 4, 6);
  for (const proof::RuleView& view : sight.others)
    text += wrapped(fmt::format("in {}: {}", printable(view.situation.text),
                                printable(requirements::viewText(view, sight.share_asked, false))),
                    4, 6);
  if (!enough && sight.others.empty() && sight.imagers.empty())
    text += wrapped("no imager comes near", 4, 6);
  return text;
}

Json ruleJson(const proof::RuleSight& sight) {
  Json others = Json::array();
  for (const proof::RuleView& view : sight.others) {
    Json reasons = Json::array();
    for (const proof::ReasonShare& reason : view.reasons)
      reasons.push_back({{"reason", word(reason.reason)}, {"share", number(reason.share)}});
    others.push_back({{"imager", view.imager},
                      {"situation", view.situation.text},
                      {"share", boundsJson(view.share)},
                      {"reasons", std::move(reasons)}});
  }
  return {{"requirement", sight.requirement.text},
          {"imagers_asked", sight.imagers_asked},
          {"px_per_m", number(sight.px_per_m)},
          {"share_asked", number(sight.share_asked)},
          {"imagers", sight.imagers},
          {"others", std::move(others)}};
}

Json answerJson(const proof::Answer& answer, const std::string& imager, const std::string& name) {
  return {{"imager", imager},
          {"name", name},
          {"reason", word(answer.reason)},
          {"measure", measureJson(answer.measure)},
          {"height_m", number(answer.height_m)},
          {"px_per_m", number(answer.px_per_m)}};
}

Json changeJson(const proof::Change& change) {
  Json one{
      {"kind", word(change.kind)}, {"housing", change.housing.text}, {"imager", change.imager}};
  switch (change.kind) {
    case proof::ChangeKind::aim:
      one["aim"] = change.aim;
      one["pan_deg"] = number(change.pan_deg);
      one["tilt_deg"] = number(change.tilt_deg);
      break;
    case proof::ChangeKind::zoom:
      one["aim"] = change.aim;
      one["focal_factor"] = number(change.by);
      break;
    case proof::ChangeKind::height:
    case proof::ChangeKind::place:
      one["by_m"] = number(change.by);
      one["to_fixing_m"] = numbers(change.to_fixing_m);
      break;
    case proof::ChangeKind::model: one["model"] = change.model.text; break;
    case proof::ChangeKind::exposure: one["exposure_s"] = number(change.by); break;
    case proof::ChangeKind::focus:
      one["aim"] = change.aim;
      one["focus_m"] = number(change.by);
      break;
    case proof::ChangeKind::open_up:
    case proof::ChangeKind::stop_down: one["f_number"] = number(change.by); break;
    case proof::ChangeKind::turn_lamp:
    case proof::ChangeKind::add_lamp:
      one["lamp"] = change.as->id.text;
      one["lamp_model"] = change.as->model.text;
      one["bearing_deg"] = number(change.as->mount.base_bearing_deg);
      one["tilt_deg"] = number(change.as->mount.base_tilt_deg);
      break;
    case proof::ChangeKind::follow:
    case proof::ChangeKind::mode: break;  // the sentence says it all
  }
  one["effort"] = number(change.effort);
  one["sentence"] = change.sentence;
  if (change.share) one["share"] = boundsJson(*change.share);
  if (change.loses_known) one["loses"] = change.loses;
  return one;
}

Json pointJson(const SpotExplanation& point, bool changes) {
  Json one{{"requirement", point.requirement.text},
           {"situation", point.situation.text},
           {"at", numbers(point.at)},
           {"inside", point.inside},
           {"served", point.nearest.reason == Reason::served}};
  one.update(answerJson(point.nearest, point.imager, point.name));
  if (!point.hidden_by.empty()) one["hidden_by"] = point.hidden_by;
  Json imagers = Json::array();
  for (std::size_t i = 0; i < point.all.size(); ++i)
    imagers.push_back(answerJson(point.all[i], point.all_imagers[i], point.all_names[i]));
  one["imagers"] = std::move(imagers);
  if (!changes) return one;
  Json list = Json::array();
  for (const proof::Change& change : point.changes) list.push_back(changeJson(change));
  one["changes"] = std::move(list);
  return one;
}
}  // namespace

bool asWanted(const design::Design& design, const SpotExplanation& point) {
  const auto* requirement = design::findRequirement(design, point.requirement);
  const bool withheld =
      requirement != nullptr && requirement->kind == design::RequirementKind::withhold;
  return (point.nearest.reason == Reason::served) != withheld;
}

std::string explanationText(const design::Design& design, const Explained& explained) {
  std::string text = wrapped(printable(design.title), 0, 0);
  if (explained.changes && !explained.points.empty())
    text += wrapped(effortText(explained.effort), 0, 2);
  text += pointsText(design, explained);
  for (const proof::RuleSight& sight : explained.rules) text += '\n' + ruleText(design, sight);
  for (const WithheldZone& zone : explained.withheld) {
    text += '\n' + wrapped(fmt::format("{} in {}: {}{}", printable(zone.row.requirement.text),
                                       printable(zone.row.situation.text), verdictText(zone.row),
                                       zone.row.densest_imager.empty()
                                           ? ""
                                           : ", by " + printable(zone.row.densest_imager)), 2, 4);
    for (const proof::Keep& keep : zone.keeps) {
      std::string falls;
      if (keep.turn_falls)
        falls = keep.turn_falls->empty()
                    ? "; the turn lets nothing fall that is met"
                    : fmt::format("; with the turn falls {}",
                                  printable(fmt::format("{}", fmt::join(*keep.turn_falls, ", "))));
      text += wrapped("to keep it: " + keepText(keep) + falls, 4, 6);
    }
  }
  if (!explained.may_change.empty()) {
    text += heading("How high things may grow before a requirement falls");
    for (const proof::MayGrow& grow : explained.may_change) text += mayGrowText(grow);
  }
  return text;
}

Json explanationJson(const Loaded& loaded, const Explained& explained) {
  const proof::Effort& effort = explained.effort;
  Json points = Json::array(), withheld = Json::array(), may_change = Json::array();
  for (const SpotExplanation& point : explained.points)
    points.push_back(pointJson(point, explained.changes));
  for (const WithheldZone& zone : explained.withheld) {
    Json keeps = Json::array();
    for (const proof::Keep& keep : zone.keeps) keeps.push_back(keepJson(keep));
    const proof::RequirementProof& row = zone.row;
    Json one{{"requirement", row.requirement.text},
             {"situation", row.situation.text},
             {"verdict", word(row.verdict)},
             {"most_px_per_m", number(row.needed_px_per_m)},
             {"densest_px_per_m", boundsJson(*row.densest_px_per_m)},
             {"imager", row.densest_imager}};
    if (row.densest_at) one["at"] = numbers(*row.densest_at);
    one["keeps"] = std::move(keeps);
    withheld.push_back(std::move(one));
  }
  Json rules = Json::array();
  for (const proof::RuleSight& sight : explained.rules) rules.push_back(ruleJson(sight));
  for (const proof::MayGrow& grow : explained.may_change) {
    Json one{{"solid", grow.solid},
             {"top_m", number(grow.top_m)},
             {"tried_top_m", number(grow.tried_top_m)},
             {"tried_wide_m", number(grow.tried_wide_m)}};
    if (grow.may_reach_m) {
      one["may_reach_m"] = number(*grow.may_reach_m);
      one["top_falls"] = grow.top_falls;
      one["top_falls_in"] = grow.top_falls_in;
    }
    if (grow.may_widen_m) {
      one["may_widen_m"] = number(*grow.may_widen_m);
      one["wide_falls"] = grow.wide_falls;
      one["wide_falls_in"] = grow.wide_falls_in;
    }
    may_change.push_back(std::move(one));
  }
  return {{"format", "belvedere.explanation"},
          {"version", 1},
          {"design", designJson(loaded)},
          {"effort",
           {{"per_aim_deg", number(effort.per_aim_deg)},
            {"per_zoom_percent", number(effort.per_zoom_percent)},
            {"per_height_m", number(effort.per_height_m)},
            {"per_place_m", number(effort.per_place_m)},
            {"another_model", number(effort.another_model)},
            {"per_setting", number(effort.per_setting)},
            {"another_lamp", number(effort.another_lamp)}}},
          {"points", std::move(points)},
          {"withheld", std::move(withheld)},
          {"rules", std::move(rules)},
          {"may_change", std::move(may_change)}};
}

}  // namespace belvedere::cli
