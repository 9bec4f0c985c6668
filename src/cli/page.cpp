// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <cstdlib>
#include <utility>

namespace belvedere::cli {

namespace {
constexpr std::size_t kGap = 2;

// Bytes of the well-formed UTF-8 character at the start of `text`, 0 when there is none (RFC 3629:
// no overlong forms, no surrogates, nothing past U+10FFFF).
std::size_t characterBytes(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
  const std::uint8_t lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
  if (lead < 0xc2 || lead > 0xf4 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xc0) != 0x80) return 0;
  if (lead == 0xe0 && byte(1) < 0xa0) return 0;
  if (lead == 0xed && byte(1) > 0x9f) return 0;
  if (lead == 0xf0 && byte(1) < 0x90) return 0;
  if (lead == 0xf4 && byte(1) > 0x8f) return 0;
  return length;
}

// The first `columns` characters.
std::string_view firstOf(std::string_view text, std::size_t columns) {
  std::size_t at = 0;
  for (; at < text.size() && columns > 0; --columns)
    at += std::max<std::size_t>(1, characterBytes(text.substr(at)));
  return text.substr(0, std::min(at, text.size()));
}
}  // namespace

std::size_t pageColumns() {
  static constexpr std::size_t kInAFile = 100, kLeast = 72;
  static const std::size_t columns = [] {
    if (isatty(STDOUT_FILENO) != 1) return kInAFile;
    const char* stated = std::getenv("COLUMNS");
    if (const long wide = stated == nullptr ? 0 : std::strtol(stated, nullptr, 10);
        wide > 0 && wide < 10'000)
      return std::max(kLeast, static_cast<std::size_t>(wide));
    winsize size{};
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
      return std::max(kLeast, static_cast<std::size_t>(size.ws_col));
    return kInAFile;
  }();
  return columns;
}

std::size_t columnsOf(std::string_view text) {
  std::size_t columns = 0;
  for (std::size_t at = 0; at < text.size(); ++columns)
    at += std::max<std::size_t>(1, characterBytes(text.substr(at)));
  return columns;
}

std::string printable(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t bytes = characterBytes(text.substr(at));
    const auto lead = static_cast<std::uint8_t>(text[at]);
    // C1 controls are U+0080 to U+009F: c2 80 to c2 9f.
    const bool command =
        bytes == 0 || lead < 0x20 || lead == 0x7f ||
        (bytes == 2 && lead == 0xc2 && static_cast<std::uint8_t>(text[at + 1]) < 0xa0);
    if (text[at] == '\n' || text[at] == '\t')
      out += ' ';
    else if (command)
      out += '?';
    else
      out += text.substr(at, bytes);
    at += std::max<std::size_t>(1, bytes);
  }
  return out;
}

std::string cut(std::string_view text, std::size_t columns) {
  if (columnsOf(text) <= columns) return std::string(text);
  if (columns <= 2) return std::string(firstOf(text, columns));
  return std::string(firstOf(text, columns - 2)) + "..";
}

std::string wrapped(std::string_view text, std::size_t first, std::size_t others) {
  const std::size_t page = pageColumns();
  std::string out(first, ' ');
  std::size_t column = first;
  bool line_has_word = false;
  const auto newLine = [&] {
    out += '\n';
    out.append(others, ' ');
    column = others;
    line_has_word = false;
  };
  std::size_t at = 0;
  while (at < text.size()) {
    std::size_t end = std::min(text.find(' ', at), text.size());
    // A per cent sign stays with its figure.
    if (end > at && text.substr(end).starts_with(" %")) end = std::min(text.find(' ', end + 1), text.size());
    std::string_view word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    if (line_has_word && column + 1 + columnsOf(word) > page) newLine();
    while (column + (line_has_word ? 1 : 0) + columnsOf(word) > page) {
      const std::string_view part = firstOf(word, page - column);
      out += part;
      word.remove_prefix(part.size());
      newLine();
    }
    if (line_has_word) {
      out += ' ';
      ++column;
    }
    out += word;
    column += columnsOf(word);
    line_has_word = true;
  }
  return out + '\n';
}

std::string padRight(std::string_view text, std::size_t columns) {
  const std::size_t has = columnsOf(text);
  return std::string(text) + std::string(columns > has ? columns - has : 0, ' ');
}

std::string padLeft(std::string_view text, std::size_t columns) {
  const std::size_t has = columnsOf(text);
  return std::string(columns > has ? columns - has : 0, ' ') + std::string(text);
}

