// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/withhold.h"

#include <algorithm>
#include <cmath>
#include <queue>

#include "base/units.h"
#include "optics/density.h"
#include "proof/box_tests.h"
#include "proof/cells.h"
#include "proof/limits.h"
#include "proof/range.h"

namespace belvedere::proof {
namespace {

constexpr double kFinestM = 0.002;          // smaller cells keep their upper bound
// Of an imager that can be turned, by distance: its bound says no more of nearer cells.
constexpr double kFinestOfDistance = 0.005;
constexpr double kFinestForMaskM = 0.02;    // a mask is typed in thousandths of the picture
constexpr std::size_t kBoxesMost = 400'000;  // per imager

struct Piece {
  std::vector<Ring> pieces;
  double low_m = 0, high_m = 0;   // of the band
  double upper = 0;               // px/m
  std::vector<std::uint32_t> bodies;
  bool bodies_known = false;
  std::size_t number = 0;         // order of making: ties are settled the same way everywhere
};
struct LessUrgent {
  bool operator()(const Piece& a, const Piece& b) const {
    return a.upper != b.upper ? a.upper < b.upper : a.number > b.number;
  }
};

// One imager's view and all that can be had with it.
struct Watcher {
  const Question& q;
  std::size_t index;
  const design::PosedImager& view() const { return q.views[index]; }
  const std::optional<Remote>& remote() const { return q.remote[index]; }

  double finestM() const {
    if (!remote()) return kFinestM;
    double nearest_m = 1e300;
    for (const Polygon& polygon : q.region)
      nearest_m = std::min(nearest_m, contains(polygon, view().lens_m.xy())
                                          ? 0 : distanceToOutline(polygon.outer, view().lens_m.xy()));
    return std::max(kFinestM, kFinestOfDistance * nearest_m);
  }

  // An upper bound of density over a slab, nothing when no point of it can be seen.
  std::optional<double> upper(const Cell& cell, const Slab& slab) const {
    const auto [near_plan, far_plan] = planDistances(cell, view().lens_m.xy());
    double low_z = 1e300, high_z = -1e300;
    for (const Vec3& c : slab.prism.corners()) {
      low_z = std::min(low_z, c.z);
      high_z = std::max(high_z, c.z);
    }
    const double rise = std::max({0.0, low_z - view().lens_m.z, view().lens_m.z - high_z});
    double nearest = std::hypot(near_plan, rise);
    if (remote()) {
      if (outOfReach(slab)) return {};
      nearest -= remote()->lens_moves_m;
      double densest_px = 0;
      for (const optics::Lens& lens : remote()->lenses) {
        design::PosedImager zoomed = view();
        zoomed.lens = lens;
        densest_px = std::max(densest_px, densestPxPerRad(zoomed).value_or(1e300));
      }
      return nearest > 0 ? std::min(1e300, densest_px / nearest) : 1e300;
    }
    const optics::PictureBounds picture = pictureOf(view(), slab);
    if (frameOver(view(), cell, picture, false) == Over::none) return {};
    if (maskedInFrame(cell, picture)) return {};
    const auto density = densityOver(view(), cell, picture);
    if (density) return density->high;
    const auto densest_px = densestPxPerRad(view());
    return densest_px && nearest > 0 ? *densest_px / nearest : 1e300;
  }

  // Does one mask cover all of the slab that is in the frame?
  bool maskedInFrame(const Cell& cell, const optics::PictureBounds& picture) const {
    if (view().masks_px.empty() || picture.maps != optics::Maps::everywhere) return false;
    const Interval x = rangeOver(picture.x_px, cell), y = rangeOver(picture.y_px, cell);
    // A mask's edge is masked: a mask that ends with the frame covers it to its edge.
    constexpr double kEdgePx = 0.5 * kOutlineTouchM;
    const Vec2 low{std::max(x.low, view().frame_low_px.x + kEdgePx),
                   std::max(y.low, view().frame_low_px.y + kEdgePx)};
    const Vec2 high{std::min(x.high, view().frame_high_px.x - kEdgePx),
                    std::min(y.high, view().frame_high_px.y - kEdgePx)};
    if (low.x > high.x || low.y > high.y) return false;
    return std::any_of(view().masks_px.begin(), view().masks_px.end(), [&](const Ring& mask) {
      return rectangleIn(mask, low, high) == Over::all;
    });
  }

  // Does one body hide the slab from wherever the lens may be? (For a convex body, the places from
  // which a point is hidden are convex as well: the corners of a box around the lens suffice.)
  bool hidden(const scene::Body& body, const Slab& slab) const {
    const double moves = remote() ? remote()->lens_moves_m : 0;
    const auto from = [&](const Vec3& lens_m) {
      return scene::hidesAll(q.place->scene, body, lens_m, slab.prism.corners());
    };
    if (moves == 0) return from(view().lens_m);
    for (const double x : {-moves, moves})
      for (const double y : {-moves, moves})
        for (const double z : {-moves, moves})
          if (!from(view().lens_m + Vec3{x, y, z})) return false;
    return true;
  }

