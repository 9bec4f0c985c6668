// SPDX-License-Identifier: GPL-3.0-or-later
//
// Below the plan: scale bar, north, the legend of what occurs, the title block.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "base/units.h"
#include "design/task_table.h"
#include "drawing/night_words.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

constexpr double kBarMostMm = 54;
constexpr int kBarParts = 5;

// One sample: a small box to paint in, and words.
struct Sample {
  std::string words;
  std::function<void(const Box2&)> paint;
};

Region regionOf(const Box2& box) {
  return {{{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}, {}}};
}

std::vector<Sample> samplesOf(Canvas& canvas, const Inks& inks, const Occurs& occurs,
                              const LengthUnit& unit) {
  std::vector<Sample> samples;
  for (const proof::Reason reason : occurs.reasons)
    samples.push_back({phrase(reason), [&canvas, inks, reason](const Box2& box) {
                         paintHatch(canvas, inks, regionOf(box), reason);
                         if (reason != proof::Reason::out_of_frame)
                           canvas.box(box, {inks.ink, 0.15});
                       }});
  const auto line = [&](const std::string& words, Stroke stroke) {
    samples.push_back({words, [&canvas, stroke](const Box2& box) {
                         const double y = 0.5 * (box.low.y + box.high.y);
                         canvas.line({box.low.x, y}, {box.high.x, y}, stroke);
                       }});
  };
  if (occurs.heavy_lines) 
    line(fmt::format(fmt::runtime(said("px/{} of a task")), unit.name), {inks.ink, 0.32});
  if (occurs.thin_lines) 
    line(fmt::format(fmt::runtime(said("px/{} between")), unit.name), {inks.ink, 0.13});
  if (occurs.lux_lines) line(occurs.lux_words, {inks.ink, 0.16});
  if (occurs.lamp_lines)
    line(said("×1: lamps' range"), {inks.ink, 0.32, Dash::dashed});
  if (occurs.lamps_on || occurs.lamps_off)
    samples.push_back({occurs.lamps_off ? occurs.lamps_on ? said("lamps: on, off") : said("lamp: off")
                                        : said("lamp: on"),
                       [&canvas, inks, on = occurs.lamps_on, off = occurs.lamps_off](const Box2& box) {
                         const double y = 0.5 * (box.low.y + box.high.y), x = box.low.x + 1;
                         if (on) paintLamp(canvas, inks, {x, y}, {x + 2.2, y}, true);
                         if (off) paintLamp(canvas, inks, {x + 3.2, y}, {x + 5.4, y}, false);
                       }});
  if (occurs.threads)
    samples.push_back({said("lamp follows imager"), [&canvas, inks](const Box2& box) {
                         const double y = 0.5 * (box.low.y + box.high.y), x = box.low.x + 1;
                         canvas.line({x + 0.6, y}, {x + 3.2, y}, {inks.ink, 0.15});
                         canvas.disc({x, y}, 0.55, inks.ink);
                         paintLamp(canvas, inks, {x + 3.2, y}, {x + 5.4, y}, true);
                       }});
  if (occurs.in_mono)
    samples.push_back({said("imager in mono"), [&canvas, inks](const Box2& box) {
                         canvas.ring((box.low + box.high) * 0.5, 0.65, {inks.ink, 0.25});
                       }});
  if (occurs.luminaires)
    samples.push_back({said("luminaire"), [&canvas, inks](const Box2& box) {
                         paintLuminaire(canvas, inks, (box.low + box.high) * 0.5);
                       }});
  if (occurs.outlines) line(said("an imager serves"), {inks.ink, 0.2});
  if (occurs.selected_outline) line(said("the selected imager serves"), {inks.accent, 0.45});
  if (occurs.selected_frame)
    line(said("the selected imager's frame"), {inks.accent, 0.35, Dash::dashed});
  if (occurs.blind) line(said("blind zone"), {inks.ink, 0.25, Dash::dashed});
  if (occurs.worst)
    samples.push_back({said("worst spot"), [&canvas, inks](const Box2& box) {
                         const Vec2 at = (box.low + box.high) * 0.5;
                         canvas.line(at - Vec2{1.3, 1.3}, at + Vec2{1.3, 1.3}, {inks.ink, 0.4});
                         canvas.line(at - Vec2{1.3, -1.3}, at + Vec2{1.3, -1.3}, {inks.ink, 0.4});
                       }});
  if (occurs.dials)
    samples.push_back({occurs.stops ? said("fields, axes, stops") : said("fields, axes"),
                       [&canvas, inks, stops = occurs.stops](const Box2& box) {
                         const Vec2 at = (box.low + box.high) * 0.5;
                         canvas.ring(at, 2.2, {inks.ink, 0.18});
                         canvas.arc(at, 1.6, 20, 130, {inks.ink, 0.42});
                         canvas.disc(at + Vec2{1.55, 0.41}, 0.45, inks.ink);
                         canvas.disc(at, 0.3, inks.ink);
                         if (stops)
                           canvas.line(at + Vec2{-1.9, 0}, at + Vec2{-3, 0}, {inks.ink, 0.25});
                       }});
  for (const ServiceMark mark : occurs.services)
    samples.push_back({phrase(mark), [&canvas, inks, mark](const Box2& box) {
                         paintServiceMark(canvas, inks, (box.low + box.high) * 0.5, mark);
                       }});
  if (occurs.low)
    samples.push_back({said("from above"), [&canvas, inks](const Box2& box) {
                         canvas.fillBox(box, inks.solid);
                         canvas.box(box, {inks.ink, 0.22});
                       }});
  if (occurs.overhead)
    samples.push_back({said("overhead"), [&canvas, inks](const Box2& box) {
                         canvas.box(box, {inks.quiet, 0.15, Dash::dashed});
                       }});
  return samples;
}

