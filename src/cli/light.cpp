// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere light: what each imager has to see by in every situation, which lamps burn, where it is
// sharp, how even zones are lit, and when the sun stands in its picture.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <system_error>

#include <fmt/format.h>

#include "cli/command.h"
#include "cli/light_output.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/terminal.h"
#ifdef BELVEDERE_QT
#include "drawing/sun_chart.h"
#endif
#include "proof/judge.h"
#include "proof/light_findings.h"

namespace belvedere::cli {
namespace {

struct Options {
  Input input;
  std::string situation;
  bool pairing = false, sun = false;
  std::string chart_of, chart_file;
  bool force = false;
  int year = 2026;
};

LitAnswer litIn(const Loaded& loaded, const design::Situation& situation, bool pairing) {
  LitAnswer out{proof::litSituation(loaded.design, situation, loaded.folder, runProgress()), {}};
  if (pairing)
    for (const design::Housing& housing : loaded.design.housings)
      if (housing.life != design::Life::removed)
        if (auto best =
                proof::bestLamps(loaded.design, housing, situation, loaded.folder, runProgress()))
          out.pairings.push_back(std::move(*best));
  return out;
}

Sun sunOver(const Loaded& loaded, const Options& options) {
  if (!loaded.design.site.place)
    throw CallError("the site has no place, so that nobody can tell where the sun stands: give it "
                    "lat_deg, lon_deg and north_deg");
  Sun sun;
  sun.year = light::sunYear(*loaded.design.site.place, options.year);
  sun.situation = options.situation.empty() ? design::situationsOf(loaded.design).front()
                                            : situationOf(loaded.design, options.situation);
  const auto place = proof::makePlace(loaded.design, sun.situation, loaded.folder);
  sun.of = proof::sunOfImagers(loaded.design, *place, sun.year, runProgress(), options.chart_of);
  if (sun.of.empty() && !options.chart_of.empty()) {
    std::vector<std::string> known;
    for (const design::PosedImager& view : design::posedImagers(loaded.design, design::JudgedOn::captured))
      if (view.aim == 0) known.push_back(view.imager);
    throw CallError(fmt::format("the design has no imager \"{}\"{}", options.chart_of,
                                knownOnes(options.chart_of, known)));
  }
  sun.backlights =
      proof::backlights(loaded.design, loaded.folder, sun.year, runProgress(), options.chart_of, sun.situation.id);
  sun.chart = !options.chart_of.empty();
  return sun;
}

#ifdef BELVEDERE_QT
void drawChart(const Loaded& loaded, const Sun& sun, const Options& options) {
  try {
    drawing::writeSunSheet(drawing::sunSheet(loaded.design, options.chart_of, sun.situation, sun.year, sun.of,
                                             sun.backlights), options.chart_file);
  } catch (const std::system_error& error) {  // what() begins with the file
    throw CallError(fmt::format("the chart cannot be written: {}", printable(error.what())));
  }
}

void checkChart(const Options& options) {
  if (options.chart_file.empty()) return;
  if (options.chart_of.empty())
    throw CallError("--chart draws the year of one imager: name it with --imager");
  const std::filesystem::path file(options.chart_file);
  if (file.extension() != ".svg" && file.extension() != ".pdf" && file.extension() != ".png")
    throw CallError("--chart names a file that ends in .svg, .pdf or .png");
  std::error_code ignored;
  if (std::filesystem::exists(file, ignored) && !options.force)
    throw CallError(fmt::format("{} is there already; --force replaces it", printable(file.string())));
  checkWritable(file);
}
#endif

int light(const Options& options) {
#ifdef BELVEDERE_QT
  checkChart(options);
#endif
  const Loaded loaded = load(options.input.design);
  showProgressBar();
  const std::vector<design::Situation> situations =
      options.situation.empty() ? design::situationsOf(loaded.design)
                                : std::vector{situationOf(loaded.design, options.situation)};
  LightAnswer answer;
  for (const design::Situation& situation : situations) {
    runProgress().throwIfCancelled();
    answer.situations.push_back(litIn(loaded, situation, options.pairing));
  }
  if (options.sun || !options.chart_of.empty()) answer.sun = sunOver(loaded, options);
#ifdef BELVEDERE_QT
  if (!options.chart_file.empty()) drawChart(loaded, *answer.sun, options);
#endif
  answer.findings = proof::lightFindings(loaded.design, loaded.folder, runProgress(), {options.situation});
  if (answer.sun)
    for (Finding& finding : proof::timeZoneFindings(loaded.design, answer.sun->year.year))
      answer.findings.push_back(std::move(finding));
  clearProgressBar();
  if (!options.input.jsonOnly()) {
    printOut(lightText(loaded, answer));
    if (!options.chart_file.empty())
      printOut(wrapped(fmt::format("wrote {}: the year of sun of {}", printable(options.chart_file),
                                   printable(options.chart_of)), 0, 4));
  }
  if (!options.input.json.empty()) writeJson(lightJson(loaded, answer), options.input.json);
  return kAllMet;
}

}  // namespace

CLI::App* addLight(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "light", "what each imager has to see by: lamps, day and night, sharpness, sun");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere light design.json\n"
      "      every situation: who is in mono, which lamps burn, where each imager is sharp\n"
      "  belvedere light design.json --situation night --pairing\n"
      "      and which lamp had best follow which imager\n"
      "  belvedere light design.json --sun --imager C1.2\n"
      "      when in a year the sun stands in or near its picture, day by hour\n"
      "  belvedere light design.json --imager C1.2 --chart sun.pdf\n"
      "      the same as a drawing on A4");
  addInput(*command, options->input, [options, &run] {
    run = [options] { return answered(options->input, [&] { return light(*options); }); };
  });
  command->add_option("--situation", options->situation, "this situation, by id")->type_name("ID");
  command->add_flag("--pairing", options->pairing,
                    "try every pairing of lamps and imagers on the brief");
  command->add_flag("--sun", options->sun, "hours of the sun in and near each picture, and low behind the faces of the brief");
  command->add_option("--imager", options->chart_of, "the sun's year for this imager, as a chart")
      ->type_name("C1.2");
#ifdef BELVEDERE_QT
  command
      ->add_option("--chart", options->chart_file,
                   "draw that chart: SVG, PDF or PNG by its ending")
      ->type_name("FILE");
  command->add_flag("--force", options->force, "replace a file that is there");
#endif
  command->add_option("--year", options->year, "for the sun: 2026 unless said")
      ->type_name("YEAR")
      ->check(CLI::Range(1900, 2200));
  return command;
}

}  // namespace belvedere::cli
