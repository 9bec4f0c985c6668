// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "design/check.h"
#include "geometry/polygon.h"

namespace belvedere::design {
namespace {

// A straight stretch of wall longer than this is drawn in another unit than metres.
constexpr double kLongestStretchM = 1000;
// How far a zone may reach over the edge of what carries it, and a hole over its outline: what
// rounding to centimetres can do.
constexpr double kOverEdgeM = 0.02;
// How far an opening may reach over its wall.
constexpr double kSlackM = 1e-6;

double lengthOf(const std::vector<Vec2>& path) {
  double length_m = 0;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) length_m += norm(path[i + 1] - path[i]);
  return length_m;
}

std::string metres(double m) { return printNumber(std::round(m * 1000) / 1000) + " m"; }

void topBelowBase(const std::string& where, double top_m, double base_m, ReadLog& log,
                  const std::vector<std::string>& also) {
  log.finding("top_below_base", where,
              fmt::format("the top, {}, is not above the base, {}", metres(top_m), metres(base_m)),
              "both are heights above the floor", also);
}

void checkOpenings(const Wall& wall, double top_m, const std::string& where, ReadLog& log) {
  const double length_m = lengthOf(wall.path);
  for (std::size_t i = 0; i < wall.openings.size(); ++i) {
    const Opening& o = wall.openings[i];
    const std::string at = fmt::format("{}/openings/{}", where, i);
    const std::vector<std::string> wall_is{where + "/path", where + "/height_m", where + "/base_m"};
    if (o.head_m <= o.sill_m) topBelowBase(at, o.head_m, o.sill_m, log, {});
    if (o.from_m + o.width_m > length_m + kSlackM)
      log.finding("opening_outside_wall", at,
                  fmt::format("the opening ends {} along a wall that is {} long",
                              metres(o.from_m + o.width_m), metres(length_m)),
                  "from_m and width_m run along the wall's path from its start", wall_is);
    if (o.head_m > top_m + kSlackM || o.sill_m < wall.base_m - kSlackM)
      log.finding(
          "opening_outside_wall", at,
          fmt::format("the opening reaches from {} to {}, the wall from {} to {}", metres(o.sill_m),
                      metres(o.head_m), metres(wall.base_m), metres(top_m)),
          "sill_m and head_m are heights above the floor", wall_is);
  }
  // Sorted along the wall: only neighbours within reach of one another are compared.
  std::vector<std::size_t> order(wall.openings.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return wall.openings[i].from_m; });
  for (std::size_t a = 0; a < order.size(); ++a) {
    const Opening& p = wall.openings[order[a]];
    for (std::size_t b = a + 1; b < order.size(); ++b) {
      const Opening& q = wall.openings[order[b]];
      if (q.from_m >= p.from_m + p.width_m - kSlackM) break;
      if (std::min(p.head_m, q.head_m) <= std::max(p.sill_m, q.sill_m) + kSlackM) continue;
      const auto [first, second] = std::minmax(order[a], order[b]);
      log.finding("openings_overlap", fmt::format("{}/openings/{}", where, second),
                  fmt::format("the openings \"{}\" and \"{}\" overlap",
                              shown(wall.openings[first].id.text),
                              shown(wall.openings[second].id.text)),
                  "", {fmt::format("{}/openings/{}", where, first)});
    }
  }
}

void checkWall(const Storey& storey, const Wall& wall, const std::string& where,
               const std::string& storey_at, ReadLog& log) {
  const double top_m = wall.height_m.value_or(storey.height_m);
  double longest_m = 0;
  for (std::size_t i = 0; i + 1 < wall.path.size(); ++i)
    longest_m = std::max(longest_m, norm(wall.path[i + 1] - wall.path[i]));
  if (longest_m > kLongestStretchM)
    log.finding("wrong_unit", where + "/path",
                fmt::format("a straight stretch of the wall is {} long, {} at most",
                            metres(longest_m), metres(kLongestStretchM)),
                fmt::format("coordinates are metres; if these are millimetres, it is {} long",
                            metres(longest_m / 1000)));
  if (top_m <= wall.base_m)
    return topBelowBase(where, top_m, wall.base_m, log,
                        {where + "/height_m", where + "/base_m", storey_at + "/height_m"});
  checkOpenings(wall, top_m, where, log);
}

// Holes lie within their outline. `outline_at` and `holes_at` are pointers.
void checkHoles(const Ring& outline, const std::vector<Ring>& holes, const std::string& outline_at,
                const std::string& holes_at, ReadLog& log) {
  if (holes.empty() || !log.usable(outline_at)) return;
  const Region whole{{outline, {}}};
  for (std::size_t i = 0; i < holes.size(); ++i) {
    const std::string at = fmt::format("{}/{}", holes_at, i);
    if (log.usable(at) && !covers(whole, {{holes[i], {}}}, kOverEdgeM))
      log.finding("hole_outside", at, "the hole does not lie within its outline");
  }
}

// The slab of a storey on the site; nothing when it could not be read.
std::optional<Region> slabOf(const Design& design, const StoreyId& id, const ReadLog& log) {
  for (std::size_t b = 0; b < design.site.buildings.size(); ++b) {
    const Building& building = design.site.buildings[b];
    for (std::size_t s = 0; s < building.storeys.size(); ++s) {
      const Storey& storey = building.storeys[s];
      if (storey.id != id || id.empty()) continue;
      const std::string at = fmt::format("/site/buildings/{}", b);
      const std::string storey_at = fmt::format("{}/storeys/{}", at, s);
      for (const std::string& part : {at + "/origin_m", at + "/turn_deg", storey_at + "/outline",
                                      storey_at + "/voids"})
        if (!log.usable(part)) return std::nullopt;
      const auto placed = [&](const Ring& ring) {
        Ring out;
        for (const Vec2 p : ring) out.push_back(siteFromBuilding(building, p));
        return out;
      };
      std::vector<Ring> voids;
      for (const Ring& hole : storey.voids) voids.push_back(placed(hole));
      const Region whole{{placed(storey.outline), {}}};
      return voids.empty() ? whole : differenceOf(whole, unionOf(voids));
    }
  }
  return std::nullopt;
}

