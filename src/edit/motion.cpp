// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/motion.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "base/problem.h"
#include "base/units.h"
#include "design/resolve.h"
#include "edit/measure.h"
#include "edit/trace.h"

namespace belvedere::edit {
namespace {

using design::Design;

double tidy(double value) {
  const double rounded = std::round(value * 1e9) / 1e9;
  return std::isfinite(rounded) ? rounded : value;
}
Vec2 tidy(Vec2 p) { return {tidy(p.x), tidy(p.y)}; }

struct Mover {
  Design& design;
  const Motions& motions;
  std::set<std::string> touched;

  const Motion* of(const std::string& id) {
    const auto found = motions.find(id);
    if (found == motions.end()) return nullptr;
    touched.insert(id);
    return found->second;
  }

  static void point(const Motion& m, Vec2& p) { p = tidy(m.point(p)); }
  static void point(const Motion& m, Vec3& p) { p = withZ(tidy(m.point(p.xy())), p.z); }
  template <class P>
  static void points(const Motion& m, std::vector<P>& list) {
    for (P& p : list) point(m, p);
  }
  static void rings(const Motion& m, std::vector<std::vector<Vec2>>& list) {
    for (auto& ring : list) points(m, ring);
  }
  static void bearing(const Motion& m, double& deg) {
    if (m.turns()) deg = tidy(m.bearing(deg));
  }

  // A motion of the site in a building's coordinates.
  static Motion within(const design::Building& building, const Motion& m) {
    Motion in = m;
    const auto vector = [&](Vec2 v) {
      return buildingFromSite(building, building.origin_m + v);
    };
    if (!m.turns()) return Motion::shift(vector(m.by));
    in.about = buildingFromSite(building, m.about);
    in.by = vector(m.by);
    if (m.mirror) {
      const Vec2 along = placeAt({}, m.axis_deg, 1);
      return Motion::reflection(in.about, in.about + vector(along));
    }
    return in;
  }

  void whole(design::Building& building, const Motion& m) {
    building.origin_m = tidy(m.point(building.origin_m));
    bearing(m, building.turn_deg);
    if (!m.mirror) return;
    // Turned as its mirror image is, its own x runs the other way.
    const auto flip = [](std::vector<Vec2>& ring) {
      for (Vec2& p : ring) p.x = p.x == 0 ? 0 : -p.x;
    };
    for (design::Storey& storey : building.storeys) {
      touched.insert(storey.id.text);
      flip(storey.outline);
      for (auto& hole : storey.voids) flip(hole);
      for (design::Wall& wall : storey.walls) flip(wall.path);
    }
  }

  void slide(const design::Building& building, const design::Wall& wall, design::Opening& opening,
             const Motion& m, const std::string& where) {
    std::vector<Vec2> path;
    for (const Vec2 p : wall.path) path.push_back(siteFromBuilding(building, p));
    const OnLine middle = onLine(path, opening.from_m + 0.5 * opening.width_m);
    const double by_m = dot(m.point(middle.at) - middle.at, middle.along);
    opening.from_m = tidy(opening.from_m + by_m);
    if (opening.from_m < 0)
      throw InputError({{"opening_outside_wall", where,
                         fmt::format("the opening would begin {:.3f} m before its wall",
                                     -opening.from_m),
                         "move it the other way, or make the wall longer"}});
  }

  void buildings() {
    for (std::size_t b = 0; b < design.site.buildings.size(); ++b) {
      design::Building& building = design.site.buildings[b];
      if (const Motion* m = of(building.id.text)) {
        for (const design::Storey& storey : building.storeys) touched.insert(storey.id.text);
        whole(building, *m);
        continue;
      }
      for (std::size_t s = 0; s < building.storeys.size(); ++s) {
        design::Storey& storey = building.storeys[s];
        const Motion* on_site = of(storey.id.text);
        if (on_site) {
          const Motion m = within(building, *on_site);
          points(m, storey.outline);
          rings(m, storey.voids);
          for (design::Wall& wall : storey.walls) points(m, wall.path);
          continue;
        }
        for (std::size_t w = 0; w < storey.walls.size(); ++w) {
          design::Wall& wall = storey.walls[w];
          if (const Motion* m = of(wall.id.text)) {
            points(within(building, *m), wall.path);
            continue;
          }
          for (std::size_t o = 0; o < wall.openings.size(); ++o)
            if (const Motion* m = of(wall.openings[o].id.text))
              slide(building, wall, wall.openings[o], *m,
                    fmt::format("/site/buildings/{}/storeys/{}/walls/{}/openings/{}", b, s, w, o));
        }
      }
    }
  }