  // Is the whole slab farther from every aim that can be set than a picture's corner?
  bool outOfReach(const Slab& slab) const {
    const Vec3 to = slab.centre - view().lens_m;
    const double d = norm(to);
    double reach = 0;
    for (const Vec3& c : slab.prism.corners()) reach = std::max(reach, norm(c - slab.centre));
    reach += remote()->lens_moves_m;
    if (reach >= d) return false;
    const design::PanTilt in_site{radToDeg(std::atan2(to.x, to.y)), radToDeg(std::asin(-to.z / d))};
    const design::PanTilt in_housing = design::housingFromSite(remote()->mount, in_site);
    const auto beyond = [](double x, const design::Range& r) {
      return std::max({0.0, r[0] - x, x - r[1]});
    };
    const double tilt_off = beyond(in_housing.tilt_deg, remote()->imager->tilt_deg);
    double pan_off = 1e300;  // the range may run over 180
    for (const double turn : {-360.0, 0.0, 360.0})
      pan_off = std::min(pan_off, beyond(in_housing.pan_deg + turn, remote()->imager->pan_deg));
    const double across = radToDeg(std::asin(std::sin(degToRad(std::min(pan_off, 90.0))) *
                                             std::cos(degToRad(in_housing.tilt_deg))));
    return std::max(tilt_off, across) - radToDeg(std::asin(reach / d)) >
           remote()->half_diagonal_deg;
  }

  // Density that can really be had at a point, 0 when it is not seen.
  double reached(const Vec3& target) const {
    const auto seenFrom = [&](const Vec3& lens_m) {
      return !scene::blockerOf(q.place->scene, q.place->tree, lens_m, target, q.blocking);
    };
    if (!remote()) return seenFrom(view().lens_m) ? densityInFrame(view(), target, true) : 0;
    const design::ModelImager& imager = *remote()->imager;
    double best = 0;
    for (const optics::Lens& lens : {remote()->lenses[0], remote()->lenses[1]}) {
      design::PosedImager set = view();
      set.lens = lens;
      // Aimed straight at it, and so that it comes to lie toward an edge or a corner.
      const auto corner = optics::unproject(lens, {0, 0});
      const double h = corner ? radToDeg(std::atan2(std::fabs(corner->x), corner->z)) : 0;
      const double v = corner ? radToDeg(std::atan2(std::fabs(corner->y), corner->z)) : 0;
      for (const double x : {0.0, -0.99, 0.99})
        for (const double y : {0.0, -0.99, 0.99}) {
          design::PanTilt in_site;
          // The lens moves as it is aimed: aimed again from where it then is.
          for (int i = 0; i == 0 || (i < 3 && remote()->lens_moves_m > 0); ++i) {
            const Vec3 to = target - set.lens_m;
            design::PanTilt aim = design::housingFromSite(
                remote()->mount, {radToDeg(std::atan2(to.x, to.y)) + x * h,
                                  radToDeg(std::atan2(-to.z, norm(to.xy()))) + y * v});
            aim.tilt_deg = std::clamp(aim.tilt_deg, imager.tilt_deg[0], imager.tilt_deg[1]);
            aim.pan_deg = nearestIn(aim.pan_deg, imager.pan_deg);
            in_site = design::siteFromHousing(remote()->mount, aim);
            set.lens_m = design::lensPoint(remote()->mount, remote()->mount_model, imager, aim);
          }
          set.imager_from_site = design::imagerFromSite(in_site.pan_deg, in_site.tilt_deg, 0);
          const double density = densityInFrame(set, target, false);
          if (density > best && seenFrom(set.lens_m)) best = density;
        }
    }
    return best;
  }

  static double nearestIn(double pan_deg, const design::Range& range) {
    double best = range[0], least = 1e300;
    for (const double turn : {-360.0, 0.0, 360.0}) {
      const double clamped = std::clamp(pan_deg + turn, range[0], range[1]);
      const double off = std::fabs(clamped - pan_deg - turn);
      if (off < least) {
        least = off;
        best = clamped;
      }
    }
    return best;
  }

