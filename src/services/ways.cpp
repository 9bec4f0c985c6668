// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/ways.h"

#include <algorithm>
#include <cmath>
#include <queue>

#include "services/ways_parts.h"

namespace belvedere::services {

Ways::Ways(const design::Design& design) {
  auto parts = std::make_unique<Parts>();
  parts->addPieces(design);
  parts->joinAll();
  parts->all_nets = parts->netsOf({});
  parts_ = std::move(parts);
}
Ways::~Ways() = default;

std::optional<Way> Ways::between(Vec3 from, Vec3 to, std::span<const design::AnyId> route,
                                 std::optional<Parted>* parted) const {
  if (!route.empty()) return parts_->along(from, to, route, parted);
  std::optional<Way> way = parts_->shortest(from, to);
  if (!way && parted) *parted = parts_->nearestNets(from, to);
  return way;
}

std::optional<Way> Ways::Parts::openWay(Vec3 from, Vec3 to) const {
  const auto here = storeysOf(from.xy(), from.z, from.z);
  const auto there = storeysOf(to.xy(), to.z, to.z);
  if (!together(here, there)) return {};
  Way way;
  way.open = true;
  way.length_m = std::abs(from.x - to.x) + std::abs(from.y - to.y) + std::abs(from.z - to.z);
  way.climb_m = std::abs(from.z - to.z);
  way.path = {from, {to.x, from.y, from.z}, {to.x, to.y, from.z}, to};
  return way;
}

std::optional<Way> Ways::Parts::shortest(Vec3 from, Vec3 to,
                                         std::optional<std::size_t> storey) const {
  // The nearest feet of one net: what lies nearer and leads nowhere is of no use.
  const std::vector<std::size_t> storey_nets = storey ? netsOf(storey) : std::vector<std::size_t>{};
  const std::vector<std::size_t>& net_of = storey ? storey_nets : all_nets;
  const std::vector<Foot> starts = feetOf(from, storey, net_of), ends_in = feetOf(to, storey, net_of);
  Foot start, end;
  for (std::size_t net = 0; net < std::min(starts.size(), ends_in.size()); ++net)
    if (starts[net].leg_m + ends_in[net].leg_m < start.leg_m + end.leg_m)
      start = starts[net], end = ends_in[net];
  if (start.leg_m == kNone || end.leg_m == kNone) return openWay(from, to);

  // Side by side, nearer to each other than to any way: straight across, no way is needed.
  if (auto beside = openWay(from, to); beside && beside->length_m <= start.leg_m + end.leg_m) {
    beside->open = false;
    return beside;
  }

  // Dijkstra from the start's foot to the end's; the feet are nodes of their own.
  const std::size_t count = nodes.size(), goal = count + 1, first = count;
  std::vector<double> distance(count + 2, kNone);
  std::vector<std::size_t> before(count + 2, count + 2);
  std::vector<const Piece*> by(count + 2, nullptr);
  const auto ends = besides(end);
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
  const Piece* start_piece = &pieces[start.piece];
  for (const std::size_t node : besides(start))
    reach(node, norm(nodes[node] - start.at), first, start_piece);
  if (start.piece == end.piece) reach(goal, norm(start.at - end.at), first, start_piece);
  while (!queue.empty()) {
    const auto [d, node] = queue.top();
    queue.pop();
    if (node == goal) break;
    if (d > distance[node]) continue;
    if (std::ranges::find(ends, node) != ends.end())
      reach(goal, d + norm(nodes[node] - end.at), node, &pieces[end.piece]);
    for (const Edge& edge : edges[node]) {
      if (!allowed(edge, storey)) continue;
      reach(edge.to, d + edge.length_m, node, edge.along);
    }
  }
  if (distance[goal] == kNone) return openWay(from, to);

  Way way;
  way.drop_m = start.leg_m + end.leg_m;
  way.length_m = distance[goal] + way.drop_m;
  std::vector<std::size_t> chain{goal};
  while (chain.back() != first) chain.push_back(before[chain.back()]);
  std::ranges::reverse(chain);
  const auto place = [&](std::size_t node) {
    return node == first ? start.at : node == goal ? end.at : nodes[node];
  };
  way.path.push_back(from);
  addLeg(way, from, start.at);
  for (std::size_t k = 1; k < chain.size(); ++k) {
    const Vec3 a = place(chain[k - 1]), b = place(chain[k]);
    const Piece* piece = by[chain[k]];
    if (piece && piece->containment && norm(b - a) > kPointM) {
      way.contained_m += norm(b - a);
      if (way.along.empty() || way.along.back() != piece->containment->id)
        way.along.push_back(piece->containment->id);
    }
    way.climb_m += std::abs(b.z - a.z);
    if (norm(b - a) <= kPointM) continue;
    if (piece) way.path.push_back(b);
    else addLeg(way, a, b);  // from one to another
  }
  if (norm(end.at - to) > kPointM) {
    if (norm((end.at - to).xy()) > kPointM && std::abs(end.at.z - to.z) > kPointM)
      way.path.push_back(withZ(to.xy(), end.at.z));
    way.path.push_back(to);
  }
  return way;
}

}  // namespace belvedere::services
