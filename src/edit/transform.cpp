// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/transform.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <unordered_map>

#include "base/problem.h"
#include "base/units.h"
#include "design/resolve.h"
#include "edit/find.h"
#include "edit/ids.h"
#include "edit/measure.h"
#include "edit/motion.h"
#include "edit/plan_objects.h"
#include "edit/usable.h"

namespace belvedere::edit {
namespace {

using design::Design;
using Ids = std::set<std::string>;

[[noreturn]] void fail(std::string code, std::string what, std::string hint) {
  throw InputError({{std::move(code), "", std::move(what), std::move(hint)}});
}

// The objects of a selection, and with buildings and storeys what stands on them.
Ids withContents(const Design& design, const Selection& selection) {
  Ids ids;
  Ids storeys;
  for (const ObjectRef& ref : selection) ids.insert(ref.id);
  for (const design::Building& building : design.site.buildings)
    for (const design::Storey& storey : building.storeys)
      if (ids.contains(building.id.text) || ids.contains(storey.id.text))
        storeys.insert(storey.id.text);
  if (storeys.empty()) return ids;
  std::vector<std::pair<design::StoreyId, Trace>> slabs;
  std::vector<PlanObject> objects = planObjects(design, {});
  for (PlanObject& object : objects)
    if (object.ref.kind == ObjectKind::storey && storeys.contains(object.ref.id))
      slabs.emplace_back(object.storey, std::move(object.trace));
  std::unordered_map<std::string, Ids> shown;  // by storey, for what names none
  for (const auto& [storey, slab] : slabs)
    for (const PlanObject& object : planObjects(design, storey))
      shown[storey.text].insert(object.ref.id);
  for (const PlanObject& object : objects) {
    const ObjectKind kind = object.ref.kind;
    if (kind == ObjectKind::building || kind == ObjectKind::storey || kind == ObjectKind::wall ||
        kind == ObjectKind::opening)
      continue;  // part of them
    if (storeys.contains(object.storey.text)) ids.insert(object.ref.id);
    const Box2 extent = extentOf(object.trace);
    if (!object.storey.empty() || extent.empty()) continue;
    const Vec2 middle = (extent.low + extent.high) / 2;
    for (const auto& [storey, slab] : slabs)
      if (shown[storey.text].contains(object.ref.id) && contains(slab.rings.front(), middle))
        ids.insert(object.ref.id);
  }
  return ids;
}

// And what is on them: zones on a solid's top, housings on what they are fixed to.
Ids withCarried(const Design& design, const Selection& selection) {
  Ids ids = withContents(design, selection);
  for (const design::Zone& zone : design.site.zones)
    if (ids.contains(zone.surface.text)) ids.insert(zone.id.text);
  for (const design::Housing& housing : design.housings)
    if (ids.contains(housing.mount.on.text)) ids.insert(housing.id.text);
  return ids;
}

Design changed(const Design& design, const Selection& selection, const Motion& motion) {
  for (const ObjectRef& ref : selection)
    if (motion.mirror && ref.kind == ObjectKind::underlay)
      fail("mirror_of_drawing", fmt::format("the drawing \"{}\" cannot be mirrored", ref.id),
           "a scan is laid by turning and scaling alone; leave it out of the selection");
  Motions motions;
  for (const std::string& id : withCarried(design, selection)) motions.emplace(id, &motion);
  Design after = design;
  Ids touched = applyMotions(after, motions);
  requireUsable(after, touched);
  return after;
}

// Copies objects under new ids, once for each motion.
struct Copier {
  Design& design;
  Ids originals;
  FreeIds free;
  std::unordered_map<std::string, std::string> new_id = {};  // of the copy in hand
  Ids all = {};

  bool wants(const std::string& id) const { return originals.contains(id); }

  template <class Id>
  void rename(Id& id) {
    const std::string given = free.nextLike(id.text);
    new_id.emplace(id.text, given);
    all.insert(given);
    id.text = given;
  }
  template <class Id>
  void follow(Id& id) const {
    if (const auto found = new_id.find(id.text); found != new_id.end()) id.text = found->second;
  }
  void renameWall(design::Wall& wall) {
    rename(wall.id);
    for (design::Opening& o : wall.openings) rename(o.id);
  }
  void renameStorey(design::Storey& storey) {
    rename(storey.id);
    for (design::Wall& wall : storey.walls) renameWall(wall);
  }

  template <class T, class F>
  void list(std::vector<T>& items, F each) {
    const std::size_t before = items.size();
    for (std::size_t i = 0; i < before && i < items.size(); ++i) {
      if (!wants(items[i].id.text)) continue;
      T copy = items[i];
      each(copy);
      items.push_back(std::move(copy));
    }
  }

  void parts(design::Building& building) {
    list(building.storeys, [&](design::Storey& s) { renameStorey(s); });
    for (design::Storey& storey : building.storeys) {
      if (wants(storey.id.text)) continue;  // its walls went with it
      list(storey.walls, [&](design::Wall& w) { renameWall(w); });
      for (design::Wall& wall : storey.walls)
        if (!wants(wall.id.text))
          list(wall.openings, [&](design::Opening& o) { rename(o.id); });
    }
  }

  void situations() {
    const auto extend = [&](auto& ids) {
      const auto before = ids;
      for (auto id : before)
        if (const auto found = new_id.find(id.text); found != new_id.end()) {
          id.text = found->second;
          ids.push_back(std::move(id));
        }
    };
    for (design::Situation& situation : design.situations) {
      extend(situation.present);
      extend(situation.absent);
      extend(situation.lights);
    }
  }

