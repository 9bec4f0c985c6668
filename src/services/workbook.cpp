// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/workbook.h"

#include <fmt/format.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <memory>
#include <system_error>

#include "base/check.h"
#include "design/csv.h"

namespace belvedere::services {

namespace {

namespace fs = std::filesystem;

constexpr const char* kWorkbook = "schedules.xlsx";
// Of a cell: the format's limit is 32,767 characters; bytes are no fewer.
constexpr std::size_t kCellBytes = 32'000;
constexpr double kWidthLeast = 11, kWidthMost = 48;
constexpr double kHeadHighPt = 48;  // three lines: titles are wrapped

std::string numberText(double value, int decimals) {
  const std::string text = fmt::format("{:.{}f}", value, std::max(decimals, 0));
  return text.find_first_not_of("-0.") == std::string::npos && text.front() == '-' ? text.substr(1)
                                                                                   : text;
}

// As many whole characters as the bytes allow.
std::string fitting(const std::string& text) {
  if (text.size() <= kCellBytes) return text;
  std::size_t end = kCellBytes;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0) == 0x80) --end;
  return text.substr(0, end);
}

[[noreturn]] void refuse(const fs::path& file, std::error_code why) {
  throw std::system_error(why, file.string());
}

fs::path besideOf(const fs::path& file) { return fs::path(file) += ".part"; }

// What was written beside a file takes its place.
void settle(const fs::path& file) {
  std::error_code error;
  fs::rename(besideOf(file), file, error);
  if (!error) return;
  std::error_code ignored;
  fs::remove(besideOf(file), ignored);
  refuse(file, error);
}

void writeText(const fs::path& file, const std::string& text) {
  std::ofstream out(besideOf(file), std::ios::binary);
  out << text;
  out.close();
  if (!out) {
    std::error_code ignored;
    fs::remove(besideOf(file), ignored);
    refuse(file, std::make_error_code(std::errc::io_error));
  }
  settle(file);
}

struct Formats {
  lxw_workbook* book;
  lxw_format *head, *head_of_numbers, *words;
  std::map<int, lxw_format*> number;

  explicit Formats(lxw_workbook* b)
      : book(b), head(workbook_add_format(b)), head_of_numbers(workbook_add_format(b)),
        words(workbook_add_format(b)) {
    for (lxw_format* format : {head, head_of_numbers}) {
      format_set_bold(format);
      format_set_bottom(format, LXW_BORDER_THIN);
      format_set_text_wrap(format);
      format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
    }
    // Numbers stand at the right, and words keep off a number before them.
    format_set_align(head_of_numbers, LXW_ALIGN_RIGHT);
    for (lxw_format* format : {head, words}) {
      format_set_align(format, LXW_ALIGN_LEFT);
      format_set_indent(format, 1);
    }
  }
  lxw_format* of(int decimals) {
    lxw_format*& format = number[decimals];
    if (format) return format;
    format = workbook_add_format(book);
    format_set_num_format(format,
                          decimals > 0 ? ("0." + std::string(static_cast<std::size_t>(decimals), '0')).c_str()
                                       : "0");
    return format;
  }
};

// As a header takes it: an ampersand begins a code there.
std::string inHeader(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '&' ? "&&" : std::string(1, c);
  return out;
}

