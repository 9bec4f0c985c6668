// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "base/figures.h"
#include "services/findings.h"
#include "services/place.h"

namespace belvedere::services {
namespace {

std::string ends(const Cable& cable) {
  return fmt::format("{} ({} to {})", cable.link.text, cable.from.text, cable.to.text);
}

// Why no way leads from one end to the other.
std::string noWay(const Cable& cable) {
  const char* what = cable.drawn ? "the way drawn for it cannot be followed" : "no way leads from end to end";
  if (!cable.parted)
    return fmt::format("{}: {}: no containment climbs from storey to storey there.", ends(cable), what);
  const Parted& p = *cable.parted;
  if (!p.one.empty() && p.one == p.other)
    return fmt::format("{}: its route names {}, which is no containment.", ends(cable), p.one);
  return fmt::format("{}: {}: {} and {} do not join, they are {:.1f} m apart and on no storey together.",
                     ends(cable), what, p.one.empty() ? cable.from.text : p.one,
                     p.other.empty() ? cable.to.text : p.other, p.apart_m);
}

void lengths(const Sizes& sizes, std::vector<Finding>& out) {
  for (const Cable& cable : sizes.network.cables) {
    const std::string id = cable.link.text;
    if (!cable.placed) {
      out.push_back({"cable_unplaced", Severity::caution, {id}, {}, {},
                     fmt::format("{}: an end has no place, so that its length is not known; only its "
                                 "slack is counted.", ends(cable)),
                     "10"});
      continue;
    }
    if (!cable.way) {
      out.push_back({"cable_no_way", Severity::shortfall, {id}, {},
                     cable.parted ? std::optional(Quantity{cable.parted->apart_m, "m"}) : std::nullopt,
                     noWay(cable), "10"});
      continue;
    }
    for (const Parted& gap : cable.way->bridged)
      out.push_back({"route_gap", Severity::caution, {id, gap.one, gap.other}, Quantity{kJoinM, "m"},
                     Quantity{gap.apart_m, "m"},
                     fmt::format("{}: its route names {} and then {}, which are {} m apart: {:.1f} m {} are "
                                 "counted between them.", ends(cable), gap.one, gap.other,
                                 figureBeside(gap.apart_m, kJoinM, 1), gap.bridge_m,
                                 gap.open ? "across the open floor, where nothing carries a cable,"
                                          : "along the walls of the storey"),
                     "10"});
    if (cable.way->open)
      out.push_back({"cable_way_open", Severity::note, {id}, {}, {},
                     fmt::format("{}: no containment or wall leads from end to end; its length, {:.1f} m, "
                                 "is square across.", ends(cable), cable.length_m),
                     "10"});
    if (cable.longest_m && cable.channel_m > *cable.longest_m + 1e-9)
      out.push_back({"cable_too_long", Severity::shortfall, {id}, Quantity{*cable.longest_m, "m"},
                     Quantity{cable.channel_m, "m"},
                     fmt::format("{}: {} m of {} cable{} where {:.1f} m may be laid{}.", ends(cable),
                                 figureBeside(cable.channel_m, *cable.longest_m, 1), word(cable.media),
                                 cable.channel_m > cable.length_m + 1e-9
                                     ? ", with what it goes on through,"
                                     : "",
                                 *cable.longest_m,
                                 cable.media == Media::twisted_pair
                                     ? fmt::format(" at {:g} C, cords of {:g} m aside",
                                                   cable.temperature_c, kCordsM)
                                     : ""),
                     "10"});
  }
}

void loads(const Sizes& sizes, std::vector<Finding>& out) {
  std::size_t unknown = 0;
  for (const Cable& cable : sizes.network.cables) {
    if (cable.load_mbps > 0 && !cable.rate_mbps) ++unknown;
    if (!cable.rate_mbps || cable.load_mbps <= 0) continue;
    const double share = cable.load_mbps / *cable.rate_mbps;
    if (share > 1)
      out.push_back({"link_overloaded", Severity::shortfall, {cable.link.text},
                     Quantity{*cable.rate_mbps, "Mbit/s"}, Quantity{cable.load_mbps, "Mbit/s"},
                     fmt::format("{}: up to {:.1f} Mbit/s over a link of {:g}.", ends(cable),
                                 cable.load_mbps, *cable.rate_mbps),
                     "10"});
    else if (share > kFullShare)
      out.push_back({"link_full", Severity::caution, {cable.link.text}, Quantity{100 * kFullShare, "%"},
                     Quantity{100 * share, "%"},
                     fmt::format("{}: up to {:.1f} Mbit/s, {} % of a link of {:g}; above {:g} % "
                                 "little is left for peaks and upkeep (practice).", ends(cable),
                                 cable.load_mbps,
                                 figureBeside(100 * share, 100 * kFullShare, 0), *cable.rate_mbps,
                                 100 * kFullShare),
                     "10"});
  }
  if (unknown > 0)
    out.push_back({"link_rate_unknown", Severity::note, {}, {}, {},
                   fmt::format("{} links carry streams and nothing states what they can carry.",
                               unknown),
                   "10"});
}

void parts(const Sizes& sizes, std::vector<Finding>& out) {
  for (const PartLoad& part : sizes.network.parts) {
    const std::string id = part.device.text;
    const auto tooMany = [&](const char* what, int used, std::optional<int> has) {
      if (!has || *has == 0 || used <= *has) return;
      out.push_back({"ports_short", Severity::shortfall, {id},
                     Quantity{static_cast<double>(*has), what},
                     Quantity{static_cast<double>(used), what},
                     fmt::format("{}: {} links need {} and it has {}.", id, used, what, *has), "10"});
    };
    tooMany("ports", part.ports_used, part.ports);
    tooMany("uplinks", part.uplinks_used, part.uplinks);
    const bool over = part.in_mbps_most && part.in_mbps > *part.in_mbps_most;
    if (part.in_mbps_most && part.in_mbps > *part.in_mbps_most * kFullShare)
      out.push_back({"intake_full", over ? Severity::shortfall : Severity::caution, {id},
                     Quantity{*part.in_mbps_most * kFullShare, "Mbit/s"},
                     Quantity{part.in_mbps, "Mbit/s"},
                     fmt::format("{}: takes in up to {:.1f} Mbit/s of {:g}; {:g} % is what practice "
                                 "leaves it at.", id, part.in_mbps, *part.in_mbps_most,
                                 100 * kFullShare),
                     "10"});
  }
}

void failures(const Sizes& sizes, std::vector<Finding>& out) {
  for (const Unreached& one : sizes.network.unreached)
    out.push_back({"stream_unreached", Severity::shortfall, {one.stream.text, one.sink.text}, {}, {},
                   fmt::format("{} does not reach {}: no chain of links joins them.",
                               one.stream.text, one.sink.text),
                   "10"});
  for (const design::HousingId& id : sizes.network.unlinked)
    out.push_back({"housing_unlinked", Severity::shortfall, {id.text}, {}, {},
                   fmt::format("{} has no link: nothing carries its pictures.", id.text), "10"});
  for (const Cable& cable : sizes.network.cables) {
    if (cable.cut_off.size() < 2) continue;
    std::vector<std::string> names, about{cable.link.text};
    for (const design::HousingId& id : cable.cut_off) {
      about.push_back(id.text);
      if (names.size() < 8) names.push_back(id.text);
    }
    out.push_back({"link_cuts_off", Severity::note, about, {},
                   Quantity{static_cast<double>(cable.cut_off.size()), "cameras"},
                   fmt::format("{}: if it fails, {} cameras reach nobody: {}{}.", ends(cable),
                               cable.cut_off.size(), fmt::join(names, ", "),
                               cable.cut_off.size() > names.size() ? " and others" : ""),
                   "10"});
  }
}

// Whether a camera hangs on a building, though outside its outline: on a wall, or on a line of it.
bool hangsOn(const design::Design& design, const design::Building& building,
             const design::AnyId& id) {
  const design::Housing* housing = findHousing(design, {id.text});
  if (!housing) return false;
  const std::string& on = housing->mount.on.text;
  std::string storey;
  for (const design::Mounting& mounting : design.site.mounting)
    if (mounting.id.text == on && mounting.on != "pole") storey = mounting.storey.text;
  return std::ranges::any_of(building.storeys, [&](const design::Storey& s) {
    return s.id.text == on || s.id.text == storey ||
           std::ranges::any_of(s.walls, [&](const design::Wall& w) { return w.id.text == on; });
  });
}

// Copper that leaves the shelter of one building: cautions of every answer (handbook 17).
void surges(const design::Design& design, const Sizes& sizes, std::vector<Finding>& out) {
  const auto building = [&](Vec3 at) -> const design::Building* {
    const design::Storey* storey = storeyAt(design, {}, at);
    return storey ? findBuildingOf(design, storey->id) : nullptr;
  };
  std::vector<std::string> outdoor, to_the_open;
  for (const Cable& cable : sizes.network.cables) {
    if (cable.media == Media::fibre || !cable.placed) continue;
    const Vec3 a = *design::placeOf(design, cable.from), b = *design::placeOf(design, cable.to);
    const design::Building *from = building(a), *to = building(b);
    if ((from && !to && !hangsOn(design, *from, cable.to)) ||
        (to && !from && !hangsOn(design, *to, cable.from)))
      to_the_open.push_back(cable.link.text);
    if (from && to && from != to)
      out.push_back({"earths_differ", Severity::caution, {cable.link.text}, {}, {},
                     fmt::format("{}: copper between two buildings joins two earths: their "
                                 "potentials may differ. Take fibre, or have isolation and "
                                 "protection designed by a licensed person.", ends(cable)),
                     "17"});
    const auto outside = [&](const design::AnyId& id) {
      const design::Housing* housing = findHousing(design, {id.text});
      if (!housing) return false;
      const auto around = surroundingsOf(design, *housing);
      return around && around->place == "open";
    };
    if (outside(cable.from) || outside(cable.to)) outdoor.push_back(cable.link.text);
  }
  if (!to_the_open.empty())
    out.push_back({"earth_in_the_open", Severity::caution, to_the_open, {}, {},
                   fmt::format("{} copper cables lead from a building to something in the open: where "
                               "that has an earth of its own (a pole, a fence, a container), two earths "
                               "are joined. Take fibre, or have isolation and protection designed by a "
                               "licensed person.", to_the_open.size()),
                   "17"});
  if (!outdoor.empty())
    out.push_back({"surge_protection", Severity::caution, outdoor, {}, {},
                   fmt::format("{} copper cables run outdoors: they need protection against lightning "
                               "and surges.", outdoor.size()),
                   "17"});
}

}  // namespace

std::vector<Finding> networkFindings(const design::Design& design, const Sizes& sizes) {
  std::vector<Finding> out;
  lengths(sizes, out);
  loads(sizes, out);
  parts(sizes, out);
  failures(sizes, out);
  surges(design, sizes, out);
  return out;
}

}  // namespace belvedere::services
