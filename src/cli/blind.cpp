// SPDX-License-Identifier: GPL-3.0-or-later
//
// belvedere blind: what lies unseen at a camera's foot, how that grows with height, and where a
// ring of imagers leaves gaps.
#include "proof/blind.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "cli/blind_output.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/terminal.h"

namespace belvedere::cli {

namespace {
struct Options {
  Input input;
  std::vector<std::string> cameras;
  std::string situation;
  // A face's band (lowest and highest point), a person's lowest and highest.
  std::vector<double> target_heights_m{0.2, 1.45, 1.8, 1.85};
  std::vector<double> lens_heights_m{2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6};
  std::vector<double> depressions_deg{15, 30, 45};
  double radius_m = 10;
  bool outlines = false;
};

struct Curve {
  std::string housing;
  double target_height_m = 0;
  std::vector<proof::BlindAt> points;
};
struct Answer {
  std::vector<proof::BlindZone> zones;
  std::vector<Curve> curves;
  std::vector<proof::RingAt> rings;
};

Answer answerOf(const Loaded& loaded, const Options& options) {
  std::vector<const design::Housing*> housings;
  for (const std::string& id : options.cameras) housings.push_back(&housingOf(loaded.design, id));
  if (options.cameras.empty())
    for (const design::Housing& housing : loaded.design.housings)
      if (housing.life != design::Life::removed) housings.push_back(&housing);
  const std::vector<design::Situation> situations =
      options.situation.empty() ? design::situationsOf(loaded.design)
                                : std::vector{situationOf(loaded.design, options.situation)};
  Answer answer;
  for (const design::Housing* housing : housings) {
    for (const design::Situation& situation : situations) {
      runProgress().throwIfCancelled();
      const auto zones =
          proof::blindZones(loaded.design, *housing, situation, options.target_heights_m);
      answer.zones.insert(answer.zones.end(), zones.begin(), zones.end());
    }
    for (const double height : options.target_heights_m) {
      runProgress().throwIfCancelled();
      answer.curves.push_back({housing->id.text, height,
                               proof::blindCurve(loaded.design, *housing, height,
                                                 options.lens_heights_m, options.radius_m)});
    }
    const auto rings = proof::ringOf(loaded.design, *housing, options.depressions_deg);
    answer.rings.insert(answer.rings.end(), rings.begin(), rings.end());
  }
  return answer;
}

std::string outlinesText(const std::vector<proof::BlindZone>& zones) {
  std::string text;
  for (const proof::BlindZone& zone : zones)
    for (const Polygon& polygon : zone.outline) {
      std::string points;
      for (const Vec2 p : polygon.outer) points += fmt::format(" ({:.2f},{:.2f})", p.x, p.y);
      text += wrapped(fmt::format("{}{} at {:.2f} m, in {}:{}", printable(zone.housing.text),
                                  zone.slot == 0 ? "" : fmt::format(".{}", zone.slot),
                                  zone.target_height_m, printable(zone.situation.text), points),
                      2, 4);
    }
  return text;
}

std::string curvesText(const std::vector<Curve>& curves) {
  Table table;
  table.align = "lr";
  table.head = {"camera", "target m"};
  if (curves.empty()) return {};
  for (const proof::BlindAt& at : curves.front().points) {
    table.align += 'r';
    table.head.push_back(fmt::format("{:g} m", at.lens_height_m));
  }
  for (const Curve& curve : curves) {
    std::vector<std::string> row{printable(curve.housing),
                                 fmt::format("{:.2f}", curve.target_height_m)};
    for (const proof::BlindAt& at : curve.points) row.push_back(fmt::format("{:.2f}", at.area_m2));
    table.rows.push_back(std::move(row));
  }
  return table.text(2);
}

Json curvesJson(const std::vector<Curve>& curves) {
  Json list = Json::array();
  for (const Curve& curve : curves) {
    Json points = Json::array();
    for (const proof::BlindAt& at : curve.points)
      points.push_back(
          {{"lens_height_m", number(at.lens_height_m)}, {"area_m2", number(at.area_m2)}});
    list.push_back({{"housing", curve.housing},
                    {"target_height_m", number(curve.target_height_m)},
                    {"points", std::move(points)}});
  }
  return list;
}

int blind(const Options& options) {
  const Loaded loaded = load(options.input.design);
  const Answer answer = answerOf(loaded, options);
  if (!options.input.jsonOnly()) {
    std::string text = wrapped(printable(loaded.design.title), 0, 0);
    text += heading("Blind zones at the foot, m2, for each height of a target") +
            blindTable(answer.zones);
    text += heading("Blind distance on the ground, m, for each height of a target") +
            wrapped("from below the lens along the imager's axis to where the target comes into the "
                    "picture's middle column, on a level floor without walls", 2, 2) +
            blindDistances(loaded.design, options.cameras, options.target_heights_m);
    if (options.outlines)
      text += heading("Their outlines on the site, m") + outlinesText(answer.zones);
    text +=
        heading("Blind zone over the lens's height above an open floor, m2") +
        wrapped(fmt::format(
                    "out to {:g} m from the foot, what lies beside and behind the frame included",
                    options.radius_m),
                2, 2) +
        curvesText(answer.curves);
    std::vector<proof::RingAt> rings, singles;
    for (const proof::RingAt& ring : answer.rings) {
      const design::Housing* housing = design::findHousing(loaded.design, ring.housing);
      (housing && housing->imagers.size() < 2 ? singles : rings).push_back(ring);
    }
    if (!rings.empty()) text += heading("Rings, as bearings in degrees") + ringText(rings);
    if (!singles.empty())
      text += heading("Cameras with one imager: the bearings it sees, degrees") + singlesText(singles);
    printOut(text);
  }
  if (!options.input.json.empty())
    writeJson({{"format", "belvedere.blind"},
               {"version", 1},
               {"design", designJson(loaded)},
               {"blind_zones", blindJson(answer.zones)},
               {"radius_m", number(options.radius_m)},
               {"curves", curvesJson(answer.curves)},
               {"rings", ringJson(answer.rings)}},
              options.input.json);
  return kAllMet;
}
}  // namespace

CLI::App* addBlind(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "blind", "the blind zone at each camera's foot, over mounting height, and gaps of a ring");
  const auto options = std::make_shared<Options>();
  command->footer(
      "  belvedere blind design.json\n"
      "      every camera, at the heights that faces and people ask for\n"
      "  belvedere blind design.json --camera C1 --target-m 0.2 --lens-m 4,5.2,6\n"
      "      one camera, one target height, three mounting heights\n"
      "  belvedere blind design.json --camera C1 --down-deg 10,20,30,40\n"
      "      where its ring of imagers has gaps, looking so far down");
  addInput(*command, options->input, [options, &run] {
    run = [options] { return answered(options->input, [&] { return blind(*options); }); };
  });
  command->add_option("--camera", options->cameras, "these cameras, by id")
      ->type_name("C1,C2")
      ->delimiter(',');
  command->add_option("--situation", options->situation, "this situation, by id")->type_name("ID");
  command->add_option("--target-m", options->target_heights_m,
                      "heights of a target above the floor, m: 0.2,1.45,1.8,1.85 unless said")
      ->type_name("M,M")
      ->delimiter(',')
      ->check(numberWithin(0.0, 100.0));
  command->add_option("--lens-m", options->lens_heights_m,
                      "heights of the lens above the floor for the curve, m: 2 to 6 unless said")
      ->type_name("M,M")
      ->delimiter(',')
      ->check(numberWithin(0.0, 1000.0));
  command->add_option("--down-deg", options->depressions_deg,
                      "angles below the horizon at which a ring is looked at: 15,30,45 unless said")
      ->type_name("DEG,DEG")
      ->delimiter(',')
      ->check(numberWithin(-90.0, 90.0));
  command->add_option("--radius-m", options->radius_m,
                      "how far out the curve looks, m: 10 unless said")
      ->type_name("M")
      ->check(numberWithin(0.1, 10000.0));
  command->add_flag("--outlines", options->outlines,
                    "print the outlines too (JSON always has them)");
  return command;
}

}  // namespace belvedere::cli
