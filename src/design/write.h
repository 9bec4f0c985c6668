// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing the document so that a small edit gives a small diff, and saving it so that no crash
// can leave half a file.
#pragma once

#include <filesystem>
#include <string>

#include "design/read.h"

namespace belvedere::design {

// The text of a design: keys in the order in which they were read, new keys in the order of the
// field tables, values at their default only where they stood before, canonical layout (see
// json_tree.h). For a text in canonical layout, writing what was read gives the same bytes;
// reading what was written gives the same design.
std::string writeDesign(const DesignFile& file);
std::string writeCatalogue(const std::string& title, const std::vector<Model>& models);

// Writes beside `path`, syncs, renames over it, syncs the folder: whoever reads `path` meanwhile,
// or after a crash at any moment, finds the old file or the new one, whole. A symbolic link is
// followed; the file's permissions stay. Then `file` holds the new source, hash and path. Throws
// InputError (cannot_save) when it cannot be written; the old file is then untouched. A crash may
// leave a file `<name>.<number>.part` beside it, which nothing reads.
void saveDesign(DesignFile& file, const std::filesystem::path& path);

// A text as it is, written as saveDesign writes its own.
void saveText(const std::string& text, const std::filesystem::path& path);

}  // namespace belvedere::design
