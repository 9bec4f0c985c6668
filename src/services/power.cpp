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

bool withinPort(const Feeding& f) {
  return !f.source_w || !f.granted_class || !f.measured_conductor ||
         *std::ranges::max_element(*f.source_w) <=
             poeClass(*f.granted_class).source_w + kClassSlackW;
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
  out.granted_class = grantedClass(out.port_class, *out.device_class);
  const PoeClass& cls = poeClass(*out.granted_class);
  out.allotted_w = cls.source_w;
  if (!out.draw_w) return;
  Watts at_port = *out.draw_w;
  bool carried = true;
  std::string near = out.housing.text;  // the end towards the housing
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
    const design::Device* far = net.otherEnd(cable, near);
    if (!far) break;  // the chain was built of devices
    near = far->id.text;
    if (k + 1 == offer.cables.size()) break;
    const Model* extender = net.modelOf(*far);  // it draws as well
    const double own = extender && extender->power ? extender->power->idle_w.value_or(0) : 0;
    for (double& w : at_port) w += own;
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
  if (feed) out.nominal_v = feed->nominal_v;
  out.least_stated = feed && feed->least_v;
  out.most_stated = feed && feed->most_v;
  if (out.least_stated) out.least_v = *feed->least_v;
  else if (out.nominal_v) out.least_v = kLeastOfNominal * *out.nominal_v;
  if (out.most_stated) out.most_v = feed->most_v;
  else if (out.nominal_v) out.most_v = kMostOfNominal * *out.nominal_v;
  const std::optional<double> stated =
      cable.model && cable.model->capacity ? cable.model->capacity->ohm_per_km : std::nullopt;
  out.conductor_known = stated.has_value();
  if (!out.draw_w || out.supply_v <= 0) return;
  const LineNeed need{.supply_v = out.supply_v,
                      .least_v = out.least_v,
                      .load_w = worstOf(*out.draw_w),
                      .power_factor = offer.feed == "ac" && model.power
                                          ? model.power->power_factor.value_or(1)
                                          : 1,
                      .temperature_c = cable.temperature_c};
  if (out.least_v > 0) out.least_size = leastConductor(need, cable.length_m);
  if (!stated) return;
  out.ohm_per_km = *stated;
  out.at_worst = lineState({.supply_v = need.supply_v,
                            .loop_ohm = loopOhm(cable.length_m, *stated, cable.temperature_c),
                            .load_w = need.load_w,
                            .power_factor = need.power_factor});
  if (out.least_v > 0) out.longest_m = longestRunM(need, *stated);
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

// `id`: of the housing, or of a device that is fed.
Feeding feedingBy(const Net& net, const std::string& id, const Model& model,
                  std::optional<Watts> draw_w, const Offer& offer) {
  Feeding out;
  out.housing = {id};
  out.draw_w = draw_w;
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
    if (!f.granted_class || !f.source_w) return false;
    return worstOf(*f.draw_w) <= poeClass(*f.granted_class).device_w + 1e-9 && withinPort(f);
  }
  return f.at_worst && f.at_worst->load_v >= f.least_v - 1e-9 &&
         (!f.most_v || f.supply_v <= *f.most_v + 1e-9);
}

// What a feeding takes at its source: as far as known with the loss of the cable.
void add(const Feeding& f, Watts& load_w) {
  const std::optional<Watts>& w = f.source_w ? f.source_w : f.draw_w;
  for (std::size_t s = 0; w && s < w->size(); ++s) load_w[s] += (*w)[s];
}

// What devices draw of each other: a switch with all that hangs on it of a supply.
struct Chains {
  const Net& net;
  const std::vector<Feeding>& feedings;
  std::map<std::string, Feeding> fed = {};  // devices that are fed, by id
  std::map<std::string, bool> under_way = {};

  // Of what a device gives: to housings, and to devices with all that they give.
  Watts given(const design::DeviceId& device) {
    Watts load_w{};
    for (const Feeding& f : feedings)
      if (f.source == device && f.by != FedBy::nothing) add(f, load_w);
    for (const design::Device& other : net.design.services.devices)
      if (const Feeding* f = feedingOf(other); f && f->source == device) add(*f, load_w);
    return load_w;
  }

  // How a device is fed; null where nothing of the design feeds it. What feeds itself in a circle
  // is not followed.
  const Feeding* feedingOf(const design::Device& device) {
    if (const auto known = fed.find(device.id.text); known != fed.end())
      return known->second.by == FedBy::nothing ? nullptr : &known->second;
    const Model* model = net.modelOf(device);
    if (!model || model->kind == ModelKind::supply || under_way[device.id.text]) return nullptr;
    under_way[device.id.text] = true;
    std::vector<Offer> offers = offersOf(net, device.id.text);
    // A link to a switch carries data: power only to a device that says so. What an extender hands
    // on is counted with the camera behind it.
    std::erase_if(offers, [&](const Offer& o) {
      return !feedOf(*model, o.feed) &&
             (o.feed == "poe" || (model->power && !model->power->feeds.empty()));
    });
    Feeding feeding;
    if (!offers.empty() && !handsOn(model)) {
      const std::optional<Watts> own = drawOf(*model);
      Watts draw = given(device.id);
      for (std::size_t s = 0; own && s < draw.size(); ++s) draw[s] += (*own)[s];
      feeding = feedingBy(net, device.id.text, *model, draw, offers.front());
    }
    under_way[device.id.text] = false;
    const Feeding& kept = fed.emplace(device.id.text, std::move(feeding)).first->second;
    return kept.by == FedBy::nothing ? nullptr : &kept;
  }
};

}  // namespace

Power powerOf(const design::Design& design, const Network& network) {
  const Net net(design, network);
  Power power;
  // What would come upon one source if another failed.
  std::map<std::pair<std::string, std::string>, Watts> moves;
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
    Feeding feeding = feedingBy(net, housing->id.text, *model, drawOf(*model), offers[use]);
    feeding.chosen = offers.size() == 1 || named != offers.end();
    if (!housing->fed_by.empty() && named == offers.end()) feeding.asked = housing->fed_by;
    for (std::size_t i = 0; i < offers.size(); ++i) {
      // A second cable to the same source is no second source.
      if (offers[i].source == offers[use].source) continue;
      Feeding other = feedingBy(net, housing->id.text, *model, feeding.draw_w, offers[i]);
      add(other, moves[{feeding.source.text, other.source.text}]);
      const bool alone = carries(other);
      feeding.others.push_back({other.feed, other.source, std::move(other.links), alone, true});
    }
    power.feedings.push_back(std::move(feeding));
  }
  Chains chains{net, power.feedings};

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
    }
    source.load_w = chains.given(device.id);
    for (const design::Device& other : design.services.devices) {
      const Feeding* f = chains.feedingOf(other);
      if (!f || f->source != device.id) continue;
      ++source.devices;
      source.allotted_w += f->allotted_w;
      if (!drawOf(*net.modelOf(other))) source.unstated.push_back(other.id);
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
  // A second source has to bear all that comes upon it when the first fails.
  for (Feeding& f : power.feedings)
    for (std::size_t i = 0; i < f.others.size(); ++i)
      for (const Source& other : power.sources) {
        if (!other.budget_w || f.others[i].source != other.device) continue;
        const auto more = moves.find({f.source.text, other.device.text});
        for (std::size_t s = 0; more != moves.end() && s < other.load_w.size(); ++s)
          if (other.load_w[s] + more->second[s] > *other.budget_w + 1e-9) f.others[i].bears_all = false;
      }
  return power;
}

}  // namespace belvedere::services
