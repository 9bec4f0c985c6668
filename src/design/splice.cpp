// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/splice.h"

#include <algorithm>
#include <vector>

namespace belvedere::design {
namespace {

struct Span {
  std::size_t from = 0, to = 0;
};

constexpr std::string_view kSpace = " \t\r\n";

std::size_t pastSpace(std::string_view text, std::size_t at) {
  return std::min(text.find_first_not_of(kSpace, at), text.size());
}

std::size_t pastString(std::string_view text, std::size_t at) {
  for (++at; at < text.size() && text[at] != '"'; ++at)
    if (text[at] == '\\') ++at;
  return std::min(at + 1, text.size());
}

std::size_t pastValue(std::string_view text, std::size_t at) {
  if (at >= text.size()) return text.size();
  if (text[at] == '"') return pastString(text, at);
  if (text[at] != '{' && text[at] != '[')
    return std::min(text.find_first_of(",]} \t\r\n", at), text.size());
  for (int depth = 0; at < text.size();) {
    const char c = text[at];
    if (c == '"') {
      at = pastString(text, at);
      continue;
    }
    if (c == '{' || c == '[') ++depth;
    if (c == '}' || c == ']') --depth;
    ++at;
    if (depth == 0) break;
  }
  return at;
}

// The items between the brackets at `at`; of an object, its values, with their keys in `keys`.
std::vector<Span> itemsAt(std::string_view text, std::size_t at, std::vector<Span>* keys) {
  std::vector<Span> items;
  const char end = text[at] == '{' ? '}' : ']';
  at = pastSpace(text, at + 1);
  while (at < text.size() && text[at] != end) {
    if (keys) {
      const std::size_t key_end = pastString(text, at);
      keys->push_back({at, key_end});
      at = pastSpace(text, pastSpace(text, key_end) + 1);  // past the colon
    }
    const std::size_t to = pastValue(text, at);
    items.push_back({at, to});
    at = pastSpace(text, to);
    if (at < text.size() && text[at] == ',') at = pastSpace(text, at + 1);
  }
  return items;
}

// What stands before a place in its line, where that is nothing but space; else no place of its own.
std::optional<std::string> indentBefore(std::string_view text, std::size_t at) {
  const std::size_t line = text.rfind('\n', at);
  if (line == std::string_view::npos) return {};
  const std::string_view before = text.substr(line, at - line);
  if (before.find_first_not_of(kSpace) != std::string_view::npos) return {};
  return std::string(before);
}

struct Outermost {
  std::size_t opens = 0;
  std::vector<Span> keys, values;
};
std::optional<Outermost> outermostOf(std::string_view text) {
  Outermost out;
  out.opens = pastSpace(text, text.starts_with("\xEF\xBB\xBF") ? 3 : 0);
  if (out.opens >= text.size() || text[out.opens] != '{') return {};
  out.values = itemsAt(text, out.opens, &out.keys);
  return out;
}

std::optional<Span> valueOf(std::string_view text, const Outermost& outermost, std::string_view key) {
  const std::string quoted = '"' + std::string(key) + '"';
  for (std::size_t i = 0; i < outermost.keys.size(); ++i) {
    const Span& k = outermost.keys[i];
    if (text.substr(k.from, k.to - k.from) == quoted) return outermost.values[i];
  }
  return {};
}

std::string with(std::string_view text, Span span, std::string_view put) {
  std::string out(text.substr(0, span.from));
  out += put;
  out += text.substr(span.to);
  return out;
}

}  // namespace

std::optional<std::string> listItem(std::string_view text, std::string_view key, std::size_t index) {
  const auto outermost = outermostOf(text);
  if (!outermost) return {};
  const auto list = valueOf(text, *outermost, key);
  if (!list || text[list->from] != '[') return {};
  const std::vector<Span> items = itemsAt(text, list->from, nullptr);
  if (index >= items.size()) return {};
  return std::string(text.substr(items[index].from, items[index].to - items[index].from));
}

std::optional<std::string> withListItem(std::string_view text, std::string_view key, std::size_t index,
                                        std::string_view item) {
  const auto outermost = outermostOf(text);
  if (!outermost || outermost->values.empty()) return {};
  const std::string indent =
      indentBefore(text, outermost->keys.front().from).value_or(std::string("\n  "));
  const std::string fresh = "[" + indent + "  " + std::string(item) + indent + "]";
  const auto list = valueOf(text, *outermost, key);
  if (!list) {
    if (index != 0) return {};
    const std::size_t end = outermost->values.back().to;
    return with(text, {end, end}, "," + indent + '"' + std::string(key) + "\": " + fresh);
  }
  if (text[list->from] != '[') return {};
  const std::vector<Span> items = itemsAt(text, list->from, nullptr);
  if (index < items.size()) return with(text, items[index], item);
  if (index > items.size()) return {};
  if (items.empty()) return with(text, *list, fresh);
  const std::string own = indentBefore(text, items.back().from).value_or(std::string(" "));
  return with(text, {items.back().to, items.back().to}, "," + own + std::string(item));
}

}  // namespace belvedere::design
