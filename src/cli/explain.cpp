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
#include "cli/option_values.h"
#include "cli/page.h"
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
                                 const Options& options, bool changes,
                                 const Progress& progress) {
  proof::SpotExplanation spot = proof::explainSpot(loaded.design, question, at);
  // Nobody wants a withheld zone served: whatKeeps answers for it.
  if (!changes || question.requirement->kind == design::RequirementKind::withhold) return spot;
  spot.changes = proof::changesFor(loaded.design, question, spot, options.effort, progress);
  // What a change does to the brief takes a proof each: for whoever asks of one requirement.
  if (!options.requirement.empty())
    for (std::size_t i = 0; i < spot.changes.size(); ++i) {
      const Progress part = partOf(progress, i, spot.changes.size());
      proof::proveWithChange(loaded.design, *question.requirement, question.situation,
                             question.place, spot.changes[i], partOf(part, 0.0, 0.2));
      proof::weighChange(loaded.design, loaded.folder, spot.changes[i], partOf(part, 0.2, 1.0));
    }
  return spot;
}

// What keeps a withheld zone, and what each turn would cost the brief.
std::vector<proof::Keep> keepsOf(const Loaded& loaded, const proof::Question& question,
                                 const Options& options, const Progress& progress) {
  std::vector<proof::Keep> keeps = proof::whatKeeps(loaded.design, question, progress);
  if (options.requirement.empty()) return keeps;
  for (std::size_t i = 0; i < keeps.size(); ++i) {
    proof::Keep& keep = keeps[i];
    const auto view = std::find_if(question.views.begin(), question.views.end(),
                                   [&](const auto& v) { return v.imager == keep.imager; });
    if (!keep.turn_deg || view == question.views.end()) continue;
    proof::Change turn;
    turn.housing = view->housing;
    turn.slot = view->slot;
    turn.aim = view->aim;
    turn.pan_deg = *keep.turn_deg;
    proof::weighChange(loaded.design, loaded.folder, turn, partOf(progress, i, keeps.size()));
    keep.turn_falls = std::move(turn.loses);
  }
  return keeps;
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
      answer.points.push_back(explained(loaded, question, at, options, true, runProgress()));
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
  const proof::Proof proof =
      proof::prove(loaded.design, loaded.folder, prove, partOf(runProgress(), 0.0, 0.3));
  const Progress rest = partOf(runProgress(), 0.3, 1.0);
  Questions questions(loaded);
  for (std::size_t i = 0; i < proof.requirements.size(); ++i) {
    const proof::RequirementProof& row = proof.requirements[i];
    const Progress part = partOf(rest, i, proof.requirements.size());
    part.say(0, row.requirement.text);
    if (!row.without.empty() || !wanted(options, row.situation)) continue;
    const proof::Question& question =
        questions.of(requirementOf(loaded.design, row.requirement.text),
                     situationOf(loaded.design, row.situation.text));
    if (row.densest_px_per_m)
      answer.withheld.push_back({row, keepsOf(loaded, question, options, part)});
    else if (row.worst)
      answer.points.push_back(explained(loaded, question, row.worst->at.xy(), options, true, part));
  }
  if (answer.withheld.empty() && answer.points.empty())
    throw CallError(fmt::format("there is no spot to explain{}: what is asked for there has no "
                                "zone that stands",
                                options.situation.empty()
                                    ? ""
                                    : " in situation " + printable(options.situation)));
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
                                      point.at, options, options.changes,
                                      partOf(runProgress(), i, points.size())));
  }
}

// A rule has no spot of its own: who sees how much of its line or zone.
void explainRule(const Loaded& loaded, const Options& options, Explained& answer) {
  design::Design alone = loaded.design;
  std::erase_if(alone.brief, [&](const design::Requirement& r) { return r.id.text != options.requirement; });
  if (!options.situation.empty())
    alone.brief.front().situations = {design::SituationId{options.situation}};
  answer.rules = proof::ruleSights(alone, loaded.folder, options.prove, runProgress());
}

bool allKept(const design::Design& design, const Explained& answer) {
  return std::none_of(answer.rules.begin(), answer.rules.end(),
                      [](const proof::RuleSight& sight) {
                        return static_cast<int>(sight.imagers.size()) < sight.imagers_asked;
                      }) &&
         std::all_of(answer.points.begin(), answer.points.end(),
                     [&](const auto& point) { return asWanted(design, point); }) &&
         std::all_of(answer.withheld.begin(), answer.withheld.end(),
                     [](const auto& zone) { return zone.row.verdict == proof::Verdict::met; });
}

int explain(const Options& options) {
  const auto threads = limitedTo(options.prove.threads);
  const Loaded loaded = load(options.input.design);
  showProgressBar();
  Explained answer;
  answer.effort = options.effort;
  answer.changes = options.points.empty() || options.changes;
  const design::Requirement* asked =
      options.requirement.empty() ? nullptr : &requirementOf(loaded.design, options.requirement);
  const bool rule = asked && asked->kind == design::RequirementKind::rule;
  if (asked && !judged(*asked) && !rule)
    throw CallError(fmt::format("{} is an amount: \"belvedere size\" says what comes to it",
                                printable(options.requirement)));
  if (rule && !options.at.empty())
    throw CallError(fmt::format("{} is a rule: it is seen as a whole, leave out --at",
                                printable(options.requirement)));
  if (!options.situation.empty()) {
    if (options.requirement.empty())
      situationOf(loaded.design, options.situation);
    else
      situationOf(loaded.design, requirementOf(loaded.design, options.requirement),
                  options.situation);
  }
  if (rule)
    explainRule(loaded, options, answer);
  else if (!options.points.empty())
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
      ->expected(2)
      ->check(anyNumber());
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
        ->check(numberWithin(0.0, 1e9));
  };
  effort("--effort-aim", options->effort.per_aim_deg, "a degree of pan or tilt");
  effort("--effort-zoom", options->effort.per_zoom_percent, "a percent of focal length");
  effort("--effort-height", options->effort.per_height_m, "a metre up or down");
  effort("--effort-place", options->effort.per_place_m, "a metre along the mount");
  effort("--effort-model", options->effort.another_model, "another model of the catalogue");
  effort("--effort-setting", options->effort.per_setting,
         "a setting: mode, exposure, focus, whom a lamp follows");
  effort("--effort-lamp", options->effort.another_lamp, "a lamp more");
  addThreads(*command, options->prove.threads);
  return command;
}

}  // namespace belvedere::cli
