// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/shapes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/check.h"
#include "base/problem.h"
#include "base/units.h"
#include "design/resolve.h"
#include "edit/find.h"
#include "edit/trace.h"
#include "edit/usable.h"

namespace belvedere::edit {
namespace {

using design::Design;
using design::StoreyId;

[[noreturn]] void fail(std::string code, std::string where, std::string what, std::string hint) {
  throw InputError({{std::move(code), std::move(where), std::move(what), std::move(hint)}});
}

WallPlace storeyPlace(const Design& design, const StoreyId& id) {
  const auto at = placeOfStorey(design, id.text);
  if (!at) fail("unknown_id", "", fmt::format("there is no storey \"{}\"", id.text), "");
  return *at;
}

Added checkedAdded(Design design, ObjectKind kind, const std::string& id) {
  requireUsable(design, {id});
  return {std::move(design), {kind, id, 0}};
}

// Puts an object last in a list of the site, under the first free id of a prefix.
template <class T>
Added addedTo(Design design, std::vector<T> design::Site::*list, T object, ObjectKind kind,
              std::string_view prefix) {
  const std::string id = newId(design, prefix);
  object.id.text = id;
  (design.site.*list).push_back(std::move(object));
  return checkedAdded(std::move(design), kind, id);
}

}  // namespace

Added withBuilding(const Design& design, const std::vector<Vec2>& outline, double floor_m,
                   double height_m) {
  Design with = design;
  design::Building building;
  building.id.text = newId(design, "B");
  design::Storey storey;
  storey.id.text = newId(design, "F");
  storey.floor_m = floor_m;
  storey.height_m = height_m;
  storey.outline = outline;
  const std::string id = storey.id.text;
  building.storeys.push_back(std::move(storey));
  with.site.buildings.push_back(std::move(building));
  return checkedAdded(std::move(with), ObjectKind::storey, id);
}

Added withStoreyAbove(const Design& design, const StoreyId& below) {
  const WallPlace at = storeyPlace(design, below);
  Design with = design;
  std::vector<design::Storey>& storeys = with.site.buildings[at.building].storeys;
  design::Storey& lower = storeys[at.storey];
  for (const design::Storey& other : storeys)
    if (other.floor_m > lower.floor_m)
      fail("storey_in_the_way",
           fmt::format("/site/buildings/{}/storeys/{}", at.building, at.storey),
           fmt::format("the storey \"{}\" is above \"{}\" already", other.id.text, below.text),
           "add one on top of the highest");
  design::Storey upper;
  upper.id.text = newId(design, "F");
  upper.outline = lower.outline;
  upper.height_m = lower.height_m;
  upper.floor_m = lower.floor_m + lower.height_m + upper.slab_m;
  std::swap(upper.roof_m, lower.roof_m);
  const std::string id = upper.id.text;
  storeys.insert(storeys.begin() + static_cast<std::ptrdiff_t>(at.storey) + 1, std::move(upper));
  return checkedAdded(std::move(with), ObjectKind::storey, id);
}

Added withWall(const Design& design, const StoreyId& storey, const std::vector<Vec2>& path,
               double thickness_m, std::optional<double> height_m) {
  const WallPlace at = storeyPlace(design, storey);
  Design with = design;
  design::Wall wall;
  wall.id.text = newId(design, "W");
  for (const Vec2 p : path)
    wall.path.push_back(buildingFromSite(design.site.buildings[at.building], p));
  wall.thickness_m = thickness_m;
  wall.height_m = height_m;
  const std::string id = wall.id.text;
  storeyAt(with, at).walls.push_back(std::move(wall));
  return checkedAdded(std::move(with), ObjectKind::wall, id);
}

Added withOpening(const Design& design, const design::WallId& wall, const NewOpening& opening) {
  const auto at = placeOfWall(design, wall.text);
  if (!at) fail("unknown_id", "", fmt::format("there is no wall \"{}\"", wall.text), "");
  Design with = design;
  const std::string id = newId(design, "O");
  wallAt(with, *at).openings.push_back({{id}, "", opening.from_m, opening.width_m, opening.sill_m,
                                        opening.head_m, opening.material});
  return checkedAdded(std::move(with), ObjectKind::opening, id);
}

Added withSolid(const Design& design, const StoreyId& storey, design::SolidKind kind,
                const std::vector<Vec2>& outline, double base_m, double top_m) {
  design::Solid solid;
  solid.storey = storey;
  solid.kind = kind;
  solid.outline = outline;
  solid.base_m = base_m;
  solid.top_m = top_m;
  return addedTo(design, &design::Site::solids, std::move(solid), ObjectKind::solid, "S");
}

Added withZone(const Design& design, const StoreyId& storey, const std::vector<Vec2>& outline,
               const std::string& title, const std::string& use) {
  design::Zone zone;
  zone.title = title;
  zone.storey = storey;
  zone.outline = outline;
  zone.use = use;
  return addedTo(design, &design::Site::zones, std::move(zone), ObjectKind::zone, "Z");
}

Added withMounting(const Design& design, const StoreyId& storey, const std::string& on,
                   const std::vector<Vec2>& path, const design::Range& heights_m) {
  design::Mounting line;
  line.on = on;
  line.storey = storey;
  line.path = path;
  line.heights_m = heights_m;
  return addedTo(design, &design::Site::mounting, std::move(line), ObjectKind::mounting, "M");
}

Added withContainment(const Design& design, const StoreyId& storey, const std::vector<Vec3>& path) {
  design::Containment tray;
  tray.storey = storey;
  tray.path = path;
  return addedTo(design, &design::Site::containment, std::move(tray), ObjectKind::containment, "K");
}

Design withWay(const Design& design, const design::AnyId& link, const std::vector<Vec3>& path) {
  Design with = design;
  design::Link* found = withId(with.services.links, link.text);
  if (!found) fail("unknown_id", "", fmt::format("there is no cable \"{}\"", link.text), "");
  found->path = path;
  requireUsable(with, {link.text});
  return with;
}

Added withUnderlay(const Design& design, const StoreyId& storey, const design::Attachment& file,
                   int page) {
  design::Underlay underlay;
  underlay.file = file;
  underlay.storey = storey;
  underlay.page = std::max(1, page);
  return addedTo(design, &design::Site::underlays, std::move(underlay), ObjectKind::underlay, "U");
}

Design withPins(const Design& design, const design::UnderlayId& underlay,
                const std::vector<design::Pin>& pins) {
  Design with = design;
  design::Underlay* found = withId(with.site.underlays, underlay.text);
  if (!found) fail("unknown_id", "", fmt::format("there is no drawing \"{}\"", underlay.text), "");
  const std::string where =
      fmt::format("/site/underlays/{}/pins", found - with.site.underlays.data());
  if (pins.size() == 1)
    fail("too_few_points", where, "one pin does not scale and turn a drawing",
         "give two or more, or none");
  for (std::size_t i = 1; i < pins.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      if (norm(pins[i].site_m - pins[k].site_m) < kOutlineTouchM ||
          pins[i].picture == pins[k].picture)
        fail("pins_same_place", fmt::format("{}/{}", where, i),
             fmt::format("the pins {} and {} are at the same place", k + 1, i + 1),
             "a drawing is scaled by two places that are apart on it and on the site");
  found->pins = pins;
  requireUsable(with, {underlay.text});
  return with;
}

std::vector<design::HousingImager> defaultImagers(const design::Model& model,
                                                  const design::Mount& mount) {
  // Those with the same range share it evenly.
  std::map<design::Range, std::size_t> sharing, given;
  for (const design::ModelImager& imager : model.imagers) ++sharing[imager.pan_deg];
  std::map<int, double> pans;  // in the housing's frame, by slot
  for (const design::ModelImager& imager : model.imagers) {
    const auto [least, most] = imager.pan_deg;
    const auto many = static_cast<double>(sharing[imager.pan_deg]);
    const auto nth = static_cast<double>(given[imager.pan_deg]++);
    pans[imager.slot] = most - least >= 360 ? nth * 360 / many
                                            : least + (nth + 0.5) * (most - least) / many;
  }
  // Where the model keeps imagers of several ranges apart, the later one gives way, degree by
  // degree.
  const auto tooNear = [&](const design::ModelImager& imager, double pan_deg) {
    for (const design::Shared& rule : model.shared) {
      const auto shares = [&](int slot) {
        return rule.slots.empty() || std::ranges::find(rule.slots, slot) != rule.slots.end();
      };
      if (rule.rule != "apart_deg" || !rule.value || !shares(imager.slot)) continue;
      for (const design::ModelImager& other : model.imagers) {
        if (other.slot == imager.slot) break;
        if (shares(other.slot) &&
            std::abs(wrap180(pan_deg - pans[other.slot])) < *rule.value - 1e-6)
          return true;
      }
    }
    return false;
  };
  for (const design::ModelImager& imager : model.imagers) {
    const auto [least, most] = imager.pan_deg;
    const double wished_deg = pans[imager.slot];
    for (int step = 0; step <= 720 && tooNear(imager, pans[imager.slot]); ++step) {
      const double pan_deg = wished_deg + (step % 2 ? 0.5 : -0.5) * (step + 1);
      if (most - least >= 360 || (pan_deg >= least && pan_deg <= most))
        pans[imager.slot] = pan_deg;
    }
  }
  const auto tidy = [](double deg) { return std::round(deg * 1e6) / 1e6; };
  std::vector<design::HousingImager> imagers;
  for (const design::ModelImager& imager : model.imagers) {
    const double tilt_deg = std::clamp(kDefaultTiltDeg, imager.tilt_deg[0], imager.tilt_deg[1]);
    const design::PanTilt aim = siteFromHousing(mount, {pans[imager.slot], tilt_deg});
    design::HousingImager set;
    set.slot = imager.slot;
    const double roll_deg = imager.roll_deg[0] > imager.roll_deg[1]
                                ? 0
                                : std::clamp(0.0, imager.roll_deg[0], imager.roll_deg[1]);
    set.aims.push_back({.pan_deg = wrap360(tidy(aim.pan_deg)),
                        .tilt_deg = tidy(aim.tilt_deg),
                        .roll_deg = roll_deg,
                        .hfov_deg = {},
                        .focal_mm = {},
                        .focus_m = {},
                        .time_share = 1});
    imagers.push_back(std::move(set));
  }
  return imagers;
}

Added withHousing(const Design& design, const NewHousing& housing) {
  const design::Model* model = findModel(design, housing.model);
  if (!model)
    fail("unknown_model", "", fmt::format("there is no model \"{}\"", housing.model.text),
         "choose one of the catalogue");
  Design with = design;
  design::Housing added;
  added.id.text = newId(design, "C");
  added.model = housing.model;
  added.storey = housing.storey;
  added.mount = housing.mount;
  added.imagers = defaultImagers(*model, housing.mount);
  for (const design::ModelLamp& lamp : model->lamps) added.lamps.push_back({lamp.slot, {}});
  const std::string id = added.id.text;
  with.housings.push_back(std::move(added));
  return checkedAdded(std::move(with), ObjectKind::housing, id);
}

AddedRequirement withRequirement(const Design& design, const design::ZoneId& zone,
                                 const std::string& task, design::TargetKind target) {
  Design with = design;
  design::Requirement requirement;
  requirement.id.text = newId(design, "R");
  requirement.zone = zone;
  requirement.task = task;
  requirement.target.kind = target;
  const design::RequirementId id = requirement.id;
  with.brief.push_back(std::move(requirement));
  requireUsable(with, {id.text});
  return {std::move(with), id};
}

}  // namespace belvedere::edit
