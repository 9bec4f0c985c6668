// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/ways.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>

#include "geometry/polygon.h"

namespace belvedere::services {
namespace {

constexpr double kNone = std::numeric_limits<double>::infinity();
constexpr double kPointM = 1e-6;  // shorter in plan is upright

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

double apart(Vec3 p, Vec3 q) { return norm((p - q).xy()) + std::abs(p.z - q.z); }

bool share(const std::vector<std::size_t>& a, const std::vector<std::size_t>& b) {
  return std::ranges::any_of(a, [&](std::size_t s) { return std::ranges::find(b, s) != b.end(); });
}

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

}  // namespace

struct Ways::Parts {
  std::vector<Floor> floors;
  std::vector<Piece> pieces;
  std::vector<std::vector<std::pair<double, std::size_t>>> nodes_of;  // of a piece, along it
  std::vector<Vec3> nodes;
  std::vector<std::vector<Edge>> edges;
  std::vector<std::size_t> all_nets;  // netsOf no route

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

  void joinAt(std::size_t i, double ti, std::size_t j, double tj) {
    const Vec3 p = pieces[i].at(ti), q = pieces[j].at(tj);
    if (norm((p - q).xy()) > kJoinM) return;
    const std::size_t from = nodeOn(i, ti), to = nodeOn(j, tj);
    edges[from].push_back({to, apart(p, q), nullptr});
    edges[to].push_back({from, apart(p, q), nullptr});
  }

  // Where the two meet: at an end of either, or where they cross in plan.
  void join(std::size_t i, std::size_t j) {
    const Piece &p = pieces[i], &q = pieces[j];
    for (const double t : {0.0, 1.0}) {
      if (!p.upright()) joinAt(i, t, j, q.nearest(p.at(t)));
      if (!q.upright()) joinAt(i, p.nearest(q.at(t)), j, t);
    }
    if (p.upright() && q.upright()) {
      for (const double t : {0.0, 1.0}) {
        joinAt(i, t, j, q.nearest(p.at(t)));
        joinAt(i, p.nearest(q.at(t)), j, t);
      }
      return;
    }
    if (p.upright() || q.upright()) {
      const Piece& level = p.upright() ? q : p;
      const Piece& riser = p.upright() ? p : q;
      const double on_level = level.nearest(riser.a), on_riser = riser.nearest(level.at(on_level));
      joinAt(p.upright() ? j : i, on_level, p.upright() ? i : j, on_riser);
      return;
    }
    const Vec2 along_p = (p.b - p.a).xy(), along_q = (q.b - q.a).xy();
    const double turn = cross(along_p, along_q);
    if (std::abs(turn) < 1e-12) return;
    const double tp = cross((q.a - p.a).xy(), along_q) / turn;
    const double tq = cross((q.a - p.a).xy(), along_p) / turn;
    if (tp > 0 && tp < 1 && tq > 0 && tq < 1) joinAt(i, tp, j, tq);
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
        if (share(pieces[order[k]].storeys, pieces[order[m]].storeys)) join(order[k], order[m]);
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
  std::vector<Foot> feetOf(Vec3 p, std::span<const design::AnyId> route,
                           const std::vector<std::size_t>& net_of) const {
    const std::vector<std::size_t> storeys = storeysOf(p.xy(), p.z, p.z);
    std::vector<Foot> best;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      if (route.empty() ? !share(pieces[i].storeys, storeys) : !along(pieces[i], route)) continue;
      const double t = pieces[i].nearest(p);
      const double leg = apart(p, pieces[i].at(t));
      const std::size_t net = net_of[nodes_of[i].front().second];
      if (net >= best.size()) best.resize(net + 1);
      if (leg < best[net].leg_m) best[net] = {i, t, pieces[i].at(t), leg};
    }
    return best;
  }

  // Nets of ways: a number for each node, the same for those that can be reached from each other.
  std::vector<std::size_t> netsOf(std::span<const design::AnyId> route) const {
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
          if (net_of[edge.to] != none || !allowed(edge, route)) continue;
          net_of[edge.to] = nets;
          open.push_back(edge.to);
        }
      }
      ++nets;
    }
    return net_of;
  }

  static bool allowed(const Edge& edge, std::span<const design::AnyId> route) {
    return route.empty() || !edge.along || along(*edge.along, route);
  }

  static bool along(const Piece& piece, std::span<const design::AnyId> route) {
    return piece.containment && std::ranges::any_of(route, [&](const design::AnyId& id) {
             return id.text == piece.containment->id.text;
           });
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
};

Ways::Ways(const design::Design& design) {
  auto parts = std::make_unique<Parts>();
  parts->addPieces(design);
  parts->joinAll();
  parts->all_nets = parts->netsOf({});
  parts_ = std::move(parts);
}
Ways::~Ways() = default;

