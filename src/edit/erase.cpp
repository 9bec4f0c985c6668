// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/erase.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "edit/find.h"

namespace belvedere::edit {
namespace {

using design::Design;

// "R1 \"why\"", or the id alone.
std::string named(const std::string& id, const std::string& title) {
  return title.empty() ? id : fmt::format("{} \"{}\"", id, title);
}

// A text in quotes as JSON writes it.
std::string quoted(const std::string& text) {
  std::string json = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') json += '\\';
    json += c;
  }
  return json + "\"";
}

struct Eraser {
  Design design;
  std::set<std::string> gone;                           // ids, and imagers such as C1.2
  std::set<std::string> asked;                          // of these, what the hand picked
  std::set<std::pair<std::string, std::string>> lists;  // owner and list that lost an item
  std::vector<std::string> also;
  std::string stays;                                    // a housing, though its last imager goes

  bool went(const std::string& id) const { return !id.empty() && gone.contains(id); }

  // Adds an id to what goes, and why.
  bool take(const std::string& id, const std::string& what, const std::string& why) {
    if (!gone.insert(id).second) return false;
    if (!asked.contains(id)) also.push_back(fmt::format("{} went with {}", what, why));
    return true;
  }
  void unlink(const std::string& what, const std::string& of) {
    also.push_back(fmt::format("{}: {} is no longer named", what, of));
  }

  // ---- what goes along --------------------------------------------------------------------------

  bool alongWithBuildings() {
    bool more = false;
    for (const design::Building& building : design.site.buildings)
      for (const design::Storey& storey : building.storeys) {
        const bool all = went(building.id.text);
        if (all)
          more |= take(storey.id.text, "the storey " + named(storey.id.text, storey.title),
                       building.id.text);
        for (const design::Wall& wall : storey.walls) {
          if (went(storey.id.text)) {
            if (gone.insert(wall.id.text).second) more = true;  // parts of it: not worth a word
          }
          if (went(wall.id.text))
            for (const design::Opening& o : wall.openings) {
              if (went(storey.id.text)) more |= gone.insert(o.id.text).second;
              else
                more |= take(o.id.text, "the opening " + named(o.id.text, o.title), wall.id.text);
            }
        }
      }
    return more;
  }

  template <class T>
  bool alongWithStorey(const std::vector<T>& list, const std::string& kind) {
    bool more = false;
    for (const T& item : list)
      if (went(item.storey.text)) {
        std::string title;
        if constexpr (requires { item.title; }) title = item.title;
        more |= take(item.id.text, fmt::format("the {} {}", kind, named(item.id.text, title)),
                     item.storey.text);
      }
    return more;
  }

  // Imagers that go leave a housing without any: it goes.
  bool alongWithImagers() {
    bool more = false;
    for (const design::Housing& housing : design.housings) {
      const auto name = [&](const design::HousingImager& imager) {
        return fmt::format("{}.{}", housing.id.text, imager.slot);
      };
      const bool all = went(housing.id.text);
      if (!all && housing.id.text != stays && !housing.imagers.empty() &&
          std::ranges::all_of(housing.imagers, [&](const auto& i) { return went(name(i)); }))
        more |= take(housing.id.text, "the housing " + named(housing.id.text, housing.title),
                     "its last imager");
      if (all)
        for (const design::HousingImager& imager : housing.imagers)
          more |= gone.insert(name(imager)).second;
      for (const design::Stream& stream : housing.streams) {
        const bool empty = std::ranges::all_of(stream.from, [&](int slot) {
          return went(fmt::format("{}.{}", housing.id.text, slot));
        });
        if (all) more |= gone.insert(stream.id.text).second;
        else if (empty) more |= take(stream.id.text, "the stream " + stream.id.text, "its imagers");
      }
    }
    return more;
  }

  bool alongWithServices() {
    bool more = false;
    const design::Services& services = design.services;
    for (const design::Link& link : services.links)
      for (const auto& end : {link.from.text, link.to.text})
        if (went(end)) more |= take(link.id.text, "the link " + link.id.text, end);
    for (const design::Recording& r : services.recording)
      for (const auto& part : {r.stream.text, r.device.text})
        if (went(part)) more |= take(r.id.text, "the recording " + r.id.text, part);
    for (const design::Screen& screen : services.screens)
      if (went(screen.stream.text))
        more |= take(screen.id.text, "the screen " + screen.id.text, screen.stream.text);
    return more;
  }

