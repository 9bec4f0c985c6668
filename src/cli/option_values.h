// SPDX-License-Identifier: GPL-3.0-or-later
//
// Values of options, checked while the call is parsed, so that a slip is said before anything is
// computed, with the words that were written and what is allowed.
#pragma once

#include <tbb/global_control.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <string>

namespace belvedere::cli {

// A number, the whole of the text, within those bounds: `"2x" is no number from 0 to 1`.
CLI::Validator numberWithin(double least, double most);
CLI::Validator wholeNumberWithin(int least, int most);
CLI::Validator anyNumber();

// --threads N (0, which it is unless said: as many as the machine has).
void addThreads(CLI::App& command, int& threads);
// No more threads than that while it lives; null for 0.
std::unique_ptr<tbb::global_control> limitedTo(int threads);

// --json [FILE] into `to`: "" not asked for, "-" to stdout, or a file. settleJson, after parsing,
// turns --json without FILE into "-".
CLI::Option* addJson(CLI::App& command, std::string& to);
void settleJson(const CLI::Option& json, std::string& to);

// Throws CallError where a file could not be written there: its folder is missing or locked, or it
// is a folder itself.
void checkWritable(const std::filesystem::path& file);

}  // namespace belvedere::cli
