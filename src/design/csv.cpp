// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/csv.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/problem.h"

namespace belvedere::design {
namespace {

[[noreturn]] void refuse(const char* code, std::string where, std::string what, std::string hint) {
  throw InputError({{code, std::move(where), std::move(what), std::move(hint)}});
}

bool isUtf8(std::string_view s) {
  for (std::size_t i = 0; i < s.size();) {
    const auto c = static_cast<unsigned char>(s[i]);
    const int more = c < 0x80 ? 0 : c >= 0xc2 && c < 0xe0 ? 1 : c >= 0xe0 && c < 0xf0 ? 2
                     : c >= 0xf0 && c < 0xf5 ? 3 : -1;
    if (more < 0 || i + static_cast<std::size_t>(more) >= s.size()) return false;
    for (int k = 1; k <= more; ++k)
      if ((static_cast<unsigned char>(s[i + static_cast<std::size_t>(k)]) & 0xc0) != 0x80)
        return false;
    i += static_cast<std::size_t>(more) + 1;
  }
  return true;
}

char separatorOf(std::string_view text) {
  std::size_t commas = 0, semicolons = 0, tabs = 0;
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '\n' || c == '\r') break;
    commas += c == ',';
    semicolons += c == ';';
    tabs += c == '\t';
  }
  if (tabs > commas && tabs > semicolons) return '\t';
  return semicolons > commas ? ';' : ',';
}

std::string trimmed(const std::string& cell) {
  const std::size_t from = cell.find_first_not_of(" \t");
  if (from == std::string::npos) return {};
  return cell.substr(from, cell.find_last_not_of(" \t") - from + 1);
}

// "1,5", "12.25", "1.500": whole part, mark, digits behind it; mark 0 where it is no such number.
struct Marked {
  char mark = 0;
  std::size_t before = 0, behind = 0;
};
Marked markedNumber(std::string_view s) {
  if (!s.empty() && (s[0] == '-' || s[0] == '+')) s.remove_prefix(1);
  Marked m;
  for (const char c : s) {
    if (c == ',' || c == '.') {
      if (m.mark) return {};
      m.mark = c;
    } else if (c < '0' || c > '9') {
      return {};
    } else {
      ++(m.mark ? m.behind : m.before);
    }
  }
  return m.mark && m.behind > 0 ? m : Marked{};
}

}  // namespace

CsvTable parseCsv(std::string_view text, const CsvLimits& limits) {
  if (text.starts_with("\xef\xbb\xbf")) text.remove_prefix(3);
  if (text.find('\0') != std::string_view::npos || !isUtf8(text))
    refuse("csv_encoding", "", "the text is no UTF-8", "save it as CSV, UTF-8");
  CsvTable table;
  table.separator = separatorOf(text);
  std::vector<std::string> row;
  std::string cell;
  bool was_quoted = false;
  const auto endCell = [&] {
    row.push_back(was_quoted ? cell : trimmed(cell));
    cell.clear();
    was_quoted = false;
    if (row.size() > limits.columns)
      refuse("csv_too_large", fmt::format("row {}", table.rows.size() + 1),
             fmt::format("it has more than {} columns", limits.columns), "");
  };
  const auto endRow = [&] {
    endCell();
    table.rows.push_back(std::move(row));
    row.clear();
    if (table.rows.size() > limits.rows)
      refuse("csv_too_large", "", fmt::format("it has more than {} rows", limits.rows), "");
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"' && trimmed(cell).empty() && !was_quoted) {
      cell.clear();
      was_quoted = true;
      const std::size_t began = table.rows.size() + 1;
      for (++i;; ++i) {
        if (i >= text.size())
          refuse("csv_open_quote", fmt::format("row {}", began), "a double quote is never closed",
                 "double a quote within a quoted cell");
        if (text[i] != '"') cell += text[i];
        else if (i + 1 < text.size() && text[i + 1] == '"') cell += text[i++];
        else break;
      }
    } else if (c == table.separator) {
      endCell();
    } else if (c == '\n' || c == '\r') {
      if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') ++i;
      endRow();
    } else if (!was_quoted || (c != ' ' && c != '\t')) {
      cell += c;
    }
  }
  if (!cell.empty() || !row.empty() || was_quoted) endRow();
  if (table.rows.empty() || table.rows.front().empty())
    refuse("csv_empty", "", "the table is empty", "the first row names the columns");
  return table;
}

std::string csvCell(std::string_view cell) {
  const bool quote = cell.find_first_of(",;\"\r\n\t") != std::string_view::npos ||
                     (!cell.empty() && (cell.front() == ' ' || cell.back() == ' '));
  if (!quote) return std::string(cell);
  std::string out = "\"";
  for (const char c : cell) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

std::string withApostrophe(std::string_view cell) {
  static constexpr std::string_view risky = "=+-@\t\r'";
  if (!cell.empty() && risky.find(cell.front()) != std::string_view::npos)
    return "'" + std::string(cell);
  return std::string(cell);
}

DecimalMark decimalMark(const CsvTable& table, const std::vector<std::size_t>& number_columns) {
  if (table.separator == ',') return DecimalMark::point;
  bool comma = false, point = false;
  for (std::size_t r = 1; r < table.rows.size(); ++r)
    for (const std::size_t column : number_columns) {
      if (column >= table.rows[r].size()) continue;
      const std::string& cell = table.rows[r][column];
      for (std::size_t from = 0; from < cell.size();) {
        const std::size_t to = std::min(cell.find(' ', from), cell.size());
        const Marked m = markedNumber(std::string_view(cell).substr(from, to - from));
        // Three digits behind it could be thousands, unless nothing or too much stands before.
        const bool tells = m.mark && (m.behind != 3 || m.before == 0 || m.before > 3);
        comma = comma || (tells && m.mark == ',');
        point = point || (tells && m.mark == '.');
        from = to + 1;
      }
    }
  return comma == point ? DecimalMark::unclear : comma ? DecimalMark::comma : DecimalMark::point;
}

}  // namespace belvedere::design
