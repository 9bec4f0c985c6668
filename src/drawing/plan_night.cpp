// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a sheet shows of the light: illuminance as contour lines, lamps' light as dashed ones,
// luminaires; and the lamps of a dial, with a thread to the imager that each follows.
#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "drawing/night_words.h"
#include "drawing/sheet_parts.h"

namespace belvedere::drawing {
namespace {

constexpr double kShortestLineMm = 5;
constexpr double kLuminaireMm = 1.1;  // half its mark
constexpr double kLampFromMm = 0.7, kLampMm = 2.2, kLampWideMm = 0.9;  // off the ring, long, wide
constexpr double kSteep = 0.985;      // an axis nearer to straight down (80 deg) has no bearing

bool isShown(const Layout& layout, const std::vector<Vec2>& paper) {
  Box2 box;
  for (const Vec2 p : paper) box.add(p);
  return !box.empty() && box.low.x <= layout.plan.high.x && box.high.x >= layout.plan.low.x &&
         box.low.y <= layout.plan.high.y && box.high.y >= layout.plan.low.y;
}

Vec2 toward(Vec2 centre, double bearing_deg, double radius_mm) {
  const double b = degToRad(bearing_deg);
  return centre + Vec2{std::sin(b), -std::cos(b)} * radius_mm;
}

}  // namespace

void paintLuminaire(Canvas& canvas, const Inks& inks, Vec2 at) {
  const Vec2 reach{kLuminaireMm, kLuminaireMm};
  canvas.fillBox({at - reach, at + reach}, inks.paper);
  canvas.box({at - reach, at + reach}, {inks.ink, 0.18});
  canvas.line(at - reach, at + reach, {inks.ink, 0.18});
  canvas.line(at - Vec2{kLuminaireMm, -kLuminaireMm}, at + Vec2{kLuminaireMm, -kLuminaireMm},
              {inks.ink, 0.18});
}

// Straight strokes that stand off the ring: filled where it burns.
void paintLamp(Canvas& canvas, const Inks& inks, Vec2 near, Vec2 far, bool burns) {
  if (burns) {
    canvas.line(near, far, {inks.ink, kLampWideMm});
    return;
  }
  const Vec2 side = perpLeft(far - near) / norm(far - near) * (0.5 * kLampWideMm);
  canvas.path({near + side, far + side, far - side, near - side}, true, {inks.quiet, 0.15});
}

void paintNight(Canvas& canvas, const Sheet& sheet, const Layout& layout, Taken& taken,
                Occurs& occurs) {
  if (!sheet.night) return;
  const Inks& inks = sheet.inks;
  for (const LightLine& line : sheet.night->lines) {
    const std::vector<Vec2> paper = layout.to_paper(line.points);
    if (lengthOf(paper) < kShortestLineMm || !isShown(layout, paper)) continue;
    const std::string figure = shortNumber(line.level, 2);
    if (line.of == LightOf::lux) {
      paintContour(canvas, paper, figure, {inks.ink, 0.16}, false, taken);
      occurs.lux_lines = true;
      occurs.lux_words = planeWords(*sheet.night, sheet.unit);
    } else {
      // What the range promises is drawn heavier.
      const bool enough = line.level == 1;
      paintContour(canvas, paper, "×" + figure, {inks.ink, enough ? 0.32 : 0.16, Dash::dashed},
                   enough, taken);
      occurs.lamp_lines = true;
    }
  }
  for (const LuminaireMark& mark : sheet.night->luminaires) {
    const Vec2 at = layout.to_paper(mark.at);
    if (!isShown(layout, {at})) continue;
    paintLuminaire(canvas, inks, at);
    taken.add({at - Vec2{kLuminaireMm, kLuminaireMm}, at + Vec2{kLuminaireMm, kLuminaireMm}});
    occurs.luminaires = true;
  }
}

double dialReachMm(const Sheet& sheet, const Dial& dial) {
  if (sheet.night)
    for (const light::Lamp& lamp : sheet.night->lamps)
      if (lamp.housing == dial.housing->id) return dial.radius_mm + kLampFromMm + kLampMm;
  return dial.radius_mm;
}

void paintDialLamps(Canvas& canvas, const Sheet& sheet, const Dial& dial, Occurs& occurs) {
  if (!sheet.night) return;
  const NightPlan& night = *sheet.night;
  const std::vector<Knob> knobs = knobsOf(dial);
  std::vector<double> bearings;  // lamps that look the same way stand side by side
  for (std::size_t i = 0; i < night.lamps.size(); ++i) {
    const light::Lamp& lamp = night.lamps[i];
    if (lamp.housing != dial.housing->id) continue;
    double bearing = std::abs(lamp.axis.z) > kSteep
                         ? dial.housing->mount.base_bearing_deg
                         : radToDeg(std::atan2(lamp.axis.x, lamp.axis.y));
    constexpr double kApartDeg = 20;
    while (std::any_of(bearings.begin(), bearings.end(), [&](double other) {
      return std::abs(wrap180(other - bearing)) < 0.9 * kApartDeg;
    }))
      bearing += kApartDeg;
    bearings.push_back(bearing);
    const Vec2 near = toward(dial.at, bearing, dial.radius_mm + kLampFromMm);
    const Vec2 far = toward(dial.at, bearing, dial.radius_mm + kLampFromMm + kLampMm);
    if (lamp.follows && *lamp.follows > 0) {
      Vec2 to = dial.at;
      for (const Knob& knob : knobs)
        if (knob.slot == *lamp.follows) to = knob.at;
      canvas.line(near, to, {night.burns[i] ? sheet.inks.ink : sheet.inks.quiet, 0.15});
      occurs.threads = true;
    }
    paintLamp(canvas, sheet.inks, near, far, night.burns[i]);
    (night.burns[i] ? occurs.lamps_on : occurs.lamps_off) = true;
  }
}

}  // namespace belvedere::drawing
