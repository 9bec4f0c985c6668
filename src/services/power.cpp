// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/power.h"

#include <algorithm>
#include <map>

#include "services/stay.h"

namespace belvedere::services {

using design::Feed;
using design::Model;
using design::ModelKind;

const char* word(Load load) {
  static constexpr std::array words{"day", "night", "cold night", "start"};
  return words[static_cast<std::size_t>(load)];
}

std::optional<Watts> drawOf(const Model& model) {
  if (!model.power) return {};
  const design::ModelPower& p = *model.power;
  if (!p.idle_w) {
    for (const Feed& feed : p.feeds)
      if (feed.kind == "poe" && feed.poe_class) {
        const double most = poeClass(*feed.poe_class).device_w;
        return Watts{most, most, most, most};
      }
    return {};
  }
  const double idle = *p.idle_w, lamps = p.lamps_w.value_or(0), heater = p.heater_w.value_or(0);
  return Watts{idle, idle + lamps, idle + lamps + heater, std::max(idle, p.start_w.value_or(0))};
}

namespace {

// A way for power to come to a housing.
struct Offer {
  std::string feed;
  const design::Device* source = nullptr;
  std::vector<const Cable*> cables;  // from the housing to the source
};

struct Net {
  const design::Design& design;
  const Network& network;
  std::map<std::string, const design::Device*> device;
  std::map<std::string, std::vector<const Cable*>> at;

