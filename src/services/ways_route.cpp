// SPDX-License-Identifier: GPL-3.0-or-later
//
// A stated route, piece by piece; and what does not join where no way leads from end to end.
#include <array>

#include "services/ways_parts.h"

namespace belvedere::services {

using design::AnyId;

namespace {

using Parts = Ways::Parts;
using Piece = Parts::Piece;

// One containment of a route, along its length.
struct Run {
  std::string id;
  std::vector<const Piece*> pieces;
  std::vector<double> from_m;  // where each piece begins; one more than pieces
  Vec3 at(double s_m) const {
    std::size_t k = 0;
    while (k + 1 < pieces.size() && s_m > from_m[k + 1]) ++k;
    const double length = from_m[k + 1] - from_m[k];
    return pieces[k]->at(length > 0 ? std::clamp((s_m - from_m[k]) / length, 0.0, 1.0) : 0);
  }
};

Run runOf(const Parts& parts, const AnyId& id) {
  Run run{id.text, {}, {0}};
  for (const Piece& piece : parts.pieces)
    if (piece.containment && piece.containment->id.text == id.text) {
      run.pieces.push_back(&piece);
      run.from_m.push_back(run.from_m.back() + norm(piece.b - piece.a));
    }
  return run;
}

// A place on a run, and how far it is from what takes to it.
struct On {
  double s_m = 0;
  Vec3 at;
  double leg_m = Parts::kNone;
};

// Where a place takes to a run: at the nearest of it that lies on the place's storey. `apart_m`: how
// far the nearest of it lies, on whatever storey.
On nearestOn(const Parts& parts, const Run& run, Vec3 p, double& apart_m) {
  const auto storeys = parts.storeysOf(p.xy(), p.z, p.z);
  On best;
  apart_m = Parts::kNone;
  for (std::size_t k = 0; k < run.pieces.size(); ++k) {
    const Piece& piece = *run.pieces[k];
    const double t = piece.nearest(p);
    const Vec3 at = piece.at(t);
    apart_m = std::min(apart_m, norm(at - p));
    if (!storeys.empty() && !Parts::together(storeys, piece.storeys) && norm(at - p) > kJoinM)
      continue;
    if (Parts::apart(p, at) < best.leg_m)
      best = {run.from_m[k] + t * norm(piece.b - piece.a), at, Parts::apart(p, at)};
  }
  return best;
}

// From one run to the next.
struct Junction {
  double out_m = 0, in_m = 0;  // along the one, along the other
  Vec3 out, in;
  double gap_m = 0;            // across and up or down
  std::optional<Way> bridge;   // where they do not meet: along what lies on the storey
};

// All junctions where two runs meet; else one, bridged on a storey that holds both; else none, and how
// far they are apart.
std::vector<Junction> junctionsOf(const Parts& parts, const Run& one, const Run& other,
                                  double& apart_m) {
  std::vector<Junction> met;
  std::optional<Junction> nearest;
  std::size_t storey = 0;
  apart_m = Parts::kNone;
  for (std::size_t i = 0; i < one.pieces.size(); ++i)
    for (std::size_t j = 0; j < other.pieces.size(); ++j) {
      const Piece &p = *one.pieces[i], &q = *other.pieces[j];
      for (const auto& [tp, tq] : Parts::meetings(p, q)) {
        Junction junction{one.from_m[i] + tp * norm(p.b - p.a),
                          other.from_m[j] + tq * norm(q.b - q.a), p.at(tp), q.at(tq), 0, {}};
        junction.gap_m = Parts::apart(junction.out, junction.in);
        apart_m = std::min(apart_m, norm(junction.out - junction.in));
        if (Parts::meet(p, junction.out, q, junction.in)) {
          met.push_back(junction);
          continue;
        }
        const auto common = std::ranges::find_if(p.storeys, [&](std::size_t s) {
          return std::ranges::find(q.storeys, s) != q.storeys.end();
        });
        if (common == p.storeys.end() || (nearest && nearest->gap_m <= junction.gap_m)) continue;
        nearest = junction;
        storey = *common;
      }
    }
  if (!met.empty()) {
    // Where they meet in space, not also where one merely passes under the other.
    const double least = std::ranges::min_element(met, {}, &Junction::gap_m)->gap_m;
    std::erase_if(met, [&](const Junction& j) { return j.gap_m > least + kJoinM; });
    return met;
  }
  if (!nearest) return {};
  nearest->bridge = parts.shortest(nearest->out, nearest->in, storey);
  if (!nearest->bridge) return {};
  nearest->gap_m = nearest->bridge->length_m;
  return {*nearest};
}

// Follows a run from one place of it to another.
void follow(const Run& run, double from_m, double to_m, Way& way) {
  std::vector<double> stops;
  for (const double s : run.from_m)
    if (s > std::min(from_m, to_m) && s < std::max(from_m, to_m)) stops.push_back(s);
  if (to_m < from_m) std::ranges::reverse(stops);
  stops.push_back(to_m);
  Vec3 last = run.at(from_m);
  for (const double s : stops) {
    const Vec3 next = run.at(s);
    if (norm(next - last) <= Parts::kPointM) continue;
    way.path.push_back(next);
    way.climb_m += std::abs(next.z - last.z);
    last = next;
  }
  way.contained_m += std::abs(to_m - from_m);
  way.length_m += std::abs(to_m - from_m);
  if (way.along.empty() || way.along.back().text != run.id) way.along.push_back({run.id});
}

void passOver(const Run& one, const Run& other, const Junction& junction, Way& way) {
  way.length_m += junction.gap_m;
  if (!junction.bridge) {
    Parts::addLeg(way, junction.out, junction.in);
    way.climb_m += std::abs(junction.in.z - junction.out.z);
    return;
  }
  const Way& bridge = *junction.bridge;
  way.path.insert(way.path.end(), bridge.path.begin(), bridge.path.end());
  way.climb_m += bridge.climb_m;
  way.contained_m += bridge.contained_m;
  // Of it, along walls or containment: what is neither straight off them nor square across.
  const double square_m = std::abs(junction.out.x - junction.in.x) +
                          std::abs(junction.out.y - junction.in.y) +
                          std::abs(junction.out.z - junction.in.z);
  const bool across = bridge.open || bridge.length_m - bridge.drop_m < Parts::kPointM ||
                      (bridge.drop_m == 0 && std::abs(bridge.length_m - square_m) < Parts::kPointM);
  way.bridged.push_back(
      {one.id, other.id, norm(junction.in - junction.out), bridge.length_m, across});
}

}  // namespace

std::optional<Way> Ways::Parts::along(Vec3 from, Vec3 to, std::span<const AnyId> route,
                                      std::optional<Parted>* parted) const {
  const auto apartFor = [&](const std::string& one, const std::string& other, double apart_m) {
    if (parted) *parted = Parted{one, other, apart_m, 0, false};
    return std::optional<Way>();
  };
  std::vector<Run> runs;
  for (const AnyId& id : route) {
    runs.push_back(runOf(*this, id));
    if (runs.back().pieces.empty()) return apartFor(id.text, id.text, 0);
  }
  double apart_m = 0;
  const On first = nearestOn(*this, runs.front(), from, apart_m);
  if (first.leg_m == kNone) return apartFor("", runs.front().id, apart_m);

  // The shortest of the ways that the junctions leave: for each, from which of those before it.
  struct Reached {
    double length_m;
    std::size_t before;
  };
  std::vector<std::vector<Junction>> junctions;
  std::vector<std::vector<Reached>> reached;
  for (std::size_t k = 0; k + 1 < runs.size(); ++k) {
    junctions.push_back(junctionsOf(*this, runs[k], runs[k + 1], apart_m));
    if (junctions.back().empty()) return apartFor(runs[k].id, runs[k + 1].id, apart_m);
    reached.emplace_back();
    for (const Junction& junction : junctions.back()) {
      Reached best{k == 0 ? std::abs(junction.out_m - first.s_m) : kNone, 0};
      for (std::size_t b = 0; k > 0 && b < junctions[k - 1].size(); ++b) {
        const double length = reached[k - 1][b].length_m +
                              std::abs(junction.out_m - junctions[k - 1][b].in_m);
        if (length < best.length_m) best = {length, b};
      }
      best.length_m += junction.gap_m;
      reached.back().push_back(best);
    }
  }
  const On last = nearestOn(*this, runs.back(), to, apart_m);
  if (last.leg_m == kNone) return apartFor(runs.back().id, "", apart_m);

  std::vector<const Junction*> taken(junctions.size());
  std::size_t at = 0;
  for (std::size_t b = 0; !junctions.empty() && b < junctions.back().size(); ++b) {
    const auto length = [&](std::size_t of) {
      return reached.back()[of].length_m + std::abs(last.s_m - junctions.back()[of].in_m);
    };
    if (length(b) < length(at)) at = b;
  }
  for (std::size_t k = junctions.size(); k-- > 0;) {
    taken[k] = &junctions[k][at];
    at = reached[k][at].before;
  }
  Way way;
  way.drop_m = way.length_m = first.leg_m + last.leg_m;
  way.path.push_back(from);
  addLeg(way, from, first.at);
  double s_m = first.s_m;
  for (std::size_t k = 0; k < runs.size(); ++k) {
    follow(runs[k], s_m, k < taken.size() ? taken[k]->out_m : last.s_m, way);
    if (k == taken.size()) break;
    passOver(runs[k], runs[k + 1], *taken[k], way);
    s_m = taken[k]->in_m;
  }
  if (norm((last.at - to).xy()) > kPointM && std::abs(last.at.z - to.z) > kPointM)
    way.path.push_back(withZ(to.xy(), last.at.z));
  way.path.push_back(to);
  return way;
}

std::optional<Parted> Ways::Parts::nearestNets(Vec3 from, Vec3 to) const {
  const std::vector<Foot> starts = feetOf(from, {}, all_nets), goals = feetOf(to, {}, all_nets);
  const auto netOf = [&](std::size_t piece) { return all_nets[nodes_of[piece].front().second]; };
  const auto among = [&](const std::vector<Foot>& feet, std::size_t piece) {
    return netOf(piece) < feet.size() && feet[netOf(piece)].leg_m != kNone;
  };
  // From net to net over the least gaps; the widest of them is what does not join.
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < pieces.size(); ++i)
    if (pieces[i].containment) open.push_back(i);
  struct Near {
    double gap_m = kNone;
    std::size_t of = 0;
    Parted widest;  // on the way to it
  };
  std::vector<Near> near(pieces.size());
  for (const std::size_t i : open)
    if (among(starts, i)) near[i] = {0, i, {}};
  while (!open.empty()) {
    const auto next = std::ranges::min_element(open, {}, [&](std::size_t i) { return near[i].gap_m; });
    const std::size_t i = *next;
    if (near[i].gap_m == kNone) return {};
    if (among(goals, i)) return near[i].widest;
    open.erase(next);
    for (const std::size_t j : open) {
      double gap_m = netOf(i) == netOf(j) ? 0 : kNone;
      if (gap_m > 0)
        for (const auto& [tp, tq] : meetings(pieces[i], pieces[j]))
          gap_m = std::min(gap_m, norm(pieces[i].at(tp) - pieces[j].at(tq)));
      if (gap_m >= near[j].gap_m) continue;
      near[j] = {gap_m, i, near[i].widest};
      if (gap_m > near[j].widest.apart_m)
        near[j].widest = {pieces[i].containment->id.text, pieces[j].containment->id.text, gap_m, 0,
                          false};
    }
  }
  return {};
}

}  // namespace belvedere::services
