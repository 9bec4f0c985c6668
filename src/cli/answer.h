// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the commands share on the way in (a design file, --json) and on the way out (problems,
// findings, JSON objects as docs/json.md and schema/ describe them).
#pragma once

#include <filesystem>
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/finding.h"
#include "base/problem.h"
#include "design/design.h"
#include "geometry/polygon.h"

namespace CLI {
class App;
}

namespace belvedere::cli {

using Json = nlohmann::ordered_json;

// A command's DESIGN and its --json [FILE].
struct Input {
  std::string design;       // the file
  std::string json;         // "" not asked for, "-" to stdout, or a file
  bool jsonOnly() const { return json == "-"; }  // then no text goes to stdout
};
// Adds both to a command. `then` runs once they are settled: after the parsing of the command.
void addInput(CLI::App& command, Input& input, std::function<void()> then);

struct Loaded {
  design::Design design;
  std::filesystem::path folder;  // where attachments lie
  std::string sha256;            // of the file's bytes
};
// Throws InputError with all problems of the file.
Loaded load(const std::string& file);

// Runs `answer`; of an InputError that it throws, prints the problems (and writes them as JSON,
// where JSON was asked for) and returns the exit code.
int answered(const Input& input, const std::function<int()>& answer);
int reportProblems(const InputError& error, const std::string& json_to);

// Writes the object, ended by a newline. to: "-" or a file; "" does nothing.
void writeJson(const Json& object, const std::string& to);

// A number as it goes into JSON: rounded to a millionth, so that the last bits, which may differ
// between machines, do not show; null when it is not finite.
Json number(double value);
Json numbers(Vec2 v);
Json numbers(const Vec3& v);
Json outlineJson(const Region& region);   // [{"outer":[[x,y],...],"holes":[...]}]
Json findingsJson(const std::vector<Finding>& findings);
Json designJson(const Loaded& loaded);

// A paragraph a finding; those that differ only in whom they are about are said once, for all.
std::string findingsText(const std::vector<Finding>& findings);

// "; did you mean "x"?", or nothing.
std::string didYouMean(const std::string& word, const std::vector<std::string>& known);

// What there is instead of an unknown id: "; did you mean "R1"? It has R1, R2, R3 and 7 more",
// nearest first.
std::string knownOnes(const std::string& word, const std::vector<std::string>& known);

// The requirement, situation or housing of that id; CallError with those that there are where the
// design has none.
const design::Requirement& requirementOf(const design::Design& design, const std::string& id);
design::Situation situationOf(const design::Design& design, const std::string& id);
// One in which the requirement must hold; CallError with those in which it must.
design::Situation situationOf(const design::Design& design, const design::Requirement& requirement,
                              const std::string& id);
const design::Housing& housingOf(const design::Design& design, const std::string& id);

}  // namespace belvedere::cli