  static double densityInFrame(const design::PosedImager& view, const Vec3& target, bool masks) {
    const auto density =
        optics::densityAt(view.lens, view.imager_from_site, view.lens_m, target);
    if (!density) return 0;
    const Vec2 p = density->at_px;
    if (p.x < view.frame_low_px.x || p.x > view.frame_high_px.x || p.y < view.frame_low_px.y ||
        p.y > view.frame_high_px.y)
      return 0;
    if (masks && std::any_of(view.masks_px.begin(), view.masks_px.end(),
                             [&](const Ring& mask) { return contains(mask, p); }))
      return 0;
    return density->across_px_per_m * optics::deliveredFactor(view.delivered.centre,
                                                              view.delivered.corner, view.pixels, p);
  }
};

// Best first: the piece with the highest bound is cut until the bound is reached somewhere.
struct Search {
  const Watcher& watcher;
  const ZoneFrame frame;
  std::size_t boxes = 0;
  double low = 0;
  Vec3 low_at;

  // Bounds a piece; false when it cannot be seen at all.
  bool bound(Piece& piece) {
    ++boxes;
    const Question& q = watcher.q;
    const Cell cell = cellOf(frame, boundsOf(piece.pieces));
    const Slab slab = slabOf(q.floor, cell, piece.low_m, piece.high_m);
    const auto upper = watcher.upper(cell, slab);
    if (!upper || *upper <= 0) return false;
    piece.upper = *upper;
    const scene::Scene& scene = q.place->scene;
    const scene::Shaft shaft = scene::makeShaft(watcher.view().lens_m, slab.prism);
    std::vector<std::uint32_t> bodies;
    if (piece.bodies_known)
      scene::bodiesIn(scene, piece.bodies, shaft, bodies);
    else
      scene::bodiesIn(scene, q.place->tree, shaft, q.blocking, bodies);
    piece.bodies = std::move(bodies);
    piece.bodies_known = true;
    for (const std::uint32_t body : piece.bodies)
      if (watcher.hidden(scene.bodies[body], slab)) return false;
    // Corners of the piece itself are places of the zone; the densest is likely the nearest.
    for (const Ring& ring : piece.pieces)
      for (const Vec2 p : ring) tryAt(frame.out(p), piece);
    tryAt(cell.centre, piece);
    return true;
  }

  void tryAt(Vec2 p, const Piece& piece) {
    if (piece.upper <= low) return;
    if (!contains(watcher.q.region, p)) return;
    for (const double height_m : {piece.low_m, piece.high_m}) {
      const Vec3 target = withZ(p, watcher.q.floor.at(p) + height_m);
      const double density = watcher.reached(target);
      if (density > low) {
        low = density;
        low_at = target;
      }
    }
  }

