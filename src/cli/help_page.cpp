// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/help_page.h"

#include <algorithm>
#include <vector>

#include "cli/page.h"

namespace belvedere::cli {

namespace {
constexpr std::size_t kIndent = 2;
constexpr std::size_t kLeftMost = 30;  // a longer left side has its text on the next line

std::string entries(const std::vector<std::pair<std::string, std::string>>& list) {
  std::size_t left_columns = 0;
  for (const auto& [left, right] : list)
    if (columnsOf(left) <= kLeftMost) left_columns = std::max(left_columns, columnsOf(left));
  std::string out;
  for (const auto& [left, right] : list) {
    const std::size_t indent = kIndent + left_columns + 2;
    const std::string body = wrapped(right, indent, indent);
    if (columnsOf(left) > left_columns)
      out += std::string(kIndent, ' ') + left + '\n' + body;
    else
      out += std::string(kIndent, ' ') + padRight(left, left_columns + 2) + body.substr(indent);
  }
  return out;
}

std::string optionLeft(const CLI::Option& option) {
  std::string left = option.get_name(false, true);
  std::replace(left.begin(), left.end(), ',', ' ');
  // The word for its value; what a check says about it (after a colon) is for whoever misses it.
  const std::string type = option.get_type_name();
  if (option.get_items_expected_max() > 0 && !type.empty())
    left += ' ' + type.substr(0, type.find(':'));
  return left;
}

// Examples: a line of a call, then one of what it answers, each with its own indent.
std::string examplesText(const std::string& footer) {
  std::string out;
  for (std::size_t at = 0; at < footer.size();) {
    const std::size_t end = std::min(footer.find('\n', at), footer.size());
    const std::string line = footer.substr(at, end - at);
    const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
    out += wrapped(line, indent, indent + kIndent);
    at = end + 1;
  }
  return out;
}
}  // namespace

std::string HelpPage::make_help(const CLI::App* app, std::string, CLI::AppFormatMode) const {
  const bool whole_program = app->get_parent() == nullptr;
  const std::string name =
      whole_program ? app->get_name() : app->get_parent()->get_name() + ' ' + app->get_name();
  std::string out = wrapped(name + ": " + app->get_description(), 0, 0);
  if (!app->get_footer().empty()) out += heading("Examples") + examplesText(app->get_footer());

  std::vector<std::pair<std::string, std::string>> given, options, commands;
  std::string usage = name;
  for (const CLI::App* command : app->get_subcommands({}))
    commands.emplace_back(command->get_name(), command->get_description());
  for (const CLI::Option* option : app->get_options()) {
    if (option->get_group().empty()) continue;
    if (option->get_positional())
      given.emplace_back(option->get_name(true), option->get_description());
    else
      options.emplace_back(optionLeft(*option), option->get_description());
  }
  if (!commands.empty()) usage += " COMMAND";
  for (const auto& [left, right] : given) usage += ' ' + left;
  usage += whole_program ? " ..." : " [options]";
  out += heading("Usage") + wrapped(usage, kIndent, kIndent);
  if (!commands.empty()) out += heading("Commands") + entries(commands);
  if (!given.empty()) out += heading("Given") + entries(given);
  if (!options.empty()) out += heading("Options") + entries(options);
  if (whole_program)
    out += heading("Ends with") +
           entries({{"0", "all is met"},
                    {"1", "something falls short, or is undecided"},
                    {"2", "the call is wrong"},
                    {"3", "the input is wrong: every problem with its place in the file"},
                    {"4", "our own mistake"},
                    {"130", "cancelled"}});
  return out;
}

}  // namespace belvedere::cli
