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
  // Round outlines have more corners than a prism holds: halving takes them away.
  for (std::size_t i = 0; i < pieces.size();) {
    if (pieces[i].size() <= kCornersMost) {
      ++i;
      continue;
    }
    for (auto& part : split({pieces[i]}, boundsOf({pieces[i]})))
      for (Ring& ring : part) pieces.push_back(std::move(ring));
    pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(i));
  }
  return pieces;
}

Cell cellOf(const ZoneFrame& frame, const Box2& box) {
  const Vec2 half = (box.high - box.low) * 0.5;
  return boxCell(frame.out((box.low + box.high) * 0.5), frame.x * half.x, frame.y * half.y);
}

Cell cellOf(Ring convex) {
  Vec2 x{1, 0};
  double longest = 0;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vec2 edge = convex[(i + 1) % convex.size()] - convex[i];
    const double length2 = dot(edge, edge);
    if (length2 > longest) {
      longest = length2;
      x = edge;
    }
  }
  x = x / norm(x);
  const Vec2 y = perpLeft(x);
  Box2 box;
  for (const Vec2 p : convex) box.add({dot(p, x), dot(p, y)});
  const Vec2 middle = (box.low + box.high) * 0.5, half = (box.high - box.low) * 0.5;
  return {std::move(convex), x * middle.x + y * middle.y, x * half.x, y * half.y};
}

std::vector<Ring> halves(const Cell& cell) {
  const double x = norm(cell.half_x), y = norm(cell.half_y);
  std::vector<Ring> parts{cell.corners};
  const auto halve = [&](Vec2 axis) {
    std::vector<Ring> all;
    const double at = dot(axis, cell.centre);
    for (const Ring& part : parts)
      for (Ring& half : cutAlong(part, axis, at, at)) all.push_back(std::move(half));
    parts = std::move(all);
  };
  constexpr double kAlike = 0.6;
  if (x >= kAlike * y) halve(cell.half_x / x);
  if (y >= kAlike * x) halve(cell.half_y / y);
  return parts;
}

std::vector<Ring> cutAlong(const Ring& convex, Vec2 normal, double low, double high) {
  std::vector<Ring> parts;
  const auto keep = [&](Ring part) {
    if (part.size() >= 3 && std::fabs(signedArea(part)) > 1e-15) parts.push_back(std::move(part));
  };
  keep(clipHalfPlane(convex, normal, low));
  Ring rest = clipHalfPlane(convex, -normal, -low);
  if (high > low) {
    keep(clipHalfPlane(rest, normal, high));
    rest = clipHalfPlane(rest, -normal, -high);
  }
  keep(std::move(rest));
  return parts;
}

}  // namespace belvedere::proof