// The wash's stops, as a smooth run with its numbers.
void paintWash(Canvas& canvas, const Inks& inks, Vec2 at, double width) {
  canvas.text(at, said("margin: found over needed density"), {inks.ink, 9});
  const double top = at.y + 1.8, bottom = top + 4;
  constexpr int kSteps = 72;
  for (int i = 0; i < kSteps; ++i) {
    const double x = at.x + width * i / kSteps;
    // Each step reaches under those after it, so that no seam shows.
    canvas.fillBox({{x, top}, {at.x + width, bottom}},
                   inks.washAt(std::exp2(3.0 * (i + 0.5) / kSteps)));
  }
  canvas.box({{at.x, top}, {at.x + width, bottom}}, {inks.ink, 0.15});
  const std::string words[] = {said("just met"), said("2 times"), "4", said("8 and more")};
  for (int i = 0; i < 4; ++i) {
    const double x = at.x + width * i / 3;
    canvas.line({x, bottom}, {x, bottom + 1}, {inks.ink, 0.18});
    canvas.text({x, bottom + 4.4}, words[i],
                {inks.ink, 9, false,
                 i == 0 ? Align::left : i == 3 ? Align::right : Align::middle});
  }
}

}  // namespace

void paintLegend(Canvas& canvas, const Sheet& sheet, const Box2& box, const Occurs& occurs) {
  // Three columns: the wash over the first two, samples below it and down the third.
  const Inks& inks = sheet.inks;
  constexpr double kRowMm = 5.5, kLineMm = 3.7, kSampleMm = 7.5;
  constexpr std::size_t kColumns = 3, kLinesMost = 2;
  const double left = box.low.x + 3, top = box.low.y + 5.6;
  const double own = (box.high.x - box.low.x - 4) / kColumns;
  if (occurs.wash) paintWash(canvas, inks, {left, top}, 2 * own - 6);
  const std::vector<Sample> samples = samplesOf(canvas, inks, occurs, sheet.unit);
  std::size_t next = 0;
  for (std::size_t column = 0; column < kColumns; ++column) {
    double y = occurs.wash && column < 2 ? top + 15.2 : top;
    for (; next < samples.size() && y < box.high.y - 1.5; ++next, y += kRowMm) {
      const double x = left + own * static_cast<double>(column);
      const std::vector<std::string> lines =
          canvas.wrapped(samples[next].words, {inks.ink, 9}, own - kSampleMm - 3, kLinesMost);
      const double last_y = y + kLineMm * static_cast<double>(lines.size() - 1);
      if (last_y > box.high.y - 1.5) break;  // it has room in the next column, or none
      samples[next].paint({{x, y - 3.3}, {x + kSampleMm, y + 0.7}});
      for (const std::string& words : lines) {
        canvas.text({x + kSampleMm + 2, y}, words, {inks.ink, 9});
        if (&words != &lines.back()) y += kLineMm;
      }
    }
  }
}