namespace {
// An id and the number at its end; -1 where there is none, or nothing before it that names.
std::pair<std::string, long> stemAndNumber(const std::string& id) {
  constexpr std::size_t kDigitsMost = 9;
  const std::size_t from = id.find_last_not_of("0123456789") + 1;  // npos + 1 is 0
  const bool named = std::any_of(id.begin(), id.begin() + static_cast<std::ptrdiff_t>(from),
                                 [](unsigned char c) { return std::isalpha(c) != 0; });
  const bool counted =
      named && from < id.size() && id.size() - from <= kDigitsMost && id[from] != '0';
  return {id.substr(0, from), counted ? std::stol(id.substr(from)) : -1};
}

// How many from the i-th on are numbered on by one and `alike`; at least 1.
template <class Id, class Alike>
std::size_t runFrom(std::size_t i, std::size_t count, const Id& id, const Alike& alike) {
  constexpr std::size_t kFewest = 3;  // two are written out
  const auto [stem, number] = stemAndNumber(id(i));
  std::size_t n = 1;
  while (number >= 0 && i + n < count && alike(i, i + n) &&
         stemAndNumber(id(i + n)) == std::pair{stem, number + static_cast<long>(n)})
    ++n;
  return n < kFewest ? 1 : n;
}

// As many lines as rows.
std::string asWritten(const Table& table, std::size_t indent) {
  const auto& [align, head, rows] = table;
  std::vector<std::size_t> width(align.size(), 0);
  const auto widen = [&](const std::vector<std::string>& row) {
    for (std::size_t c = 0; c < row.size() && c < width.size(); ++c)
      width[c] = std::max(width[c], columnsOf(row[c]));
  };
  widen(head);
  for (const auto& row : rows) widen(row);
  const std::size_t page = pageColumns();
  std::size_t total = indent + kGap * (align.empty() ? 0 : align.size() - 1);
  for (const std::size_t w : width) total += w;
  while (total > page) {
    std::size_t widest = align.size();
    for (std::size_t c = 0; c < align.size(); ++c)
      if (align[c] == 'l' && (widest == align.size() || width[c] > width[widest])) widest = c;
    if (widest == align.size() || width[widest] <= 3) break;
    --width[widest];
    --total;
  }
  std::string out;
  const auto line = [&](const std::vector<std::string>& row) {
    std::string one(indent, ' ');
    std::size_t column = indent;
    for (std::size_t c = 0; c < align.size(); ++c) {
      const std::string cell = c < row.size() ? row[c] : std::string();
      if (c > 0 && column + kGap + width[c] > page) {
        one.erase(one.find_last_not_of(' ') + 1);
        out += one + '\n';
        one.assign(indent + 2 * kGap, ' ');
        column = one.size();
      } else if (c > 0) {
        one.append(kGap, ' ');
        column += kGap;
      }
      column += width[c];
      one += align[c] == 'l' ? padRight(cut(cell, width[c]), width[c]) : padLeft(cell, width[c]);
    }
    one.erase(one.find_last_not_of(' ') + 1);
    out += one + '\n';
  };
  if (!head.empty()) line(head);
  for (const auto& row : rows) line(row);
  return out;
}
}  // namespace

std::string idList(const std::vector<std::string>& ids) {
  const auto id = [&](std::size_t i) { return ids[i]; };
  std::string text;
  for (std::size_t i = 0; i < ids.size();) {
    const std::size_t n = runFrom(i, ids.size(), id, [](std::size_t, std::size_t) { return true; });
    text += (text.empty() ? "" : ", ") + ids[i] + (n > 1 ? " to " + ids[i + n - 1] : "");
    i += n;
  }
  return text;
}

std::string Table::text(std::size_t indent) const {
  if (align.empty() || align[0] != 'l') return asWritten(*this, indent);
  const auto id = [&](std::size_t i) { return rows[i].empty() ? std::string() : rows[i][0]; };
  const auto alike = [&](std::size_t a, std::size_t b) {
    return rows[a].size() > 1 && std::equal(rows[a].begin() + 1, rows[a].end(),
                                            rows[b].begin() + 1, rows[b].end());
  };
  Table joined{align, head, {}};
  for (std::size_t i = 0; i < rows.size();) {
    const std::size_t n = runFrom(i, rows.size(), id, alike);
    joined.rows.push_back(rows[i]);
    if (n > 1) joined.rows.back()[0] += " to " + id(i + n - 1);
    i += n;
  }
  return asWritten(joined, indent);
}

std::string heading(std::string_view title) {
  return '\n' + wrapped(title, 0, 0) + std::string(std::min(columnsOf(title), pageColumns()), '-') +
         '\n';
}

}  // namespace belvedere::cli
