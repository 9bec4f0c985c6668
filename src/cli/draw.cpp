// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/draw.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <optional>
#include <system_error>

#include <fmt/format.h>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "design/resolve.h"
#include "drawing/make_sheet.h"
#include "drawing/sheet.h"
#include "requirements/prove.h"
#include "services/network.h"

namespace belvedere::cli {

namespace {

namespace fs = std::filesystem;

struct Options {
  std::string design, storey, situation, requirement, out;
  double dpi = 150;
  int threads = 0;
  bool force = false, services = false;
};

struct Choice {
  design::Situation situation;
  std::vector<const design::Storey*> storeys;
  const design::Requirement* selected = nullptr;
};

std::vector<const design::Storey*> storeysOf(const design::Design& design) {
  std::vector<const design::Storey*> storeys;
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys) storeys.push_back(&storey);
  return storeys;
}

const design::Storey& storeyOf(const design::Design& design, const std::string& id) {
  if (const design::Storey* storey = design::findStorey(design, design::StoreyId{id}))
    return *storey;
  std::vector<std::string> known;
  for (const design::Storey* storey : storeysOf(design)) known.push_back(storey->id.text);
  throw CallError(fmt::format("the design has no storey \"{}\"{}", printable(id),
                              knownOnes(id, known)));
}

Choice choiceOf(const design::Design& design, const Options& options) {
  Choice choice;
  if (!options.requirement.empty()) {
    choice.selected = &requirementOf(design, options.requirement);
    if (choice.selected->kind != design::RequirementKind::see &&
        choice.selected->kind != design::RequirementKind::withhold)
      throw CallError(fmt::format("{} asks for nothing to be seen: a plan has nothing to show of it",
                                  printable(options.requirement)));
  }
  if (!options.situation.empty()) {
    choice.situation = choice.selected
                           ? situationOf(design, *choice.selected, options.situation)
                           : situationOf(design, options.situation);
  } else {
    choice.situation = choice.selected ? design::situationsOf(design, *choice.selected).front()
                                       : design::situationsOf(design).front();
  }
  const design::Zone* zone =
      choice.selected ? design::findZone(design, choice.selected->zone) : nullptr;
  if (!options.storey.empty()) {
    choice.storeys = {&storeyOf(design, options.storey)};
    if (zone && zone->storey != choice.storeys.front()->id)
      throw CallError(fmt::format("{} is asked for on storey \"{}\"",
                                  printable(options.requirement), printable(zone->storey.text)));
  } else if (zone) {
    choice.storeys = {&storeyOf(design, zone->storey.text)};
  } else {
    choice.storeys = storeysOf(design);
  }
  if (choice.storeys.empty()) throw CallError("the design has no storey to draw");
  return choice;
}

// An id as a part of a file's name.
std::string fileWord(const std::string& id) {
  std::string word = id;
  for (char& c : word)
    if (std::string_view("/\\:*?\"<>| ").find(c) != std::string_view::npos || c < ' ') c = '_';
  return word;
}

std::vector<fs::path> filesOf(const Options& options, const Choice& choice) {
  fs::path out = options.out.empty() ? fs::path(options.design).stem() += ".svg"
                                     : fs::path(options.out);
  std::vector<fs::path> files;
  for (const design::Storey* storey : choice.storeys) {
    fs::path file = out;
    if (choice.storeys.size() > 1)
      file.replace_filename(out.stem().string() + '-' + fileWord(storey->id.text) +
                            out.extension().string());
    std::error_code ignored;
    if (fs::exists(file, ignored) && !options.force)
      throw CallError(fmt::format("{} is there already; --force replaces it",
                                  printable(file.string())));
    checkWritable(file);
    files.push_back(std::move(file));
  }
  return files;
}

int draw(const Options& options) {
  const auto threads = limitedTo(options.threads);
  const Loaded loaded = load(options.design);
  const Choice choice = choiceOf(loaded.design, options);
  const std::vector<fs::path> files = filesOf(options, choice);
  showProgressBar();
  proof::ProveOptions prove;
  prove.blind_zones = false;
  drawing::Sheet sheet;
  sheet.design = loaded.design;
  sheet.imagers = design::posedImagers(loaded.design, design::JudgedOn::captured);
  requirements::Answer answer =
      requirements::prove(loaded.design, loaded.folder, prove, runProgress());
  sheet.proof = std::move(answer.proof);
  for (requirements::Demand& demand : answer.demands)
    sheet.demands.push_back({demand.requirement, demand.verdict, std::move(demand.sentence)});
  std::optional<services::Network> network;
  if (options.services)
    network = services::networkOf(loaded.design, services::streamRates(loaded.design));
  sheet.situation = choice.situation.id;
  if (choice.selected) sheet.selected_requirement = choice.selected->id;
  sheet.close_up = choice.selected != nullptr;
  sheet.design_sha256 = loaded.sha256;
  const auto place = proof::makePlace(loaded.design, choice.situation, loaded.folder);
  std::string written;
  for (std::size_t i = 0; i < files.size(); ++i) {
    const design::Storey& storey = *choice.storeys[i];
    sheet.storey = storey.id;
    if (network) sheet.services = drawing::servicesOn(loaded.design, *network, storey);
    else drawing::takeSpots(sheet, place, runProgress());
    try {
      if (files[i].extension() == ".png") {
        drawing::writePng(sheet, files[i], options.dpi);
      } else if (files[i].extension() == ".pdf") {
        drawing::writePdf(sheet, files[i]);
      } else {
        drawing::writeSvg(sheet, files[i]);
      }
    } catch (const std::system_error& error) {  // what() begins with the file
      throw CallError(fmt::format("what was drawn cannot be written: {}", printable(error.what())));
    }
    written += wrapped(fmt::format("wrote {}: {}, {}, 1:{:g} on A3", printable(files[i].string()),
                                   printable(storey.title.empty() ? storey.id.text : storey.title),
                                   printable(choice.situation.title.empty()
                                                 ? choice.situation.id.text
                                                 : choice.situation.title),
                                   drawing::scaleOf(sheet)), 0, 4);
  }
  clearProgressBar();
  printOut(written);
  return kAllMet;
}

void checkOut(const Options& options) {
  if (options.services && !options.requirement.empty())
    throw CallError("--services draws whole storeys: leave --requirement out");
  if (options.out.empty()) return;
  const std::string extension = fs::path(options.out).extension().string();
  if (extension != ".svg" && extension != ".png" && extension != ".pdf")
    throw CallError("--out names a file that ends in .svg, .pdf or .png");
  std::error_code ignored;
  if (fs::equivalent(options.design, options.out, ignored))
    throw CallError("--out would write over the design itself");
}

}  // namespace

