// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/reach.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "design/task_table.h"
#include "design/words.h"
#include "optics/density.h"
#include "optics/lens_fit.h"
#include "optics/reach.h"

namespace belvedere::cli {

namespace {
struct Options {
  std::string pixels, family, scale = "2014", target = "person", json;
  double hfov_deg = 0;
  std::optional<double> vfov_deg, dfov_deg, height_m, tilt_deg;
  std::vector<double> widths_at_m;
};

struct TaskReach {
  design::TaskLine line;
  std::optional<double> rectilinear_m;
  double equidistant_m = 0, lens_m = 0;  // slant, on the axis
  double width_m = 0;                    // of the picture there, both forms
  double person_percent = 0;             // of the picture's height, seen square on
  std::optional<optics::SeenStretch> floor;
};
struct HeightReach {
  double target_height_m = 0;
  std::optional<optics::SeenStretch> seen;
};
struct WidthAt {
  double distance_m = 0, arc_m = 0;
  std::optional<double> flat_m;
};
struct Answer {
  std::array<int, 2> pixels{};
  optics::FieldOfView field;
  std::string family;
  optics::LensFit fit;
  design::TaskScale scale;
  design::TargetKind target = design::TargetKind::person;
  design::Range band_m{};
  std::optional<optics::Lookout> lookout;
  std::vector<TaskReach> tasks;
  std::vector<HeightReach> heights;
  std::vector<WidthAt> widths;
};

// ---- what was asked for -------------------------------------------------------------------------

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

optics::LensFit lensOf(const Options& options, const std::array<int, 2>& pixels,
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

design::TaskScale scaleOf(const Options& options) {
  design::TaskTable table;
  table.edition = options.scale;
  const auto scale = design::taskScale(table);
  if (options.scale != "own" && scale) return *scale;
  std::vector<std::string> known;
  for (const design::TaskScale& each : design::builtInScales()) known.push_back(each.edition);
  throw CallError(fmt::format("--scale \"{}\" is no edition known here; there are {}",
                              printable(options.scale), fmt::join(known, " and ")));
}

design::TargetKind targetOf(const Options& options) {
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

// ---- the answer ---------------------------------------------------------------------------------

Answer answerOf(const Options& options) {
  Answer answer;
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

// ---- for people ---------------------------------------------------------------------------------

std::string metres(double value) { return fmt::format("{:.2f}", value); }
std::string fieldText(const std::optional<double>& deg) {
  return deg ? fmt::format("{:.1f}", *deg) : "-";
}

std::string lensText(const Answer& answer) {
  std::string text = wrapped(
      fmt::format(
          "{} x {} px, field of view {} deg across, {} deg upright, {} deg corner to corner; "
          "{} lens (F {:.1f} px, k {:.2f})",
          answer.pixels[0], answer.pixels[1], fieldText(answer.field.hfov_deg),
          fieldText(answer.field.vfov_deg), fieldText(answer.field.dfov_deg), answer.family,
          answer.fit.lens.f_px, answer.fit.lens.k),
      0, 2);
  const double residual = answer.fit.largest_residual_deg();
  if (residual >= 0.005)
    text +=
        wrapped(fmt::format("The stated fields of view contradict each other or the family: this "
                            "lens misses one by {:.2f} deg.",
                            residual),
                0, 2);
  text += wrapped(fmt::format("Densities after {}.", answer.scale.title), 0, 2);
  if (answer.scale.edition == "2025")
    text += wrapped("Figures from memory, unconfirmed.", 0, 2);
  else if (!answer.scale.note.empty())
    text += wrapped("Note: " + answer.scale.note + ".", 0, 2);
  return text;
}

std::string tasksText(const Answer& answer) {
  Table table;
  table.align = "lrrrrrr";
  table.head = {"", "needs", "arc", "flat", "this lens", "picture", "1.6 m person"};
  table.rows.push_back({"task", "px/m", "m", "m", "m", "wide m", "% of height"});
  for (const TaskReach& reach : answer.tasks)
    table.rows.push_back(
        {reach.line.task, fmt::format("{:g}", reach.line.px_per_m), metres(reach.equidistant_m),
         reach.rectilinear_m ? metres(*reach.rectilinear_m) : "-", metres(reach.lens_m),
         metres(reach.width_m), fmt::format("{:.1f}", reach.person_percent)});
  return heading("Reach on the axis, slant") + table.text(2) +
         wrapped(
             "arc: pixels / (field in radians x density), as data sheets of wide lenses reckon. "
             "flat: pixels / (2 tan(field / 2) x density), rectilinear. The person stands at the "
             "reach, seen square on.",
             2, 2);
}

std::string floorText(const Answer& answer) {
  const optics::Lookout& lookout = *answer.lookout;
  Table table;
  table.align = "lrrr";
  table.head = {"task", "px/m", "from m", "to m"};
  for (const TaskReach& reach : answer.tasks)
    table.rows.push_back({reach.line.task, fmt::format("{:g}", reach.line.px_per_m),
                          reach.floor ? metres(reach.floor->from_m) : "nowhere",
                          reach.floor ? metres(*reach.floor->to_m) : "nowhere"});
  const auto word =
      design::Words<design::TargetKind>::list[static_cast<std::size_t>(answer.target)];
  std::string text =
      heading(
          fmt::format("Stretch of floor for a {} ({:.2f} to {:.2f} m), whole in frame and dense "
                      "enough",
                      word, answer.band_m[0], answer.band_m[1])) +
      table.text(2) +
      wrapped(fmt::format("Lens at {:g} m, axis {:g} deg down; plan distance along the picture's "
                          "middle column, with this lens.",
                          lookout.height_m, lookout.tilt_deg),
              2, 2);
  if (const auto axis = optics::axisToFloorM(lookout))
    text += wrapped(fmt::format("The axis meets the floor after {:.2f} m, slant.", *axis), 2, 2);

  Table heights;
  heights.align = "rrr";
  heights.head = {"target height m", "blind to m", "seen to m"};
  for (const HeightReach& height : answer.heights)
    heights.rows.push_back({metres(height.target_height_m),
                            height.seen ? metres(height.seen->from_m) : "everywhere",
                            !height.seen        ? "nowhere"
                            : height.seen->to_m ? metres(*height.seen->to_m)
                                                : "no end"});
  return text + heading("Blind distance, from the foot of the lens") + heights.text(2);
}

std::string widthsText(const Answer& answer) {
  Table table;
  table.align = "rrr";
  table.head = {"distance m", "arc m", "flat m"};
  for (const WidthAt& width : answer.widths)
    table.rows.push_back({metres(width.distance_m), metres(width.arc_m),
                          width.flat_m ? metres(*width.flat_m) : "-"});
  return heading("Width of the picture") + table.text(2);
}

// ---- for programs -------------------------------------------------------------------------------

Json orNull(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

Json answerJson(const Answer& answer) {
  Json tasks = Json::array();
  for (const TaskReach& reach : answer.tasks) {
    Json one{{"task", reach.line.task},
             {"density_px_per_m", number(reach.line.px_per_m)},
             {"confirmed", reach.line.confirmed},
             {"distance_m",
              {{"equidistant", number(reach.equidistant_m)},
               {"rectilinear", orNull(reach.rectilinear_m)}}},
             {"lens_distance_m", number(reach.lens_m)},
             {"picture_width_m", number(reach.width_m)},
             {"person_percent_of_height", number(reach.person_percent)}};
    if (answer.lookout)
      one["floor"] = reach.floor ? Json{{"from_m", number(reach.floor->from_m)},
                                        {"to_m", orNull(reach.floor->to_m)}}
                                 : Json(nullptr);
    tasks.push_back(std::move(one));
  }
  const optics::FieldOfView& residual = answer.fit.residual_deg;
  Json object{
      {"format", "belvedere.reach"},
      {"version", 1},
      {"scale",
       {{"edition", answer.scale.edition},
        {"title", answer.scale.title},
        {"note", answer.scale.note}}},
      {"imager",
       {{"pixels", answer.pixels},
        {"hfov_deg", orNull(answer.field.hfov_deg)},
        {"vfov_deg", orNull(answer.field.vfov_deg)},
        {"dfov_deg", orNull(answer.field.dfov_deg)},
        {"family", answer.family},
        {"focal_px", number(answer.fit.lens.f_px)},
        {"k", number(answer.fit.lens.k)},
        {"residual_deg",
         {{"hfov", orNull(residual.hfov_deg)},
          {"vfov", orNull(residual.vfov_deg)},
          {"dfov", orNull(residual.dfov_deg)}}}}},
      {"target",
       {{"kind", design::Words<design::TargetKind>::list[static_cast<std::size_t>(answer.target)]},
        {"band_m", answer.band_m}}},
      {"tasks", std::move(tasks)}};
  if (answer.lookout) {
    object["lens"] = {{"height_m", number(answer.lookout->height_m)},
                      {"tilt_deg", number(answer.lookout->tilt_deg)},
                      {"axis_to_floor_m", orNull(optics::axisToFloorM(*answer.lookout))}};
    Json heights = Json::array();
    for (const HeightReach& height : answer.heights)
      heights.push_back({{"target_height_m", number(height.target_height_m)},
                         {"seen", height.seen.has_value()},
                         {"blind_to_m", height.seen ? number(height.seen->from_m) : Json(nullptr)},
                         {"seen_to_m", height.seen ? orNull(height.seen->to_m) : Json(nullptr)}});
    object["blind"] = std::move(heights);
  }
  if (!answer.widths.empty()) {
    Json widths = Json::array();
    for (const WidthAt& width : answer.widths)
      widths.push_back({{"distance_m", number(width.distance_m)},
                        {"arc_m", number(width.arc_m)},
                        {"flat_m", orNull(width.flat_m)}});
    object["widths"] = std::move(widths);
  }
  return object;
}

int reach(const Options& options) {
  const Answer answer = answerOf(options);
  if (options.json != "-") {
    std::string text = lensText(answer) + tasksText(answer);
    if (answer.lookout) text += floorText(answer);
    if (!answer.widths.empty()) text += widthsText(answer);
    printOut(text);
  }
  if (!options.json.empty()) writeJson(answerJson(answer), options.json);
  return kAllMet;
}
}  // namespace

CLI::App* addReach(CLI::App& app, std::function<int()>& run) {
  CLI::App* command =
      app.add_subcommand("reach", "how far one imager carries each task, without a building");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere reach --pixels 2592x1944 --hfov 100\n"
      "      the distance of every task, by the arc and by the flat form\n"
      "  belvedere reach --pixels 2592x1944 --hfov 100 --height 3 --tilt 35 --target face\n"
      "      and over which stretch of floor a face is whole in the frame and dense enough\n"
      "  belvedere reach --pixels 2688x1520 --hfov 106 --vfov 60 --scale 2025 --width-at 5,10\n"
      "      a lens fitted to two fields of view, the later edition, the picture's width");
  command->add_option("--pixels", options->pixels, "picture size, such as 2592x1944")
      ->type_name("WxH")
      ->required();
  // CLI11's own range lets NaN through.
  const auto within = [](double least, double most) {
    return CLI::Validator(
        [least, most](std::string& text) {
          double value = 0;
          if (CLI::detail::lexical_cast(text, value) && value >= least && value <= most)
            return std::string();
          return fmt::format("{} is not between {} and {}", printable(text), least, most);
        },
        "", "");
  };
  const CLI::Validator angle = within(0.05, 360);
  command->add_option("--hfov", options->hfov_deg, "horizontal field of view, deg")
      ->type_name("DEG")
      ->required()
      ->check(angle);
  command->add_option("--vfov", options->vfov_deg, "vertical field of view, deg, where stated")
      ->type_name("DEG")
      ->check(angle);
  command->add_option("--dfov", options->dfov_deg, "corner to corner, deg, where stated")
      ->type_name("DEG")
      ->check(angle);
  command
      ->add_option("--family", options->family,
                   "of the lens: rectilinear (unless said), stereographic, equidistant, equisolid, "
                   "orthographic, or fitted to the stated fields (unless said, when there are two)")
      ->type_name("WORD");
  command->add_option("--height", options->height_m, "of the lens above the floor, m")
      ->type_name("M")
      ->check(within(0, 1000));
  command
      ->add_option("--tilt", options->tilt_deg,
                   "of the axis below the horizontal, deg: 0 unless said")
      ->type_name("DEG")
      ->check(within(-90, 90));
  command
      ->add_option("--scale", options->scale,
                   "edition of the task table, IEC 62676-4: 2014 (unless said) or 2025")
      ->type_name("YEAR");
  command
      ->add_option("--target", options->target,
                   "face, face_child, face_seated, person (unless said), plate or floor")
      ->type_name("WORD");
  command
      ->add_option("--width-at", options->widths_at_m, "the picture's width at these distances, m")
      ->type_name("M,M")
      ->delimiter(',')
      ->check(within(0.001, 100'000));
  CLI::Option* json =
      command
          ->add_option("--json", options->json,
                       "the answer as one JSON object, into FILE; without FILE, or with -, to the "
                       "standard output in place of the text")
          ->type_name("[FILE]")
          ->expected(0, 1);
  command->callback([json, options, &run] {
    if (json->count() > 0 && options->json.empty()) options->json = "-";
    run = [options] { return reach(*options); };
  });
  return command;
}

}  // namespace belvedere::cli
