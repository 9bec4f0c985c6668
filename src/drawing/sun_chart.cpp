// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/sun_chart.h"

#include <fmt/format.h>

#include <QPainter>
#include <QtGlobal>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/trade_figures.h"
#include "drawing/canvas.h"
#include "drawing/page_files.h"
#include "drawing/sheet.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

using light::SunChart;
using light::SunState;
using light::SunYear;

constexpr std::array<const char*, 12> kMonths{
    QT_TRANSLATE_NOOP("sheet", "Jan"), QT_TRANSLATE_NOOP("sheet", "Feb"), QT_TRANSLATE_NOOP("sheet", "Mar"),
    QT_TRANSLATE_NOOP("sheet", "Apr"), QT_TRANSLATE_NOOP("sheet", "May"), QT_TRANSLATE_NOOP("sheet", "Jun"),
    QT_TRANSLATE_NOOP("sheet", "Jul"), QT_TRANSLATE_NOOP("sheet", "Aug"), QT_TRANSLATE_NOOP("sheet", "Sep"),
    QT_TRANSLATE_NOOP("sheet", "Oct"), QT_TRANSLATE_NOOP("sheet", "Nov"), QT_TRANSLATE_NOOP("sheet", "Dec")};
std::string monthWord(int month) { return said(kMonths.at(static_cast<std::size_t>(month - 1))); }
constexpr double kMarginMm = 8, kHoursMm = 7, kDaysMm = 6, kRowMm = 5;
constexpr double kLeastPanelMm = 26;  // of the hours alone: less can no longer be read
constexpr double kWideMm = 180;       // narrower ones leave a panel's words to those who show it

// What hangs on the width.
struct Room {
  double title_pt, title_mm, head_mm;
  std::size_t subtitle_lines, legend_rows;
  bool words;
  explicit Room(double width_mm)
      : title_pt(width_mm < kWideMm ? 11 : 14), title_mm(width_mm < kWideMm ? 17 : 14),
        head_mm(width_mm < kWideMm ? 7 : 12), subtitle_lines(width_mm < kWideMm ? 3 : 1),
        legend_rows(width_mm < kWideMm ? 3 : 1), words(width_mm >= kWideMm) {}
};
constexpr int kHourStep = 3;

Rgb mixed(Rgb a, Rgb b, double share) {
  const auto part = [share](std::uint8_t from, std::uint8_t to) {
    return static_cast<std::uint8_t>(std::lround(from + (to - from) * share));
  };
  return {part(a.red, b.red), part(a.green, b.green), part(a.blue, b.blue)};
}

// Tones of a chart; they differ in lightness, so that they tell in grey.
struct Tones {
  Rgb night, up, near, in_frame, hidden;
  explicit Tones(const Inks& inks)
      : night(inks.solid), up(inks.paper), near(mixed(inks.paper, inks.accent, 0.4)),
        in_frame(inks.accent), hidden(inks.quiet) {}
};

// Where things are on that paper.
struct Plot {
  std::vector<Box2> panels;  // days and hours of each that has room
  double legend_y = 0;
};
Plot plotOf(const SunSheet& sheet, double width_mm, double height_mm) {
  Plot plot;
  const Room room_for(width_mm);
  plot.legend_y = height_mm - kMarginMm - kRowMm * static_cast<double>(room_for.legend_rows - 1);
  const double top = kMarginMm + room_for.title_mm, bottom = plot.legend_y - kRowMm;
  const double each_least = room_for.head_mm + kLeastPanelMm + kDaysMm;
  const auto room = static_cast<std::size_t>(std::max(1.0, std::floor((bottom - top) / each_least)));
  const std::size_t count = std::min(room, sheet.panels.size());
  if (count == 0) return plot;
  const double each = (bottom - top) / static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double y = top + each * static_cast<double>(i);
    plot.panels.push_back({{kMarginMm + kHoursMm, y + room_for.head_mm}, {width_mm - kMarginMm, y + each - kDaysMm}});
  }
  return plot;
}

Vec2 toPaper(const SunYear& year, const Box2& box, Vec2 day_and_hour) {
  return {box.low.x + (box.high.x - box.low.x) * day_and_hour.x / year.days,
          box.low.y + (box.high.y - box.low.y) * day_and_hour.y / 24};
}

Region onPaper(const SunYear& year, const Box2& box, const std::vector<Ring>& bands) {
  Region region;
  for (const Ring& band : bands) {
    Ring ring;
    for (const Vec2 p : band) ring.push_back(toPaper(year, box, p));
    region.push_back({std::move(ring), {}});
  }
  return region;
}

