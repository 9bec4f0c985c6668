// SPDX-License-Identifier: GPL-3.0-or-later
#include "proof/withhold.h"

#include <algorithm>
#include <cmath>
#include <queue>

#include "base/units.h"
#include "proof/box_tests.h"
#include "proof/cells.h"
#include "proof/limits.h"
#include "proof/range.h"
#include "proof/remote_aims.h"

namespace belvedere::proof {
namespace {

constexpr double kFinestM = 0.002;          // smaller cells keep their upper bound
// Of an imager that can be turned, by distance: its bound says no more of nearer cells.
constexpr double kFinestOfDistance = 0.005;
constexpr double kFinestForMaskM = 0.02;    // a mask is typed in thousandths of the picture
constexpr std::size_t kBoxesMost = 400'000;  // per imager
// Of one that can be turned, a box costs up to a hundred aims and thirty places of its lens.
constexpr std::size_t kBoxesMostRemote = 20'000;
// Once the verdict stands, for a closer figure.
constexpr std::size_t kBoxesOnceDecided = 20'000, kBoxesOnceDecidedRemote = 1'000;

// What is known of a piece for a part of the imager's aims (all of them, for a fixed one).
struct Live {
  std::size_t sector = 0;
  double upper = 0;               // px/m
  std::vector<std::uint32_t> bodies;
  bool bodies_known = false;
};
struct Piece {
  std::vector<Ring> pieces;
  double low_m = 0, high_m = 0;   // of the band
  double upper = 0;               // px/m: the most of `live`
  std::vector<Live> live;         // the parts of its aims that may see it
  bool as_fine_as_useful = false; // cut further, its bound would stay
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
  std::optional<RemoteAims> aims{};  // of a remote one
  Watcher(const Question& question, std::size_t view) : q(question), index(view) {
    if (q.remote[index]) aims.emplace(q, index);
  }
  const design::PosedImager& view() const { return q.views[index]; }
  std::size_t sectors() const { return aims ? aims->sectors().size() : 1; }
  Vec3 lensOf(std::size_t sector) const {
    return aims ? aims->sectors()[sector].lens_m : view().lens_m;
  }
  std::size_t boxesMost() const { return aims ? kBoxesMostRemote : kBoxesMost; }
  std::size_t boxesOnceDecided() const { return aims ? kBoxesOnceDecidedRemote : kBoxesOnceDecided; }

  double finestM() const {
    if (!aims) return kFinestM;
    double nearest_m = 1e300;
    for (const Polygon& polygon : q.region)
      nearest_m = std::min(nearest_m, contains(polygon, view().lens_m.xy())
                                          ? 0 : distanceToOutline(polygon.outer, view().lens_m.xy()));
    return std::max(kFinestM, kFinestOfDistance * nearest_m);
  }

  // An upper bound of density over a slab, nothing when no point of it can be seen.
  std::optional<double> upper(std::size_t sector, const Cell& cell, const Slab& slab) const {
    if (aims) return aims->upper(aims->sectors()[sector], cell, slab);
    const optics::PictureBounds picture = pictureOf(view(), slab);
    if (frameOver(view(), cell, picture, false) == Over::none) return {};
    if (maskedInFrame(cell, picture)) return {};
    const auto density = densityOver(view(), cell, picture);
    if (density) return density->high;
    double low_z = 1e300, high_z = -1e300;
    for (const Vec3& c : slab.prism.corners()) {
      low_z = std::min(low_z, c.z);
      high_z = std::max(high_z, c.z);
    }
    const double rise = std::max({0.0, low_z - view().lens_m.z, view().lens_m.z - high_z});
    const double nearest = std::hypot(planDistances(cell, view().lens_m.xy())[0], rise);
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
  bool hidden(std::size_t sector, const scene::Body& body, const Slab& slab) const {
    const double moves = aims ? aims->sectors()[sector].moves_m : 0;
    const Vec3 lens = lensOf(sector);
    const auto from = [&](const Vec3& lens_m) {
      return scene::hidesAll(q.place->scene, body, lens_m, slab.prism.corners());
    };
    if (moves == 0) return from(lens);
    for (const double x : {-moves, moves})
      for (const double y : {-moves, moves})
        for (const double z : {-moves, moves})
          if (!from(lens + Vec3{x, y, z})) return false;
    return true;
  }

  // Density that can really be had at a point, 0 when it is not seen or not above `beat`.
  double reached(const Vec3& target, double beat) const {
    if (aims) return aims->reached(target, beat);
    const double density = densityInFrame(view(), target, true);
    if (density <= beat) return 0;
    return scene::blockerOf(q.place->scene, q.place->tree, view().lens_m, target, q.blocking)
               ? 0 : density;
  }
};

// Best first: the piece with the highest bound is cut until the bound is reached somewhere.
struct Search {
  const Watcher& watcher;
  const ZoneFrame frame;
  std::size_t boxes = 0;
  double low = 0;
  Vec3 low_at{};
  bool ended_at_most = false;  // boxes, with pieces left to cut

