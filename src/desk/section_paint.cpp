// SPDX-License-Identifier: GPL-3.0-or-later
#include <QObject>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "desk/says.h"
#include "desk/section_overlay.h"
#include "desk/shown_units.h"

namespace belvedere::desk {
namespace {

constexpr double kStripMm = 4.6;  // for words

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
  // Above what is drawn, a strip for words.
  const double strip_m = kStripMm / to_paper.mm_per_m;
  const Ring sheet{{box.low.x, box.low.y}, {box.high.x, box.low.y},
                   {box.high.x, box.high.y + strip_m}, {box.low.x, box.high.y + strip_m}};
  const auto area = [&](const Ring& ring) {
    Ring on_paper;
    for (const Vec2 p : ring) on_paper.push_back(paper(p));
    return Region{Polygon{on_paper, {}}};
  };
  canvas.fill(area(sheet), inks.paper, 0.94);
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
  double turn_deg = radToDeg(std::atan2(along.y, along.x));
  const bool over = turn_deg > 90 || turn_deg <= -90;
  if (over) turn_deg += turn_deg > 0 ? -180 : 180;
  const Vec2 text_down{-std::sin(degToRad(turn_deg)), std::cos(degToRad(turn_deg))};
  const Vec2 up = (paper({0, 1}) - paper({0, 0})) / per_m;

  const auto write = [&](double from_m, double to_m, double z, double off_mm,
                         const std::string& words, drawing::Rgb ink) {
    // Middle of the letters off_mm above (in the section) the height z, between two places along.
    drawing::Lettering lettering{ink, 9, false, drawing::Align::left, turn_deg};
    const double room_mm = (to_m - from_m) * per_m - 2;
    const double width = canvas.width(words, lettering);
    if (width > room_mm) return false;
    const double capital = drawing::kCapitalHeight * lettering.size_pt * drawing::kMmPerPt;
    const Vec2 ahead = along / per_m;
    Vec2 at = paper({from_m, z}) + ahead * 1.0 + up * off_mm + text_down * (0.5 * capital);
    if (over) at = at + ahead * width;
    canvas.text(at, words, lettering);
    return true;
  };

  const double band_low = section.band_low.from.y, band_high = section.band_high.from.y;
  write(box.low.x, box.high.x, box.high.y, 0.5 * kStripMm,
        QObject::tr("lens %1, tilt %2")
            .arg(QString::fromStdString(length(live_->lens_height_m)),
                 QString::fromStdString(edit::angleText(live_->tilt_deg)))
            .toStdString(),
        inks.accent);
  QString low = QString::fromStdString(length(live_->band_m[0]));
  if (low.endsWith(" m")) low.chop(2);
  const std::string target = QObject::tr("%1 %2 to %3")
                                 .arg(QString::fromStdString(live_->target))
                                 .arg(low)
                                 .arg(QString::fromStdString(length(live_->band_m[1])))
                                 .toStdString();
  const double target_m = (canvas.width(target, {inks.quiet, 9}) + 3) / per_m;
  write(std::max(box.high.x - target_m - 0.6, box.low.x), box.high.x, band_high, 2, target,
        inks.quiet);
  if (section.blind_m) {
    const auto [from_m, to_m] = std::pair{(*section.blind_m)[0],
                                          std::min((*section.blind_m)[1], box.high.x)};
    // Off the floor's slab, which is in ink too.
    const Vec2 tick = up * 1.6;
    const Vec2 a = paper({from_m, box.low.y}) + up * -1.6,
               b = paper({to_m, box.low.y}) + up * -1.6;
    const drawing::Stroke bracket{inks.ink, 0.22};
    canvas.line(a, b, bracket);
    canvas.line(a, a + tick * 0.8, bracket);
    if (section.blind_ends) canvas.line(b, b + tick * 0.8, bracket);
    const std::string words =
        (section.blind_ends ? QObject::tr("not in frame to %1")
                                  .arg(QString::fromStdString(length((*section.blind_m)[1])))
                            : QObject::tr("nowhere in frame"))
            .toStdString();
    if (!write(from_m, to_m, 0.5 * (band_low + band_high), 0, words, inks.ink))
      write(from_m, box.high.x, 0.5 * (band_low + band_high), 0, words, inks.ink);
  }
  paintSays(canvas, now_.at_px * view_.mmPerPx(), says_, inks);
}

}  // namespace belvedere::desk
