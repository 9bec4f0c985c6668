// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/losses.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <unordered_map>

#include "services/graph.h"
#include "services/stay.h"

namespace belvedere::services {

using design::Model;
using design::ModelKind;

const char* word(PartKind kind) {
  static constexpr std::array words{"camera", "lamp",     "switch", "injector",
                                    "supply", "link", "recorder", "disk"};
  return words[static_cast<std::size_t>(kind)];
}

namespace {

constexpr auto index(int node) { return static_cast<std::size_t>(node); }

// Is one of the two ends of a link this part?
bool touches(const Cable& cable, const std::string& id) {
  return cable.from.text == id || cable.to.text == id;
}

// Who takes an imager's streams, as nodes of the graph.
struct Imager {
  std::string name;
  int housing = 0;
  std::vector<int> recorders, viewers;
};

struct Work {
  const design::Design& design;
  const Sizes& sizes;
  Graph graph;
  std::vector<Imager> imagers;
  std::vector<int> sinks;                         // of any stream; else the switches
  std::unordered_map<std::string, const Cable*> cable;
  std::map<std::string, const Feeding*> feeding;
  std::map<std::string, const Source*> source;
  std::map<std::string, std::vector<std::string>> supplies_of;  // of a device that is no supply
  std::vector<bool> in_tree;                      // links by which a sink reaches anything

  Work(const design::Design& d, const Sizes& s)
      : design(d), sizes(s), graph(graphOf(d, s.network.cables)) {
    for (const Cable& one : s.network.cables) {
      cable[one.link.text] = &one;
      addSupply(one);
    }
    for (const Feeding& one : s.power.feedings) feeding[one.housing.text] = &one;
    for (const Source& one : s.power.sources) source[one.device.text] = &one;
    addImagers();
    in_tree.resize(s.network.cables.size(), false);
    for (const int sink : sinks)
      for (const int link : graph.tree(sink))
        if (link >= 0) in_tree[index(link)] = true;
  }

  void addSupply(const Cable& one) {
    const auto kind = [&](const design::AnyId& id) -> std::optional<ModelKind> {
      for (const design::Device& device : design.services.devices)
        if (device.id.text == id.text)
          if (const Model* model = findModel(design, device.model)) return model->kind;
      return {};
    };
    const auto from = kind(one.from), to = kind(one.to);
    if (!from || !to || (*from == ModelKind::supply) == (*to == ModelKind::supply)) return;
    const bool gives = *from == ModelKind::supply;
    supplies_of[gives ? one.to.text : one.from.text].push_back(gives ? one.from.text
                                                                     : one.to.text);
  }

  void addImagers() {
    std::map<std::pair<int, int>, std::size_t> at;  // housing node and slot
    for (const design::Housing* housing : stayingHousings(design))
      for (const design::HousingImager& imager : housing->imagers) {
        const int node = graph.index.at(housing->id.text);
        at[{node, imager.slot}] = imagers.size();
        imagers.push_back({fmt::format("{}.{}", housing->id.text, imager.slot), node, {}, {}});
      }
    std::set<int> taking;
    for (const Flow& flow : flowsOf(design, sizes.rates, graph)) {
      taking.insert(flow.sink);
      for (const int slot : flow.rate->slots)
        if (const auto found = at.find({flow.source, slot}); found != at.end()) {
          Imager& imager = imagers[found->second];
          (flow.recorded ? imager.recorders : imager.viewers).push_back(flow.sink);
        }
    }
    if (taking.empty())
      for (std::size_t i = 0; i < graph.models.size(); ++i)
        if (graph.models[i] && graph.models[i]->kind == ModelKind::switch_)
          taking.insert(static_cast<int>(i));
    sinks.assign(taking.begin(), taking.end());
  }