  // Bounds a piece; false when it cannot be seen at all.
  bool bound(Piece& piece) {
    const Question& q = watcher.q;
    const Cell cell = cellOf(frame, boundsOf(piece.pieces));
    const Slab slab = slabOf(q.floor, cell, piece.low_m, piece.high_m);
    ++boxes;
    piece.upper = 0;
    std::erase_if(piece.live, [&](Live& live) {
      const auto upper = watcher.upper(live.sector, cell, slab);
      if (!upper || *upper <= 0 || hides(live, slab)) return true;
      live.upper = *upper;
      piece.upper = std::max(piece.upper, live.upper);
      return false;
    });
    if (piece.live.empty()) return false;
    if (watcher.aims) {
      tryRemote(piece, slab);
      return true;
    }
    // Corners of the piece itself are places of the zone; the densest is likely the nearest.
    for (const Ring& ring : piece.pieces)
      for (const Vec2 p : ring) tryAt(frame.out(p), piece);
    tryAt(cell.centre, piece);
    return true;
  }

  // Gathers what may stand between, and asks whether one of it hides the slab.
  bool hides(Live& live, const Slab& slab) const {
    const Question& q = watcher.q;
    const scene::Scene& scene = q.place->scene;
    // From one place: what stands only before others is left out, and hides nothing then.
    const scene::Shaft shaft = scene::makeShaft(watcher.lensOf(live.sector), slab.prism);
    std::vector<std::uint32_t> bodies;
    if (live.bodies_known)
      scene::bodiesIn(scene, live.bodies, shaft, bodies);
    else
      scene::bodiesIn(scene, q.place->tree, shaft, q.blocking, bodies);
    live.bodies = std::move(bodies);
    live.bodies_known = true;
    return std::any_of(live.bodies.begin(), live.bodies.end(), [&](std::uint32_t body) {
      return watcher.hidden(live.sector, scene.bodies[body], slab);
    });
  }

  // A remote imager costs a search at each place: the corner next to the lens is tried, and the
  // middle. A small piece whose middle is seen about as densely as its bound says, or is seen while
  // the lens does not move, keeps that bound however it is cut.
  void tryRemote(Piece& piece, const Slab& slab) {
    const Vec2 lens = watcher.view().lens_m.xy();
    Vec2 nearest = frame.out(piece.pieces.front().front());
    for (const Ring& ring : piece.pieces)
      for (const Vec2 p : ring)
        if (norm(frame.out(p) - lens) < norm(nearest - lens)) nearest = frame.out(p);
    const auto at = [&](Vec2 p) {
      const double floor_m = watcher.q.floor.at(p);
      return withZ(p, std::clamp(watcher.view().lens_m.z, floor_m + piece.low_m, floor_m + piece.high_m));
    };
    tryTarget(at(nearest), piece);
    const Vec3 middle = at(slab.centre.xy());
    if (!contains(watcher.q.region, middle.xy())) return;
    tryTarget(middle, piece);
    const double size = 2 * norm(slab.half[0] + slab.half[1] + slab.half[2]);
    constexpr double kSmall = 0.01;  // beside its distance
    if (size <= kSmall * norm(middle - watcher.view().lens_m) && piece.upper > low)
      piece.as_fine_as_useful = watcher.reached(middle, 0) > 0;
  }

