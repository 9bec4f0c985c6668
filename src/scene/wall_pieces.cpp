// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/wall_pieces.h"

#include <algorithm>
#include <cmath>

#include "geometry/vec.h"
#include "scene/scene.h"

namespace belvedere::scene {
namespace {

constexpr double kSamePointM = 1e-5;  // path points nearer than this are one
constexpr double kStraightM = 1e-9;   // a path bends less than this at a point: it goes straight on
constexpr double kReachM = 1e-3;      // of a sill or head piece into its jamb
constexpr double kMitre = 4;          // outer corners farther out than this many half-thicknesses
                                      // are cut off
constexpr double kMostBeyond = 4;     // half-thicknesses that a strip runs on over a corner
constexpr double kSameHeightM = 1e-9;

struct Segment {
  Vec2 start, direction;
  double length = 0;
  double from_m = 0;  // of its start along the path
};

struct Path {
  std::vector<Segment> segments;
  bool closed = false;
};

Path pathOf(const design::Building& building, const design::Wall& wall) {
  std::vector<Vec2> points;
  for (const Vec2 p : wall.path) {
    const Vec2 q = siteFromBuilding(building, p);
    if (points.empty() || norm(q - points.back()) > kSamePointM) points.push_back(q);
  }
  Path path;
  if (points.size() > 3 && norm(points.front() - points.back()) <= kSamePointM) {
    points.back() = points.front();
    path.closed = true;
  }
  std::vector<Vec2> kept;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (i > 0 && i + 1 < points.size()) {
      const Vec2 in = points[i] - kept.back(), out = points[i + 1] - points[i];
      const Vec2 all = points[i + 1] - kept.back();
      if (dot(in, out) > 0 && std::abs(cross(in, all)) <= kStraightM * norm(all)) continue;
    }
    kept.push_back(points[i]);
  }
  double along = 0;
  for (std::size_t i = 0; i + 1 < kept.size(); ++i) {
    const Vec2 d = kept[i + 1] - kept[i];
    path.segments.push_back({kept[i], d / norm(d), norm(d), along});
    along += norm(d);
  }
  return path;
}

struct Span {
  double low = 0, high = 0;
  bool operator==(const Span&) const = default;
  bool holds(const Span& s) const { return low <= s.low && high >= s.high; }
};

// Solid heights over a stretch of a segment.
struct Stretch {
  double from = 0, to = 0;  // along the segment
  std::vector<Span> solid;
};

class WallCutter {
 public:
  WallCutter(const design::Building& building, const design::Storey& storey,
             const design::Wall& wall)
      : wall_(wall), path_(pathOf(building, wall)), half_(0.5 * wall.thickness_m) {
    const double height = wall.height_m.value_or(storey.height_m);
    whole_ = {wall.base_m, height};
    if (wall.base_m == 0) whole_.low -= kSeamOverlapM;
    if (std::abs(height - storey.height_m) <= kSameHeightM) whole_.high += kSeamOverlapM;
  }

  std::vector<WallPiece> cut() {
    if (whole_.high <= whole_.low || half_ <= 0) return {};
    for (std::size_t s = 0; s < path_.segments.size(); ++s) stretches_.push_back(stretchesOf(s));
    for (std::size_t s = 0; s < path_.segments.size(); ++s) addSolid(s);
    for (const design::Opening& opening : wall_.openings)
      if (!opening.material.empty()) addPane(opening);
    return std::move(pieces_);
  }

