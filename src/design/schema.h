// SPDX-License-Identifier: GPL-3.0-or-later
//
// What follows from the field tables for people and for other programs: the JSON Schemas under
// schema/ and the tables of docs/format.md. A test keeps both files current; run it with
// BELVEDERE_WRITE_GENERATED=1 to write them anew.
//
// A schema says what can be said of one value at a time (keys, types, words, limits). What needs
// more (ids, slabs, limits of a model, attachments) only the reader knows.
#pragma once

#include <string>

namespace belvedere::design {

std::string designSchema();     // JSON Schema, draft-07
std::string catalogueSchema();
std::string fieldTables();      // Markdown, a section for each struct

}  // namespace belvedere::design