bool holds(SunState state, SunDrawn drawn) {
  switch (drawn) {
    case SunDrawn::up: return state != SunState::down;
    case SunDrawn::near_or_in: return state == SunState::near || state == SunState::in_frame;
    case SunDrawn::in_frame: return state == SunState::in_frame;
    case SunDrawn::hidden: return state == SunState::hidden;
  }
  return false;
}

void paintGrid(Canvas& canvas, const SunSheet& sheet, const Box2& box) {
  const Inks& inks = sheet.inks;
  const Rgb line = mixed(inks.solid, inks.quiet, 0.35);
  const double hour_mm = (box.high.y - box.low.y) / 24;
  const int step = hour_mm * kHourStep < 4.2 ? 2 * kHourStep : kHourStep;
  for (int hour = 0; hour <= 24; hour += step) {
    const double y = box.low.y + hour_mm * hour;
    if (hour > 0 && hour < 24) canvas.line({box.low.x, y}, {box.high.x, y}, {line, 0.1});
    canvas.text({box.low.x - 1.6, y + 1.1}, fmt::format("{:02}", hour), {inks.quiet, 9, false, Align::right});
  }
  int day = 0;
  for (int month = 0; month < 12; ++month) {
    int days = 0;
    while (day + days < sheet.year.days &&
           std::stoi(light::dateOf(sheet.year, day + days).substr(5, 2)) == month + 1)
      ++days;
    const double from = toPaper(sheet.year, box, {static_cast<double>(day), 0}).x;
    const double to = toPaper(sheet.year, box, {static_cast<double>(day + days), 0}).x;
    if (month > 0) canvas.line({from, box.low.y}, {from, box.high.y}, {line, 0.1});
    canvas.text({0.5 * (from + to), box.high.y + 4.2},
                canvas.fitted(monthWord(month + 1), {inks.quiet, 9}, to - from),
                {inks.quiet, 9, false, Align::middle});
    day += days;
  }
}

void paintPanel(Canvas& canvas, const SunSheet& sheet, const SunPanel& panel, const Box2& box, bool words) {
  const Inks& inks = sheet.inks;
  const Tones tones(inks);
  const double width = box.high.x - box.low.x;
  canvas.text({box.low.x, box.low.y - (words ? 6.6 : 2)}, canvas.fitted(panel.heading, {inks.ink, 11, true}, width),
              {inks.ink, 11, true});
  if (words)
    canvas.text({box.low.x, box.low.y - 2}, canvas.fitted(panel.words, {inks.ink, 9}, width), {inks.ink, 9});
  canvas.fillBox(box, tones.night);
  const auto bands = [&](SunDrawn drawn) {
    return onPaper(sheet.year, box, sunBands(sheet.year, panel.chart, drawn));
  };
  const Region up = bands(SunDrawn::up);
  canvas.fill(up, tones.up);
  paintGrid(canvas, sheet, box);
  canvas.outline(up, {inks.quiet, 0.13});
  const Region hidden = bands(SunDrawn::hidden);
  canvas.segments(hatchStrokes(hidden, 45, 1.3), {tones.hidden, 0.16});
  canvas.outline(hidden, {tones.hidden, 0.13});
  const Region near = bands(SunDrawn::near_or_in);
  canvas.fill(near, panel.behind ? tones.in_frame : tones.near);
  canvas.outline(near, {tones.in_frame, 0.15});
  canvas.fill(bands(SunDrawn::in_frame), tones.in_frame);
  canvas.box(box, {inks.ink, 0.2});
}

void paintLegend(Canvas& canvas, const SunSheet& sheet, double width_mm, double y) {
  const Inks& inks = sheet.inks;
  const Tones tones(inks);
  const Lettering lettering{inks.ink, 9};
  const auto any = [&](bool behind) {
    return std::any_of(sheet.panels.begin(), sheet.panels.end(),
                       [behind](const SunPanel& panel) { return panel.behind == behind; });
  };
  double x = kMarginMm + kHoursMm;
  const auto sample = [&](const std::string& words, Rgb fill, Rgb edge, bool hatched) {
    if (x + 8 + canvas.width(words, lettering) > width_mm - kMarginMm) {
      x = kMarginMm + kHoursMm;
      y += kRowMm;
    }
    const Box2 box{{x, y - 3}, {x + 6, y + 0.4}};
    canvas.fillBox(box, fill);
    if (hatched)
      canvas.segments(hatchStrokes({{{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}, {}}},
                                   45, 1.3), {tones.hidden, 0.16});
    canvas.box(box, {edge, 0.15});
    canvas.text({x + 8, y}, words, lettering);
    x += 13 + canvas.width(words, lettering);
  };
  if (any(false)) {
    sample(said("in the picture"), tones.in_frame, tones.in_frame, false);
    sample(fmt::format(fmt::runtime(said("within {} deg of it")), fmt::format("{:g}", light::kSunNearDeg)),
           tones.near, tones.in_frame, false);
  }
  if (any(true))
    sample(any(false) ? said("or behind the faces") : said("behind the faces"), tones.in_frame, tones.in_frame,
           false);
  sample(said("hidden by what stands between"), tones.up, tones.hidden, true);
  sample(said("sun up elsewhere"), tones.up, inks.quiet, false);
  sample(said("sun down"), tones.night, inks.quiet, false);
}

