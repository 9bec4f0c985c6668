// SPDX-License-Identifier: GPL-3.0-or-later
//
// A painter that speaks millimetres on paper, x right, y down, and the few strokes that a sheet
// needs. Inside, units are hundredths of a millimetre, so that fonts have whole sizes.
#pragma once

#include <string>
#include <vector>

#include "drawing/contours.h"
#include "drawing/hatch.h"
#include "drawing/inks.h"
#include "geometry/polygon.h"

class QImage;
class QPainter;

namespace belvedere::drawing {

enum class Dash { none, dashed, dotted };
struct Stroke {
  Rgb colour;
  double width_mm = 0.18;
  Dash dash = Dash::none;
};
enum class Align { left, middle, right };
struct Lettering {
  Rgb colour;
  double size_pt = 9;
  bool bold = false;
  Align align = Align::left;
  double turn_deg = 0;  // clockwise about its anchor
};
// Letters stand on a baseline; this much of the size is above it for capitals, in mm a point.
inline constexpr double kMmPerPt = 25.4 / 72;
inline constexpr double kCapitalHeight = 0.73;

class Canvas {
 public:
  // The painter's unit is one millimetre.
  explicit Canvas(QPainter& painter);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  void line(Vec2 a, Vec2 b, const Stroke& stroke);
  void path(const std::vector<Vec2>& points, bool closed, const Stroke& stroke);
  void segments(const std::vector<Segment>& segments, const Stroke& stroke);
  void dots(const std::vector<Vec2>& at, double diameter_mm, Rgb colour);
  void fill(const Region& region, Rgb colour, double opacity = 1);
  void outline(const Region& region, const Stroke& stroke);
  void fillBox(const Box2& box, Rgb colour, double opacity = 1);
  void box(const Box2& box, const Stroke& stroke);
  void disc(Vec2 centre, double radius_mm, Rgb colour);
  void ring(Vec2 centre, double radius_mm, const Stroke& stroke);
  // bearings clockwise from up
  void arc(Vec2 centre, double radius_mm, double from_deg, double to_deg, const Stroke& stroke);

  // A picture laid on the paper: its upper left corner, and its whole width and height as vectors.
  void picture(const QImage& image, Vec2 corner, Vec2 across, Vec2 down, double opacity);

  // `at`: left, middle or right end of the baseline.
  void text(Vec2 at, const std::string& words, const Lettering& lettering);
  double width(const std::string& words, const Lettering& lettering) const;
  // As much of the words as fits, with an ellipsis when some do not.
  std::string fitted(const std::string& words, const Lettering& lettering, double width_mm) const;
  // Lines of at most that width, broken between words; at most `lines_most`, the last one fitted.
  std::vector<std::string> wrapped(const std::string& words, const Lettering& lettering,
                                   double width_mm, std::size_t lines_most) const;

 private:
  QPainter& painter_;
};

}  // namespace belvedere::drawing
