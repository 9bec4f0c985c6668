// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/plan_objects.h"

#include <fmt/format.h>

#include <algorithm>

#include "design/resolve.h"
#include "design/words.h"
#include "edit/find.h"

namespace belvedere::edit {
namespace {

using design::Building;
using design::Design;
using design::StoreyId;

// An opening that reaches down so far is a door.
constexpr double kDoorSillM = 0.05;

std::vector<Vec2> onSite(const Building& building, const std::vector<Vec2>& points) {
  std::vector<Vec2> placed;
  placed.reserve(points.size());
  for (const Vec2 p : points) placed.push_back(siteFromBuilding(building, p));
  return placed;
}

Trace storeyTrace(const Building& building, const design::Storey& storey) {
  Trace trace;
  trace.rings.push_back(onSite(building, storey.outline));
  for (const auto& hole : storey.voids) trace.rings.push_back(onSite(building, hole));
  return trace;
}

Trace housingTrace(const Design& design, const design::Housing& housing, int slot) {
  const design::Mount& mount = housing.mount;
  const design::Model* of_mount = mount.model.empty() ? nullptr : findModel(design, mount.model);
  Trace trace;
  if (slot == 0) {
    trace.points.push_back(mount.fixing_m.xy());
    const Vec2 origin = lensPoint(mount, of_mount, design::ModelImager{}, {}).xy();
    if (norm(origin - trace.points.front()) > 1e-9) trace.points.push_back(origin);
    return trace;
  }
  const design::Model* model = findModel(design, housing.model);
  const design::ModelImager* imager = model ? findImager(*model, slot) : nullptr;
  for (const design::HousingImager& set : housing.imagers)
    if (set.slot == slot && imager && !set.aims.empty()) {
      const design::PanTilt aim =
          housingFromSite(mount, {set.aims.front().pan_deg, set.aims.front().tilt_deg});
      trace.points.push_back(lensPoint(mount, of_mount, *imager, aim).xy());
    }
  return trace;
}

// Goes through the design and hands out objects; `only` is the storey, empty for all.
struct Collector {
  const Design& design;
  const StoreyId& only;
  std::vector<PlanObject> objects;

  void add(ObjectKind kind, const std::string& id, int slot, const std::string& title,
           std::string words, const StoreyId& storey, Trace trace) {
    objects.push_back({{kind, id, slot},
                       title.empty() ? id : title,
                       std::move(words),
                       storey,
                       std::move(trace)});
  }
  // Of what may name a storey: by name, else by its height.
  bool here(const StoreyId& named, double z_m) const {
    return only.empty() || (named.empty() ? onStoreyByHeight(design, z_m, only) : named == only);
  }

  void wall(const Building& building, const StoreyId& storey, const design::Wall& wall) {
    Trace trace;
    trace.half_width_m = 0.5 * wall.thickness_m;
    trace.lines.push_back(onSite(building, wall.path));
    const std::vector<Vec2> path = trace.lines.front();
    add(ObjectKind::wall, wall.id.text, 0, wall.title, "wall", storey, std::move(trace));
    for (const design::Opening& o : wall.openings) {
      Trace part;
      part.half_width_m = 0.5 * wall.thickness_m;
      part.lines.push_back(partOf(path, o.from_m, o.from_m + o.width_m));
      add(ObjectKind::opening, o.id.text, 0, o.title, o.sill_m < kDoorSillM ? "door" : "window",
          storey, std::move(part));
    }
  }

  void buildings() {
    for (const Building& building : design.site.buildings) {
      const bool any = only.empty() || withId(building.storeys, only.text);
      if (!any) continue;
      Trace whole;
      for (const design::Storey& storey : building.storeys)
        whole.rings.push_back(onSite(building, storey.outline));
      add(ObjectKind::building, building.id.text, 0, building.title, "building", {},
          std::move(whole));
      for (const design::Storey& storey : building.storeys) {
        if (!only.empty() && storey.id != only) continue;
        add(ObjectKind::storey, storey.id.text, 0, storey.title, "storey", storey.id,
            storeyTrace(building, storey));
        for (const design::Wall& w : storey.walls) wall(building, storey.id, w);
      }
    }
  }

  bool solidHere(const design::Solid& solid) const {
    if (only.empty() || !solid.storey.empty()) return only.empty() || solid.storey == only;
    const design::Storey* storey = findStorey(design, only);
    if (!storey) return true;
    if (solid.outline.empty()) return here({}, solid.place_m ? solid.place_m->z : 0);
    return solid.base_m < storey->floor_m + storey->height_m && solid.top_m > storey->floor_m;
  }