std::string wordOf(SunState state, bool behind) {
  switch (state) {
    case SunState::down: return said("sun down");
    case SunState::elsewhere: return said("up, elsewhere");
    case SunState::hidden: return behind ? said("behind the faces, hidden by what stands between")
                                         : said("hidden by what stands between");
    case SunState::near: return behind ? said("low behind the faces") : said("near the picture");
    case SunState::in_frame: return said("in the picture");
  }
  return {};
}

}  // namespace

std::vector<Ring> sunBands(const SunYear& year, const SunChart& chart, SunDrawn drawn) {
  // Stretches of hours of one day, each carried on where the next day has one that meets it alone.
  struct Open {
    std::vector<double> from_h, to_h;  // day by day
    int first_day = 0;
  };
  std::vector<Open> open;
  std::vector<Ring> bands;
  const auto close = [&](const Open& band) {
    Ring ring;
    const auto days = static_cast<int>(band.from_h.size());
    const auto add = [&](const std::vector<double>& hours, int i) {
      const double h = hours[static_cast<std::size_t>(i)];
      if (i == 0) ring.push_back({static_cast<double>(band.first_day), h});
      ring.push_back({band.first_day + i + 0.5, h});
      if (i == days - 1) ring.push_back({static_cast<double>(band.first_day + days), h});
    };
    for (int i = 0; i < days; ++i) add(band.from_h, i);
    Ring lower;
    std::swap(ring, lower);
    for (int i = 0; i < days; ++i) add(band.to_h, i);
    lower.insert(lower.end(), ring.rbegin(), ring.rend());
    bands.push_back(std::move(lower));
  };
  for (int day = 0; day <= year.days; ++day) {
    std::vector<std::pair<double, double>> stretches;
    for (int step = 0; day < year.days && step < year.steps_per_day; ++step) {
      if (!holds(chart.state[year.at(day, step)], drawn)) continue;
      const double from = step * year.hoursPerStep(), to = from + year.hoursPerStep();
      if (!stretches.empty() && stretches.back().second >= from - 1e-9) stretches.back().second = to;
      else stretches.push_back({from, to});
    }
    const auto meets = [](const Open& band, const std::pair<double, double>& stretch) {
      return stretch.first < band.to_h.back() && stretch.second > band.from_h.back();
    };
    std::vector<Open> next;
    std::vector<bool> carried(open.size(), false);
    for (const auto& stretch : stretches) {
      std::size_t met = 0, which = 0;
      for (std::size_t i = 0; i < open.size(); ++i)
        if (meets(open[i], stretch)) {
          ++met;
          which = i;
        }
      const bool alone = met == 1 && std::count_if(stretches.begin(), stretches.end(), [&](const auto& other) {
                           return meets(open[which], other);
                         }) == 1;
      Open band = alone ? open[which] : Open{{}, {}, day};
      if (alone) carried[which] = true;
      band.from_h.push_back(stretch.first);
      band.to_h.push_back(stretch.second);
      next.push_back(std::move(band));
    }
    for (std::size_t i = 0; i < open.size(); ++i)
      if (!carried[i]) close(open[i]);
    open = std::move(next);
  }
  return bands;
}