  bool alongWithBrief() {
    bool more = false;
    for (const design::Zone& zone : design.site.zones)
      if (went(zone.surface.text))
        more |= take(zone.id.text, "the zone " + named(zone.id.text, zone.title),
                     zone.surface.text);
    for (const design::Requirement& r : design.brief)
      if (went(r.zone.text) && r.line.empty())
        more |= take(r.id.text, "the requirement " + named(r.id.text, r.purpose), r.zone.text);
    for (const design::Test& test : design.tests)
      for (const auto& part : {test.requirement.text, test.imager})
        if (went(part)) more |= take(test.id.text, "the test " + test.id.text, part);
    for (const design::Tolerance& tolerance : design.tolerances)
      if (went(tolerance.of.text))
        more |= take(tolerance.id.text, "the tolerance " + tolerance.id.text, tolerance.of.text);
    for (const design::Accepted& accepted : design.accepted)
      if (went(accepted.of.text))
        more |= take(accepted.id.text, "the accepted finding " + accepted.id.text,
                     accepted.of.text);
    return more;
  }

  void spread() {
    bool more = true;
    while (more) {
      more = alongWithBuildings();
      more |= alongWithStorey(design.site.solids, "solid");
      more |= alongWithStorey(design.site.zones, "zone");
      more |= alongWithStorey(design.site.mounting, "mounting line");
      more |= alongWithStorey(design.site.containment, "containment");
      more |= alongWithStorey(design.site.underlays, "drawing");
      more |= alongWithStorey(design.housings, "housing");
      more |= alongWithImagers();
      more |= alongWithServices();
      more |= alongWithBrief();
    }
  }

  // ---- removing and unlinking -------------------------------------------------------------------

  template <class T>
  void remove(std::vector<T>& list, const std::string& owner = {}, const std::string& key = {}) {
    const std::size_t removed =
        std::erase_if(list, [&](const T& item) { return went(item.id.text); });
    if (removed > 0 && !owner.empty()) lists.emplace(owner, key);
  }
  // Of a list of ids.
  template <class Id>
  void removeNames(std::vector<Id>& list, const std::string& where) {
    std::erase_if(list, [&](const Id& id) {
      if (!went(id.text)) return false;
      unlink(where, id.text);
      return true;
    });
  }
  template <class Id>
  void clearName(Id& id, const std::string& where) {
    if (!went(id.text)) return;
    unlink(where, id.text);
    id.text.clear();
  }

  void site() {
    design::Site& site = design.site;
    remove(site.buildings);
    for (design::Building& building : site.buildings) {
      remove(building.storeys, building.id.text, "storeys");
      for (design::Storey& storey : building.storeys) {
        remove(storey.walls, storey.id.text, "walls");
        for (design::Wall& wall : storey.walls) remove(wall.openings, wall.id.text, "openings");
      }
    }
    remove(site.solids), remove(site.lights), remove(site.zones), remove(site.mounting);
    remove(site.containment), remove(site.underlays);
    for (design::Situation& situation : design.situations) {
      const std::string where = "the situation " + situation.id.text;
      removeNames(situation.lights, where);
      removeNames(situation.present, where);
      removeNames(situation.absent, where);
    }
  }

