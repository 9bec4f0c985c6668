// SPDX-License-Identifier: GPL-3.0-or-later
//
// A JSON text as a tree that keeps the order of keys: what the document looked like, beside what
// it means, so that saving changes only what was changed. For reader.cpp, writer.cpp and
// migrate.cpp; others see the design's structs.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/problem.h"

namespace belvedere::design {

struct JsonMember;
struct Json {
  using List = std::vector<Json>;
  using Object = std::vector<JsonMember>;
  std::variant<std::monostate, bool, double, std::string, List, Object> value;

  // Defined in the .cpp: here, members of an object are not known yet.
  Json();
  explicit Json(bool v);
  explicit Json(double v);
  explicit Json(std::string v);
  explicit Json(List v);
  explicit Json(Object v);
  Json(const Json&);
  Json(Json&&) noexcept;
  Json& operator=(const Json&);
  Json& operator=(Json&&) noexcept;
  ~Json();

  bool isNull() const { return value.index() == 0; }
  const bool* boolean() const { return std::get_if<bool>(&value); }
  const double* number() const { return std::get_if<double>(&value); }
  const std::string* text() const { return std::get_if<std::string>(&value); }
  const List* list() const { return std::get_if<List>(&value); }
  List* list() { return std::get_if<List>(&value); }
  const Object* object() const { return std::get_if<Object>(&value); }
  Object* object() { return std::get_if<Object>(&value); }
  // The value under a key; null when this is no object or has no such key.
  const Json* find(std::string_view key) const;
  Json* find(std::string_view key);
  bool operator==(const Json&) const;
};
struct JsonMember {
  std::string key;
  Json value;
  bool operator==(const JsonMember& other) const {
    return key == other.key && value == other.value;
  }
};

// "a list", "a number", ...: for messages.
std::string_view kindOf(const Json& json);

// Bounds on what is read at all. They keep a hostile or mistaken file from taking the machine's
// memory; a site of a thousand cameras needs a hundredth of each.
inline constexpr std::size_t kMostBytes = 64u << 20;
inline constexpr std::size_t kMostDepth = 64;
inline constexpr std::size_t kMostValues = 8'000'000;

// The tree of a text. Adds to `problems`: one for a text that is no JSON, is nested too deeply or
// holds too many values (and then returns null: nothing is half-read), one for each key that an
// object has twice (the first stands).
Json parseJson(std::string_view text, std::vector<Problem>& problems);

// Canonical text: two spaces of indent, a list or an object on one line where it then ends within
// 100 columns, shortest numbers that read back the same, a line feed at the end.
std::string printJson(const Json& json);
// The same on one line, without the line feed.
std::string printJsonLine(const Json& json);
std::string printNumber(double number);

// A key as a part of a JSON pointer (RFC 6901): "~" and "/" escaped.
std::string pointerPart(std::string_view key);
// A text as shown within a sentence: cut to 60 bytes at most, control characters replaced.
std::string shown(std::string_view text);

}  // namespace belvedere::design
