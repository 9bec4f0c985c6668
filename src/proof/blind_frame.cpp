// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a frame shows of a level plane. The frame's edge is a closed curve of directions; it is cut
// to the pyramid of directions that meet a box of the plane, and its cut ends are joined along the
// box. So a frame that looks above the horizon, or wider than 180 degrees, is no special case:
// directions that never meet the plane are simply outside the pyramid.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <variant>
#include <vector>

#include "base/units.h"
#include "proof/blind.h"

namespace belvedere::proof {
namespace {

// A target closer than this to the lens's height is taken as so far below or above it: nearer
// still, metres on the plane would hang on digits that directions do not have.
constexpr double kLeastDropM = 1e-4;
// Parts of an edge that are shorter than this share of it are a touch of the lens's circle.
constexpr double kTouchShare = 1e-7;
constexpr double kTouchRad = 1e-9;
// Of unit directions: less off a great circle is straight; ends closer than this span none; farther
// apart the short way round may be the wrong one; a piece that passes the box by is looked at until
// it is this share of what the box's far corner spans.
constexpr double kStraight = 1e-12;
constexpr double kPoint = 1e-9;
constexpr double kLongPiece = 1.5;
constexpr double kShortPiece = 0.05;
constexpr int kDeepest = 24;           // halvings of a piece
constexpr int kSamples = 7;            // within a piece that is looked at
constexpr double kLeastRingM2 = 1e-14;

// ---- the frame's edge ---------------------------------------------------------------------------

// A part of the frame's edge: straight in the picture, or along the circle where the lens ends.
struct EdgePart {
  bool on_circle = false;
  Vec2 from_px, to_px;
  double from_rad = 0, to_rad = 0;  // azimuth in the picture, from x towards y
};

Vec3 onCircle(const optics::Lens& lens, double azimuth_rad) {
  const double angle = optics::largestAngleRad(lens);
  return {std::sin(angle) * std::cos(azimuth_rad), std::sin(angle) * std::sin(azimuth_rad),
          std::cos(angle)};
}

Vec2 centreOf(const optics::Lens& lens) {
  return std::visit([](const auto& model) { return model.centre_px; }, lens);
}

Vec3 directionOn(const optics::Lens& lens, const EdgePart& part, double t) {
  if (part.on_circle) return onCircle(lens, part.from_rad + (part.to_rad - part.from_rad) * t);
  const Vec2 at_px = part.from_px + (part.to_px - part.from_px) * t;
  if (const auto direction = optics::unproject(lens, at_px)) return *direction;
  const Vec2 offset = at_px - centreOf(lens);  // a rounding outside the circle
  return onCircle(lens, std::atan2(offset.y, offset.x));
}

// The part of an edge of the rectangle within the lens's circle, if any: the lens is asked at the
// edge's point nearest to its centre, and from there to either side.
std::optional<EdgePart> withinCircle(const optics::Lens& lens, Vec2 from, Vec2 to) {
  const auto at = [&](double t) { return from + (to - from) * t; };
  const auto valid = [&](double t) { return optics::unproject(lens, at(t)).has_value(); };
  const Vec2 along = to - from;
  const double nearest =
      std::clamp(dot(centreOf(lens) - from, along) / dot(along, along), 0.0, 1.0);
  if (!valid(nearest)) return std::nullopt;
  const auto lastValid = [&](double inside, double end) {
    if (valid(end)) return end;
    for (int step = 0; step < 60; ++step) {
      const double middle = 0.5 * (inside + end);
      (valid(middle) ? inside : end) = middle;
    }
    return inside;
  };
  const double first = lastValid(nearest, 0), last = lastValid(nearest, 1);
  if (last - first < kTouchShare) return std::nullopt;
  return EdgePart{false, first == 0 ? from : at(first), last == 1 ? to : at(last), 0, 0};
}

// The edge in order, the frame on the left of it for who looks from the lens.
std::vector<EdgePart> edgeOf(const design::PosedImager& view) {
  const Vec2 low = view.frame_low_px, high = view.frame_high_px;
  if (!(low.x < high.x && low.y < high.y)) return {};
  const std::array<Vec2, 4> corners{low, {low.x, high.y}, high, {high.x, low.y}};
  std::vector<EdgePart> straight;
  for (std::size_t i = 0; i < 4; ++i)
    if (auto part = withinCircle(view.lens, corners[i], corners[(i + 1) % 4]))
      straight.push_back(*part);
  const Vec2 centre = centreOf(view.lens);
  if (straight.empty()) {
    if (!contains(Ring(corners.begin(), corners.end()), centre)) return {};
    return {EdgePart{true, {}, {}, kPi, -kPi}};
  }
  std::vector<EdgePart> edge;
  const auto azimuth = [&](Vec2 px) {
    const Vec3 direction = directionOn(view.lens, EdgePart{false, px, px, 0, 0}, 0);
    return std::atan2(direction.y, direction.x);
  };
  for (std::size_t i = 0; i < straight.size(); ++i) {
    edge.push_back(straight[i]);
    const Vec2 leaves = straight[i].to_px, enters = straight[(i + 1) % straight.size()].from_px;
    if (leaves == enters) continue;
    const double from_rad = azimuth(leaves);
    double turn_rad = from_rad - azimuth(enters);
    while (turn_rad < 0) turn_rad += 2 * kPi;
    if (turn_rad < 2 * kPi - kTouchRad)
      edge.push_back({true, {}, {}, from_rad, from_rad - turn_rad});
  }
  return edge;
}

// ---- directions over the plane ------------------------------------------------------------------

// The pyramid of directions that meet a box of the plane, both relative to the lens. A direction is
// carried as q = (x, y, w), which meets the plane at (x, y) / w.
struct Pyramid {
  Vec2 low, high;
  // By the box's sides, anticlockwise from the lower; inside when all are at least 0.
  std::array<double, 4> inside(const Vec3& q) const {
    return {q.y - low.y * q.z, high.x * q.z - q.x, high.y * q.z - q.y, q.x - low.x * q.z};
  }
  bool holds(const Vec3& q) const {
    const auto g = inside(q);
    return std::all_of(g.begin(), g.end(), [](double value) { return value >= 0; });
  }
};

Vec2 placeOf(const Vec3& q) { return {q.x / q.z, q.y / q.z}; }

double farthestOf(const Pyramid& pyramid) {
  return std::hypot(std::max(std::fabs(pyramid.low.x), std::fabs(pyramid.high.x)),
                    std::max(std::fabs(pyramid.low.y), std::fabs(pyramid.high.y)));
}

// What of the straight piece from a to b is inside, as shares of it, and by which sides it comes in
// and goes out.
struct Cut {
  double first = 0, last = 1;
  std::size_t first_side = 0, last_side = 0;
  bool inside = true;
};
Cut cutOf(const Pyramid& pyramid, const Vec3& a, const Vec3& b) {
  const auto ga = pyramid.inside(a), gb = pyramid.inside(b);
  Cut cut;
  for (std::size_t side = 0; side < 4; ++side) {
    if (ga[side] < 0 && gb[side] < 0) cut.inside = false;
    if ((ga[side] < 0) == (gb[side] < 0)) continue;
    const double t = ga[side] / (ga[side] - gb[side]);
    if (ga[side] < 0 && t >= cut.first) {
      cut.first = t;
      cut.first_side = side;
    } else if (gb[side] < 0 && t <= cut.last) {
      cut.last = t;
      cut.last_side = side;
    }
  }
  cut.inside = cut.inside && cut.first < cut.last;
  return cut;
}

struct Sight {
  Vec3 direction, q;  // site
};

struct Tracer {
  const design::PosedImager& view;
  Mat3 site_from_imager;
  double drop_m, sign;  // the plane's distance below the lens (sign -1) or above it (+1)
  Pyramid pyramid;
  double error_m;
  std::vector<Vec3> curve;

