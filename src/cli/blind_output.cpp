// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/blind_output.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <nlohmann/json.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/units.h"
#include "cli/camera_table.h"
#include "cli/page.h"
#include "design/resolve.h"
#include "optics/reach.h"

namespace belvedere::cli {

namespace {
std::string nameOf(const proof::BlindZone& zone) {
  return zone.slot == 0 ? zone.housing.text : fmt::format("{}.{}", zone.housing.text, zone.slot);
}
std::string cellOf(const proof::BlindZone& zone) {
  return zone.foot_is_seen ? "foot seen" : fmt::format("{:.2f}", zone.area_m2);
}
std::string arcsText(const std::vector<std::array<double, 2>>& arcs) {
  if (arcs.empty()) return "none";
  std::string text;
  for (const auto& [from, to] : arcs)
    text += fmt::format("{}{:.1f} to {:.1f}", text.empty() ? "" : ", ", from, to);
  return text;
}
Json arcsJson(const std::vector<std::array<double, 2>>& arcs) {
  Json list = Json::array();
  for (const auto& [from, to] : arcs) list.push_back(Json::array({number(from), number(to)}));
  return list;
}
}  // namespace

std::string blindTable(const std::vector<proof::BlindZone>& zones) {
  std::vector<double> heights;
  std::vector<std::pair<std::string, std::string>> order;  // situation, camera
  std::map<std::pair<std::string, std::string>, std::map<double, std::string>> cells;
  for (const proof::BlindZone& zone : zones) {
    if (std::find(heights.begin(), heights.end(), zone.target_height_m) == heights.end())
      heights.push_back(zone.target_height_m);
    const std::pair key{zone.situation.text, nameOf(zone)};
    if (!cells.contains(key)) order.push_back(key);
    cells[key][zone.target_height_m] = cellOf(zone);
  }
  std::sort(heights.begin(), heights.end());
  // Of a camera, what reads the same in several situations is said once.
  struct Row {
    std::string camera;
    std::vector<std::string> situations;
    const std::map<double, std::string>* of = nullptr;
  };
  std::vector<Row> rows;
  std::set<std::string> situations;
  for (const auto& key : order) {
    situations.insert(key.first);
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const Row& row) {
      return row.camera == key.second && *row.of == cells[key];
    });
    if (same != rows.end()) same->situations.push_back(printable(key.first));
    else rows.push_back({key.second, {printable(key.first)}, &cells[key]});
  }
  Table table;
  table.align = "ll" + std::string(heights.size(), 'r');
  table.head = {"camera", "situation"};
  for (const double height : heights) table.head.push_back(fmt::format("at {:.2f} m", height));
  for (const Row& one : rows) {
    const bool all = situations.size() > 1 && one.situations.size() == situations.size();
    std::vector<std::string> row{printable(one.camera),
                                 all ? "all" : fmt::format("{}", fmt::join(one.situations, ", "))};
    for (const double height : heights) {
      const auto at = one.of->find(height);
      row.push_back(at == one.of->end() ? std::string() : at->second);
    }
    table.rows.push_back(std::move(row));
  }
  return table.text(2);
}

std::string blindDistances(const design::Design& design, const std::vector<std::string>& cameras,
                           const std::vector<double>& heights_m) {
  Table table;
  table.align = "lrr" + std::string(heights_m.size(), 'r');
  table.head = {"imager", "lens m", "tilt deg"};
  for (const double height : heights_m) table.head.push_back(fmt::format("at {:.2f} m", height));
  std::set<std::string> said;
  for (const design::PosedImager& view : design::posedImagers(design, design::JudgedOn::captured)) {
    const bool wanted =
        cameras.empty() || std::find(cameras.begin(), cameras.end(), view.housing.text) != cameras.end();
    if (!wanted || view.aim > 0 || !said.insert(view.imager).second) continue;
    const std::optional<double> height_m = heightAboveFloorM(design, view);
    if (!height_m) continue;
    const Vec3 axis = transposed(view.imager_from_site) * Vec3{0, 0, 1};
    optics::Lookout lookout;
    lookout.lens = view.lens;
    lookout.pixels = view.pixels;
    lookout.height_m = *height_m;
    lookout.tilt_deg = radToDeg(std::atan2(-axis.z, std::hypot(axis.x, axis.y)));
    std::vector<std::string> row{printable(view.imager), fmt::format("{:.2f}", lookout.height_m),
                                 fmt::format("{:.1f}", lookout.tilt_deg)};
    for (const double height : heights_m) {
      const auto seen = lookout.height_m > 0 ? optics::inFrame(lookout, height) : std::nullopt;
      row.push_back(seen ? fmt::format("{:.2f}", seen->from_m) : "never");
    }
    table.rows.push_back(std::move(row));
  }
  return table.rows.empty() ? std::string() : table.text(2);
}

