// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/brief.h"

#include "edit/find.h"
#include "edit/shapes.h"
#include "edit/usable.h"

namespace belvedere::edit {

using design::Design;

Design withRequirementAs(const Design& design, const design::Requirement& requirement) {
  Design after = design;
  design::Requirement* found = withId(after.brief, requirement.id.text);
  if (!found) return after;
  *found = requirement;
  requireUsable(after, {requirement.id.text});
  return after;
}

AddedSituation withSituation(const Design& design, const std::string& title) {
  AddedSituation added{design, {}};
  added.design.situations = design::situationsOf(design);
  design::Situation situation;
  situation.id.text = newId(added.design, "S");
  situation.title = title;
  added.id = situation.id;
  added.design.situations.push_back(std::move(situation));
  return added;
}

Design withSituationTitle(const Design& design, const design::SituationId& id,
                          const std::string& title) {
  Design after = design;
  after.situations = design::situationsOf(design);
  design::Situation* found = withId(after.situations, id.text);
  if (!found) return design;
  found->title = title;
  return after;
}

}  // namespace belvedere::edit