double paintLegendRows(Canvas& canvas, const Inks& inks, const Box2& box, const Occurs& occurs,
                       const LengthUnit& unit) {
  constexpr double kRowMm = 5.5, kSampleMm = 7.5, kGapMm = 2, kApartMm = 5, kWashMm = 80,
                   kWashHighMm = 15;
  std::vector<Sample> samples = samplesOf(canvas, inks, occurs, unit);
  const Lettering lettering{inks.ink, 9};
  const auto widthOf = [&](const Sample& sample) {
    return kSampleMm + kGapMm + canvas.width(sample.words, lettering);
  };
  // What has no room beside the wash comes below it.
  std::ranges::stable_partition(samples, [&](const Sample& sample) {
    return !occurs.wash || box.low.x + kWashMm + kApartMm + widthOf(sample) <= box.high.x;
  });
  // Rows from the first on; the last one lies lowest. Beside the wash, and over all the width below it.
  struct Placed {
    std::size_t sample = 0, row = 0;
    double x = 0;
  };
  std::vector<Placed> placed;
  std::size_t row = 0;
  const auto firstOf = [&](std::size_t of_row) {
    const bool beside_wash = occurs.wash && kRowMm * static_cast<double>(of_row) < kWashHighMm;
    return box.low.x + (beside_wash ? kWashMm + kApartMm : 0);
  };
  double x = firstOf(0);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const double width = widthOf(samples[i]);
    while (x + width > box.high.x && x > box.low.x) {
      ++row;
      x = firstOf(row);
    }
    placed.push_back({i, row, x});
    x += width + kApartMm;
  }
  const double rows_mm = samples.empty() ? 0 : kRowMm * static_cast<double>(row + 1);
  const double high_mm = std::max(rows_mm, occurs.wash ? kWashHighMm : 0);
  if (high_mm == 0) return 0;
  const double top = box.high.y - high_mm;
  if (occurs.wash) paintWash(canvas, inks, {box.low.x, top + 3.6}, kWashMm - 2);
  for (const Placed& here : placed) {
    const double y = top + 4 + kRowMm * static_cast<double>(here.row);
    samples[here.sample].paint({{here.x, y - 3.3}, {here.x + kSampleMm, y + 0.7}});
    canvas.text({here.x + kSampleMm + kGapMm, y},
                canvas.fitted(samples[here.sample].words, lettering,
                              box.high.x - here.x - kSampleMm - kGapMm),
                lettering);
  }
  return high_mm;
}

Occurs together(Occurs a, const Occurs& b) {
  a.reasons.insert(b.reasons.begin(), b.reasons.end());
  a.services.insert(b.services.begin(), b.services.end());
  for (bool Occurs::*const part :
       {&Occurs::wash, &Occurs::thin_lines, &Occurs::heavy_lines, &Occurs::outlines,
        &Occurs::selected_outline, &Occurs::selected_frame, &Occurs::blind,
        &Occurs::dials, &Occurs::stops, &Occurs::worst, &Occurs::low, &Occurs::overhead,
        &Occurs::openings, &Occurs::lux_lines, &Occurs::lamp_lines, &Occurs::lamps_on,
        &Occurs::lamps_off, &Occurs::threads, &Occurs::in_mono, &Occurs::luminaires})
    a.*part = a.*part || b.*part;
  if (a.lux_words.empty()) a.lux_words = b.lux_words;
  return a;
}