 private:
  std::vector<Stretch> stretchesOf(std::size_t s) const {
    const Segment& segment = path_.segments[s];
    std::vector<double> cuts{0, segment.length};
    for (const design::Opening& o : wall_.openings)
      for (const double at : {o.from_m - segment.from_m, o.from_m + o.width_m - segment.from_m})
        if (at > kSamePointM && at < segment.length - kSamePointM) cuts.push_back(at);
    std::sort(cuts.begin(), cuts.end());
    std::vector<Stretch> stretches;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      if (cuts[i + 1] - cuts[i] <= kSameHeightM) continue;
      Stretch stretch{cuts[i], cuts[i + 1], {whole_}};
      const double middle = segment.from_m + 0.5 * (cuts[i] + cuts[i + 1]);
      for (const design::Opening& o : wall_.openings) {
        if (middle <= o.from_m || middle >= o.from_m + o.width_m) continue;
        // What is left at the foot or the top must be more than the reach into the slab.
        const double low = o.sill_m <= wall_.base_m + kSameHeightM ? -1e300 : o.sill_m;
        const double high = o.head_m >= whole_.high - 2 * kSeamOverlapM ? 1e300 : o.head_m;
        std::vector<Span> left;
        for (const Span& span : stretch.solid) {
          if (low > span.low) left.push_back({span.low, std::min(low, span.high)});
          if (high < span.high) left.push_back({std::max(high, span.low), span.high});
        }
        stretch.solid = std::move(left);
      }
      if (!stretches.empty() && stretches.back().solid == stretch.solid)
        stretches.back().to = stretch.to;
      else
        stretches.push_back(std::move(stretch));
    }
    return stretches;
  }

  std::optional<std::size_t> neighbour(std::size_t s, bool at_end) const {
    const std::size_t n = path_.segments.size();
    if (at_end) {
      if (s + 1 < n) return s + 1;
      if (path_.closed) return 0;
    } else {
      if (s > 0) return s - 1;
      if (path_.closed) return n - 1;
    }
    return std::nullopt;
  }

  static bool solidAt(const Stretch& stretch, const Span& span) {
    return std::any_of(stretch.solid.begin(), stretch.solid.end(),
                       [&](const Span& own) { return own.holds(span); });
  }

  // How far to run on over a corner: as far as the neighbour there is solid over the span, but not
  // along all of it where the path hardly bends.
  double solidBeyond(std::size_t other, bool at_end, const Span& span) const {
    const auto& stretches = stretches_[other];
    double far = 0;
    if (at_end) {
      for (const Stretch& stretch : stretches) {
        if (!solidAt(stretch, span)) break;
        far = stretch.to;
      }
      far = std::max(far, meets(stretches.front(), span) ? 2 * kSeamOverlapM : 0.0);
    } else {
      for (auto stretch = stretches.rbegin(); stretch != stretches.rend(); ++stretch) {
        if (!solidAt(*stretch, span)) break;
        far = path_.segments[other].length - stretch->from;
      }
      far = std::max(far, meets(stretches.back(), span) ? 2 * kSeamOverlapM : 0.0);
    }
    return std::min(far, kMostBeyond * half_);
  }

  // The strip of segment s, `half` thick to either side, from `from` to `to`; an absent limit runs
  // to the end of the segment and over the corner there, as far as `beyond` along the neighbour.
  Ring strip(std::size_t s, double half, std::optional<double> from, std::optional<double> to,
             double beyond_start, double beyond_end) const {
    const Segment& segment = path_.segments[s];
    const Vec2 d = segment.direction, n = perpLeft(d) * half;
    const double far = 2 * (kMitre + 2) * half + segment.length;
    double begin = from.value_or(-kSeamOverlapM), end = to.value_or(segment.length + kSeamOverlapM);
    const auto before = neighbour(s, false), after = neighbour(s, true);
    if (!from && before) begin = -far - beyond_start;
    if (!to && after) end = segment.length + far + beyond_end;
    const Vec2 a = segment.start + d * begin, b = segment.start + d * end;
    Ring ring{a - n, b - n, b + n, a + n};
    if (!from && before)
      ring = corner(ring, segment.start, -d, -path_.segments[*before].direction, half,
                    beyond_start);
    if (!to && after)
      ring = corner(ring, segment.start + d * segment.length, d, path_.segments[*after].direction,
                    half, beyond_end);
    return ring;
  }

  // Ends a strip that comes to the corner p in direction `in` and meets there one that leaves in
  // direction `out` and is solid for `beyond`.
  static Ring corner(Ring ring, Vec2 p, Vec2 in, Vec2 out, double half, double beyond) {
    const auto cut = [&](Vec2 normal, double limit) {
      ring = clipHalfPlane(ring, normal, dot(normal, p) + limit);
    };
    const double sine = cross(in, out), cosine = dot(in, out);
    if (cosine < 0 && std::abs(sine) < 1e-6) {  // folds back onto itself: no corner to cover
      cut(in, kSeamOverlapM);
      return ring;
    }
    const Vec2 outer = sine > 0 ? -perpLeft(out) : perpLeft(out);
    cut(outer, half);
    const Vec2 tip = in - out;  // outward along the bisector; none where the path goes straight on
    if (norm(tip) > 1e-9) cut(tip / norm(tip), kMitre * half);
    if (cosine < 0.7) {
      const double inner = half * (1 + cosine) / std::max(std::abs(sine), 1e-6);
      cut(in, std::max(half, std::min(inner, beyond)));
    } else if (half * std::abs(sine) < beyond) {
      cut(out, beyond);
    } else {
      const Vec2 across = (in + out) / norm(in + out);
      cut(across, beyond);
    }
    return ring;
  }

