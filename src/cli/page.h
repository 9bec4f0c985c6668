// SPDX-License-Identifier: GPL-3.0-or-later
//
// Text for people: wrapped lines and tables as wide as the page, readable without colour.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace belvedere::cli {

// Columns of the page: of the terminal when the standard output is one (COLUMNS where that is set,
// at least 72), else 100, so that what goes into a file or a pipe is the same everywhere.
std::size_t pageColumns();

// Columns that a text takes: one a character (UTF-8), whatever its bytes.
std::size_t columnsOf(std::string_view text);

// The text as it may go to a terminal: line feeds and tabs become spaces; bytes that would command
// it, or that are no UTF-8, become question marks. Titles and ids come from files that anybody may
// have written.
std::string printable(std::string_view text);

// At most `columns` columns of it, ended by ".." where something was left out.
std::string cut(std::string_view text, std::size_t columns);

// The text in lines as wide as the page, broken between words (within a word that is longer
// than a line), the first indented by `first`, the others by `others` columns; ends a line.
std::string wrapped(std::string_view text, std::size_t first, std::size_t others);

// "C1.1 to C1.4, C2.1": three or more ids that are numbered on by one at their end run on.
std::string idList(const std::vector<std::string>& ids);

// Fills up to `columns` with spaces on the right, or on the left.
std::string padRight(std::string_view text, std::size_t columns);
std::string padLeft(std::string_view text, std::size_t columns);

// Columns two spaces apart. `align`: a letter a column, l or r. Columns that are too wide for the
// page are cut, widest left-aligned first: numbers never are. A row that is still too wide goes on
// in a second line, indented.
struct Table {
  std::string align;
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
  // Rows that follow one another and differ only in the number at the end of their first cell are
  // one row: "C1.1 to C1.4".
  std::string text(std::size_t indent) const;
};

// A heading over what follows: an empty line, the title, a rule.
std::string heading(std::string_view title);

}  // namespace belvedere::cli
