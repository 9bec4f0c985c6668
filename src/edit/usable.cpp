// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/usable.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "base/problem.h"
#include "design/read.h"
#include "design/write.h"
#include "edit/find.h"

namespace belvedere::edit {
namespace {

using design::Design;

// A design of the changed objects alone, and where they stand in the whole one.
struct Excerpt {
  const Design& whole;
  const std::set<std::string>& changed;
  Design part;
  std::vector<std::pair<std::string, std::string>> pointers;  // in the part, in the whole

  bool has(const std::string& id) const { return changed.contains(id); }

  void stands(std::string list, std::size_t in_part, std::size_t in_whole) {
    pointers.emplace_back(fmt::format("{}/{}", list, in_part),
                          fmt::format("{}/{}", list, in_whole));
  }

  bool zoneBears(const design::Zone& zone) const {
    return has(zone.id.text) || has(zone.storey.text) || has(zone.surface.text);
  }

  void buildings(const std::set<std::string>& storeys_of_zones) {
    for (std::size_t b = 0; b < whole.site.buildings.size(); ++b) {
      const design::Building& from = whole.site.buildings[b];
      design::Building building{from.id, from.title, from.origin_m, from.turn_deg, {}};
      for (std::size_t s = 0; s < from.storeys.size(); ++s) {
        const design::Storey& storey = from.storeys[s];
        design::Storey copy = storey;
        copy.walls.clear();
        const bool all = has(storey.id.text);
        if (!all && !storeys_of_zones.contains(storey.id.text)) copy.voids.clear();
        for (std::size_t w = 0; w < storey.walls.size(); ++w) {
          const design::Wall& wall = storey.walls[w];
          if (!all && !has(wall.id.text) &&
              std::ranges::none_of(wall.openings,
                                   [&](const design::Opening& o) { return has(o.id.text); }))
            continue;
          stands(fmt::format("/site/buildings/{}/storeys/{}/walls", b, s), copy.walls.size(), w);
          design::Wall& kept = copy.walls.emplace_back(wall);
          kept.material = {};
          for (design::Opening& o : kept.openings) o.material = {};
        }
        building.storeys.push_back(std::move(copy));
      }
      part.site.buildings.push_back(std::move(building));
    }
  }

  void solids(const std::set<std::string>& surfaces) {
    for (std::size_t i = 0; i < whole.site.solids.size(); ++i) {
      design::Solid solid = whole.site.solids[i];
      if (!has(solid.id.text) && !surfaces.contains(solid.id.text)) continue;
      solid.material = {};
      if (solid.file) {  // a stand-in of some shape: only its place is looked at
        solid.file.reset();
        solid.outline = {{0, 0}, {1, 0}, {0, 1}};
        solid.base_m = 0;
        solid.top_m = 1;
      }
      stands("/site/solids", part.site.solids.size(), i);
      part.site.solids.push_back(std::move(solid));
    }
  }

  void zone(std::size_t index) {
    design::Zone zone = whole.site.zones[index];
    if (const design::Solid* surface = findSolid(whole, zone.surface); surface && surface->file) {
      zone.surface = {};  // a mesh: what lies on it cannot be looked at
      zone.use = "outside";
    }
    stands("/site/zones", part.site.zones.size(), index);
    part.site.zones.push_back(std::move(zone));
  }

  void site() {
    std::set<std::string> storeys, surfaces, zones;
    for (const design::Requirement& r : whole.brief)
      if (has(r.id.text)) zones.insert(r.zone.text);
    for (std::size_t i = 0; i < whole.site.zones.size(); ++i) {
      const design::Zone& z = whole.site.zones[i];
      if (!zoneBears(z) && !zones.contains(z.id.text)) continue;
      storeys.insert(z.storey.text);
      surfaces.insert(z.surface.text);
      zone(i);
    }
    buildings(storeys);
    solids(surfaces);
    keep(whole.site.mounting, part.site.mounting, "/site/mounting");
    keep(whole.site.containment, part.site.containment, "/site/containment");
    ways();
    keep(whole.site.lights, part.site.lights, "/site/lights");
    for (design::Light& light : part.site.lights) {
      light.photometry.reset();
      light.kind = "ambient";
      if (!light.lux) light.lux = 1;
    }
  }

