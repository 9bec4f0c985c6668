// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <system_error>
#include <utility>

#include "base/units.h"
#include "cli/command.h"
#include "cli/option_values.h"
#include "cli/page.h"
#include "cli/terminal.h"
#include "drawing/requirement_page.h"

namespace belvedere::cli {

namespace {

namespace fs = std::filesystem;

// "1.2,3.4,1.8" as so many numbers; nothing where it is none.
std::optional<std::vector<double>> numbersOf(const std::string& text, std::size_t least,
                                             std::size_t most) {
  std::vector<double> values;
  std::size_t from = 0;
  while (from <= text.size()) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const std::string word = text.substr(from, comma - from);
    char* end = nullptr;
    const double value = std::strtod(word.c_str(), &end);
    if (word.empty() || end != word.c_str() + word.size() || !std::isfinite(value)) return {};
    values.push_back(value);
    from = comma + 1;
  }
  if (values.size() < least || values.size() > most) return {};
  return values;
}

CLI::Validator figureWords() {
  return CLI::Validator(
      [](std::string& text) {
        const auto values = numbersOf(text, 2, 5);
        if (!values || values->size() == 4)
          return fmt::format(
              "\"{}\" is no figure: X,Y in metres of the site, X,Y,HEIGHT, or "
              "X,Y,HEIGHT,BEARING,SPEED",
              printable(text));
        if (values->size() >= 3 && !((*values)[2] >= 0.3 && (*values)[2] <= 2.6))
          return fmt::format("\"{}\": a figure is 0.3 to 2.6 m tall", printable(text));
        return std::string();
      },
      "", "");
}
CLI::Validator sunWords() {
  return CLI::Validator(
      [](std::string& text) {
        const auto values = numbersOf(text, 2, 2);
        if (values && (*values)[1] > 0 && (*values)[1] <= 90) return std::string();
        return fmt::format(
            "\"{}\" is no sun: BEARING,ELEVATION in degrees, clockwise from up on the drawing and "
            "above 0 to 90",
            printable(text));
      },
      "", "");
}

// The imager of that name ("C1.2", or "C1.2 aim 3"); its first aim where it has several.
const design::PosedImager& imagerOf(const std::vector<design::PosedImager>& imagers,
                                    const std::string& name) {
  for (const design::PosedImager& imager : imagers)
    if (imager.name == name || imager.imager == name) return imager;
  std::vector<std::string> known;
  for (const design::PosedImager& imager : imagers)
    if (std::find(known.begin(), known.end(), imager.imager) == known.end())
      known.push_back(imager.imager);
  throw CallError(
      fmt::format("the design has no imager \"{}\"{}", printable(name), knownOnes(name, known)));
}

const design::Stream& streamOf(const design::Housing& housing, const design::PosedImager& imager,
                               const std::string& id) {
  std::vector<std::string> known;
  for (const design::Stream& stream : housing.streams) {
    if (std::find(stream.from.begin(), stream.from.end(), imager.slot) == stream.from.end())
      continue;
    if (stream.id.text == id) return stream;
    known.push_back(stream.id.text);
  }
  throw CallError(
      fmt::format("{} has no stream \"{}\"{}", imager.imager, printable(id), knownOnes(id, known)));
}

design::Situation situationFor(const design::Design& design, const PictureCall& call) {
  if (!call.situation.empty()) return situationOf(design, call.situation);
  if (!call.requirement.empty())
    return design::situationsOf(design, requirementOf(design, call.requirement)).front();
  return design::situationsOf(design).front();
}

void drawZones(const PictureRun& run, const picture::View& view,
               const picture::PhotoOptions& options, picture::Photo photo,
               picture::Developed& onto) {
  const picture::Size whole = options.size[0] > 0 ? options.size : view.pixels;
  const Vec2 moved = options.part_at;
  drawing::Overlay overlay;
  std::vector<picture::Line3> lines;
  const std::vector<picture::Studio::ZoneMark> marks = run.studio.zoneMarks();
  for (const auto& mark : marks) lines.push_back(mark.outline);
  overlay.lines = picture::drawnOver(view, picture::depthOf(std::move(photo), whole, moved), lines);
  for (picture::LineStretch& stretch : overlay.lines)
    for (Vec2& place : stretch.places) place = place - moved;
  for (const auto& mark : marks)
    if (const auto place = picture::placeOf(view, whole, mark.middle_m))
      overlay.labels.push_back({*place - moved, mark.name});
  drawing::drawOver(onto, overlay);
}

int picture(const PictureCall& call) {
  const auto threads = limitedTo(call.threads);
  const Loaded loaded = load(call.design);
  const design::Situation situation = situationFor(loaded.design, call);
  std::error_code ignored;
  if (fs::exists(call.out, ignored) && !call.force)
    throw CallError(fmt::format("{} is there already; --force replaces it", printable(call.out)));
  checkWritable(call.out);
  const std::vector<design::PosedImager> imagers =
      design::posedImagers(loaded.design, design::JudgedOn::captured);
  const design::Requirement* requirement =
      call.requirement.empty() ? nullptr : &requirementOf(loaded.design, call.requirement);
  const design::Housing* housing =
      design::findHousing(loaded.design, design::HousingId{call.imager});
  const design::PosedImager* imager =
      housing || requirement ? nullptr : &imagerOf(imagers, call.imager);
  if (!call.stream.empty() && requirement)
    throw CallError(
        "--stream is of one imager's picture; --requirement shows the pictures that it is judged on");
  if (!call.stream.empty() && !imager)
    throw CallError(fmt::format("--stream wants one imager: --imager {}.1 for instance",
                                printable(call.imager)));
  if (call.zones && (call.unrolled || requirement))
    throw CallError(fmt::format("--zones draws on pictures of imagers, not with {}",
                                requirement ? "--requirement" : "--unrolled"));
  if (call.unrolled && !housing)
    throw CallError(fmt::format("--unrolled wants a whole camera: --imager {}",
                                imager ? imager->housing.text : "C1"));
  showProgressBar();
  const picture::Studio studio(loaded.design, situation, loaded.folder);
  PictureRun run{call, loaded, studio, {}};
  for (const std::string& text : call.figures) {
    const std::vector<double> values = numbersOf(text, 2, 5).value();
    AskedFigure figure{{values[0], values[1]}, values.size() > 2 ? values[2] : 1.75, {}, 0};
    if (values.size() == 5) {
      figure.walks_deg = values[3];
      figure.speed_mps = values[4];
    }
    run.figures.push_back(figure);
  }
  drawing::PngTexts texts = pictureTexts(run);
  picture::Developed made;
  if (imager) {
    picture::PhotoOptions options = photoOptions(run, *imager);
    if (!call.stream.empty()) {
      const design::Stream& stream =
          streamOf(*design::findHousing(loaded.design, imager->housing), *imager, call.stream);
      const auto framing = picture::framingOf(stream, imager->pixels);
      if (!framing)
        throw CallError(
            fmt::format("stream {} is put together from several pictures; --imager {} "
                        "--unrolled shows such a one",
                        printable(call.stream), imager->housing.text));
      options.size = framing->size;
      options.part_at = framing->part_at;
      options.part = framing->part;
      texts.emplace_back("Stream", call.stream);
    }
    picture::Shot shot = shoot(run, *imager, options, runProgress());
    const drawing::PngTexts more = shotTexts(run, *imager, shot);
    texts.insert(texts.end(), more.begin(), more.end());
    made = std::move(shot.picture);
  } else if (requirement) {
    if (requirement->kind != design::RequirementKind::see &&
        requirement->kind != design::RequirementKind::withhold)
      throw CallError(
          fmt::format("{} is no requirement about what is seen; pictures are of those that are",
                      printable(requirement->id.text)));
    const drawing::PicturePage page = drawing::requirementPage(
        {run.studio, loaded.folder,
         [&](const design::PosedImager& shown) { return photoOptions(run, shown); }, runProgress()},
        *requirement);
    if (page.rows.empty())
      throw CallError(
          fmt::format("nothing of zone {} is left to stand on", printable(requirement->zone.text)));
    made = drawing::paintPage(page);
    texts.emplace_back("Requirement", requirement->id.text);
    for (std::size_t i = 0; i < page.rows.size(); ++i) {
      std::string shows = page.rows[i].heading;
      for (const drawing::PagePicture& shown : page.rows[i].pictures) shows += "; " + shown.caption;
      std::replace(shows.begin(), shows.end(), '\n', ' ');
      texts.emplace_back(fmt::format("Row {}", i + 1), shows);
    }
  } else {
    made = call.unrolled ? unrolledPicture(run, *housing, imagers, texts)
                         : drawing::paintPage(ringPage(run, *housing, imagers));
    texts.emplace_back(call.unrolled ? "Camera, unrolled" : "Camera", housing->id.text);
  }
  try {
    drawing::writePng(made, texts, call.out, runProgress());
  } catch (const std::system_error& error) {  // what() begins with the file
    throw CallError(fmt::format("the picture cannot be written: {}", printable(error.what())));
  }
  clearProgressBar();
  printOut(
      wrapped(fmt::format("wrote {}: {} in {}, {} x {} pixels", printable(call.out),
                          printable(requirement ? call.requirement : call.imager),
                          printable(situation.title.empty() ? situation.id.text : situation.title),
                          made.width, made.height),
              0, 4));
  return kAllMet;
}

}  // namespace

