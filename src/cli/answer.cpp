// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/answer.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "design/read.h"

namespace belvedere::cli {

void addInput(CLI::App& command, Input& input, std::function<void()> then) {
  command.add_option("DESIGN", input.design, "the design file");
  const CLI::Option* json = addJson(command, input.json);
  command.callback([json, &input, then = std::move(then)] {
    // `--json design.json`: the only file there is, is the design.
    if (input.design.empty() && !input.json.empty() && input.json != "-")
      std::swap(input.design, input.json);
    if (input.design.empty()) throw CLI::RequiredError("DESIGN");
    std::error_code ignored;
    if (!input.json.empty() && input.json != "-" &&
        std::filesystem::equivalent(input.design, input.json, ignored))
      throw CallError("--json would write over the design itself");
    settleJson(*json, input.json);
    then();
  });
}

Loaded load(const std::string& file) {
  design::DesignFile read = design::readDesign(file);
  runProgress().throwIfCancelled();
  const std::filesystem::path parent = std::filesystem::path(file).parent_path();
  return {std::move(read.design), parent.empty() ? "." : parent, std::move(read.sha256)};
}

int answered(const Input& input, const std::function<int()>& answer) {
  try {
    return answer();
  } catch (const InputError& error) {
    return reportProblems(error, input.json);
  }
}

int reportProblems(const InputError& error, const std::string& json_to) {
  const std::size_t count = error.problems().size();
  std::string text = wrapped(
      fmt::format("{}: {} problem{}; nothing was computed.", printable(error.file()), count,
                  count == 1 ? "" : "s"), 0, 2);
  for (const Problem& problem : error.problems()) {
    text += '\n' + wrapped(fmt::format("{}  [{}]",
                                       problem.where.empty() ? "the file as a whole"
                                                             : printable(problem.where),
                                       problem.code), 2, 4);
    text += wrapped(printable(problem.what), 4, 4);
    if (!problem.hint.empty()) text += wrapped(printable(problem.hint), 4, 4);
  }
  printError(text);
  Json problems = Json::array();
  for (const Problem& problem : error.problems()) {
    Json one{{"code", problem.code}, {"where", problem.where}, {"what", problem.what}};
    if (!problem.hint.empty()) one["hint"] = problem.hint;
    problems.push_back(std::move(one));
  }
  writeJson({{"format", "belvedere.problems"},
             {"version", 1},
             {"file", error.file()},
             {"problems", std::move(problems)}},
            json_to);
  return kInputIsWrong;
}

void writeJson(const Json& object, const std::string& to) {
  if (to.empty()) return;
  // Text that is no UTF-8 becomes U+FFFD: a problem may quote whatever a broken file holds.
  const std::string text = object.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
  if (to == "-") return printOut(text);
  // Beside it first, so that a run that ends here leaves the old file or the new one.
  // What is no ordinary file (/dev/null) is written to as it is.
  std::error_code unknown;
  const bool in_place = std::filesystem::exists(to, unknown) &&
                        !std::filesystem::is_regular_file(to, unknown);
  const std::string beside = in_place ? to : to + ".part";
  std::ofstream file(beside, std::ios::binary);
  file << text;
  file.close();
  std::error_code error;
  if (file && !in_place) std::filesystem::rename(beside, to, error);
  if (!file || error) {
    std::error_code ignored;
    if (!in_place) std::filesystem::remove(beside, ignored);
    throw CallError(fmt::format("\"{}\" cannot be written", printable(to)));
  }
}

Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  constexpr double kSteps = 1e6;
  const double rounded = std::abs(value) < 1e9 ? std::round(value * kSteps) / kSteps : value;
  return rounded == 0 ? 0.0 : rounded;  // no minus zero
}

Json numbers(Vec2 v) { return Json::array({number(v.x), number(v.y)}); }
Json numbers(const Vec3& v) { return Json::array({number(v.x), number(v.y), number(v.z)}); }

namespace {
Json ringJson(const Ring& ring) {
  Json points = Json::array();
  for (const Vec2 p : ring) points.push_back(numbers(p));
  return points;
}
}  // namespace

Json outlineJson(const Region& region) {
  Json polygons = Json::array();
  for (const Polygon& polygon : region) {
    Json holes = Json::array();
    for (const Ring& hole : polygon.holes) holes.push_back(ringJson(hole));
    polygons.push_back({{"outer", ringJson(polygon.outer)}, {"holes", std::move(holes)}});
  }
  return polygons;
}