void fill(lxw_worksheet* sheet, const Schedule& schedule, const std::string& title, Formats& formats) {
  const auto column = [](std::size_t c) { return static_cast<lxw_col_t>(c); };
  const auto row = [](std::size_t r) { return static_cast<lxw_row_t>(r); };
  worksheet_set_row(sheet, 0, kHeadHighPt, nullptr);
  for (std::size_t c = 0; c < schedule.columns.size(); ++c) {
    double width = kWidthLeast;
    for (const auto& cells : schedule.rows)
      if (const std::string* s = std::get_if<std::string>(&cells[c]))
        width = std::max(width, static_cast<double>(s->size()) + 2);
    worksheet_set_column(sheet, column(c), column(c), std::min(width, kWidthMost), nullptr);
    worksheet_write_string(sheet, 0, column(c), schedule.columns[c].title.c_str(),
                           schedule.columns[c].decimals < 0 ? formats.head : formats.head_of_numbers);
  }
  for (std::size_t r = 0; r < schedule.rows.size(); ++r)
    for (std::size_t c = 0; c < schedule.rows[r].size(); ++c) {
      const ScheduleCell& cell = schedule.rows[r][c];
      if (const double* value = std::get_if<double>(&cell))
        worksheet_write_number(sheet, row(r + 1), column(c), *value,
                               formats.of(schedule.columns[c].decimals));
      else if (const std::string* s = std::get_if<std::string>(&cell))
        worksheet_write_string(sheet, row(r + 1), column(c), fitting(*s).c_str(), formats.words);
    }
  worksheet_freeze_panes(sheet, 1, 1);
  worksheet_set_landscape(sheet);
  worksheet_set_paper(sheet, 8);  // A3
  worksheet_fit_to_pages(sheet, 1, 0);
  worksheet_repeat_rows(sheet, 0, 0);
  worksheet_set_header(sheet, ("&L" + inHeader(title) + "&R&A").c_str());
  worksheet_set_footer(sheet, "&RPage &P of &N");
}

void writeWorkbook(const std::vector<Schedule>& schedules, const std::string& title,
                   const fs::path& file) {
  const std::string beside = besideOf(file).string();
  lxw_workbook* book = workbook_new(beside.c_str());
  BELVEDERE_CHECK(book != nullptr, "a workbook can be made");
  Formats formats(book);
  lxw_doc_properties about{};
  std::string shown = title;
  shown.resize(std::min<std::size_t>(shown.size(), 120));
  while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0xc0) == 0x80) shown.pop_back();
  about.title = shown.data();
  about.created = 946'684'800;  // 2000-01-01: the same design gives the same bytes, whenever
  workbook_set_properties(book, &about);
  for (const Schedule& schedule : schedules) {
    std::string name = schedule.name;
    name.front() = static_cast<char>(name.front() - 'a' + 'A');
    fill(workbook_add_worksheet(book, name.c_str()), schedule, shown, formats);
  }
  if (workbook_close(book) != LXW_NO_ERROR) {
    std::error_code ignored;
    fs::remove(beside, ignored);
    refuse(file, std::make_error_code(std::errc::io_error));
  }
  settle(file);
}

}  // namespace

std::string scheduleCsv(const Schedule& schedule) {
  std::string out, separator;
  for (const ScheduleColumn& column : schedule.columns) {
    out += separator + design::csvCell(column.title);
    separator = ",";
  }
  out += "\r\n";
  for (const auto& row : schedule.rows) {
    separator.clear();
    for (std::size_t c = 0; c < row.size(); ++c) {
      out += separator;
      if (const double* value = std::get_if<double>(&row[c]))
        out += numberText(*value, schedule.columns[c].decimals);
      else if (const std::string* s = std::get_if<std::string>(&row[c]))
        out += design::csvCell(design::withApostrophe(*s));
      separator = ",";
    }
    out += "\r\n";
  }
  return out;
}

std::vector<fs::path> scheduleFiles(const std::vector<Schedule>& schedules, const fs::path& folder) {
  std::vector<fs::path> files;
  for (const Schedule& schedule : schedules) files.push_back(folder / (schedule.name + ".csv"));
  files.push_back(folder / kWorkbook);
  return files;
}

void writeSchedules(const std::vector<Schedule>& schedules, const std::string& title,
                    const fs::path& folder) {
  const std::vector<fs::path> files = scheduleFiles(schedules, folder);
  for (std::size_t i = 0; i < schedules.size(); ++i) writeText(files[i], scheduleCsv(schedules[i]));
  writeWorkbook(schedules, title, files.back());
}

}  // namespace belvedere::services
