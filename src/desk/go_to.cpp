// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/go_to.h"

#include <algorithm>
#include <optional>
#include <unordered_set>

#include "desk/sheet_view.h"
#include "edit/plan_objects.h"

namespace belvedere::desk {
namespace {

// "C1.2" of a housing's imager, or the id.
std::string nameOf(const edit::ObjectRef& ref) {
  return ref.slot > 0 ? ref.id + "." + std::to_string(ref.slot) : ref.id;
}

std::optional<edit::ObjectRef> objectNamed(const std::vector<edit::ObjectLine>& objects,
                                           const std::string& id) {
  for (const edit::ObjectLine& object : objects)
    if (nameOf(object.ref) == id) return object.ref;
  return std::nullopt;
}

// What an id that stands for no place of its own leads to.
std::string leadsTo(const design::Design& design, const std::string& id) {
  for (const design::Housing& housing : design.housings)
    for (const design::Stream& stream : housing.streams)
      if (stream.id.text == id)
        return stream.from.size() == 1
                   ? housing.id.text + "." + std::to_string(stream.from.front())
                   : housing.id.text;
  for (const design::Link& link : design.services.links)
    if (link.id.text == id) {
      const bool from_housing = design::findHousing(design, {link.from.text}) != nullptr;
      return from_housing ? link.from.text : link.to.text;
    }
  return id;
}

}  // namespace

void goTo(Workspace& workspace, SheetView& sheet, const std::vector<std::string>& about) {
  for (const std::string& id : about)
    if (design::findRequirement(workspace.design(), {id})) {
      workspace.selectRequirement({id});
      break;
    }
  const std::vector<edit::ObjectLine> objects = edit::objectsOf(workspace.design(), {});
  for (const std::string& id : about) {
    const auto ref = objectNamed(objects, leadsTo(workspace.design(), id));
    if (!ref) continue;
    workspace.select({*ref});
    sheet.showObject(*ref);
    return;
  }
}

void showOnPlan(Workspace& workspace, SheetView& sheet, const std::vector<std::string>& ids) {
  const std::unordered_set<std::string> asked(ids.begin(), ids.end());
  const auto refsOn = [&](const design::StoreyId& storey) {
    edit::Selection refs;
    for (const edit::ObjectLine& object : edit::objectsOf(workspace.design(), storey))
      if (asked.contains(nameOf(object.ref))) refs.push_back(object.ref);
    return refs;
  };
  const edit::Selection all = refsOn({});
  workspace.select(all);
  if (all.empty() || !refsOn(workspace.storey()).empty()) return;
  // A cable whose way is found lies where its ends are.
  const design::Storey* shown = workspace.shownStorey();
  const auto endsHere = [&](const design::Link& link) {
    if (!shown || !asked.contains(link.id.text)) return false;
    const auto from = design::placeOf(workspace.design(), link.from);
    const auto to = design::placeOf(workspace.design(), link.to);
    return (from && edit::showsCableAt(*shown, from->z)) || (to && edit::showsCableAt(*shown, to->z));
  };
  const auto& links = workspace.design().services.links;
  if (std::any_of(links.begin(), links.end(), endsHere)) return;
  const std::string to = all.front().kind == edit::ObjectKind::link
                             ? leadsTo(workspace.design(), all.front().id)
                             : nameOf(all.front());
  if (const auto ref = objectNamed(edit::objectsOf(workspace.design(), {}), to)) sheet.showObject(*ref);
}

}  // namespace belvedere::desk