Json blindJson(const std::vector<proof::BlindZone>& zones) {
  Json list = Json::array();
  for (const proof::BlindZone& zone : zones)
    list.push_back({{"housing", zone.housing.text},
                    {"slot", zone.slot},
                    {"situation", zone.situation.text},
                    {"target_height_m", number(zone.target_height_m)},
                    {"foot_is_seen", zone.foot_is_seen},
                    {"area_m2", number(zone.area_m2)},
                    {"outline", outlineJson(zone.outline)}});
  return list;
}

std::string ringSummary(const std::vector<proof::RingAt>& rings) {
  std::map<std::string, std::vector<proof::RingAt>> by_housing;
  std::vector<std::string> order;
  for (const proof::RingAt& ring : rings) {
    std::vector<proof::RingAt>& of = by_housing[ring.housing.text];
    if (of.empty()) order.push_back(ring.housing.text);
    of.push_back(ring);
  }
  const auto gapsText = [](const proof::RingAt& ring) {
    return ring.gaps_deg.empty() ? std::string("none") : arcsText(ring.gaps_deg);
  };
  std::string text;
  for (const std::string& housing : order) {
    std::vector<proof::RingAt>& of = by_housing[housing];
    std::ranges::stable_sort(of, {}, &proof::RingAt::depression_deg);
    const auto blind = std::ranges::find_if(of, [](const proof::RingAt& r) { return r.arcs.empty(); });
    std::string line;
    if (blind != of.begin()) {
      const proof::RingAt& first = of.front();
      const proof::RingAt& last = *std::prev(blind);
      line = fmt::format("{:g} deg down: {}", first.depression_deg, gapsText(first));
      if (&last != &first)
        line += fmt::format("; {:g} deg down: {}", last.depression_deg, gapsText(last));
    }
    if (blind != of.end())
      line += fmt::format("{}from {:g} deg down: all round", line.empty() ? "" : "; ", blind->depression_deg);
    text += wrapped(fmt::format("{}  {}", printable(housing), line), 2, 4);
  }
  return text;
}

std::string singlesText(const std::vector<proof::RingAt>& rings) {
  std::string text;
  for (const proof::RingAt& ring : rings) {
    std::string sees;
    for (const proof::RingArc& arc : ring.arcs)
      sees += fmt::format("{}{:.1f} to {:.1f}", sees.empty() ? "" : ", ", arc.from_deg, arc.to_deg);
    text += wrapped(fmt::format("{} looking {:.1f} deg down: sees {}", printable(ring.housing.text),
                                ring.depression_deg, sees.empty() ? "nothing" : sees), 2, 4);
  }
  return text;
}

std::string ringText(const std::vector<proof::RingAt>& rings) {
  std::string text;
  for (const proof::RingAt& ring : rings)
    text += wrapped(fmt::format("{} looking {:.1f} deg down: gaps {}; overlaps {}",
                                printable(ring.housing.text), ring.depression_deg,
                                arcsText(ring.gaps_deg), arcsText(ring.overlaps_deg)), 2, 4);
  return text;
}

Json ringJson(const std::vector<proof::RingAt>& rings) {
  Json list = Json::array();
  for (const proof::RingAt& ring : rings) {
    Json arcs = Json::array();
    for (const proof::RingArc& arc : ring.arcs)
      arcs.push_back({{"imager", arc.imager},
                      {"from_deg", number(arc.from_deg)},
                      {"to_deg", number(arc.to_deg)}});
    list.push_back({{"housing", ring.housing.text},
                    {"depression_deg", number(ring.depression_deg)},
                    {"arcs", std::move(arcs)},
                    {"gaps_deg", arcsJson(ring.gaps_deg)},
                    {"overlaps_deg", arcsJson(ring.overlaps_deg)}});
  }
  return list;
}

}  // namespace belvedere::cli