std::string lookOf(const design::PosedImager& imager) {
  const Vec3 ahead{imager.imager_from_site.row[2].x, imager.imager_from_site.row[2].y,
                   imager.imager_from_site.row[2].z};
  const double pan = radToDeg(std::atan2(ahead.x, ahead.y));
  return fmt::format("pan {:.1f} deg, tilt {:.1f} deg, {:.1f} x {:.1f} deg, {} x {} px",
                     pan < -1e-9 ? pan + 360 : std::abs(pan),
                     radToDeg(std::asin(std::clamp(-ahead.z, -1.0, 1.0))), imager.hfov_deg,
                     imager.vfov_deg, imager.pixels[0], imager.pixels[1]);
}

void checkPixels(const std::string& of, picture::Size size) {
  if (1e-6 * size[0] * size[1] <= kMostPictureMegapixels) return;
  throw CallError(fmt::format("{}: a picture of {} x {} pixels is more than the {:g} million that fit "
                              "into one; ask for a smaller stream",
                              printable(of), size[0], size[1], kMostPictureMegapixels));
}

picture::PhotoOptions photoOptions(const PictureRun& run, const design::PosedImager& imager) {
  picture::PhotoOptions options;
  options.lighting = run.studio.lighting(run.call.sun.value_or(picture::SunAt{}));
  if (run.call.sun && options.lighting.sun_lux <= 0)
    options.lighting =
        picture::plausibleLighting(200, run.call.sun->bearing_deg, run.call.sun->elevation_deg);
  if (run.call.grid) {
    options.grid_m = run.studio.floorsM();
    options.grid_m.push_back(0);
  }
  for (const AskedFigure& asked : run.figures) {
    const Vec2 toward = imager.lens_m.xy() - asked.at_m;
    picture::Figure figure{
        {asked.at_m.x, asked.at_m.y, run.studio.standsOnM(asked.at_m, imager.lens_m.z)},
        asked.height_m,
        radToDeg(std::atan2(toward.x, toward.y)),
        {}};
    if (asked.walks_deg) {
      figure.facing_deg = *asked.walks_deg;
      const double way = degToRad(*asked.walks_deg);
      figure.moves_mps = Vec2{std::sin(way), std::cos(way)} * asked.speed_mps;
    }
    options.figures.push_back(figure);
  }
  return options;
}

