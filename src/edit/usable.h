// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether what an edit changed can be read back. The document's reader is the only judge: the
// changed objects and what bears on them are written and read as a small design of their own, so
// that a drag on a large site stays quick. Attachments are not looked at.
#pragma once

#include <set>
#include <string>

#include "design/design.h"

namespace belvedere::edit {

// Throws InputError with all problems of the objects named (buildings, storeys, walls, openings,
// solids, zones, mounting lines, containment, underlays, lights, housings, devices, links,
// requirements)
// and of the zones that lie on one of them; pointers are into `design`. Presumes that the rest was
// usable and that ids are unique.
void requireUsable(const design::Design& design, const std::set<std::string>& changed);

}  // namespace belvedere::edit
