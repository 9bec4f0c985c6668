// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere services: what carries the pictures, powers the cameras and keeps the recordings, and
// where any of it falls short.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/services_output.h"
#include "cli/terminal.h"
#include "proof/rules.h"
#include "services/findings.h"

namespace belvedere::cli {

namespace {
struct Options {
  Input input;
  bool prove = false;
  proof::ProveOptions proving;
};

services::Seen seenOf(const Loaded& loaded, const Options& options) {
  services::Seen seen;
  const auto threads = limitedTo(options.proving.threads);
  for (const proof::RuleSight& sight :
       proof::ruleSights(loaded.design, loaded.folder, options.proving, runProgress()))
    seen.rules.push_back({sight.requirement, sight.imagers_asked, sight.imagers});
  if (!options.prove) return seen;
  const proof::Proof proof =
      proof::prove(loaded.design, loaded.folder, options.proving, runProgress());
  for (const proof::RequirementProof& row : proof.requirements) {
    if (row.kind != design::RequirementKind::see || !row.without.empty()) continue;
    auto at = std::ranges::find(seen.served, row.requirement, &services::ServedBy::requirement);
    if (at == seen.served.end())
      at = seen.served.insert(at, services::ServedBy{row.requirement, {}});
    for (const proof::Contribution& one : row.imagers)
      if (std::ranges::find(at->imagers, one.imager) == at->imagers.end())
        at->imagers.push_back(one.imager);
  }
  return seen;
}

int run(const Options& options) {
  const Loaded loaded = load(options.input.design);
  const services::Seen seen = seenOf(loaded, options);
  const services::Sizes sizes = services::sizesOf(loaded.design, seen, runProgress());
  clearProgressBar();
  const std::vector<Finding> findings = services::findingsOf(loaded.design, sizes, seen);
  if (!options.input.jsonOnly())
    printOut(servicesText(loaded, sizes, seen, findings, options.prove));
  if (!options.input.json.empty())
    writeJson(servicesJson(loaded, sizes, seen, findings), options.input.json);
  const bool short_of = std::ranges::any_of(
      findings, [](const Finding& f) { return f.severity == Severity::shortfall; });
  return short_of ? kFallsShort : kAllMet;
}
}  // namespace

CLI::App* addServices(CLI::App& app, std::function<int()>& run_later) {
  CLI::App* command = app.add_subcommand(
      "services", "power, network, recording, analytics, surroundings: what falls short");
  const auto options = std::make_shared<Options>();
  options->proving.blind_zones = false;
  command->footer(
      "  belvedere services design.json\n"
      "      what every part draws, carries and keeps, and where that is too much\n"
      "  belvedere services design.json --prove\n"
      "      coverage is proven first: how long a requirement's pictures are kept, and how many a\n"
      "      second, is then asked of the cameras that serve it, not of all\n"
      "  belvedere services design.json --json sizes.json\n"
      "      every figure as one JSON object beside the text");
  addInput(*command, options->input, [options, &run_later] {
    run_later = [options] { return answered(options->input, [&] { return run(*options); }); };
  });
  command->add_flag("--prove", options->prove, "prove coverage first, and go by who serves what");
  addThreads(*command, options->proving.threads);
  return command;
}

}  // namespace belvedere::cli