namespace {
void addLeg(Way& way, Vec3 from, Vec3 to) {
  if (norm((from - to).xy()) > kPointM && std::abs(from.z - to.z) > kPointM)
    way.path.push_back(withZ(from.xy(), to.z));  // up, or down, then across
  way.path.push_back(to);
}
}  // namespace

std::optional<Way> Ways::between(Vec3 from, Vec3 to, std::span<const design::AnyId> route) const {
  const Parts& w = *parts_;
  const auto openWay = [&]() -> std::optional<Way> {
    if (!route.empty()) return {};
    const auto here = w.storeysOf(from.xy(), from.z, from.z);
    const auto there = w.storeysOf(to.xy(), to.z, to.z);
    if (!share(here, there) && !(here.empty() && there.empty())) return {};
    Way way;
    way.open = true;
    way.length_m = std::abs(from.x - to.x) + std::abs(from.y - to.y) + std::abs(from.z - to.z);
    way.climb_m = std::abs(from.z - to.z);
    way.path = {from, {to.x, from.y, from.z}, {to.x, to.y, from.z}, to};
    return way;
  };
  // The nearest feet of one net: what lies nearer and leads nowhere is of no use.
  const std::vector<std::size_t> route_nets = route.empty() ? std::vector<std::size_t>{}
                                                            : w.netsOf(route);
  const std::vector<std::size_t>& net_of = route.empty() ? w.all_nets : route_nets;
  const std::vector<Parts::Foot> starts = w.feetOf(from, route, net_of),
                                 ends_in = w.feetOf(to, route, net_of);
  Parts::Foot start, end;
  for (std::size_t net = 0; net < std::min(starts.size(), ends_in.size()); ++net)
    if (starts[net].leg_m + ends_in[net].leg_m < start.leg_m + end.leg_m)
      start = starts[net], end = ends_in[net];
  if (start.leg_m == kNone || end.leg_m == kNone) return openWay();

  // Side by side, nearer to each other than to any way: straight across, no way is needed.
  if (auto beside = openWay(); beside && beside->length_m <= start.leg_m + end.leg_m) {
    beside->open = false;
    return beside;
  }

  // Dijkstra from the start's foot to the end's; the feet are nodes of their own.
  const std::size_t count = w.nodes.size(), goal = count + 1, first = count;
  std::vector<double> distance(count + 2, kNone);
  std::vector<std::size_t> before(count + 2, count + 2);
  std::vector<const Piece*> by(count + 2, nullptr);
  const auto ends = w.besides(end);
  using Item = std::pair<double, std::size_t>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> queue;
  const auto reach = [&](std::size_t node, double d, std::size_t via, const Piece* piece) {
    if (d >= distance[node]) return;
    distance[node] = d;
    before[node] = via;
    by[node] = piece;
    queue.push({d, node});
  };
  distance[first] = 0;
  const Piece* start_piece = &w.pieces[start.piece];
  for (const std::size_t node : w.besides(start))
    reach(node, norm(w.nodes[node] - start.at), first, start_piece);
  if (start.piece == end.piece) reach(goal, norm(start.at - end.at), first, start_piece);
  while (!queue.empty()) {
    const auto [d, node] = queue.top();
    queue.pop();
    if (node == goal) break;
    if (d > distance[node]) continue;
    if (std::ranges::find(ends, node) != ends.end())
      reach(goal, d + norm(w.nodes[node] - end.at), node, &w.pieces[end.piece]);
    for (const Edge& edge : w.edges[node]) {
      if (!Parts::allowed(edge, route)) continue;
      reach(edge.to, d + edge.length_m, node, edge.along);
    }
  }
  if (distance[goal] == kNone) return openWay();

  Way way;
  way.drop_m = start.leg_m + end.leg_m;
  way.length_m = distance[goal] + way.drop_m;
  std::vector<std::size_t> nodes{goal};
  while (nodes.back() != first) nodes.push_back(before[nodes.back()]);
  std::ranges::reverse(nodes);
  const auto place = [&](std::size_t node) {
    return node == first ? start.at : node == goal ? end.at : w.nodes[node];
  };
  way.path.push_back(from);
  addLeg(way, from, start.at);
  for (std::size_t k = 1; k < nodes.size(); ++k) {
    const Vec3 a = place(nodes[k - 1]), b = place(nodes[k]);
    const Piece* piece = by[nodes[k]];
    if (piece && piece->containment && norm(b - a) > kPointM) {
      way.contained_m += norm(b - a);
      if (way.along.empty() || way.along.back() != piece->containment->id)
        way.along.push_back(piece->containment->id);
    }
    way.climb_m += std::abs(b.z - a.z);
    if (norm(b - a) > kPointM) way.path.push_back(b);
  }
  if (norm(end.at - to) > kPointM) {
    if (norm((end.at - to).xy()) > kPointM && std::abs(end.at.z - to.z) > kPointM)
      way.path.push_back(withZ(to.xy(), end.at.z));
    way.path.push_back(to);
  }
  return way;
}

}  // namespace belvedere::services
