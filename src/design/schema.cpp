// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/schema.h"

#include <fmt/format.h>

#include "design/field_table.h"

namespace belvedere::design {
namespace {

Json text(std::string_view t) { return Json(std::string(t)); }

Json objectSchema(const StructTable& table) {
  Json::Object properties;
  Json::List required;
  for (const FieldRow& row : table.rows) {
    properties.push_back({row.key, row.schema});
    if (row.required) required.push_back(text(row.key));
  }
  Json::Object schema{{"description", text(table.says)},
                      {"type", text("object")},
                      {"properties", Json(std::move(properties))}};
  if (!required.empty()) schema.push_back({"required", Json(std::move(required))});
  schema.push_back({"additionalProperties", Json(false)});
  return Json(std::move(schema));
}

template <class S>
std::string schemaOf(std::string_view format) {
  TableCollector collector;
  const std::string root = collector.add<S>();
  Json::Object definitions;
  Json whole;
  for (const StructTable& table : collector.tables()) {
    if (table.name == root) whole = objectSchema(table);
    else definitions.push_back({table.name, objectSchema(table)});
  }
  Json::Object schema{{"$schema", text("http://json-schema.org/draft-07/schema#")},
                      {"title", text(format)}};
  for (JsonMember& member : *whole.object()) schema.push_back(std::move(member));
  schema.push_back({"definitions", Json(std::move(definitions))});
  return printJson(Json(std::move(schema)));
}

}  // namespace

std::string designSchema() { return schemaOf<Design>(kDesignFormat); }
std::string catalogueSchema() { return schemaOf<CatalogueFile>(kCatalogueFormat); }

std::string fieldTables() {
  TableCollector collector;
  collector.add<Design>();
  collector.add<CatalogueFile>();
  std::string out;
  for (const StructTable& table : collector.tables()) {
    out += fmt::format(
        "### {}\n\n{}\n\n| key | takes | limits | absent | says |\n|---|---|---|---|---|\n",
        table.name, table.says);
    for (const FieldRow& row : table.rows)
      out += fmt::format("| `{}` | {} | {} | {} | {} |\n", row.key, row.takes, row.limits,
                         row.absent, row.says);
    out += '\n';
  }
  return out;
}

}  // namespace belvedere::design
