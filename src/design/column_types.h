// SPDX-License-Identifier: GPL-3.0-or-later
//
// The columns of a catalogue's table, as the field tables have them: what a cell holds, where its
// column stands, and what its text means.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/csv.h"
#include "design/json_tree.h"

namespace belvedere::design {

enum class ColumnType { number, boolean, text, numbers, texts, sets };
// Of "imagers/2/lens/hfov_deg"; nothing where no model has such a property.
std::optional<ColumnType> columnType(std::string_view name);
// Compares as the columns stand: by the field tables, then by list position.
std::vector<int> columnRank(std::string_view name);
// A hint: the nearest property's name, or "".
std::string nearestColumn(std::string_view name);

// A number with a decimal point, whole; nothing for anything else.
std::optional<double> plainNumber(std::string_view text);

// An item of a list of texts as it stands in a cell: in double quotes where it holds a space or one of
// those, which is then doubled; and the items of a cell, split at spaces.
std::string textItem(const std::string& item);
std::vector<std::string> textItems(std::string_view cell);

// The value of a cell; nothing, with `what` said, where it is none of that type.
std::optional<Json> cellValue(const std::string& cell, ColumnType type, std::string_view name,
                              DecimalMark mark, std::string& what);

}  // namespace belvedere::design
