// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a requirement's worst and best spot show of a face, a number plate and a test chart.
#include "drawing/requirement_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "base/units.h"
#include "drawing/sheet_parts.h"
#include "optics/density.h"
#include "optics/lens.h"
#include "picture/boards.h"
#include "proof/spots.h"
#include "proof/withhold.h"

namespace belvedere::drawing {

namespace {

constexpr int kEnlargedPx = 440;    // about so large is what is enlarged
constexpr int kMostPx = 520;        // of a crop, along each side
constexpr int kMostFigurePx = 1600; // of that of somebody from head to feet
constexpr double kMargin = 1.12;    // of what is shown of a board, over the board
constexpr std::size_t kMostSpots = 4000;

struct Spot {
  std::string heading;
  Vec2 at_m;
  proof::Answer answer;
  std::optional<double> face_m{};  // above the floor, where it is not as the target says
};

constexpr double kAdultM = 1.75;
constexpr double kFaceShare = 0.93;  // of somebody's height: where the face is
constexpr design::Range kStandsM{0.5, 2.3};  // nobody is drawn smaller or taller than that

// Who stands there: with the face in the middle of the band that is judged, where faces are asked for
// or a band of the brief's own, so that one sees what is judged.
double heightFor(const design::Target& target) {
  using design::TargetKind;
  if (target.kind == TargetKind::person || target.kind == TargetKind::floor ||
      target.kind == TargetKind::plate)
    return kAdultM;
  const design::Range band = design::bandOf(target);
  const double height_m = 0.5 * (band[0] + band[1]) / kFaceShare;
  return height_m >= kStandsM[0] && height_m <= kStandsM[1] ? height_m : kAdultM;
}

// A sentence in the window's language, with places {} for what is put in.
template <class... Values>
std::string sentence(const std::string& words, const Values&... values) {
  return fmt::format(fmt::runtime(words), values...);
}

// The least and the best of the zone, by the judge.
std::vector<Spot> spotsOf(const proof::Question& question, const Progress& progress) {
  const int heights = proof::sampledHeights(question.requirement->target);
  const double cell_m = std::max(0.05, std::sqrt(question.region_m2 / kMostSpots));
  proof::RequirementProof summary;
  proof::summariseSpots(question, cell_m, kMostSpots, summary, progress);
  std::vector<Spot> spots;
  if (summary.worst)
    spots.push_back({said("Worst spot"), summary.worst->at.xy(),
                     proof::answerAt(question, summary.worst->at.xy(), heights)});
  const proof::SpotMap map = proof::spotMap(question, cell_m, kMostSpots, progress);
  std::optional<Vec2> best;
  float most = 0;
  for (int row = 0; row < map.rows; ++row)
    for (int column = 0; column < map.columns; ++column) {
      const proof::Spot& spot = map.at(column, row);
      const float worth = spot.px_per_m * (spot.reason == proof::Reason::served ? 1000.0f : 1.0f);
      if (!spot.inside || spot.imager < 0 || worth <= most) continue;
      most = worth;
      best = map.centre(column, row);
    }
  if (best) spots.push_back({said("Best spot"), *best, proof::answerAt(question, *best, heights)});
  return spots;
}

// Of a withheld zone: where the densest picture of it can be had, through the aim that shows most of it.
std::vector<Spot> withheldSpots(const proof::Question& question, const Progress& progress) {
  constexpr double kCloseness = 0.01;
  const proof::Densest densest = proof::densest(question, kCloseness, progress);
  if (!densest.at) return {};
  const Vec2 at = densest.at->xy();
  Spot spot{sentence(said("{:.0f} px/m can be had at"), densest.px_per_m.low), at, {}, {}};
  const auto shows = [](const proof::Answer& answer) {
    return answer.reason == proof::Reason::served || answer.reason == proof::Reason::too_coarse;
  };
  // One height of the band is enough to be filmed.
  proof::Question there = question;
  there.low_m = there.high_m = densest.at->z - question.floor.at(at);
  for (std::size_t v = 0; v < there.views.size(); ++v) {
    if (there.views[v].imager != densest.imager) continue;
    const proof::Answer answer = proof::answerOf(there, v, at, 1);
    const bool nearer = shows(answer) == shows(spot.answer) ? answer.px_per_m > spot.answer.px_per_m
                                                            : shows(answer);
    if (spot.answer.view < 0 || nearer) spot.answer = answer;
  }
  spot.face_m = there.low_m;
  return {spot};
}

// What becomes of a spot, in words.
std::string outcomeText(const proof::Question& question, const proof::Answer& answer) {
  using proof::Reason;
  if (question.requirement->kind != design::RequirementKind::withhold)
    return answer.reason == Reason::served
               ? phrase(answer.reason)
               : sentence(said("not served: {}"), phrase(answer.reason));
  if (answer.reason == Reason::served)
    return sentence(said("filmed, though at most {:g} px/m are allowed"), question.needed_px_per_m);
  if (answer.reason == Reason::too_coarse) return said("filmed, but no more than is allowed");
  return sentence(said("not in its picture as it is aimed now ({})"), phrase(answer.reason));
}

struct CropMaker {
  const PageStudio& run;
  const design::PosedImager& imager;
  picture::View view;
  picture::PhotoOptions options;  // of the whole, nobody in it

