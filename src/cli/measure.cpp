// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere measure: the rate of a sample clip, and that rate as evidence in a design.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>

#include <fmt/format.h>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "design/attachment.h"
#include "design/json_tree.h"
#include "design/read.h"
#include "design/splice.h"
#include "design/write.h"
#include "services/clip.h"
#include "services/streams.h"

namespace belvedere::cli {

namespace {
namespace fs = std::filesystem;

struct Options {
  std::string clip, design, stream, json;
};

Json figuresJson(const design::ClipFigures& f) {
  Json object{{"codec", f.codec}, {"size_px", {f.size_px[0], f.size_px[1]}},
              {"frames_per_s", number(f.frames_per_s)}, {"seconds", number(f.seconds)},
              {"mean_mbps", number(f.mean_mbps)}};
  if (f.p95_mbps) object["p95_mbps"] = number(*f.p95_mbps);
  if (f.gop_frames) object["gop_frames"] = number(*f.gop_frames);
  return object;
}

std::string figuresText(const design::ClipFigures& f) {
  return wrapped(fmt::format("{} {} x {}, {:.2f} frames a second, {:.1f} s", printable(f.codec),
                             f.size_px[0], f.size_px[1], f.frames_per_s, f.seconds), 2, 4) +
         wrapped(fmt::format("mean {:.3f} Mbit/s{}{}", f.mean_mbps,
                             f.p95_mbps ? fmt::format(", 95 of a hundred seconds up to {:.3f}",
                                                      *f.p95_mbps)
                                        : "",
                             f.gop_frames ? fmt::format(", a key frame every {:g} frames at most",
                                                        *f.gop_frames)
                                          : ""), 2, 4);
}

// The clip's way from the design's folder; InputError where it lies outside.
std::string wayTo(const std::string& clip, const std::string& design) {
  const fs::path folder = fs::weakly_canonical(fs::absolute(design).parent_path());
  const fs::path way = fs::weakly_canonical(fs::absolute(clip)).lexically_relative(folder);
  if (way.empty() || *way.begin() == "..")
    throw InputError({{"clip_outside", "", "the clip does not lie beside the design",
                       "put it into the design's folder"}}, clip);
  return way.generic_string();
}

// One piece of evidence, the rest of the file as it was laid out; where the text read back is not the
// design that was meant, the whole in the program's own layout.
void save(design::DesignFile& file, std::size_t changed, const std::string& path) {
  const fs::path folder = fs::absolute(path).parent_path();
  const std::string whole = design::writeDesign(file);
  // What is saved can be read: ids are unique, the clip is where the design says.
  design::readDesignText(whole, folder);
  const std::string before = design::readWholeFile(path, design::kMostBytes);
  const auto item = design::listItem(whole, "evidence", changed);
  const auto spliced =
      item && design::sha256OfText(before) == file.sha256
          ? design::withListItem(before, "evidence", changed, *item)
          : std::nullopt;
  if (spliced) try {
      if (design::readDesignText(*spliced, folder).design == file.design)
        return design::saveText(*spliced, path);
    } catch (const InputError&) {
    }
  design::saveDesign(file, path);
}

void keep(const Options& options, const design::ClipFigures& figures) {
  design::DesignFile file = design::readDesign(options.design);
  const std::string way = wayTo(options.clip, options.design);
  std::vector<std::string> streams;
  for (const design::Housing& housing : file.design.housings)
    for (const design::Stream& stream : housing.streams) streams.push_back(stream.id.text);
  if (std::ranges::find(streams, options.stream) == streams.end())
    throw CallError(fmt::format("the design has no stream \"{}\"{}", printable(options.stream),
                                knownOnes(options.stream, streams)));
  // A clip of that stream is replaced; beside it, what was estimated stays to be seen.
  std::vector<design::Evidence>& list = file.design.evidence;
  auto at = std::ranges::find_if(list, [&](const design::Evidence& e) {
    return e.kind == "clip" && e.of.text == options.stream;
  });
  if (at == list.end()) {
    design::Evidence evidence;
    evidence.kind = "clip";
    evidence.of = {options.stream};
    evidence.id = {"clip_" + options.stream};
    at = list.insert(list.end(), evidence);
  }
  const std::optional<std::string> sha256 = design::sha256OfFile(options.clip);
  if (!sha256) throw CallError(fmt::format("cannot read {} again", printable(options.clip)));
  at->file = {way, *sha256};
  at->clip = figures;
  save(file, static_cast<std::size_t>(at - list.begin()), options.design);
  const auto rates = services::streamRates(file.design);
  for (const services::StreamRate& rate : rates)
    if (rate.stream.text == options.stream)
      printOut(wrapped(fmt::format("kept as evidence of {} in {}: {:.3f} Mbit/s are stored, links are "
                                   "sized for {:.3f}", options.stream, options.design,
                                   rate.mean_mbps.typical, rate.peak_mbps), 2, 4));
}

int measure(const Options& options) {
  try {
    const design::ClipFigures figures =
        services::measureClip(options.clip, services::ClipBounds{}, runProgress());
    if (options.json != "-") printOut(figuresText(figures));
    if (!options.design.empty()) keep(options, figures);
    if (!options.json.empty())
      writeJson({{"format", "belvedere.clip"}, {"version", 1}, {"clip", figuresJson(figures)}},
                options.json);
    return kAllMet;
  } catch (const InputError& error) {
    return reportProblems(error, options.json);
  }
}
}  // namespace

CLI::App* addMeasure(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "measure", "the bit rate of a sample clip; and as evidence of a stream in a design");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere measure yard-night.mp4\n"
      "      mean rate, 95th percentile over seconds, key frames, size, frame rate, codec\n"
      "  belvedere measure yard-night.mp4 --into design.json --stream c1_main\n"
      "      the same, kept in the design: what is measured wins over what is estimated");
  command->add_option("CLIP", options->clip, "a file that ffprobe reads, such as MP4 or MKV")
      ->required();
  CLI::Option* into =
      command->add_option("--into", options->design, "the design that keeps it")->type_name("DESIGN");
  command->add_option("--stream", options->stream, "the stream that it was recorded from, by id")
      ->type_name("ID")
      ->needs(into);
  const CLI::Option* json = addJson(*command, options->json);
  command->callback([json, options, &run] {
    settleJson(*json, options->json);
    if (!options->design.empty() && options->stream.empty())
      throw CallError("--into needs --stream: the stream that the clip was recorded from");
    if (!options->design.empty() && options->json == "-")
      throw CallError("--into says in words what it kept: give --json a file");
    run = [options] { return measure(*options); };
  });
  return command;
}

}  // namespace belvedere::cli
