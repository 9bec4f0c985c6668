// SPDX-License-Identifier: GPL-3.0-or-later
//
// Erasing, so that nothing dangles. Never throws: whatever hangs on what goes, goes too or is
// unlinked, and is said.
//
// What goes along: openings with their wall; with a storey all that names it; zones with the solid
// their targets stand on; requirements with their zone (a rule with a line of its own loses the
// zone only), tests with their requirement or imager, readings with their test; links and
// recordings with either end, screens with their stream; tolerances, accepted findings, parts of
// after_loss and edits of alternatives that speak of something gone; a housing with its last
// imager. What is unlinked: a mount's `on`, routes of links, situations' lists, a lamp that follows
// an imager, what a piece of evidence is of. Evidence itself stays.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "edit/object.h"

namespace belvedere::edit {

struct Erased {
  design::Design design;
  std::vector<std::string> also;  // a sentence each: what else went or was unlinked, file's order
};
// What does not exist is passed over.
Erased erased(const design::Design& design, const Selection& selection);
// Slots of a housing, which stays even without any imager.
Erased erasedSlots(const design::Design& design, const design::HousingId& housing,
                   const std::set<int>& slots);
Erased erasedRequirement(const design::Design& design, const design::RequirementId& id);

}  // namespace belvedere::edit
