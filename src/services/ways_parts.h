// SPDX-License-Identifier: GPL-3.0-or-later
//
// What Ways is made of: pieces of containment and lines under ceilings, cut where they meet. For
// ways.cpp and ways_route.cpp.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "geometry/polygon.h"
#include "services/ways.h"

namespace belvedere::services {

struct Ways::Parts {
  static constexpr double kNone = std::numeric_limits<double>::infinity();
  static constexpr double kPointM = 1e-6;  // shorter in plan is upright

  // A straight piece of containment or of the line under a ceiling.
  struct Piece {
    Vec3 a, b;
    std::vector<std::size_t> storeys;  // sorted; those that it lies on
    const design::Containment* containment = nullptr;  // null: a wall
    bool upright() const { return norm((b - a).xy()) < kPointM; }
    Vec3 at(double t) const { return a + (b - a) * t; }
    // The share of its length that is nearest to a place: in plan, or in height where it is upright.
    double nearest(Vec3 p) const {
      const Vec3 along = b - a;
      const double t = upright() ? (along.z == 0 ? 0 : (p.z - a.z) / along.z)
                                 : dot((p - a).xy(), along.xy()) / dot(along.xy(), along.xy());
      return std::clamp(t, 0.0, 1.0);
    }
  };

  struct Floor {
    const design::Storey* storey;
    double low_m, high_m;
    std::vector<Vec2> outline;  // site
  };

  struct Edge {
    std::size_t to;
    double length_m;
    const Piece* along;  // null: from one piece to another
  };

  static double apart(Vec3 p, Vec3 q) { return norm((p - q).xy()) + std::abs(p.z - q.z); }

  static bool share(const std::vector<std::size_t>& a, const std::vector<std::size_t>& b) {
    return std::ranges::any_of(a,
                               [&](std::size_t s) { return std::ranges::find(b, s) != b.end(); });
  }
  // On one storey, or both on none.
  static bool together(const std::vector<std::size_t>& a, const std::vector<std::size_t>& b) {
    return (a.empty() && b.empty()) || share(a, b);
  }
  std::vector<Floor> floors;
  std::vector<Piece> pieces;
  std::vector<std::vector<std::pair<double, std::size_t>>> nodes_of;  // of a piece, along it
  std::vector<Vec3> nodes;
  std::vector<std::vector<Edge>> edges;
  std::vector<std::size_t> all_nets;  // netsOf every storey

  // Storeys that a place, or a stretch of heights over it, lies on.
  std::vector<std::size_t> storeysOf(Vec2 p, double low_m, double high_m) const {
    std::vector<std::size_t> within, beside;
    for (std::size_t i = 0; i < floors.size(); ++i) {
      if (high_m < floors[i].low_m || low_m > floors[i].high_m) continue;
      beside.push_back(i);
      if (contains(floors[i].outline, p)) within.push_back(i);
    }
    return within.empty() ? beside : within;
  }

  std::size_t storeyIndex(const design::StoreyId& id) const {
    for (std::size_t i = 0; i < floors.size(); ++i)
      if (floors[i].storey->id == id) return i;
    return floors.size();
  }

  void addPieces(const design::Design& design) {
    for (const design::Building& building : design.site.buildings)
      for (const design::Storey& storey : building.storeys) {
        Floor floor{&storey, storey.floor_m - 0.5, storey.floor_m + storey.height_m, {}};
        for (const Vec2 p : storey.outline) floor.outline.push_back(siteFromBuilding(building, p));
        floors.push_back(std::move(floor));
        for (const design::Wall& wall : storey.walls) {
          const double z =
              storey.floor_m + std::min(wall.height_m.value_or(storey.height_m), storey.height_m);
          for (std::size_t k = 0; k + 1 < wall.path.size(); ++k)
            pieces.push_back({withZ(siteFromBuilding(building, wall.path[k]), z),
                              withZ(siteFromBuilding(building, wall.path[k + 1]), z),
                              {floors.size() - 1}});
        }
      }
    for (const design::Containment& containment : design.site.containment)
      for (std::size_t k = 0; k + 1 < containment.path.size(); ++k) {
        const Vec3 a = containment.path[k], b = containment.path[k + 1];
        Piece piece{a, b, {}, &containment};
        const bool climbs = std::abs(a.z - b.z) > 0.1;
        const std::size_t own = storeyIndex(containment.storey);
        if (climbs || own == floors.size())
          piece.storeys = storeysOf(a.xy(), std::min(a.z, b.z), std::max(a.z, b.z));
        if (own != floors.size() && std::ranges::find(piece.storeys, own) == piece.storeys.end())
          piece.storeys.push_back(own);
        pieces.push_back(std::move(piece));
      }
  }