  void site() {
    for (const design::Solid& solid : design.site.solids) {
      if (!solidHere(solid)) continue;
      Trace trace;
      if (!solid.outline.empty()) trace.rings.push_back(solid.outline);
      else trace.points.push_back(solid.place_m ? solid.place_m->xy() : Vec2{});
      const bool plain = solid.kind == design::SolidKind::other;
      add(ObjectKind::solid, solid.id.text, 0, solid.title,
          plain ? "solid" : std::string(design::word(solid.kind)), solid.storey, std::move(trace));
    }
    for (const design::Light& light : design.site.lights) {
      if (!only.empty() && !(light.at_m && here({}, light.at_m->z))) continue;
      Trace trace;
      if (light.at_m) trace.points.push_back(light.at_m->xy());
      add(ObjectKind::light, light.id.text, 0, light.title, light.kind + " light", {},
          std::move(trace));
    }
    for (const design::Zone& zone : design.site.zones) {
      if (!only.empty() && zone.storey != only) continue;
      Trace trace;
      trace.rings.push_back(zone.outline);
      trace.rings.insert(trace.rings.end(), zone.holes.begin(), zone.holes.end());
      add(ObjectKind::zone, zone.id.text, 0, zone.title, "zone", zone.storey, std::move(trace));
    }
    for (const design::Mounting& line : design.site.mounting) {
      if (!here(line.storey, line.heights_m[0])) continue;
      Trace trace;
      if (line.path.size() > 1) trace.lines.push_back(line.path);
      else trace.points = line.path;
      add(ObjectKind::mounting, line.id.text, 0, line.title, "mounting on " + line.on, line.storey,
          std::move(trace));
    }
    for (const design::Containment& tray : design.site.containment) {
      if (!here(tray.storey, tray.path.empty() ? 0 : tray.path.front().z)) continue;
      std::vector<Vec2> path;
      for (const Vec3& p : tray.path) path.push_back(p.xy());
      Trace trace;
      trace.lines.push_back(std::move(path));
      add(ObjectKind::containment, tray.id.text, 0, tray.title, "containment", tray.storey,
          std::move(trace));
    }
    for (const design::Underlay& underlay : design.site.underlays) {
      if (!only.empty() && !underlay.storey.empty() && underlay.storey != only) continue;
      Trace trace;
      for (const design::Pin& pin : underlay.pins) trace.points.push_back(pin.site_m);
      add(ObjectKind::underlay, underlay.id.text, 0, underlay.file.path, "drawing",
          underlay.storey, std::move(trace));
    }
  }

  void housings() {
    for (const design::Housing& housing : design.housings) {
      if (!here(housing.storey, housing.mount.fixing_m.z)) continue;
      const std::string& id = housing.id.text;
      add(ObjectKind::housing, id, 0, housing.title, "housing", housing.storey,
          housingTrace(design, housing, 0));
      for (const design::HousingImager& imager : housing.imagers)
        add(ObjectKind::housing, id, imager.slot, fmt::format("{}.{}", id, imager.slot), "imager",
            housing.storey, housingTrace(design, housing, imager.slot));
    }
    for (const design::Device& device : design.services.devices) {
      if (!only.empty() && !(device.at_m && here({}, device.at_m->z))) continue;
      Trace trace;
      if (device.at_m) trace.points.push_back(device.at_m->xy());
      const design::Model* model = findModel(design, device.model);
      add(ObjectKind::device, device.id.text, 0, device.title,
          model ? std::string(design::word(model->kind)) : "device", {}, std::move(trace));
    }
    for (const design::Link& link : design.services.links) {
      Trace trace;
      const design::Storey* storey = findStorey(design, only);
      bool goes_on = false;
      for (const Vec3& p : wayOf(design, link)) {
        const bool shown = only.empty() || (storey && showsCableAt(*storey, p.z));
        if (shown && !goes_on) trace.lines.emplace_back();
        if (shown) trace.lines.back().push_back(p.xy());
        goes_on = shown;
      }
      if (!only.empty() && trace.lines.empty()) continue;
      add(ObjectKind::link, link.id.text, 0, {}, "cable", {}, std::move(trace));
    }
  }
};

}  // namespace

bool showsCableAt(const design::Storey& storey, double z_m) {
  constexpr double kBeyondM = 0.5;
  return z_m >= storey.floor_m - kBeyondM && z_m <= storey.floor_m + storey.height_m + kBeyondM;
}

std::vector<Vec3> wayOf(const Design& design, const design::Link& link) {
  std::vector<Vec3> way = link.path;
  if (way.empty()) return way;
  if (const auto from = placeOf(design, link.from)) way.insert(way.begin(), *from);
  if (const auto to = placeOf(design, link.to)) way.push_back(*to);
  return way;
}

std::vector<PlanObject> planObjects(const Design& design, const StoreyId& storey) {
  Collector collector{design, storey, {}};
  collector.buildings();
  collector.site();
  collector.housings();
  return std::move(collector.objects);
}

}  // namespace belvedere::edit
