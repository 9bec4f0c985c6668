// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/json_tree.h"

#include <array>
#include <charconv>

#include "base/check.h"

namespace belvedere::design {
namespace {

constexpr std::size_t kColumns = 100;

void printText(const std::string& text, std::string& out) {
  static constexpr std::string_view kHex = "0123456789abcdef";
  out += '"';
  for (const char c : text) {
    switch (c) {
      case '"': out += "\\\""; break;
      case '\\': out += "\\\\"; break;
      case '\n': out += "\\n"; break;
      case '\r': out += "\\r"; break;
      case '\t': out += "\\t"; break;
      default:
        if (static_cast<unsigned char>(c) < 0x20) {
          out += "\\u00";
          out += kHex[static_cast<unsigned char>(c) >> 4];
          out += kHex[static_cast<unsigned char>(c) & 15];
        } else {
          out += c;
        }
    }
  }
  out += '"';
}

// Columns that a text takes: characters, not the bytes of their UTF-8.
std::size_t columnsOf(std::string_view text) {
  std::size_t columns = 0;
  for (const char c : text) columns += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  return columns;
}

// One line; gives up (false) once it is longer than `most` columns, so that printing a large tree
// stays linear in its size.
bool printLine(const Json& json, std::string& out, std::size_t most) {
  if (json.isNull()) {
    out += "null";
  } else if (const bool* b = json.boolean()) {
    out += *b ? "true" : "false";
  } else if (const double* n = json.number()) {
    out += printNumber(*n);
  } else if (const std::string* t = json.text()) {
    printText(*t, out);
  } else if (const Json::List* list = json.list()) {
    out += '[';
    for (std::size_t i = 0; i < list->size(); ++i) {
      if (i) out += ", ";
      if (!printLine((*list)[i], out, most)) return false;
    }
    out += ']';
  } else {
    const Json::Object& object = *json.object();
    out += '{';
    for (std::size_t i = 0; i < object.size(); ++i) {
      if (i) out += ", ";
      printText(object[i].key, out);
      out += ": ";
      if (!printLine(object[i].value, out, most)) return false;
    }
    out += '}';
  }
  return out.size() <= most || columnsOf(out) <= most;
}

// used: columns before the value on its line; after: columns that follow it (a comma).
void print(const Json& json, std::string& out, std::size_t indent, std::size_t used,
           std::size_t after) {
  const bool branches = json.list() || json.object();
  const std::size_t most = used + after < kColumns ? kColumns - used - after : 0;
  std::string line;
  if (!branches || printLine(json, line, most)) {
    if (!branches) printLine(json, line, std::string::npos);
    out += line;
    return;
  }
  const std::string inner(indent + 2, ' ');
  const Json::List* list = json.list();
  const std::size_t size = list ? list->size() : json.object()->size();
  out += list ? "[\n" : "{\n";
  for (std::size_t i = 0; i < size; ++i) {
    const std::size_t comma = i + 1 < size ? 1 : 0;
    out += inner;
    if (list) {
      print((*list)[i], out, indent + 2, indent + 2, comma);
    } else {
      const JsonMember& member = (*json.object())[i];
      std::string key;
      printText(member.key, key);
      out += key;
      out += ": ";
      print(member.value, out, indent + 2, indent + 4 + columnsOf(key), comma);
    }
    out += comma ? ",\n" : "\n";
  }
  out += std::string(indent, ' ') + (list ? ']' : '}');
}

}  // namespace

Json::Json() = default;
Json::Json(bool v) : value(v) {}
Json::Json(double v) : value(v) {}
Json::Json(std::string v) : value(std::move(v)) {}
Json::Json(List v) : value(std::move(v)) {}
Json::Json(Object v) : value(std::move(v)) {}
Json::Json(const Json&) = default;
Json::Json(Json&&) noexcept = default;
Json& Json::operator=(const Json&) = default;
Json& Json::operator=(Json&&) noexcept = default;
Json::~Json() = default;
bool Json::operator==(const Json& other) const { return value == other.value; }

const Json* Json::find(std::string_view key) const {
  if (const Object* members = object())
    for (const JsonMember& member : *members)
      if (member.key == key) return &member.value;
  return nullptr;
}
Json* Json::find(std::string_view key) {
  return const_cast<Json*>(static_cast<const Json*>(this)->find(key));  // of this very tree
}

std::string_view kindOf(const Json& json) {
  static constexpr std::array<std::string_view, 6> kinds{"null",   "true or false", "a number",
                                                         "a text", "a list",        "an object"};
  return kinds[json.value.index()];
}

std::string printNumber(double number) {
  if (number == 0) return "0";  // no "-0" either
  std::array<char, 32> buffer;
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
  BELVEDERE_CHECK(error == std::errc{}, "32 characters hold any shortest double");
  return std::string(buffer.data(), end);
}

std::string printJson(const Json& json) {
  std::string out;
  print(json, out, 0, 0, 0);
  return out + '\n';
}

std::string printJsonLine(const Json& json) {
  std::string out;
  printLine(json, out, std::string::npos);
  return out;
}

std::string pointerPart(std::string_view key) {
  std::string part;
  for (const char c : key) {
    if (c == '~') part += "~0";
    else if (c == '/') part += "~1";
    else part += c;
  }
  return part;
}

std::string shown(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (out.size() >= 60 && (static_cast<unsigned char>(c) & 0xC0) != 0x80) return out + "...";
    out += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? '?' : c;
  }
  return out;
}

}  // namespace belvedere::design
