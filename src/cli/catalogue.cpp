// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere catalogue: lists, filters and compares models; tables for spreadsheets in and out.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "design/attachment.h"
#include "design/catalogue_table.h"
#include "design/read.h"
#include "design/words.h"
#include "design/write.h"
#include "services/sheets.h"

namespace belvedere::cli {

namespace {
namespace fs = std::filesystem;

struct Options {
  std::vector<std::string> files, tests, compare, properties;
  std::string csv, json;
};

struct Listed {
  std::vector<design::Model> models;
  std::vector<design::Properties> properties;  // of each
  std::vector<Problem> problems;               // of rows left out
};

constexpr std::size_t kMostFileBytes = 64u << 20;

std::vector<design::Model> modelsOf(const std::string& file, std::vector<Problem>& problems) {
  std::string ending = fs::path(file).extension().string();
  std::ranges::transform(ending, ending.begin(),
                         [](char c) { return static_cast<char>(c >= 'A' && c <= 'Z' ? c + 32 : c); });
  if (ending == ".csv" || ending == ".tsv") {
    try {
      design::CsvCatalogue read = design::readCatalogueCsv(design::readWholeFile(file, kMostFileBytes));
      for (Problem& p : read.problems) {
        if (!p.where.empty()) p.where = file + ": " + p.where;
        problems.push_back(std::move(p));
      }
      return read.models;
    } catch (const InputError& error) {
      throw InputError(error.problems(), file);
    }
  }
  // A design brings its own models and those of its catalogue files.
  const Json tree = Json::parse(design::readWholeFile(file, kMostFileBytes), nullptr, false);
  if (tree.is_object() && tree.contains("format") && tree["format"] == "belvedere.design") {
    const design::Design design = design::readDesign(file).design;
    std::vector<design::Model> models = design.catalogue.models;
    models.insert(models.end(), design.library.begin(), design.library.end());
    return models;
  }
  return design::readCatalogue(file);
}

Listed listedOf(const Options& options) {
  Listed listed;
  std::map<std::string, std::string> from;
  for (const std::string& file : options.files)
    for (design::Model& model : modelsOf(file, listed.problems)) {
      const auto [first, is_new] = from.try_emplace(model.id.text, file);
      if (!is_new)
        throw InputError({{"duplicate_id", "", fmt::format("the model \"{}\" is in {} already",
                                                           printable(model.id.text),
                                                           printable(first->second)),
                           "take it out of one of the files"}}, file);
      listed.models.push_back(std::move(model));
    }
  std::vector<design::PropertyTest> tests;
  for (const std::string& text : options.tests) {
    const auto test = design::propertyTest(text);
    if (!test)
      throw CallError(fmt::format("\"{}\" is no test of a property; write such as ports>=8, "
                                  "kind=switch, ip~66; what stands after < or > is a number", printable(text)));
    tests.push_back(*test);
  }
  std::vector<std::string> known;
  std::vector<design::Model> kept;
  for (design::Model& model : listed.models) {
    design::Properties properties = design::propertiesOf(model);
    for (const auto& [name, cell] : properties) known.push_back(name);
    if (!std::ranges::all_of(tests, [&](const design::PropertyTest& test) {
          return design::passes(properties, test);
        }))
      continue;
    kept.push_back(std::move(model));
    listed.properties.push_back(std::move(properties));
  }
  listed.models = std::move(kept);
  for (const design::PropertyTest& test : tests)
    if (std::ranges::none_of(known, [&](const std::string& name) {
          return design::namesProperty(name, test.property);
        })) {
      std::ranges::sort(known);
      known.erase(std::unique(known.begin(), known.end()), known.end());
      throw CallError(fmt::format("no model states a property \"{}\"{}", printable(test.property),
                                  knownOnes(test.property, known)));
    }
  return listed;
}

// All cells of a property, one after the other; a value that repeats is said once.
std::string cellsOf(const design::Properties& properties, const std::string& name) {
  std::vector<std::string> cells;
  for (const auto& [property, cell] : properties)
    if (design::namesProperty(property, name) &&
        std::ranges::find(cells, cell) == cells.end())
      cells.push_back(cell);
  return printable(fmt::format("{}", fmt::join(cells, "; ")));
}

std::string listText(const Listed& listed, const Options& options) {
  std::vector<std::string> columns = options.properties;
  if (columns.empty()) columns = {"kind", "title", "maker", "price"};
  Table table;
  table.align = "l";
  table.head = {"id"};
  for (const std::string& name : columns) {
    table.align += name == "price" ? 'r' : 'l';
    table.head.push_back(name);
  }
  if (options.properties.empty()) {
    table.align += "lllll";
    for (const char* name : {"imagers", "pixels", "deg across", "IP IK", "class"})
      table.head.push_back(name);
  }
  for (std::size_t i = 0; i < listed.models.size(); ++i) {
    const design::Model& model = listed.models[i];
    const design::Properties& p = listed.properties[i];
    std::vector<std::string> row{printable(model.id.text)};
    for (const std::string& name : columns)
      row.push_back(name == "kind" ? std::string(design::word(model.kind)) : cellsOf(p, name));
    if (options.properties.empty()) {
      row.push_back(model.imagers.empty() ? "" : fmt::format("{}", model.imagers.size()));
      row.push_back(cellsOf(p, "imagers/pixels"));
      row.push_back(cellsOf(p, "lens/hfov_deg"));
      row.push_back(cellsOf(p, "ratings/ip") + " " + cellsOf(p, "ratings/ik"));
      row.push_back(cellsOf(p, "poe_class"));
    }
    table.rows.push_back(std::move(row));
  }
  return table.text(2);
}

std::string compareText(const Listed& listed, const std::vector<std::string>& ids) {
  std::vector<std::size_t> chosen;
  std::vector<std::string> known;
  for (const design::Model& model : listed.models) known.push_back(model.id.text);
  for (const std::string& id : ids) {
    const auto at = std::ranges::find(known, id);
    if (at == known.end())
      throw CallError(fmt::format("there is no model \"{}\"{}", printable(id), knownOnes(id, known)));
    chosen.push_back(static_cast<std::size_t>(at - known.begin()));
  }
  std::vector<std::string> names;
  for (const std::size_t i : chosen)
    for (const auto& [name, cell] : listed.properties[i])
      if (std::ranges::find(names, name) == names.end()) names.push_back(name);
  Table table;
  table.align = "ll";
  table.head = {"", "property"};
  for (const std::size_t i : chosen) {
    table.align += 'l';
    table.head.push_back(printable(listed.models[i].id.text));
  }
  for (const std::string& name : names) {
    std::vector<std::string> cells;
    for (const std::size_t i : chosen) {
      const auto& p = listed.properties[i];
      const auto at = std::ranges::find(p, name, &std::pair<std::string, std::string>::first);
      cells.push_back(at == p.end() ? "-" : printable(at->second));
    }
    const bool differs = std::ranges::any_of(cells, [&](const std::string& c) { return c != cells[0]; });
    std::vector<std::string> row{differs ? "*" : "", name};
    row.insert(row.end(), cells.begin(), cells.end());
    if (name != "id") table.rows.push_back(std::move(row));
  }
  return wrapped("* differs; - not stated", 2, 2) + table.text(2);
}

void writeFile(const std::string& to, const std::string& text) {
  std::ofstream out(to, std::ios::binary);
  out << text;
  out.flush();
  if (!out) throw CallError(fmt::format("cannot write {}", printable(to)));
}

int catalogue(const Options& options) {
  try {
    if (!options.csv.empty() && options.csv != "-") checkWritable(options.csv);
    const Listed listed = listedOf(options);
    const bool quiet = options.json == "-" || options.csv == "-";
    if (!quiet) {
      std::string text = options.compare.empty() ? listText(listed, options)
                                                 : compareText(listed, options.compare);
      std::vector<design::Model> said;
      for (const design::Model& model : listed.models)
        if (options.compare.empty() ||
            std::ranges::find(options.compare, model.id.text) != options.compare.end())
          said.push_back(model);
      const std::vector<Finding> findings = services::sheetFindings(said);
      if (!findings.empty())
        text += heading("Where figures contradict each other, and what is used") +
                findingsText(findings);
      printOut(wrapped(fmt::format("{} models", listed.models.size()), 0, 0) + text);
    }
    if (options.csv == "-") printOut(design::catalogueCsv(listed.models));
    else if (!options.csv.empty()) writeFile(options.csv, design::catalogueCsv(listed.models));
    const std::string json = design::writeCatalogue("", listed.models);
    if (options.json == "-") printOut(json);
    else if (!options.json.empty()) writeFile(options.json, json);
    if (listed.problems.empty()) return kAllMet;
    // The good rows are kept; what was left out is said, and counts.
    std::string text = fmt::format("belvedere: {} problems; the rows at fault are left out\n",
                                   listed.problems.size());
    for (const Problem& p : listed.problems)
      text += wrapped(fmt::format("{}: {} [{}]{}", printable(p.where), printable(p.what), p.code,
                                  p.hint.empty() ? "" : "; " + printable(p.hint)), 2, 4);
    printError(text);
    return kInputIsWrong;
  } catch (const InputError& error) {
    return reportProblems(error, options.json);
  }
}
}  // namespace

CLI::App* addCatalogue(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "catalogue", "models: list, filter, compare; tables for spreadsheets in and out");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere catalogue makers.json\n"
      "      its models, and where their figures contradict each other\n"
      "  belvedere catalogue makers.json --where kind=housing --where 'ip~66' --where 'price<900'\n"
      "      those that pass every test of a property\n"
      "  belvedere catalogue makers.json --compare turret,bullet\n"
      "      two or more side by side\n"
      "  belvedere catalogue makers.json --csv makers.csv\n"
      "      as a table; belvedere catalogue makers.csv --json makers.json brings it back");
  command->add_option("FILE", options->files, "catalogues (JSON, CSV) or designs")->required();
  command
      ->add_option("--where", options->tests,
                   "a property, one of = != < <= > >= ~ (holds), a value; may be given several times")
      ->type_name("TEST");
  command->add_option("--compare", options->compare, "these models, by id, side by side")
      ->type_name("A,B")
      ->delimiter(',');
  command
      ->add_option("--show", options->properties, "these properties as columns of the list")
      ->type_name("NAME,NAME")
      ->delimiter(',');
  command->add_option("--csv", options->csv, "write the models as a table; - to the standard output")
      ->type_name("FILE");
  const CLI::Option* json = addJson(*command, options->json);
  command->callback([json, options, &run] {
    settleJson(*json, options->json);
    if (options->csv == "-" && options->json == "-")
      throw CallError("only one of --csv and --json can go to the standard output");
    run = [options] { return catalogue(*options); };
  });
  return command;
}

}  // namespace belvedere::cli
