// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/network.h"

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>

#include "services/graph.h"
#include "services/place.h"
#include "services/stay.h"

namespace belvedere::services {

using design::Model;
using design::ModelKind;

double longestFixedCableM(double temperature_c, bool screened) {
  const double warm = std::max(0.0, temperature_c - 20);
  const double rise = screened ? 0.002 * warm
                               : 0.004 * std::min(warm, 20.0) + 0.006 * std::max(0.0, warm - 20);
  return kFixedCableM / (1 + rise);
}

const char* word(Media media) {
  return media == Media::fibre ? "fibre" : media == Media::power ? "power" : "twisted pair";
}

Media mediaOf(const Model* cable) {
  if (!cable || !cable->capacity) return Media::twisted_pair;
  const design::Capacity& c = *cable->capacity;
  if (c.media == "fibre") return Media::fibre;
  if (c.media == "power") return Media::power;
  // A plain conductor states its resistance alone; what carries data says so, or its rate.
  if (c.media.empty() && c.ohm_per_km && !c.port_mbps && !c.longest_m && !c.screened)
    return Media::power;
  return Media::twisted_pair;
}

namespace {

// The links of a node that go to its uplinks: of a switch those to other switches, and as far as
// uplinks are left those to recorders and viewers; of a recorder or viewer all.
std::set<int> uplinksOf(const Graph& graph, std::size_t node) {
  std::set<int> up;
  const Model* model = graph.models[node];
  if (!model || !model->capacity) return up;
  const auto kindOf = [&](const Graph::End& end) {
    const Model* other = graph.models[static_cast<std::size_t>(end.to)];
    return other ? std::optional(other->kind) : std::nullopt;
  };
  if (model->kind == ModelKind::recorder || model->kind == ModelKind::viewer) {
    for (const Graph::End& end : graph.ends[node]) up.insert(end.link);
  } else if (model->kind == ModelKind::switch_) {
    const design::Capacity& c = *model->capacity;
    if (c.uplinks ? *c.uplinks == 0 : !c.uplink_mbps) return up;
    for (const Graph::End& end : graph.ends[node])
      if (kindOf(end) == ModelKind::switch_) up.insert(end.link);
    for (const Graph::End& end : graph.ends[node]) {
      const auto kind = kindOf(end);
      if (kind != ModelKind::recorder && kind != ModelKind::viewer) continue;
      if (!c.uplinks || static_cast<int>(up.size()) < *c.uplinks) up.insert(end.link);
    }
  }
  return up;
}

// What one end of a link can carry.
std::optional<double> portRate(const Model* model, bool uplink) {
  if (!model || !model->capacity) return {};
  const design::Capacity& c = *model->capacity;
  if (uplink && c.uplink_mbps) return c.uplink_mbps;
  return c.port_mbps ? c.port_mbps : c.uplink_mbps;
}

std::optional<double> least(std::optional<double> a, std::optional<double> b) {
  if (a && b) return std::min(*a, *b);
  return a ? a : b;
}

void carry(const design::Design& design, const Graph& graph, const std::vector<Flow>& flows,
           Network& network) {
  std::map<int, std::vector<int>> tree_of;  // by sink
  using Streams = std::map<std::string, double>;  // what each adds, Mbit/s
  std::vector<Streams> forth(network.cables.size()), back(network.cables.size());
  std::set<std::pair<std::string, int>> carried, taken;  // multicast: stream and link, and sink
  std::map<int, double> in;
  for (const Flow& flow : flows) {
    auto [at, is_new] = tree_of.try_emplace(flow.sink);
    if (is_new) at->second = graph.tree(flow.sink);
    const std::vector<int>& by = at->second;
    if (by[static_cast<std::size_t>(flow.source)] == -1) {
      const design::Device& sink = *std::ranges::find_if(
          design.services.devices,
          [&](const design::Device& d) { return graph.index.at(d.id.text) == flow.sink; });
      network.unreached.push_back({flow.rate->stream, sink.id});
      continue;
    }
    if (!flow.multicast || taken.insert({flow.rate->stream.text, flow.sink}).second)
      in[flow.sink] += flow.rate->peak_mbps;
    for (int node = flow.source; node != flow.sink;) {
      const int link = by[static_cast<std::size_t>(node)];
      Cable& cable = network.cables[static_cast<std::size_t>(link)];
      const int a = graph.index.at(cable.from.text), b = graph.index.at(cable.to.text);
      if (!flow.multicast || carried.insert({flow.rate->stream.text, link}).second) {
        (node == a ? forth : back)[static_cast<std::size_t>(link)][flow.rate->stream.text] +=
            flow.rate->peak_mbps;
        cable.mean_mbps = cable.mean_mbps + flow.rate->mean_mbps;
      }
      node = node == a ? b : a;
    }
  }
  const auto sum = [](const Streams& streams) {
    double mbps = 0;
    for (const auto& [stream, adds] : streams) mbps += adds;
    return mbps;
  };
  for (std::size_t i = 0; i < network.cables.size(); ++i) {
    const Streams& fuller = sum(back[i]) > sum(forth[i]) ? back[i] : forth[i];
    network.cables[i].load_mbps = sum(fuller);
    for (const auto& [stream, adds] : fuller) network.cables[i].carries.push_back({{stream}, adds});
  }
  for (PartLoad& part : network.parts) part.in_mbps = in[graph.index.at(part.device.text)];
}

// What each link's failure cuts off: housings all of whose sinks are out of reach without it (or,
// where nothing says who takes their streams, any recorder or switch).
void cutOff(const design::Design& design, const Graph& graph, const std::vector<Flow>& flows,
            Network& network) {
  const auto housings = stayingHousings(design);
  // Roots: the sinks; where there are none, the switches.
  std::map<int, std::set<int>> sinks_of;  // by housing node
  std::set<int> roots;
  for (const Flow& flow : flows) {
    sinks_of[flow.source].insert(flow.sink);
    roots.insert(flow.sink);
  }
  if (roots.empty())
    for (std::size_t i = 0; i < graph.models.size(); ++i)
      if (graph.models[i] && graph.models[i]->kind == ModelKind::switch_)
        roots.insert(static_cast<int>(i));
  const auto reached = [&](int without) {
    std::map<int, std::vector<int>> trees;
    for (const int root : roots) trees[root] = graph.tree(root, {without, nullptr});
    std::vector<bool> reach(housings.size(), false);
    for (std::size_t h = 0; h < housings.size(); ++h) {
      const int node = graph.index.at(housings[h]->id.text);
      const auto own = sinks_of.find(node);
      for (const int root : own == sinks_of.end() ? roots : own->second)
        reach[h] = reach[h] || trees[root][static_cast<std::size_t>(node)] != -1;
    }
    return reach;
  };
  const std::vector<bool> whole = reached(-1);
  // Only a link of a tree can cut anything off.
  std::set<int> used;
  for (const int root : roots)
    for (const int link : graph.tree(root))
      if (link >= 0) used.insert(link);
  for (const int link : used) {
    const std::vector<bool> left = reached(link);
    for (std::size_t h = 0; h < housings.size(); ++h)
      if (whole[h] && !left[h])
        network.cables[static_cast<std::size_t>(link)].cut_off.push_back(housings[h]->id);
  }
}

// A mid-span hands the data on as it came: its two cables are one channel.
void channels(const Graph& graph, Network& network) {
  for (Cable& cable : network.cables) cable.channel_m = cable.length_m;
  for (std::size_t node = 0; node < graph.models.size(); ++node) {
    const Model* model = graph.models[node];
    if (!model || model->kind != ModelKind::injector) continue;
    if (model->capacity && model->capacity->repeats) continue;
    // One cable in, one out: the two longest where there are several ports share the longest in.
    const auto& ends = graph.ends[node];
    for (const Graph::End& end : ends) {
      double longest = 0;
      for (const Graph::End& other : ends)
        if (other.link != end.link)
          longest = std::max(longest,
                             network.cables[static_cast<std::size_t>(other.link)].length_m);
      Cable& cable = network.cables[static_cast<std::size_t>(end.link)];
      cable.channel_m = std::max(cable.channel_m, cable.length_m + longest);
    }
  }
}

Cable cableOf(const design::Design& design, const Ways& ways, const design::Link& link) {
  Cable cable;
  cable.link = link.id;
  cable.from = link.from;
  cable.to = link.to;
  cable.model = link.cable.empty() ? nullptr : design::findModel(design, link.cable);
  cable.media = mediaOf(cable.model);
  const auto from = design::placeOf(design, link.from), to = design::placeOf(design, link.to);
  cable.placed = from && to;
  cable.drawn = !link.path.empty();
  if (cable.placed)
    cable.way = cable.drawn ? ways.through(*from, link.path, *to, &cable.parted)
                            : ways.between(*from, *to, link.route, &cable.parted);
  cable.length_m = (cable.way ? cable.way->length_m : 0) + link.slack_m;
  cable.temperature_c = link.temperature_c.value_or(std::max(
      {20.0, from ? warmestAt(design, link.from, *from) : 20, to ? warmestAt(design, link.to, *to) : 20}));
  if (cable.model && cable.model->capacity && cable.model->capacity->longest_m)
    cable.longest_m = cable.model->capacity->longest_m;
  else if (cable.media == Media::twisted_pair)
    cable.longest_m = longestFixedCableM(
        cable.temperature_c, cable.model && cable.model->capacity && cable.model->capacity->screened);
  return cable;
}

}  // namespace

Network networkOf(const design::Design& design, const std::vector<StreamRate>& rates) {
  Network network;
  const Ways ways(design);
  for (const design::Link& link : design.services.links)
    network.cables.push_back(cableOf(design, ways, link));
  const Graph graph = graphOf(design, network.cables);
  channels(graph, network);
  std::vector<std::set<int>> uplinks;
  for (std::size_t node = 0; node < graph.models.size(); ++node)
    uplinks.push_back(uplinksOf(graph, node));
  for (std::size_t i = 0; i < network.cables.size(); ++i) {
    Cable& cable = network.cables[i];
    const auto rate = [&](const design::AnyId& id) -> std::optional<double> {
      const auto at = graph.index.find(id.text);
      if (at == graph.index.end()) return {};
      const auto node = static_cast<std::size_t>(at->second);
      return portRate(graph.models[node], uplinks[node].contains(static_cast<int>(i)));
    };
    cable.rate_mbps = least(least(rate(cable.from), rate(cable.to)),
                            cable.model && cable.model->capacity ? cable.model->capacity->port_mbps
                                                                 : std::nullopt);
  }
  for (const design::Device& device : design.services.devices) {
    PartLoad part;
    part.device = device.id;
    const Model* model = design::findModel(design, device.model);
    if (model && model->capacity) {
      part.ports = model->capacity->ports;
      part.uplinks = model->capacity->uplinks;
      if (model->kind == ModelKind::recorder || model->kind == ModelKind::viewer)
        part.in_mbps_most = model->capacity->uplink_mbps;
    }
    const int node = graph.index.at(device.id.text);
    for (const Graph::End& end : graph.ends[static_cast<std::size_t>(node)]) {
      const bool up = model && model->kind == ModelKind::switch_ &&
                      uplinks[static_cast<std::size_t>(node)].contains(end.link);
      ++(up ? part.uplinks_used : part.ports_used);
    }
    // Each port of an injector has a side to the network and one to what it feeds.
    if (model && model->kind == ModelKind::injector) part.ports_used = (part.ports_used + 1) / 2;
    network.parts.push_back(part);
  }
  const std::vector<Flow> flows = flowsOf(design, rates, graph);
  carry(design, graph, flows, network);
  cutOff(design, graph, flows, network);
  if (!design.services.links.empty())
    for (const design::Housing* housing : stayingHousings(design)) {
      const bool linked = std::ranges::any_of(design.services.links, [&](const design::Link& link) {
        return link.from.text == housing->id.text || link.to.text == housing->id.text;
      });
      if (!linked) network.unlinked.push_back(housing->id);
    }
  return network;
}

}  // namespace belvedere::services
