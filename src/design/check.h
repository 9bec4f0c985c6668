// SPDX-License-Identifier: GPL-3.0-or-later
//
// Checks of the document that need more than one value: each adds to the log what is wrong, with
// its JSON pointer. read.cpp calls them in this order; together with the field tables they are
// what docs/problems.md lists.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "design/design.h"
#include "design/field_reader.h"

namespace belvedere::design {

// Every reference names an object of a kind that it may name (ids of the file, models of the
// library, imagers such as C1.2 where any object will do).
void checkReferences(const Design& design, ReadLog& log);
// Walls and openings, voids, solids, lights, zones on their slab, mounting lines.
void checkSite(const Design& design, ReadLog& log);
// Task table, situations, requirements.
void checkBrief(const Design& design, ReadLog& log);
// Models; `where` is the pointer of their list.
void checkModels(std::span<const Model> models, const std::string& where, ReadLog& log);
// Housings against their models: slots, aims within the limits as mounted, zoom, rings, streams.
void checkHousings(const Design& design, ReadLog& log);
// Services, tests and what follows.
void checkServices(const Design& design, ReadLog& log);

// Adds range_reversed where the first number of [least, most] is the larger.
void checkRange(const Range& range, const std::string& where, ReadLog& log);

}  // namespace belvedere::design