  // The crop that shows a box as wide and deep as `extent_m.x` and as high as `extent_m.y` about a
  // point, at a scale of captured pixels, with what stands there.
  std::optional<picture::Developed> crop(Vec2 scale, const Vec3& middle_m, Vec2 extent_m,
                                         const picture::PhotoOptions& with, int most_px = kMostPx) {
    return crop(scale, middle_m, cornersOf(middle_m, extent_m), with, most_px);
  }
  // How many pixels high that box stands in the picture, however many a crop may have.
  int heightPx(Vec2 scale, const Vec3& middle_m, Vec2 extent_m) const {
    constexpr int kAllPx = 1'000'000;
    const auto framing =
        picture::framingOf(view, scale, middle_m, cornersOf(middle_m, extent_m), kAllPx);
    return framing ? framing->part[1] : 0;
  }
  // The same for a board that faces a bearing.
  std::optional<picture::Developed> crop(Vec2 scale, const picture::Board& board,
                                         const picture::PhotoOptions& with) {
    const Vec2 half = picture::boardSizeM(board.pattern) * (0.5 * kMargin);
    const double turn = degToRad(board.facing_deg);
    const Vec3 aside = Vec3{std::cos(turn), -std::sin(turn), 0} * half.x;
    std::vector<Vec3> corners;
    for (const double x : {-1.0, 1.0})
      for (const double z : {-1.0, 1.0})
        corners.push_back(board.middle_m + aside * x + Vec3{0, 0, z * half.y});
    return crop(scale, board.middle_m, corners, with, kMostPx);
  }

