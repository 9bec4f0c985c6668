// SPDX-License-Identifier: GPL-3.0-or-later
//
// A catalogue as a table: a row for each model, a column for each property, so that a supplier can
// keep it in a spreadsheet, and so that models can be filtered and compared. A property is named
// by its way through the catalogue file, list positions counted from 1: "capacity/ports",
// "imagers/2/lens/hfov_deg". Cells hold plain text: numbers with a decimal point, lists of numbers
// with spaces between ("95 31"), lists of texts and of lists with " | " between ("ceiling | wall",
// "1 2 | 3 4"), true and false.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/problem.h"
#include "design/design.h"

namespace belvedere::design {

// What a model states, in the order of the field tables: name and cell. Values at their default
// are left out, but for its kind.
using Properties = std::vector<std::pair<std::string, std::string>>;
Properties propertiesOf(const Model& model);

// The table as CSV (RFC 4180, UTF-8, commas, line feeds): the columns that any model needs, "id"
// first. A text that a spreadsheet would take for a formula is preceded by an apostrophe.
std::string catalogueCsv(const std::vector<Model>& models);

// What a CSV holds: the models of its good rows, and what is wrong with the others. `where` of a
// problem names row (the heading is row 1) and column: "row 4, column capacity/ports".
struct CsvCatalogue {
  std::vector<Model> models;
  std::vector<Problem> problems;
};
// Fields may be separated by commas, semicolons or tabs. A number may end in its column's unit
// ("15 W" under idle_w), in no other. Decimal commas are read where they cannot be anything else:
// not in a file separated by commas, and "1,500" only where the file's other numbers say which it
// is; else the cell is refused. Columns that are not known are reported and left out. Throws
// InputError for what is no such table at all: no UTF-8, no column "id", a quote that never ends,
// more than kMostCsvRows rows or kMostCsvColumns columns.
CsvCatalogue readCatalogueCsv(std::string_view text);
inline constexpr std::size_t kMostCsvRows = 100'000;
inline constexpr std::size_t kMostCsvColumns = 4'000;

// "capacity/ports>=8", "ip~66", "kind=switch": a property (its last names will do), one of = != <
// <= > >= ~ (holds the text), a value. Texts compare without case; < and > compare
// numbers alone.
struct PropertyTest {
  std::string property, value;
  std::string relation;
};
// Nothing where the text is no such test.
std::optional<PropertyTest> propertyTest(std::string_view text);
// Does any stated value of a property of that name pass? Of "!=", does none equal it, while one is
// stated? Properties that are not stated pass nothing.
bool passes(const Properties& properties, const PropertyTest& test);
// Is `name` the property, or its end from a "/" on, list positions left out of both?
bool namesProperty(std::string_view property, std::string_view name);

}  // namespace belvedere::design