Json findingsJson(const std::vector<Finding>& findings) {
  const auto quantity = [](const Quantity& q) {
    return Json{{"value", number(q.value)}, {"unit", q.unit}};
  };
  Json list = Json::array();
  for (const Finding& finding : findings) {
    Json one{
        {"code", finding.code}, {"severity", word(finding.severity)}, {"about", finding.about}};
    if (finding.needed) one["needed"] = quantity(*finding.needed);
    if (finding.found) one["found"] = quantity(*finding.found);
    one["sentence"] = finding.sentence;
    one["handbook"] = finding.handbook;
    list.push_back(std::move(one));
  }
  return list;
}

Json designJson(const Loaded& loaded) {
  return {{"title", loaded.design.title}, {"sha256", loaded.sha256}};
}

namespace {
// A sentence with the id that it is about taken out: alike findings have the same.
std::string withoutSubject(const Finding& finding) {
  std::string text = finding.sentence;
  if (finding.about.empty() || finding.about.front().empty()) return text;
  const std::string& id = finding.about.front();
  for (std::size_t at = 0; (at = text.find(id, at)) != std::string::npos;) text.replace(at, id.size(), 1, '\0');
  return text;
}
}  // namespace

std::string findingsText(const std::vector<Finding>& findings) {
  using Key = std::tuple<std::string, Severity, std::vector<std::string>, std::string>;
  std::map<Key, std::vector<std::string>> alike;  // ids, the first of them said in full
  const auto keyOf = [](const Finding& f) {
    return Key{f.code, f.severity,
               f.about.empty() ? f.about : std::vector(f.about.begin() + 1, f.about.end()),
               withoutSubject(f)};
  };
  for (const Finding& finding : findings)
    alike[keyOf(finding)].push_back(finding.about.empty() ? "" : finding.about.front());
  std::string text;
  for (const Finding& finding : findings) {
    const auto row = alike.find(keyOf(finding));
    if (row == alike.end()) continue;  // said
    std::vector<std::string> others(row->second.begin() + 1, row->second.end());
    alike.erase(row);
    std::string about;
    for (const std::string& id : finding.about) about += (about.empty() ? "" : " ") + printable(id);
    text += wrapped(fmt::format("{} {} [{}]: {}{}", word(finding.severity), about, finding.code,
                                printable(finding.sentence),
                                others.empty() || others.front().empty()
                                    ? ""
                                    : " Likewise " + printable(idList(others)) + "."), 2, 4);
  }
  return text;
}

std::string didYouMean(const std::string& word, const std::vector<std::string>& known) {
  const std::string nearest = nearestWord(word, known);
  return nearest.empty() ? std::string() : fmt::format("; did you mean \"{}\"?", nearest);
}

std::string knownOnes(const std::string& word, const std::vector<std::string>& known) {
  constexpr std::size_t kMost = 12;
  if (known.empty()) return "; it has none";
  std::string text = didYouMean(word, known);
  text += text.empty() ? "; it has " : " It has ";
  const std::vector<std::string> near = nearestFirst(word, known);
  for (std::size_t i = 0; i < std::min(kMost, near.size()); ++i)
    text += (i == 0 ? "" : ", ") + cut(printable(near[i]), 40);
  if (near.size() > kMost) text += fmt::format(" and {} more", near.size() - kMost);
  return text;
}

namespace {
template <class List>
auto& named(const List& list, const std::string& id, const char* what) {
  std::vector<std::string> known;
  for (const auto& item : list) {
    if (item.id.text == id) return item;
    known.push_back(item.id.text);
  }
  throw CallError(fmt::format("the design has no {} \"{}\"{}", what, printable(id),
                              knownOnes(id, known)));
}
}  // namespace

const design::Requirement& requirementOf(const design::Design& design, const std::string& id) {
  return named(design.brief, id, "requirement");
}
design::Situation situationOf(const design::Design& design, const std::string& id) {
  const std::vector<design::Situation> situations = design::situationsOf(design);
  return named(situations, id, "situation");
}
design::Situation situationOf(const design::Design& design, const design::Requirement& requirement,
                              const std::string& id) {
  situationOf(design, id);
  std::vector<std::string> its;
  for (design::Situation& situation : design::situationsOf(design, requirement)) {
    if (situation.id.text == id) return std::move(situation);
    its.push_back(situation.id.text);
  }
  throw CallError(fmt::format("{} is not asked for in situation \"{}\", only in {}",
                              printable(requirement.id.text), printable(id),
                              printable(fmt::format("{}", fmt::join(its, ", ")))));
}
const design::Housing& housingOf(const design::Design& design, const std::string& id) {
  return named(design.housings, id, "camera");
}

}  // namespace belvedere::cli