double paintScaleBar(Canvas& canvas, const Inks& inks, Vec2 at, double mm_per_m, double most_mm,
                     const LengthUnit& unit) {
  const double most_units = most_mm / (kBarParts * mm_per_m * unit.m);
  const double ten = std::pow(10, std::floor(std::log10(most_units)));
  double step = ten;
  for (const double times : {2.0, 5.0})
    if (times * ten <= most_units) step = times * ten;
  const int decimals = step >= 1 ? 0 : static_cast<int>(std::ceil(-std::log10(step) - 1e-9));
  const double part = step * unit.m * mm_per_m;
  for (int i = 0; i < kBarParts; ++i) {
    const Box2 piece{{at.x + part * i, at.y}, {at.x + part * (i + 1), at.y + 1.4}};
    if (i % 2 == 0) canvas.fillBox(piece, inks.ink);
  }
  canvas.box({at, {at.x + part * kBarParts, at.y + 1.4}}, {inks.ink, 0.18});
  const Lettering lettering{inks.ink, 9, false, Align::middle};
  double free_from = -1e300;  // short parts: only those figures that have room
  for (int i = 0; i <= kBarParts; ++i) {
    const bool last = i == kBarParts;
    std::string figure = shortNumber(step * i, decimals);
    if (last) figure = figure + " " + unit.name;
    const double half = 0.5 * canvas.width(figure, lettering), x = at.x + part * i;
    const double end_from =
        at.x + part * kBarParts -
        0.5 * canvas.width(shortNumber(step * kBarParts, decimals) + " " + unit.name, lettering);
    if (!last && i > 0 && (x - half < free_from || x + half > end_from - 0.8)) continue;
    canvas.text({x, at.y + 5.6}, figure, lettering);
    free_from = x + half + 0.8;
  }
  return part * kBarParts;
}

void paintNorth(Canvas& canvas, const Sheet& sheet, Vec2 middle, double length_mm) {
  const Inks& inks = sheet.inks;
  const auto& place = sheet.design->site.place;
  const double bearing = degToRad(place ? place->north_deg : 0), large = length_mm / 12;
  const Vec2 up{std::sin(bearing), -std::cos(bearing)}, side{-up.y, up.x};
  const Vec2 low = middle - up * (6 * large), tip = middle + up * (6 * large);
  canvas.line(low, tip, {inks.ink, 0.25});
  const Vec2 back = tip - up * (3.4 * large), notch = tip - up * (2.7 * large),
             out = side * (1.2 * large);
  canvas.fill({{{tip, back + out, notch}, {}}}, inks.ink);
  canvas.path({tip, back - out, notch}, false, {inks.ink, 0.18});
  canvas.text(tip + up * 2.6 + Vec2{0, 1.15}, "N",
              {inks.ink, large < 1 ? 9.0 : 11.0, true, Align::middle});
}

void paintScaleAndNorth(Canvas& canvas, const Sheet& sheet, const Layout& layout) {
  const Inks& inks = sheet.inks;
  const Box2& box = layout.scale_and_north;
  paintScaleBar(canvas, inks, {box.low.x + 5, box.high.y - 12}, layout.to_paper.mm_per_m,
                kBarMostMm, sheet.unit);
  paintNorth(canvas, sheet, {box.low.x + 13, box.low.y + 15}, 12);
  const auto& place = sheet.design->site.place;
  canvas.text({box.low.x + 24, box.low.y + 14}, fmt::format("1:{}", shortNumber(layout.scale)),
              {inks.ink, 20, true});
  canvas.text({box.low.x + 24, box.low.y + 19.5},
              place ? said("north is true north") : said("north as drawn"), {inks.quiet, 9});
}

