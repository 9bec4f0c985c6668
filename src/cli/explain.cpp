// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere explain: what fails at a spot, by how much, and the least change that would serve it.
#include "proof/explain.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/explain_output.h"
#include "cli/points_file.h"
#include "cli/terminal.h"

namespace belvedere::cli {

namespace {
struct Options {
  Input input;
  std::string requirement, situation, points;
  std::vector<double> at;
  bool may_change = false, changes = false;
  proof::Effort effort;
  proof::ProveOptions prove;
};

// Questions and the places they stand in, each made once.
class Questions {
 public:
  explicit Questions(const Loaded& loaded) : loaded_(loaded) {}
  const proof::Question& of(const design::Requirement& requirement,
                            const design::Situation& situation) {
    const std::pair key{requirement.id.text, situation.id.text};
    const auto found = questions_.find(key);
    if (found != questions_.end()) return found->second;
    auto& place = places_[situation.id.text];
    if (!place) place = proof::makePlace(loaded_.design, situation, loaded_.folder);
    return questions_
        .emplace(key, proof::makeQuestion(loaded_.design, requirement, situation, place))
        .first->second;
  }

 private:
  const Loaded& loaded_;
  std::map<std::string, std::shared_ptr<const proof::Place>> places_;
  std::map<std::pair<std::string, std::string>, proof::Question> questions_;
};

bool judged(const design::Requirement& requirement) {
  return requirement.kind == design::RequirementKind::see ||
         requirement.kind == design::RequirementKind::withhold;
}

bool wanted(const Options& options, const design::Requirement& requirement) {
  return judged(requirement) &&
         (options.requirement.empty() || requirement.id.text == options.requirement);
}

bool wanted(const Options& options, const design::SituationId& situation) {
  return options.situation.empty() || situation.text == options.situation;
}

// A spot and, where it is asked for, the changes that would serve it.
proof::SpotExplanation explained(const Loaded& loaded, const proof::Question& question, Vec2 at,
                                 const Options& options, bool changes) {
  proof::SpotExplanation spot = proof::explainSpot(loaded.design, question, at);
  // Nobody wants a withheld zone served: whatKeeps answers for it.
  if (!changes || question.requirement->kind == design::RequirementKind::withhold) return spot;
  spot.changes = proof::changesFor(loaded.design, question, spot, options.effort, runProgress());
  // What else a change does to the brief takes a proof each: for whoever asks of one requirement.
  if (!options.requirement.empty())
    for (proof::Change& change : spot.changes)
      proof::weighChange(loaded.design, loaded.folder, change, runProgress());
  return spot;
}

// One spot, for each requirement that is judged there (or the one that is named).
void explainPlace(const Loaded& loaded, const Options& options, Explained& answer) {
  const Vec2 at{options.at[0], options.at[1]};
  Questions questions(loaded);
  for (const design::Requirement& requirement : loaded.design.brief) {
    if (!wanted(options, requirement)) continue;
    for (const design::Situation& situation : design::situationsOf(loaded.design, requirement)) {
      if (!wanted(options, situation.id)) continue;
      const proof::Question& question = questions.of(requirement, situation);
      if (options.requirement.empty() && !contains(question.region, at)) continue;
      answer.points.push_back(explained(loaded, question, at, options, true));
    }
  }
  if (answer.points.empty())
    throw CallError("no requirement is judged at that spot in that situation; name one with "
                    "--requirement");
}

// The worst spot of each requirement in each situation, as prove names it; of a withheld zone, how
// densely it can be seen and what keeps it.
void explainWorst(const Loaded& loaded, const Options& options, Explained& answer) {
  proof::ProveOptions prove = options.prove;
  prove.blind_zones = false;
  prove.width = 1;  // the verdict is enough
  if (!options.requirement.empty()) prove.only = {design::RequirementId{options.requirement}};
  const proof::Proof proof = proof::prove(loaded.design, loaded.folder, prove, runProgress());
  Questions questions(loaded);
  for (const proof::RequirementProof& row : proof.requirements) {
    if (!row.without.empty() || !wanted(options, row.situation)) continue;
    const proof::Question& question =
        questions.of(requirementOf(loaded.design, row.requirement.text),
                     situationOf(loaded.design, row.situation.text));
    if (row.densest_px_per_m)
      answer.withheld.push_back({row, proof::whatKeeps(loaded.design, question, runProgress())});
    else if (row.worst)
      answer.points.push_back(explained(loaded, question, row.worst->at.xy(), options, true));
  }
}

// Many points: the judge alone, unless changes are asked for.
void explainPoints(const Loaded& loaded, const Options& options, Explained& answer) {
  const std::vector<AskedPoint> points = readPoints(loaded.design, options.points);
  Questions questions(loaded);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const AskedPoint& point = points[i];
    runProgress().throwIfCancelled();
    runProgress().say(static_cast<double>(i) / static_cast<double>(points.size()), "points");
    answer.points.push_back(explained(loaded, questions.of(*point.requirement, point.situation),
                                      point.at, options, options.changes));
  }
}

bool allKept(const design::Design& design, const Explained& answer) {
  return std::all_of(answer.points.begin(), answer.points.end(),
                     [&](const auto& point) { return asWanted(design, point); }) &&
         std::all_of(answer.withheld.begin(), answer.withheld.end(),
                     [](const auto& zone) { return zone.row.verdict == proof::Verdict::met; });
}

int explain(const Options& options) {
  const Loaded loaded = load(options.input.design);
  showProgressBar();
  Explained answer;
  answer.effort = options.effort;
  answer.changes = options.points.empty() || options.changes;
  if (!options.requirement.empty() && !judged(requirementOf(loaded.design, options.requirement)))
    throw CallError(fmt::format("{} is a rule or an amount: it has no spots to explain",
                                options.requirement));
  if (!options.situation.empty()) situationOf(loaded.design, options.situation);
  if (!options.points.empty())
    explainPoints(loaded, options, answer);
  else if (!options.at.empty())
    explainPlace(loaded, options, answer);
  else if (!options.may_change || !options.requirement.empty())
    explainWorst(loaded, options, answer);
  if (options.may_change)
    answer.may_change =
        proof::whatMayChange(loaded.design, loaded.folder, options.prove, runProgress());
  clearProgressBar();
  if (!options.input.jsonOnly()) printOut(explanationText(loaded.design, answer));
  if (!options.input.json.empty()) writeJson(explanationJson(loaded, answer), options.input.json);
  return allKept(loaded.design, answer) ? kAllMet : kFallsShort;
}
}  // namespace

