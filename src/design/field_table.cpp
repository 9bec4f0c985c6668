// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/field_table.h"

#include <fmt/format.h>

#include <algorithm>

namespace belvedere::design {
namespace {

Json text(std::string_view t) { return Json(std::string(t)); }
Json number(double n) { return Json(n); }

Json wordList(const std::vector<std::string_view>& words) {
  Json::List list;
  for (const std::string_view w : words) list.push_back(text(w));
  return Json(std::move(list));
}

Json numberSchema(std::string_view type, const Field& field) {
  return Json(Json::Object{{"type", text(type)},
                           {field.above ? "exclusiveMinimum" : "minimum", number(field.least)},
                           {"maximum", number(field.most)}});
}

// Nothing to say of an untouched value: absent, an empty text or list, an object of defaults.
bool silent(const Json& untouched) {
  return untouched.isNull() || untouched.object() ||
         (untouched.text() && untouched.text()->empty()) ||
         (untouched.list() && untouched.list()->empty());
}

constexpr double kNoLimit = 1e9;  // the limits of a Field that states none

}  // namespace

void TableCollector::Visit::object(std::string_view name, std::string_view says) {
  name_ = name;
  for (const StructTable& table : all_.tables_)
    if (table.name == name) known_ = true;
  if (known_) return;
  index_ = all_.tables_.size();
  all_.tables_.push_back({name_, std::string(says), {}});
}

void TableCollector::Visit::constant(std::string_view key, std::string_view value) {
  rows_.push_back({std::string(key), fmt::format("\"{}\"", value), "", "required",
                   "what kind of file this is", true, Json(Json::Object{{"const", text(value)}})});
}
void TableCollector::Visit::constant(std::string_view key, int value) {
  rows_.push_back({std::string(key), std::to_string(value), "", "required", "of the format", true,
                   Json(Json::Object{{"const", number(value)}})});
}

void TableCollector::Visit::ownId(ObjectKind kind, bool required) {
  if (known_) return;
  rows_.push_back({"id", "id", "", required ? "required" : "none",
                   fmt::format("its own id as a {}, unique in the file", word(kind)), required,
                   Json(Json::Object{{"type", text("string")},
                                     {"minLength", number(1)},
                                     {"maxLength", number(100)}})});
}

void TableCollector::Visit::add(std::string_view key, Shaped shaped, Json untouched,
                                const Field& field) {
  const bool is_share = field.least == 0 && field.most == 1;
  std::string_view unit = field.unit.empty() ? unitOfKey(key) : field.unit;
  std::string limits;
  const bool has_numbers = shaped.takes.find("number") != std::string::npos ||
                           shaped.takes.find('[') == 0 ||
                           shaped.takes.find("of [") != std::string::npos;
  if (has_numbers && field.most < kNoLimit && shaped.takes.find("](") == std::string::npos)
    limits = fmt::format("{}{} to {}", field.above ? "above " : "", printNumber(field.least),
                         printNumber(field.most));
  if (!unit.empty() && has_numbers) limits += (limits.empty() ? "" : " ") + std::string(unit);
  if (is_share && has_numbers && unit.empty()) limits += ", a share";
  std::string absent = "none";
  if (field.required) absent = "required";
  else if (!field.fallback.empty()) absent = field.fallback;
  else if (!silent(untouched)) absent = printJsonLine(untouched);
  Json::Object& schema = *shaped.schema.object();
  schema.insert(schema.begin(), {"description", text(field.says)});
  if (!field.required && !silent(untouched)) schema.push_back({"default", untouched});
  rows_.push_back({std::string(key), std::move(shaped.takes), std::move(limits), std::move(absent),
                   std::string(field.says), field.required, std::move(shaped.schema)});
}

TableCollector::Visit::Shaped TableCollector::Visit::shapeOf(double, const Field& field) {
  return {"number", numberSchema("number", field)};
}
TableCollector::Visit::Shaped TableCollector::Visit::shapeOf(int, const Field& field) {
  return {"whole number", numberSchema("integer", field)};
}
TableCollector::Visit::Shaped TableCollector::Visit::shapeOf(bool, const Field&) {
  return {"true or false", Json(Json::Object{{"type", text("boolean")}})};
}

TableCollector::Visit::Shaped TableCollector::Visit::words(
    const std::vector<std::string_view>& list) {
  return {fmt::format("{}", fmt::join(list, ", ")), Json(Json::Object{{"enum", wordList(list)}})};
}

TableCollector::Visit::Shaped TableCollector::Visit::shapeOf(const std::string&,
                                                             const Field& field) {
  if (!field.words.empty()) return words(field.words);
  Json::Object schema{{"type", text("string")}};
  std::string takes = "text";
  const auto pattern = [&](std::string_view name, std::string_view expression) {
    takes = name;
    schema.push_back({"pattern", text(expression)});
  };
  switch (field.shape) {
    case Shape::date: pattern("date (2026-03-31)", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"); break;
    case Shape::sha256: pattern("64 hexadecimal digits", "^[0-9a-f]{64}$"); break;
    case Shape::currency: pattern("three capitals (ISO 4217)", "^[A-Z]{3}$"); break;
    case Shape::path:
      takes = "path";
      schema.push_back({"minLength", number(1)});
      break;
    default: break;
  }
  return {takes, Json(std::move(schema))};
}

TableCollector::Visit::Shaped TableCollector::Visit::shapeOf(const Passage&, const Field& field) {
  return {
      "passes, blocks, or a number",
      Json(Json::Object{
          {"anyOf", Json(Json::List{Json(Json::Object{{"enum", wordList({"passes", "blocks"})}}),
                                    numberSchema("number", field)})}})};
}

TableCollector::Visit::Shaped TableCollector::Visit::numbers(std::string takes, std::size_t count,
                                                             const Shaped& item) {
  return {std::move(takes), Json(Json::Object{{"type", text("array")},
                                              {"items", item.schema},
                                              {"minItems", number(static_cast<double>(count))},
                                              {"maxItems", number(static_cast<double>(count))}})};
}
TableCollector::Visit::Shaped TableCollector::Visit::shapeOf(const Vec2&, const Field& field) {
  return numbers("[x, y]", 2, shapeOf(0.0, field));
}
TableCollector::Visit::Shaped TableCollector::Visit::shapeOf(const Vec3&, const Field& field) {
  return numbers("[x, y, z]", 3, shapeOf(0.0, field));
}

TableCollector::Visit::Shaped TableCollector::Visit::listOf(const Shaped& item, const Field& field,
                                                            bool points) {
  Json::Object schema{{"type", text("array")}, {"items", item.schema}};
  std::string takes = "list of " + item.takes;
  if (points && (field.shape == Shape::outline || field.shape == Shape::line)) {
    const bool outline = field.shape == Shape::outline;
    schema.push_back({"minItems", number(outline ? 3 : 2)});
    takes = (outline ? "outline: list of " : "line: list of ") + item.takes;
  }
  return {takes, Json(std::move(schema))};
}

TableCollector::Visit::Shaped TableCollector::Visit::reference(const Field& field) {
  std::vector<std::string_view> kinds;
  for (const ObjectKind kind : field.kinds) kinds.push_back(word(kind));
  std::string takes =
      kinds.empty() ? "id of any object" : fmt::format("id of a {}", fmt::join(kinds, ", "));
  for (const std::string_view w : field.words) takes += fmt::format(", or \"{}\"", w);
  return {takes, Json(Json::Object{{"type", text("string")}, {"minLength", number(1)},
                                   {"maxLength", number(100)}})};
}

TableCollector::Visit::Shaped TableCollector::Visit::link(const std::string& name) {
  return {fmt::format("[{}](#{})", name, name),
          Json(Json::Object{{"$ref", text("#/definitions/" + name)}})};
}

}  // namespace belvedere::design