  std::size_t nodeOn(std::size_t piece, double t) {
    for (const auto& [at, node] : nodes_of[piece])
      if (norm(pieces[piece].at(at) - pieces[piece].at(t)) < kPointM) return node;
    nodes.push_back(pieces[piece].at(t));
    edges.emplace_back();
    nodes_of[piece].push_back({t, nodes.size() - 1});
    return nodes.size() - 1;
  }

  // Whether a cable passes from one piece to another at these places of them: on one storey wherever
  // they meet in plan; containment from storey to storey only where it meets in space.
  static bool meet(const Piece& one, Vec3 p, const Piece& other, Vec3 q) {
    if (together(one.storeys, other.storeys)) return norm((p - q).xy()) <= kJoinM;
    return one.containment && other.containment && norm(p - q) <= kJoinM;
  }

  void joinAt(std::size_t i, double ti, std::size_t j, double tj) {
    const Vec3 p = pieces[i].at(ti), q = pieces[j].at(tj);
    if (!meet(pieces[i], p, pieces[j], q)) return;
    const std::size_t from = nodeOn(i, ti), to = nodeOn(j, tj);
    edges[from].push_back({to, apart(p, q), nullptr});
    edges[to].push_back({from, apart(p, q), nullptr});
  }

  // Where two straight pieces may pass to each other: shares of their lengths.
  static std::vector<std::array<double, 2>> meetings(const Piece& p, const Piece& q) {
    std::vector<std::array<double, 2>> shares;
    for (const double t : {0.0, 1.0}) {
      shares.push_back({t, q.nearest(p.at(t))});
      shares.push_back({p.nearest(q.at(t)), t});
    }
    const Vec2 along_p = (p.b - p.a).xy(), along_q = (q.b - q.a).xy();
    const double turn = cross(along_p, along_q);
    if (std::abs(turn) > 1e-12) {
      const double tp = cross((q.a - p.a).xy(), along_q) / turn;
      const double tq = cross((q.a - p.a).xy(), along_p) / turn;
      if (tp > 0 && tp < 1 && tq > 0 && tq < 1) shares.push_back({tp, tq});
    }
    return shares;
  }

  // Where the two meet: at an end of either, or where they cross in plan; a riser along its height.
  void join(std::size_t i, std::size_t j) {
    if (pieces[i].upright() == pieces[j].upright()) {
      for (const auto& [ti, tj] : meetings(pieces[i], pieces[j])) joinAt(i, ti, j, tj);
      return;
    }
    const std::size_t l = pieces[i].upright() ? j : i, r = pieces[i].upright() ? i : j;
    const Piece &level = pieces[l], &riser = pieces[r];
    for (const double t : {0.0, 1.0, level.nearest(riser.a)})
      joinAt(l, t, r, riser.nearest(level.at(t)));
  }

  void joinAll() {
    nodes_of.resize(pieces.size());
    const auto low = [&](std::size_t i) { return std::min(pieces[i].a.x, pieces[i].b.x); };
    const auto high = [&](std::size_t i) { return std::max(pieces[i].a.x, pieces[i].b.x); };
    std::vector<std::size_t> order(pieces.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::ranges::sort(order, {}, [&](std::size_t i) { return std::pair{low(i), i}; });
    for (std::size_t k = 0; k < order.size(); ++k)
      for (std::size_t m = k + 1; m < order.size(); ++m) {
        if (low(order[m]) > high(order[k]) + kJoinM) break;
        const Piece &one = pieces[order[k]], &other = pieces[order[m]];
        if (together(one.storeys, other.storeys) || (one.containment && other.containment))
          join(order[k], order[m]);
      }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      nodeOn(i, 0);
      nodeOn(i, 1);
      std::ranges::sort(nodes_of[i]);
      for (std::size_t k = 0; k + 1 < nodes_of[i].size(); ++k) {
        const std::size_t from = nodes_of[i][k].second, to = nodes_of[i][k + 1].second;
        const double length = norm(nodes[from] - nodes[to]);
        edges[from].push_back({to, length, &pieces[i]});
        edges[to].push_back({from, length, &pieces[i]});
      }
    }
  }