void checkZone(const Design& design, const Zone& zone, const std::string& where, ReadLog& log) {
  checkHoles(zone.outline, zone.holes, where + "/outline", where + "/holes", log);
  const std::string at = where + "/outline";
  if (!log.usable(at) || !log.usable(where + "/holes")) return;
  Region region{{zone.outline, {}}};
  if (!zone.holes.empty()) region = differenceOf(region, unionOf(zone.holes));
  const auto outside = [&](const Region& carrier) -> std::optional<double> {
    if (covers(carrier, region, kOverEdgeM)) return std::nullopt;
    return area(differenceOf(region, carrier));
  };
  if (const Solid* surface = zone.surface.empty() ? nullptr : findSolid(design, zone.surface)) {
    const std::ptrdiff_t index = surface - design.site.solids.data();
    if (surface->outline.empty() || !log.usable(fmt::format("/site/solids/{}/outline", index)))
      return;
    if (const auto over_m2 = outside({{surface->outline, {}}}))
      log.finding("zone_outside_surface", at,
                  fmt::format("{} m2 of the zone lie beside the solid \"{}\" on which its targets "
                              "stand",
                              printNumber(std::round(*over_m2 * 1000) / 1000),
                              shown(zone.surface.text)));
    return;
  }
  if (zone.use == "window" || zone.use == "outside") return;
  const std::optional<Region> slab = slabOf(design, zone.storey, log);
  if (!slab) return;
  if (const auto over_m2 = outside(*slab))
    log.finding("zone_outside_slab", at,
                fmt::format("{} m2 of the zone lie outside the slab of the storey \"{}\"",
                            printNumber(std::round(*over_m2 * 1000) / 1000),
                            shown(zone.storey.text)),
                "zones are in site coordinates; a zone outdoors has the use \"outside\" or "
                "\"window\"");
}

void checkSolid(const Solid& solid, const std::string& where, ReadLog& log) {
  const bool outline = !solid.outline.empty();
  if (outline == solid.file.has_value() && log.usable(where + "/outline") &&
      log.usable(where + "/file"))
    return log.finding(
        "solid_shape", where,
        outline ? "the solid has an outline and a file" : "the solid has no outline and no file",
        "give exactly one of the two");
  if (!outline) {
    if (solid.slope)
      log.finding("solid_shape", where + "/slope", "a solid from a file has no slope of its own",
                  "leave the slope out, or give an outline");
    return;
  }
  const double high_m = solid.top_m + (solid.slope ? solid.slope->rise_m : 0);
  if (high_m <= solid.base_m || solid.top_m < solid.base_m)
    topBelowBase(where, solid.top_m, solid.base_m, log,
                 {where + "/top_m", where + "/base_m", where + "/slope"});
}

void checkLight(const Light& light, const std::string& where, ReadLog& log) {
  if (light.kind == "ambient" && !light.lux)
    log.finding("light_incomplete", where, "an ambient light states its lux", "add \"lux\"",
                {where + "/lux"});
  if (light.kind == "luminaire" && (!light.at_m || !light.photometry))
    log.finding("light_incomplete", where, "a luminaire has a place and a photometry file",
                "add \"at_m\" and \"photometry\"");
}

}  // namespace

void checkSite(const Design& design, ReadLog& log) {
  const Site& site = design.site;
  for (std::size_t b = 0; b < site.buildings.size(); ++b)
    for (std::size_t s = 0; s < site.buildings[b].storeys.size(); ++s) {
      const Storey& storey = site.buildings[b].storeys[s];
      const std::string at = fmt::format("/site/buildings/{}/storeys/{}", b, s);
      checkHoles(storey.outline, storey.voids, at + "/outline", at + "/voids", log);
      if (storey.surroundings && storey.surroundings->temperature_c)
        checkRange(*storey.surroundings->temperature_c, at + "/surroundings/temperature_c", log);
      for (std::size_t w = 0; w < storey.walls.size(); ++w)
        checkWall(storey, storey.walls[w], fmt::format("{}/walls/{}", at, w), at, log);
    }
  for (std::size_t i = 0; i < site.solids.size(); ++i)
    checkSolid(site.solids[i], fmt::format("/site/solids/{}", i), log);
  for (std::size_t i = 0; i < site.lights.size(); ++i)
    checkLight(site.lights[i], fmt::format("/site/lights/{}", i), log);
  for (std::size_t i = 0; i < site.zones.size(); ++i)
    checkZone(design, site.zones[i], fmt::format("/site/zones/{}", i), log);
  for (std::size_t i = 0; i < site.mounting.size(); ++i) {
    const Mounting& line = site.mounting[i];
    const std::string at = fmt::format("/site/mounting/{}", i);
    if (line.path.empty())
      log.finding("too_few_points", at + "/path", "the mounting line has no point");
    checkRange(line.heights_m, at + "/heights_m", log);
    for (std::size_t e = 0; e < line.excluded.size(); ++e)
      checkRange(line.excluded[e], fmt::format("{}/excluded/{}", at, e), log);
  }
  for (std::size_t i = 0; i < site.underlays.size(); ++i)
    if (site.underlays[i].pins.size() == 1)
      log.finding("too_few_points", fmt::format("/site/underlays/{}/pins", i),
                  "one pin does not scale and turn a drawing", "give two or more, or none");
}

}  // namespace belvedere::design
