// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/size_output.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/page.h"
#include "services/findings.h"

namespace belvedere::cli {

using namespace services;

namespace {

std::string figure(double value, int decimals) {
  return std::isfinite(value) ? fmt::format("{:.{}f}", value, decimals) : std::string("-");
}
std::string figure(std::optional<double> value, int decimals) {
  return value ? figure(*value, decimals) : std::string("-");
}
// "1.2 to 3.4", or one figure where the ends agree.
std::string spread(Spread s, int decimals) {
  const std::string low = figure(s.low, decimals), high = figure(s.high, decimals);
  return low == high ? low : low + " to " + high;
}
// Whole days as they are, parts of days downwards to a tenth: 11.96 days are no 12.
std::string daysHeld(const std::optional<Spread>& held) {
  if (!held) return "-";
  const auto one = [](double days) {
    return std::abs(days - std::round(days)) < 1e-6 ? fmt::format("{:.0f}", days)
                                                    : fmt::format("{:.1f}", std::floor(days * 10) / 10);
  };
  const std::string low = one(held->low), high = one(held->high);
  return low == high ? low : low + " to " + high;
}
std::string yes(bool good) { return good ? "" : "!"; }

std::string streamsText(const Sizes& sizes) {
  Table table;
  table.align = "llrrrrl";
  table.head = {"stream", "camera", "Mpx/s", "day", "night", "peak", "rate is"};
  for (const StreamRate& r : sizes.rates)
    table.rows.push_back({printable(r.stream.text), printable(r.housing.text),
                          figure(r.pixels_per_s / 1e6, 1),
                          r.known ? spread(r.day_mbps, 2) : "-",
                          r.known ? spread(r.night_mbps, 2) : "-", figure(r.peak_mbps, 2),
                          r.known ? word(r.from) : "not known"});
  return table.text(2);
}

std::string powerText(const Sizes& sizes) {
  Table table;
  table.align = "lllrrrrrl";
  table.head = {"camera", "fed by", "from", "m", "day W", "night W", "cold W", "start W", ""};
  for (const Feeding& f : sizes.power.feedings) {
    const std::optional<Watts>& w = f.source_w ? f.source_w : f.draw_w;
    std::string note;
    if (f.by == FedBy::poe && f.device_class)
      note = fmt::format("class {}{}", *f.device_class,
                         f.port_class ? fmt::format(" on {}", *f.port_class) : "");
    if (f.by == FedBy::line)
      note = f.supply_v <= 0       ? "voltage not stated"
             : !f.conductor_known ? "conductor not stated"
             : !f.at_worst        ? "cannot be supplied"
                                  : fmt::format("{:.2f} V of {:g}{}", f.at_worst->load_v, f.supply_v,
                                                f.least_v > 0 ? fmt::format(", from {:g}", f.least_v)
                                                              : "");
    const auto watt = [&](Load load) {
      return w ? figure((*w)[static_cast<std::size_t>(load)], 1) : std::string("-");
    };
    table.rows.push_back({printable(f.housing.text), f.by == FedBy::nothing ? "nothing" : f.feed,
                          printable(f.source.text), figure(f.length_m, 1), watt(Load::day),
                          watt(Load::night), watt(Load::cold_night), watt(Load::start), note});
  }
  std::string text = wrapped("watts at the source, the loss of the cable counted; cold: with lamps "
                             "and heater", 2, 2) + table.text(2);
  if (sizes.power.sources.empty()) return text;
  Table sources;
  sources.align = "lrrrrrrl";
  sources.head = {"source", "fed", "day W", "cold W", "start W", "gives W", "by class W", "standby"};
  for (const Source& s : sizes.power.sources) {
    const auto watt = [&](Load load) { return figure(s.load_w[static_cast<std::size_t>(load)], 1); };
    sources.rows.push_back(
        {printable(s.device.text), fmt::format("{}", s.housings + s.devices), watt(Load::day),
         watt(Load::cold_night), watt(Load::start), figure(s.budget_w, 1),
         s.allotted_w > 0 ? figure(s.allotted_w, 1) : "-",
         s.standby_hours && s.needed_ah
             ? fmt::format("{:g} h: {:.1f} Ah of {}", *s.standby_hours, *s.needed_ah,
                           s.has_ah ? fmt::format("{:g}", *s.has_ah) : "none")
             : ""});
  }
  return text + "\n" + sources.text(2);
}

// The longest that a cable may be: of a power cable, at which its load has its least voltage left.
std::string mayBe(const Sizes& sizes, const Cable& cable) {
  if (cable.media == Media::power)
    for (const Feeding& f : sizes.power.feedings)
      if (f.by == FedBy::line && f.conductor_known && f.longest_m > 0 && std::isfinite(f.longest_m) &&
          std::ranges::find(f.links, cable.link) != f.links.end())
        return figure(std::floor(f.longest_m), 0);
  return figure(cable.longest_m, 0);
}

// The streams that a load is made of: all of few, the first of many.
std::string madeOf(const Cable& cable) {
  constexpr std::size_t kFew = 3;
  const std::size_t said = cable.carries.size() > kFew ? kFew - 1 : cable.carries.size();
  std::string text;
  for (std::size_t i = 0; i < said; ++i)
    text += (i > 0 ? ", " : "") + printable(cable.carries[i].stream.text);
  if (said < cable.carries.size()) text += fmt::format(" and {} more", cable.carries.size() - said);
  return text.empty() ? "-" : text;
}

std::string networkText(const Sizes& sizes) {
  Table table;
  table.align = "llllrrrrrrl";
  table.head = {"link", "from", "to", "cable", "m", "may be", "Mbit/s", "of", "%", "cuts off", "streams"};
  for (const Cable& c : sizes.network.cables) {
    const bool load = c.rate_mbps && c.load_mbps > 0;
    table.rows.push_back({printable(c.link.text), printable(c.from.text), printable(c.to.text),
                          c.model ? printable(c.model->id.text) : word(c.media),
                          c.placed && c.way ? figure(c.length_m, 1) : "-",
                          mayBe(sizes, c), figure(c.load_mbps, 1), figure(c.rate_mbps, 0),
                          load ? figure(100 * c.load_mbps / *c.rate_mbps, 0) : "-",
                          c.cut_off.empty() ? "-" : fmt::format("{}", c.cut_off.size()), madeOf(c)});
  }
  std::string text =
      wrapped("lengths follow containment and walls, or the way drawn for a cable, drops and slack "
              "counted; Mbit/s: the high ends of the rates of the streams named last, in the fuller "
              "direction (--json says what each adds); cuts off: cameras, if the link fails", 2, 2) +
      table.text(2);
  Table parts;
  parts.align = "lrrrr";
  parts.head = {"part", "ports used", "has", "takes in Mbit/s", "of"};
  for (const PartLoad& p : sizes.network.parts)
    if (p.ports_used + p.uplinks_used > 0)
      parts.rows.push_back({printable(p.device.text), fmt::format("{}", p.ports_used),
                            p.ports ? fmt::format("{}", *p.ports) : "-",
                            p.in_mbps > 0 ? figure(p.in_mbps, 1) : "-", figure(p.in_mbps_most, 0)});
  return parts.rows.empty() ? text : text + "\n" + parts.text(2);
}

std::string recordingText(const Sizes& sizes) {
  std::string text;
  Table kept;
  kept.align = "llrrrrr";
  kept.head = {"stream", "kept on", "share of day", "days asked", "days held", "Mbit/s", "TB"};
  bool within = false;
  for (const Kept& k : sizes.recording.kept) {
    within = within || k.within_longer;
    kept.rows.push_back({printable(k.stream.text),
                         k.device.empty() ? "card" : printable(k.device.text), figure(k.share, 2),
                         fmt::format("{:g}", k.days), daysHeld(k.held_days), spread(k.mbps, 2),
                         k.within_longer ? "within" : spread(k.tb, 2)});
  }
  if (!kept.rows.empty())
    text += kept.text(2) +
            wrapped(fmt::format("asked: what the recording is to keep; held: what of it the disks or the "
                                "card hold, least at the high end of the rates{}",
                                within ? "; within: another line of the stream on the same recorder "
                                         "holds it, no room of its own"
                                       : ""),
                    2, 2);
  Table stores;
  stores.align = "lrrrrrrr";
  stores.head = {"recorder", "streams", "needs TB", "needs TiB", "usable TB", "room for days",
                 "disks", "would do"};
  for (const Store& s : sizes.recording.stores)
    stores.rows.push_back(
        {printable(s.device.text), fmt::format("{}", s.streams), spread(s.needed_tb, 2),
         spread({tibFromTb(s.needed_tb.low), 0, tibFromTb(s.needed_tb.high)}, 2),
         s.disks > 0 ? figure(s.usable_tb, 2) : "-",
         s.disks > 0 && s.streams > 0 ? spread(s.days_held, 1) : "-",
         s.disks > 0 ? fmt::format("{}", s.disks) : "-",
         s.disks_needed > 0 ? fmt::format("{}", s.disks_needed) : "-"});
  if (!stores.rows.empty())
    text += "\n" + stores.text(2) +
            wrapped("usable: less parity, hot spares and what the file system keeps free; 1 TB is 10^12 "
                    "bytes, 1 TiB 2^40", 2, 2);
  Table cards;
  cards.align = "lrrr";
  cards.head = {"card in", "TB", "imagers", "bridges h"};
  for (const Bridge& b : sizes.recording.bridges)
    cards.rows.push_back({printable(b.housing.text), figure(b.size_tb, 3),
                          fmt::format("{}", b.imagers), spread(b.hours, 1)});
  if (!cards.rows.empty()) text += "\n" + cards.text(2);
  Table retention;
  retention.align = "lrrrr";
  retention.head = {"requirement", "days asked", "recorded for", "days held", "streams"};
  for (const Retention& r : sizes.recording.retention)
    retention.rows.push_back({printable(r.requirement.text), fmt::format("{:g}", r.asked_days),
                              r.kept_days ? fmt::format("{:g}", *r.kept_days) : "-",
                              daysHeld(r.held_days),
                              fmt::format("{}", r.streams.size())});
  if (!retention.rows.empty()) text += "\n" + retention.text(2);
  return text;
}

std::string analyticsText(const Sizes& sizes, const Seen& seen) {
  Table table;
  table.align = "lll";
  table.head = {"rule", "runs on", "seen well enough by"};
  for (const RuleDemand& demand : seen.rules) {
    const auto at = std::ranges::find(sizes.rules.assigned, demand.requirement, &Assigned::requirement);
    table.rows.push_back(
        {printable(demand.requirement.text),
         at == sizes.rules.assigned.end() ? "none: it has to give"
                                          : fmt::format("{}", fmt::join(at->imagers, ", ")),
         fmt::format("{}", fmt::join(demand.candidates, ", "))});
  }
  return table.text(2);
}

std::string surroundingsText(const Sizes& sizes) {
  Table table;
  table.align = "llrlllll";
  table.head = {"camera", "place", "m up", "IP", "IK", "corrosion", "C of the air", "rated C"};
  const auto range = [](const std::optional<design::Range>& r) {
    return r ? fmt::format("{:g} to {:g}", (*r)[0], (*r)[1]) : std::string("-");
  };
  const auto code = [](const std::string& has, const std::string& needed, Covered covered) {
    return fmt::format("{}{}{}", has.empty() ? "-" : printable(has),
                       needed.empty() ? "" : " / " + printable(needed),
                       yes(covered != Covered::no));
  };
  for (const Standing& s : sizes.surroundings.standing)
    table.rows.push_back({printable(s.housing.text), s.around.place, figure(s.fixing_height_m, 2),
                          code(s.has_ip, s.needed_ip, s.ip), code(s.has_ik, s.needed_ik, s.ik),
                          code(s.has_corrosion, s.needed_corrosion, s.corrosion), range(s.air_c),
                          range(s.rated_c) + yes(s.temperature != Covered::no)});
  if (table.rows.empty()) return wrapped("nothing is said of what the cameras have to stand", 2, 2);
  return table.text(2) + wrapped("code it has / code asked for; ! falls short", 2, 2);
}

std::string billText(const Sizes& sizes) {
  const Bill& bill = sizes.bill;
  if (bill.lines.empty()) return wrapped("there is nothing to buy", 2, 2);
  Table table;
  table.align = "lllrrrl";
  table.head = {"part", "model", "title", "quantity", "price", "amount", ""};
  for (const BillLine& line : bill.lines)
    table.rows.push_back(
        {line.part, line.model.empty() ? "not chosen" : printable(line.model.text),
         printable(line.title), fmt::format("{:.0f}{}", line.quantity, line.metres ? " m" : ""),
         figure(line.price, 2), figure(line.amount, 2),
         line.lengths_unknown > 0 ? fmt::format("{} without a length", line.lengths_unknown) : ""});
  std::string text = table.text(2) + wrapped(fmt::format("Total: {}.", totalText(bill)), 2, 4);
  if (bill.already_there > 0)
    text += wrapped(fmt::format("{} cameras are there already.", bill.already_there), 2, 4);
  text += wrapped(fmt::format("Catalogue prices; cables with {:g} % for waste. Labour, containment, "
                              "fixings and taxes are not in it.", 100 * kCableWaste), 2, 4);
  const std::string low = figure(sizes.energy.low_kwh, 0), high = figure(sizes.energy.high_kwh, 0);
  text += wrapped(
      fmt::format("A year takes {} kWh, half of it by night{}{}.", low == high ? low : low + " to " + high,
                  low == high ? "" : ", at the low end without heaters",
                  sizes.energy.unstated.empty()
                      ? ""
                      : fmt::format("; {} devices state no draw of their own",
                                    sizes.energy.unstated.size())),
      2, 4);
  return text;
}

}  // namespace

std::string cautionText() {
  return heading("Caution") +
         wrapped("A computed design is an aid. Work at height, fixings, mains, fire-stopping of "
                 "penetrations, lightning and surge protection are for licensed people; local codes "
                 "come first.", 2, 2);
}

std::string sizeText(const Loaded& loaded, const Sizes& sizes, const Seen& seen,
                         const std::vector<Finding>& findings, bool proven) {
  const design::Services& s = loaded.design.services;
  std::size_t shortfalls = 0, cautions = 0;
  for (const Finding& f : findings) {
    shortfalls += f.severity == Severity::shortfall;
    cautions += f.severity == Severity::caution;
  }
  std::string text = wrapped(printable(loaded.design.title), 0, 0);
  text += wrapped(fmt::format("{} falling short, {} cautions (below).", shortfalls, cautions), 0, 0);
  if (!proven && !sizes.recording.retention.empty())
    text += wrapped("Coverage was not proven: days recorded and held are those of all recorded streams.", 0, 2);
  if (!sizes.rates.empty())
    text += heading("Streams, Mbit/s") + streamsText(sizes);
  if (!s.links.empty()) {
    text += heading("Power") + powerText(sizes);
    text += heading("Network") + networkText(sizes);
  } else {
    text += heading("Power and network") +
            wrapped("no links are drawn, so that nothing is said of power and network", 2, 2);
  }
  const std::string recording = recordingText(sizes);
  text += heading("Recording") +
          (recording.empty() ? wrapped("nothing is recorded", 2, 2) : recording);
  if (!seen.rules.empty()) text += heading("Analytics") + analyticsText(sizes, seen);
  text += heading("Surroundings") + surroundingsText(sizes);
  text += heading("Bill of material") + billText(sizes);
  if (!findings.empty()) text += heading("Findings") + findingsText(findings);
  return text;
}

}  // namespace belvedere::cli
