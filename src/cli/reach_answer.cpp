// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/reach_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "cli/command.h"
#include "cli/page.h"
#include "design/words.h"
#include "optics/density.h"

namespace belvedere::cli {

namespace {
std::array<int, 2> pixelsOf(const std::string& text) {
  std::array<int, 2> pixels{};
  const char* end = text.data() + text.size();
  const auto width = std::from_chars(text.data(), end, pixels[0]);
  if (width.ec == std::errc() && width.ptr != end && (*width.ptr == 'x' || *width.ptr == 'X')) {
    const auto height = std::from_chars(width.ptr + 1, end, pixels[1]);
    if (height.ec == std::errc() && height.ptr == end && pixels[0] >= 16 && pixels[1] >= 16 &&
        pixels[0] <= 100'000 && pixels[1] <= 100'000)
      return pixels;
  }
  throw CallError(
      fmt::format("--pixels \"{}\" is no picture size; write width x height, such as "
                  "2592x1944",
                  printable(text)));
}

optics::LensFit lensOf(const ReachOptions& options, const std::array<int, 2>& pixels,
                       std::string& family) {
  const optics::FieldOfView stated{options.hfov_deg, options.vfov_deg, options.dfov_deg};
  family = options.family;
  if (family.empty()) family = options.vfov_deg || options.dfov_deg ? "fitted" : "rectilinear";
  std::optional<optics::LensFit> fit;
  if (family == "fitted") {
    fit = optics::fitFocalAndK(pixels, stated);
    if (!fit) throw CallError("a fitted lens needs --vfov or --dfov beside --hfov, all below 360");
    return *fit;
  }
  const std::optional<double> k = optics::familyK(family);
  if (!k) {
    std::vector<std::string> known{"fitted"};
    for (const std::string_view word : optics::familyWords()) known.emplace_back(word);
    throw CallError(fmt::format("--family \"{}\" is no family of lenses (there are {}){}",
                                printable(family), fmt::join(known, ", "),
                                didYouMean(family, known)));
  }
  fit = optics::fitFocal(pixels, stated, *k);
  if (!fit)
    throw CallError(fmt::format("a {} lens does not reach {} deg; try --family equidistant", family,
                                options.hfov_deg));
  return *fit;
}

design::TaskScale scaleOf(const ReachOptions& options) {
  design::TaskTable table;
  table.edition = options.scale;
  const auto scale = design::taskScale(table);
  if (options.scale != "own" && scale) return *scale;
  std::vector<std::string> known;
  for (const design::TaskScale& each : design::builtInScales()) known.push_back(each.edition);
  throw CallError(fmt::format("--scale \"{}\" is no edition known here; there are {}",
                              printable(options.scale), fmt::join(known, " and ")));
}

design::TargetKind targetOf(const ReachOptions& options) {
  const auto& words = design::Words<design::TargetKind>::list;
  std::vector<std::string> known;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto kind = static_cast<design::TargetKind>(i);
    if (kind == design::TargetKind::custom) continue;
    if (words[i] == options.target) return kind;
    known.emplace_back(words[i]);
  }
  throw CallError(fmt::format("--target \"{}\" is no target (there are {}){}",
                              printable(options.target), fmt::join(known, ", "),
                              didYouMean(options.target, known)));
}
}  // namespace

ReachAnswer reachAnswer(const ReachOptions& options) {
  ReachAnswer answer;
  answer.pixels = pixelsOf(options.pixels);
  answer.fit = lensOf(options, answer.pixels, answer.family);
  answer.field = optics::fieldsOfView(answer.fit.lens, answer.pixels);
  answer.scale = scaleOf(options);
  answer.target = targetOf(options);
  design::Target target;
  target.kind = answer.target;
  answer.band_m = design::bandOf(target);
  if (options.tilt_deg && !options.height_m) throw CallError("--tilt needs --height");
  if (options.height_m)
    answer.lookout = optics::Lookout{answer.fit.lens, answer.pixels, *options.height_m,
                                     options.tilt_deg.value_or(0)};
  const double width_px = answer.pixels[0], hfov_deg = options.hfov_deg;
  for (const design::TaskLine& line : answer.scale.lines) {
    TaskReach reach;
    reach.line = line;
    reach.equidistant_m = optics::equidistantReachM(width_px, hfov_deg, line.px_per_m);
    if (hfov_deg < 180)
      reach.rectilinear_m = optics::rectilinearReachM(width_px, hfov_deg, line.px_per_m);
    reach.lens_m = answer.fit.lens.f_px / line.px_per_m;
    reach.width_m = optics::pictureWidthArcM(hfov_deg, reach.equidistant_m);
    reach.person_percent = design::percentOfHeight(line.px_per_m, answer.pixels[1]);
    if (answer.lookout)
      reach.floor = optics::denseInFrame(*answer.lookout, answer.band_m, line.px_per_m);
    answer.tasks.push_back(std::move(reach));
  }
  if (answer.lookout) {
    std::vector<double> heights{0, 0.2, 1.45, 1.8, 1.85};  // floor; a person's and a face's ends
    for (const double end : answer.band_m) heights.push_back(end);
    std::sort(heights.begin(), heights.end());
    heights.erase(std::unique(heights.begin(), heights.end()), heights.end());
    for (const double height : heights)
      answer.heights.push_back({height, optics::inFrame(*answer.lookout, height)});
  }
  for (const double distance : options.widths_at_m)
    answer.widths.push_back({distance, optics::pictureWidthArcM(hfov_deg, distance),
                             optics::pictureWidthFlatM(hfov_deg, distance)});
  return answer;
}

}  // namespace belvedere::cli
