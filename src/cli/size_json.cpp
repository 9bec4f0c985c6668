// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/size_output.h"

namespace belvedere::cli {

using namespace services;

namespace {

Json spreadJson(Spread s) {
  return {{"low", number(s.low)}, {"typical", number(s.typical)}, {"high", number(s.high)}};
}
void put(Json& to, const char* key, const std::optional<double>& value) {
  if (value) to[key] = number(*value);
}
template <class Id>
Json idsJson(const std::vector<Id>& ids) {
  Json list = Json::array();
  for (const Id& id : ids) list.push_back(id.text);
  return list;
}
Json wattsJson(const Watts& w) {
  Json object = Json::object();
  const char* keys[] = {"day", "night", "cold_night", "start"};
  for (std::size_t i = 0; i < w.size(); ++i) object[keys[i]] = number(w[i]);
  return object;
}

Json streamsJson(const Sizes& sizes) {
  Json list = Json::array();
  for (const StreamRate& r : sizes.rates) {
    Json one{{"stream", r.stream.text}, {"housing", r.housing.text},
             {"pixels_per_s", number(r.pixels_per_s)},
             {"rate_from", r.known ? word(r.from) : "unknown"}};
    if (r.known) {
      one["day_mbps"] = spreadJson(r.day_mbps);
      one["night_mbps"] = spreadJson(r.night_mbps);
      one["mean_mbps"] = spreadJson(r.mean_mbps);
      one["peak_mbps"] = number(r.peak_mbps);
    }
    list.push_back(std::move(one));
  }
  return list;
}

Json feedingsJson(const Sizes& sizes) {
  Json list = Json::array();
  for (const Feeding& f : sizes.power.feedings) {
    Json one{{"housing", f.housing.text}, {"fed_by", f.by == FedBy::nothing ? "nothing" : f.feed}};
    if (!f.source.empty()) one["source"] = f.source.text;
    one["links"] = idsJson(f.links);
    one["length_m"] = number(f.length_m);
    one["temperature_c"] = number(f.temperature_c);
    if (f.draw_w) one["draw_w"] = wattsJson(*f.draw_w);
    if (f.source_w) one["source_w"] = wattsJson(*f.source_w);
    if (f.by == FedBy::poe) {
      if (f.device_class) one["device_class"] = *f.device_class;
      if (f.port_class) one["port_class"] = *f.port_class;
      one["allotted_w"] = number(f.allotted_w);
    }
    if (f.by == FedBy::line) {
      if (f.supply_v > 0) one["supply_v"] = number(f.supply_v);
      if (f.least_v > 0) one["least_v"] = number(f.least_v);
      if (f.at_worst) one["load_v"] = number(f.at_worst->load_v);
      if (f.conductor_known && std::isfinite(f.longest_m)) one["longest_m"] = number(f.longest_m);
      if (f.least_size) one["least_mm2"] = number(f.least_size->area_mm2);
    }
    Json others = Json::array();
    for (const OtherSupply& other : f.others)
      others.push_back({{"fed_by", other.feed},
                        {"source", other.source.text},
                        {"links", idsJson(other.links)},
                        {"carries", other.carries && other.bears_all}});
    if (!others.empty()) one["other_supplies"] = std::move(others);
    list.push_back(std::move(one));
  }
  return list;
}

Json sourcesJson(const Sizes& sizes) {
  Json list = Json::array();
  for (const Source& s : sizes.power.sources) {
    Json one{{"device", s.device.text}, {"housings", s.housings}, {"devices", s.devices}, {"load_w", wattsJson(s.load_w)},
             {"allotted_w", number(s.allotted_w)}};
    put(one, "budget_w", s.budget_w);
    put(one, "standby_hours", s.standby_hours);
    put(one, "needed_ah", s.needed_ah);
    put(one, "has_ah", s.has_ah);
    put(one, "bridged_hours", s.bridged_hours);
    list.push_back(std::move(one));
  }
  return list;
}

Json cablesJson(const Sizes& sizes) {
  Json list = Json::array();
  for (const Cable& c : sizes.network.cables) {
    Json one{{"link", c.link.text}, {"from", c.from.text}, {"to", c.to.text},
             {"media", word(c.media)}, {"length_m", number(c.length_m)},
             {"channel_m", number(c.channel_m)}, {"temperature_c", number(c.temperature_c)},
             {"load_mbps", number(c.load_mbps)}, {"carries", Json::array()},
             {"cut_off", idsJson(c.cut_off)}};
    for (const Carried& of : c.carries)
      one["carries"].push_back({{"stream", of.stream.text}, {"mbps", number(of.mbps)}});
    if (c.model) one["cable"] = c.model->id.text;
    put(one, "longest_m", c.longest_m);
    put(one, "rate_mbps", c.rate_mbps);
    if (c.way) {
      one["drop_m"] = number(c.way->drop_m);
      one["contained_m"] = number(c.way->contained_m);
      one["open"] = c.way->open;
      one["drawn"] = c.drawn;
      Json path = Json::array();
      for (const Vec3& p : c.way->path) path.push_back(numbers(p));
      one["path"] = std::move(path);
    }
    list.push_back(std::move(one));
  }
  return list;
}

Json recordingJson(const Sizes& sizes) {
  Json kept = Json::array(), stores = Json::array(), cards = Json::array(), days = Json::array();
  for (const Kept& k : sizes.recording.kept) {
    Json one{{"recording", k.recording.text}, {"stream", k.stream.text}, {"share", number(k.share)},
             {"days", number(k.days)}, {"mbps", spreadJson(k.mbps)}, {"tb", spreadJson(k.tb)}};
    if (!k.device.empty()) one["device"] = k.device.text;
    if (k.held_days) one["held_days"] = spreadJson(*k.held_days);
    if (k.within_longer) one["within_longer"] = true;
    kept.push_back(std::move(one));
  }
  for (const Store& s : sizes.recording.stores) {
    Json one{{"device", s.device.text}, {"streams", s.streams},
             {"needed_tb", spreadJson(s.needed_tb)},
             {"needed_tib", spreadJson(s.needed_tb * tibFromTb(1))},
             {"ingest_mb_per_s", number(s.ingest_mb_per_s)}};
    if (s.disks > 0) {
      one["disks"] = s.disks;
      one["usable_tb"] = number(s.usable_tb);
      one["raw_tb"] = number(s.raw_tb);
      one["disks_needed"] = s.disks_needed;
      one["guaranteed_failures"] = s.guaranteed_failures;
      if (s.streams > 0 && std::isfinite(s.days_held.high))
        one["days_held"] = spreadJson(s.days_held);
    }
    put(one, "workload_tb_per_year", s.workload_tb_per_year);
    stores.push_back(std::move(one));
  }
  for (const Bridge& b : sizes.recording.bridges) {
    Json one{{"housing", b.housing.text}, {"size_tb", number(b.size_tb)}, {"imagers", b.imagers}};
    if (std::isfinite(b.hours.high)) one["hours"] = spreadJson(b.hours);
    cards.push_back(std::move(one));
  }
  for (const Retention& r : sizes.recording.retention) {
    Json one{{"requirement", r.requirement.text}, {"asked_days", number(r.asked_days)},
             {"streams", idsJson(r.streams)}};
    put(one, "kept_days", r.kept_days);
    if (r.held_days) one["held_days"] = spreadJson(*r.held_days);
    days.push_back(std::move(one));
  }
  return {{"kept", std::move(kept)}, {"recorders", std::move(stores)}, {"cards", std::move(cards)},
          {"retention", std::move(days)}};
}

Json rulesJson(const Sizes& sizes, const Seen& seen) {
  Json assigned = Json::array(), candidates = Json::array(), lifts = Json::array();
  for (const RuleDemand& d : seen.rules)
    candidates.push_back({{"requirement", d.requirement.text}, {"imagers", d.candidates}});
  for (const Assigned& a : sizes.rules.assigned)
    assigned.push_back({{"requirement", a.requirement.text}, {"imagers", a.imagers}});
  for (const Lift& lift : sizes.rules.lifts) {
    Json one{{"change", lift.kind == Lift::Kind::housing ? "housing" : "aim"}, {"of", lift.name}};
    if (!lift.requirement.empty()) one["requirement"] = lift.requirement.text;
    lifts.push_back(std::move(one));
  }
  return {{"candidates", std::move(candidates)}, {"assigned", std::move(assigned)},
          {"gives", idsJson(sizes.rules.gives)}, {"unseen", idsJson(sizes.rules.unseen)},
          {"lifts", std::move(lifts)}, {"proven", sizes.rules.proven},
          {"lifts_tried", sizes.rules.lifts_tried}};
}

Json surroundingsJson(const Sizes& sizes) {
  const auto covered = [](Covered c) {
    return c == Covered::yes ? "yes" : c == Covered::no ? "no" : "unstated";
  };
  Json list = Json::array();
  for (const Standing& s : sizes.surroundings.standing) {
    Json one{{"housing", s.housing.text}, {"place", s.around.place},
             {"ip", covered(s.ip)}, {"ik", covered(s.ik)}, {"corrosion", covered(s.corrosion)},
             {"temperature", covered(s.temperature)}};
    put(one, "fixing_height_m", s.fixing_height_m);
    if (s.wind)
      one["wind"] = {{"pressure_pa", number(s.wind->pressure_pa)},
                     {"housing_n", number(s.wind->housing_n)},
                     {"pole_n", number(s.wind->pole_n)},
                     {"moment_nm", number(s.wind->moment_nm)}};
    list.push_back(std::move(one));
  }
  return list;
}

Json billJson(const Sizes& sizes) {
  Json lines = Json::array(), checks = Json::array();
  for (const BillLine& line : sizes.bill.lines) {
    Json one{{"part", line.part}, {"quantity", number(line.quantity)},
             {"unit", line.metres ? "m" : "pieces"}, {"of", line.of}};
    if (!line.model.empty()) one["model"] = line.model.text;
    if (line.metres) one["laid_m"] = number(line.laid_m);
    if (line.metres) one["lengths_unknown"] = line.lengths_unknown;
    put(one, "price", line.price);
    put(one, "amount", line.amount);
    lines.push_back(std::move(one));
  }
  for (const MoneyCheck& check : sizes.money) {
    Json one{{"requirement", check.requirement.text}, {"most", number(check.most)}};
    one["verdict"] = !check.met ? "undecided" : *check.met ? "met" : "not_met";
    checks.push_back(std::move(one));
  }
  Json bill{{"lines", std::move(lines)},
            {"total", number(sizes.bill.total)},
            {"complete", sizes.bill.complete()},
            {"unpriced", sizes.bill.unpriced},
            {"lengths_unknown", sizes.bill.lengths_unknown},
            {"already_there", sizes.bill.already_there},
            {"limits", std::move(checks)},
            {"kwh_a_year", {{"low", number(sizes.energy.low_kwh)},
                            {"high", number(sizes.energy.high_kwh)}}}};
  if (!sizes.bill.money.empty()) bill["money"] = sizes.bill.money;
  return bill;
}

}  // namespace

Json sizeJson(const Loaded& loaded, const Sizes& sizes, const Seen& seen,
                  const std::vector<Finding>& findings) {
  Json unreached = Json::array();
  for (const Unreached& one : sizes.network.unreached)
    unreached.push_back({{"stream", one.stream.text}, {"sink", one.sink.text}});
  return {{"format", "belvedere.size"},
          {"version", 1},
          {"design", designJson(loaded)},
          {"streams", streamsJson(sizes)},
          {"power", {{"feedings", feedingsJson(sizes)}, {"sources", sourcesJson(sizes)}}},
          {"network", {{"cables", cablesJson(sizes)}, {"unreached", std::move(unreached)},
                       {"unlinked", idsJson(sizes.network.unlinked)}}},
          {"recording", recordingJson(sizes)},
          {"analytics", rulesJson(sizes, seen)},
          {"surroundings", surroundingsJson(sizes)},
          {"bill", billJson(sizes)},
          {"findings", findingsJson(findings)}};
}

}  // namespace belvedere::cli
