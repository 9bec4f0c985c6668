// SPDX-License-Identifier: GPL-3.0-or-later
//
// A text of JSON with one item of one list changed and every other byte as it was: for a program
// that changes one thing of a file that somebody laid out by hand.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace belvedere::design {

// The text of item `index` of the list under a key of the outermost object; nothing where it has none.
std::optional<std::string> listItem(std::string_view text, std::string_view key, std::size_t index);

// The text with that item replaced or, at the list's end, added; with the list added as the last key
// where the key is not there. Nothing where the text has no such shape. `text`: valid JSON;
// the result is to be read back by whoever keeps it.
std::optional<std::string> withListItem(std::string_view text, std::string_view key, std::size_t index,
                                        std::string_view item);

}  // namespace belvedere::design
