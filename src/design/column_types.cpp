// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/column_types.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>

#include "base/check.h"
#include "base/problem.h"
#include "design/field.h"
#include "design/field_table.h"
#include "design/fields.h"

namespace belvedere::design {
namespace {

// The field tables by name, as the schema has them.
struct Tables {
  std::map<std::string, const StructTable*, std::less<>> by_name;
  TableCollector all;
  Tables() {
    all.add<Model>();
    for (const StructTable& table : all.tables()) by_name[table.name] = &table;
  }
};
const Tables& tables() {
  static const Tables known;
  return known;
}

struct Found {
  const FieldRow* row = nullptr;
  int position = 0;
  const StructTable* next = nullptr;  // what it holds, where that is a struct
  bool list = false;                  // of such structs
};

std::string_view refOf(const Json& schema) {
  const Json* ref = schema.find("$ref");
  if (!ref || !ref->text()) return {};
  return std::string_view(*ref->text()).substr(ref->text()->rfind('/') + 1);
}

Found fieldOf(const StructTable& table, std::string_view key) {
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    if (table.rows[i].key != key) continue;
    Found found{&table.rows[i], static_cast<int>(i), nullptr, false};
    std::string_view ref = refOf(table.rows[i].schema);
    const Json* items = table.rows[i].schema.find("items");
    if (ref.empty() && items) {
      ref = refOf(*items);
      found.list = !ref.empty();
    }
    if (const auto at = tables().by_name.find(ref); at != tables().by_name.end())
      found.next = at->second;
    return found;
  }
  return {};
}

// Walks a name to its field; ranks of the fields and positions on the way.
std::optional<Found> walk(std::string_view name, std::vector<int>& rank) {
  const auto model = tables().by_name.find("model");
  BELVEDERE_CHECK(model != tables().by_name.end(), "models have a field table");
  const StructTable* table = model->second;
  Found found;
  while (table) {
    const std::size_t to = std::min(name.find('/'), name.size());
    found = fieldOf(*table, name.substr(0, to));
    if (!found.row) return {};
    rank.push_back(found.position);
    name = to < name.size() ? name.substr(to + 1) : std::string_view{};
    if (found.list) {
      const std::size_t end = std::min(name.find('/'), name.size());
      int position = 0;
      const auto [rest, error] = std::from_chars(name.data(), name.data() + end, position);
      if (error != std::errc{} || rest != name.data() + end || position < 1 || position > 64)
        return {};
      rank.push_back(position);
      name = end < name.size() ? name.substr(end + 1) : std::string_view{};
    }
    table = found.next;
  }
  if (!name.empty()) return {};
  return found;
}

std::string_view typeWord(const Json& schema) {
  const Json* type = schema.find("type");
  return type && type->text() ? std::string_view(*type->text()) : std::string_view{};
}

std::vector<std::string> pieces(const std::string& text, const std::string& separator) {
  std::vector<std::string> out;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t to = std::min(text.find(separator, from), text.size());
    if (to > from) out.push_back(text.substr(from, to - from));
    from = to + separator.size();
  }
  return out;
}

std::optional<double> numberOf(std::string text, DecimalMark mark, std::string& what) {
  const std::size_t comma = text.find(','), point = text.find('.');
  const bool both = comma != std::string::npos && point != std::string::npos;
  const bool thousands =
      !both && (comma != std::string::npos || point != std::string::npos) &&
      text.size() - std::min(comma, point) == 4 && std::min(comma, point) >= 1 &&
      std::min(comma, point) <= 3;
  if (both || (thousands && mark == DecimalMark::unclear) ||
      (comma != std::string::npos && mark == DecimalMark::point) ||
      (thousands && point != std::string::npos && mark == DecimalMark::comma)) {
    what = fmt::format("\"{}\" may be read in two ways; write it with a decimal point and no "
                       "thousands separator", shown(text));
    return {};
  }
  std::ranges::replace(text, ',', '.');
  const auto value = plainNumber(text);
  if (!value) what = fmt::format("\"{}\" is no number", shown(text));
  return value;
}

// "15 W" under idle_w is 15; another unit is refused.
std::string withoutUnit(const std::string& cell, std::string_view name, std::string& what) {
  const std::size_t end = cell.find_last_of("0123456789");
  if (end == std::string::npos || end + 1 == cell.size()) return cell;
  const std::string tail = cell.substr(end + 1);
  const std::size_t from = tail.find_first_not_of(' ');
  const std::string unit = from == std::string::npos ? "" : tail.substr(from);
  const std::string_view own = unitOfKey(name.substr(name.rfind('/') + 1));
  if (unit.empty() || unit == own) return cell.substr(0, end + 1);
  if (cell.find_first_not_of("0123456789+-., eE") != std::string::npos)
    what = own.empty() ? fmt::format("\"{}\" is no number", shown(cell))
                       : fmt::format("\"{}\" is not in {}", shown(cell), own);
  return cell;
}

}  // namespace

