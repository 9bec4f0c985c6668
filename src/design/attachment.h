// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files beside the design: where they may lie, and that they are the ones that were meant.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "base/problem.h"
#include "design/design.h"

namespace belvedere::design {

// SHA-256 (FIPS 180-4) in lower-case hexadecimal.
std::string sha256OfText(std::string_view text);
// Nothing when the file cannot be read to its end.
std::optional<std::string> sha256OfFile(const std::filesystem::path& path);

// A file's bytes. Throws InputError: file_not_readable, file_too_large (over `most_bytes`: it is
// refused before it is read).
std::string readWholeFile(const std::filesystem::path& path, std::size_t most_bytes);

// What is wrong with an attachment: its path (relative, within `folder`, also where a symbolic
// link leads), the file (there, an ordinary file), its SHA-256. `where` is its JSON pointer.
std::optional<Problem> attachmentProblem(const Attachment& file,
                                         const std::filesystem::path& folder,
                                         const std::string& where);

}  // namespace belvedere::design
