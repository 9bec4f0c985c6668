// SPDX-License-Identifier: GPL-3.0-or-later
#include <QImage>
#include <QObject>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "desk/room_words.h"
#include "desk/says.h"
#include "desk/section_overlay.h"
#include "desk/shown_units.h"

namespace belvedere::desk {
namespace {

constexpr double kStripMm = 4.6, kBracketMm = 2.6;  // for a line of words, for the blind bracket
constexpr double kPaperInk = 0.86;   // the plan shows through a little
constexpr double kMarginMm = 1, kBetweenMm = 4, kWordsPt = 9;

Ring clipped(Ring ring, const Box2& box) {
  ring = clipHalfPlane(ring, {1, 0}, box.high.x);
  if (!ring.empty()) ring = clipHalfPlane(ring, {-1, 0}, -box.low.x);
  if (!ring.empty()) ring = clipHalfPlane(ring, {0, 1}, box.high.y);
  if (!ring.empty()) ring = clipHalfPlane(ring, {0, -1}, -box.low.y);
  return ring;
}

// The part of a line within along [low, high] and z [low, high]; nothing where none is.
std::optional<std::pair<Vec2, Vec2>> clipped(Vec2 a, Vec2 b, const Box2& box) {
  double from = 0, to = 1;
  const auto cut = [&](double at, double way, double low, double high) {
    if (std::abs(way) < 1e-12) {
      if (at < low || at > high) to = -1;
      return;
    }
    double s = (low - at) / way, t = (high - at) / way;
    if (s > t) std::swap(s, t);
    from = std::max(from, s);
    to = std::min(to, t);
  };
  cut(a.x, b.x - a.x, box.low.x, box.high.x);
  cut(a.y, b.y - a.y, box.low.y, box.high.y);
  if (from > to) return std::nullopt;
  return std::pair{a + (b - a) * from, a + (b - a) * to};
}

// To the centimetre: what is read off a drawing.
std::string length(double m) {
  return edit::lengthText(std::round(m * 100) / 100, shownUnits());
}

}  // namespace

SectionOverlay::Caption SectionOverlay::caption(const drawing::Canvas& canvas,
                                                const drawing::Inks& inks,
                                                double mm_per_m) const {
  const edit::Section& section = live_->section;
  const Box2 box = drawnIn(section);
  const auto text = [](const std::string& words) { return QString::fromStdString(words); };
  std::vector<std::pair<QString, drawing::Rgb>> parts;
  parts.emplace_back(QObject::tr("lens %1, tilt %2")
                         .arg(text(length(live_->lens_height_m)),
                              text(edit::angleText(live_->tilt_deg))),
                     inks.accent);
  if (section.blind_m)
    parts.emplace_back(section.blind_ends ? QObject::tr("not in frame to %1")
                                                .arg(text(length((*section.blind_m)[1])))
                                          : QObject::tr("nowhere in frame"),
                       inks.ink);
  QString low = text(length(live_->band_m[0]));
  if (low.endsWith(" m")) low.chop(2);
  parts.emplace_back(QObject::tr("%1 %2 to %3")
                         .arg(roomWord(live_->target))
                         .arg(low)
                         .arg(text(length(live_->band_m[1]))),
                     inks.quiet);
  Caption caption;
  caption.length_mm = (box.high.x - box.low.x) * mm_per_m;
  std::vector<double> widths;
  for (const auto& [words, ink] : parts) {
    widths.push_back(canvas.width(words.toStdString(), {ink, kWordsPt}));
    caption.length_mm = std::max(caption.length_mm, widths.back() + 2 * kMarginMm);
  }
  double at_mm = caption.length_mm;  // the first begins a line
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (at_mm + widths[i] > caption.length_mm - kMarginMm) {
      caption.lines.emplace_back();
      at_mm = kMarginMm;
    }
    caption.lines.back().push_back({parts[i].first.toStdString(), parts[i].second, at_mm, widths[i]});
    at_mm += widths[i] + kBetweenMm;
  }
  return caption;
}

// Along the axis and z: what is drawn, the strip of words above it and the bracket's below.
Ring SectionOverlay::sheetOf(const Caption& caption, const Box2& box, double mm_per_m) const {
  const double to = std::max(box.high.x, box.low.x + caption.length_mm / mm_per_m);
  const double low = box.low.y - (live_->section.blind_m ? kBracketMm / mm_per_m : 0);
  const double high = box.high.y + kStripMm * static_cast<double>(caption.lines.size()) / mm_per_m;
  return {{box.low.x, low}, {to, low}, {to, high}, {box.low.x, high}};
}

Ring SectionOverlay::coveredPx() const {
  const auto here = lie();
  if (!here || !shown_) return {};
  QImage none(1, 1, QImage::Format_ARGB32_Premultiplied);
  QPainter painter(&none);
  const drawing::Canvas canvas(painter);
  const double mm_per_m = view_.toPaper().mm_per_m;
  Ring ring = sheetOf(caption(canvas, view_.sheet().inks, mm_per_m), drawnIn(live_->section),
                      mm_per_m);
  for (Vec2& p : ring) p = view_.pxAt(here->site(p));
  return ring;
}

std::vector<Ring> SectionOverlay::covers(const drawing::ToPaper&) const {
  Ring ring = coveredPx();
  if (ring.empty()) return {};
  for (Vec2& p : ring) p = p * view_.mmPerPx();
  return {ring};
}