std::string textItem(const std::string& item) {
  if (!item.empty() && item.find_first_of(" \"") == std::string::npos) return item;
  std::string out = "\"";
  for (const char c : item) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + '"';
}

std::vector<std::string> textItems(std::string_view cell) {
  std::vector<std::string> items;
  for (std::size_t i = 0; i < cell.size();) {
    if (cell[i] == ' ') {
      ++i;
      continue;
    }
    std::string item;
    if (cell[i] == '"') {
      // To the next quote that is not doubled, or to the end.
      for (++i; i < cell.size(); ++i) {
        if (cell[i] != '"') item += cell[i];
        else if (i + 1 < cell.size() && cell[i + 1] == '"') item += cell[i++];
        else break;
      }
      i = std::min(i + 1, cell.size());
    } else {
      for (; i < cell.size() && cell[i] != ' '; ++i) item += cell[i];
    }
    items.push_back(std::move(item));
  }
  return items;
}

std::optional<double> plainNumber(std::string_view text) {
  if (text.starts_with('+')) text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (text.empty() || error != std::errc{} || end != text.data() + text.size() ||
      !(value > -1e300 && value < 1e300))
    return {};
  return value;
}

std::optional<ColumnType> columnType(std::string_view name) {
  std::vector<int> rank;
  const auto found = walk(name, rank);
  if (!found || found->next) return {};
  const Json& schema = found->row->schema;
  const std::string_view type = typeWord(schema);
  if (type == "number" || type == "integer") return ColumnType::number;
  if (type == "boolean") return ColumnType::boolean;
  if (type != "array") return ColumnType::text;
  const Json* items = schema.find("items");
  const std::string_view of = items ? typeWord(*items) : std::string_view{};
  if (of == "array") return ColumnType::sets;
  return of == "number" || of == "integer" ? ColumnType::numbers : ColumnType::texts;
}

std::vector<int> columnRank(std::string_view name) {
  std::vector<int> rank;
  walk(name, rank);
  return rank;
}

std::string nearestColumn(std::string_view name) {
  std::vector<std::string> known;
  for (const auto& [table, fields] : tables().by_name)
    for (const FieldRow& row : fields->rows) known.push_back(row.key);
  const std::string near = nearestWord(std::string(name.substr(name.rfind('/') + 1)), known);
  return near.empty() ? "" : fmt::format("did you mean \"{}\"?", near);
}

std::optional<Json> cellValue(const std::string& cell, ColumnType type, std::string_view name,
                              DecimalMark mark, std::string& what) {
  const auto numbers = [&](const std::string& text) -> std::optional<Json::List> {
    Json::List list;
    for (const std::string& piece : pieces(text, " ")) {
      const auto value = numberOf(piece, mark, what);
      if (!value) return {};
      list.emplace_back(*value);
    }
    return list;
  };
  switch (type) {
    case ColumnType::text:
      return Json(cell.starts_with('\'') ? cell.substr(1) : cell);
    case ColumnType::boolean: {
      std::string lower;
      for (const char c : cell)
        lower += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
      if (lower == "true" || lower == "false") return Json(lower == "true");
      what = fmt::format("\"{}\" is neither true nor false", shown(cell));
      return {};
    }
    case ColumnType::number: {
      const std::string bare = withoutUnit(cell, name, what);
      if (!what.empty()) return {};
      const auto value = numberOf(bare, mark, what);
      if (!value) return {};
      return Json(*value);
    }
    case ColumnType::texts: {
      Json::List list;
      for (std::string& item : textItems(cell.starts_with('\'') ? cell.substr(1) : cell))
        list.emplace_back(std::move(item));
      return Json(std::move(list));
    }
    case ColumnType::numbers: {
      const std::string bare = withoutUnit(cell, name, what);
      if (!what.empty()) return {};
      auto list = numbers(bare);
      if (!list) return {};
      return Json(std::move(*list));
    }
    case ColumnType::sets: {
      Json::List sets;
      for (const std::string& piece : pieces(cell, "|")) {
        auto list = numbers(piece);
        if (!list) return {};
        sets.emplace_back(std::move(*list));
      }
      return Json(std::move(sets));
    }
  }
  return {};
}

}  // namespace belvedere::design
