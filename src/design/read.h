// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading the document: from a file to a checked Design. Whoever holds a DesignFile may take for
// granted all that docs/problems.md lists: ids are unique and name something of the right kind,
// outlines are simple, zones lie on their slab, aims are within their model's limits, attachments
// are there and unchanged. Nothing is half-read: the design is whole, or InputError says in one go
// everything that is wrong with it.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "design/design.h"

namespace belvedere::design {

struct Json;

struct DesignFile {
  Design design;
  std::shared_ptr<const Json> source;  // as written, for writeDesign; null: made, not read
  std::string sha256;                  // of the file's bytes
  std::filesystem::path path;          // where it was read from; empty for a text
};

// Reads and checks a design. Attachments are looked for beside the file. A file over 64 MB is
// refused unread. Throws InputError with all problems, each with its JSON pointer (a problem of a
// catalogue file has that file's path before a '#').
DesignFile readDesign(const std::filesystem::path& path);
// The same of a text; `folder` is where attachments lie.
DesignFile readDesignText(std::string_view text, const std::filesystem::path& folder);

// Reads and checks a catalogue file's models by themselves. Throws InputError likewise.
std::vector<Model> readCatalogue(const std::filesystem::path& path);
std::vector<Model> readCatalogueText(std::string_view text);

}  // namespace belvedere::design
