// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/option_values.h"

#include <unistd.h>

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <limits>
#include <optional>
#include <system_error>

#include "cli/command.h"
#include "cli/page.h"

namespace belvedere::cli {

namespace {
namespace fs = std::filesystem;

// The number that is the whole text; no NaN, no infinity.
std::optional<double> numberOf(const std::string& text) {
  if (text.empty() || std::string_view(" \t\n").find(text.front()) != std::string_view::npos)
    return {};
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (end != text.c_str() + text.size() || !std::isfinite(value)) return {};
  return value;
}

// "0.0001", where a double's own digits would be 0.00010000000000000000479.
std::string plain(double value) { return fmt::format("{:.10g}", value); }

// Names nothing: the type that the help shows is the option's own.
CLI::Validator validator(std::function<std::string(std::string&)> check) {
  return CLI::Validator(std::move(check), "", "");
}
}  // namespace

CLI::Validator numberWithin(double least, double most) {
  return validator([least, most](std::string& text) {
    const std::optional<double> value = numberOf(text);
    if (value && *value >= least && *value <= most) return std::string();
    return fmt::format("\"{}\" is no number from {} to {}", printable(text), plain(least),
                       plain(most));
  });
}

CLI::Validator wholeNumberWithin(int least, int most) {
  return validator([least, most](std::string& text) {
    const std::optional<double> value = numberOf(text);
    const bool digits = text.find_first_not_of("0123456789", text.front() == '-') == text.npos;
    if (value && digits && *value >= least && *value <= most) return std::string();
    return fmt::format("\"{}\" is no whole number from {} to {}", printable(text), least, most);
  });
}

CLI::Validator anyNumber() {
  return validator([](std::string& text) {
    return numberOf(text) ? std::string()
                          : fmt::format("\"{}\" is no number", printable(text));
  });
}

void addThreads(CLI::App& command, int& threads) {
  command
      .add_option("--threads", threads,
                  "threads to use; the answer is the same whatever their number")
      ->type_name("N")
      ->check(wholeNumberWithin(0, 1024));
}

std::unique_ptr<tbb::global_control> limitedTo(int threads) {
  if (threads <= 0) return nullptr;
  return std::make_unique<tbb::global_control>(tbb::global_control::max_allowed_parallelism,
                                               static_cast<std::size_t>(threads));
}

CLI::Option* addJson(CLI::App& command, std::string& to) {
  return command
      .add_option("--json", to,
                  "the answer as one JSON object, into FILE; without FILE, or with -, to the "
                  "standard output in place of the text")
      ->type_name("[FILE]")
      ->expected(0, 1);
}

void settleJson(const CLI::Option& json, std::string& to) {
  if (json.count() > 0 && to.empty()) to = "-";
  if (!to.empty() && to != "-") checkWritable(to);
}

void checkWritable(const fs::path& file) {
  const auto refuse = [&](const std::string& why) {
    throw CallError(
        fmt::format("\"{}\" cannot be written: {}", printable(file.string()), why));
  };
  std::error_code ignored;
  const fs::path folder = file.parent_path().empty() ? fs::path(".") : file.parent_path();
  if (fs::is_directory(file, ignored)) refuse("it is a folder");
  if (!fs::exists(folder, ignored))
    refuse(fmt::format("there is no folder \"{}\"", printable(folder.string())));
  if (!fs::is_directory(folder, ignored))
    refuse(fmt::format("\"{}\" is no folder", printable(folder.string())));
  // Files are written beside the old one and renamed; what is no ordinary file, as it is.
  const bool in_place = fs::exists(file, ignored) && !fs::is_regular_file(file, ignored);
  if (access((in_place ? file : folder).c_str(), W_OK) != 0)
    refuse(std::error_code(errno, std::generic_category()).message());
}

}  // namespace belvedere::cli
