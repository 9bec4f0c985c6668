// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere size: what carries the pictures, powers the cameras and keeps the recordings, what that
// is to buy, where any of it falls short, and what falls when a part fails.
#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "cli/failures_output.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/size_output.h"
#include "cli/terminal.h"
#include "requirements/prove.h"
#include "services/findings.h"
#include "services/schedules.h"
#include "services/workbook.h"

namespace belvedere::cli {

namespace {
struct Options {
  Input input;
  bool prove = false, failures = false;
  std::string schedules, network;
  bool force = false;
  proof::ProveOptions proving;
};

// Asked for before anything is computed, so that a slip is said at once.
std::optional<services::AddressRule> addressRule(const Options& options) {
  if (options.network.empty()) return {};
  const auto rule = services::addressRuleOf(options.network);
  if (!rule)
    throw CallError("\"" + options.network +
                    "\" is no network; write it as 10.20.0.0/24, its length from 8 to 30");
  return rule;
}

// The files' names do not hang on what is in them.
void checkSchedules(const Options& options) {
  namespace fs = std::filesystem;
  std::error_code error;
  fs::create_directories(options.schedules, error);
  if (error || !fs::is_directory(options.schedules, error))
    throw CallError(fmt::format("\"{}\" cannot be made a folder", printable(options.schedules)));
  for (const fs::path& file : services::scheduleFiles(services::schedulesOf({}, {}, {}),
                                                      options.schedules)) {
    std::error_code ignored;
    if (fs::exists(file, ignored) && !options.force)
      throw CallError(fmt::format("{} is there already; --force replaces it",
                                  printable(file.string())));
    checkWritable(file);
  }
}

void write(const Loaded& loaded, const services::Sizes& sizes,
           const std::optional<services::AddressRule>& addresses, const Options& options) {
  const std::string& folder = options.schedules;
  std::vector<services::Schedule> schedules;
  try {
    schedules = services::schedulesOf(loaded.design, sizes, addresses);
  } catch (const InputError& error) {  // of the design's parts: it knows no file
    throw InputError(error.problems(), options.input.design);
  }
  try {
    services::writeSchedules(schedules, loaded.design.title, folder);
  } catch (const std::system_error& failed) {  // what() begins with the file
    throw CallError(fmt::format("a schedule cannot be written: {}", printable(failed.what())));
  }
}

int run(const Options& options) {
  const std::optional<services::AddressRule> addresses = addressRule(options);
  if (addresses && options.schedules.empty())
    throw CallError("--network is for the address plan: add --schedules FOLDER");
  const Loaded loaded = load(options.input.design);
  if (!options.schedules.empty()) checkSchedules(options);
  const auto threads = limitedTo(options.proving.threads);
  const bool coverage = options.prove || options.failures;
  proof::ProveOptions proving = options.proving;
  proving.keep_settled = options.failures;
  const requirements::Answer answer =
      requirements::size(loaded.design, loaded.folder, coverage, proving, runProgress());
  std::optional<requirements::Failures> failures;
  if (options.failures)
    failures = requirements::failuresOf(loaded.design, loaded.folder, answer, proving,
                                        runProgress());
  clearProgressBar();
  const services::Sizes& sizes = *answer.sizes;
  const std::vector<Finding> findings = services::findingsOf(loaded.design, sizes, answer.seen);
  if (!options.schedules.empty()) write(loaded, sizes, addresses, options);
  if (!options.input.jsonOnly()) {
    std::string text = sizeText(loaded, sizes, answer.seen, findings, coverage);
    if (failures) text += failuresText(loaded.design, answer, *failures);
    text += cautionText();
    if (!options.schedules.empty())
      text += wrapped(fmt::format("wrote schedules of cameras, cables, addresses and the bill into {}",
                                  printable(options.schedules)), 0, 2);
    printOut(text);
  }
  if (!options.input.json.empty()) {
    Json json = sizeJson(loaded, sizes, answer.seen, findings);
    if (failures) json["failures"] = failuresJson(*failures);
    writeJson(json, options.input.json);
  }
  const bool short_of = std::ranges::any_of(
      findings, [](const Finding& f) { return f.severity == Severity::shortfall; });
  return short_of ? kFallsShort : kAllMet;
}
}  // namespace

CLI::App* addSize(CLI::App& app, std::function<int()>& run_later) {
  CLI::App* command = app.add_subcommand(
      "size", "power, network, recording, analytics, surroundings, bill: what falls short");
  const auto options = std::make_shared<Options>();
  options->proving.blind_zones = false;
  command->footer(
      "  belvedere size design.json\n"
      "      what every part draws, carries, keeps and costs, and where that is too much\n"
      "  belvedere size design.json --prove\n"
      "      coverage is proven first: how long a requirement's pictures are kept, and how many a\n"
      "      second, is then asked of the cameras that serve it, not of all\n"
      "  belvedere size design.json --failures\n"
      "      which requirements fall when a part fails, and how long cards bridge it; worst first\n"
      "  belvedere size design.json --schedules out --network 10.20.0.0/24\n"
      "      cameras, cables and addresses as CSV files and as one workbook in the folder out\n"
      "  belvedere size design.json --json size.json\n"
      "      every figure as one JSON object beside the text");
  addInput(*command, options->input, [options, &run_later] {
    run_later = [options] { return answered(options->input, [&] { return run(*options); }); };
  });
  command->add_flag("--prove", options->prove, "prove coverage first, and go by who serves what");
  command->add_flag("--failures", options->failures,
                    "what falls when a part fails; proves coverage first");
  command->add_option("--schedules", options->schedules,
                      "write schedules of cameras, cables and addresses into FOLDER")
      ->type_name("FOLDER");
  command->add_option("--network", options->network,
                      "addresses for the plan from this network, in the order of the design; what the "
                      "design states (a device's setting \"address\") stays")
      ->type_name("NETWORK");
  command->add_flag("--force", options->force, "replace schedules that are there");
  addThreads(*command, options->proving.threads);
  return command;
}

}  // namespace belvedere::cli
