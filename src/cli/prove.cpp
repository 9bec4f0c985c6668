// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere prove: requirement by requirement and situation by situation.
#include "proof/prove.h"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/preview_output.h"
#include "cli/proof_output.h"
#include "cli/option_values.h"
#include "cli/terminal.h"
#include "proof/sun_findings.h"
#include "requirements/prove.h"

namespace belvedere::cli {

namespace {
struct Options {
  Input input;
  std::vector<std::string> only;
  bool no_spots = false, quiet = false, preview = false;
  double preview_ms = 100;
  proof::ProveOptions prove;
};

// What would keep each withheld zone that is not kept.
std::vector<std::vector<proof::Keep>> keepsOf(const Loaded& loaded, const proof::Proof& proof) {
  std::vector<std::vector<proof::Keep>> keeps(proof.requirements.size());
  for (std::size_t i = 0; i < keeps.size(); ++i) {
    const proof::RequirementProof& row = proof.requirements[i];
    if (row.kind != design::RequirementKind::withhold || row.verdict == proof::Verdict::met ||
        !row.without.empty())
      continue;
    const design::Situation situation = situationOf(loaded.design, row.situation.text);
    const proof::Question question =
        proof::makeQuestion(loaded.design, requirementOf(loaded.design, row.requirement.text),
                            situation, proof::makePlace(loaded.design, situation, loaded.folder));
    keeps[i] = proof::whatKeeps(loaded.design, question, runProgress());
  }
  return keeps;
}

// A preview proves nothing, so that it never ends with 0.
int preview(const Options& options, const Loaded& loaded) {
  const auto threads = limitedTo(options.prove.threads);
  const std::vector<proof::Preview> previews =
      proof::previews(loaded.design, loaded.folder, options.prove.only,
                      {options.preview_ms, std::nullopt}, runProgress());
  clearProgressBar();
  if (!options.input.jsonOnly())
    printOut(options.quiet ? previewLines(previews)
                           : previewText(loaded, previews, options.preview_ms));
  if (!options.input.json.empty())
    writeJson(previewJson(loaded, previews, options.preview_ms), options.input.json);
  return kFallsShort;
}

int prove(Options& options) {
  const Loaded loaded = load(options.input.design);
  for (const std::string& id : options.only)
    options.prove.only.push_back(requirementOf(loaded.design, id).id);
  options.prove.spots = !options.no_spots;
  if (!options.quiet) showProgressBar();
  if (options.preview) return preview(options, loaded);
  Proven proven;
  proven.answer = requirements::prove(loaded.design, loaded.folder, options.prove, runProgress());
  if (options.only.empty() && !options.no_spots) {
    const std::vector<Finding> sun =
        proof::sunFindings(loaded.design, loaded.folder, runProgress());
    std::vector<Finding>& findings = proven.answer.proof.findings;
    findings.insert(findings.end(), sun.begin(), sun.end());
  }
  proven.keeps = keepsOf(loaded, proven.answer.proof);
  clearProgressBar();
  if (!options.input.jsonOnly())
    printOut(options.quiet ? proofLines(loaded.design, proven.answer) : proofText(loaded, proven));
  if (!options.input.json.empty()) writeJson(proofJson(loaded, proven), options.input.json);
  return requirements::allMet(loaded.design, proven.answer) ? kAllMet : kFallsShort;
}
}  // namespace

CLI::App* addProve(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "prove", "what share of each zone is served, between proven bounds, and why the rest is not");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere prove design.json\n"
      "      every requirement in every situation, for people\n"
      "  belvedere prove design.json --only R1,R4 --quiet\n"
      "      two requirements, a line a verdict\n"
      "  belvedere prove design.json --json proof.json\n"
      "      the same answer as data beside the text\n"
      "  belvedere prove design.json --preview\n"
      "      estimates in a moment, no proof");
  addInput(*command, options->input, [options, &run] {
    run = [options] { return answered(options->input, [&] { return prove(*options); }); };
  });
  command->add_option("--only", options->only, "these requirements, by id")
      ->type_name("R1,R2")
      ->delimiter(',');
  command->add_option("--width", options->prove.width,
                      "go on until the bounds are this near, a share: 0.002 unless said")
      ->type_name("SHARE")
      ->check(numberWithin(0.0, 1.0));
  command->add_option("--finest-m", options->prove.finest_m,
                      "smallest cell, m: 0.01 unless said; what is undecided there stays so")
      ->type_name("M")
      ->check(numberWithin(1e-4, 10.0));
  addThreads(*command, options->prove.threads);
  command->add_flag("--no-spots", options->no_spots,
                    "bounds and verdicts only: no reasons, no worst spots");
  command->add_flag("--quiet", options->quiet, "one line a verdict, no progress bar");
  command->add_flag("--preview", options->preview,
                    "estimates from points on a lattice, no proof; never ends with 0");
  command->add_option("--preview-ms", options->preview_ms,
                      "time for each requirement and situation of a preview: 100 unless said")
      ->type_name("MS")
      ->check(numberWithin(0.0, 600000.0));
  return command;
}

}  // namespace belvedere::cli