  void tryTarget(const Vec3& target, const Piece& piece) {
    if (piece.upper <= low) return;
    const double density = watcher.reached(target, low);
    if (density > low) {
      low = density;
      low_at = target;
    }
  }

  void tryAt(Vec2 p, const Piece& piece) {
    if (piece.upper <= low) return;
    if (!contains(watcher.q.region, p)) return;
    for (const double height_m : {piece.low_m, piece.high_m})
      tryTarget(withZ(p, watcher.q.floor.at(p) + height_m), piece);
  }

  // Pieces that are neither invisible nor at or below `enough`, nor, where a closeness is given, at
  // or below the density reached times 1 + closeness.
  std::vector<Piece> run(std::optional<double> closeness, double enough, double finest_m,
                         const Progress& progress) {
    const Question& q = watcher.q;
    std::priority_queue<Piece, std::vector<Piece>, LessUrgent> open;
    std::vector<Piece> finest;
    std::size_t number = 0, decided_at = 0;  // boxes when the verdict stood
    double kept = 0;                         // most of the bounds that no cut lowers
    Piece whole;
    for (std::size_t i = 0; i < watcher.sectors(); ++i) whole.live.push_back({i, 0, {}, false});
    whole.pieces = convexPiecesIn(frame, q.region);
    whole.low_m = q.low_m;
    whole.high_m = q.high_m;
    if (!whole.pieces.empty() && bound(whole)) open.push(std::move(whole));
    while (!open.empty()) {
      if (boxes % 256 == 0) progress.throwIfCancelled();
      // As near as is asked for; but not while the limit lies between.
      double near = closeness ? low * (1 + *closeness) : 0;
      if (low <= q.needed_px_per_m) near = std::min(near, q.needed_px_per_m);
      const double settled = std::max(near, enough), most = std::max(open.top().upper, kept);
      if (open.top().upper <= settled) break;
      if (closeness) {
        const bool decided = low > q.needed_px_per_m || most <= q.needed_px_per_m;
        if (decided && open.top().upper <= kept) break;
        if (decided && decided_at == 0) decided_at = boxes;
        if (decided && boxes > decided_at + watcher.boxesOnceDecided()) break;
      }
      ended_at_most = boxes > watcher.boxesMost();
      if (ended_at_most) break;
      Piece piece = open.top();
      open.pop();
      const Box2 box = boundsOf(piece.pieces);
      const Vec2 size = box.high - box.low;
      const double side = std::max(size.x, size.y), tall = piece.high_m - piece.low_m;
      if (piece.as_fine_as_useful || std::max(side, tall) <= finest_m) {
        kept = std::max(kept, piece.upper);
        finest.push_back(std::move(piece));
        continue;
      }
      const auto push = [&](std::vector<Ring> pieces, double low_m, double high_m) {
        Piece child{std::move(pieces), low_m, high_m, 0, piece.live, false, ++number};
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
  Search search{watcher, zoneFrame(q.region)};
  const std::vector<Piece> left = search.run(closeness, enough, watcher.finestM(), progress);
  Densest found;
  found.px_per_m = {search.low, search.low};
  for (const Piece& piece : left) found.px_per_m.high = std::max(found.px_per_m.high, piece.upper);
  found.imager = q.views[view].imager;
  if (search.low > 0) found.at = search.low_at;
  found.boxes = search.boxes;
  found.ended_at_most = search.ended_at_most;
  return found;
}

}  // namespace

Densest densest(const Question& q, double closeness, const Progress& progress) {
  Densest most;
  for (std::size_t view = 0; view < q.views.size(); ++view) {
    Densest one = densestOf(q, view, closeness, most.px_per_m.low, progress);
    most.boxes += one.boxes;
    most.ended_at_most = most.ended_at_most || one.ended_at_most;
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
    Search search{watcher, zoneFrame(q.region)};
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