  // What can be reached from each sink; by sink, by node.
  std::map<int, std::vector<int>> reach(const Without& without) const {
    std::map<int, std::vector<int>> trees;
    for (const int sink : sinks) trees[sink] = graph.tree(sink, without);
    return trees;
  }
};

// The whole as it stands, so that what reaches nobody anyway is not called lost.
using Trees = std::map<int, std::vector<int>>;

bool reached(const Trees& trees, const std::vector<int>& sinks, int housing) {
  return std::ranges::any_of(sinks, [&](int sink) {
    return trees.at(sink)[index(housing)] != kNotReached;
  });
}

// Devices that go dark with a part: itself, and what only it supplies.
std::set<std::string> devicesOut(const Work& work, const std::string& part) {
  std::set<std::string> out{part};
  for (const auto& [device, supplies] : work.supplies_of)
    if (std::ranges::all_of(supplies, [&](const std::string& s) { return out.contains(s); }))
      out.insert(device);
  return out;
}

// Does a way of feeding stand when these devices, or this link, are out?
bool stands(const Work& work, const design::DeviceId& source,
            const std::vector<design::AnyId>& links, const std::set<std::string>& devices,
            const std::string& link) {
  if (devices.contains(source.text)) return false;
  return std::ranges::none_of(links, [&](const design::AnyId& id) {
    const Cable& cable = *work.cable.at(id.text);
    return id.text == link || std::ranges::any_of(devices, [&](const std::string& device) {
             return touches(cable, device);
           });
  });
}

constexpr double worstOf(const Watts& w) { return *std::ranges::max_element(w); }

// Who is without power then; who goes on by another supply that carries it and is not overloaded by
// all that come to it.
void powerLost(const Work& work, const std::set<std::string>& devices, const std::string& link,
               Loss& loss) {
  std::map<std::string, double> added_w;
  std::vector<std::pair<const Feeding*, const OtherSupply*>> moved;
  for (const Feeding& f : work.sizes.power.feedings) {
    if (f.by == FedBy::nothing || stands(work, f.source, f.links, devices, link)) continue;
    const auto other = std::ranges::find_if(f.others, [&](const OtherSupply& o) {
      return o.carries && stands(work, o.source, o.links, devices, link);
    });
    if (other == f.others.end()) {
      loss.dark.push_back(f.housing);
      continue;
    }
    moved.push_back({&f, &*other});
    added_w[other->source.text] += f.draw_w ? worstOf(*f.draw_w) : 0;
  }
  for (const auto& [f, other] : moved) {
    const auto source = work.source.find(other->source.text);
    const bool fits =
        source == work.source.end() || !source->second->budget_w ||
        worstOf(source->second->load_w) + added_w[other->source.text] <=
            *source->second->budget_w + 1e-9;
    (fits ? loss.carried : loss.dark).push_back(f->housing);
  }
}

void picturesLost(const Work& work, const Trees& whole, const Without& without, Loss& loss) {
  std::vector<bool> nodes = without.nodes ? *without.nodes
                                          : std::vector<bool>(work.graph.models.size(), false);
  for (const design::HousingId& id : loss.dark) nodes[index(work.graph.index.at(id.text))] = true;
  const bool links_matter = without.nodes || (without.link >= 0 && work.in_tree[index(without.link)]);
  if (!links_matter && loss.dark.empty()) return;
  const Trees left = work.reach({without.link, &nodes});
  for (const Imager& imager : work.imagers) {
    const auto lost = [&](const std::vector<int>& sinks) {
      return !sinks.empty() &&
             (nodes[index(imager.housing)] ||
              (reached(whole, sinks, imager.housing) && !reached(left, sinks, imager.housing)));
    };
    std::vector<int> takers = imager.recorders;
    takers.insert(takers.end(), imager.viewers.begin(), imager.viewers.end());
    const bool cut = nodes[index(imager.housing)] || lost(takers.empty() ? work.sinks : takers);
    if (cut) loss.cut.push_back(imager.name);
    // One that no recorder (or viewer) takes is judged by whoever takes it.
    if (imager.recorders.empty() ? cut : lost(imager.recorders))
      loss.unrecorded.push_back(imager.name);
    if (imager.viewers.empty() ? cut : lost(imager.viewers)) loss.unviewed.push_back(imager.name);
  }
}

std::optional<PartKind> partKind(ModelKind kind) {
  switch (kind) {
    case ModelKind::switch_: return PartKind::switch_;
    case ModelKind::injector: return PartKind::injector;
    case ModelKind::supply: return PartKind::supply;
    case ModelKind::recorder: return PartKind::recorder;
    default: return {};
  }
}

void recordingsLost(const Work& work, const std::set<std::string>& recorders, Loss& loss) {
  for (const Kept& kept : work.sizes.recording.kept)
    if (!kept.device.empty() && recorders.contains(kept.device.text))
      loss.recordings.push_back(kept.recording);
}

Loss ofDevice(const Work& work, const Trees& whole, const design::Device& device, PartKind kind) {
  Loss loss;
  loss.kind = kind;
  loss.part = device.id.text;
  const std::set<std::string> out = devicesOut(work, loss.part);
  powerLost(work, out, "", loss);
  std::vector<bool> nodes(work.graph.models.size(), false);
  for (const std::string& id : out) nodes[index(work.graph.index.at(id))] = true;
  picturesLost(work, whole, {-1, &nodes}, loss);
  if (kind == PartKind::recorder) recordingsLost(work, {loss.part}, loss);
  return loss;
}

// A disk on top of which its level bears no other: what its recorder keeps is lost, and it records
// no more.
Loss ofDisk(const Work& work, const Trees& whole, const design::Device& device) {
  const auto store = std::ranges::find(work.sizes.recording.stores, device.id, &Store::device);
  Loss loss;
  if (store != work.sizes.recording.stores.end() && store->guaranteed_failures == 0)
    loss = ofDevice(work, whole, device, PartKind::recorder);
  else
    loss.spared = true;
  loss.kind = PartKind::disk;
  loss.part = device.id.text;
  return loss;
}

void addHousing(const Work& work, const design::Housing& housing, std::vector<Loss>& out) {
  Loss loss;
  loss.part = housing.id.text;
  loss.housing = housing.id;
  loss.dark = {housing.id};
  const int node = work.graph.index.at(housing.id.text);
  for (const Imager& imager : work.imagers)
    if (imager.housing == node)
      for (auto* list : {&loss.unrecorded, &loss.unviewed, &loss.cut}) list->push_back(imager.name);
  out.push_back(std::move(loss));
}

void addLamps(const design::Design& design, const design::Housing& housing,
              std::vector<Loss>& out) {
  const Model* model = findModel(design, housing.model);
  if (!model) return;
  // A housing that names no lamps has all of its model's.
  std::vector<int> slots;
  for (const design::HousingLamp& lamp : housing.lamps)
    if (lamp.follows != 0) slots.push_back(lamp.slot);
  if (housing.lamps.empty())
    for (const design::ModelLamp& lamp : model->lamps) slots.push_back(lamp.slot);
  for (const int slot : slots) {
    Loss loss;
    loss.kind = PartKind::lamp;
    loss.part = fmt::format("{} lamp {}", housing.id.text, slot);
    loss.housing = housing.id;
    loss.lamp_slot = slot;
    out.push_back(std::move(loss));
  }
}

}  // namespace

std::vector<Loss> lossesOf(const design::Design& design, const Sizes& sizes) {
  const Work work(design, sizes);
  const Trees whole = work.reach({});
  std::vector<Loss> out;
  for (const design::Housing* housing : stayingHousings(design)) addHousing(work, *housing, out);
  for (const design::Housing* housing : stayingHousings(design)) addLamps(design, *housing, out);
  for (const PartKind kind :
       {PartKind::switch_, PartKind::injector, PartKind::supply, PartKind::recorder})
    for (const design::Device& device : design.services.devices)
      if (const Model* model = findModel(design, device.model);
          model && partKind(model->kind) == kind)
        out.push_back(ofDevice(work, whole, device, kind));
  for (const design::Device& device : design.services.devices)
    if (device.disks) out.push_back(ofDisk(work, whole, device));
  for (std::size_t i = 0; i < sizes.network.cables.size(); ++i) {
    Loss loss;
    loss.kind = PartKind::link;
    loss.part = sizes.network.cables[i].link.text;
    // A power cable between a supply and a device takes the device with it, where it has no other.
    const Cable& cable = sizes.network.cables[i];
    std::set<std::string> out_too;
    for (const auto& [device, supplies] : work.supplies_of)
      if (supplies.size() == 1 && touches(cable, device) && touches(cable, supplies.front()))
        out_too.insert(device);
    powerLost(work, out_too, loss.part, loss);
    std::vector<bool> nodes(work.graph.models.size(), false);
    for (const std::string& id : out_too) nodes[index(work.graph.index.at(id))] = true;
    picturesLost(work, whole, {static_cast<int>(i), out_too.empty() ? nullptr : &nodes}, loss);
    out.push_back(std::move(loss));
  }
  return out;
}

const std::vector<std::string>& lostFor(const Loss& loss, design::JudgedOn judged_on) {
  return judged_on == design::JudgedOn::recorded ? loss.unrecorded
         : judged_on == design::JudgedOn::viewed ? loss.unviewed
                                                 : loss.cut;
}

std::optional<Spread> bridgedHours(const Loss& loss, const std::vector<std::string>& imagers,
                                   const RecordingSizes& recording) {
  std::optional<Spread> least;
  for (const std::string& imager : imagers) {
    const std::string housing = imager.substr(0, imager.rfind('.'));
    const bool dark = std::ranges::any_of(
        loss.dark, [&](const design::HousingId& id) { return id.text == housing; });
    const auto card = std::ranges::find_if(
        recording.bridges, [&](const Bridge& bridge) { return bridge.housing.text == housing; });
    if (dark || card == recording.bridges.end() || !std::isfinite(card->hours.low)) return {};
    if (!least || card->hours.low < least->low) least = card->hours;
  }
  return least;
}

}  // namespace belvedere::services