picture::Shot shoot(const PictureRun& run, const design::PosedImager& imager,
                    const picture::PhotoOptions& options, const Progress& progress) {
  checkPixels(imager.name, options.part[0] > 0   ? options.part
                           : options.size[0] > 0 ? options.size
                                                 : imager.pixels);
  picture::Shot shot =
      run.studio.shoot(imager, options, progress,
                       run.call.zones ? picture::Keep::distances : picture::Keep::picture);
  if (run.call.zones)
    drawZones(run, picture::viewOf(imager), options, std::move(shot.photo), shot.picture);
  return shot;
}

drawing::PngTexts shotTexts(const PictureRun& run, const design::PosedImager& imager,
                            const picture::Shot& shot) {
  const picture::Settings settings = run.studio.settingsOf(imager);
  drawing::PngTexts texts{
      {"Imager", imager.name},
      {"Look", lookOf(imager)},
      {"Exposure", fmt::format("{:.4g} for each lux thrown back", shot.exposed.exposure)}};
  if (settings.sensor) {
    texts.emplace_back("Mode", settings.mono ? "mono" : "colour");
    texts.emplace_back("Exposure time", fmt::format("{:.4g} s", shot.exposed.exposure_s));
    texts.emplace_back("Needed light", fmt::format("{:.3g} lx", settings.sensor->needed_lux));
    if (shot.exposed.gain_at_most) texts.emplace_back("Gain", "at its most: too little light");
  }
  if (settings.aperture_m > 0)
    texts.emplace_back("Focus", fmt::format("{:.2f} m", settings.focus_m));
  for (const std::string& note : settings.notes) texts.emplace_back("Taken", note);
  return texts;
}

