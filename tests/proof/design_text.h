// SPDX-License-Identifier: GPL-3.0-or-later
//
// Designs written as text in a test and read by the reader, so that they are checked ones: one
// storey on a slab of 40 x 40 m around a room, and what the test puts into the lists.
#pragma once

#include <fmt/format.h>

#include <memory>
#include <string>

#include "design/read.h"
#include "design/write.h"
#include "proof/judge.h"

namespace belvedere::proof {

struct Parts {  // items of the lists, JSON, separated by commas
  std::string solids, zones, mounting, materials, situations, brief, models, housings, screens;
  std::string walls;
  double height_m = 3.2;
  std::string edition = "2014";
};

inline std::string designText(const Parts& p) {
  std::string text = R"({"format": "belvedere.design", "version": 1, "title": "A test",
    "task_table": {"edition": ")" + p.edition + R"("}, "site": {"buildings": [{"id": "b", "storeys":
    [{"id": "g", "height_m": )" + fmt::format("{}", p.height_m) + R"(,
      "outline": [[-20, -20], [20, -20], [20, 20], [-20, 20]])";
  const auto list = [](const char* key, const std::string& items) {
    return items.empty() ? std::string() : fmt::format(", \"{}\": [{}]", key, items);
  };
  text += list("walls", p.walls) + "}]}]" + list("solids", p.solids) + list("zones", p.zones) +
          list("mounting", p.mounting) + list("materials", p.materials) + "}";
  text += list("situations", p.situations) + list("brief", p.brief);
  text += fmt::format(", \"catalogue\": {{\"models\": [{}]}}", p.models);
  text += list("housings", p.housings);
  if (!p.screens.empty()) text += ", \"services\": {\"screens\": [" + p.screens + "]}";
  return text + "}";
}

inline std::string problemsOf(const InputError& error) {
  std::string all;
  for (const Problem& p : error.problems()) all += p.code + " " + p.where + ": " + p.what + "\n";
  return all;
}

inline design::Design readDesignOf(const Parts& parts) {
  try {
    return design::readDesignText(designText(parts), ".").design;
  } catch (const InputError& error) {
    throw std::runtime_error(problemsOf(error));
  }
}

// What the reader finds wrong with a design that was made or changed in memory; empty: nothing.
inline std::string problemsWith(const design::Design& changed) {
  design::DesignFile file;
  file.design = changed;
  try {
    design::readDesignText(design::writeDesign(file), ".");
    return {};
  } catch (const InputError& error) {
    return problemsOf(error);
  }
}

// The question of the first requirement in the first situation. `design` must outlive it.
inline Question questionOf(const design::Design& design, std::size_t requirement = 0) {
  const design::Situation situation = design::situationsOf(design).front();
  return makeQuestion(design, design.brief.at(requirement), situation,
                      makePlace(design, situation, "."));
}

// A prism on the storey, JSON.
inline std::string solidText(const std::string& id, const char* kind, const Ring& outline,
                             double base_m, double top_m) {
  std::string points;
  for (const Vec2 p : outline)
    points += fmt::format("{}[{:.6f}, {:.6f}]", points.empty() ? "" : ", ", p.x, p.y);
  return fmt::format(
      R"({{"id": "{}", "storey": "g", "kind": "{}", "outline": [{}], "base_m": {:.6f}, "top_m": {:.6f}}})",
      id, kind, points, base_m, top_m);
}

}  // namespace belvedere::proof
