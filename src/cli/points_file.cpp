// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/points_file.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

#include <fmt/format.h>

#include "base/problem.h"
#include "cli/answer.h"
#include "design/attachment.h"

namespace belvedere::cli {

namespace {
using nlohmann::json;
constexpr std::size_t kMostBytes = 64'000'000;

std::vector<std::string> idsOf(const std::vector<design::Requirement>& list) {
  std::vector<std::string> ids;
  for (const auto& item : list) ids.push_back(item.id.text);
  return ids;
}

std::string hintOf(const std::string& word, const std::vector<std::string>& known) {
  const std::string text = knownOnes(word, known);  // "; did you mean ..."
  return text.substr(2);
}

std::optional<Vec2> placeOf(const json& point) {
  if (!point.contains("at")) return {};
  const json& at = point["at"];
  if (!at.is_array() || at.size() != 2 || !at[0].is_number() || !at[1].is_number()) return {};
  const Vec2 place{at[0].get<double>(), at[1].get<double>()};
  if (!std::isfinite(place.x) || !std::isfinite(place.y)) return {};
  return place;
}

std::optional<design::Situation> situationOf(const design::Design& design,
                                             const design::Requirement& requirement,
                                             const json& point, const std::string& where,
                                             std::vector<Problem>& problems) {
  const std::vector<design::Situation> situations =
      design::situationsOf(design, requirement);
  if (!point.contains("situation")) return situations.front();
  const std::string id =
      point["situation"].is_string() ? point["situation"].get<std::string>() : "";
  std::vector<std::string> known;
  for (const design::Situation& situation : design::situationsOf(design)) {
    if (situation.id.text == id) return situation;
    known.push_back(situation.id.text);
  }
  problems.push_back({"point_situation_unknown", where + "/situation",
                      fmt::format("\"{}\" is no situation of the design", id), hintOf(id, known)});
  return {};
}
}  // namespace

std::vector<AskedPoint> readPoints(const design::Design& design, const std::string& file) {
  const std::string text = design::readWholeFile(file, kMostBytes);
  const json list = json::parse(text, nullptr, false);
  if (!list.is_array())
    throw InputError({{"points_not_a_list", "", "the file is no JSON list of points",
                       "write [{\"requirement\": \"R1\", \"at\": [1.5, 2]}]"}}, file);
  std::vector<AskedPoint> points;
  std::vector<Problem> problems;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const json& point = list[i];
    const std::string where = fmt::format("/{}", i);
    if (!point.is_object()) {
      problems.push_back({"point_not_an_object", where, "a point is an object", ""});
      continue;
    }
    const auto word = point.find("requirement");
    const std::string id = word != point.end() && word->is_string() ? word->get<std::string>() : "";
    const design::Requirement* requirement =
        design::findRequirement(design, design::RequirementId{id});
    if (requirement == nullptr || requirement->zone.empty()) {
      problems.push_back({"point_requirement_unknown", where + "/requirement",
                          fmt::format("\"{}\" is no requirement that is judged over a zone", id),
                          hintOf(id, idsOf(design.brief))});
      continue;
    }
    const std::optional<Vec2> at = placeOf(point);
    if (!at)
      problems.push_back({"point_without_place", where + "/at",
                          "a point needs \"at\": two numbers, site metres", ""});
    auto situation = situationOf(design, *requirement, point, where, problems);
    if (at && situation) points.push_back({requirement, std::move(*situation), *at});
  }
  if (!problems.empty()) throw InputError(std::move(problems), file);
  return points;
}

}  // namespace belvedere::cli