SunSheet sunSheet(const design::Design& design, const std::string& imager,
                  const design::Situation& situation, SunYear year,
                  const std::vector<proof::SunOfImager>& frames,
                  const std::vector<proof::BacklightOf>& behind) {
  SunSheet sheet;
  sheet.year = std::move(year);
  sheet.title = fmt::format(fmt::runtime(said("The sun on {} in {}")), imager, sheet.year.year);
  if (!design.title.empty()) sheet.title += ": " + design.title;
  if (const auto& place = design.site.place)
    sheet.subtitle = fmt::format("{:.2f} {}, {:.2f} {}; ", std::fabs(place->lat_deg),
                                 place->lat_deg < 0 ? said("S") : said("N"), std::fabs(place->lon_deg),
                                 place->lon_deg < 0 ? said("W") : said("E"));
  sheet.subtitle += fmt::format(fmt::runtime(said("hours of a clock at UTC{}, without summer time; what stands "
                                                  "in {}; clouds are not counted")),
                                fmt::format("{:+g}", sheet.year.utc_offset_h),
                                situation.title.empty() ? situation.id.text : situation.title);
  for (const proof::SunOfImager& of : frames)
    sheet.panels.push_back({frames.size() > 1
                                ? fmt::format(fmt::runtime(said("In or near the picture of {}")), of.view.name)
                                : said("In or near the picture"),
                            proof::frameWords(sheet.year, of.chart), of.chart, false});
  for (const proof::BacklightOf& of : behind) {
    const design::Requirement* r = design::findRequirement(design, of.requirement);
    std::string purpose = r && !r->purpose.empty() ? ": " + r->purpose : "";
    if (of.situation != situation.id) purpose += fmt::format(fmt::runtime(said(" (in {})")), of.situation.text);
    sheet.panels.push_back({fmt::format(fmt::runtime(said("Low behind the faces of {}{}")), of.requirement.text,
                                        purpose),
                            proof::backlightWords(sheet.year, of.chart), of.chart, true});
  }
  return sheet;
}

void paintSunSheet(QPainter& painter, const SunSheet& sheet, double width_mm, double height_mm) {
  Canvas canvas(painter);
  const Inks& inks = sheet.inks;
  const double width = width_mm - 2 * kMarginMm;
  canvas.fillBox({{0, 0}, {width_mm, height_mm}}, inks.paper);
  const Room room(width_mm);
  const Lettering title{inks.ink, room.title_pt, true}, quiet{inks.quiet, 9};
  canvas.text({kMarginMm, kMarginMm + 3}, canvas.fitted(sheet.title, title, width), title);
  double y = kMarginMm + 8;
  for (const std::string& line : canvas.wrapped(sheet.subtitle, quiet, width, room.subtitle_lines)) {
    canvas.text({kMarginMm, y}, line, quiet);
    y += 3.9;
  }
  const Plot plot = plotOf(sheet, width_mm, height_mm);
  for (std::size_t i = 0; i < plot.panels.size(); ++i)
    paintPanel(canvas, sheet, sheet.panels[i], plot.panels[i], room.words);
  paintLegend(canvas, sheet, width_mm, plot.legend_y);
  if (plot.panels.size() < sheet.panels.size()) {
    std::string others;
    for (std::size_t i = plot.panels.size(); i < sheet.panels.size(); ++i)
      others += (others.empty() ? said("no room for: ") : "; ") + sheet.panels[i].heading;
    canvas.text({kMarginMm, height_mm - 2.5}, canvas.fitted(others, quiet, width), quiet);
  }
}

std::optional<std::string> sunWordsAt(const SunSheet& sheet, Vec2 at_mm, double width_mm,
                                      double height_mm) {
  const Plot plot = plotOf(sheet, width_mm, height_mm);
  for (std::size_t i = 0; i < plot.panels.size(); ++i) {
    const Box2& box = plot.panels[i];
    if (at_mm.x < box.low.x || at_mm.x >= box.high.x || at_mm.y < box.low.y || at_mm.y >= box.high.y) continue;
    const int day = static_cast<int>((at_mm.x - box.low.x) / (box.high.x - box.low.x) * sheet.year.days);
    const double hour = (at_mm.y - box.low.y) / (box.high.y - box.low.y) * 24;
    const int step = std::min(static_cast<int>(hour / sheet.year.hoursPerStep()), sheet.year.steps_per_day - 1);
    const std::string date = light::dateOf(sheet.year, day);
    return fmt::format(fmt::runtime(said("{} {}, {}: {}")), std::stoi(date.substr(8, 2)),
                       monthWord(std::stoi(date.substr(5, 2))),
                       clockText(step * sheet.year.hoursPerStep()),
                       wordOf(sheet.panels[i].chart.state[sheet.year.at(day, step)], sheet.panels[i].behind));
  }
  return {};
}

void writeSunSheet(const SunSheet& sheet, const std::filesystem::path& path, double dpi) {
  const Page page{sheet.title, "Sun chart drawn by Belvedere", kSunWidthMm, kSunHeightMm,
                  [&sheet](QPainter& painter) { paintSunSheet(painter, sheet); }};
  if (path.extension() == ".svg") writeSvg(page, path);
  else if (path.extension() == ".pdf") writePdf(page, path);
  else writePng(page, path, dpi);
}

}  // namespace belvedere::drawing
