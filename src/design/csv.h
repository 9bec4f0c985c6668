// SPDX-License-Identifier: GPL-3.0-or-later
//
// CSV as people's spreadsheets write it (RFC 4180 and what countries make of it).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace belvedere::design {

struct CsvLimits {
  std::size_t rows, columns;
};
struct CsvTable {
  char separator = ',';
  std::vector<std::vector<std::string>> rows;  // the first names the columns; cells without blanks
                                               // around them
};
// Takes the separator of which the first row has most: comma, semicolon or tab. Throws InputError:
// no UTF-8 (or UTF-16, or bytes of value zero), a quote that never ends, too many rows or columns,
// nothing in it.
CsvTable parseCsv(std::string_view text, const CsvLimits& limits);

// A cell as it goes into a file: quoted where it must be.
std::string csvCell(std::string_view cell);
// An apostrophe before what a spreadsheet would take for a formula, or before another apostrophe.
std::string withApostrophe(std::string_view cell);

// What separates decimals in a table's numbers.
enum class DecimalMark {
  point,    // a comma is refused
  comma,    // and so is a point with three digits behind it
  unclear,  // no number tells: either is read, but for "1,500" and "1.500", which are refused
};
// By the cells of those columns that hold numbers: texts such as "Switch 2.8" tell nothing.
DecimalMark decimalMark(const CsvTable& table, const std::vector<std::size_t>& number_columns);

}  // namespace belvedere::design