CLI::App* addExplain(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "explain",
      "what fails at a spot, by how much, and the least single change that would serve it");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere explain design.json --requirement R1\n"
      "      the worst spot of R1 in each situation\n"
      "  belvedere explain design.json --requirement R1 --at 0.5,3 --situation open\n"
      "      one spot, site metres\n"
      "  belvedere explain design.json --may-change\n"
      "      how high stock and furniture may grow before a requirement falls");
  addInput(*command, options->input, [options, &run] {
    if (!options->points.empty() && (!options->at.empty() || !options->requirement.empty()))
      throw CallError(
          "--points says which requirements and spots: leave out --requirement and --at");
    run = [options] { return answered(options->input, [&] { return explain(*options); }); };
  });
  command->add_option("--requirement", options->requirement, "this requirement, by id")
      ->type_name("ID");
  command->add_option("--at", options->at, "this spot, site metres; its worst spot unless said")
      ->type_name("X,Y")
      ->delimiter(',')
      ->expected(2);
  command->add_option("--situation", options->situation, "this situation, by id; all unless said")
      ->type_name("ID");
  command
      ->add_option("--points", options->points,
                   "many spots: a JSON list of {\"requirement\", \"at\": [x, y], \"situation\"}; "
                   "changes are not looked for")
      ->type_name("FILE");
  command->add_flag("--changes", options->changes, "with --points, look for changes all the same");
  command->add_flag("--may-change", options->may_change,
                    "how high solids may grow before a requirement falls");
  const auto effort = [&](const char* name, double& value, const char* per) {
    command->add_option(name, value, fmt::format("effort of {}: {:g} unless said", per, value))
        ->type_name("E")
        ->check(CLI::Range(0.0, 1e9));
  };
  effort("--effort-aim", options->effort.per_aim_deg, "a degree of pan or tilt");
  effort("--effort-zoom", options->effort.per_zoom_percent, "a percent of focal length");
  effort("--effort-height", options->effort.per_height_m, "a metre up or down");
  effort("--effort-place", options->effort.per_place_m, "a metre along the mount");
  effort("--effort-model", options->effort.another_model, "another model of the catalogue");
  command->add_option("--threads", options->prove.threads, "threads to use")
      ->type_name("N")
      ->check(CLI::Range(0, 1024));
  return command;
}

}  // namespace belvedere::cli