  // A cable's own way, as a containment of the same places.
  void ways() {
    for (std::size_t i = 0; i < whole.services.links.size(); ++i) {
      const design::Link& link = whole.services.links[i];
      if (!has(link.id.text) || link.path.empty()) continue;
      design::Containment way{{link.id.text}, "", {}, link.path};
      if (way.path.size() == 1) way.path.push_back({0, 0, 0});  // a line takes two
      stands("/site/containment", part.site.containment.size(), i);
      pointers.back().second = fmt::format("/services/links/{}", i);
      part.site.containment.push_back(std::move(way));
    }
  }

  template <class T>
  void keep(const std::vector<T>& from, std::vector<T>& to, const std::string& list) {
    for (std::size_t i = 0; i < from.size(); ++i)
      if (has(from[i].id.text)) {
        stands(list, to.size(), i);
        to.push_back(from[i]);
      }
  }

  void model(design::ModelId& id) {
    const design::Model* found = id.empty() ? nullptr : findModel(whole, id);
    if (!found) return;
    if (!withId(part.catalogue.models, id.text)) {
      const design::Model* own = whole.catalogue.models.data();
      for (std::size_t i = 0; i < whole.catalogue.models.size(); ++i)
        if (own + i == found) stands("/catalogue/models", part.catalogue.models.size(), i);
      part.catalogue.models.push_back(*found);
    }
  }

  void housings() {
    keep(whole.housings, part.housings, "/housings");
    for (design::Housing& housing : part.housings) {
      housing.mount.on = {};
      housing.card = {};  // no edit of a shape changes these
      model(housing.model);
      model(housing.mount.model);
    }
    keep(whole.services.devices, part.services.devices, "/services/devices");
    for (design::Device& device : part.services.devices) {
      device.disks.reset();
      model(device.model);
    }
    for (design::Model& m : part.catalogue.models) m.takes.clear();
    // A model of a library may share its id with an object of the design: not here, in one file.
    for (design::Model& m : part.catalogue.models) {
      const std::string old = m.id.text;
      if (!has(old) && !findStorey(part, {old}) && !withId(part.site.buildings, old)) continue;
      m.id.text += " ";
      for (design::Housing& housing : part.housings) {
        if (housing.model.text == old) housing.model = m.id;
        if (housing.mount.model.text == old) housing.mount.model = m.id;
      }
      for (design::Device& device : part.services.devices)
        if (device.model.text == old) device.model = m.id;
    }
  }

  void brief() {
    part.task_table = whole.task_table;
    keep(whole.brief, part.brief, "/brief");
    for (design::Requirement& r : part.brief) {
      r.situations.clear();
      r.after_loss.clear();
    }
  }

  std::string inWhole(const std::string& where) const {
    std::size_t longest = 0;
    std::string mapped = where;
    for (const auto& [in_part, in_whole] : pointers)
      if (in_part.size() > longest && where.starts_with(in_part) &&
          (where.size() == in_part.size() || where[in_part.size()] == '/')) {
        longest = in_part.size();
        mapped = in_whole + where.substr(in_part.size());
      }
    return mapped;
  }
};

}  // namespace

void requireUsable(const Design& design, const std::set<std::string>& changed) {
  Excerpt excerpt{design, changed, {}, {}};
  excerpt.site();
  excerpt.housings();
  excerpt.brief();
  try {
    design::readDesignText(design::writeDesign({std::move(excerpt.part), nullptr, {}, {}}), {});
  } catch (const InputError& error) {
    std::vector<Problem> problems = error.problems();
    for (Problem& problem : problems) problem.where = excerpt.inWhole(problem.where);
    throw InputError(std::move(problems));
  }
}

}  // namespace belvedere::edit
