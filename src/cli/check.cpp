// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere check: can this file be used, and what does it hold.
#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>

#include "cli/answer.h"
#include "cli/camera_table.h"
#include "cli/command.h"
#include "cli/lens_table.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "light/illuminance.h"
#include "proof/findings.h"
#include "proof/placing.h"
#include "services/sheets.h"

namespace belvedere::cli {

namespace {
struct Count {
  const char* what;
  std::size_t count;
};

std::vector<Count> countsOf(const design::Design& design) {
  std::size_t storeys = 0, walls = 0, imagers = 0;
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) {
      ++storeys;
      walls += storey.walls.size();
    }
  for (const design::Housing& housing : design.housings) imagers += housing.imagers.size();
  return {{"buildings", design.site.buildings.size()},
          {"storeys", storeys},
          {"walls", walls},
          {"solids", design.site.solids.size()},
          {"zones", design.site.zones.size()},
          {"situations", design::situationsOf(design).size()},
          {"requirements", design.brief.size()},
          {"cameras", design.housings.size()},
          {"imagers", imagers}};
}

// In the order in which the design first names them.
std::vector<design::Model> usedModels(const design::Design& design) {
  std::vector<design::Model> models;
  const auto use = [&](const design::ModelId& id) {
    const design::Model* model = design::findModel(design, id);
    if (model && std::ranges::find(models, id, &design::Model::id) == models.end())
      models.push_back(*model);
  };
  for (const design::Housing& housing : design.housings) use(housing.model);
  for (const design::Device& device : design.services.devices) use(device.model);
  return models;
}

// Throws InputError for a luminaire's photometry that cannot be used, named by a situation or not.
void readPhotometry(const Loaded& loaded) {
  design::Situation every;
  for (const design::Light& light : loaded.design.site.lights) every.lights.push_back(light.id);
  light::lightOf(loaded.design, every, loaded.folder);
}

int check(const Input& input) {
  const Loaded loaded = load(input.design);
  readPhotometry(loaded);
  std::vector<Finding> findings = proof::designFindings(loaded.design);
  // Of lenses the sheets say it imager by imager.
  std::erase_if(findings, [](const Finding& finding) { return finding.code == "lens_residual"; });
  const std::vector<Finding> sheets = services::sheetFindings(usedModels(loaded.design));
  findings.insert(findings.end(), sheets.begin(), sheets.end());
  const std::vector<Finding> placing = proof::placingFindings(loaded.design, loaded.folder);
  findings.insert(findings.end(), placing.begin(), placing.end());
  const std::vector<Count> counts = countsOf(loaded.design);
  if (!input.jsonOnly()) {
    std::string holds;
    for (const Count& one : counts)
      holds += fmt::format("{}{} {}", holds.empty() ? "" : ", ", one.what, one.count);
    std::string text = wrapped(printable(loaded.design.title), 0, 0) +
                       wrapped("no problems", 0, 0) + wrapped("sha256 " + loaded.sha256, 0, 0) +
                       wrapped("holds: " + holds, 0, 2);
    if (!findings.empty()) text += heading("Findings") + findingsText(findings);
    text += heading("Cameras, in the site's frame and in the housing's, degrees") +
            cameraTable(loaded.design);
    const std::string lenses = lensTable(loaded.design);
    if (!lenses.empty()) text += heading("Lenses, as fitted to their data sheets") + lenses;
    printOut(text);
  }
  if (!input.json.empty()) {
    Json holds = Json::object();
    for (const Count& one : counts) holds[one.what] = one.count;
    writeJson({{"format", "belvedere.check"},
               {"version", 1},
               {"design", designJson(loaded)},
               {"holds", std::move(holds)},
               {"imagers", cameraJson(loaded.design)},
               {"lenses", lensJson(loaded.design)},
               {"findings", findingsJson(findings)}},
              input.json);
  }
  return kAllMet;
}
}  // namespace

CLI::App* addCheck(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "check", "can this design be used: every problem at once, or what it holds");
  const auto input = std::make_shared<Input>();
  command->footer(
      "  belvedere check design.json\n"
      "      every problem with its place in the file, or \"no problems\" and what the file holds\n"
      "  belvedere check design.json --json\n"
      "      the same as one JSON object");
  addInput(*command, *input, [input, &run] {
    run = [input] { return answered(*input, [&] { return check(*input); }); };
  });
  return command;
}

}  // namespace belvedere::cli
