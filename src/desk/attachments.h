// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files beside the design. A design that was never saved keeps them in a folder of its own, which
// goes with the program; saving brings them along.
#pragma once

#include <filesystem>
#include <string>

#include "design/design.h"

namespace belvedere::desk {

// Copies every attachment of a design that lies in one folder to another where it is not there yet.
// Throws InputError (cannot_save) where another file of that name lies there, or a copy fails.
void bringAttachments(const design::Design& design, const std::filesystem::path& from,
                      const std::filesystem::path& to);
// A file put beside a design, under its own name or one like it. Throws InputError
// (file_not_readable).
design::Attachment attach(const std::filesystem::path& file, const std::filesystem::path& folder);
// A new empty folder, removed when the program ends.
std::filesystem::path folderForUnsaved();

}  // namespace belvedere::desk