  void add(Ring outline, Span span, const design::Opening* filling) {
    outline = convexHull(std::move(outline));
    if (outline.size() >= 3 && span.high > span.low)
      pieces_.push_back({std::move(outline), span.low, span.high, filling});
  }

  void addSolid(std::size_t s) {
    const auto& stretches = stretches_[s];
    for (std::size_t i = 0; i < stretches.size(); ++i) {
      for (const Span& span : stretches[i].solid) {
        // Over a neighbour's seam by a millimetre where the neighbour is solid at all these
        // heights; elsewhere by no more than it takes to leave no gap.
        const auto reach = [&](const Stretch& other) {
          if (!solidAt(other, span)) return meets(other, span) ? 2 * kSeamOverlapM : 0.0;
          return std::min(kReachM, 0.5 * (other.to - other.from));
        };
        std::optional<double> from, to;
        double beyond_start = 0, beyond_end = 0;
        if (i > 0) from = stretches[i].from - reach(stretches[i - 1]);
        else if (const auto other = neighbour(s, false))
          beyond_start = solidBeyond(*other, false, span);
        if (i + 1 < stretches.size()) to = stretches[i].to + reach(stretches[i + 1]);
        else if (const auto other = neighbour(s, true))
          beyond_end = solidBeyond(*other, true, span);
        add(strip(s, half_, from, to, beyond_start, beyond_end), span, nullptr);
      }
    }
  }

  // Some, but not all, of the span's heights are solid there too.
  static bool meets(const Stretch& stretch, const Span& span) {
    return std::any_of(stretch.solid.begin(), stretch.solid.end(), [&](const Span& own) {
      return !span.holds(own) && own.low < span.high && own.high > span.low;
    });
  }

  void addPane(const design::Opening& o) {
    const double half = std::min(0.5 * kPaneThicknessM, half_);
    Span span{std::max(o.sill_m, whole_.low), std::min(o.head_m, whole_.high)};
    // Into sill and head, where there are any.
    if (o.sill_m > wall_.base_m + kReachM) span.low -= kReachM;
    else span.low = whole_.low;
    if (o.head_m < whole_.high - kReachM) span.high += kReachM;
    else span.high = whole_.high;
    for (std::size_t s = 0; s < path_.segments.size(); ++s) {
      const Segment& segment = path_.segments[s];
      const double from = o.from_m - segment.from_m, to = from + o.width_m;
      if (to <= kSamePointM || from >= segment.length - kSamePointM) continue;
      std::optional<double> begin, end;
      if (from > kSamePointM) begin = from - std::min(kReachM, from);
      if (to < segment.length - kSamePointM) end = to + std::min(kReachM, segment.length - to);
      // Over the corner only if the opening goes on there.
      const auto beyond = [&](bool at_end) {
        const auto other = neighbour(s, at_end);
        const bool goes_on = at_end ? to > segment.length + kSamePointM : from < -kSamePointM;
        if (!other) return 0.0;
        return goes_on ? std::min(path_.segments[*other].length, kMostBeyond * half) : kReachM;
      };
      add(strip(s, half, begin, end, beyond(false), beyond(true)), span, &o);
    }
  }

  const design::Wall& wall_;
  Path path_;
  double half_;
  Span whole_;
  std::vector<std::vector<Stretch>> stretches_;  // of each segment
  std::vector<WallPiece> pieces_;
};

}  // namespace

std::vector<WallPiece> wallPieces(const design::Building& building, const design::Storey& storey,
                                  const design::Wall& wall) {
  return WallCutter(building, storey, wall).cut();
}

}  // namespace belvedere::scene