  void housings() {
    remove(design.housings);
    for (design::Housing& housing : design.housings) {
      const std::string& id = housing.id.text;
      clearName(housing.mount.on, "the mount of " + id);
      const auto slotWent = [&](int slot) { return went(fmt::format("{}.{}", id, slot)); };
      const std::size_t before = housing.imagers.size();
      std::erase_if(housing.imagers,
                    [&](const design::HousingImager& imager) { return slotWent(imager.slot); });
      if (housing.imagers.size() < before) lists.emplace(id, "imagers");
      remove(housing.streams, id, "streams");
      for (design::Stream& stream : housing.streams)
        if (std::erase_if(stream.from, slotWent) > 0)
          also.push_back(fmt::format("the stream {} comes from fewer imagers", stream.id.text));
      for (design::HousingLamp& lamp : housing.lamps)
        if (lamp.follows && slotWent(*lamp.follows)) {
          unlink(fmt::format("lamp {} of {}", lamp.slot, id),
                 fmt::format("{}.{}", id, *lamp.follows));
          lamp.follows.reset();
        }
    }
    design::Services& services = design.services;
    remove(services.devices), remove(services.links), remove(services.recording);
    remove(services.screens);
    for (design::Screen& screen : services.screens)
      clearName(screen.device, "the screen " + screen.id.text);
    for (design::Link& link : services.links) removeNames(link.route, "the link " + link.id.text);
  }

  void rest() {
    remove(design.brief), remove(design.tests), remove(design.tolerances), remove(design.accepted);
    for (design::Requirement& r : design.brief) {
      clearName(r.zone, "the rule " + named(r.id.text, r.purpose));
      std::erase_if(r.after_loss, [&](const design::AfterLoss& loss) {
        if (!went(loss.of.text)) return false;
        also.push_back(fmt::format("what {} asks after the loss of {} went", r.id.text,
                                   loss.of.text));
        lists.emplace(r.id.text, "after_loss");
        return true;
      });
    }
    for (design::Evidence& evidence : design.evidence) {
      clearName(evidence.of, "the evidence " + evidence.id.text);
      std::erase_if(evidence.readings, [&](const design::Reading& reading) {
        if (!went(reading.test.text)) return false;
        also.push_back(fmt::format("a reading of the evidence {} went with the test {}",
                                   evidence.id.text, reading.test.text));
        lists.emplace(evidence.id.text, "readings");
        return true;
      });
    }
    for (design::Alternative& alternative : design.alternatives)
      std::erase_if(alternative.edits, [&](const design::Edit& edit) {
        if (!speaksOfGone(edit)) return false;
        also.push_back(fmt::format("a change of the alternative {} to {} of {} went",
                                   named(alternative.id.text, alternative.name), edit.key,
                                   edit.id.text));
        return true;
      });
  }

  // Changes something gone, names it in its value, or reaches by position into a list that lost an
  // item.
  bool speaksOfGone(const design::Edit& edit) const {
    if (went(edit.id.text)) return true;
    const auto whole = lists.lower_bound({edit.id.text, ""});
    for (auto it = whole; it != lists.end() && it->first == edit.id.text; ++it)
      if (edit.key == it->second || edit.key.starts_with(it->second + "/")) return true;
    for (const std::string& id : gone) {
      const std::string text = quoted(id);
      for (std::size_t at = edit.value.find(text); at != std::string::npos;
           at = edit.value.find(text, at + 1)) {
        const std::size_t behind = edit.value.find_first_not_of(" \t\n", at + text.size());
        if (behind == std::string::npos || edit.value[behind] != ':') return true;  // no key
      }
    }
    return false;
  }
};

Erased without(const Design& design, std::set<std::string> ids, const std::string& stays = {}) {
  if (ids.empty()) return {design, {}};
  Eraser eraser{design, ids, std::move(ids), {}, {}, stays};
  eraser.spread();
  eraser.site();
  eraser.housings();
  eraser.rest();
  return {std::move(eraser.design), std::move(eraser.also)};
}

}  // namespace

Erased erased(const Design& design, const Selection& selection) {
  std::set<std::string> ids;
  for (const ObjectRef& ref : selection)
    ids.insert(ref.slot == 0 ? ref.id : fmt::format("{}.{}", ref.id, ref.slot));
  return without(design, std::move(ids));
}

Erased erasedSlots(const Design& design, const design::HousingId& housing,
                   const std::set<int>& slots) {
  std::set<std::string> ids;
  for (const int slot : slots) ids.insert(fmt::format("{}.{}", housing.text, slot));
  return without(design, std::move(ids), housing.text);
}

Erased erasedRequirement(const Design& design, const design::RequirementId& id) {
  return without(design, {id.text});
}

}  // namespace belvedere::edit