  Net(const design::Design& d, const Network& n) : design(d), network(n) {
    for (const design::Device& one : d.services.devices) device[one.id.text] = &one;
    for (const Cable& cable : n.cables) {
      at[cable.from.text].push_back(&cable);
      at[cable.to.text].push_back(&cable);
    }
  }
  const design::Device* otherEnd(const Cable& cable, const std::string& id) const {
    const std::string& other = cable.from.text == id ? cable.to.text : cable.from.text;
    const auto found = device.find(other);
    return found == device.end() ? nullptr : found->second;
  }
  const Model* modelOf(const design::Device& d) const { return findModel(design, d.model); }
};

bool givesPoe(const Model* model) {
  return model && model->capacity && (model->capacity->poe_budget_w || model->capacity->poe_class);
}

// An injector without a budget of its own hands on what comes in (an extender).
bool handsOn(const Model* model) {
  return model && model->kind == ModelKind::injector &&
         !(model->capacity && model->capacity->poe_budget_w) && model->power &&
         std::ranges::any_of(model->power->feeds, [](const Feed& f) { return f.kind == "poe"; });
}

std::vector<Offer> offersOf(const Net& net, const std::string& housing) {
  std::vector<Offer> offers;
  const auto cables = net.at.find(housing);
  if (cables == net.at.end()) return offers;
  for (const Cable* first : cables->second) {
    const design::Device* next = net.otherEnd(*first, housing);
    if (!next) continue;
    const Model* model = net.modelOf(*next);
    if (!model) continue;
    if (model->kind == ModelKind::supply) {
      const std::string current =
          model->capacity && model->capacity->current == "ac" ? "ac" : "dc";
      offers.push_back({current, next, {first}});
      continue;
    }
    if (first->media != Media::twisted_pair) continue;
    std::vector<const Cable*> chain{first};
    // Through extenders, to what gives the power; never round in a circle.
    std::vector<const design::Device*> passed;
    while (handsOn(model) && std::ranges::find(passed, next) == passed.end()) {
      passed.push_back(next);
      const design::Device* onward = nullptr;
      for (const Cable* cable : net.at.at(next->id.text)) {
        if (std::ranges::find(chain, cable) != chain.end()) continue;
        const design::Device* candidate = net.otherEnd(*cable, next->id.text);
        if (!candidate || cable->media != Media::twisted_pair) continue;
        const Model* of = net.modelOf(*candidate);
        if (!givesPoe(of) && !handsOn(of)) continue;
        chain.push_back(cable);
        onward = candidate;
        break;
      }
      if (!onward) break;
      next = onward;
      model = net.modelOf(*next);
    }
    if ((model->kind == ModelKind::switch_ || model->kind == ModelKind::injector) &&
        givesPoe(model) && !handsOn(model))
      offers.push_back({"poe", next, chain});
  }
  return offers;
}

const Feed* feedOf(const Model& model, const std::string& kind) {
  if (!model.power) return nullptr;
  for (const Feed& feed : model.power->feeds)
    if (feed.kind == kind) return &feed;
  return nullptr;
}

double worstOf(const Watts& w) { return *std::ranges::max_element(w); }

void feedPoe(const Net& net, const Model& model, const Offer& offer, Feeding& out) {
  const Feed* feed = feedOf(model, "poe");
  if (feed && feed->poe_class) out.device_class = feed->poe_class;
  else if (out.draw_w) out.device_class = classFor(worstOf(*out.draw_w));
  const Model* source = net.modelOf(*offer.source);
  out.port_class = source->capacity->poe_class;
  if (!out.device_class) return;
  const int granted = out.port_class ? std::min(*out.port_class, *out.device_class)
                                     : *out.device_class;
  const PoeClass& cls = poeClass(granted);
  out.allotted_w = cls.source_w;
  if (!out.draw_w) return;
  Watts at_port = *out.draw_w;
  bool carried = true;
  for (std::size_t k = 0; k < offer.cables.size(); ++k) {
    const Cable& cable = *offer.cables[k];
    const bool stated = cable.model && cable.model->capacity && cable.model->capacity->ohm_per_km;
    out.measured_conductor = stated;
    const double ohm = channelOhm(cable.length_m + kCordsM,
                                  stated ? *cable.model->capacity->ohm_per_km : kWorstPairOhmPerKm,
                                  cable.temperature_c, cls.pairs);
    for (double& w : at_port) {
      const auto state = portState(cls.source_least_v, ohm, w);
      carried = carried && state;
      if (state) w = state->source_w;
    }
    if (k + 1 < offer.cables.size()) {  // an extender draws as well
      const design::Device* extender =
          net.otherEnd(cable, k == 0 ? out.housing.text : cable.from.text);
      const Model* of = extender ? net.modelOf(*extender) : nullptr;
      const double own = of && of->power ? of->power->idle_w.value_or(0) : 0;
      for (double& w : at_port) w += own;
      out.allotted_w = std::max(out.allotted_w, poeClass(granted).source_w);
    }
  }
  if (carried) out.source_w = at_port;
}

// Volts that a supply gives for a feed.
double supplyVolts(const Model& supply) {
  return supply.capacity ? supply.capacity->out_v.value_or(0) : 0;
}

void feedLine(const Net& net, const Model& model, const Offer& offer, Feeding& out) {
  const Cable& cable = *offer.cables.front();
  const Feed* feed = feedOf(model, offer.feed);
  out.supply_v = supplyVolts(*net.modelOf(*offer.source));
  out.least_v = feed ? feed->least_v.value_or(0) : 0;
  if (feed) out.most_v = feed->most_v;
  const std::optional<double> stated =
      cable.model && cable.model->capacity ? cable.model->capacity->ohm_per_km : std::nullopt;
  out.conductor_known = stated.has_value();
  if (!out.draw_w) return;
  const LineNeed need{.supply_v = out.supply_v,
                      .least_v = out.least_v,
                      .load_w = worstOf(*out.draw_w),
                      .power_factor = offer.feed == "ac" && model.power
                                          ? model.power->power_factor.value_or(1)
                                          : 1,
                      .temperature_c = cable.temperature_c};
  out.least_size = leastConductor(need, cable.length_m);
  if (!stated) return;
  out.ohm_per_km = *stated;
  out.at_worst = lineState({.supply_v = need.supply_v,
                            .loop_ohm = loopOhm(cable.length_m, *stated, cable.temperature_c),
                            .load_w = need.load_w,
                            .power_factor = need.power_factor});
  out.longest_m = longestRunM(need, *stated);
  Watts at_source = *out.draw_w;
  for (double& w : at_source)
    if (const auto state =
            lineState({.supply_v = need.supply_v,
                       .loop_ohm = loopOhm(cable.length_m, *stated, cable.temperature_c),
                       .load_w = w,
                       .power_factor = need.power_factor}))
      w = state->source_w;
  if (out.at_worst) out.source_w = at_source;
}

Feeding feedingBy(const Net& net, const design::Housing& housing, const Model& model,
                  const Offer& offer) {
  Feeding out;
  out.housing = housing.id;
  out.draw_w = drawOf(model);
  out.feed = offer.feed;
  out.by = offer.feed == "poe" ? FedBy::poe : FedBy::line;
  out.source = offer.source->id;
  for (const Cable* cable : offer.cables) {
    out.links.insert(out.links.begin(), cable->link);
    out.length_m += cable->length_m;
    out.temperature_c = std::max(out.temperature_c, cable->temperature_c);
  }
  if (out.by == FedBy::poe) feedPoe(net, model, offer, out);
  else feedLine(net, model, offer, out);
  return out;
}

bool carries(const Feeding& f) {
  if (!f.draw_w) return false;
  if (f.by == FedBy::poe) {
    if (!f.device_class || !f.source_w) return false;
    const int granted = f.port_class ? std::min(*f.port_class, *f.device_class) : *f.device_class;
    return worstOf(*f.draw_w) <= poeClass(granted).device_w + 1e-9;
  }
  return f.at_worst && f.at_worst->load_v >= f.least_v - 1e-9 &&
         (!f.most_v || f.supply_v <= *f.most_v + 1e-9);
}

}  // namespace

Power powerOf(const design::Design& design, const Network& network) {
  const Net net(design, network);
  Power power;
  for (const design::Housing* housing : stayingHousings(design)) {
    const Model* model = findModel(design, housing->model);
    if (!model) continue;
    std::vector<Offer> offers = offersOf(net, housing->id.text);
    // Of supplies for which the model has no feed, none feeds it.
    if (model->power && !model->power->feeds.empty())
      std::erase_if(offers, [&](const Offer& o) { return !feedOf(*model, o.feed); });
    const auto named = std::ranges::find(offers, housing->fed_by, &Offer::feed);
    if (offers.empty()) {
      Feeding none;
      none.housing = housing->id;
      none.draw_w = drawOf(*model);
      power.feedings.push_back(none);
      continue;
    }
    const std::size_t use =
        named == offers.end() ? 0 : static_cast<std::size_t>(named - offers.begin());
    Feeding feeding = feedingBy(net, *housing, *model, offers[use]);
    feeding.chosen = offers.size() == 1 || named != offers.end();
    for (std::size_t i = 0; i < offers.size(); ++i) {
      if (i == use) continue;
      Feeding other = feedingBy(net, *housing, *model, offers[i]);
      feeding.others.push_back({other.feed, other.source, std::move(other.links), carries(other)});
    }
    power.feedings.push_back(std::move(feeding));
  }

  for (const design::Device& device : design.services.devices) {
    const Model* model = net.modelOf(device);
    if (!model) continue;
    const bool supply = model->kind == ModelKind::supply;
    if (!supply && !givesPoe(model) && !device.standby_hours) continue;
    Source source;
    source.device = device.id;
    source.kind = model->kind;
    if (model->capacity) {
      source.budget_w = supply ? model->capacity->out_w : model->capacity->poe_budget_w;
      source.volts = model->capacity->out_v;
      source.has_ah = model->capacity->battery_ah;
    }
    for (const Feeding& f : power.feedings) {
      if (f.source != device.id || f.by == FedBy::nothing) continue;
      ++source.housings;
      source.allotted_w += f.allotted_w;
      const auto& w = f.source_w ? f.source_w : f.draw_w;
      for (std::size_t s = 0; w && s < w->size(); ++s) source.load_w[s] += (*w)[s];
    }
    if (device.standby_hours) {
      source.standby_hours = device.standby_hours;
      // What it draws itself, and all night: lamps and heaters are on.
      const double own = model->power ? model->power->idle_w.value_or(0) : 0;
      Standby standby{.load_w = source.load_w[static_cast<std::size_t>(Load::cold_night)] + own,
                      .hours = *device.standby_hours,
                      .volts = source.volts.value_or(0)};
      if (standby.volts > 0) {
        source.needed_ah = batteryAh(standby);
        if (source.has_ah) source.bridged_hours = bridgedHours(standby, *source.has_ah);
      }
    }
    power.sources.push_back(source);
  }
  return power;
}

}  // namespace belvedere::services
