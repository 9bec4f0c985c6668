// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a sheet shows in a zone: wash by margin, hatches by reason, contour lines of density.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

using proof::Reason;

constexpr double kShortestLineMm = 5;   // of a contour line; shorter bits say nothing
constexpr double kLabelEveryMm = 110;

struct LabelPlace {
  double from = 0, to = 0;  // along the line
  Vec2 at;                  // middle
  double turn_deg = 0;
};

// The straightest free place for a label of that width around `middle` on the line.
bool placeOn(const std::vector<Vec2>& line, double middle, double width, const Taken& taken,
             LabelPlace& place) {
  const std::vector<Vec2> part = stretchOf(line, middle - 0.5 * width, middle + 0.5 * width);
  if (part.size() < 2) return false;
  const Vec2 chord = part.back() - part.front();
  if (norm(chord) < 0.985 * width) return false;
  const Vec2 at = (part.front() + part.back()) * 0.5;
  const double reach_x = 0.5 * std::abs(chord.x) + 1.6, reach_y = 0.5 * std::abs(chord.y) + 1.6;
  if (!taken.isFree({at - Vec2{reach_x, reach_y}, at + Vec2{reach_x, reach_y}})) return false;
  double turn = radToDeg(std::atan2(chord.y, chord.x));
  if (turn > 90) turn -= 180;
  if (turn <= -90) turn += 180;
  place = {middle - 0.5 * width, middle + 0.5 * width, at, turn};
  return true;
}

}  // namespace

void paintContour(Canvas& canvas, const std::vector<Vec2>& line, const std::string& figure,
                  const Stroke& stroke, bool bold, Taken& taken) {
  const Lettering lettering{stroke.colour, 9, bold, Align::middle};
  const double length = lengthOf(line), width = canvas.width(figure, lettering) + 1.6;
  double drawn = 0;
  if (length > 2.5 * width) {
    const int labels = std::max(1, static_cast<int>(std::lround(length / kLabelEveryMm)));
    for (int i = 0; i < labels; ++i) {
      const double own = length / labels, centre = own * (i + 0.5);
      LabelPlace place;
      bool found = false;
      for (int step = 0; step <= 16 && !found; ++step)
        for (const double side : {1.0, -1.0}) {
          const double middle = centre + side * step * own / 40;
          found = placeOn(line, middle, width, taken, place);
          if (found) break;
        }
      if (!found) continue;
      canvas.path(stretchOf(line, drawn, place.from), false, stroke);
      drawn = place.to;
      const double turn = degToRad(place.turn_deg);
      const double drop = 0.5 * kCapitalHeight * lettering.size_pt * kMmPerPt;
      Lettering turned = lettering;
      turned.turn_deg = place.turn_deg;
      canvas.text(place.at + Vec2{-std::sin(turn), std::cos(turn)} * drop, figure, turned);
      const double reach = 0.5 * width + 1;
      taken.add({place.at - Vec2{reach, reach}, place.at + Vec2{reach, reach}});
    }
  }
  canvas.path(stretchOf(line, drawn, length), false, stroke);
}

void paintHatch(Canvas& canvas, const Inks& inks, const Region& paper, Reason reason) {
  const Stroke thin{inks.ink, 0.15};
  switch (reason) {
    case Reason::served: return;
    case Reason::out_of_frame: canvas.outline(paper, {inks.ink, 0.28, Dash::dotted}); return;
    case Reason::too_coarse: canvas.dots(hatchDots(paper, 2.4), 0.42, inks.ink); return;
    case Reason::hidden: canvas.segments(hatchStrokes(paper, -45, 1.7), thin); return;
    case Reason::too_steep: canvas.segments(hatchStrokes(paper, 0, 1.7), thin); return;
    case Reason::turned_away:
      canvas.segments(hatchStrokes(paper, 0, 1.5, 1.5, 1.5), {inks.ink, 0.22});
      return;
    case Reason::unsharp:
      canvas.segments(hatchStrokes(paper, 0, 2.2), thin);
      canvas.segments(hatchStrokes(paper, 90, 2.2), thin);
      return;
    case Reason::too_dark:
      canvas.segments(hatchStrokes(paper, 45, 1.1), thin);
      canvas.segments(hatchStrokes(paper, -45, 1.1), thin);
      return;
    case Reason::masked: canvas.fill(paper, inks.masked); return;
  }
}

std::vector<design::TaskLine> taskLinesOf(const design::Design& design) {
  const auto scale = design::taskScale(design.task_table);
  return scale ? scale->lines : std::vector<design::TaskLine>{};
}

void paintZone(Canvas& canvas, const Sheet& sheet, const ToPaper& to_paper, const ZoneMap& map,
               const ZoneAreas& areas, Taken& taken, Occurs& occurs) {
  canvas.fill(to_paper(map.judged), sheet.inks.paper);
  for (const MarginBand& band : areas.bands) {
    // Half a step on: the band's middle.
    const double middle = band.margin * std::exp2(0.5 / kBandsPerOctave);
    canvas.fill(to_paper(band.area), sheet.inks.washAt(middle));
    occurs.wash = true;
  }
  for (const ReasonArea& part : areas.reasons) {
    const Region paper = to_paper(part.area);
    if (area(paper) == 0) continue;
    paintHatch(canvas, sheet.inks, paper, part.reason);
    occurs.reasons.insert(part.reason);
  }
  if (sheet.night && !sheet.night->lines.empty()) return;  // those are drawn instead
  for (const DensityLine& line : areas.lines) {
    const std::vector<Vec2> paper = to_paper(line.points);
    if (lengthOf(paper) < kShortestLineMm) continue;
    paintContour(canvas, paper, shortNumber(line.level.px_per_m * sheet.unit.m),
                 {sheet.inks.ink, line.level.heavy ? 0.32 : 0.13}, line.level.heavy, taken);
    (line.level.heavy ? occurs.heavy_lines : occurs.thin_lines) = true;
  }
}

}  // namespace belvedere::drawing