  // Where a place takes to the ways.
  struct Foot {
    std::size_t piece = 0;
    double t = 0;
    Vec3 at;
    double leg_m = kNone;
  };
  // The nearest in each net of ways that hang together; `net_of` of each node.
  std::vector<Foot> feetOf(Vec3 p, std::optional<std::size_t> storey,
                           const std::vector<std::size_t>& net_of) const {
    const std::vector<std::size_t> storeys = storeysOf(p.xy(), p.z, p.z);
    std::vector<Foot> best;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      if (!share(pieces[i].storeys, storeys) || !onStorey(pieces[i], storey)) continue;
      const double t = pieces[i].nearest(p);
      const double leg = apart(p, pieces[i].at(t));
      const std::size_t net = net_of[nodes_of[i].front().second];
      if (net >= best.size()) best.resize(net + 1);
      if (leg < best[net].leg_m) best[net] = {i, t, pieces[i].at(t), leg};
    }
    return best;
  }

  // Nets of ways: a number for each node, the same for those that can be reached from each other.
  std::vector<std::size_t> netsOf(std::optional<std::size_t> storey) const {
    const std::size_t none = nodes.size();
    std::vector<std::size_t> net_of(nodes.size(), none), open;
    std::size_t nets = 0;
    for (std::size_t start = 0; start < nodes.size(); ++start) {
      if (net_of[start] != none) continue;
      net_of[start] = nets;
      open.push_back(start);
      while (!open.empty()) {
        const std::size_t node = open.back();
        open.pop_back();
        for (const Edge& edge : edges[node]) {
          if (net_of[edge.to] != none || !allowed(edge, storey)) continue;
          net_of[edge.to] = nets;
          open.push_back(edge.to);
        }
      }
      ++nets;
    }
    return net_of;
  }

  static bool allowed(const Edge& edge, std::optional<std::size_t> storey) {
    return !edge.along || onStorey(*edge.along, storey);
  }

  static bool onStorey(const Piece& piece, std::optional<std::size_t> storey) {
    return !storey || std::ranges::find(piece.storeys, *storey) != piece.storeys.end();
  }

  // The nodes on both sides of a foot.
  std::vector<std::size_t> besides(const Foot& foot) const {
    std::vector<std::size_t> out;
    const auto& on = nodes_of[foot.piece];
    for (std::size_t k = 0; k + 1 < on.size(); ++k)
      if (on[k].first <= foot.t && foot.t <= on[k + 1].first)
        out.insert(out.end(), {on[k].second, on[k + 1].second});
    if (on.size() == 1) out.push_back(on[0].second);
    std::ranges::sort(out);
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
  }

  static void addLeg(Way& way, Vec3 from, Vec3 to) {
    if (norm((from - to).xy()) > kPointM && std::abs(from.z - to.z) > kPointM)
      way.path.push_back(withZ(from.xy(), to.z));  // up, or down, then across
    way.path.push_back(to);
  }

  // The shortest way; `storey`: along what lies on it alone. ways.cpp
  std::optional<Way> shortest(Vec3 from, Vec3 to, std::optional<std::size_t> storey = {}) const;
  // Straight in plan and then up or down, or square across, where one storey holds both.
  std::optional<Way> openWay(Vec3 from, Vec3 to) const;
  // Along the named containment, piece by piece; else what does not join. ways_route.cpp
  std::optional<Way> along(Vec3 from, Vec3 to, std::span<const design::AnyId> route,
                           std::optional<Parted>* parted) const;
  // What comes nearest of two nets that no way joins.
  std::optional<Parted> nearestNets(Vec3 from, Vec3 to) const;
};

}  // namespace belvedere::services
