// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/graph.h"

#include <queue>
#include <set>

#include "services/stay.h"

namespace belvedere::services {

std::vector<int> Graph::tree(int root, const Without& without) const {
  std::vector<int> by(models.size(), kNotReached);
  if (without.node(root)) return by;
  std::vector<bool> seen(models.size(), false);
  std::queue<int> queue;
  queue.push(root);
  seen[static_cast<std::size_t>(root)] = true;
  while (!queue.empty()) {
    const int node = queue.front();
    queue.pop();
    if (node != root && !passes(node)) continue;
    for (const End& end : ends[static_cast<std::size_t>(node)]) {
      if (end.link == without.link || without.node(end.to) ||
          seen[static_cast<std::size_t>(end.to)])
        continue;
      seen[static_cast<std::size_t>(end.to)] = true;
      by[static_cast<std::size_t>(end.to)] = end.link;
      queue.push(end.to);
    }
  }
  by[static_cast<std::size_t>(root)] = -2;  // itself
  return by;
}

Graph graphOf(const design::Design& design, const std::vector<Cable>& cables) {
  Graph graph;
  const auto add = [&](const std::string& id, const design::ModelId& model, bool is_housing) {
    if (!graph.index.try_emplace(id, static_cast<int>(graph.models.size())).second) return;
    graph.models.push_back(design::findModel(design, model));
    graph.housing.push_back(is_housing);
    graph.ends.emplace_back();
  };
  for (const design::Housing* housing : stayingHousings(design))
    add(housing->id.text, housing->model, true);
  for (const design::Device& device : design.services.devices)
    add(device.id.text, device.model, false);
  for (std::size_t i = 0; i < cables.size(); ++i) {
    const auto from = graph.index.find(cables[i].from.text);
    const auto to = graph.index.find(cables[i].to.text);
    if (cables[i].media == Media::power || from == graph.index.end() || to == graph.index.end())
      continue;
    graph.ends[static_cast<std::size_t>(from->second)].push_back({to->second, static_cast<int>(i)});
    graph.ends[static_cast<std::size_t>(to->second)].push_back({from->second, static_cast<int>(i)});
  }
  return graph;
}

std::vector<Flow> flowsOf(const design::Design& design, const std::vector<StreamRate>& rates,
                          const Graph& graph) {
  std::unordered_map<std::string, const StreamRate*> rate_of;
  for (const StreamRate& rate : rates) rate_of[rate.stream.text] = &rate;
  std::set<std::string> multicast;
  for (const design::Housing* housing : stayingHousings(design))
    for (const design::Stream& stream : housing->streams)
      if (stream.delivery == "multicast") multicast.insert(stream.id.text);
  std::vector<Flow> flows;
  const auto add = [&](const design::StreamId& stream, const design::DeviceId& device,
                       bool recorded) {
    const auto rate = rate_of.find(stream.text);
    if (rate == rate_of.end() || device.empty()) return;
    const auto sink = graph.index.find(device.text);
    const auto source = graph.index.find(rate->second->housing.text);
    if (sink == graph.index.end() || source == graph.index.end()) return;
    flows.push_back({rate->second, source->second, sink->second, multicast.contains(stream.text),
                     recorded});
  };
  std::set<std::pair<std::string, std::string>> recorded;  // a stream goes to a recorder once
  for (const design::Recording& r : design.services.recording)
    if (recorded.insert({r.stream.text, r.device.text}).second) add(r.stream, r.device, true);
  for (const design::Screen& s : design.services.screens) add(s.stream, s.device, false);
  return flows;
}

}  // namespace belvedere::services
