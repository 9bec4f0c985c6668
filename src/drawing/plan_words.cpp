// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/plan_words.h"

#include <algorithm>
#include <cmath>

namespace belvedere::drawing {
namespace {

constexpr double kLineMm = 4.1;      // from one line of 9 pt to the next
constexpr double kCapitalMm = kCapitalHeight * 9 * kMmPerPt;

}  // namespace

Vec2 sizeOf(const Canvas& canvas, const Words& words) {
  double width = 0;
  for (std::size_t i = 0; i < words.lines.size(); ++i)
    width = std::max(width, canvas.width(words.lines[i],
                                         {words.colour, 9, i < words.bold}));
  return {width + 1.2, kLineMm * static_cast<double>(words.lines.size() - 1) + kCapitalMm + 1.6};
}

void write(Canvas& canvas, const Inks& inks, const Box2& box, const Words& words) {
  canvas.fillBox(box, inks.paper, 0.84);
  Vec2 at{box.low.x + 0.6, box.low.y + 0.7 + kCapitalMm};
  for (std::size_t i = 0; i < words.lines.size(); ++i, at.y += kLineMm)
    canvas.text(at, words.lines[i], {words.colour, 9, i < words.bold});
}

Box2 boxAt(Vec2 low, Vec2 size) { return {low, low + size}; }
Box2 grownBox(Box2 box, double by) { return {box.low - Vec2{by, by}, box.high + Vec2{by, by}}; }

Box2 choose(const std::vector<Vec2>& lows, Vec2 size, const Box2& within, const Taken& taken,
            const std::function<double(const Box2&)>& against) {
  Box2 best = boxAt(lows.front(), size);
  double least = 1e300;
  for (const Vec2 low : lows) {
    const Box2 box = boxAt(low, size);
    double bad = 100 * taken.overlap(grownBox(box, 0.4)) + against(box);
    const double out = std::max({within.low.x - box.low.x, box.high.x - within.high.x,
                                 within.low.y - box.low.y, box.high.y - within.high.y, 0.0});
    bad += 1000 * out;
    if (bad < least) {
      least = bad;
      best = box;
    }
  }
  return best;
}

bool holds(const Region& region, const Box2& box) {
  const Vec2 corners[] = {box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
  return std::all_of(std::begin(corners), std::end(corners),
                     [&](Vec2 p) { return contains(region, p); });
}

double overlapOf(const Box2& a, const Box2& b) {
  const double wide = std::min(a.high.x, b.high.x) - std::max(a.low.x, b.low.x);
  const double high = std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y);
  return wide > 0 && high > 0 ? wide * high : 0;
}

Vec2 nearestIn(const Box2& box, Vec2 p) {
  return {std::clamp(p.x, box.low.x, box.high.x), std::clamp(p.y, box.low.y, box.high.y)};
}

}  // namespace belvedere::drawing