void paintTitle(Canvas& canvas, const Sheet& sheet, const Layout& layout,
                const std::string& paper_name) {
  const Inks& inks = sheet.inks;
  const Box2& box = layout.title;
  canvas.fillBox(box, inks.paper);
  canvas.box(box, {inks.ink, 0.35});
  const double left = box.low.x + 4, right = box.high.x - 4;
  const Lettering quiet{inks.quiet, 9}, plain{inks.ink, 9};
  const Lettering title{inks.ink, 11, true};
  const std::vector<std::string> heads =
      canvas.wrapped(sheet.design->title, title, right - left, 2);
  double y = box.low.y + (heads.size() > 1 ? 5.6 : 7.4);
  for (const std::string& head : heads) {
    canvas.text({left, y}, head, title);
    y += 4.8;
  }
  y = box.low.y + 12.6;
  canvas.line({box.low.x, y}, {box.high.x, y}, {inks.rules, 0.25});

  const design::Storey& storey = storeyOf(sheet);
  const design::Situation situation = situationOf(sheet);
  std::string shown;
  for (const ZoneMap& map : sheet.maps) {
    const std::string& id = map.spots.requirement.text;
    shown += (shown.empty() ? "" : ", ") + id;
  }
  // A withheld zone has no map: it is shown where it is the one selected.
  if (const auto* selected = design::findRequirement(sheet.design, sheet.selected_requirement);
      selected && selected->kind == design::RequirementKind::withhold)
    shown += (shown.empty() ? "" : ", ") + selected->id.text;
  const auto scale = design::taskScale(sheet.design->task_table);
  const std::string edition =
      !sheet.proof.edition.empty() ? sheet.proof.edition : scale ? scale->title : "";
  const std::string paper =
      paper_name.empty() ? "" : fmt::format(fmt::runtime(said(" on {}")), paper_name);
  std::string revision;
  if (!sheet.design->revisions.empty()) {
    const design::Revision& last = sheet.design->revisions.back();
    for (const std::string* part : {&last.id.text, &last.date, &last.says})
      if (!part->empty()) revision += (revision.empty() ? "" : ", ") + *part;
  }
  const auto field = [&](double x, double at_y, double label_mm, double width_mm, const std::string& label,
                         const std::string& value) {
    canvas.text({x, at_y}, label, quiet);
    canvas.text({x + label_mm, at_y}, canvas.fitted(value, plain, width_mm - label_mm), plain);
  };
  const double half = 0.5 * (box.low.x + box.high.x) + 4, half_mm = half - left - 3;
  const double line = 4.75;
  y += line - 0.2;
  field(left, y, 19, half_mm, said("storey"), storey.title.empty() ? storey.id.text : storey.title);
  field(half, y, 18, right - half, said("scale"),
        fmt::format("1:{}{}", shortNumber(layout.scale), paper));
  y += line;
  std::string light;
  if (sheet.night && sheet.night->most_lux > 0) light = "; " + lightWords(*sheet.night, sheet.unit);
  field(left, y, 19, right - left, said("situation"),
        (situation.title.empty() ? situation.id.text : situation.title) + light);
  y += line;
  field(left, y, 19, half_mm, said("tasks"), edition);
  field(half, y, 18, right - half, said("design"),
        sheet.design_sha256.empty() ? said("not saved") : sheet.design_sha256.substr(0, 8));
  y += line;
  field(left, y, 19, right - left, said("shown"), shown.empty() ? said("no requirement") : shown);
  y += line;
  field(left, y, 19, right - left, said("revision"), revision.empty() ? said("none yet") : revision);
  y += line;
  canvas.text({left, y},
              canvas.fitted(said("A computed design is an aid: walk-test before sign-off."), quiet,
                            right - left), quiet);
}

}  // namespace belvedere::drawing
