// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/canvas.h"

#include <QFont>
#include <QFontMetricsF>
#include <QImage>
#include <QPainter>
#include <QPainterPath>
#include <QString>

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace belvedere::drawing {
namespace {

constexpr double kUnits = 100;  // to the millimetre

QColor colourOf(Rgb c) { return QColor(c.red, c.green, c.blue); }
// Whole units: a hundredth of a millimetre is finer than any printer, and files stay small.
QPointF pointOf(Vec2 p) { return {std::round(p.x * kUnits), std::round(p.y * kUnits)}; }

QPen penOf(const Stroke& stroke) {
  QPen pen(colourOf(stroke.colour), stroke.width_mm * kUnits);
  pen.setCapStyle(Qt::FlatCap);
  pen.setJoinStyle(Qt::MiterJoin);
  pen.setMiterLimit(4);
  // Qt counts dashes in widths of the pen.
  if (stroke.dash == Dash::dashed)
    pen.setDashPattern({1.8 / stroke.width_mm, 1.0 / stroke.width_mm});
  if (stroke.dash == Dash::dotted) {
    pen.setDashPattern({0.05 / stroke.width_mm, 0.9 / stroke.width_mm});
    pen.setCapStyle(Qt::RoundCap);
  }
  return pen;
}

void addRing(QPainterPath& path, const std::vector<Vec2>& points, bool closed) {
  if (points.size() < 2) return;
  path.moveTo(pointOf(points.front()));
  for (std::size_t i = 1; i < points.size(); ++i) path.lineTo(pointOf(points[i]));
  if (closed) path.closeSubpath();
}

QPainterPath pathOf(const Region& region) {
  QPainterPath path;
  path.setFillRule(Qt::OddEvenFill);
  for (const Polygon& polygon : region) {
    addRing(path, polygon.outer, true);
    for (const Ring& hole : polygon.holes) addRing(path, hole, true);
  }
  return path;
}

QFont fontOf(const Lettering& lettering) {
  QFont font;
  font.setFamilies({QStringLiteral("DejaVu Sans"), QStringLiteral("sans-serif")});
  font.setPixelSize(static_cast<int>(std::lround(lettering.size_pt * kMmPerPt * kUnits)));
  font.setBold(lettering.bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  font.setKerning(false);
  return font;
}

QString stringOf(const std::string& words) { return QString::fromStdString(words); }

}  // namespace

Canvas::Canvas(QPainter& painter) : painter_(painter) {
  painter_.save();
  painter_.setRenderHint(QPainter::Antialiasing);
  painter_.setRenderHint(QPainter::TextAntialiasing);
  painter_.scale(1 / kUnits, 1 / kUnits);
  painter_.setFont(fontOf({}));
}
Canvas::~Canvas() { painter_.restore(); }

void Canvas::line(Vec2 a, Vec2 b, const Stroke& stroke) { path({a, b}, false, stroke); }

void Canvas::path(const std::vector<Vec2>& points, bool closed, const Stroke& stroke) {
  QPainterPath path;
  addRing(path, points, closed);
  painter_.strokePath(path, penOf(stroke));
}

void Canvas::segments(const std::vector<Segment>& segments, const Stroke& stroke) {
  if (segments.empty()) return;
  QPainterPath path;
  for (const Segment& s : segments) {
    path.moveTo(pointOf(s.a));
    path.lineTo(pointOf(s.b));
  }
  painter_.strokePath(path, penOf(stroke));
}

void Canvas::dots(const std::vector<Vec2>& at, double diameter_mm, Rgb colour) {
  if (at.empty()) return;
  // A stroke of next to no length with round ends: a dot in a few bytes.
  QPainterPath path;
  for (const Vec2 p : at) {
    path.moveTo(pointOf(p));
    path.lineTo(pointOf(p) + QPointF(1, 0));
  }
  QPen pen(colourOf(colour), diameter_mm * kUnits);
  pen.setCapStyle(Qt::RoundCap);
  painter_.strokePath(path, pen);
}

void Canvas::fill(const Region& region, Rgb colour, double opacity) {
  if (region.empty()) return;
  QColor c = colourOf(colour);
  c.setAlphaF(static_cast<float>(opacity));
  painter_.fillPath(pathOf(region), c);
}

void Canvas::outline(const Region& region, const Stroke& stroke) {
  if (!region.empty()) painter_.strokePath(pathOf(region), penOf(stroke));
}

namespace {
Region regionOf(const Box2& box) {
  return {{{box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}}, {}}};
}
}  // namespace

void Canvas::fillBox(const Box2& box, Rgb colour, double opacity) {
  fill(regionOf(box), colour, opacity);
}
void Canvas::box(const Box2& box, const Stroke& stroke) { outline(regionOf(box), stroke); }

void Canvas::disc(Vec2 centre, double radius_mm, Rgb colour) {
  QPainterPath path;
  path.addEllipse(pointOf(centre), radius_mm * kUnits, radius_mm * kUnits);
  painter_.fillPath(path, colourOf(colour));
}

void Canvas::ring(Vec2 centre, double radius_mm, const Stroke& stroke) {
  QPainterPath path;
  path.addEllipse(pointOf(centre), radius_mm * kUnits, radius_mm * kUnits);
  painter_.strokePath(path, penOf(stroke));
}

void Canvas::arc(Vec2 centre, double radius_mm, double from_deg, double to_deg,
                 const Stroke& stroke) {
  const QPointF c = pointOf(centre);
  const double r = radius_mm * kUnits;
  const QRectF box(c.x() - r, c.y() - r, 2 * r, 2 * r);
  QPainterPath path;
  // Qt counts anticlockwise from the right.
  path.arcMoveTo(box, 90 - from_deg);
  path.arcTo(box, 90 - from_deg, from_deg - to_deg);
  painter_.strokePath(path, penOf(stroke));
}

double Canvas::width(const std::string& words, const Lettering& lettering) const {
  return QFontMetricsF(fontOf(lettering)).horizontalAdvance(stringOf(words)) / kUnits;
}

void Canvas::picture(const QImage& image, Vec2 corner, Vec2 across, Vec2 down, double opacity) {
  if (image.isNull()) return;
  painter_.save();
  painter_.setOpacity(opacity);
  painter_.setRenderHint(QPainter::SmoothPixmapTransform);
  const double w = image.width(), h = image.height();
  painter_.setTransform(QTransform(kUnits * across.x / w, kUnits * across.y / w,
                                   kUnits * down.x / h, kUnits * down.y / h, kUnits * corner.x,
                                   kUnits * corner.y),
                        true);
  painter_.drawImage(0, 0, image);
  painter_.restore();
}

void Canvas::text(Vec2 at, const std::string& words, const Lettering& lettering) {
  if (words.empty()) return;
  const QFont font = fontOf(lettering);
  const QString string = stringOf(words);
  const double advance = lettering.align == Align::left
                             ? 0
                             : QFontMetricsF(font).horizontalAdvance(string);
  const double shift = lettering.align == Align::middle ? 0.5 * advance
                       : lettering.align == Align::right ? advance : 0;
  painter_.save();
  painter_.setFont(font);
  painter_.setPen(colourOf(lettering.colour));
  if (lettering.turn_deg != 0) {
    painter_.translate(pointOf(at));
    painter_.rotate(lettering.turn_deg);
    painter_.drawText(QPointF(-std::round(shift), 0), string);
  } else {
    painter_.drawText(pointOf(at) - QPointF(std::round(shift), 0), string);
  }
  painter_.restore();
}

std::string Canvas::fitted(const std::string& words, const Lettering& lettering,
                           double width_mm) const {
  if (width(words, lettering) <= width_mm) return words;
  QString string = stringOf(words);
  const QFontMetricsF metrics(fontOf(lettering));
  while (!string.isEmpty()) {
    string.chop(1);
    const QString ended = string.trimmed() + QChar(0x2026);
    if (metrics.horizontalAdvance(ended) <= width_mm * kUnits) return ended.toStdString();
  }
  return {};
}

std::vector<std::string> Canvas::wrapped(const std::string& words, const Lettering& lettering,
                                         double width_mm, std::size_t lines_most) const {
  std::vector<std::string> lines;
  std::string line;
  std::size_t at = 0;
  while (at < words.size()) {
    std::size_t end = words.find(' ', at);
    if (end == std::string::npos) end = words.size();
    const std::string word = words.substr(at, end - at);
    const std::string longer = line.empty() ? word : line + ' ' + word;
    if (line.empty() || width(longer, lettering) <= width_mm) {
      line = longer;
    } else if (lines.size() + 1 == lines_most) {
      line += ' ' + words.substr(at);
      break;
    } else {
      lines.push_back(line);
      line = word;
    }
    at = end + 1;
  }
  if (!line.empty()) lines.push_back(line);
  for (std::string& l : lines) l = fitted(l, lettering, width_mm);
  return lines;
}

}  // namespace belvedere::drawing
