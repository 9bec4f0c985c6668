// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/reach.h"

#include <CLI/CLI.hpp>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/reach_answer.h"
#include "cli/terminal.h"

namespace belvedere::cli {

namespace {
int reach(const ReachOptions& options) {
  const ReachAnswer answer = reachAnswer(options);
  if (options.json != "-") printOut(reachText(answer));
  if (!options.json.empty()) writeJson(reachJson(answer), options.json);
  return kAllMet;
}
}  // namespace

CLI::App* addReach(CLI::App& app, std::function<int()>& run) {
  CLI::App* command =
      app.add_subcommand("reach", "how far one imager carries each task, without a building");
  const auto options = std::make_shared<ReachOptions>();
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
  const CLI::Validator angle = numberWithin(0.05, 360);
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
      ->check(numberWithin(0, 1000));
  command
      ->add_option("--tilt", options->tilt_deg,
                   "of the axis below the horizontal, deg: 0 unless said")
      ->type_name("DEG")
      ->check(numberWithin(-90, 90));
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
      ->check(numberWithin(0.001, 100'000));
  const CLI::Option* json = addJson(*command, options->json);
  command->callback([json, options, &run] {
    settleJson(*json, options->json);
    run = [options] { return reach(*options); };
  });
  return command;
}

}  // namespace belvedere::cli