  Sight at(const EdgePart& part, double t) const {
    const Vec3 d = site_from_imager * directionOn(view.lens, part, t);
    return {d, {d.x * drop_m, d.y * drop_m, sign * d.z}};
  }

  // May the piece between two sights be taken as straight on the plane? By how much it leaves the
  // great circle of its ends, times how much of the plane an angle spans where it is farthest.
  bool straight(const EdgePart& part, double t0, const Sight& a, double t1, const Sight& b) const {
    const Vec3 along = b.direction - a.direction;
    if (norm(along) > kLongPiece) return false;
    const Vec3 circle = cross(a.direction, along);
    const double size = norm(circle);
    std::array<bool, 4> beyond{true, true, true, true};
    double farthest_m = 0;
    bool meets_box = false;
    const auto note = [&](const Vec3& q) {
      const auto g = pyramid.inside(q);
      for (std::size_t side = 0; side < 4; ++side) beyond[side] = beyond[side] && g[side] < 0;
      if (!pyramid.holds(q)) return;
      meets_box = true;
      farthest_m = std::max(farthest_m, norm(placeOf(q)));
    };
    note(a.q);
    note(b.q);
    double off = 0, reach = norm(along);  // a piece may come back to where it began
    for (int i = 1; i <= kSamples; ++i) {
      const Sight s = at(part, t0 + (t1 - t0) * i / (kSamples + 1));
      note(s.q);
      const Vec3 ahead = s.direction - a.direction;
      reach = std::max(reach, norm(ahead));
      off = std::max(off, size > kPoint ? std::fabs(dot(circle, ahead)) / size : norm(ahead));
    }
    if (off <= kStraight || std::find(beyond.begin(), beyond.end(), true) != beyond.end())
      return true;
    const Cut cut = cutOf(pyramid, a.q, b.q);
    if (cut.inside) {
      meets_box = true;
      for (const double t : {cut.first, cut.last})
        farthest_m = std::max(farthest_m, norm(placeOf(a.q + (b.q - a.q) * t)));
    }
    if (!meets_box) return reach * farthestOf(pyramid) < kShortPiece * drop_m;
    return off * (farthest_m * farthest_m + drop_m * drop_m) <= error_m * drop_m;
  }