  void site() {
    for (design::Solid& solid : design.site.solids)
      if (const Motion* m = of(solid.id.text)) {
        points(*m, solid.outline);
        if (solid.place_m) point(*m, *solid.place_m);
        if (solid.file) bearing(*m, solid.turn_deg);
        if (solid.slope) bearing(*m, solid.slope->toward_deg);
      }
    for (design::Light& light : design.site.lights)
      if (const Motion* m = of(light.id.text); m && light.at_m) {
        point(*m, *light.at_m);
        bearing(*m, light.pan_deg);
      }
    for (design::Zone& zone : design.site.zones)
      if (const Motion* m = of(zone.id.text)) {
        points(*m, zone.outline);
        rings(*m, zone.holes);
      }
    for (design::Mounting& line : design.site.mounting)
      if (const Motion* m = of(line.id.text)) points(*m, line.path);
    for (design::Containment& tray : design.site.containment)
      if (const Motion* m = of(tray.id.text)) points(*m, tray.path);
    for (design::Underlay& underlay : design.site.underlays)
      if (const Motion* m = of(underlay.id.text); m && !m->mirror)
        for (design::Pin& pin : underlay.pins) point(*m, pin.site_m);
    for (design::Device& device : design.services.devices)
      if (const Motion* m = of(device.id.text); m && device.at_m) point(*m, *device.at_m);
    for (design::Link& link : design.services.links)
      if (const Motion* m = of(link.id.text)) points(*m, link.path);
    for (design::Requirement& r : design.brief) {
      const auto found = motions.find(r.zone.text);
      if (r.zone.empty() || found == motions.end() || (r.facings.empty() && r.line.empty()))
        continue;
      touched.insert(r.id.text);
      points(*found->second, r.line);
      for (design::Facing& facing : r.facings) bearing(*found->second, facing.bearing_deg);
    }
  }

  void housings() {
    for (design::Housing& housing : design.housings) {
      const Motion* m = of(housing.id.text);
      if (!m) continue;
      point(*m, housing.mount.fixing_m);
      bearing(*m, housing.mount.base_bearing_deg);
      for (design::HousingImager& imager : housing.imagers) {
        for (design::Aim& aim : imager.aims) {
          bearing(*m, aim.pan_deg);
          if (m->mirror && aim.roll_deg != 0) aim.roll_deg = -aim.roll_deg;
        }
        if (!m->mirror) continue;
        for (auto& mask : imager.masks)
          for (Vec2& p : mask) p.x = tidy(1 - p.x);
      }
      for (design::Stream& stream : housing.streams)
        if (m->mirror && stream.region) {
          auto& [x0, y0, x1, y1] = *stream.region;
          x0 = tidy(1 - x0);
          x1 = tidy(1 - x1);
          std::swap(x0, x1);
        }
    }
  }
};

}  // namespace

Motion Motion::shift(Vec2 by) {
  Motion m;
  m.by = by;
  return m;
}

Motion Motion::turn(Vec2 about, double clockwise_deg, Vec2 by) {
  Motion m;
  m.about = about;
  m.by = by;
  m.turn_deg = clockwise_deg;
  const Mat3 axes = design::imagerFromSite(clockwise_deg, 0, 0);
  m.column_x = axes.row[0].xy();
  m.column_y = axes.row[2].xy();
  return m;
}

Motion Motion::reflection(Vec2 a, Vec2 b) {
  Motion m;
  m.about = a;
  m.mirror = true;
  m.axis_deg = bearingDeg(a, b);
  const Vec2 u = (b - a) / norm(b - a);
  m.column_x = {u.x * u.x - u.y * u.y, 2 * u.x * u.y};
  m.column_y = {2 * u.x * u.y, u.y * u.y - u.x * u.x};
  return m;
}

Vec2 Motion::point(Vec2 p) const {
  if (!turns()) return p + by;
  const Vec2 d = p - about;
  return about + column_x * d.x + column_y * d.y + by;
}

double Motion::bearing(double deg) const {
  if (!turns()) return deg;
  return wrap360(mirror ? 2 * axis_deg - deg : deg + turn_deg);
}

std::set<std::string> applyMotions(Design& design, const Motions& motions) {
  Mover mover{design, motions, {}};
  mover.buildings();
  mover.site();
  mover.housings();
  return std::move(mover.touched);
}

}  // namespace belvedere::edit