CLI::App* addDraw(CLI::App& app, std::function<int()>& run) {
  CLI::App* command =
      app.add_subcommand("draw", "a plan of each storey on A3: what is served, how well, and why not");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere draw design.json\n"
      "      design.svg in this folder; with several storeys, one file each\n"
      "  belvedere draw design.json --requirement R1 --out door.png --dpi 200\n"
      "      one requirement: its zone and the imagers that serve it, close up, as a picture\n"
      "  belvedere draw design.json --storey ground --situation night --out plan.svg --force\n"
      "      one storey in one situation, in place of a file that is there\n"
      "  belvedere draw design.json --services --out services.svg\n"
      "      cables along their ways with their lengths, risers, switches, recorders and supplies");
  command->add_option("DESIGN", options->design, "the design file")->required();
  command->add_option("--storey", options->storey, "this storey, by id")->type_name("ID");
  command
      ->add_option("--situation", options->situation,
                   "this situation, by id; the first one unless said")
      ->type_name("ID");
  command
      ->add_option("--requirement", options->requirement,
                   "show this one in its zone, in accent, with the imagers that serve it and what "
                   "is around them; else the whole storey, each zone with its first")
      ->type_name("ID");
  command->add_option("--out", options->out, "the file to write: SVG, PDF (A3, to scale) or PNG by its ending")
      ->type_name("FILE");
  command->add_option("--dpi", options->dpi, "of a PNG: 150 unless said")
      ->type_name("DPI")
      ->check(numberWithin(20.0, 1200.0));
  command->add_flag("--services", options->services,
                    "draw cables and devices in place of what is served");
  addThreads(*command, options->threads);
  command->add_flag("--force", options->force, "replace files that are there");
  command->callback([options, &run] {
    checkOut(*options);
    run = [options] { return draw(*options); };
  });
  return command;
}

}  // namespace belvedere::cli
