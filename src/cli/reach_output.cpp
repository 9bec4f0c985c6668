// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "cli/lens_table.h"
#include "cli/page.h"
#include "cli/reach_answer.h"
#include "design/words.h"

namespace belvedere::cli {

namespace {
std::string metres(double value) { return fmt::format("{:.2f}", value); }
std::string fieldText(const std::optional<double>& deg) {
  return deg ? fmt::format("{:.1f}", *deg) : "-";
}

std::string lensText(const ReachAnswer& answer) {
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

std::string tasksText(const ReachAnswer& answer) {
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

std::string floorText(const ReachAnswer& answer) {
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

std::string widthsText(const ReachAnswer& answer) {
  Table table;
  table.align = "rrr";
  table.head = {"distance m", "arc m", "flat m"};
  for (const WidthAt& width : answer.widths)
    table.rows.push_back({metres(width.distance_m), metres(width.arc_m),
                          width.flat_m ? metres(*width.flat_m) : "-"});
  return heading("Width of the picture") + table.text(2);
}

Json orNull(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }
}  // namespace

std::string reachText(const ReachAnswer& answer) {
  std::string text = lensText(answer) + tasksText(answer);
  if (answer.lookout) text += floorText(answer);
  if (!answer.widths.empty()) text += widthsText(answer);
  return text;
}

Json reachJson(const ReachAnswer& answer) {
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
        {"residual_deg", residualJson(answer.fit.residual_deg)}}},
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

}  // namespace belvedere::cli