  // Pieces that are neither invisible nor at or below `enough`, nor, where a closeness is given, at
  // or below the density reached times 1 + closeness.
  std::vector<Piece> run(std::optional<double> closeness, double enough, double finest_m,
                         const Progress& progress) {
    const Question& q = watcher.q;
    std::priority_queue<Piece, std::vector<Piece>, LessUrgent> open;
    std::vector<Piece> finest;
    std::size_t number = 0;
    Piece whole;
    whole.pieces = convexPiecesIn(frame, q.region);
    whole.low_m = q.low_m;
    whole.high_m = q.high_m;
    if (!whole.pieces.empty() && bound(whole)) open.push(std::move(whole));
    while (!open.empty()) {
      if (boxes % 256 == 0) progress.throwIfCancelled();
      // As near as is asked for; but not while the limit lies between.
      double near = closeness ? low * (1 + *closeness) : 0;
      if (low <= q.needed_px_per_m) near = std::min(near, q.needed_px_per_m);
      const double settled = std::max(near, enough);
      if (open.top().upper <= settled || boxes > kBoxesMost) break;
      Piece piece = open.top();
      open.pop();
      const Box2 box = boundsOf(piece.pieces);
      const Vec2 size = box.high - box.low;
      const double side = std::max(size.x, size.y), tall = piece.high_m - piece.low_m;
      if (std::max(side, tall) <= finest_m) {
        finest.push_back(std::move(piece));
        continue;
      }
      const auto push = [&](std::vector<Ring> pieces, double low_m, double high_m) {
        Piece child{std::move(pieces), low_m, high_m, 0, piece.bodies, true, ++number};
        if (bound(child)) open.push(std::move(child));
      };
      if (tall > side) {
        const double middle = 0.5 * (piece.low_m + piece.high_m);
        push(piece.pieces, piece.low_m, middle);
        push(piece.pieces, middle, piece.high_m);
      } else {
        for (auto& part : split(piece.pieces, box)) push(std::move(part), piece.low_m, piece.high_m);
      }
    }
    while (!open.empty()) {
      finest.push_back(open.top());
      open.pop();
    }
    return finest;
  }
};

Densest densestOf(const Question& q, std::size_t view, double closeness, double enough,
                  const Progress& progress) {
  const Watcher watcher{q, view};
  Search search{watcher, zoneFrame(q.region), 0, 0, {}};
  const std::vector<Piece> left = search.run(closeness, enough, watcher.finestM(), progress);
  Densest found;
  found.px_per_m = {search.low, search.low};
  for (const Piece& piece : left) found.px_per_m.high = std::max(found.px_per_m.high, piece.upper);
  found.imager = q.views[view].imager;
  if (search.low > 0) found.at = search.low_at;
  found.boxes = search.boxes;
  return found;
}

}  // namespace

Densest densest(const Question& q, double closeness, const Progress& progress) {
  Densest most;
  for (std::size_t view = 0; view < q.views.size(); ++view) {
    Densest one = densestOf(q, view, closeness, most.px_per_m.low, progress);
    most.boxes += one.boxes;
    most.px_per_m.high = std::max(most.px_per_m.high, one.px_per_m.high);
    if (one.px_per_m.low > most.px_per_m.low || most.imager.empty()) {
      most.px_per_m.low = one.px_per_m.low;
      most.imager = one.imager;
      most.at = one.at;
    }
  }
  if (most.px_per_m.high <= 0) most.imager.clear();
  return most;
}

namespace {

// The least turn of pan, in tenths of a degree, that keeps the zone; within the model's limits.
std::optional<double> turnThatKeeps(const design::Design& design, const Question& q,
                                    std::size_t index, const Progress& progress) {
  constexpr double kCloseness = 0.01, kStepDeg = 0.5, kFarthestDeg = 90;
  const design::PosedImager& view = q.views[index];
  const design::Housing* housing = design::findHousing(design, view.housing);
  if (!housing) return {};
  const auto kept = [&](double turn_deg) {
    design::Housing turned = *housing;
    for (design::HousingImager& imager : turned.imagers)
      if (imager.slot == view.slot) {
        double& pan = imager.aims[view.aim].pan_deg;
        pan = wrap180(pan + turn_deg);
      }
    if (!withinLimits(design, turned)) return false;
    Question asked = q;
    for (design::PosedImager& v :
         design::posedImagersOf(design, turned, design::JudgedOn::captured)) {
      if (v.slot != view.slot || v.aim != view.aim) continue;
      v.frame_low_px = view.frame_low_px;
      v.frame_high_px = view.frame_high_px;
      asked.views[index] = std::move(v);
    }
    return densestOf(asked, index, kCloseness, q.needed_px_per_m, progress).px_per_m.high <=
           q.needed_px_per_m;
  };
  for (double off = kStepDeg; off <= kFarthestDeg; off += kStepDeg)
    for (const double side : {1.0, -1.0}) {
      if (!kept(side * off)) continue;
      for (const double less : {0.4, 0.3, 0.2, 0.1})
        if (const double tenths = std::round((off - less) * 10) / 10; kept(side * tenths))
          return side * tenths;
      return side * off;
    }
  return {};
}

}  // namespace

std::vector<Keep> whatKeeps(const design::Design& design, const Question& q,
                            const Progress& progress) {
  std::vector<Keep> keeps;
  for (std::size_t index = 0; index < q.views.size(); ++index) {
    if (q.remote[index]) continue;  // its aim can be set again: no mask or turn keeps it
    const Watcher watcher{q, index};
    Search search{watcher, zoneFrame(q.region), 0, 0, {}};
    const std::vector<Piece> dense = 
        search.run({}, q.needed_px_per_m, kFinestForMaskM, progress);
    const design::PosedImager& view = q.views[index];
    const double width = view.pixels[0], height = view.pixels[1];
    Box2 mask;
    for (const Piece& piece : dense) {
      if (piece.upper <= q.needed_px_per_m) continue;
      const Cell cell = cellOf(search.frame, boundsOf(piece.pieces));
      const auto picture = pictureOf(view, slabOf(q.floor, cell, piece.low_m, piece.high_m));
      if (picture.maps != optics::Maps::everywhere) {
        mask.add({0, 0});
        mask.add({width, height});
        continue;
      }
      mask.add({picture.x_px.low(), picture.y_px.low()});
      mask.add({picture.x_px.high(), picture.y_px.high()});
    }
    if (mask.empty()) continue;
    Keep keep;
    keep.imager = view.imager;
    // Outwards to whole thousandths of the picture, as they are typed in.
    const auto down = [](double x) { return std::clamp(std::floor(x * 1000 - 1e-6) / 1000, 0.0, 1.0); };
    const auto up = [](double x) { return std::clamp(std::ceil(x * 1000 + 1e-6) / 1000, 0.0, 1.0); };
    keep.mask = {down(mask.low.x / width), down(mask.low.y / height), up(mask.high.x / width),
                 up(mask.high.y / height)};
    keep.turn_deg = turnThatKeeps(design, q, index, progress);
    keeps.push_back(keep);
  }
  return keeps;
}

}  // namespace belvedere::proof
