// SPDX-License-Identifier: GPL-3.0-or-later
//
// Titles: what a person calls a thing. Its id, by which others name it, stays.
#pragma once

#include <string>

#include "edit/object.h"

namespace belvedere::edit {

// Whether an object of that kind has a title: imagers and drawings have none.
bool hasTitle(const ObjectRef& ref);
// Throws InputError (unknown_id) when there is no such object, or it has no title.
design::Design renamed(const design::Design& design, const ObjectRef& ref,
                       const std::string& title);

}  // namespace belvedere::edit