  // One copy of everything; new_id then tells what became of each.
  void copy() {
    new_id.clear();
    design::Site& site = design.site;
    for (design::Building& building : site.buildings)
      if (!wants(building.id.text)) parts(building);
    list(site.buildings, [&](design::Building& b) {
      rename(b.id);
      for (design::Storey& storey : b.storeys) renameStorey(storey);
    });
    list(site.solids, [&](design::Solid& s) { rename(s.id), follow(s.storey); });
    list(site.lights, [&](design::Light& l) { rename(l.id); });
    list(site.zones, [&](design::Zone& z) { rename(z.id), follow(z.storey), follow(z.surface); });
    list(site.mounting, [&](design::Mounting& m) { rename(m.id), follow(m.storey); });
    list(site.containment, [&](design::Containment& c) { rename(c.id), follow(c.storey); });
    list(site.underlays, [&](design::Underlay& u) { rename(u.id), follow(u.storey); });
    list(design.housings, [&](design::Housing& h) {
      rename(h.id);
      if (h.life == design::Life::existing) h.life = design::Life::new_;
      follow(h.storey);
      follow(h.mount.on);
      for (design::Stream& stream : h.streams) rename(stream.id);
    });
    list(design.services.devices, [&](design::Device& d) { rename(d.id); });
    situations();
  }
};

Copied copies(const Design& design, const Selection& selection,
              const std::vector<Motion>& motions) {
  Copied result{design, {}};
  Ids ids = withContents(design, selection);
  if (motions.size() * std::max<std::size_t>(1, ids.size()) > kMostCopies)
    fail("array_size",
         fmt::format("{} copies of {} objects are more than {} objects", motions.size(), ids.size(),
                     kMostCopies),
         "take fewer at a time");
  Copier copier{result.design, std::move(ids), FreeIds(design)};
  Motions by_id;
  for (const Motion& motion : motions) {
    copier.copy();
    for (const auto& [old, given] : copier.new_id) by_id.emplace(given, &motion);
    for (const ObjectRef& ref : selection) {
      const auto found = copier.new_id.find(ref.id);
      const ObjectRef copy{ref.kind, found == copier.new_id.end() ? "" : found->second, 0};
      if (!copy.id.empty() && std::ranges::find(result.copies, copy) == result.copies.end())
        result.copies.push_back(copy);
    }
  }
  applyMotions(result.design, by_id);
  requireUsable(result.design, copier.all);
  return result;
}

}  // namespace

Design moved(const Design& design, const Selection& selection, Vec2 by) {
  return changed(design, selection, Motion::shift(by));
}
Design turned(const Design& design, const Selection& selection, Vec2 about,
              double clockwise_deg) {
  return changed(design, selection, Motion::turn(about, clockwise_deg, {}));
}
Design mirrored(const Design& design, const Selection& selection, Vec2 a, Vec2 b) {
  if (norm(b - a) < kOutlineTouchM)
    fail("zero_length", "the line to mirror across has no length", "give two different points");
  return changed(design, selection, Motion::reflection(a, b));
}

Copied copied(const Design& design, const Selection& selection, Vec2 by) {
  return copies(design, selection, {Motion::shift(by)});
}

Copied arrayed(const Design& design, const Selection& selection, int columns, int rows,
               Vec2 column_step, Vec2 row_step) {
  if (columns < 1 || rows < 1)
    fail("array_size", fmt::format("an array has no {} columns and {} rows", columns, rows),
         "one or more of each");
  if (columns > kMostCopies || rows > kMostCopies || columns > kMostCopies / rows)
    fail("array_size", fmt::format("{} x {} are more than {} copies", columns, rows, kMostCopies),
         "take fewer at a time");
  std::vector<Motion> motions;
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column)
      if (row + column > 0) motions.push_back(Motion::shift(column_step * column + row_step * row));
  return copies(design, selection, motions);
}

Copied arrayedAlong(const Design& design, const Selection& selection,
                    const std::vector<Vec2>& path, double pitch_m, bool turning) {
  const double length_m = lengthOf(path);
  if (length_m < kOutlineTouchM) fail("zero_length", "the line has no length", "give two points");
  if (!(pitch_m > 0) || length_m / pitch_m > kMostCopies)
    fail("array_size", fmt::format("a pitch of {} m along {:.2f} m", pitch_m, length_m),
         "take a longer pitch");
  const OnLine first = onLine(path, 0);
  const Vec2 middle = middleOf(design, selection);
  std::vector<Motion> motions;
  for (int i = 1; i * pitch_m <= length_m + kOutlineTouchM; ++i) {
    const OnLine here = onLine(path, i * pitch_m);
    const Vec2 by = here.at - first.at;
    const double turn_deg = bearingDeg({}, here.along) - bearingDeg({}, first.along);
    motions.push_back(turning && turn_deg != 0 ? Motion::turn(middle, turn_deg, by)
                                               : Motion::shift(by));
  }
  return copies(design, selection, motions);
}

Vec2 middleOf(const Design& design, const Selection& selection) {
  Box2 box;
  for (const PlanObject& object : planObjects(design, {}))
    if (std::ranges::find(selection, object.ref) != selection.end()) {
      const Box2 extent = extentOf(object.trace);
      if (extent.empty()) continue;
      box.add(extent.low);
      box.add(extent.high);
    }
  return box.empty() ? Vec2{} : (box.low + box.high) / 2;
}

}  // namespace belvedere::edit
