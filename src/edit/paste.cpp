// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/paste.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/problem.h"
#include "edit/find.h"
#include "edit/ids.h"
#include "edit/trace.h"
#include "edit/usable.h"

namespace belvedere::edit {
namespace {

using design::Design;

[[noreturn]] void noPlace(const std::string& what, const std::string& hint) {
  throw InputError({{"no_place_to_paste", "", what, hint}});
}

struct Paster {
  Design result;
  const Design& from;
  const Design& source;  // `from` with the copies
  design::StoreyId storey;
  FreeIds free;
  std::map<std::string, std::string> given = {};
  std::set<std::string> all = {};

  template <class Item>
  bool isNew(const std::vector<Item>& before, const Item& item) const {
    return withId(before, item.id.text) == nullptr;
  }
  template <class Id>
  void rename(Id& id) {
    std::string& fresh = given[id.text];
    if (fresh.empty()) fresh = free.nextLike(id.text);
    all.insert(fresh);
    id.text = fresh;
  }
  // A name that went along, or stands in the design; else none.
  template <class Id>
  void follow(Id& id) const {
    if (const auto found = given.find(id.text); found != given.end())
      id.text = found->second;
    else if (!id.empty() && !known.contains(id.text))
      id.text.clear();
  }
  std::set<std::string> known = {};

  void needMaterial(const design::MaterialId& id) {
    if (id.empty() || withId(result.site.materials, id.text)) return;
    if (const auto* material = withId(from.site.materials, id.text)) {
      result.site.materials.push_back(*material);
      known.insert(id.text);
    }
  }
  void needModel(const design::ModelId& id) {
    if (id.empty() || design::findModel(result, id)) return;
    if (const design::Model* model = design::findModel(from, id)) {
      result.catalogue.models.push_back(*model);
      known.insert(id.text);
    }
  }
  // The storey that something goes to, and by how much its floor is higher than where it was.
  double settle(design::StoreyId& id) {
    const design::Storey* was = design::findStorey(source, id);
    if (const auto found = given.find(id.text); found != given.end()) {
      id.text = found->second;
      return 0;
    }
    if (!was) return 0;
    id = storey;
    const design::Storey* now = design::findStorey(result, storey);
    if (!now) noPlace("there is no storey to paste to", "draw a building first");
    return now->floor_m - was->floor_m;
  }

  void wall(design::Wall& wall) {
    rename(wall.id);
    needMaterial(wall.material);
    for (design::Opening& opening : wall.openings) {
      rename(opening.id);
      needMaterial(opening.material);
    }
  }

  void buildings() {
    for (const design::Building& building : source.site.buildings) {
      if (isNew(from.site.buildings, building)) {
        design::Building copy = building;
        rename(copy.id);
        for (design::Storey& one : copy.storeys) {
          rename(one.id);
          for (design::Wall& w : one.walls) wall(w);
        }
        result.site.buildings.push_back(std::move(copy));
        continue;
      }
      const design::Building& before = *withId(from.site.buildings, building.id.text);
      for (const design::Storey& one : building.storeys) {
        if (isNew(before.storeys, one)) {
          design::Building* home = withId(result.site.buildings, building.id.text);
          if (!home)
            noPlace(fmt::format("the building of storey \"{}\" is not here", one.id.text),
                    "copy the whole building");
          design::Storey copy = one;
          rename(copy.id);
          for (design::Wall& w : copy.walls) wall(w);
          home->storeys.push_back(std::move(copy));
          continue;
        }
        walls(building, *withId(before.storeys, one.id.text), one);
      }
    }
  }

  void walls(const design::Building& building, const design::Storey& before,
             const design::Storey& now) {
    for (const design::Wall& one : now.walls) {
      if (!isNew(before.walls, one)) {
        for (const design::Opening& opening : one.openings)
          if (isNew(withId(before.walls, one.id.text)->openings, opening)) {
            const auto place = placeOfWall(result, one.id.text);
            if (!place)
              noPlace(fmt::format("the wall of opening \"{}\" is not here", opening.id.text),
                      "copy the wall");
            design::Opening copy = opening;
            rename(copy.id);
            needMaterial(copy.material);
            wallAt(result, *place).openings.push_back(std::move(copy));
          }
        continue;
      }
      const auto place = placeOfStorey(result, storey.text);
      if (!place) noPlace("there is no storey to paste to", "draw a building first");
      design::Wall copy = one;
      wall(copy);
      const design::Building& home = result.site.buildings[place->building];
      if (home.origin_m != building.origin_m || home.turn_deg != building.turn_deg)
        for (Vec2& p : copy.path)
          p = buildingFromSite(home, design::siteFromBuilding(building, p));
      storeyAt(result, *place).walls.push_back(std::move(copy));
    }
  }

  template <class Item, class Each>
  void list(std::vector<Item>& to, const std::vector<Item>& before, const std::vector<Item>& now,
            Each each) {
    for (const Item& item : now) {
      if (!isNew(before, item)) continue;
      Item copy = item;
      rename(copy.id);
      each(copy);
      to.push_back(std::move(copy));
    }
  }

  void run() {
    for (const ObjectLine& line : objectsOf(result, {})) known.insert(line.ref.id);
    for (const auto& material : result.site.materials) known.insert(material.id.text);
    buildings();
    design::Site& site = result.site;
    list(site.solids, from.site.solids, source.site.solids, [&](design::Solid& s) {
      settle(s.storey);
      needMaterial(s.material);
    });
    list(site.lights, from.site.lights, source.site.lights, [](design::Light&) {});
    list(site.zones, from.site.zones, source.site.zones, [&](design::Zone& z) {
      settle(z.storey);
      follow(z.surface);
    });
    list(site.mounting, from.site.mounting, source.site.mounting,
         [&](design::Mounting& m) { settle(m.storey); });
    list(site.containment, from.site.containment, source.site.containment,
         [&](design::Containment& c) {
           const double up_m = settle(c.storey);
           for (Vec3& p : c.path) p.z += up_m;
         });
    list(site.underlays, from.site.underlays, source.site.underlays,
         [&](design::Underlay& u) { settle(u.storey); });
    list(result.housings, from.housings, source.housings, [&](design::Housing& h) {
      h.mount.fixing_m.z += settle(h.storey);
      follow(h.mount.on);
      needModel(h.model);
      needModel(h.mount.model);
      for (design::Stream& stream : h.streams) rename(stream.id);
    });
    list(result.services.devices, from.services.devices, source.services.devices,
         [&](design::Device& d) { needModel(d.model); });
  }
};

}  // namespace

Copied pasted(const Design& into, const design::StoreyId& storey, const Design& from,
              const Selection& selection, Vec2 by) {
  const Copied copies = copied(from, selection, by);
  Paster paster{into, from, copies.design, storey, FreeIds(into)};
  paster.run();
  Copied result{std::move(paster.result), {}};
  for (ObjectRef ref : copies.copies) {
    const auto found = paster.given.find(ref.id);
    if (found == paster.given.end()) continue;
    ref.id = found->second;
    result.copies.push_back(std::move(ref));
  }
  requireUsable(result.design, paster.all);
  return result;
}

}  // namespace belvedere::edit