drawing::PngTexts pictureTexts(const PictureRun& run) {
  drawing::PngTexts texts{{"Title", run.loaded.design.title},
                          {"Software", "Belvedere " BELVEDERE_VERSION},
                          {"Design SHA-256", run.loaded.sha256},
                          {"Situation", run.studio.situation().id.text}};
  for (const AskedFigure& figure : run.figures)
    texts.emplace_back(
        "Figure", fmt::format("{:g},{:g},{:g}", figure.at_m.x, figure.at_m.y, figure.height_m));
  texts.emplace_back(
      "Note",
      "Computed picture. Geometry and pixels follow the design; tones of surfaces and "
      "daylight are plausible, not measured. An aid: walk-test before sign-off.");
  return texts;
}

CLI::App* addPicture(CLI::App& app, std::function<int()>& run) {
  CLI::App* command = app.add_subcommand(
      "picture", "what an imager would show, at its own pixels and through its own lens");
  const auto call = std::make_shared<PictureCall>();
  const auto sun = std::make_shared<std::string>();
  command->footer(
      "  belvedere picture design.json --imager C1.2 --out view.png\n"
      "      what imager 2 of camera C1 shows, in the first situation\n"
      "  belvedere picture design.json --imager C1.2 --when night --figure 3.5,2,1.6 --out "
      "view.png\n"
      "      somebody 1.6 m tall stands at (3.5, 2), by night\n"
      "  belvedere picture design.json --imager C1 --out ring.png\n"
      "      all imagers of the camera on one page, in ring order\n"
      "  belvedere picture design.json --imager C1 --unrolled --out round.png\n"
      "      the whole camera as one picture\n"
      "  belvedere picture design.json --requirement R1 --out r1.png\n"
      "      what its worst and its best spot give of a face, a number plate and a test chart\n"
      "  belvedere picture design.json --imager C1.1 --zones --grid --out view.png\n"
      "      with zones named and lines at whole metres of the floor");
  command->add_option("DESIGN", call->design, "the design file")->required();
  command
      ->add_option("--imager", call->imager,
                   "the imager, C1.2 for imager 2 of camera C1; a camera alone: all of its imagers "
                   "on a page")
      ->type_name("ID");
  command
      ->add_option(
          "--requirement", call->requirement,
          "a page of what its worst and its best spot give of a face, a plate and a chart, at "
          "true pixels")
      ->type_name("ID");
  command
      ->add_option("--when,--situation", call->situation,
                   "this situation, by id; the first one unless said")
      ->type_name("ID");
  command->add_option("--stream", call->stream, "as this stream shows it, at its size")
      ->type_name("ID");
  command->add_option("--out", call->out, "the PNG to write")->type_name("FILE")->required();
  command
      ->add_option(
          "--figure", call->figures,
          "somebody stands there and looks at the camera: X,Y in metres, or X,Y,HEIGHT "
          "(1.75 m unless said), or X,Y,HEIGHT,BEARING,SPEED for one who walks so many m/s; may "
          "be said again")
      ->type_name("X,Y[,HEIGHT]")
      ->check(figureWords());
  command->add_flag("--unrolled", call->unrolled,
                    "the whole camera as one picture: bearings across, elevations upwards");
  command->add_flag("--grid", call->grid, "lines at whole metres on floors");
  command->add_flag("--zones", call->zones, "outlines and names of zones");
  command
      ->add_option(
          "--sun", *sun,
          "where the sun stands: bearing on the drawing and elevation; 215,38 by day unless "
          "said")
      ->type_name("DEG,DEG")
      ->check(sunWords());
  addThreads(*command, call->threads);
  command->add_flag("--force", call->force, "replace a file that is there");
  command->callback([call, sun, &run] {
    if (std::filesystem::path(call->out).extension() != ".png")
      throw CallError("--out names a file that ends in .png");
    if (call->imager.empty() == call->requirement.empty())
      throw CallError("say what is to be shown: --imager ID or --requirement ID");
    if (!sun->empty()) {
      const auto values = numbersOf(*sun, 2, 2);
      call->sun = picture::SunAt{(*values)[0], (*values)[1]};
    }
    run = [call] { return picture(*call); };
  });
  return command;
}

}  // namespace belvedere::cli
