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

// The single values of a cell of that type: numbers between blanks, texts between "|".
std::vector<std::string> piecesOf(const std::string& cell, ColumnType type);

// The value of a cell; nothing, with `what` said, where it is none of that type.
std::optional<Json> cellValue(const std::string& cell, ColumnType type, std::string_view name,
                              DecimalMark mark, std::string& what);

}  // namespace belvedere::design
