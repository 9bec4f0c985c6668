// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/figures.h"
#include "services/findings.h"

namespace belvedere::services {
namespace {

constexpr auto at = [](Load load) { return static_cast<std::size_t>(load); };

double worst(const Watts& w) { return *std::ranges::max_element(w); }
Load worstLoad(const Watts& w) {
  return static_cast<Load>(std::ranges::max_element(w) - w.begin());
}

// What of the draw is too much for a limit: "with its lamps on", "with lamps and heater on".
const char* culprit(const Watts& w, double limit_w) {
  if (w[at(Load::day)] > limit_w) return "even at rest";
  if (w[at(Load::night)] > limit_w) return "with its lamps on";
  if (w[at(Load::cold_night)] > limit_w) return "with its lamps and heater on";
  return "while it starts";
}

void poe(const Feeding& f, std::vector<Finding>& out) {
  const std::string id = f.housing.text, source = f.source.text;
  if (!f.device_class) {
    if (f.draw_w)
      out.push_back({"draw_above_classes", Severity::shortfall, {id, source},
                     Quantity{poeClass(kPoeClassMost).device_w, "W"}, Quantity{worst(*f.draw_w), "W"},
                     fmt::format("{}: draws {:.1f} W; no class lets a device draw more than {:g} W.", id,
                                 worst(*f.draw_w), poeClass(kPoeClassMost).device_w),
                     "11"});
    return;
  }
  const PoeClass& own = poeClass(*f.device_class);
  if (f.draw_w && worst(*f.draw_w) > own.device_w + 1e-9)
    out.push_back({"class_contradicts_draw", Severity::caution, {id}, Quantity{own.device_w, "W"},
                   Quantity{worst(*f.draw_w), "W"},
                   fmt::format("{}: its model states class {}, which lets it draw {:g} W, and a draw of "
                               "{:.1f} W {}. Ask the maker which holds.", id, own.number, own.device_w,
                               worst(*f.draw_w), culprit(*f.draw_w, own.device_w)),
                   "11"});
  if (f.port_class && classRank(*f.port_class) < classRank(*f.device_class)) {
    const PoeClass& port = poeClass(*f.port_class);
    if (f.draw_w && worst(*f.draw_w) > port.device_w + 1e-9)
      out.push_back({"port_class_short", Severity::shortfall, {id, source},
                     Quantity{worst(*f.draw_w), "W"}, Quantity{port.device_w, "W"},
                     fmt::format("{}: a port of {} is of class {} and lets it draw {:g} W; it draws "
                                 "{:.1f} W {}.", id, source, port.number, port.device_w,
                                 worst(*f.draw_w), culprit(*f.draw_w, port.device_w)),
                     "11"});
    else
      out.push_back({"port_class_lower", Severity::caution, {id, source}, {}, {},
                     fmt::format("{}: asks for class {} and {} grants class {}; by its stated draw that is "
                                 "enough, but it may refuse to start its lamps or heater.", id,
                                 own.number, source, port.number),
                     "11"});
  }
  const PoeClass& granted = poeClass(*f.granted_class);
  if (!withinPort(f) && worst(*f.draw_w) <= granted.device_w + 1e-9)
    out.push_back({"port_power_short", Severity::shortfall, {id, source},
                   Quantity{worst(*f.source_w), "W"}, Quantity{granted.source_w, "W"},
                   fmt::format("{}: over {:.1f} m of cable a port of {} has to give {} W, and class {} "
                               "gives {:g} W.", id, f.length_m, source,
                               figureBeside(worst(*f.source_w), granted.source_w, 1), granted.number,
                               granted.source_w),
                   "11"});
  if (f.draw_w && !f.source_w)
    out.push_back({"cannot_be_supplied", Severity::shortfall, {id, source}, {}, {},
                   fmt::format("{}: {:.1f} W cannot be carried over {:.1f} m from {}: the cable would use "
                               "up the voltage.", id, worst(*f.draw_w), f.length_m, source),
                   "11"});
}

void line(const Feeding& f, std::vector<Finding>& out) {
  const std::string id = f.housing.text, source = f.source.text;
  if (f.supply_v <= 0) {
    out.push_back({"supply_volts_unstated", Severity::caution, {id, source}, {}, {},
                   fmt::format("{}: the voltage of {} (out_v) is not stated, so that what is left of it "
                               "is not known.", id, source),
                   "11"});
    return;
  }
  if (f.most_v && f.supply_v > *f.most_v + 1e-9)
    out.push_back({"volts_over", Severity::shortfall, {id, source}, Quantity{*f.most_v, "V"},
                   Quantity{f.supply_v, "V"},
                   fmt::format("{}: {} gives {:g} V and it bears {:g} V.", id, source, f.supply_v,
                               *f.most_v),
                   "11"});
  if (!f.draw_w) return;
  const std::string mends = f.least_v <= 0 ? "" : fmt::format(
      "{}{}", f.longest_m > 0 && f.conductor_known
                  ? fmt::format(" This cable may be {:.0f} m long.", std::floor(f.longest_m))
                  : "",
      f.least_size ? fmt::format(" {:g} mm2 would do.", f.least_size->area_mm2)
                   : " No conductor up to 16 mm2 would do; bring the supply nearer or raise its "
                     "voltage.");
  if (!f.conductor_known) {
    out.push_back({"conductor_unknown", Severity::caution, {id, source}, {}, {},
                   fmt::format("{}: its cable from {} states no ohm_per_km, so that the drop is not "
                               "known.{}", id, source, mends),
                   "11"});
    return;
  }
  if (!f.at_worst)
    out.push_back({"cannot_be_supplied", Severity::shortfall, {id, source}, {}, {},
                   fmt::format("{}: {:.1f} W cannot be had at the end of {:.1f} m from {:g} V of {}, at any "
                               "voltage.{}", id, worst(*f.draw_w), f.length_m, f.supply_v, source, mends),
                   "11"});
  else if (f.at_worst->load_v < f.least_v - 1e-9)
    out.push_back({"volts_short", Severity::shortfall, {id, source}, Quantity{f.least_v, "V"},
                   Quantity{f.at_worst->load_v, "V"},
                   fmt::format("{}: {} V are left of {:g} V from {} at {:.1f} m; it works from {:g} "
                               "V.{}", id, figureBeside(f.at_worst->load_v, f.least_v, 2), f.supply_v,
                               source, f.length_m, f.least_v, mends),
                   "11"});
}

// Limits of voltage that models leave out: one finding for each model and kind of supply.
void voltsUnstated(const design::Design& design, const Sizes& sizes, std::vector<Finding>& out) {
  std::map<std::pair<std::string, std::string>, std::vector<const Feeding*>> of_model;
  for (const Feeding& f : sizes.power.feedings)
    if (f.by == FedBy::line && (!f.least_stated || !f.most_stated))
      if (const design::Housing* housing = findHousing(design, f.housing))
        of_model[{housing->model.text, f.feed}].push_back(&f);
  for (const auto& [model, feedings] : of_model) {
    const Feeding& f = *feedings.front();
    std::vector<std::string> about;
    for (const Feeding* one : feedings) about.push_back(one->housing.text);
    about.push_back(model.first);
    const char* what = f.least_stated  ? "what voltage it bears"
                       : f.most_stated ? "from what voltage it works"
                                       : "from what voltage it works and what it bears";
    out.push_back({"volts_unstated", Severity::caution, about, {}, {},
                   f.nominal_v
                       ? fmt::format("The model {} does not state {}: by its {:g} V, {} is taken ({} of "
                                     "its cameras).", model.first, what, *f.nominal_v,
                                     f.least_stated  ? fmt::format("at most {:g} V", *f.most_v)
                                     : f.most_stated ? fmt::format("at least {:g} V", f.least_v)
                                                     : fmt::format("{:g} to {:g} V", f.least_v, *f.most_v),
                                     feedings.size())
                       : fmt::format("The model {} does not state {}, so that nothing is judged by it "
                                     "({} of its cameras).", model.first, what, feedings.size()),
                   "11"});
  }
}

void feedings(const Sizes& sizes, std::vector<Finding>& out) {
  for (const Feeding& f : sizes.power.feedings) {
    const std::string id = f.housing.text;
    if (!f.draw_w)
      out.push_back({"draw_unknown", Severity::caution, {id}, {}, {},
                     fmt::format("{}: its model states neither what it draws nor a class, so that nothing "
                                 "is counted for it.", id),
                     "11"});
    if (f.by == FedBy::nothing) {
      out.push_back({"not_powered", Severity::shortfall, {id}, {}, {},
                     fmt::format("{}: no link brings it power of a kind that its model takes.", id),
                     "11"});
      continue;
    }
    std::vector<std::string> others;
    for (const OtherSupply& other : f.others)
      others.push_back(fmt::format("{} from {}", other.feed, other.source.text));
    if (!f.asked.empty())
      out.push_back({"supply_not_linked", Severity::shortfall, {id}, {}, {},
                     fmt::format("{}: it is to be fed by {} (fed_by), and no link brings it that in a way "
                                 "that its model takes; {} from {} is counted.", id, f.asked, f.feed,
                                 f.source.text),
                     "11"});
    else if (!f.chosen)
      out.push_back({"supply_not_chosen", Severity::caution, {id}, {}, {},
                     fmt::format("{}: {} from {} is taken, though it is linked to {} as well; say which "
                                 "(fed_by).", id, f.feed, f.source.text, fmt::join(others, ", ")),
                     "11"});
    if (f.by == FedBy::poe) poe(f, out);
    else line(f, out);
    for (std::size_t i = 0; i < f.others.size(); ++i) {
      const bool carries = f.others[i].carries && f.others[i].bears_all;
      out.push_back({carries ? "second_supply" : "second_supply_weak",
                     carries ? Severity::note : Severity::caution, {id}, {}, {},
                     carries
                         ? fmt::format("{}: if {} from {} fails, {} carries it.", id, f.feed,
                                       f.source.text, others[i])
                         : fmt::format("{}: if {} from {} fails, {} does not carry it in every state.",
                                       id, f.feed, f.source.text, others[i]),
                     "11"});
    }
  }
}

void sources(const Sizes& sizes, std::vector<Finding>& out) {
  for (const Source& s : sizes.power.sources) {
    const std::string id = s.device.text;
    for (const design::DeviceId& device : s.unstated)
      out.push_back({"load_not_counted", Severity::caution, {device.text, id}, {}, {},
                     fmt::format("{}: hangs on {}, and its model does not say what it draws itself "
                                 "(idle_w): only what it gives on is counted.", device.text, id),
                     "11"});
    const double load = worst(s.load_w);
    if (s.budget_w && load > *s.budget_w + 1e-9) {
      const bool at_rest = s.load_w[at(Load::day)] > *s.budget_w;
      out.push_back({"source_overloaded", Severity::shortfall, {id}, Quantity{*s.budget_w, "W"},
                     Quantity{load, "W"},
                     fmt::format("{}: {:.1f} W are drawn ({}) where it gives {:g} W{}.", id, load,
                                 word(worstLoad(s.load_w)), *s.budget_w,
                                 at_rest ? ""
                                         : fmt::format("; by day {:.1f} W look as if it would do",
                                                       s.load_w[at(Load::day)])),
                     "11"});
    } else if (s.budget_w && s.allotted_w > *s.budget_w + 1e-9) {
      out.push_back({"budget_allotted", Severity::caution, {id}, Quantity{*s.budget_w, "W"},
                     Quantity{s.allotted_w, "W"},
                     fmt::format("{}: its budget of {:g} W covers what is drawn, but the classes of its "
                                 "devices claim {:.1f} W: a switch that allots by class leaves the last "
                                 "ones dark.", id, *s.budget_w, s.allotted_w),
                     "11"});
    }
    if (s.standby_hours && !s.needed_ah)
      out.push_back({"battery_unstated", Severity::caution, {id}, {}, {},
                     fmt::format("{}: {:g} h of standby are asked for, and its voltage (out_v) is not "
                                 "stated.", id, *s.standby_hours),
                     "11"});
    else if (s.standby_hours && s.needed_ah && (!s.has_ah || *s.has_ah < *s.needed_ah))
      out.push_back({"battery_short", Severity::shortfall, {id}, Quantity{*s.needed_ah, "Ah"},
                     Quantity{s.has_ah.value_or(0), "Ah"},
                     s.has_ah ? fmt::format("{}: {:g} h of standby on a cold night need {:.1f} Ah; its "
                                            "{:g} Ah bridge {:.1f} h.", id, *s.standby_hours,
                                            *s.needed_ah, *s.has_ah, s.bridged_hours.value_or(0))
                              : fmt::format("{}: {:g} h of standby on a cold night need {:.1f} Ah, and it "
                                            "has no battery.", id, *s.standby_hours, *s.needed_ah),
                     "11"});
  }
}

}  // namespace

std::vector<Finding> powerFindings(const design::Design& design, const Sizes& sizes) {
  std::vector<Finding> out;
  if (design.services.links.empty()) return out;
  feedings(sizes, out);
  voltsUnstated(design, sizes, out);
  sources(sizes, out);
  std::vector<std::string> mains;
  for (const Source& source : sizes.power.sources) mains.push_back(source.device.text);
  if (!mains.empty())
    out.push_back({"mains_work", Severity::caution, mains, {}, {},
                   "Mains, and any connection beyond extra-low voltage, are for licensed people.",
                   "17"});
  return out;
}

}  // namespace belvedere::services
