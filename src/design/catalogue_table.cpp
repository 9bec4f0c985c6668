// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/catalogue_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/check.h"
#include "design/column_types.h"
#include "design/csv.h"
#include "design/json_tree.h"
#include "design/read.h"
#include "design/words.h"
#include "design/write.h"

namespace belvedere::design {
namespace {

std::string cellOf(const Json& value) {
  if (const bool* b = value.boolean()) return *b ? "true" : "false";
  if (const double* n = value.number()) return printNumber(*n);
  if (const std::string* s = value.text()) return *s;
  std::string text;
  if (const Json::List* list = value.list()) {
    // Texts may hold blanks, and so do lists of numbers.
    const bool plain = !list->empty() && list->front().number();
    for (const Json& item : *list) text += (text.empty() ? "" : plain ? " " : " | ") + cellOf(item);
  }
  return text;
}

void flatten(const Json& value, const std::string& at, Properties& out) {
  if (const Json::Object* object = value.object()) {
    for (const JsonMember& member : *object)
      flatten(member.value, at.empty() ? member.key : at + "/" + member.key, out);
    return;
  }
  const Json::List* list = value.list();
  if (list && !list->empty() && list->front().object()) {
    for (std::size_t i = 0; i < list->size(); ++i)
      flatten((*list)[i], fmt::format("{}/{}", at, i + 1), out);
    return;
  }
  out.emplace_back(at, cellOf(value));
}

// Of models, as the file would hold them.
std::vector<Json> treesOf(const std::vector<Model>& models) {
  std::vector<Problem> problems;
  const Json tree = parseJson(writeCatalogue("", models), problems);
  BELVEDERE_CHECK(problems.empty(), "what is written can be read");
  const Json* list = tree.find("models");
  BELVEDERE_CHECK(list && list->list(), "a catalogue has models");
  return *list->list();
}

std::vector<std::string_view> partsOf(std::string_view path) {
  std::vector<std::string_view> parts;
  for (std::size_t from = 0; from <= path.size();) {
    const std::size_t to = std::min(path.find('/', from), path.size());
    parts.push_back(path.substr(from, to - from));
    from = to + 1;
  }
  return parts;
}

bool isPosition(std::string_view part) {
  return !part.empty() && part.size() <= 3 &&
         std::ranges::all_of(part, [](char c) { return c >= '0' && c <= '9'; }) && part != "0";
}

// Puts a value where its path says, making objects and lists on the way; lists grow by their next
// item alone, so that nothing is left out of them (the columns are in order).
bool put(Json& root, std::string_view path, Json value) {
  Json* at = &root;
  for (const std::string_view part : partsOf(path)) {
    if (isPosition(part)) {
      if (!at->list()) *at = Json(Json::List{});
      Json::List& list = *at->list();
      const auto index = static_cast<std::size_t>(std::stoi(std::string(part))) - 1;
      if (index > list.size()) return false;
      if (index == list.size()) list.emplace_back();
      at = &list[index];
      continue;
    }
    if (!at->object()) *at = Json(Json::Object{});
    Json* next = at->find(part);
    if (!next) {
      at->object()->push_back({std::string(part), Json()});
      next = &at->object()->back().value;
    }
    at = next;
  }
  *at = std::move(value);
  return true;
}

std::string placeOf(std::size_t row, const std::string& column) {
  return fmt::format("row {}, column {}", row, column);
}

// "/models/3/imagers/0/pixels" -> 3 and "imagers/1/pixels".
std::pair<std::optional<std::size_t>, std::string> fromPointer(const std::string& where) {
  const std::vector<std::string_view> parts = partsOf(where);
  if (parts.size() < 3 || parts[1] != "models") return {};
  std::string column;
  for (std::size_t i = 3; i < parts.size(); ++i) {
    const bool position = std::ranges::all_of(parts[i], [](char c) { return c >= '0' && c <= '9'; });
    column += (column.empty() ? "" : "/") +
              (position ? fmt::format("{}", std::stoul(std::string(parts[i])) + 1)
                        : std::string(parts[i]));
  }
  return {std::stoul(std::string(parts[2])), column};
}

struct Row {
  std::size_t number;  // in the file
  Json tree;
};

// The models of the rows; rows at fault are taken out, with what is said of them, until the rest is
// a catalogue.
std::vector<Model> modelsOf(std::vector<Row> rows, std::vector<Problem>& problems) {
  while (!rows.empty()) {
    Json::List models;
    for (const Row& row : rows) models.push_back(row.tree);
    Json::Object file{{"format", Json(std::string("belvedere.catalogue"))},
                      {"version", Json(1.0)},
                      {"models", Json(std::move(models))}};
    try {
      return readCatalogueText(printJson(Json(std::move(file))));
    } catch (const InputError& error) {
      std::vector<bool> bad(rows.size(), false);
      for (const Problem& p : error.problems()) {
        const auto [index, column] = fromPointer(p.where);
        if (!index || *index >= rows.size()) {
          if (p.code == "more_problems") continue;
          throw;
        }
        bad[*index] = true;
        problems.push_back({p.code, column.empty() ? fmt::format("row {}", rows[*index].number)
                                                   : placeOf(rows[*index].number, column),
                            p.what, p.hint});
      }
      std::vector<Row> good;
      for (std::size_t i = 0; i < rows.size(); ++i)
        if (!bad[i]) good.push_back(std::move(rows[i]));
      BELVEDERE_CHECK(good.size() < rows.size(), "a refusal names a row");
      rows = std::move(good);
    }
  }
  return {};
}

}  // namespace

Properties propertiesOf(const Model& model) {
  Properties out;
  flatten(treesOf({model}).front(), "", out);
  if (std::none_of(out.begin(), out.end(), [](const auto& p) { return p.first == "kind"; }))
    out.insert(out.begin(), {"kind", std::string(word(model.kind))});
  return out;
}

std::string catalogueCsv(const std::vector<Model>& models) {
  std::vector<Properties> rows;
  std::map<std::vector<int>, std::string> columns;  // in the order of the field tables
  for (const Json& tree : treesOf(models)) {
    Properties row;
    flatten(tree, "", row);
    for (const auto& [name, cell] : row) columns.emplace(columnRank(name), name);
    rows.push_back(std::move(row));
  }
  std::string text;
  std::string separator;
  for (const auto& [rank, name] : columns) {
    text += separator + csvCell(name);
    separator = ",";
  }
  text += "\n";
  for (const Properties& row : rows) {
    separator.clear();
    for (const auto& [rank, name] : columns) {
      const auto at = std::ranges::find(row, name, &std::pair<std::string, std::string>::first);
      const std::string cell = at == row.end() ? "" : at->second;
      const bool plain = columnType(name) == ColumnType::text || columnType(name) == ColumnType::texts;
      text += separator + csvCell(plain ? withApostrophe(cell) : cell);
      separator = ",";
    }
    text += "\n";
  }
  return text;
}

CsvCatalogue readCatalogueCsv(std::string_view text) {
  const CsvTable table = parseCsv(text, {kMostCsvRows, kMostCsvColumns});
  CsvCatalogue out;
  const std::vector<std::string>& head = table.rows.front();
  // Known columns, in the order in which lists fill.
  struct Column {
    std::size_t index;
    ColumnType type;
  };
  std::map<std::vector<int>, Column> columns;
  for (std::size_t c = 0; c < head.size(); ++c) {
    if (head[c].empty()) continue;
    const auto type = columnType(head[c]);
    if (!type) {
      out.problems.push_back({"unknown_column", placeOf(1, shown(head[c])),
                              "no model has such a property; the column is left out",
                              nearestColumn(head[c])});
      continue;
    }
    if (!columns.emplace(columnRank(head[c]), Column{c, *type}).second)
      out.problems.push_back({"duplicate_column", placeOf(1, shown(head[c])),
                              "the column is there already; the first counts", ""});
  }
  if (std::ranges::find(head, "id") == head.end())
    throw InputError({{"csv_without_id", "row 1", "there is no column \"id\"",
                       "the first row names the columns: id, kind, title, ..."}});
  std::vector<std::size_t> number_columns;
  for (const auto& [rank, column] : columns)
    if (column.type == ColumnType::number || column.type == ColumnType::numbers ||
        column.type == ColumnType::sets)
      number_columns.push_back(column.index);
  const DecimalMark mark = decimalMark(table, number_columns);
  std::vector<Row> rows;
  for (std::size_t r = 1; r < table.rows.size(); ++r) {
    const std::vector<std::string>& cells = table.rows[r];
    if (std::ranges::all_of(cells, [](const std::string& c) { return c.empty(); })) continue;
    Row row{r + 1, Json(Json::Object{})};
    bool good = true;
    if (cells.size() > head.size()) {
      good = false;
      out.problems.push_back({"csv_row_too_long", fmt::format("row {}", row.number),
                              fmt::format("{} cells under {} headings", cells.size(), head.size()),
                              "put a cell that holds the separator in double quotes"});
    }
    for (const auto& [rank, column] : columns) {
      if (column.index >= cells.size() || cells[column.index].empty()) continue;
      const std::string& name = head[column.index];
      std::string what;
      std::optional<Json> value = cellValue(cells[column.index], column.type, name, mark, what);
      if (value && !put(row.tree, name, std::move(*value))) {
        what = "the list's items before it are not there";
        value.reset();
      }
      if (what.empty()) continue;
      good = false;
      out.problems.push_back({"bad_cell", placeOf(row.number, name), what, ""});
    }
    if (good) rows.push_back(std::move(row));
  }
  out.models = modelsOf(std::move(rows), out.problems);
  return out;
}

bool namesProperty(std::string_view property, std::string_view name) {
  const auto words = [](std::string_view path) {
    std::vector<std::string_view> parts = partsOf(path);
    std::erase_if(parts, [](std::string_view part) { return isPosition(part); });
    return parts;
  };
  const auto have = words(property), want = words(name);
  return !want.empty() && want.size() <= have.size() &&
         std::equal(want.rbegin(), want.rend(), have.rbegin());
}

std::optional<PropertyTest> propertyTest(std::string_view text) {
  const std::size_t at = text.find_first_of("=!<>~");
  if (at == std::string_view::npos || at == 0) return {};
  std::size_t length = 1;
  if (at + 1 < text.size() && text[at + 1] == '=' && text[at] != '~' && text[at] != '=') length = 2;
  PropertyTest test{std::string(text.substr(0, at)), std::string(text.substr(at + length)),
                    std::string(text.substr(at, length))};
  if (test.relation == "!" || test.value.empty()) return {};
  const bool orders = test.relation[0] == '<' || test.relation[0] == '>';
  if (orders && !plainNumber(test.value)) return {};
  return test;
}

bool passes(const Properties& properties, const PropertyTest& test) {
  const auto lower = [](std::string_view s) {
    std::string out;
    for (const char c : s) out += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    return out;
  };
  const std::string wanted = lower(test.value);
  const std::optional<double> number = plainNumber(test.value);
  bool stated = false, equal = false;
  for (const auto& [name, cell] : properties) {
    if (!namesProperty(name, test.property)) continue;
    stated = true;
    if (test.relation == "~" && lower(cell).find(wanted) != std::string::npos) return true;
    // The whole cell, or any value of a list in it.
    std::vector<std::string> values{cell};
    const auto type = columnType(name);
    if (type && type != ColumnType::text)
      for (std::string& piece : piecesOf(cell, *type)) values.push_back(std::move(piece));
    for (const std::string& value : values) {
      const std::optional<double> found = plainNumber(value);
      equal = equal || (number && found ? *found == *number : lower(value) == wanted);
      if (!number || !found) continue;
      if ((test.relation == "<" && *found < *number) || (test.relation == "<=" && *found <= *number) ||
          (test.relation == ">" && *found > *number) || (test.relation == ">=" && *found >= *number))
        return true;
    }
  }
  return (test.relation == "=" && equal) || (test.relation == "!=" && stated && !equal);
}

}  // namespace belvedere::design
