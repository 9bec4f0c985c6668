// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/live_wash.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <cmath>

namespace belvedere::drawing {
namespace {

using proof::Reason;

constexpr int kShades = 256;        // of the wash between its first and last stop
constexpr double kOctaves = 3;      // between them: margins 1 to 8
constexpr double kNearestPx = 3;    // a lattice as fine as that is shown point by point
constexpr std::uint8_t kUnknown = 255;
// Tones: a shade of the wash, or a reason after those.
constexpr std::uint16_t kNoTone = 0xFFFF;
constexpr auto kOutTone = static_cast<std::uint16_t>(kShades + static_cast<int>(Reason::out_of_frame));

QRgb rgb(Rgb c) { return qRgb(c.red, c.green, c.blue); }

bool isDense(std::uint8_t reason) {
  return reason == static_cast<std::uint8_t>(Reason::served) ||
         reason == static_cast<std::uint8_t>(Reason::too_coarse);
}

// The lattice as a picture needs it: of each point its reason and the logarithm of its margin
// (0: just met) where it is served or too coarse; of each cell, by its first point, what its four
// corners have in common.
enum class Cell : std::uint8_t { alike, dense, mixed };
struct Classes {
  int columns = 0, rows = 0;
  std::vector<std::uint8_t> reason;  // kUnknown: off the zone
  std::vector<float> octaves;
  std::vector<Cell> cell;
  std::array<std::size_t, 4> corners(std::size_t at) const {
    const auto row = static_cast<std::size_t>(columns);
    return {at, at + 1, at + row, at + row + 1};
  }
};

Classes classesOf(const SpotField& field) {
  const std::size_t n = field.spots.size();
  Classes classes{field.columns, field.rows, std::vector<std::uint8_t>(n, kUnknown),
                  std::vector<float>(n), std::vector<Cell>(n, Cell::mixed)};
  for (std::size_t i = 0; i < n; ++i) {
    if (!field.known[i]) continue;
    const proof::Spot& spot = field.spots[i];
    classes.reason[i] = static_cast<std::uint8_t>(spot.reason);
    if (spot.margin > 0) classes.octaves[i] = std::log2(spot.margin);
  }
  const auto columns = static_cast<std::size_t>(field.columns);
  for (std::size_t i = 0; i + columns + 1 < n; ++i) {
    const auto corners = classes.corners(i);
    const auto all = [&](auto holds) {
      return std::all_of(corners.begin(), corners.end(),
                         [&](std::size_t k) { return holds(classes.reason[k]); });
    };
    const std::uint8_t first = classes.reason[i];
    if (all(isDense)) classes.cell[i] = Cell::dense;
    else if (all([&](std::uint8_t r) { return r == first; })) classes.cell[i] = Cell::alike;
  }
  return classes;
}

// What a place between four points of the lattice shows.
struct Shown {
  std::uint8_t reason = kUnknown;
  float octaves = 0;
};
Shown between(const Classes& c, std::size_t at, float x, float y) {
  if (c.cell[at] == Cell::alike) return {c.reason[at], 0};
  const std::array<std::size_t, 4> corner = c.corners(at);
  const std::array<float, 4> weight{(1 - x) * (1 - y), x * (1 - y), (1 - x) * y, x * y};
  if (c.cell[at] == Cell::dense) {  // the density itself sets the border
    float octaves = 0;
    for (std::size_t k = 0; k < 4; ++k) octaves += weight[k] * c.octaves[corner[k]];
    return {static_cast<std::uint8_t>(octaves >= 0 ? Reason::served : Reason::too_coarse),
            octaves};
  }
  // The reason with the greatest part: its border cuts the cell's corners, as marching squares do.
  std::size_t best = 0;
  float most = -1;
  for (std::size_t k = 0; k < 4; ++k) {
    float part = 0;
    for (std::size_t m = 0; m < 4; ++m)
      if (c.reason[corner[m]] == c.reason[corner[k]]) part += weight[m];
    if (part > most) {
      most = part;
      best = k;
    }
  }
  return {c.reason[corner[best]], std::max(c.octaves[corner[best]], 0.0f)};
}

std::uint16_t toneOf(Shown shown) {
  if (shown.reason == kUnknown) return kNoTone;
  if (shown.reason != static_cast<std::uint8_t>(Reason::served))
    return static_cast<std::uint16_t>(kShades + shown.reason);
  const int shade = static_cast<int>(shown.octaves * static_cast<float>(kShades / kOctaves));
  return static_cast<std::uint16_t>(std::clamp(shade, 0, kShades - 1));
}

// Where the density itself sets the border between served and too coarse.
std::uint16_t denseTone(float octaves) {
  constexpr auto kCoarse = static_cast<std::uint16_t>(kShades + static_cast<int>(Reason::too_coarse));
  const auto shade = static_cast<std::uint16_t>(
      std::clamp(octaves * static_cast<float>(kShades / kOctaves), 0.0f,
                 static_cast<float>(kShades - 1)));
  return octaves < 0 ? kCoarse : shade;
}

QPainterPath pathOf(const Region& px) {
  QPainterPath path;
  path.setFillRule(Qt::OddEvenFill);
  const auto add = [&](const Ring& ring) {
    QPolygonF polygon;
    for (const Vec2 p : ring) polygon << QPointF(p.x, p.y);
    path.addPolygon(polygon);
    path.closeSubpath();
  };
  for (const Polygon& polygon : px) {
    add(polygon.outer);
    for (const Ring& hole : polygon.holes) add(hole);
  }
  return path;
}

}  // namespace

void HatchSheets::setPaper(QSize size_px, double mm_per_px, const Inks& inks) {
  if (size_px == size_px_ && mm_per_px == mm_per_px_ && inks.paper == inks_.paper &&
      inks.ink == inks_.ink && inks.masked == inks_.masked)
    return;
  size_px_ = size_px;
  mm_per_px_ = mm_per_px;
  inks_ = inks;
  kept_.clear();
}

const QImage& HatchSheets::of(Reason reason) {
  QImage& image = kept_[reason];
  if (!image.isNull()) return image;
  image = QImage(size_px_, QImage::Format_ARGB32_Premultiplied);
  image.fill(rgb(inks_.paper));
  if (reason == Reason::out_of_frame) return image;  // its edge is dotted, not its area
  QPainter painter(&image);
  painter.scale(1 / mm_per_px_, 1 / mm_per_px_);
  Canvas canvas(painter);
  const double w = size_px_.width() * mm_per_px_, h = size_px_.height() * mm_per_px_;
  paintHatch(canvas, inks_, {{{{0, 0}, {w, 0}, {w, h}, {0, h}}, {}}}, reason);
  return image;
}

void paintLiveWash(QImage& image, const Inks& inks, const ToPaper& to_paper, double mm_per_px,
                   const ZoneMap& map, HatchSheets& hatches, Occurs& occurs) {
  const auto toPx = [&](Vec2 site) { return to_paper(site) * (1 / mm_per_px); };
  Region judged_px = map.judged;
  for (Polygon& polygon : judged_px) {
    for (Vec2& p : polygon.outer) p = toPx(p);
    for (Ring& hole : polygon.holes)
      for (Vec2& p : hole) p = toPx(p);
  }
  const Box2 box = bounds(judged_px);
  if (box.empty()) return;
  const auto within = [](double v, int most) {
    return static_cast<int>(std::clamp(v, 0.0, static_cast<double>(most)));
  };
  const int x0 = within(std::floor(box.low.x), image.width()),
            x1 = within(std::ceil(box.high.x), image.width()),
            y0 = within(std::floor(box.low.y), image.height()),
            y1 = within(std::ceil(box.high.y), image.height());
  if (x0 >= x1 || y0 >= y1) return;

  const SpotField field = fieldOf(map.spots);
  if (field.columns < 2 || field.rows < 2) return;
  const Classes classes = classesOf(field);
  std::array<QRgb, kShades> wash{};
  for (int i = 0; i < kShades; ++i)
    wash[static_cast<std::size_t>(i)] =
        rgb(inks.washAt(std::exp2(kOctaves * (i + 0.5) / kShades)));

  // From a pixel's middle to the lattice: affine.
  const double px_per_m = to_paper.mm_per_m / mm_per_px, turn = cross(field.step_x, field.step_y);
  const auto toLattice = [&](Vec2 px) {
    const Vec2 paper = px * mm_per_px - to_paper.paper_mm;
    const Vec2 site = to_paper.site_m + Vec2{paper.x, -paper.y} * (1 / to_paper.mm_per_m);
    const Vec2 d = site - field.origin;
    return Vec2{cross(d, field.step_y) / turn, cross(field.step_x, d) / turn};
  };
  const Vec2 right_m{1 / px_per_m, 0};
  const Vec2 step{cross(right_m, field.step_y) / turn, cross(field.step_x, right_m) / turn};

  const bool nearest = norm(field.step_x) * px_per_m <= kNearestPx;
  const double last_column = classes.columns - 1, last_row = classes.rows - 1;
  const auto columns = static_cast<std::size_t>(classes.columns);
  QImage part(x1 - x0, y1 - y0, QImage::Format_ARGB32_Premultiplied);
  part.fill(Qt::transparent);
  const auto width = static_cast<std::size_t>(part.width());
  // A line's tones, and the line's above: a shade of the wash, or a reason after those.
  std::vector<std::uint16_t> tones(width), above(width, kNoTone);
  // The same of each point of the lattice.
  std::vector<std::uint16_t> tone_at(nearest ? classes.reason.size() : 0);
  for (std::size_t i = 0; i < tone_at.size(); ++i)
    tone_at[i] = toneOf({classes.reason[i], classes.octaves[i]});
  std::vector<float> octaves(columns);  // along a row of pixels, at each column
  const QRgb ink = rgb(inks.ink);
  bool out_above = false;
  for (int y = y0; y < y1; ++y) {
    const Vec2 start = toLattice({x0 + 0.5, y + 0.5});
    // As far as the line lies on the lattice.
    double from = 0, to = static_cast<double>(width);
    const auto cut = [&](double at, double way, double last) {
      if (way == 0) {
        if (!(at >= 0 && at < last)) to = -1;
        return;
      }
      const double p = -at / way, q = (last - at) / way;
      from = std::max(from, std::min(p, q));
      to = std::min(to, std::max(p, q));
    };
    cut(start.x, step.x, last_column - 1e-6);
    cut(start.y, step.y, last_row - 1e-6);
    std::fill(tones.begin(), tones.end(), kNoTone);
    const auto first = static_cast<std::size_t>(std::ceil(std::max(from, 0.0)));
    const auto past = to > 0 ? std::min(width, static_cast<std::size_t>(std::floor(to)) + 1) : 0;
    if (nearest) {
      // In 1/65536 of a cell: a hundred times finer than a pixel over the whole line.
      const auto fixed = [](double v) { return static_cast<std::int64_t>(v * 65536); };
      const auto n = static_cast<double>(first);
      std::int64_t u = fixed(start.x + step.x * n + 0.5), v = fixed(start.y + step.y * n + 0.5);
      const std::int64_t du = fixed(step.x), dv = fixed(step.y);
      const auto most_u = static_cast<std::int64_t>(classes.columns) - 1,
                 most_v = static_cast<std::int64_t>(classes.rows) - 1;
      for (std::size_t at = first; at < past; ++at, u += du, v += dv)
        tones[at] = tone_at[static_cast<std::size_t>(std::clamp<std::int64_t>(v >> 16, 0, most_v)) *
                                columns +
                            static_cast<std::size_t>(std::clamp<std::int64_t>(u >> 16, 0, most_u))];
    } else if (std::abs(step.y) * static_cast<double>(width) < 1e-6) {
      // Along a row of the lattice: between its columns alone.
      const double v = std::clamp(start.y, 0.0, last_row - 1e-6);
      const auto row = static_cast<std::size_t>(v);
      const auto up = static_cast<float>(v - static_cast<double>(row));
      const std::size_t corner = row * columns;
      for (std::size_t i = 0; i < columns; ++i)
        octaves[i] = (1 - up) * classes.octaves[corner + i] + up * classes.octaves[corner + columns + i];
      // Column by column: what its corners have in common holds for all of its pixels.
      for (std::size_t at = first; at < past;) {
        const double u = std::clamp(start.x + step.x * static_cast<double>(at), 0.0,
                                    last_column - 1e-6);
        const auto column = static_cast<std::size_t>(u);
        const double edge = static_cast<double>(column) + (step.x > 0 ? 1 : 0);
        const double left = step.x == 0 ? 1e9 : (edge - start.x) / step.x;
        const std::size_t end =
            std::clamp(left >= static_cast<double>(past) ? past
                                                         : static_cast<std::size_t>(std::max(std::ceil(left), 0.0)),
                       at + 1, past);
        const std::size_t cell_at = corner + column;
        const auto right = static_cast<float>(u - static_cast<double>(column));
        const auto way = static_cast<float>(step.x);
        if (classes.cell[cell_at] == Cell::dense) {
          const float slope = octaves[column + 1] - octaves[column];
          const float here = octaves[column] + right * slope, more = way * slope;
          for (std::size_t i = 0; i < end - at; ++i)
            tones[at + i] = denseTone(here + static_cast<float>(i) * more);
        } else if (classes.cell[cell_at] == Cell::alike) {
          std::fill(tones.begin() + static_cast<std::ptrdiff_t>(at),
                    tones.begin() + static_cast<std::ptrdiff_t>(end),
                    toneOf({classes.reason[cell_at], 0}));
        } else {
          for (std::size_t i = 0; i < end - at; ++i)
            tones[at + i] = toneOf(between(classes, cell_at,
                                           std::clamp(right + static_cast<float>(i) * way, 0.0f, 1.0f),
                                           up));
        }
        at = end;
      }
    } else {
      for (std::size_t at = first; at < past; ++at) {
        const double u = std::clamp(start.x + step.x * static_cast<double>(at), 0.0,
                                    last_column - 1e-6),
                     v = std::clamp(start.y + step.y * static_cast<double>(at), 0.0,
                                    last_row - 1e-6);
        const auto column = static_cast<std::size_t>(u), row = static_cast<std::size_t>(v);
        tones[at] = toneOf(between(classes, row * columns + column,
                                   static_cast<float>(u - static_cast<double>(column)),
                                   static_cast<float>(v - static_cast<double>(row))));
      }
    }
    auto* line = reinterpret_cast<QRgb*>(part.scanLine(y - y0));
    const bool out_here = std::find(tones.begin(), tones.end(), kOutTone) != tones.end();
    const bool edges = out_here || out_above;  // else there is none to be dotted
    out_above = out_here;
    std::uint16_t left = kNoTone;
    std::array<const QRgb*, proof::kReasonCount> hatch_line{};
    for (std::size_t at = first; at < past; ++at) {
      const std::uint16_t tone = tones[at];
      if (tone < kShades) {
        line[at] = wash[tone];
        occurs.wash = true;
      } else if (tone != kNoTone) {
        const QRgb*& sheet = hatch_line[tone - kShades];
        if (!sheet) {
          const auto reason = static_cast<Reason>(tone - kShades);
          sheet = reinterpret_cast<const QRgb*>(hatches.of(reason).constScanLine(y)) + x0;
          occurs.reasons.insert(reason);
        }
        line[at] = sheet[at];
      }
      if (!edges) continue;
      // The edge of what is out of frame is dotted.
      const bool out = tone == kOutTone;
      if (((out != (left == kOutTone) && left != kNoTone) ||
           (out != (above[at] == kOutTone) && above[at] != kNoTone)) &&
          tone != kNoTone && (x0 + static_cast<int>(at) + y) % 4 < 2)
        line[at] = ink;
      left = tone;
    }
    std::swap(above, tones);
  }
  QPainter painter(&image);
  painter.setClipPath(pathOf(judged_px));
  painter.drawImage(x0, y0, part);
}

}  // namespace belvedere::drawing