  void refine(const EdgePart& part, double t0, const Sight& a, double t1, const Sight& b,
              int depth) {
    if (depth >= kDeepest || straight(part, t0, a, t1, b)) {
      curve.push_back(b.q);
      return;
    }
    const double middle = 0.5 * (t0 + t1);
    const Sight m = at(part, middle);
    refine(part, t0, a, middle, m, depth + 1);
    refine(part, middle, m, t1, b, depth + 1);
  }

  void trace(const std::vector<EdgePart>& edge) {
    for (const EdgePart& part : edge) {
      const Sight a = at(part, 0), b = at(part, 1);
      if (!part.on_circle) {
        refine(part, 0, a, 1, b, 0);
        continue;
      }
      const Sight m = at(part, 0.5);  // its ends may be one
      refine(part, 0, a, 0.5, m, 1);
      refine(part, 0.5, m, 1, b, 1);
    }
  }
};

// ---- the curve cut to the pyramid ---------------------------------------------------------------

// A stretch of the curve inside, as places on the plane; where it comes in and goes out as distance
// along the box's edge, anticlockwise, each side counting 1.
struct Stretch {
  Ring points;
  double enters = 0, leaves = 0;
  bool used = false;
};

double alongBox(const Pyramid& pyramid, std::size_t side, Vec2 p) {
  const Vec2 size = pyramid.high - pyramid.low;
  const Vec2 low = p - pyramid.low, high = pyramid.high - p;
  const std::array<double, 4> share{low.x / size.x, low.y / size.y, high.x / size.x,
                                    high.y / size.y};
  return static_cast<double>(side) + std::clamp(share[side], 0.0, 1.0);
}

// A place on a side of the box, exactly on it.
Vec2 onSide(const Pyramid& pyramid, std::size_t side, Vec2 p) {
  const Vec2 low = pyramid.low, high = pyramid.high;
  p = {std::clamp(p.x, low.x, high.x), std::clamp(p.y, low.y, high.y)};
  switch (side) {
    case 0: return {p.x, low.y};
    case 1: return {high.x, p.y};
    case 2: return {p.x, high.y};
    default: return {low.x, p.y};
  }
}

// The curve starts outside.
std::vector<Stretch> stretchesOf(const std::vector<Vec3>& curve, const Pyramid& pyramid) {
  std::vector<Stretch> stretches;
  bool open = false;
  for (std::size_t i = 0; i < curve.size(); ++i) {
    const Vec3 a = curve[i], b = curve[(i + 1) % curve.size()];
    const bool ends_inside = pyramid.holds(b);
    const Cut cut = cutOf(pyramid, a, b);
    if (!open && !ends_inside && !cut.inside) continue;
    const auto place = [&](double t, std::size_t side) {
      return onSide(pyramid, side, placeOf(a + (b - a) * t));
    };
    if (!open) {
      const Vec2 p = place(cut.first, cut.first_side);
      stretches.push_back({{p}, alongBox(pyramid, cut.first_side, p), 0, false});
    }
    if (ends_inside) {
      stretches.back().points.push_back(placeOf(b));
    } else {
      const Vec2 p = place(cut.last, cut.last_side);
      stretches.back().points.push_back(p);
      stretches.back().leaves = alongBox(pyramid, cut.last_side, p);
    }
    open = ends_inside;
  }
  return stretches;
}

// Rings of what lies left of the stretches within the box.
std::vector<Ring> joined(std::vector<Stretch> stretches, const Pyramid& pyramid) {
  const Vec2 low = pyramid.low, high = pyramid.high;
  const std::array<Vec2, 4> corner{low, {high.x, low.y}, high, {low.x, high.y}};
  const auto ahead = [](double from, double to) { return to >= from ? to - from : to - from + 4; };
  std::vector<Ring> rings;
  for (std::size_t start = 0; start < stretches.size(); ++start) {
    if (stretches[start].used) continue;
    Ring ring;
    for (std::size_t now = start; !stretches[now].used;) {
      stretches[now].used = true;
      ring.insert(ring.end(), stretches[now].points.begin(), stretches[now].points.end());
      const double leaves = stretches[now].leaves;
      std::size_t next = start;
      for (std::size_t i = 0; i < stretches.size(); ++i)
        if ((!stretches[i].used || i == start) &&
            ahead(leaves, stretches[i].enters) < ahead(leaves, stretches[next].enters))
          next = i;
      const double way = ahead(leaves, stretches[next].enters);
      for (double at = std::floor(leaves) + 1; at - leaves < way; ++at)
        ring.push_back(corner[static_cast<std::size_t>(at) % 4]);
      now = next;
    }
    rings.push_back(std::move(ring));
  }
  return rings;
}

bool shows(const design::PosedImager& view, const Vec3& target) {
  const auto at = optics::project(view.lens, view.imager_from_site * (target - view.lens_m));
  return at && at->x >= view.frame_low_px.x && at->x <= view.frame_high_px.x &&
         at->y >= view.frame_low_px.y && at->y <= view.frame_high_px.y;
}

}  // namespace

Region frameOnPlane(const design::PosedImager& view, double plane_z_m, const Region& within,
                    double outline_error_m) {
  const Box2 box = bounds(within);
  if (box.empty()) return {};
  const std::vector<EdgePart> edge = edgeOf(view);
  if (edge.empty()) return {};
  const Vec2 lens = view.lens_m.xy();
  const double rise_m = plane_z_m - view.lens_m.z;
  // The box is wider than what is asked for, by different lengths, so that no edge runs along it.
  const double size_m = norm(box.high - box.low) + outline_error_m;
  const Pyramid pyramid{box.low - lens - Vec2{0.41, 0.43} * size_m,
                        box.high - lens + Vec2{0.47, 0.53} * size_m};
  Tracer tracer{view,
                transposed(view.imager_from_site),
                std::max(std::fabs(rise_m), kLeastDropM),
                rise_m > 0 ? 1.0 : -1.0,
                pyramid,
                outline_error_m,
                {}};
  tracer.trace(edge);
  std::vector<Vec3>& curve = tracer.curve;
  // Seen from below, plan turns the other way round.
  if (tracer.sign > 0) std::reverse(curve.begin(), curve.end());
  const Ring whole{pyramid.low, {pyramid.high.x, pyramid.low.y}, pyramid.high,
                   {pyramid.low.x, pyramid.high.y}};
  Region shown;
  const auto outside = std::find_if(curve.begin(), curve.end(),
                                    [&](const Vec3& q) { return !pyramid.holds(q); });
  if (outside != curve.end()) {
    std::rotate(curve.begin(), outside, curve.end());
    for (Ring& ring : joined(stretchesOf(curve, pyramid), pyramid)) shown.push_back({ring, {}});
  } else {
    Ring loop;
    for (const Vec3& q : curve) loop.push_back(placeOf(q));
    const double loop_m2 = signedArea(loop);
    if (loop_m2 > kLeastRingM2) shown = {{loop, {}}};
    if (loop_m2 < -kLeastRingM2) shown = {{whole, {loop}}};
  }
  // The edge stays clear of the box: all of it is shown, or nothing.
  if (shown.empty()) {
    const Vec2 middle = (pyramid.low + pyramid.high) * 0.5;
    const double z = view.lens_m.z + tracer.sign * tracer.drop_m;
    if (!shows(view, withZ(lens + middle, z))) return {};
    shown = {{whole, {}}};
  }
  for (Polygon& polygon : shown) {
    for (Vec2& p : polygon.outer) p = p + lens;
    for (Ring& hole : polygon.holes)
      for (Vec2& p : hole) p = p + lens;
  }
  return intersectionOf(shown, within);
}

}  // namespace belvedere::proof
