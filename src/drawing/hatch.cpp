// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/hatch.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/units.h"

namespace belvedere::drawing {
namespace {

template <class Visit>
void forEachEdge(const Region& region, Visit visit) {
  const auto ring = [&](const Ring& r) {
    for (std::size_t i = 0; i < r.size(); ++i) visit(r[i], r[(i + 1) % r.size()]);
  };
  for (const Polygon& polygon : region) {
    ring(polygon.outer);
    for (const Ring& hole : polygon.holes) ring(hole);
  }
}

struct Frame {
  Vec2 along, across;
  Vec2 to(Vec2 p) const { return {dot(p, along), dot(p, across)}; }
  Vec2 from(double u, double v) const { return along * u + across * v; }
};

// Row k lies at v = (k + 1/2) spacing: where it enters and leaves the region, in order.
std::map<long, std::vector<double>> rowsOf(const Region& region, const Frame& frame,
                                           double spacing) {
  std::map<long, std::vector<double>> rows;
  forEachEdge(region, [&](Vec2 p, Vec2 q) {
    Vec2 a = frame.to(p), b = frame.to(q);
    if (a.y == b.y) return;
    if (a.y > b.y) std::swap(a, b);
    // Half open, so that a corner counts once.
    const long first = static_cast<long>(std::ceil(a.y / spacing - 0.5));
    const long past = static_cast<long>(std::ceil(b.y / spacing - 0.5));
    for (long k = first; k < past; ++k) {
      const double v = (static_cast<double>(k) + 0.5) * spacing;
      rows[k].push_back(a.x + (b.x - a.x) * (v - a.y) / (b.y - a.y));
    }
  });
  for (auto& [k, at] : rows) std::sort(at.begin(), at.end());
  return rows;
}

}  // namespace

std::vector<Segment> hatchStrokes(const Region& region, double angle_deg, double spacing_mm,
                                  double dash_mm, double gap_mm) {
  const double angle = degToRad(angle_deg);
  const Frame frame{{std::cos(angle), std::sin(angle)}, {-std::sin(angle), std::cos(angle)}};
  std::vector<Segment> strokes;
  for (const auto& [k, at] : rowsOf(region, frame, spacing_mm)) {
    const double v = (static_cast<double>(k) + 0.5) * spacing_mm;
    for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
      if (dash_mm <= 0) {
        strokes.push_back({frame.from(at[i], v), frame.from(at[i + 1], v)});
        continue;
      }
      const double period = dash_mm + gap_mm, shift = k % 2 == 0 ? 0 : 0.5 * period;
      for (double n = std::floor((at[i] - shift) / period);; n += 1) {
        const double low = n * period + shift;
        if (low >= at[i + 1]) break;
        const double from = std::max(low, at[i]), to = std::min(low + dash_mm, at[i + 1]);
        if (to > from) strokes.push_back({frame.from(from, v), frame.from(to, v)});
      }
    }
  }
  return strokes;
}

std::vector<Vec2> hatchDots(const Region& region, double spacing_mm) {
  const Frame frame{{1, 0}, {0, 1}};
  const double row_mm = spacing_mm * 0.5 * std::sqrt(3.0);
  std::vector<Vec2> dots;
  for (const auto& [k, at] : rowsOf(region, frame, row_mm)) {
    const double shift = k % 2 == 0 ? 0 : 0.5 * spacing_mm;
    for (std::size_t i = 0; i + 1 < at.size(); i += 2)
      for (double n = std::ceil((at[i] - shift) / spacing_mm); n * spacing_mm + shift <= at[i + 1];
           n += 1)
        dots.push_back({n * spacing_mm + shift, (static_cast<double>(k) + 0.5) * row_mm});
  }
  return dots;
}

std::vector<std::vector<Vec2>> partsInside(const Line& line, const Region& region) {
  // Ring edges in slices of y, so that each piece of the line meets few of them.
  Box2 box = bounds(region);
  std::vector<std::vector<Vec2>> parts;
  if (box.empty() || line.points.size() < 2) return parts;
  constexpr std::size_t kSlices = 64;
  std::vector<std::vector<Segment>> slices(kSlices);
  const double height = std::max(box.high.y - box.low.y, 1e-12);
  const auto slice = [&](double y) {
    const double s = std::floor((y - box.low.y) / height * static_cast<double>(kSlices));
    return static_cast<std::size_t>(std::clamp(s, 0.0, static_cast<double>(kSlices - 1)));
  };
  forEachEdge(region, [&](Vec2 a, Vec2 b) {
    for (std::size_t s = slice(std::min(a.y, b.y)); s <= slice(std::max(a.y, b.y)); ++s)
      slices[s].push_back({a, b});
  });
  const auto insideAt = [&](Vec2 p) {
    if (p.y < box.low.y || p.y > box.high.y) return false;
    bool in = false;
    for (const Segment& e : slices[slice(p.y)])
      if ((e.a.y > p.y) != (e.b.y > p.y) &&
          p.x < e.a.x + (e.b.x - e.a.x) * (p.y - e.a.y) / (e.b.y - e.a.y))
        in = !in;
    return in;
  };

  std::vector<Vec2> points = line.points;
  if (line.closed) points.push_back(points.front());
  std::vector<Vec2> part;
  std::vector<double> cuts;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const Vec2 p = points[i], d = points[i + 1] - p;
    cuts = {0, 1};
    for (std::size_t s = slice(std::min(p.y, p.y + d.y)); s <= slice(std::max(p.y, p.y + d.y)); ++s)
      for (const Segment& e : slices[s]) {
        const Vec2 f = e.b - e.a;
        const double turn = cross(d, f);
        if (turn == 0) continue;
        const double t = cross(e.a - p, f) / turn, u = cross(e.a - p, d) / turn;
        if (t > 0 && t < 1 && u >= 0 && u <= 1) cuts.push_back(t);
      }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t c = 0; c + 1 < cuts.size(); ++c) {
      if (cuts[c + 1] - cuts[c] <= 0) continue;
      if (insideAt(p + d * (0.5 * (cuts[c] + cuts[c + 1])))) {
        if (part.empty()) part.push_back(p + d * cuts[c]);
        part.push_back(p + d * cuts[c + 1]);
      } else if (!part.empty()) {
        parts.push_back(std::move(part));
        part.clear();
      }
    }
  }
  if (!part.empty()) {
    // A closed line that starts inside: its end runs into its start.
    if (line.closed && !parts.empty() && parts.front().front() == part.back()) {
      part.insert(part.end(), parts.front().begin() + 1, parts.front().end());
      parts.front() = std::move(part);
    } else {
      parts.push_back(std::move(part));
    }
  }
  return parts;
}

}  // namespace belvedere::drawing