void SectionOverlay::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                           const drawing::Inks& inks) {
  using drawing::Dash;
  const auto here = lie();
  if (!here || !shown_) return;
  const edit::Section& section = live_->section;
  const Box2 box = drawnIn(section);
  const auto paper = [&](Vec2 p) { return to_paper(here->site(p)); };
  const auto line = [&](Vec2 a, Vec2 b, const drawing::Stroke& stroke) {
    if (const auto part = clipped(a, b, box))
      canvas.line(paper(part->first), paper(part->second), stroke);
  };
  const Caption words = caption(canvas, inks, to_paper.mm_per_m);
  const Ring sheet = sheetOf(words, box, to_paper.mm_per_m);
  const auto area = [&](const Ring& ring) {
    Ring on_paper;
    for (const Vec2 p : ring) on_paper.push_back(paper(p));
    return Region{Polygon{on_paper, {}}};
  };
  canvas.fill(area(sheet), inks.paper, kPaperInk);
  drawing::paintZoneOutlines(canvas, view_.sheet(), to_paper);  // what it lies on stays to be seen
  canvas.outline(area(sheet), {inks.rules, 0.2});

  // What the plane cuts: solid in ink, glass and foliage open.
  for (const edit::SectionBody& body : section.bodies) {
    if (body.line.size() == 2) {
      line(body.line[0], body.line[1], {inks.ink, 0.3});
      continue;
    }
    const Ring ring = clipped(body.outline, box);
    if (ring.size() < 3) continue;
    if (body.light > 0) {
      canvas.outline(area(ring), {inks.quiet, 0.13});
    } else {
      canvas.fill(area(ring), inks.ink, 0.82);
    }
  }
  for (const edit::SectionLine& floor : section.floor)
    line(floor.from, floor.to, {inks.ink, 0.5});

  // The target's band, and where it is not in frame.
  const drawing::Stroke dotted{inks.quiet, 0.15, Dash::dotted};
  line(section.band_low.from, section.band_low.to, dotted);
  line(section.band_high.from, section.band_high.to, dotted);

  const Vec2 lens{0, section.lens_z_m};
  const drawing::Stroke ray{inks.accent, 0.32};
  if (section.upper) line(lens, section.upper->end, ray);
  if (section.lower) line(lens, section.lower->end, ray);
  line(lens, section.axis.end, {inks.accent, 0.16, Dash::dashed});
  line({0, here->floor_m}, lens, {inks.quiet, 0.13});
  canvas.disc(paper(lens), 0.9, inks.accent);

  // Words run along the axis, never upside down.
  const Vec2 along = paper({1, 0}) - paper({0, 0});
  const double per_m = norm(along);
  const Vec2 ahead = along / per_m, up = (paper({0, 1}) - paper({0, 0})) / per_m;
  double turn_deg = radToDeg(std::atan2(along.y, along.x));
  const bool over = turn_deg > 90 || turn_deg <= -90;
  if (over) turn_deg += turn_deg > 0 ? -180 : 180;
  const Vec2 text_down{-std::sin(degToRad(turn_deg)), std::cos(degToRad(turn_deg))};
  const double capital_mm = drawing::kCapitalHeight * kWordsPt * drawing::kMmPerPt;
  const bool first_is_nearest = dot(up, text_down) > 0;
  // Where the section begins beside the view, its words begin in it.
  const Vec2 view_mm{view_.width() * view_.mmPerPx(), view_.height() * view_.mmPerPx()};
  double used_mm = 0;
  for (const auto& row : words.lines)
    for (const Caption::Words& part : row) used_mm = std::max(used_mm, part.from_mm + part.width_mm);
  const auto shown = [&](double along_mm) {
    const Vec2 at = paper({box.low.x, box.high.y}) + up * (0.5 * kStripMm) +
                    ahead * (over ? words.length_mm - along_mm : along_mm);
    return at.x > 0 && at.y > 0 && at.x < view_mm.x && at.y < view_mm.y;
  };
  double from_mm = 0;
  while (from_mm + used_mm < words.length_mm && !(shown(from_mm) && shown(from_mm + used_mm)))
    from_mm += 1;
  if (!shown(from_mm)) from_mm = 0;
  for (std::size_t i = 0; i < words.lines.size(); ++i) {
    const std::size_t row = first_is_nearest ? i : words.lines.size() - 1 - i;
    const Vec2 line_at = paper({box.low.x, box.high.y}) +
                         up * (kStripMm * (static_cast<double>(row) + 0.5)) +
                         text_down * (0.5 * capital_mm);
    for (const Caption::Words& part : words.lines[i])
      canvas.text(line_at + ahead * (over ? words.length_mm - from_mm - part.from_mm
                                          : from_mm + part.from_mm),
                  part.words, {part.ink, kWordsPt, false, drawing::Align::left, turn_deg});
  }

  if (section.blind_m) {  // off the floor's slab, which is in ink too
    const double to_m = std::min((*section.blind_m)[1], box.high.x);
    const Vec2 tick = up * 1.6;
    const Vec2 a = paper({(*section.blind_m)[0], box.low.y}) + up * -1.6,
               b = paper({to_m, box.low.y}) + up * -1.6;
    const drawing::Stroke bracket{inks.ink, 0.22};
    canvas.line(a, b, bracket);
    canvas.line(a, a + tick * 0.8, bracket);
    if (section.blind_ends) canvas.line(b, b + tick * 0.8, bracket);
  }
  paintSays(canvas, now_.at_px * view_.mmPerPx(), says_, inks);
}

}  // namespace belvedere::desk