 private:
  static std::vector<Vec3> cornersOf(const Vec3& middle_m, Vec2 extent_m) {
    std::vector<Vec3> corners;
    for (const double x : {-0.5, 0.5})
      for (const double y : {-0.5, 0.5})
        for (const double z : {-0.5, 0.5})
          corners.push_back(middle_m + Vec3{x * extent_m.x, y * extent_m.x, z * extent_m.y});
    return corners;
  }
  std::optional<picture::Developed> crop(Vec2 scale, const Vec3& middle_m,
                                         const std::vector<Vec3>& points_m,
                                         const picture::PhotoOptions& with, int most_px) {
    const auto framing = picture::framingOf(view, scale, middle_m, points_m, most_px);
    if (!framing) return {};
    picture::PhotoOptions asked = with;
    asked.size = framing->size;
    asked.part_at = framing->part_at;
    asked.part = framing->part;
    return run.studio.shoot(imager, asked, run.progress).picture;
  }
};

// At true pixels, and enlarged by a whole factor beside it.
void addBoth(PageRow& row, const std::optional<picture::Developed>& crop,
             const std::string& what) {
  if (!crop) return;
  const int factor = std::max(1, kEnlargedPx / std::max(crop->width, crop->height));
  row.pictures.push_back({*crop, fmt::format("{}\n{} x {} px", what, crop->width, crop->height)});
  if (factor > 1)
    row.pictures.push_back(
        {picture::enlarged(*crop, factor), sentence(said("the same\nx {}"), factor)});
}

void addRows(PicturePage& page, const PageStudio& run, const proof::Question& question,
             const Spot& spot) {
  const design::Requirement& requirement = *question.requirement;
  const design::Range band = design::bandOf(requirement.target);
  const double floor_m = question.floor.at(spot.at_m) + question.low_m - band[0];
  const std::string at = fmt::format("{} ({:.2f}, {:.2f})", spot.heading, spot.at_m.x, spot.at_m.y);
  if (spot.answer.view < 0) {
    page.rows.push_back({{}, at + said(": no imager shows it")});
    return;
  }
  const design::PosedImager& imager = question.views[static_cast<std::size_t>(spot.answer.view)];
  const Vec2 recorded{imager.scale_x, imager.scale_y};
  double height_m = heightFor(requirement.target);
  if (spot.face_m && *spot.face_m / kFaceShare >= kStandsM[0] && *spot.face_m / kFaceShare <= kStandsM[1])
    height_m = *spot.face_m / kFaceShare;
  const Vec3 face{spot.at_m.x, spot.at_m.y, floor_m + kFaceShare * height_m};
  const Vec2 toward = imager.lens_m.xy() - spot.at_m;
  const double to_lens_deg = radToDeg(std::atan2(toward.x, toward.y));
  const double facing_deg =
      question.facings.empty() ? to_lens_deg : question.facings.front().bearing_deg;
  const auto captured =
      optics::densityAt(imager.lens, imager.imager_from_site, imager.lens_m, face);
  if (!captured) {
    page.rows.push_back({{}, at + said(": no imager shows it")});
    return;
  }
  const bool scaled = std::abs(recorded.x - 1) > 1e-9 || std::abs(recorded.y - 1) > 1e-9;
  std::string heading =
      sentence(said("{}: {}, {:.1f} m away, "), at, imager.name, norm(face - imager.lens_m));
  heading += scaled ? sentence(said("{:.0f} px/m recorded, {:.0f} captured"),
                               captured->across_px_per_m * recorded.x, captured->across_px_per_m)
                    : fmt::format("{:.0f} px/m", captured->across_px_per_m);
  heading += "; " + outcomeText(question, spot.answer);

  CropMaker maker{run, imager, picture::viewOf(imager), run.options(imager)};
  // What moves does so across the view: there it smears most.
  const Vec2 across = norm(toward) > 0 ? Vec2{toward.y, -toward.x} / norm(toward) : Vec2{1, 0};
  const Vec2 moves_mps = across * requirement.target.speed_mps.value_or(0);
  picture::PhotoOptions person = maker.options;
  person.figures.push_back({{spot.at_m.x, spot.at_m.y, floor_m}, height_m, facing_deg, moves_mps});
  const auto held = [&](picture::Pattern pattern, double over_floor_m) {
    return picture::Board{
        pattern, {spot.at_m.x, spot.at_m.y, floor_m + over_floor_m}, facing_deg, moves_mps};
  };
  const bool plate_task = requirement.target.kind == design::TargetKind::plate;
  const double plate_m = plate_task ? 0.5 * (band[0] + band[1]) : 0.75;
  PageRow row{{}, heading};
  const Vec3 middle{spot.at_m.x, spot.at_m.y, floor_m + 0.5 * height_m};
  const Vec2 stands{0.7, 1.08 * height_m};
  if (auto whole = maker.crop(recorded, middle, stands, person, kMostFigurePx)) {
    const int needed_px = maker.heightPx(recorded, middle, stands);
    std::string caption = sentence(said("{:.2f} m tall, true pixels"), height_m);
    if (needed_px > whole->height)
      caption += sentence(said("\nthe middle {} of {} px"), whole->height, needed_px);
    for (const auto& [over_floor_m, what] : {std::pair{0.0, said("feet")}, std::pair{height_m, said("head")}}) {
      const Vec3 end{spot.at_m.x, spot.at_m.y, floor_m + over_floor_m};
      const auto px = optics::project(imager.lens, imager.imager_from_site * (end - imager.lens_m));
      if (!px || px->x < 0 || px->y < 0 || px->x > imager.pixels[0] || px->y > imager.pixels[1])
        caption += sentence(said("\n{} beyond its edge"), what);
    }
    row.pictures.push_back({*whole, caption});
  }
  addBoth(row, maker.crop(recorded, face, {0.26, 0.34}, person), said("face"));
  if (scaled) addBoth(row, maker.crop({1, 1}, face, {0.26, 0.34}, person), said("face, captured"));
  const auto addBoard = [&](const picture::Board& board, const std::string& what) {
    picture::PhotoOptions with = maker.options;
    with.boards.push_back(board);
    addBoth(row, maker.crop(recorded, board, with), what);
  };
  addBoard(held(picture::Pattern::plate, plate_m), said("plate, 0.52 m wide"));
  addBoard(held(picture::Pattern::chart, face.z - floor_m), said("chart, 0.4 m"));
  page.rows.push_back(std::move(row));
}

}  // namespace

PicturePage requirementPage(const PageStudio& run, const design::Requirement& requirement) {
  BELVEDERE_CHECK(requirement.kind == design::RequirementKind::see ||
                      requirement.kind == design::RequirementKind::withhold,
                  "pictures are of what is seen");
  const design::Situation& situation = run.studio.situation();
  const proof::Question question =
      proof::makeQuestion(run.studio.design(), requirement, situation,
                          proof::makePlace(run.studio.design(), situation, run.folder));
  PicturePage page;
  page.title = requirement.purpose.empty() ? requirement.id.text
                                           : requirement.id.text + "  " + requirement.purpose;
  const bool withheld = requirement.kind == design::RequirementKind::withhold;
  page.subtitle = fmt::format("{}; {}; ", run.studio.design().title,
                              situation.title.empty() ? situation.id.text : situation.title) +
                  sentence(withheld ? said("at most {:g} px/m allowed") : said("{:g} px/m asked for"),
                           question.needed_px_per_m);
  page.foot = said(
      "Every picture but the enlarged ones shows one pixel of the recorded stream (where it says so: of "
      "the sensor) as one pixel: look at it unscaled. Before compression, which takes detail away. The "
      "face is a drawing and the plate a pattern of our own; bars of the chart are one pixel wide at "
      "125, 250, 500, 1000 and 2000 px/m. An aid: walk-test before sign-off.");
  const std::vector<Spot> spots = withheld ? withheldSpots(question, run.progress)
                                           : spotsOf(question, run.progress);
  if (withheld && spots.empty())
    page.rows.push_back({{}, sentence(said("No imager can be made to show zone {}"), requirement.zone.text)});
  for (const Spot& spot : spots) addRows(page, run, question, spot);
  return page;
}

}  // namespace belvedere::drawing
