// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words and numbers of a text file, for whoever reads one. The same whatever the locale.
#pragma once

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <string_view>
#include <type_traits>

namespace belvedere::scene {

// Takes the next line off `text`, without its end; nothing when there is none.
inline std::optional<std::string_view> takeLine(std::string_view& text) {
  if (text.empty()) return std::nullopt;
  const std::size_t end = text.find('\n');
  std::string_view line = text.substr(0, end);
  text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  return line;
}

// Takes the next word off `text`; empty when there is none.
inline std::string_view takeWord(std::string_view& text) {
  constexpr std::string_view kBlank = " \t\r\n";
  const std::size_t begin = text.find_first_not_of(kBlank);
  if (begin == std::string_view::npos) {
    text = {};
    return {};
  }
  text.remove_prefix(begin);
  const std::size_t end = std::min(text.find_first_of(kBlank), text.size());
  const std::string_view word = text.substr(0, end);
  text.remove_prefix(end);
  return word;
}

// The whole word as a number; nothing for anything else, infinities and NaN included.
template <class Number>
std::optional<Number> numberOf(std::string_view word) {
  if (!word.empty() && word.front() == '+') word.remove_prefix(1);
  Number value{};
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (error != std::errc{} || end != word.data() + word.size()) return std::nullopt;
  if constexpr (std::is_floating_point_v<Number>)
    if (!std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace belvedere::scene
