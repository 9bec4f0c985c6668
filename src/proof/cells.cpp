// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/cells.h"

#include <cmath>

namespace belvedere::proof {

ZoneFrame zoneFrame(const Region& region) {
  ZoneFrame frame;
  double longest = 0;
  for (const Polygon& polygon : region)
    for (std::size_t i = 0; i < polygon.outer.size(); ++i) {
      const Vec2 edge = polygon.outer[(i + 1) % polygon.outer.size()] - polygon.outer[i];
      const double length = norm(edge);
      if (length > longest * (1 + 1e-9)) {
        longest = length;
        frame.x = edge / length;
      }
    }
  frame.y = perpLeft(frame.x);
  return frame;
}

Box2 boundsOf(const std::vector<Ring>& pieces) {
  Box2 box;
  for (const Ring& piece : pieces)
    for (const Vec2 p : piece) box.add(p);
  return box;
}

double areaOf(const std::vector<Ring>& pieces) {
  double sum = 0;
  for (const Ring& piece : pieces) sum += std::fabs(signedArea(piece));
  return sum;
}

namespace {
void keepHalf(const std::vector<Ring>& pieces, Vec2 normal, double limit, std::vector<Ring>& out) {
  for (const Ring& piece : pieces) {
    Ring cut = clipHalfPlane(piece, normal, limit);
    if (cut.size() >= 3 && std::fabs(signedArea(cut)) > 1e-15) out.push_back(std::move(cut));
  }
}

}  // namespace

std::vector<std::vector<Ring>> split(const std::vector<Ring>& pieces, const Box2& box) {
  const Vec2 size = box.high - box.low, middle = (box.low + box.high) * 0.5;
  const bool halve_x = size.x >= 0.6 * size.y, halve_y = size.y >= 0.6 * size.x;
  std::vector<std::vector<Ring>> parts{pieces};
  const auto halve = [&](Vec2 axis, double at) {
    std::vector<std::vector<Ring>> halves;
    for (const auto& part : parts) {
      halves.emplace_back();
      keepHalf(part, axis, at, halves.back());
      halves.emplace_back();
      keepHalf(part, -axis, -at, halves.back());
    }
    parts = std::move(halves);
  };
  if (halve_x) halve({1, 0}, middle.x);
  if (halve_y) halve({0, 1}, middle.y);
  std::erase_if(parts, [](const auto& part) { return part.empty(); });
  return parts;
}

std::vector<Ring> convexPiecesIn(const ZoneFrame& frame, const Region& region) {
  std::vector<Ring> pieces;
  for (const Polygon& polygon : region)
    for (const Ring& piece : convexPieces(polygon)) {
      Ring turned;
      for (const Vec2 p : piece) turned.push_back(frame.into(p));
      pieces.push_back(std::move(turned));
    }
  return pieces;
}

Cell cellOf(const ZoneFrame& frame, const Box2& box) {
  const Vec2 half = (box.high - box.low) * 0.5;
  return {frame.out((box.low + box.high) * 0.5), frame.x * half.x, frame.y * half.y};
}

}  // namespace belvedere::proof
