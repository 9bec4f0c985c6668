// SPDX-License-Identifier: GPL-3.0-or-later
//
// Alternatives: another design, held as changes to this one. An edit names an object by its id (an
// imager as C1.2), a key of it (with / into the objects within: mount/fixing_m) and the new value
// as JSON. It replaces that value; lists are replaced whole.
#pragma once

#include <string>
#include <vector>

#include "base/problem.h"
#include "design/design.h"

namespace belvedere::design {

// The design with the alternative's edits made, in their order, checked as when it is read (but for
// attachments, which are not opened). Its own alternatives stay. Throws InputError when an edit
// names nothing, or what comes of it cannot be used.
Design applied(const Design& base, const Alternative& alternative);

// The edits that lead from one design to another, in the order of the file: applied(base, edits)
// is `changed` but for what `unsaid` names in sentences. Edits change objects that are there:
// objects added or removed and values taken away have no edit, nor has what belongs to no object.
struct Difference {
  Alternative alternative;  // id empty, for the caller to give
  std::vector<std::string> unsaid;
};
Difference differenceAs(const Design& base, const Design& changed, const std::string& name);

}  // namespace belvedere::design
